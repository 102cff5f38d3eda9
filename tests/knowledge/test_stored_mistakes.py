"""Tests of knowledge/stored_mistakes.py: what settled cases show is kept as counts and shares, by case and number."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from datetime import date
from pathlib import Path

import pytest

from knowledge.database import open_database, transaction
from knowledge.migrations import KNOWLEDGE
from knowledge.mistakes import Seen
from knowledge.store import Store, open_store

DAY = date(2026, 11, 25)
ZERO = Seen("zero-restored", {"as-typed": 0.75, "none": 0.05, "zero-restored": 0.2})
RIGHT = Seen("as-typed", {"as-typed": 0.75, "none": 0.05, "zero-restored": 0.2})


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "base.sqlite"


@pytest.fixture
def kept(path: Path) -> Iterator[Store]:
    with open_store(path, create=True) as store:
        yield store


def test_what_was_seen_comes_back_as_it_went_in_in_the_order_of_the_cases(kept: Store) -> None:
    kept.note_mistake(12, 0, RIGHT, DAY)
    kept.note_mistake(7, 1, ZERO, DAY)
    kept.note_mistake(7, 0, RIGHT, DAY)
    assert kept.mistakes() == (RIGHT, ZERO, RIGHT)


def test_a_case_settled_anew_shows_only_what_it_shows_now(kept: Store) -> None:
    kept.note_mistake(12, 0, ZERO, DAY)
    kept.note_mistake(12, 0, RIGHT, DAY)
    assert kept.mistakes() == (RIGHT,)
    kept.note_mistake(12, 0, None, DAY)
    assert kept.mistakes() == ()


def test_a_case_that_was_withdrawn_shows_nothing_any_more(kept: Store) -> None:
    kept.note_mistake(12, 0, ZERO, DAY)
    kept.note_mistake(12, 1, ZERO, DAY)
    kept.note_mistake(13, 0, RIGHT, DAY)
    kept.forget_mistakes(12)
    assert kept.mistakes() == (RIGHT,)


def test_each_change_is_seen_by_running_programs_and_no_change_is_none(kept: Store) -> None:
    revisions = [kept.revision()]
    for change in (
        lambda: kept.note_mistake(12, 0, ZERO, DAY),
        lambda: kept.note_mistake(12, 0, ZERO, DAY),
        lambda: kept.forget_mistakes(99),
        lambda: kept.note_mistake(98, 0, None, DAY),
        lambda: kept.forget_mistakes(12),
    ):
        change()
        revisions.append(kept.revision())
    first = revisions[0]
    assert revisions == [first, first + 1, first + 1, first + 1, first + 1, first + 2]


def test_it_joins_the_transaction_that_is_open(path: Path, kept: Store) -> None:
    with closing(open_database(path, KNOWLEDGE)) as database:
        store = Store(path, database, 1.0)
        with suppress(RuntimeError), transaction(database):
            store.note_mistake(12, 0, ZERO, DAY)
            raise RuntimeError
        assert store.mistakes() == ()
        with transaction(database):
            store.note_mistake(12, 0, ZERO, DAY)
            assert kept.mistakes() == ()
    assert kept.mistakes() == (ZERO,)


def test_small_shares_keep_their_size(kept: Store) -> None:
    kept.note_mistake(1, 0, Seen("none", {"none": 1.23456789e-9, "as-typed": 0.999999987}), DAY)
    (seen,) = kept.mistakes()
    assert seen.shares == pytest.approx({"none": 1.23456789e-9, "as-typed": 0.999999987}, rel=1e-5)


def test_nothing_that_anybody_wrote_is_kept(path: Path, kept: Store) -> None:
    kept.note_mistake(12, 0, ZERO, DAY)
    with closing(sqlite3.connect(path)) as raw:
        columns = [name for _, name, *_ in raw.execute("PRAGMA table_info(mistakes)")]
        row = raw.execute("SELECT * FROM mistakes").fetchone()
    assert columns == ["case", "token", "observed", "shares", "day"]
    assert row == (12, 0, "zero-restored", '{"as-typed": 0.75, "none": 0.05, "zero-restored": 0.2}', "2026-11-25")
