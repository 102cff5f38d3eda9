"""deploy/restore.sh: a copy is put back, the bot starts on it, and says twice only what it cannot know better.

What a copy knows as handled is never handled again. What it was about to send is uncertain: mail goes again under the
same Message-ID, by which receivers drop the double, chat once more (CHANNELS, section 3).
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.expert_desk import Desk
from bot.journal import Reply, open_journal
from bot.running.lock import AlreadyRunning, only_process
from deploy.copies import make
from deploy.restoring import NUMBERS_LEFT_OUT, put_back
from knowledge.errors import BedstampError
from tests.chaos.harness import until
from tests.mail_bot import DESK, bot_on, journal_of, parsed, question
from tests.mail_servers import mail_servers, missing
from tests.telegram_server import BotServer, Person
from tests.telegram_server.running import desk

ROOT = Path(__file__).parents[2]
NOW = datetime(2031, 5, 4, 3, tzinfo=UTC)


def reply(name: str) -> Reply:
    return Reply("mail", f"<{name}@example.net>", "ann@example.org", b"It is of 1890.", "mail:ann@example.org")


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A store with a message in each state."""
    path = tmp_path / "bedstamp.sqlite"
    with open_journal(path, create=True) as journal:
        journal.store()
        Desk(journal)
        for name in ("handled", "waiting"):
            journal.receive("mail", name, b"How old?", NOW)
        journal.handled(1, [reply("queued"), reply("sending"), reply("sent")], now=NOW)
        journal.sending(2)
        journal.sending(3)
        journal.sent(3, now=NOW)
    return path


@pytest.fixture
def copy(store: Path, tmp_path: Path) -> Path:
    return make(store, tmp_path / "copies", now=NOW)


def states(path: Path) -> dict[str, str]:
    """The state of each message, by its key."""
    with closing(sqlite3.connect(path)) as file:
        return dict(file.execute("SELECT key, state FROM incoming UNION SELECT key, state FROM outgoing"))


def restore(*words: object) -> subprocess.CompletedProcess[str]:
    environment = os.environ | {"BEDSTAMP_VENV": sys.prefix}
    script = ["bash", str(ROOT / "deploy" / "restore.sh"), *map(str, words)]
    return subprocess.run(script, cwd="/", env=environment, capture_output=True, text=True, timeout=60, check=False)


# --- what is known afterwards


def test_what_was_to_be_sent_is_uncertain_and_what_was_done_stays_done(copy, store) -> None:
    put_back(copy, store)
    with open_journal(store) as journal:
        journal.recover(NOW)
    assert states(store) == {
        "handled": "handled", "waiting": "waiting", "<queued@example.net>": "uncertain",
        "<sending@example.net>": "uncertain", "<sent@example.net>": "sent",
    }  # fmt: skip


def test_what_is_uncertain_says_why_and_goes_out_under_the_same_name(copy, store) -> None:
    put_back(copy, store, now=NOW)
    with open_journal(store) as journal:
        (due,) = [one for one in journal.due("mail", NOW + timedelta(hours=1)) if one.key == "<queued@example.net>"]
    assert (due.state, due.unsure, due.body) == ("uncertain", 1, b"It is of 1890.")
    assert "nobody knows whether it went out" in due.reason


def test_no_number_that_was_given_out_since_the_copy_is_given_out_again(copy, store) -> None:
    with closing(sqlite3.connect(store)) as file:
        counted = [name for (name,) in file.execute("SELECT name FROM sqlite_master WHERE sql LIKE '%AUTOINCREMENT%'")]
        known = dict(file.execute("SELECT name, seq FROM sqlite_sequence"))
    assert {"incoming", "outgoing", "desk_cases", "desk_proposals"} <= set(counted)
    put_back(copy, store)
    with closing(sqlite3.connect(store)) as file:
        after = dict(file.execute("SELECT name, seq FROM sqlite_sequence"))
    assert after == {name: known.get(name, 0) + NUMBERS_LEFT_OUT for name in counted}
    with open_journal(store) as journal:
        assert journal.receive("mail", "new", b"x", NOW) == known["incoming"] + NUMBERS_LEFT_OUT + 1


# --- how it is put back


def test_the_script_puts_a_copy_back_and_keeps_the_store_of_before(copy, store) -> None:
    with open_journal(store) as journal:
        journal.receive("mail", "later", b"x", NOW)
    done = restore(copy, store)
    assert (done.returncode, done.stderr) == (0, "")
    assert "later" not in states(store)
    (aside,) = store.parent.glob("bedstamp.sqlite.before-*")
    assert str(aside) in done.stdout
    assert "later" in states(aside)
    assert store.stat().st_mode & 0o777 == 0o600


def test_what_the_store_of_before_had_in_its_log_stays_with_it_and_does_not_get_into_the_copy(copy, store) -> None:
    holding = sqlite3.connect(store)
    holding.execute("BEGIN").execute("SELECT count(*) FROM incoming").fetchone()
    with open_journal(store) as journal:
        journal.receive("mail", "in-the-log", b"x" * 9000, NOW)
    assert Path(f"{store}-wal").stat().st_size
    aside = put_back(copy, store)
    holding.close()
    assert "in-the-log" not in states(store)
    assert aside is not None
    assert "in-the-log" in states(aside)


def test_a_store_that_is_lost_or_damaged_is_replaced_too(copy, store) -> None:
    before = states(copy)
    store.write_bytes(b"\xff" * 10_000)
    assert put_back(copy, store)
    store.unlink()
    assert put_back(copy, store) is None
    assert states(store).keys() == before.keys()


