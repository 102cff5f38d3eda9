"""Tests of knowledge/stored_findings.py: findings in the file, with a history in which nothing is overwritten.

files/after-step-2.db was written by the steps '1 packs and their rows' and '2 revision' alone, with one pack in it.
It is kept as it is: it stands for the files that people have.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from knowledge.database import open_database, transaction
from knowledge.edtf import EdtfError
from knowledge.findings import ADDED, AMENDED, WITHDRAWN, Finding, FindingError
from knowledge.migrations import KNOWLEDGE, StoreError
from knowledge.store import Store, open_store

OLD = Path(__file__).parent / "files" / "after-step-2.db"
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
LATER = NOON + timedelta(days=3)
A, B = "a" * 32, "b" * 32


def a_finding(key: str = A, digits: str = "204117", **more: Any) -> Finding:
    told = Finding(
        key, "K", digits, "", "ottrel", "m9", "", "1911", "by the shuttle; ledger p. 40", "ledger", "", "expert 3",
        NOON, 12,
    )  # fmt: skip
    return replace(told, **more)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "base.sqlite"


@pytest.fixture
def kept(path: Path) -> Iterator[Store]:
    with open_store(path, create=True) as store:
        yield store


# --- in and out


def test_a_finding_comes_back_as_it_went_in(kept: Store) -> None:
    finding = a_finding(note="Ü'\";\nwith a new lid", settled=NOON.replace(microsecond=123456), case=None)
    kept.add_finding(finding)
    assert kept.findings() == (finding,)


def test_a_finding_of_a_machine_without_a_readable_number_is_kept(kept: Store) -> None:
    kept.add_finding(a_finding(prefix="", digits=""))
    assert [one.serial for one in kept.findings()] == [""]


def test_times_are_kept_in_utc(kept: Store) -> None:
    kept.add_finding(a_finding(settled=datetime(2026, 11, 25, 14, tzinfo=timezone(timedelta(hours=2)))))
    (finding,) = kept.findings()
    assert (finding.settled, finding.settled.tzinfo) == (NOON, UTC)


def test_findings_are_there_after_the_file_was_closed(path: Path) -> None:
    with open_store(path, create=True) as first:
        first.add_finding(a_finding())
    with open_store(path, read_only=True) as second:
        assert second.findings() == (a_finding(),)


# --- changes


def test_an_amended_finding_counts_as_it_is_now_and_what_it_was_stays_in_the_history(kept: Store) -> None:
    better = a_finding(date="1912", author="expert 5", settled=LATER)
    kept.add_finding(a_finding())
    kept.amend_finding(A, better, why="the ledger was misread")
    assert kept.findings() == (better,)
    added, amended = kept.finding_history(A)
    assert (added.what, added.author, added.at, added.finding) == (ADDED, "expert 3", NOON, a_finding())
    assert (amended.what, amended.author, amended.at) == (AMENDED, "expert 5", LATER)
    assert (amended.why, amended.finding) == ("the ledger was misread", better)


def test_a_finding_keeps_its_key_when_it_is_amended(kept: Store) -> None:
    kept.add_finding(a_finding())
    kept.amend_finding(A, a_finding(key=B, date="1912"))
    assert [one.key for one in kept.findings()] == [A]


def test_a_withdrawn_finding_counts_no_more_and_tells_who_when_and_why(kept: Store) -> None:
    kept.add_finding(a_finding())
    kept.add_finding(a_finding(key=B, digits="204118"))
    kept.withdraw_finding(A, "expert 7", LATER, "another machine")
    assert [one.key for one in kept.findings()] == [B]
    last = kept.finding_history(A)[-1]
    assert (last.what, last.author, last.at, last.why) == (WITHDRAWN, "expert 7", LATER, "another machine")
    assert last.finding == a_finding()


def test_amending_to_the_same_changes_nothing(kept: Store) -> None:
    kept.add_finding(a_finding())
    before = kept.revision()
    kept.amend_finding(A, a_finding())
    assert (len(kept.finding_history(A)), kept.revision()) == (1, before)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda kept: kept.add_finding(a_finding(date="1913")), "is known already"),
        (lambda kept: kept.add_finding(a_finding(key=B, date="1913")), "is known already"),
        (lambda kept: kept.amend_finding(B, a_finding(date="1913")), "was withdrawn"),
        (lambda kept: kept.withdraw_finding(B, "expert 8", LATER, ""), "was withdrawn"),
        (lambda kept: kept.amend_finding("c" * 32, a_finding(date="1913")), "is not known here"),
    ],
    ids=["added twice", "added after it was withdrawn", "amended after that", "withdrawn twice", "amended unknown"],
)
def test_what_cannot_be_done_is_refused_and_nothing_changes(
    kept: Store, change: Callable[[Store], None], words: str
) -> None:
    kept.add_finding(a_finding())
    kept.add_finding(a_finding(key=B))
    kept.withdraw_finding(B, "expert 7", LATER, "")
    before = (kept.findings(), kept.finding_history(A), kept.finding_history(B), kept.revision())
    with pytest.raises(FindingError, match=words):
        change(kept)
    assert (kept.findings(), kept.finding_history(A), kept.finding_history(B), kept.revision()) == before


def test_nobody_can_overwrite_or_delete_the_history(path: Path) -> None:
    with open_store(path, create=True) as store:
        store.add_finding(a_finding())
    with closing(sqlite3.connect(path)) as raw:
        for change in ("UPDATE finding_changes SET date = '1950'", "DELETE FROM finding_changes"):
            with pytest.raises(sqlite3.IntegrityError, match="only added to"):
                raw.execute(change)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"key": "12"}, "32 hexadecimal digits"),
        ({"prefix": "k"}, "capital letters"),
        ({"digits": ""}, "capital letters"),
        ({"digits": "2041 17"}, "capital letters"),
        ({"digits": "1" * 19}, "capital letters"),
        ({"kind": "hearsay"}, "dated-document, ledger, feature, opinion"),
        ({"author": ""}, "expert 3"),
        ({"settled": NOON.replace(tzinfo=None)}, "time zone"),
        ({"maker": "", "model": "", "date": ""}, "must tell a maker"),
    ],
)
def test_what_cannot_be_answered_from_is_refused_in_words(kept: Store, wrong: dict[str, Any], words: str) -> None:
    with pytest.raises(FindingError, match=words):
        kept.add_finding(a_finding(**wrong))
    assert kept.findings() == ()


def test_a_date_that_is_no_edtf_is_refused(kept: Store) -> None:
    with pytest.raises(EdtfError, match="no date that packs use"):
        kept.add_finding(a_finding(date="about 1911"))
    assert kept.findings() == ()


# --- seen elsewhere, and joined to what else is written


def test_every_change_is_seen_by_other_programs(path: Path) -> None:
    seen = []
    with open_store(path, create=True) as store, open_store(path, read_only=True) as reader:
        for change in (
            lambda: None,
            lambda: store.add_finding(a_finding()),
            lambda: store.amend_finding(A, a_finding(date="1912")),
            lambda: store.withdraw_finding(A, "expert 3", LATER, ""),
        ):
            change()
            seen.append((reader.revision(), [one.date for one in reader.findings()]))
    assert len({revision for revision, _ in seen}) == 4
    assert [dates for _, dates in seen] == [[], ["1911"], ["1912"], []]


def test_changes_join_the_transaction_that_is_open_and_go_with_it(path: Path) -> None:
    database = open_database(path, KNOWLEDGE, create=True)
    with Store(path, database, 1) as store:
        store.add_finding(a_finding())
        before = store.revision()
        with suppress(KeyboardInterrupt), transaction(database):
            store.amend_finding(A, a_finding(date="1912"))
            store.add_finding(a_finding(key=B))
            store.withdraw_finding(A, "expert 3", LATER, "")
            with store.unchanging():
                assert [one.key for one in store.findings()] == [B]
            raise KeyboardInterrupt
        assert (store.findings(), store.revision()) == ((a_finding(),), before)


def test_a_file_held_by_another_program_says_so_and_nothing_is_lost(path: Path) -> None:
    open_store(path, create=True).close()
    with closing(sqlite3.connect(path)) as other, open_store(path, timeout=0.05) as store:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match=r"Another program is writing"):
            store.add_finding(a_finding())
        other.execute("ROLLBACK")
        store.add_finding(a_finding())
        assert len(store.findings()) == 1


def test_an_old_file_gets_the_tables_and_keeps_its_packs(tmp_path: Path) -> None:
    old = Path(shutil.copy(OLD, tmp_path / "old.sqlite"))
    with open_store(old) as store:
        assert store.pack_names() == ("ours",)
        assert store.findings() == ()
        store.add_finding(a_finding())
    with open_store(old, read_only=True) as store:
        assert store.findings() == (a_finding(),)
