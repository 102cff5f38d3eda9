"""What weighs against findings: records of the very number, the years of the model, and machines with numbers around.

knowledge/doubts.py, and its part of the answer and of the table of weights. How many years may lie between the
allocation of a number and the sale of its machine is common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest

from knowledge.answer import Answer, answer
from knowledge.base import Knowledge
from knowledge.contradictions import contradictions
from knowledge.findings import EVIDENCE, Finding
from knowledge.packs.tables import Pack
from tests.knowledge.small import block, register, table
from tests.knowledge.test_findings import codes, on


def lists(*blocks: dict[str, str]) -> Pack:
    return Pack.of(
        "small",
        table("makers", {"maker": "ottrel", "name": "Ottrel"}, {"maker": "wendel", "name": "Wendel"}),
        table("models", {"model": "m6", "maker": "ottrel", "name": "Model 6"},
              {"model": "m9", "maker": "ottrel", "name": "Model 9"},
              {"model": "stine", "maker": "ottrel", "name": "Stine", "introduced": "1898", "withdrawn": "1931"},
              {"model": "m43", "maker": "ottrel", "name": "Model 43", "introduced": "1936", "source": "book"}),
        table("registers", register("allocations", maker="ottrel", title="Ottrel's ledger")),
        table("allocations", *(blocks or (block("K 1-999", "1880"),))),
        table("sources", {"source": "book", "title": "The book of models"}),
    )  # fmt: skip


LISTED = block("K 200001-225000", "1904", model="m6")


def ledger(*years: int, step: int = 40, prefix: str = "S", first: int = 4000, **more: Any) -> list[Finding]:
    """Return findings on numbers one after the other, of one year each."""
    told = {"model": ""} | more
    return [
        on(f"{prefix}{first + step * at}", 100 + at, date=str(year), **told) for at, year in enumerate(years)
    ]  # fmt: skip


def knowing(*findings: Finding, blocks: tuple[dict[str, str], ...] = ()) -> Knowledge:
    return Knowledge.of([lists(*blocks)], findings)


def disagreements(answered: Answer) -> list[str]:
    return [one.text for one in answered.cautions if one.code == "lists-disagree"]


# --- the years of the model


@pytest.mark.parametrize(
    ("model", "date", "kind", "against"),
    [
        ("stine", "1905", "ledger", False), ("stine", "1898", "ledger", False), ("stine", "1934", "ledger", False),
        ("stine", "1965", "ledger", True), ("stine", "1935", "ledger", True), ("stine", "1897", "ledger", True),
        ("stine", "1898~", "feature", False), ("stine", "1895~", "feature", False), ("stine", "1890~", "feature", True),
        ("stine", "1937", "dated-document", False), ("stine", "1939", "dated-document", True),
        ("m43", "1950", "opinion", False), ("m43", "1931/1940", "opinion", False), ("m43", "1930", "opinion", True),
        ("m6", "1750", "opinion", False), ("stine", "", "ledger", False),
    ],
)  # fmt: skip
def test_a_finding_contradicts_the_years_of_its_model(model: str, date: str, kind: str, against: bool) -> None:
    finding = on("XQ4711", model=model, date=date, kind=kind)
    assert bool(contradictions(finding, knowing())) == against
    assert bool(contradictions(finding, knowing(finding))) == against
    assert bool(disagreements(answer("serial XQ4711", knowing(finding)))) == against


def test_the_years_of_a_model_are_told_with_their_source() -> None:
    assert contradictions(on("XQ4711", model="m43", date="1910"), knowing()) == (
        "Model 43 was made from 1936 on, says The book of models",
    )
    assert contradictions(on("XQ4711", model="stine", date="1965"), knowing()) == (
        "Stine was made from 1898 until 1931, says the list of models",
    )


# --- the machines around


AROUND = ledger(1900, 1901, 1902, 1903, 1904, 1905, 1906, 1907, 1908, 1909)
"""S4000 of 1900 to S4360 of 1909."""


@pytest.mark.parametrize("kind", ["dated-document", "ledger", "feature", "opinion"])
@pytest.mark.parametrize(
    ("date", "against"),
    [("1904", False), ("1905", False), ("1908", False), ("1901", False), ("1965", True), ("1880", True), ("", False)],
)
def test_a_finding_far_off_the_machines_around_is_told_to_be_before_and_after_it_is_stored(
    date: str, against: bool, kind: str
) -> None:
    finding = on("S4170", model="" if date else "m9", date=date, kind=kind)
    before, after = contradictions(finding, knowing(*AROUND)), contradictions(finding, knowing(*AROUND, finding))
    assert bool(before) == against
    assert before == after
    assert bool(disagreements(answer("serial S4170", knowing(*AROUND, finding)))) == against


def test_it_names_both_machines_with_their_evidence() -> None:
    (words,) = contradictions(on("S4170", model="stine", date="1930"), knowing(*AROUND))
    assert words == (
        "machines before and after it say between 1904 and 1905: "
        "S4160 (1904, ledger p. 40) and S4200 (1905, ledger p. 40)"
    )


def test_a_wrong_receipt_is_told_to_whoever_asks_next_and_is_not_almost_certain() -> None:
    wrong = on("S4170", model="stine", date="1965", kind="dated-document", evidence="receipt")
    answered = answer("How old is S4170?", knowing(*AROUND, wrong))
    (told,) = disagreements(answered)
    assert "Stine was made from 1898 until 1931" in told
    assert "S4160 (1904" in told
    assert answered.candidates[0].likelihood <= 0.9
    assert answered.case == ()


def test_a_model_that_neither_of_the_machines_around_has_is_told_too() -> None:
    around = ledger(1904, 1905, model="m9", step=200)
    (words,) = contradictions(on("S4100", model="m6", date="1904"), knowing(*around))
    assert words.startswith("machines before and after it say Model 9: S4000")
    assert contradictions(on("S4100", model="m9", date="1904"), knowing(*around)) == ()
    mixed = [*around[:1], *ledger(1905, model="m6", first=4200)]
    assert contradictions(on("S4100", 1, model="m6"), knowing(*mixed)) == ()


def test_machines_of_another_maker_or_with_other_letters_or_on_one_side_alone_say_nothing() -> None:
    wrong = on("S4170", model="", date="1965")
    assert contradictions(wrong, knowing(*ledger(1904, 1905, maker="wendel", step=300))) == ()
    assert contradictions(wrong, knowing(*ledger(1904, 1905, prefix="T", step=300))) == ()
    assert contradictions(wrong, knowing(*ledger(1904, 1905, step=20))) == ()


def test_an_opinion_is_no_machine_that_speaks_against_another() -> None:
    around = ledger(1904, 1905, kind="opinion", step=300)
    assert contradictions(on("S4170", model="", date="1965"), knowing(*around)) == ()


def test_a_number_with_letters_among_its_digits_lies_between_no_others() -> None:
    assert contradictions(on("A3B4711", model="", date="1965"), knowing(*AROUND)) == ()


# --- records against grounds


@pytest.mark.parametrize("kind", EVIDENCE)
def test_what_a_finding_weighs_beside_a_list_that_says_otherwise_falls_with_its_evidence(kind: str) -> None:
    answered = answer("How old is K204117?", knowing(on("K204117", date="1950", kind=kind), blocks=(LISTED,)))
    listed = next(one for one in answered.candidates if one.register)
    settled = next(one for one in answered.candidates if one.kind == "finding")
    assert (settled.likelihood > listed.likelihood) == (kind != "opinion")
    assert listed.likelihood > 0.1


def test_a_bare_opinion_does_not_outweigh_the_record_that_contradicts_it() -> None:
    opinion = on("K204117", model="m43", date="1950", kind="opinion", evidence="")
    answered = answer("K204117?", knowing(opinion, blocks=(LISTED,)))
    best, second = answered.candidates[:2]
    assert (best.kind, best.model, second.kind) == ("allocation", "m6", "finding")
    assert best.likelihood > 0.5 > second.likelihood > 0.1
    assert "lists-disagree" in codes(answered)


@pytest.mark.parametrize("kind", EVIDENCE)
def test_beside_a_list_that_agrees_or_of_another_maker_a_finding_weighs_as_ever(kind: str) -> None:
    for finding in (on("K204117", model="m6", date="1905", kind=kind), on("K204117", maker="wendel", kind=kind)):
        best, *_ = answer("K204117?", knowing(finding, blocks=(LISTED,))).candidates
        assert best.kind == "finding"
        assert best.likelihood > 0.8


def test_machines_around_date_the_number_before_an_opinion_that_they_contradict() -> None:
    opinion = on("S4170", model="", date="1965", kind="opinion")
    alone, beside = (answer("serial S4170", knowing(opinion, *around)).candidates for around in ([], AROUND))
    assert (alone[0].date, beside[0].kind, beside[0].date) == ("1965", "inferred", "1904/1905")
    assert alone[0].likelihood > 0.8
    assert 0.1 < next(one.likelihood for one in beside if one.date == "1965") < 0.5 < beside[0].likelihood


@pytest.mark.parametrize("kind", ["dated-document", "ledger", "feature"])
def test_what_is_seen_of_a_machine_goes_before_what_the_machines_around_make_of_it(kind: str) -> None:
    first, second = answer("serial S4170", knowing(on("S4170", model="", date="1965", kind=kind), *AROUND)).candidates[
        :2
    ]
    assert (first.date, second.kind, second.date) == ("1965", "inferred", "1904/1905")
    assert second.likelihood > 0.05


def test_an_opinion_on_a_model_that_was_not_made_then_leaves_room_for_none_of_these() -> None:
    wrong = on("XQ4711", model="stine", date="1965", kind="opinion")
    assert answer("serial XQ4711", knowing(wrong)).candidates[0].likelihood < 0.5


# --- machines within a block that disagree with the list


def test_machines_on_both_sides_in_a_block_that_show_another_model_are_told_and_change_no_likelihood() -> None:
    around = [on("K203900", 1, date=""), on("K204300", 2, date="")]
    with_, without = (answer("How old is K204117?", knowing(*known, blocks=(LISTED,))) for known in (around, []))
    (told,) = disagreements(with_)
    assert "K203900" in told
    assert "K204300" in told
    assert "Model 9" in told
    assert "Ottrel's ledger" in told
    listed = [one for one in with_.candidates if one.register]
    assert [one.serial for one in listed] == [one.serial for one in without.candidates if one.register]
    assert with_.candidates[0].register == "list"


@pytest.mark.parametrize(("years", "told"), [((1904, 1905), False), ((1907, 1909), False), ((1930, 1932), True)])
def test_machines_in_a_block_are_told_where_their_dates_are_far_off_the_lists(
    years: tuple[int, int], told: bool
) -> None:
    around = ledger(*years, prefix="K", first=203900, step=400)
    answered = answer("How old is K204117?", knowing(*around, blocks=(LISTED,)))
    assert bool(disagreements(answered)) == told
    assert not any(one.kind == "inferred" and one.date for one in answered.candidates)


@pytest.mark.parametrize("numbers", [("K199000", "K204300"), ("K203900", "K226000"), ("K203900", "K204000")])
def test_machines_of_other_blocks_or_on_one_side_say_nothing_of_a_block(numbers: tuple[str, str]) -> None:
    around = [on(number, at, date="1930") for at, number in enumerate(numbers, 1)]
    assert disagreements(answer("How old is K204117?", knowing(*around, blocks=(LISTED,)))) == []


def test_a_machine_that_is_settled_itself_is_compared_once() -> None:
    around = [on("K203900", 1, date=""), on("K204300", 2, date=""), on("K204117", 3, model="m6", date="1904")]
    assert len(disagreements(answer("How old is K204117?", knowing(*around, blocks=(LISTED,))))) == 1


def test_nothing_found_out_means_nothing_said() -> None:
    assert disagreements(answer("How old is K204117?", knowing(blocks=(LISTED,)))) == []
