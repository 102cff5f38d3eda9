"""Tests of knowledge/store.py and the opening of its file in knowledge/database.py."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge import database, store
from knowledge.database import open_database
from knowledge.migrations import KNOWLEDGE, StoreError
from knowledge.packs.tables import SCHEMAS, Pack, Table
from knowledge.store import open_store


def a_pack(*numbers: str, name: str = "ours", date: str = "1912") -> Pack:
    """A pack with one block of ten numbers after each of `numbers`."""
    columns = {
        "register": ["r"] * len(numbers),
        "first": list(numbers),
        "last": [str(int(number) + 9).zfill(len(number)) for number in numbers],
        "date": [date] * len(numbers),
    }
    return Pack.of(name, Table.of("allocations", columns), title="Ours", version="1")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "base.sqlite"


@pytest.fixture
def loaded(path: Path) -> Path:
    with open_store(path, create=True) as kept:
        kept.save_pack(a_pack("0200001", "0200011"))
    return path


def firsts(path: Path, pack: str = "ours") -> list[str]:
    with open_store(path, read_only=True) as kept:
        return [first for (first,) in kept.source(pack).rows("allocations", "first")]


# --- what goes in comes out


def test_every_table_and_column_of_a_pack_comes_back_as_it_was(path: Path) -> None:
    tables = [
        Table.of(name, {column: [f"{column} 1", "", "Ü'\";\n"] for column in schema.columns})
        for name, schema in SCHEMAS.items()
    ]
    pack = Pack.of("all", *tables)
    with open_store(path, create=True) as kept:
        kept.save_pack(pack)
        for name, schema in SCHEMAS.items():
            assert list(kept.source("all").rows(name, *schema.columns)) == list(pack.rows(name, *schema.columns))


def test_columns_that_are_no_part_of_the_format_are_kept(path: Path) -> None:
    table = Table.of("makers", {"maker": ["a", "b"], 'colour of "bed"': ["green", ""]})
    with open_store(path, create=True) as kept:
        kept.save_pack(Pack.of("p", table))
        rows = kept.source("p").rows("makers", "maker", 'colour of "bed"', "never heard of")
        assert list(rows) == [("a", "green", ""), ("b", "", "")]


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"]), max_size=8), max_size=30))
def test_any_text_comes_back_in_the_order_of_the_file(texts: list[str]) -> None:
    with tempfile.TemporaryDirectory() as folder, open_store(Path(folder, "b.sqlite"), create=True) as kept:
        kept.save_pack(Pack.of("p", Table.of("sources", {"source": texts})))
        assert [text for (text,) in kept.source("p").rows("sources", "source")] == texts


def test_more_rows_than_are_fetched_at_once_come_back_whole(path: Path) -> None:
    numbers = [f"{number:07}" for number in range(1, 5_002)]
    with open_store(path, create=True) as kept:
        kept.save_pack(a_pack(*numbers))
    assert firsts(path) == numbers


def test_packs_keep_the_order_in_which_they_first_came(path: Path) -> None:
    with open_store(path, create=True) as kept:
        for name in ("b", "a", "b"):
            kept.save_pack(a_pack("1", name=name))
        assert kept.pack_names() == ("b", "a")
        assert [source.name for source in kept.sources()] == ["b", "a"]


def test_a_pack_that_is_not_there_is_named_with_those_that_are(loaded: Path) -> None:
    with open_store(loaded) as kept, pytest.raises(StoreError, match=r"no pack 'theirs'.*holds ours"):
        kept.source("theirs")


# --- saving


def test_the_first_save_counts_every_row_as_added(path: Path) -> None:
    with open_store(path, create=True) as kept:
        changes = kept.save_pack(a_pack("1", "11"))
    assert changes.first_time
    assert changes.in_words() == ["allocations: 2 added"]


def test_saving_again_replaces_the_pack_and_says_what_changed(loaded: Path) -> None:
    with open_store(loaded) as kept:
        changes = kept.save_pack(a_pack("0200001", "0300001", date="1913"))
    assert not changes.first_time
    assert changes.in_words() == [
        "allocations: 1 added, 1 removed, 1 changed",
        "  changed: register r, first 0200001, last 0200010: date was 1912, now 1913",
        "  removed: register r, first 0200011, last 0200020",
        "  added: register r, first 0300001, last 0300010",
    ]
    assert firsts(loaded) == ["0200001", "0300001"]


def test_saving_the_same_again_says_that_nothing_changed(loaded: Path) -> None:
    with open_store(loaded) as kept:
        changes = kept.save_pack(a_pack("0200001", "0200011"))
    assert not changes
    assert changes.in_words() == ["Nothing in ours changed."]


def test_other_packs_stay_untouched(loaded: Path) -> None:
    with open_store(loaded) as kept:
        kept.save_pack(a_pack("5", name="theirs"))
        kept.save_pack(a_pack(name="theirs"))
    assert firsts(loaded) == ["0200001", "0200011"]


def test_progress_is_told_up_to_the_last_row(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "_TELL_EVERY", 2)
    heard: list[tuple[int, int]] = []
    with open_store(path, create=True) as kept:
        kept.save_pack(a_pack("1", "11", "21"), lambda done, total: heard.append((done, total)))
    assert heard == [(0, 3), (2, 3), (3, 3)]


def test_a_save_that_fails_half_way_changes_nothing(loaded: Path) -> None:
    def stop(done: int, total: int) -> None:
        raise KeyboardInterrupt

    with open_store(loaded) as kept:
        before = kept.revision()
        with pytest.raises(KeyboardInterrupt):
            kept.save_pack(a_pack("7"), stop)
        assert kept.revision() == before
    assert firsts(loaded) == ["0200001", "0200011"]


_SAVE_UNTIL_KILLED = """
import sys
from pathlib import Path
from knowledge.packs.tables import Pack, Table
from knowledge.store import open_store

