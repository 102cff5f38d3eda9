"""Candidates: every dating of a number, the likeliest first, reordered by what the asker says."""

from __future__ import annotations

from typing import Any

import pytest

from knowledge import edtf, wording
from knowledge.base import Knowledge
from knowledge.candidates import Candidate, rank, rank_introduced
from knowledge.errors import UsageError
from knowledge.packs.tables import Pack
from knowledge.said import Said
from knowledge.tokens.nouns import PassedOver
from tests.knowledge.small import block, blocks, pack, register, table, token

SERIES = (
    block("K 200001-225000", "1890", model="m6", works="mill", order="1"),
    block("K 1000000-9999999", "1905", model="m7", order="2"),
    block("K 0200001-0225000", "1921-03-02", model="m9", works="quay", order="3", source="ledger", quantity="25000"),
)


def ranked(serial: str, knowledge: Knowledge | None = None, **said: Any) -> list[Candidate]:
    return rank(token(serial), 0, knowledge or blocks(*SERIES), Said(**said))


def test_a_candidate_says_all_that_the_register_says() -> None:
    best = ranked("K 0204117")[0]
    assert (best.serial, best.steps, best.kind, best.maker) == ("K0204117", ("as-typed",), "allocation", "we")
    assert (best.first, best.last, best.quantity, best.position) == ("0200001", "0225000", 25_000, 4_117)
    assert (best.model, best.works, best.date, best.source) == ("m9", "quay", "1921-03-02", "ledger")
    assert best.likelihood > 0.8


def test_the_number_as_typed_and_the_one_with_its_zero_back_both_stand_high() -> None:
    first, second, *others = ranked("K 204117")
    assert (first.serial, second.serial) == ("K204117", "K0204117")
    assert second.likelihood > 0.15 > 10 * max(one.likelihood for one in others)


def test_likelihoods_of_one_number_leave_something_for_none_of_these() -> None:
    for serial in ("K 204117", "204117", "K 20?117", "K 20411", "K 2?????"):
        assert 0 < sum(one.likelihood for one in ranked(serial)) < 1


def test_a_block_of_many_numbers_that_fit_a_pattern_is_likelier_than_one_of_few() -> None:
    known = blocks(block("K 200001-260000", "1890"), block("K 260001-260010", "1891"))
    best, *others = ranked("K 2?????", known)
    assert best.date == "1890"
    assert best.likelihood > 1_000 * others[0].likelihood


def test_overlapping_blocks_are_both_candidates() -> None:
    known = blocks(block("K 1-500", works="mill"), block("K 400-900", works="quay"), block("K 200001-225000"))
    assert {one.works for one in ranked("K 450", known) if one.serial == "K450"} == {"mill", "quay"}


@pytest.mark.parametrize(
    "said",
    [
        {"models": ("m9",)},
        {"digit_count": 7},
        {"leading_zero": True},
        {"dates": (edtf.parse("1922~"),)},
        {"works": ("quay",), "dates": (edtf.parse("192X"),)},
    ],
)
def test_what_the_asker_says_reorders_the_list(said: dict[str, Any]) -> None:
    assert ranked("K 204117")[0].serial == "K204117"
    assert ranked("K 204117", **said)[0].serial == "K0204117"


def test_nothing_is_dropped_because_it_does_not_fit() -> None:
    assert len(ranked("K 204117", models=("m9",))) == len(ranked("K 204117"))


def test_a_machine_is_sold_some_years_after_its_number_was_allocated() -> None:
    known = blocks(block("K 1-9", "1912"))
    at_once, later, much_later = (
        ranked("K 5", known, dates=(edtf.parse(year),))[0].likelihood for year in ("1912", "1915", "1940")
    )
    assert at_once == later > much_later


def test_a_number_that_no_block_holds_is_dated_by_the_second_list() -> None:
    second = table(
        "prefixes", {"register": "list", "prefix": "K", "date": "1889/1925", "works": "mill", "source": "dealers"}
    )
    known = blocks(*SERIES, more=[second])
    best = next(one for one in ranked("K 999999", known) if one.steps == ("as-typed",))
    assert (best.kind, best.date, best.works, best.first, best.source) == (
        "prefix",
        "1889/1925",
        "mill",
        None,
        "dealers",
    )
    assert not any(one.kind == "prefix" for one in ranked("K 204117", known))


