"""Copies of a bot's store, made while it works, looked over, and kept for some days. Called by deploy/backup.sh.

python -m deploy.copies FILE DIR [DAYS]

deploy/restoring.py puts one back.
"""

from __future__ import annotations

import argparse
import os
import re
import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from urllib.parse import quote

from knowledge.database import APPLICATION_ID, explained
from knowledge.errors import BedstampError, UsageError

KEEP_DAYS = 30
KEEP_LEAST = 3
"""So many of the newest copies stay however old they are: a clock that is wrong must not remove them all."""
TIME = "%Y%m%dT%H%M%SZ"
SIDE_FILES = ("-wal", "-shm")
_TIMEOUT = 60.0  # seconds to wait for a program that writes


class CopyError(BedstampError):
    """A copy could not be made, is not whole, or cannot be put back; the text says what to do."""


def make(store: Path, folder: Path, days: int = KEEP_DAYS, now: datetime | None = None) -> Path:
    """Copy a store into a folder, remove copies of it that are older than `days`, and return the new one.

    The bot may go on writing meanwhile. The copy gets its name only when it is whole. With 0 days it stays alone.
    Raises BedstampError and OSError; then nothing was removed.
    """
    moment = now or datetime.now(UTC)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    copy = folder / f"{store.stem}-{moment.strftime(TIME)}.sqlite"
    with draft_beside(copy) as draft:
        copy_whole(store, draft)
        check(draft)
        _give_name(draft, copy)
    for old in _old_ones(copy, store.stem, moment - timedelta(days=days), KEEP_LEAST if days else 1):
        old.unlink(missing_ok=True)
    return copy


def check(copy: Path) -> None:
    """Read a copy from one end to the other. Raises BedstampError when it is not a whole store."""
    with explained(copy), closing(_opened(copy)) as database:
        faults = [fault for (fault,) in database.execute("PRAGMA integrity_check") if fault != "ok"]
        faults += [f"{table} refers to what is not there" for table, *_ in database.execute("PRAGMA foreign_key_check")]
    if faults:
        raise CopyError(f"{copy} is not whole ({faults[0]}). Use another copy, and keep this one for a look.")


def copy_whole(source: Path, draft: Path) -> None:
    """Copy all pages in one go, which is one moment of the store, into a single file without side files."""
    with closing(_opened(source)) as old, explained(draft), closing(sqlite3.connect(draft)) as new:
        old.backup(new)
        new.execute("PRAGMA journal_mode = DELETE")
    to_disk(draft)


@contextmanager
def draft_beside(path: Path) -> Iterator[Path]:
    """Give a new file beside `path`, which only its owner may read; nothing is left of it when it was not used."""
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        os.close(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600))
        yield draft
    finally:
        for left in ("", *SIDE_FILES, "-journal"):
            Path(f"{draft}{left}").unlink(missing_ok=True)


def to_disk(path: Path) -> None:
    """Wait until a file, or the names in a folder, are on the disk."""
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def carried_out(work: Callable[[], str]) -> int:
    """Print what a command has to say; return 0, or 1 or 2 with what is wrong on standard error."""
    try:
        print(work())
    except BedstampError as fault:
        print(fault, file=sys.stderr)
        return fault.exit_code
    except OSError as fault:
        what = f"{fault.filename}: {fault.strerror}" if fault.filename else fault
        print(f"{what}. Check the path, the rights and the space on the disk.", file=sys.stderr)
        return 1
    return 0


def _opened(path: Path) -> sqlite3.Connection:
    """Open a store to read it. Raises BedstampError when it is none."""
    if not path.is_file():
        raise UsageError(f"There is no store at {path}. Check the path.")
    database = sqlite3.connect(f"file:{quote(str(path.absolute()))}?mode=rw", uri=True, timeout=_TIMEOUT)
    try:
        with explained(path):
            (mark,) = database.execute("PRAGMA application_id").fetchone()
        if mark != APPLICATION_ID:
            raise CopyError(f"{path} is an SQLite file of another program. Name the store of the bot, or a copy of it.")
    except BaseException:
        database.close()
        raise
    return database


def _give_name(draft: Path, copy: Path) -> None:
    try:
        os.link(draft, copy)
    except FileExistsError as fault:
        raise CopyError(f"{copy} is there already, made in the same second. Try again.") from fault
    except OSError:  # a file system without hard links
        os.replace(draft, copy)
    to_disk(copy.parent)


def _old_ones(newest: Path, stem: str, before: datetime, least: int) -> list[Path]:
    """Return the copies of the same store that may go, but never the `least` newest."""
    named = re.compile(rf"{re.escape(stem)}-[0-9]{{8}}T[0-9]{{6}}Z\.sqlite")
    others = sorted(path for path in newest.parent.iterdir() if path != newest and named.fullmatch(path.name))
    old = newest.with_name(f"{stem}-{before.strftime(TIME)}.sqlite")
    spare = others[: max(0, len(others) - least + 1)]
    return spare if least == 1 else [path for path in spare if path < old]


def main(argv: Sequence[str] | None = None) -> int:
    """Make one copy."""
    parser = argparse.ArgumentParser(prog="backup.sh", description="Copies a bot's store while it runs.")
    parser.add_argument("file", type=Path, metavar="FILE", help="the store")
    parser.add_argument("folder", type=Path, metavar="DIR", help="where the copies are kept; made when missing")
    parser.add_argument("days", type=_days, nargs="?", default=KEEP_DAYS, metavar="DAYS", help="for how long (30)")
    arguments = parser.parse_args(argv)

    def work() -> str:
        copy = make(arguments.file, arguments.folder, arguments.days)
        return f"{copy} is whole ({copy.stat().st_size:,} bytes)."

    return carried_out(work)


def _days(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,5}", text):
        raise argparse.ArgumentTypeError("it must be a number of days; 0 keeps the new copy alone")
    return int(text)


if __name__ == "__main__":
    sys.exit(main())
