"""Whoever is told what a changed row says is told that the group changed it, and when: promise 5."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from knowledge.answer import answer, as_json
from knowledge.base import Knowledge
from knowledge.packs import Pack
from knowledge.register_changes.nouns import IN_FORCE, RegisterChange, Row, as_cells, as_row
from knowledge.store import Store, open_store
from tests.knowledge.small import block, pack, register, table

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
CORRECTED = "corrected by the group's experts on 25 November 2026 (change 1)"
ADDED = "added by the group's experts on 25 November 2026 (change 1)"


def lists() -> Pack:
    return pack(
        table("makers", {"maker": "we", "name": "We & Sons"}),
        table("works", {"works": "mill", "maker": "we", "name": "The Mill"}),
        table("registers", register("allocations", source="ledger", title="The ledger"),
              register("year-starts", "years", source="ledger"),
              register("date-code", "codes", source="ledger", **{"from": "1900", "to": "1939"})),
        table("allocations", block("K 200001-225000", "1890"), block("K 225001-250000", "1895", source="book")),
        table("year-starts", {"register": "years", "prefix": "Y", "first": "1001", "date": "1901"},
              {"register": "years", "prefix": "Y", "first": "2001", "date": "1902"}),
        table("date-codes",
              {"register": "codes", "part": "1", "length": "1", "characters": "letters", "means": "year", "table": "t"},
              {"register": "codes", "part": "2", "length": "3", "characters": "digits", "means": "sequence"}),
        table("code-tables", {"table": "t", "code": "C", "value": "1912"},
              {"table": "t", "code": "D", "value": "1913"}),
        table("prefixes", {"register": "list", "prefix": "P", "date": "1880/1889", "works": "mill"}),
        table("sources", {"source": "ledger", "title": "The ledger, copied twice"},
              {"source": "book", "title": "A book"}),
    )  # fmt: skip


@pytest.fixture
def kept(tmp_path: Path) -> Iterator[Store]:
    with open_store(tmp_path / "base.sqlite", create=True) as store:
        store.save_pack(lists())
        yield store


def row_of(kept: Store, name: str, **key: str) -> Row:
    """Return the only row of a table with these cells."""
    rows = list(kept.pack("small").rows(name, *kept.pack("small").tables[name].columns))
    (row,) = [row for row in rows if key.items() <= as_cells(name, row).items()]
    return row


def changed(kept: Store, name: str, before: Row | None, **cells: str) -> Knowledge:
    """Put a change in force, and return what is known then."""
    after = as_row(name, (as_cells(name, before) if before else {}) | cells)
    return _in_force(kept, RegisterChange("small", name, before, after, proposer="expert 1", at=NOON))


def _in_force(kept: Store, change: RegisterChange) -> Knowledge:
    kept.decide_change(kept.add_change(change).number, IN_FORCE, "expert 2", NOON)
    return Knowledge.of(kept.sources())


def source_of(text: str, knowledge: Knowledge) -> str:
    source: str = as_json(answer(text, knowledge))["candidates"][0]["source"]
    return source


@pytest.mark.parametrize(
    ("name", "key", "cells", "asked", "other"),
    [
        ("allocations", {"first": "200001"}, {"date": "1891"}, "serial K 204117", "serial K 230000"),
        ("year-starts", {"first": "1001"}, {"date": "1900"}, "serial Y 1500", "serial Y 2500"),
        ("code-tables", {"code": "C"}, {"value": "1911"}, "serial C123", "serial D123"),
        ("prefixes", {"prefix": "P"}, {"date": "1881/1889"}, "serial P 55555", "serial K 204117"),
    ],
)
def test_a_corrected_row_names_its_source_and_the_change_with_its_day_and_no_other_row_does(
    kept: Store, name: str, key: dict[str, str], cells: dict[str, str], asked: str, other: str
) -> None:
    before = Knowledge.of(kept.sources())
    knowledge = changed(kept, name, row_of(kept, name, **key), **cells)
    assert source_of(asked, knowledge) == f"ledger; {CORRECTED}"
    assert source_of(other, knowledge) == source_of(other, before)


def test_a_row_of_a_code_changes_what_the_whole_code_says(kept: Store) -> None:
    knowledge = changed(kept, "date-codes", row_of(kept, "date-codes", part="2"), length="4")
    assert source_of("serial C1234", knowledge) == f"ledger; {CORRECTED}"


def test_a_source_of_the_rows_own_stays_beside_the_change(kept: Store) -> None:
    knowledge = changed(kept, "allocations", row_of(kept, "allocations", first="225001"), date="1896")
    assert source_of("serial K 230000", knowledge) == f"book; {CORRECTED}"


def test_a_new_row_is_no_record_of_the_register_it_was_added_to(kept: Store) -> None:
    knowledge = changed(kept, "allocations", None, register="list", prefix="K", first="1", last="9999", date="1880")
    assert source_of("serial K 4117", knowledge) == ADDED


def test_a_correction_that_was_corrected_tells_the_later_one_and_one_undone_tells_none(kept: Store) -> None:
    before = row_of(kept, "allocations", first="200001")
    changed(kept, "allocations", before, date="1891")
    after = row_of(kept, "allocations", first="200001")
    assert "change 2" in source_of("serial K 204117", changed(kept, "allocations", after, date="1892"))
    latest = row_of(kept, "allocations", first="200001")
    undone = _in_force(kept, RegisterChange("small", "allocations", latest, before, proposer="expert 1", at=NOON))
    assert source_of("serial K 204117", undone) == "ledger"


def test_a_pack_that_says_so_itself_meanwhile_is_its_own_record(kept: Store) -> None:
    changed(kept, "allocations", row_of(kept, "allocations", first="200001"), date="1891")
    kept.save_pack(kept.pack("small"))
    assert source_of("serial K 204117", Knowledge.of(kept.sources())) == "ledger"


def test_the_pack_as_it_stands_has_the_row_and_nothing_told_in_it(kept: Store) -> None:
    changed(kept, "allocations", row_of(kept, "allocations", first="200001"), date="1891")
    assert row_of(kept, "allocations", first="200001")[-2:] == ("", "")