PATENTS = Knowledge.of(
    [
        pack(
            table(
                "registers",
                register("year-starts", "grants", introducer="patent; pat. no.", object="grant", to="2999999"),
            ),
            table(
                "year-starts",
                {"register": "grants", "first": "1985878", "date": "1935"},
                {"register": "grants", "first": "2026516", "date": "1936"},
            ),
        )
    ]
)


def test_a_patent_is_dated_by_its_own_register_and_never_as_a_serial() -> None:
    passed = PassedOver("2,000,000", 0, 9, "patent", "2000000", "grants", ("grants",))
    (only,) = rank_introduced(passed, 3, PATENTS, Said())
    assert (only.date, only.object, only.token, only.passed_over) == ("1935", "grant", None, 3)
    assert ranked("2000000", PATENTS) == []


def test_two_packs_of_one_name_are_refused() -> None:
    one = pack(table("registers", register("allocations")), name="ours")
    with pytest.raises(UsageError, match="Two of the packs are called ours"):
        Knowledge.of([one, one])


def test_every_source_of_a_list_is_that_of_its_own_pack() -> None:
    def one(title: str) -> Pack:
        sources = table("sources", {"source": "s", "title": title}, {"source": "t", "title": title + " again"})
        rows = table("allocations", block("K 1-9", source="s;t"))
        return pack(sources, table("registers", register("allocations")), rows, name=title)

    known = Knowledge.of([one("ledger"), one("notebook")])
    titles = {wording.source_title(found, known) for found in ranked("K 5", known) if found.serial == "K5"}
    assert titles == {"ledger; ledger again", "notebook; notebook again"}


def test_two_packs_may_use_one_id_for_different_registers() -> None:
    def one(date: str) -> Pack:
        return pack(table("registers", register("allocations")), table("allocations", block("K 1-9", date)), name=date)

    known = Knowledge.of([one("1912"), one("1931")])
    assert {(found.register, found.date) for found in ranked("K 5", known)} == {("list", "1912"), ("1931/list", "1931")}


CODE = Knowledge.of(
    [
        pack(
            table("registers", register("date-code")),
            table(
                "date-codes",
                {
                    "register": "list",
                    "part": "1",
                    "length": "1",
                    "characters": "letters",
                    "means": "year",
                    "table": "years",
                },
                {
                    "register": "list",
                    "part": "2",
                    "length": "1",
                    "characters": "letters",
                    "means": "month",
                    "table": "months",
                },
                {"register": "list", "part": "3", "length": "5", "characters": "digits", "means": "sequence"},
            ),
            table(
                "code-tables",
                {"table": "years", "code": "A", "value": "1922"},
                {"table": "years", "code": "A", "value": "1945"},
                {"table": "years", "code": "B", "value": "1923"},
                {"table": "months", "code": "C", "value": "03"},
            ),
        )
    ]
)


@pytest.mark.parametrize(
    ("typed", "steps"),
    [
        ("AC 00417", {"as-typed"}),
        ("AC 417", {"zero-restored"}),
        ("AC 0417", {"zero-restored"}),
        ("AC 004117", {"digit-extra"}),
        ("AC 04017", {"digits-swapped"}),
    ],
)
def test_a_date_code_gives_each_of_its_years(typed: str, steps: set[str]) -> None:
    found = [one for one in ranked(typed, CODE) if one.serial == "AC00417"]
    assert {one.date for one in found} == {"1922-03", "1945-03"}
    assert {step for one in found for step in one.steps} == steps
    assert all((one.kind, one.first, one.quantity) == ("date-code", None, None) for one in found)


def test_a_row_that_nothing_bounds_has_no_last_number() -> None:
    known = Knowledge.of(
        [
            pack(
                table("registers", register("year-starts")),
                table("year-starts", {"register": "list", "first": "500", "date": "1900"}),
            )
        ]
    )
    best = ranked("70000", known)[0]
    assert (best.first, best.last, best.quantity, best.date) == ("500", None, None, "1900/..")


def test_a_code_that_is_held_is_likelier_than_a_machine_nobody_listed() -> None:
    years = [one for one in ranked("AC 00417", CODE) if one.steps == ("as-typed",)]
    assert sum(one.likelihood for one in years) > 0.75


@pytest.mark.parametrize("typed", ["AC ?????", "AC 0???7"])
def test_many_unreadable_places_of_a_code_are_searched_too(typed: str) -> None:
    assert {one.date for one in ranked(typed, CODE)} == {"1922-03", "1945-03"}
