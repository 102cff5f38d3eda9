"""Changes of registers in the file: two experts, a history that is only added to, and rows laid over the pack."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from knowledge.base import Knowledge
from knowledge.database import transaction
from knowledge.packs import Pack
from knowledge.register_changes.nouns import (
    IN_FORCE,
    PROPOSED,
    TAKEN_BACK,
    TURNED_DOWN,
    ChangeError,
    RegisterChange,
    as_cells,
    as_row,
)
from knowledge.register_changes.overlay import LAID_OVER, ROW_GONE
from knowledge.store import Store, open_store
from tests.knowledge.sharing.groups import our_pack

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
PACK = our_pack()
FIRST, SECOND = list(PACK.rows("allocations", *PACK.tables["allocations"].columns))
CORRECTED = as_row("allocations", as_cells("allocations", FIRST) | {"date": "1891"})
A_CHANGE = RegisterChange("ours", "allocations", FIRST, CORRECTED, proposer="expert 1", at=NOON, why="see p. 4")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "base.sqlite"


@pytest.fixture
def kept(path: Path) -> Iterator[Store]:
    with open_store(path, create=True) as store:
        store.save_pack(PACK)
        yield store


def dates(store: Store) -> list[str]:
    return [date for (date,) in store.source("ours").rows("allocations", "date")]


def in_force(store: Store, change: RegisterChange = A_CHANGE) -> RegisterChange:
    return store.decide_change(store.add_change(change).number, IN_FORCE, "expert 2", NOON)


def test_a_proposal_alone_changes_nothing(kept: Store) -> None:
    before = kept.revision()
    one = kept.add_change(A_CHANGE)
    assert one.state == PROPOSED
    assert dates(kept) == ["1890", "1895"]
    assert kept.revision() == before


def test_agreed_by_another_it_is_in_force_and_everybody_who_reads_sees_it(kept: Store) -> None:
    before = kept.revision()
    one = in_force(kept)
    assert (one.state, one.proposer, one.other) == (IN_FORCE, "expert 1", "expert 2")
    assert dates(kept) == ["1891", "1895"]
    assert kept.revision() > before
    assert Knowledge.of(kept.sources()).covering("K", "204117", "")[0].date == "1891"


def test_whoever_proposed_it_cannot_agree(kept: Store) -> None:
    one = kept.add_change(A_CHANGE)
    with pytest.raises(ChangeError, match=r"another expert agrees"):
        kept.decide_change(one.number, IN_FORCE, "expert 1", NOON)
    assert dates(kept) == ["1890", "1895"]


def test_not_even_a_program_that_writes_to_the_file_can_agree_for_them(kept: Store, path: Path) -> None:
    one = kept.add_change(A_CHANGE)
    with closing(sqlite3.connect(path)) as raw, pytest.raises(sqlite3.IntegrityError, match=r"two experts agree"):
        raw.execute(
            "INSERT INTO register_decisions (change, what, who, at, why) VALUES (?, 'in force', 'expert 1', '', '')",
            (one.number,),
        )


@pytest.mark.parametrize("statement", [
    "UPDATE register_changes SET proposer = 'expert 9'", "DELETE FROM register_changes",
    "UPDATE register_decisions SET who = 'expert 9'", "DELETE FROM register_decisions",
])  # fmt: skip
def test_nothing_that_was_written_down_can_be_changed(kept: Store, path: Path, statement: str) -> None:
    in_force(kept)
    with closing(sqlite3.connect(path)) as raw, pytest.raises(sqlite3.IntegrityError, match=r"only added to"):
        raw.execute(statement)


def test_of_two_who_decide_at_once_the_second_hears_what_became_of_it(kept: Store, path: Path) -> None:
    one = kept.add_change(A_CHANGE)
    with open_store(path) as other:
        kept.decide_change(one.number, TURNED_DOWN, "expert 2", NOON)
        with pytest.raises(ChangeError, match=r"turned down already, by expert 2 on 2026-11-25"):
            other.decide_change(one.number, IN_FORCE, "expert 3", NOON)


def test_only_whoever_proposed_it_takes_it_back(kept: Store) -> None:
    one = kept.add_change(A_CHANGE)
    with pytest.raises(ChangeError, match=r"expert 1's"):
        kept.decide_change(one.number, TAKEN_BACK, "expert 2", NOON)
    assert kept.decide_change(one.number, TAKEN_BACK, "expert 1", NOON).state == TAKEN_BACK


def test_the_history_tells_who_did_what_and_why(kept: Store) -> None:
    one = in_force(kept)
    assert [(step.what, step.who, step.why) for step in kept.register_steps(one.number)] == [
        (PROPOSED, "expert 1", "see p. 4"), (IN_FORCE, "expert 2", ""),
    ]  # fmt: skip


def test_it_outlives_loading_the_pack_anew(kept: Store) -> None:
    in_force(kept)
    assert not kept.save_pack(PACK)
    kept.save_pack(replace(PACK, title="second printing"))
    assert dates(kept) == ["1891", "1895"]


def test_taking_the_pack_out_and_in_again_keeps_it_too(kept: Store) -> None:
    in_force(kept)
    kept.remove_pack("ours")
    kept.save_pack(PACK)
    assert dates(kept) == ["1891", "1895"]


def test_a_row_that_the_pack_says_otherwise_now_stands_and_the_change_is_told_not_lost(kept: Store) -> None:
    in_force(kept)
    columns = {**PACK.tables["allocations"].columns, "date": ["1889", "1895"]}
    kept.save_pack(Pack.of("ours", *(replace(one, columns=columns) if name == "allocations" else one
                                     for name, one in PACK.tables.items())))  # fmt: skip
    assert dates(kept) == ["1889", "1895"]
    assert [one.how for one in kept.standing("ours")] == [ROW_GONE]
    kept.save_pack(PACK)
    assert dates(kept) == ["1891", "1895"]
    assert [one.how for one in kept.standing("ours")] == [LAID_OVER]


def test_rows_of_other_packs_and_tables_are_left_alone(kept: Store) -> None:
    kept.save_pack(our_pack("theirs"))
    in_force(kept)
    assert [date for (date,) in kept.source("theirs").rows("allocations", "date")] == ["1890", "1895"]
    assert list(kept.source("ours").rows("models", "model")) == [("m9",), ("m6",)]


def test_unknown_columns_stay_with_their_rows(kept: Store) -> None:
    table = PACK.tables["allocations"]
    more = replace(table, columns={**table.columns, "page": ["3", "4"]})
    kept.save_pack(Pack.of("ours", *(more if name == "allocations" else one for name, one in PACK.tables.items())))
    in_force(kept)
    new = as_row("allocations", {"register": "list", "prefix": "K", "first": "1", "last": "9", "date": "1880"})
    in_force(kept, replace(A_CHANGE, before=None, after=new))
    assert list(kept.source("ours").rows("allocations", "date", "page")) == [("1880", ""), ("1891", "3"), ("1895", "4")]


def test_the_pack_as_it_stands_has_the_changes_in_it(kept: Store) -> None:
    in_force(kept)
    assert kept.pack("ours").tables["allocations"].columns["date"] == ["1891", "1895"]


def test_it_joins_a_transaction_that_is_open_and_goes_with_it(kept: Store) -> None:
    def both() -> None:
        with transaction(kept._database):
            in_force(kept)
            raise RuntimeError

    with pytest.raises(RuntimeError):
        both()
    assert kept.register_changes() == ()


def test_a_number_that_does_not_exist_is_said(kept: Store) -> None:
    with pytest.raises(ChangeError, match=r"no change 7"):
        kept.register_change(7)
