"""A copy of a bot's store is put back. Called by deploy/restore.sh; deploy/copies.py makes the copies.

python -m deploy.restoring COPY FILE

A copy knows nothing of what happened after it was made. So what it was about to send becomes `uncertain`, which each
channel handles as after a crash (mail: again, under the same Message-ID; chat: once more), and no number that was
given out since then is given out a second time.
"""

from __future__ import annotations

import argparse
import os
import shutil
import sqlite3
import sys
from collections.abc import Sequence
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from bot.expert_desk import Desk
from bot.journal import open_journal
from bot.running.lock import only_process
from deploy.copies import SIDE_FILES, TIME, carried_out, check, copy_whole, draft_beside, to_disk
from knowledge.database import explained
from knowledge.errors import UsageError

NUMBERS_LEFT_OUT = 100_000
"""So many numbers of messages and of cases are left out: more than a group uses between two copies."""
NOT_SURE = "It was to be sent when the copy was made; nobody knows whether it went out after that."


def put_back(copy: Path, store: Path, now: datetime | None = None) -> Path | None:
    """Put a copy in the place of a store; return where the store of before is now, None when there was none.

    Raises AlreadyRunning while a bot works with the store, and other BedstampErrors; then all is as before.
    """
    moment = now or datetime.now(UTC)
    if not store.parent.is_dir():
        raise UsageError(f"The folder {store.parent} does not exist. Make it first.")
    if store.exists() and copy.resolve() == store.resolve():
        raise UsageError(f"{copy} is the store itself. Name the copy first, then the store.")
    check(copy)
    owner = (store if store.exists() else store.parent).stat()
    with only_process(store), draft_beside(store) as draft:
        _give(Path(f"{store.resolve()}.lock"), owner)
        copy_whole(copy, draft)
        _make_known_as_old(draft, moment)
        _give(draft, owner)
        aside = _lay_aside(store, moment)
        os.replace(draft, store)
        to_disk(store.parent)
    return aside


def _make_known_as_old(draft: Path, now: datetime) -> None:
    """Bring the tables up to date, and write down that nobody knows what happened since."""
    with open_journal(draft) as journal:
        journal.store()
        Desk(journal)  # both bring their tables up to date
        with journal.one_transaction():
            for one in journal.list_outgoing("queued", limit=-1):
                journal.uncertain(one.id, NOT_SURE, now=now)
    with explained(draft), closing(sqlite3.connect(draft)) as database:
        _leave_numbers_out(database)
        database.execute("PRAGMA journal_mode = DELETE")
    to_disk(draft)


def _leave_numbers_out(database: sqlite3.Connection) -> None:
    """Let new numbers begin far above the old ones.

    Buttons and mails that went out after the copy was made carry numbers that it does not know. They must not fit a
    case or a message that comes now, nor may a new mail have the Message-ID of one that went out then.
    """
    counting = "SELECT name FROM sqlite_master WHERE type = 'table' AND sql LIKE '%AUTOINCREMENT%'"
    known = "SELECT name FROM sqlite_sequence"
    with database:
        database.execute(f"INSERT INTO sqlite_sequence SELECT name, 0 FROM ({counting}) WHERE name NOT IN ({known})")
        database.execute("UPDATE sqlite_sequence SET seq = seq + ?", (NUMBERS_LEFT_OUT,))


def _lay_aside(store: Path, now: datetime) -> Path | None:
    """Keep the store of before, with its log, under another name, and let go of its log.

    The store itself stays in its place until the new one takes it: a bot that starts without one begins a new one.
    """
    if not store.exists():
        return None
    aside = store.with_name(f"{store.name}.before-{now.strftime(TIME)}")
    for side in ("", *SIDE_FILES):
        if Path(f"{store}{side}").exists():
            _also_as(Path(f"{store}{side}"), Path(f"{aside}{side}"))
    to_disk(store.parent)
    for side in SIDE_FILES:
        Path(f"{store}{side}").unlink(missing_ok=True)
    return aside


def _also_as(path: Path, other: Path) -> None:
    try:
        os.link(path, other)
    except OSError:  # a file system without hard links
        shutil.copy2(path, other)


def _give(file: Path, owner: os.stat_result) -> None:
    """Give a file to whom the store belongs: root puts copies back for the user that the bot runs as."""
    if os.geteuid() == 0:
        os.chown(file, owner.st_uid, owner.st_gid)


def main(argv: Sequence[str] | None = None) -> int:
    """Put one copy back."""
    parser = argparse.ArgumentParser(prog="restore.sh", description="Puts a copy in the place of a bot's store.")
    parser.add_argument("copy", type=Path, metavar="COPY", help="the copy that backup.sh made")
    parser.add_argument("file", type=Path, metavar="FILE", help="the store; its bot has to be stopped")
    arguments = parser.parse_args(argv)

    def work() -> str:
        aside = put_back(arguments.copy, arguments.file)
        before = f"The store of before is kept: {aside}" if aside else "There was no store before."
        return f"{arguments.file} is now as it was in {arguments.copy}.\n{before}"

    return carried_out(work)


if __name__ == "__main__":
    sys.exit(main())
