"""Tests of knowledge/migrations.py.

files/after-step-1.db was written by step '1 packs and their rows' alone, as version 0.0.1, with one pack in it.
It is kept as it is: it stands for the files that people have.
"""

from __future__ import annotations

import shutil
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database, Migrations

from knowledge.database import open_database
from knowledge.migrations import KNOWLEDGE, StoreError, program_version, waiting
from knowledge.packs.tables import SCHEMAS
from knowledge.store import open_store

OLD = Path(__file__).parent / "files" / "after-step-1.db"


@pytest.fixture
def old(tmp_path: Path) -> Path:
    return Path(shutil.copy(OLD, tmp_path / "old.sqlite"))


def a_later_program() -> Migrations:
    """The steps of today and one more."""
    later = Migrations("knowledge")
    for step in KNOWLEDGE._migrations:
        later(name=step.name)(step.fn)

    @later(name="3 something new")
    def _(database: Database) -> None:
        database.conn.execute("CREATE TABLE something_new (name TEXT)")

    return later


def test_an_old_file_is_brought_up_to_date_and_keeps_its_packs(old: Path) -> None:
    with open_store(old) as kept:
        assert list(kept.source("ours").rows("allocations", "prefix", "first")) == [("K", "0200001")]
        assert kept.revision() > 0
    with closing(open_database(old, KNOWLEDGE, read_only=True).conn) as raw:
        versions = raw.execute("SELECT version FROM upgraded_by WHERE migrations = 'knowledge'").fetchall()
    assert versions == [(program_version(),)]


def test_an_old_file_opened_for_reading_only_is_not_changed(old: Path) -> None:
    before = old.read_bytes()
    with pytest.raises(StoreError, match=r"older version.*reading only.*Load a pack"):
        open_store(old, read_only=True)
    assert old.read_bytes() == before


def test_a_file_of_a_newer_version_is_refused_and_both_versions_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "newer.sqlite"
    monkeypatch.setattr("knowledge.migrations.metadata.version", lambda _: "7.8.9")
    open_database(path, a_later_program(), create=True).close()
    monkeypatch.setattr("knowledge.migrations.metadata.version", lambda _: "1.2.3")
    for read_only in (True, False):
        with pytest.raises(StoreError, match=r"Bedstamp 7\.8\.9.*Bedstamp 1\.2\.3.*3 something new"):
            open_store(path, read_only=read_only)


def test_a_step_that_fails_leaves_the_old_file_as_it_was(old: Path) -> None:
    broken = a_later_program()

    @broken(name="4 cannot work")
    def _(database: Database) -> None:
        database.conn.execute("CREATE TABLE half_done (name TEXT)")
        database.conn.execute("INSERT INTO no_such_table VALUES (1)")

    with pytest.raises(StoreError, match=r"no such table"):
        open_database(old, broken)
    with closing(open_database(old, KNOWLEDGE)) as opened:  # not even the steps before it were kept apart
        assert "half_done" not in opened.table_names()
        assert "something_new" not in opened.table_names()


def test_another_set_of_steps_lives_in_the_same_file(old: Path) -> None:
    journal = Migrations("journal")

    @journal(name="1 inbox")
    def _(database: Database) -> None:
        database.conn.execute("CREATE TABLE inbox (message TEXT)")

    open_database(old, journal).close()
    with closing(open_database(old, KNOWLEDGE)) as opened:
        assert "inbox" in opened.table_names()
        assert waiting(opened, journal) == waiting(opened, KNOWLEDGE) == []


def test_every_table_and_column_of_the_pack_format_has_its_place(tmp_path: Path) -> None:
    with closing(open_database(tmp_path / "new.sqlite", KNOWLEDGE, create=True)) as opened:
        for name, schema in SCHEMAS.items():
            columns = [column.name for column in opened[name.replace("-", "_")].columns]
            assert set(columns) == {"pack", "row", *schema.columns, "extra"}
