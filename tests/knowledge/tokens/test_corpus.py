"""The whole corpus of hard messages, read with the names its own file gives: precision and recall of 0.99."""

from __future__ import annotations

import pytest

from knowledge.names import Names, fold
from knowledge.tokens import find
from tests.corpus.score import Hit, Message, PassedOver, Score, read, score


def names_for(message: Message) -> Names:
    return Names(
        shapes=message.shapes,
        models={fold(name): (name,) for name in message.models},
        makers={fold(name): (name,) for name in message.makers},
    )


def as_the_scorer_wants(message: Message) -> tuple[list[Hit], list[PassedOver]]:
    found = find(message.text, names_for(message))
    hits = [(token.prefix, token.digits, token.suffix, token.start, token.end) for token in found.tokens]
    return hits, [(piece.text, piece.because) for piece in found.passed_over]


@pytest.fixture(scope="module")
def result() -> Score:
    return score(read(), as_the_scorer_wants)


def test_nearly_every_token_found_is_a_serial_number(result: Score) -> None:
    assert result.precision >= 0.99, "\n".join(result.lines())


def test_nearly_every_serial_number_is_found(result: Score) -> None:
    assert result.recall >= 0.99, "\n".join(result.lines())


def test_what_is_passed_over_nearly_always_has_the_reason_a_reader_would_give(result: Score) -> None:
    assert result.reason_accuracy >= 0.95, "\n".join(result.lines())
