"""deploy/backup.sh: a copy of the store while its bot writes, whole or not at all, kept for some days."""

from __future__ import annotations

import os
import resource
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from bot.forgetting import forget
from bot.journal import open_journal
from deploy.copies import CopyError, check, make
from knowledge.errors import BedstampError
from tests.chaos.harness import fake_program, until

ROOT = Path(__file__).parents[2]
NOW = datetime(2031, 5, 4, 3, tzinfo=UTC)


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A store with twenty messages that came in."""
    path = tmp_path / "the bot's store" / "group.sqlite"
    path.parent.mkdir()
    with open_journal(path, create=True) as journal:
        journal.receive_all("mail", [(f"<{n}@example.org>", b"How old?" * 500, "") for n in range(20)], NOW)
    return path


def backup(*words: object, **more: object) -> subprocess.CompletedProcess[str]:
    """Run the script from another folder, in this environment of Python."""
    environment = os.environ | {"BEDSTAMP_VENV": sys.prefix}
    script = ["bash", str(ROOT / "deploy" / "backup.sh"), *map(str, words)]
    return subprocess.run(script, cwd="/", env=environment, capture_output=True, text=True, timeout=60, **more)  # type: ignore[call-overload,no-any-return]


def keys_in(copy: Path) -> list[str]:
    with closing(sqlite3.connect(copy)) as file:
        return [key for (key,) in file.execute("SELECT key FROM incoming ORDER BY id")]


def test_a_copy_made_by_the_script_is_one_file_that_only_its_owner_may_read(store, tmp_path) -> None:
    done = backup(store, tmp_path / "copies")
    assert (done.returncode, done.stderr) == (0, "")
    (copy,) = (tmp_path / "copies").iterdir()
    assert str(copy) in done.stdout
    assert copy.stat().st_mode & 0o777 == 0o600
    assert copy.parent.stat().st_mode & 0o777 == 0o700
    assert keys_in(copy) == keys_in(store)


def test_copies_made_while_the_bot_works_are_each_whole_and_in_order(tmp_path) -> None:
    program, upstream = fake_program(tmp_path)
    with program:
        program.start()
        until(program.has_begun)
        copies = []
        for second in range(6):
            for _ in range(40):
                upstream.feed()
            until(lambda: upstream.answers_to(upstream.fed[-20]))
            copies.append(make(tmp_path / "bedstamp.sqlite", tmp_path / "copies", now=NOW + timedelta(seconds=second)))
            check(copies[-1])
        until(lambda: all(upstream.answers_to(name) for name in upstream.fed))
        assert program.terminate() == 0
    held = [keys_in(copy) for copy in copies]
    for earlier, later in pairwise(held):
        assert later[: len(earlier)] == earlier
    assert len(held[0]) >= 20
    assert len(held[-1]) > len(held[0])
    for copy in copies:  # a reply and the mark of its question are in one transaction: none is there without the other
        with closing(sqlite3.connect(copy)) as file:
            assert file.execute(
                "SELECT count(*) FROM incoming WHERE (state = 'handled') != "
                "(id IN (SELECT answers FROM outgoing WHERE answers IS NOT NULL))"
            ).fetchone() == (0,)


def test_what_is_still_in_the_log_beside_a_store_is_in_the_copy(store, tmp_path) -> None:
    with closing(sqlite3.connect(store)) as reader, open_journal(store) as journal:
        reader.execute("BEGIN").execute("SELECT count(*) FROM incoming").fetchone()  # keeps the log from being emptied
        journal.receive("mail", "<last@example.org>", b"x", NOW)
        assert Path(f"{store}-wal").stat().st_size
        assert keys_in(make(store, tmp_path / "copies"))[-1] == "<last@example.org>"


def test_copying_leaves_nothing_beside_a_store_at_rest_and_changes_nothing_in_it(store, tmp_path) -> None:
    before = store.read_bytes()
    make(store, tmp_path / "copies")
    assert [path.name for path in store.parent.iterdir()] == ["group.sqlite"]
    assert store.read_bytes() == before


# --- what cannot be copied


@pytest.mark.parametrize("content", [b"", b"no database at all", b"SQLite format 3\0" + bytes(4000)])
def test_what_is_no_store_is_refused_in_plain_words_and_nothing_is_left(tmp_path, content) -> None:
    (tmp_path / "other.sqlite").write_bytes(content)
    done = backup(tmp_path / "other.sqlite", tmp_path / "copies")
    assert done.returncode in (1, 2)
    assert "other.sqlite" in done.stderr
    assert "Traceback" not in done.stderr
    assert list((tmp_path / "copies").iterdir()) == []


def test_a_store_that_is_not_there_is_not_made(tmp_path) -> None:
    done = backup(tmp_path / "none.sqlite", tmp_path / "copies")
    assert done.returncode == 2
    assert done.stderr.strip() == f"There is no store at {tmp_path}/none.sqlite. Check the path."
    assert not (tmp_path / "none.sqlite").exists()


def test_the_file_of_another_program_is_refused(tmp_path) -> None:
    with closing(sqlite3.connect(tmp_path / "other.sqlite")) as other, other:
        other.execute("CREATE TABLE thimbles (size INTEGER)")
    with pytest.raises(CopyError, match="another program"):
        make(tmp_path / "other.sqlite", tmp_path / "copies")


def test_a_damaged_store_is_told_and_no_older_copy_goes(store, tmp_path) -> None:
    old = make(store, tmp_path / "copies", now=NOW - timedelta(days=400))
    with store.open("r+b") as file:
        for page in range(3, store.stat().st_size // 4096):
            file.seek(page * 4096)
            file.write(b"\xff" * 2000)
    with pytest.raises(BedstampError, match=r"not whole|damaged"):
        make(store, tmp_path / "copies", days=0, now=NOW)
    assert list((tmp_path / "copies").iterdir()) == [old]


def test_on_a_full_disk_no_half_copy_stays_and_no_older_one_goes(store, tmp_path) -> None:
    old = make(store, tmp_path / "copies", now=NOW - timedelta(days=400))

    def full() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))

    done = backup(store, tmp_path / "copies", 0, preexec_fn=full)
    assert done.returncode in (1, 2)
    assert "disk" in done.stderr
    assert "Traceback" not in done.stderr
    assert list((tmp_path / "copies").iterdir()) == [old]


# --- how long they are kept


def test_after_somebody_was_forgotten_a_copy_that_stays_alone_leaves_nothing_of_them(store, tmp_path) -> None:
    mail = b"From: Hester Quill <hester@example.org>\nMessage-ID: <q@example.org>\n\nHow old is K204117?"
    with open_journal(store) as journal:
        id_ = journal.receive("mail", "<q@example.org>", mail, NOW)
        assert id_
        journal.handled(id_, person="mail:hester@example.org", now=NOW)
    old = make(store, tmp_path / "copies", now=NOW)
    assert b"hester@" in old.read_bytes()
    with open_journal(store) as journal:
        forget(journal, "mail:hester@example.org")
    make(store, tmp_path / "copies", days=0, now=NOW + timedelta(hours=1))
    (left,) = (tmp_path / "copies").iterdir()
    assert b"hester" not in left.read_bytes().lower()


def ages(folder: Path) -> list[int]:
    """The ages in days of the copies in a folder, the youngest first."""
    found = [datetime.strptime(path.stem[-16:], "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC) for path in folder.iterdir()]
    return sorted((NOW - one).days for one in found)


def test_copies_older_than_the_days_go_when_a_new_one_is_whole(store, tmp_path) -> None:
    for age in (100, 31, 30, 29, 1):
        make(store, tmp_path / "copies", days=1000, now=NOW - timedelta(days=age))
    make(store, tmp_path / "copies", days=30, now=NOW)
    assert ages(tmp_path / "copies") == [0, 1, 29, 30]


def test_the_three_newest_stay_however_old_they_are(store, tmp_path) -> None:
    for age in (900, 800, 700, 600):
        make(store, tmp_path / "copies", days=1000, now=NOW - timedelta(days=age))
    make(store, tmp_path / "copies", days=1, now=NOW)
    assert ages(tmp_path / "copies") == [0, 600, 700]


def test_with_no_days_the_new_copy_stays_alone_also_when_a_clock_was_ahead(store, tmp_path) -> None:
    for age in (5, 1, -400):
        make(store, tmp_path / "copies", now=NOW - timedelta(days=age))
    make(store, tmp_path / "copies", days=0, now=NOW)
    assert ages(tmp_path / "copies") == [0]


def test_nothing_else_in_the_folder_is_ever_removed(store, tmp_path) -> None:
    folder = tmp_path / "copies"
    folder.mkdir()
    others = ["notes.txt", "group.sqlite", "other-20010101T000000Z.sqlite", "group-2001.sqlite"]
    others.append("group-20010101T000000Z.sqlite.gpg")
    for name in others:
        (folder / name).write_text("keep me")
    copy = make(store, folder, days=0, now=NOW)
    assert {path.name for path in folder.iterdir()} == {*others, copy.name}


def test_two_copies_of_one_second_do_not_take_each_others_place(store, tmp_path) -> None:
    make(store, tmp_path / "copies", now=NOW)
    with pytest.raises(CopyError, match="Try again"):
        make(store, tmp_path / "copies", now=NOW)


@pytest.mark.parametrize("days", ["-1", "a month", "1.5"])
def test_days_that_are_no_number_are_refused(store, tmp_path, days) -> None:
    assert backup(store, tmp_path / "copies", days).returncode == 2
    assert not (tmp_path / "copies").exists()
