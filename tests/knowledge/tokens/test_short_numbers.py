"""Numbers of three and four digits: early machines have them, and so has everything else people count."""

from __future__ import annotations

import pytest

from knowledge.names import Names
from knowledge.tokens import find

NAMES = Names(
    shapes=frozenset({("", size, "") for size in (3, 4, 5, 6)} | {("K", 6, ""), ("K", 7, "")}),
    makers={"tollgate": ("tollgate",)},
)


def serials(text: str) -> list[str]:
    return [token.serial for token in find(text, NAMES).tokens]


@pytest.mark.parametrize(
    ("text", "serial"),
    [
        ("The number is 408. When was it made?", "408"),
        ("Number 408, how old is that?", "408"),
        ("die Nummer ist 5272, wie alt?", "5272"),
        ("my gran's machine says 358, can anybody date it?", "358"),
        ("What do I have here? 5494 It is a Tollgate", "5494"),
        ("380, how old is it?", "380"),
        ("929 ? It is a Tollgate.", "929"),
        ("5272? A Tollgate I think", "5272"),
    ],
)
def test_a_short_number_is_read_where_its_age_is_asked_or_a_maker_is_named_beside_it(text, serial) -> None:
    assert serials(text) == [serial]


@pytest.mark.parametrize(
    "text",
    [
        "When was number 9 made?", "How old is number 12, the red one?", "1929? Tollgate had no zigzag then", "408",
        "we were 408 people, how old was the eldest?", "929 likes for a Tollgate", "408? No, 409 of them came",
    ],
)  # fmt: skip
def test_a_short_number_of_anything_else_is_left(text) -> None:
    assert serials(text) == []


@pytest.mark.parametrize(
    ("text", "serial"),
    [
        ("5272 ? It is a Tollgate.", "5272"),
        ("K204117 ?", "K204117"),
        ("How old is K 204 117 ? Thanks", "K204117"),
        ("K 204 11 ?", "K20411?"),
        ("K 2041 ? 7", "K2041?7"),
        ("serial K 0 2 ? ? ? ? ?", "K02?????"),
    ],
)
def test_a_question_mark_behind_a_space_ends_a_question_where_the_number_is_whole_without_it(text, serial) -> None:
    assert serials(text) == [serial]
