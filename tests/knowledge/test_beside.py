"""Several machines in one message: each number goes with what is said of it."""

from __future__ import annotations

import pytest

from knowledge.answer import answer
from knowledge.beside import said_beside
from knowledge.tokens.nouns import Found
from tests.knowledge.small import block, blocks, table

KNOWN = blocks(
    block("K 200001-225000", "1890", model="m6"),
    block("K 0200001-0225000", "1921", model="m9"),
    more=[
        table("makers", {"maker": "we", "name": "We"}, {"maker": "tollgate", "name": "Tollgate"}),
        table(
            "models",
            {"model": "m6", "maker": "we", "name": "Model 6"},
            {"model": "m9", "maker": "we", "name": "Model 9"},
        )
    ],
)


def bests(text: str) -> list[str]:
    found = answer(text, KNOWN)
    return [found.of_token(place)[0].serial for place in range(len(found.tokens))]


@pytest.mark.parametrize(
    "text",
    [
        "I have a Model 6, serial K204117, and a Model 9, serial K204118.",
        "K204117 (Model 6) and K204118 (Model 9), how old are they?",
        "K204117 is a Model 6\nK204118 is a Model 9",
        "Modell 6 Nr. K204117 und Modell 9 Nr. K204118",
    ],
)
def test_each_number_goes_with_its_own_model(text: str) -> None:
    assert bests(text) == ["K204117", "K0204118"]


def test_what_is_said_once_is_said_of_all() -> None:
    assert bests("both are Model 9: K204117 and K204118") == ["K0204117", "K0204118"]


def test_a_caution_speaks_of_the_number_whose_model_does_not_fit() -> None:
    found = answer("a Model 6, serial K204117, and a Model 9, serial K204118", KNOWN)
    (text,) = [one.text for one in found.cautions if one.code == "other-model"]
    assert "K204118" in text
    assert "K204117" not in text


@pytest.mark.parametrize(
    ("text", "makers"),
    [
        ("X 9876543, Tollgate K 1204117, and Y 1234567", [(), ("tollgate",), ()]),
        ("X 9876543 and a Tollgate K 1204117", [(), ("tollgate",)]),
        ("X 9876543 (Tollgate) and K 1204117", [("tollgate",), ()]),
        ("X 9876543 [a Tollgate], K 1204117, Y 1234567", [("tollgate",), (), ()]),
        ("Tollgate X 9876543 (black) and K 1204117", [("tollgate",), ("tollgate",)]),
        ("X 9876543, K 1204117 (both Tollgate)", [("tollgate",), ("tollgate",)]),
        ("Two by Tollgate: X 9876543 and K 1204117", [("tollgate",), ("tollgate",)]),
        ("X 9876543 and K 1204117, both by Tollgate", [("tollgate",), ("tollgate",)]),
    ],
)
def test_a_maker_named_just_before_a_later_number_is_that_numbers_alone(text: str, makers: list) -> None:
    found = answer(text, KNOWN)
    beside = said_beside(text, Found(found.tokens, found.passed_over), found.said, KNOWN.names)
    assert [one.makers for one in beside] == makers
