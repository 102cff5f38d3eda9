"""The question back: the one whose answer settles most, and none where nothing would change."""

from __future__ import annotations

import math

import pytest

from knowledge.answer import answer
from knowledge.ask_back import AskBack, gain
from knowledge.base import Knowledge
from knowledge.candidates import rank
from knowledge.said import Said
from tests.knowledge.small import block, blocks, pack, register, table, token

SIX, ZERO_LED = block("K 200001-225000", "1890", model="m6"), block("K 0200001-0225000", "1921", model="m9")


def asked(text: str, knowledge: Knowledge) -> AskBack | None:
    return answer(text, knowledge).ask_back


def test_the_digits_are_asked_for_when_their_count_decides() -> None:
    question = asked("serial K204117", blocks(SIX, ZERO_LED))
    assert question is not None
    assert (question.about, question.choices) == ("digits", ("6 digits", "7 digits"))


def test_nothing_is_asked_when_every_reading_gives_the_same_dating() -> None:
    assert asked("serial K204117", blocks(SIX)) is None


def test_nothing_is_asked_without_candidates() -> None:
    assert asked("serial XY123456", blocks(SIX)) is None
    assert asked("good morning", blocks(SIX)) is None


def test_the_letter_is_asked_for_when_it_decides() -> None:
    known = blocks(
        *(block(f"{letter} 200001-225000", year) for letter, year in (("K", "1890"), ("L", "1905"), ("M", "1927")))
    )
    question = asked("serial 204117", known)
    assert question is not None
    assert set(question.choices) == {"letter K", "letter L", "letter M"}


def test_the_name_on_the_machine_is_asked_for_when_makers_share_numbers() -> None:
    makers = table("makers", {"maker": "a", "name": "Aldersyde"}, {"maker": "b", "name": "Brunnhold"})
    registers = table(
        "registers", register("allocations", "ra", maker="a"), register("allocations", "rb", maker="b")
    )  # fmt: skip
    rows = table("allocations", block("1-9000", "1890", register="ra"), block("1-9000", "1921", register="rb"))
    question = asked("serial number 4711", Knowledge.of([pack(makers, registers, rows)]))
    assert question is not None
    assert (question.about, set(question.choices)) == ("maker", {"Aldersyde", "Brunnhold"})


def test_what_was_answered_is_not_asked_again() -> None:
    known = blocks(SIX, ZERO_LED)
    question = answer("serial K204117", known, Said(digit_count=7)).ask_back
    assert question is None or question.about != "digits"


@pytest.mark.parametrize(("shares", "bits"), [((0.5, 0.5), 1.0), ((0.25, 0.75), 0.8113), ((1.0,), 0.0)])
def test_the_gain_is_the_entropy_that_an_answer_takes_away(shares: tuple[float, ...], bits: float) -> None:
    """Shannon, A Mathematical Theory of Communication (1948): H = - sum p log2 p; 0.8113 for a quarter, from memory."""
    known = blocks(*(block(f"{'KLM'[at]} 1-9", str(1900 + at)) for at in range(len(shares))))
    one = rank(token("5"), 0, known, Said())
    candidates = [found._replace(likelihood=share) for found, share in zip(one, shares, strict=False)]
    assert math.isclose(gain(candidates, lambda found, _: found.reading.prefix, known), bits, abs_tol=1e-4)


def test_an_answer_that_splits_nothing_gains_nothing() -> None:
    known = blocks(SIX, ZERO_LED)
    assert gain(rank(token("K 204117"), 0, known, Said()), lambda found, _: found.maker, known) == 0.0