numbers = [f"{n:07}" for n in range(200_000)]
pack = Pack.of("ours", Table.of("allocations", {"register": ["r"] * 200_000, "first": numbers, "last": numbers}))

def tell(done, total):
    print(done, flush=True)
    if done >= int(sys.argv[2]):
        sys.stdin.read()  # wait here for the kill

open_store(Path(sys.argv[1])).save_pack(pack, tell)
"""


@pytest.mark.parametrize("killed_at", [0, 100_000, 200_000])
def test_kill_9_in_the_middle_of_a_save_changes_nothing(loaded: Path, killed_at: int) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", _SAVE_UNTIL_KILLED, str(loaded), str(killed_at)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=Path(store.__file__).parents[1],
    ) as saving:  # fmt: skip
        assert saving.stdout is not None
        for line in saving.stdout:
            if int(line) >= killed_at:
                break
        saving.send_signal(signal.SIGKILL)
    assert saving.returncode == -signal.SIGKILL
    assert firsts(loaded) == ["0200001", "0200011"]
    with open_store(loaded) as kept, closing(sqlite3.connect(loaded)) as raw:
        kept.save_pack(a_pack("0000001"))
        assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_a_pack_is_taken_out_with_all_its_rows_and_others_stay(loaded: Path) -> None:
    with open_store(loaded) as kept, open_store(loaded, read_only=True) as reader:
        kept.save_pack(a_pack("0300001", name="theirs"))
        before = reader.revision()
        kept.remove_pack("ours")
        assert reader.revision() != before
        assert kept.pack_names() == reader.pack_names() == ("theirs",)
    with closing(sqlite3.connect(loaded)) as file:
        assert file.execute("SELECT first FROM allocations").fetchall() == [("0300001",)]
    assert firsts(loaded, "theirs") == ["0300001"]


def test_a_pack_that_was_taken_out_can_be_saved_again(loaded: Path) -> None:
    with open_store(loaded) as kept:
        kept.remove_pack("ours")
        assert kept.save_pack(a_pack("0200001")).first_time
    assert firsts(loaded) == ["0200001"]


def test_taking_out_a_pack_that_is_not_there_is_refused_and_changes_nothing(loaded: Path) -> None:
    with open_store(loaded) as kept:
        before = kept.revision()
        with pytest.raises(StoreError, match=r"no pack 'others'.*it holds ours"):
            kept.remove_pack("others")
        assert (kept.pack_names(), kept.revision()) == (("ours",), before)


# --- seen by other processes


def test_a_change_made_elsewhere_is_seen_without_opening_again(loaded: Path) -> None:
    with open_store(loaded, read_only=True) as running:
        before = running.revision()
        assert running.revision() == before
        with open_store(loaded) as other:
            other.save_pack(a_pack("9"))
        assert running.revision() != before
        assert list(running.source("ours").rows("allocations", "first")) == [("9",)]


def test_inside_unchanging_all_is_read_from_one_moment(loaded: Path) -> None:
    with open_store(loaded, read_only=True) as running, open_store(loaded) as other:
        with running.unchanging():
            before = running.revision()
            other.save_pack(a_pack("9"))
            assert list(running.source("ours").rows("allocations", "first")) == [("0200001",), ("0200011",)]
            assert running.revision() == before
        assert list(running.source("ours").rows("allocations", "first")) == [("9",)]


def test_the_file_is_kept_safe_against_loss_of_power(path: Path) -> None:
    with closing(open_database(path, KNOWLEDGE, create=True).conn) as raw:
        settings = ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        assert [raw.execute(f"PRAGMA {name}").fetchone()[0] for name in settings] == ["wal", 2, 1, 5000]


# --- what can be wrong with the file


def test_a_missing_file_is_not_made_unless_asked(path: Path) -> None:
    with pytest.raises(StoreError, match=r"no knowledge base at .*bedstamp pack load"):
        open_store(path)
    assert not path.exists()


def test_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match=r"is a folder. Name a file in it"):
        open_store(tmp_path, create=True)


def test_a_missing_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match=r"folder .*nowhere does not exist"):
        open_store(tmp_path / "nowhere" / "base.sqlite", create=True)


@pytest.mark.parametrize("create", [True, False])
@pytest.mark.parametrize(
    ("content", "words"), [(b"", "is empty"), (b"first;last\n1;2\n" * 99, "is not a knowledge base")]
)
def test_a_file_that_is_no_sqlite_file_is_left_alone(path: Path, content: bytes, words: str, create: bool) -> None:
    path.write_bytes(content)
    with pytest.raises(StoreError, match=words):
        open_store(path, create=create)
    assert path.read_bytes() == content


def test_an_sqlite_file_of_another_program_is_left_alone(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE stamps (name TEXT)")
    before = path.read_bytes()
    with pytest.raises(StoreError, match=r"of another program"):
        open_store(path, create=True)
    assert path.read_bytes() == before


def test_a_file_that_another_program_holds_locked_says_so(loaded: Path) -> None:
    with closing(sqlite3.connect(loaded)) as other, open_store(loaded, timeout=0.05) as kept:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match=r"Another program is writing to .*try again"):
            kept.save_pack(a_pack("3"))
        assert len(list(kept.source("ours").rows("allocations", "first"))) == 2


def test_a_full_disk_says_so_and_changes_nothing(loaded: Path) -> None:
    opened = open_database(loaded, KNOWLEDGE)
    (pages,) = opened.conn.execute("PRAGMA page_count").fetchone()
    opened.conn.execute(f"PRAGMA max_page_count = {pages + 2}")
    with store.Store(loaded, opened, 1) as kept:
        with pytest.raises(StoreError, match=r"disk is full.*Nothing was changed"):
            kept.save_pack(a_pack(*(f"{number:07}" for number in range(5_000))))
        assert kept.pack_names() == ("ours",)
    assert firsts(loaded) == ["0200001", "0200011"]


def test_a_damaged_file_says_so(loaded: Path) -> None:
    content = bytearray(loaded.read_bytes())
    content[4096:] = b"\xaa" * (len(content) - 4096)
    loaded.write_bytes(content)
    with pytest.raises(StoreError, match=r"is damaged.*restore it from a backup"):
        firsts(loaded)


def test_a_file_cut_short_says_so(loaded: Path) -> None:
    os.truncate(loaded, 3000)
    with pytest.raises(StoreError, match=r"is damaged"):
        firsts(loaded)


def test_nothing_is_left_behind_when_making_the_file_fails(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(database, "_give_name", full)
    with pytest.raises(StoreError, match=r"could not be made .No space left"):
        open_store(path, create=True)
    assert list(path.parent.iterdir()) == []


def test_a_file_that_appears_while_ours_is_made_is_kept(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_store(path, create=True) as first:
        first.save_pack(a_pack("4"))
    monkeypatch.setattr(os.path, "lexists", lambda _: False)
    open_store(path, create=True).close()
    assert list(path.parent.iterdir()) == [path]
    assert firsts(path) == ["4"]


# --- files and folders that cannot be written to


@contextmanager
def as_an_ordinary_user() -> Iterator[None]:
    """Permissions do not bind root, so give up being root for a while."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def shared(loaded: Path) -> Iterator[Path]:
    """A loaded base in a folder that every user can reach."""
    folder = Path(tempfile.mkdtemp())
    os.chmod(folder, 0o777)
    copy = Path(shutil.copy(loaded, folder / "base.sqlite"))
    os.chmod(copy, 0o666)
    yield copy
    os.chmod(folder, 0o777)
    shutil.rmtree(folder)