def test_while_the_bot_runs_nothing_is_put_back(copy, store) -> None:
    with only_process(store), pytest.raises(AlreadyRunning):
        put_back(copy, store)
    assert list(store.parent.glob("*.before-*")) == []


def test_a_copy_that_is_damaged_or_none_is_refused_and_the_store_stays(copy, store, tmp_path) -> None:
    before = store.read_bytes()
    size = copy.stat().st_size
    with copy.open("r+b") as file:
        for page in range(2, size // 4096):
            file.seek(page * 4096)
            file.write(os.urandom(3000))
    for wrong in (copy, tmp_path / "none.sqlite", ROOT / "README.md", store):
        done = restore(wrong, store)
        assert done.returncode in (1, 2), wrong
        assert done.stderr
        assert "Traceback" not in done.stderr
    assert store.read_bytes() == before
    assert not [path for path in tmp_path.iterdir() if "before" in path.name or path.name.endswith(".new")]


def test_a_copy_of_a_newer_program_is_refused_and_the_store_stays(copy, store) -> None:
    before = store.read_bytes()
    with closing(sqlite3.connect(copy)) as file, file:
        columns, values = "migration_set, name, applied_at", "'journal', '9 new', '2040-01-01'"
        file.execute(f"INSERT INTO _sqlite_migrations ({columns}) VALUES ({values})")
    with pytest.raises(BedstampError, match="newer"):
        put_back(copy, store)
    assert store.read_bytes() == before


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can give files to somebody else")
def test_what_root_puts_back_belongs_to_the_user_of_the_bot(copy, store, tmp_path) -> None:
    home = tmp_path / "moved"
    home.mkdir()
    os.chown(home, 12345, 12346)
    put_back(copy, home / "bedstamp.sqlite")
    assert {(path.stat().st_uid, path.stat().st_gid) for path in home.iterdir()} == {(12345, 12346)}
    assert {path.name for path in home.iterdir()} == {"bedstamp.sqlite", "bedstamp.sqlite.lock"}


# --- the running program


def test_in_the_chat_nothing_that_the_copy_or_the_time_after_it_saw_is_answered_again(tmp_path) -> None:
    with BotServer().running() as server:
        room = desk(tmp_path, server)
        store = tmp_path / "bedstamp.sqlite"
        with room.program:
            room.start()
            asked = [room.group.says(Person(700 + one, "Ada"), f"K2041{one}7, how old is it?") for one in range(3)]
            for one in asked:
                room.wait_for_answer_to(one)
            until(lambda: "queued" not in states(store).values() and "sending" not in states(store).values())
            copy = make(store, tmp_path / "copies")
            later = room.group.says(Person(800, "Ben"), "K225017, how old is it?")
            room.wait_for_answer_to(later)
            room.program.kill()
            put_back(copy, store)
            room.program.start()
            new = room.group.says(Person(900, "Cleo"), "K231111, how old is it?")
            room.wait_for_answer_to(new)
            assert room.program.terminate() == 0
        texts = [one for one in room.answers() if "reply_to_message" in one and "text" in one]
        answered = [one["reply_to_message"]["message_id"] for one in texts]
        assert sorted(answered) == sorted(one["message_id"] for one in (*asked, later, new))


@pytest.mark.skipif(bool(missing()), reason=missing())
def test_by_mail_what_may_go_out_twice_has_the_same_message_id_and_the_rest_goes_once(tmp_path) -> None:
    with mail_servers() as servers:
        store = tmp_path / "bedstamp.sqlite"
        with bot_on(servers, tmp_path) as program:
            servers.deliver(question("K204117", "done"), DESK)
            servers.wait_for_mails("done@example.org", 1)
            until(lambda: "sent" in states(store).values())
            servers.stop_postfix()
            servers.deliver(question("K204118", "queued"), DESK)
            until(lambda: "queued" in states(store).values())
            copy = make(store, tmp_path / "copies")
            servers.start_postfix()
            servers.wait_for_mails("queued@example.org", 1)
            servers.deliver(question("K204119", "later"), DESK)
            servers.wait_for_mails("later@example.org", 1)
            program.kill()
        put_back(copy, store, now=datetime.now(UTC) - timedelta(minutes=1))  # the wait of the queued one is over
        with bot_on(servers, tmp_path):
            servers.deliver(question("K204120", "new"), DESK)
            counts = {"done": 1, "queued": 2, "later": 2, "new": 1}
            came = {one: parsed(servers.wait_for_mails(f"{one}@example.org", many, 60)) for one, many in counts.items()}
            with journal_of(tmp_path) as journal:
                until(lambda: set(journal.counts()) == {"handled", "sent"})
        assert {name: len(mails) for name, mails in came.items()} == counts
        for name, mails in came.items():
            assert len({mail["Message-ID"] for mail in mails}) == 1, name


def test_a_copy_moved_to_another_machine_goes_on_where_it_was(copy, tmp_path) -> None:
    """Moved after a stop: what was to be sent has not gone out yet, and goes out there, once."""
    other = tmp_path / "other machine"
    other.mkdir()
    shutil.copy(copy, other / "copy.sqlite")
    put_back(other / "copy.sqlite", other / "bedstamp.sqlite", now=NOW)
    with open_journal(other / "bedstamp.sqlite") as journal:
        due = {one.key for one in journal.due("mail", NOW + timedelta(minutes=5))}
        assert [one.key for one in journal.waiting(NOW)] == ["waiting"]
    assert "<queued@example.net>" in due
