"""The answer as a whole, and the JSON that others may rely on (DESIGN section 5)."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.answer import answer, as_json
from knowledge.base import Knowledge
from tests.knowledge.small import block, blocks, pack, register, table

MAKERS = table("makers", {"maker": "we", "name": "Aldersyde", "where": "On the bed, near the pillar."})
KNOWN = blocks(
    block("K 200001-225000", "1890", model="m6"),
    block("K 0200001-0225000", "1921-03-02", model="m9", works="quay", source="ledger", quantity="25000"),
    more=[MAKERS],
)
SENTENCE = "my gran's machine says K 0 204 117, how old is it? Call 01632 960123"


def test_a_sentence_becomes_the_json_of_the_design() -> None:
    found = as_json(answer(SENTENCE, KNOWN))
    assert found["text"] == SENTENCE
    assert found["tokens"] == [
        {
            "text": "K 0 204 117",
            "start": 23,
            "end": 34,
            "prefix": "K",
            "digits": "0204117",
            "suffix": "",
            "introduced": True,
        }
    ]
    assert found["passed_over"] == [{"text": "01632 960123", "start": 56, "end": 68, "because": "telephone"}]
    best = dict(found["candidates"][0])
    assert best.pop("likelihood") > 0.8
    assert best.items() >= {
        "token": 0, "serial": "K0204117", "steps": ["as-typed"], "kind": "allocation", "maker": "we",
        "register": "list", "model": "m9", "works": "quay", "first": "0200001", "last": "0225000",
        "quantity": 25000, "position": 4117,
        "date": "1921-03-02", "earliest": "1921-03-02", "latest": "1921-03-02",
        "object": "allocation", "source": "ledger",
    }.items()  # fmt: skip
    assert found["working"][0] == "K, then 7 digits, the first a zero: K0204117."
    assert found["ask_back"] is None
    assert found["case"] is None


def test_likelihoods_are_sorted_and_those_of_one_token_add_up_to_at_most_one() -> None:
    candidates = as_json(answer("K204117 or K204171?", KNOWN))["candidates"]
    shares = [one["likelihood"] for one in candidates]
    assert shares == sorted(shares, reverse=True)
    for token in (0, 1):
        assert 0 < sum(one["likelihood"] for one in candidates if one["token"] == token) <= 1


@pytest.mark.parametrize(
    ("text", "reasons"),
    [
        ("how old is my machine?", ["no-token"]),
        ("serial QX123456, how old?", ["no-register"]),
        ("serial K999999?", ["outside-registers"]),
        ("K0204117, can I please talk to a real person about it?", ["asked-for-a-person"]),
        ("what is this? I attach a photo", ["photo-only"]),
    ],
)
def test_what_cannot_be_settled_is_a_case_with_its_reason(text: str, reasons: list[str]) -> None:
    case = as_json(answer(text, KNOWN))["case"]
    assert case is not None
    assert case["reasons"] == reasons


def test_one_dating_by_many_readings_is_settled() -> None:
    assert as_json(answer("serial K 0204?17", KNOWN))["case"] is None


def test_a_patent_later_than_the_list_is_a_case_and_said_to_be_so() -> None:
    grants = register("year-starts", "grants", introducer="patent", object="grant", to="600", title="Grants")
    rows = table("year-starts", {"register": "grants", "first": "1", "date": "1900"})
    known = Knowledge.of([pack(table("registers", grants), rows)])
    found = as_json(answer("patent no. 5,000, how old?", known))
    assert found["case"] == {"reasons": ["outside-registers"]}
    assert any(one["code"] == "outside-registers" and "Grants" in one["text"] for one in found["cautions"])


def test_an_open_end_of_a_date_is_null() -> None:
    best = as_json(answer("serial K5", blocks(block("K 1-9", "1912/.."))))["candidates"][0]
    assert (best["earliest"], best["latest"]) == ("1912-01-01", None)


def test_where_the_number_is_found_is_told_when_asked() -> None:
    assert answer("where do I find the number on an Aldersyde?", KNOWN).places[0].text == "On the bed, near the pillar."
    assert answer("K0204117", KNOWN).places == ()


def test_a_base_that_knows_nothing_answers_too() -> None:
    found = as_json(answer(SENTENCE, Knowledge.of([])))
    assert found["candidates"] == []
    assert found["tokens"]


@given(st.text(max_size=300))
def test_no_text_makes_it_fail_and_json_takes_every_answer(text: str) -> None:
    json.dumps(as_json(answer(text, KNOWN)))


@given(st.lists(st.sampled_from("K0204117 ?*#_-./,OIlSBZ9\n"), max_size=60).map("".join))
def test_no_text_of_numbers_and_marks_makes_it_fail(text: str) -> None:
    found = answer(text, KNOWN)
    assert all(text[token.start : token.end] == token.text for token in found.tokens)


@pytest.mark.parametrize("text", ["9" * 100_000, "K " * 50_000, "?" * 100_000, "K2" * 50_000, "0 " * 50_000])
def test_very_long_texts_are_answered(text: str) -> None:
    assert as_json(answer(text, KNOWN))["text"] == text