@pytest.mark.parametrize(("file", "folder"), [*product((0o444, 0o666), (0o555, 0o777))])
def test_what_may_not_be_written_can_still_be_read(shared: Path, file: int, folder: int) -> None:
    os.chmod(shared, file)
    os.chmod(shared.parent, folder)
    with as_an_ordinary_user():
        assert firsts(shared) == ["0200001", "0200011"]


@pytest.mark.parametrize(("file", "folder"), [(0o444, 0o777), (0o666, 0o555), (0o444, 0o555)])
def test_writing_where_one_may_not_says_so(shared: Path, file: int, folder: int) -> None:
    os.chmod(shared, file)
    os.chmod(shared.parent, folder)
    with (
        as_an_ordinary_user(),
        pytest.raises(StoreError, match=r"cannot be (written to|opened)"),
        open_store(shared) as kept,
    ):
        kept.save_pack(a_pack("5"))
    assert firsts(shared) == ["0200001", "0200011"]


def test_a_file_that_may_not_be_read_says_so(shared: Path) -> None:
    os.chmod(shared, 0)
    with as_an_ordinary_user(), pytest.raises(StoreError, match=r"cannot be read"):
        open_store(shared, read_only=True)


def test_making_a_file_in_a_read_only_folder_says_so(shared: Path) -> None:
    os.chmod(shared.parent, 0o555)
    with as_an_ordinary_user(), pytest.raises(StoreError, match=r"could not be made .Permission denied"):
        open_store(shared.parent / "new.sqlite", create=True)
    assert list(shared.parent.iterdir()) == [shared]


@pytest.mark.skipif(os.geteuid() != 0, reason="needs a second user who may write")
def test_what_a_running_writer_has_saved_is_seen_by_one_who_may_only_read(shared: Path) -> None:
    with open_store(shared) as writer:
        writer.save_pack(a_pack("8"))
        os.chmod(shared.parent, 0o555)
        with as_an_ordinary_user():
            assert firsts(shared) == ["8"]


@pytest.mark.skipif(os.geteuid() != 0, reason="needs a second user who may write")
def test_a_change_to_a_file_that_is_only_read_is_seen(shared: Path) -> None:
    os.chmod(shared.parent, 0o555)
    with as_an_ordinary_user():
        running = open_store(shared, read_only=True)
        before = running.revision()
    with open_store(shared) as other:
        other.save_pack(a_pack("6"))
    with as_an_ordinary_user(), running:
        assert running.revision() != before
        assert list(running.source("ours").rows("allocations", "first")) == [("6",)]
