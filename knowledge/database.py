"""Open the SQLite file that holds a knowledge base, and say in plain words what is wrong with it.

Every part that keeps tables in this file (the knowledge, later the bot's journal) opens it here with its own
set of migrations. Settings, in this order: busy timeout, foreign keys on, write-ahead log, synchronous=FULL.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

from sqlite_utils import Database, Migrations

from knowledge.migrations import StoreError, refuse_newer, upgrade, waiting

APPLICATION_ID = 0x42656473  # 'Beds': the mark of our files, so that no other program's file is ever written to
TIMEOUT = 5.0  # seconds to wait for another program that is writing
_LOG_KEPT = 16 * 1024 * 1024  # bytes: a long load makes a long log, which is not to stay so


def open_database(
    path: Path,
    migrations: Migrations,
    *,
    create: bool = False,
    read_only: bool = False,
    timeout: float = TIMEOUT,
) -> Database:
    """Open the file at `path` with the tables of `migrations` brought up to date.

    With `create` a missing file is made, whole or not at all. With `read_only` nothing is written, not even
    an upgrade. `timeout` is in seconds. Raises StoreError.
    """
    if create and not os.path.lexists(path):
        _create(path, migrations, timeout)
    _look_at(path, read_only)
    with explained(path):
        database = _connect(path, read_only, timeout)
        try:
            _settle(database, migrations, path, read_only)
        except BaseException:
            database.close()
            raise
    return database


def can_only_be_read(path: Path) -> bool:
    """Tell whether SQLite cannot keep its side files beside `path`: then the file is read as it stands."""
    log = Path(f"{path}-wal")
    return not _may_write(path.parent) and not (log.exists() and log.stat().st_size)


def _may_write(path: Path) -> bool:
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


@contextmanager
def transaction(database: Database) -> Iterator[None]:
    """Run a block as one write transaction: all of it is kept, or nothing. Inside another one it joins that.

    BEGIN IMMEDIATE, because a read lock cannot always be raised to a write lock later. No `await` inside.
    """
    if database.conn.in_transaction:
        yield
        return
    database.conn.execute("BEGIN IMMEDIATE")
    try:
        yield
        database.conn.execute("COMMIT")
    except BaseException:
        database.rollback()
        raise


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Turn what SQLite raises inside the block into a StoreError that says what to do."""
    try:
        yield
    except sqlite3.Error as fault:
        code = getattr(fault, "sqlite_errorcode", None)
        if code is None:
            raise
        raise StoreError(_in_words(code & 0xFF, str(fault), path)) from fault


_DAMAGED = (
    "{path} is damaged and cannot be read whole ({fault}). Keep it aside, and restore it from a backup, "
    "or load the packs again into a new file."
)
_WORDS = {
    sqlite3.SQLITE_BUSY: "Another program is writing to {path} and did not finish in time. Nothing was "
    "changed. Wait a moment and try again; if it stays so, see which program holds the file open.",
    sqlite3.SQLITE_READONLY: "{path} cannot be written to. Nothing was changed. Give yourself the right to "
    "write to the file and to its folder, or name another file.",
    sqlite3.SQLITE_FULL: "The disk is full: {path} could not take the new data. Nothing was changed. "
    "Free some space and try again.",
    sqlite3.SQLITE_CORRUPT: _DAMAGED,
    sqlite3.SQLITE_NOTADB: "{path} is not a knowledge base (it is no SQLite file, or its beginning is damaged). "
    "Name another file, or restore it from a backup.",
    sqlite3.SQLITE_CANTOPEN: "{path} cannot be opened ({fault}). See that you may read it, and that its "
    "folder can be written to: SQLite keeps two side files there.",
    sqlite3.SQLITE_IOERR: "Reading or writing {path} failed ({fault}). See whether the disk is full or "
    "faulty, then try again.",
}
_WORDS[sqlite3.SQLITE_LOCKED] = _WORDS[sqlite3.SQLITE_BUSY]
_WORDS[sqlite3.SQLITE_PERM] = _WORDS[sqlite3.SQLITE_CANTOPEN]


def _in_words(code: int, fault: str, path: Path) -> str:
    return _WORDS.get(code, "The knowledge base {path} failed: {fault}.").format(path=path, fault=fault)


def _look_at(path: Path, read_only: bool) -> None:
    """Refuse what is plainly no SQLite file of ours to use, before SQLite makes anything of it.

    The file itself is not opened here: to close it again would drop every lock this process holds on it (POSIX),
    and another program could then remove the log that is still being written to.
    """
    if path.is_dir():
        raise StoreError(f"{path} is a folder. Name a file in it, for example {path / 'bedstamp.sqlite'}.")
    if not path.exists():
        raise StoreError(
            f"There is no knowledge base at {path}. Check the path, or make one with "
            f"`bedstamp pack load FOLDER --db {path}`."
        )
    if not os.access(path, os.R_OK, effective_ids=os.access in os.supports_effective_ids):
        raise StoreError(f"{path} cannot be read. Give yourself the right to read it.")
    if not path.stat().st_size:
        raise StoreError(
            f"{path} is empty (0 bytes), so it holds no knowledge base. If nothing was lost, delete it and "
            "load your packs again; otherwise restore it from a backup."
        )
    if not read_only and not _may_write(path):
        raise StoreError(_in_words(sqlite3.SQLITE_READONLY, "", path))


def _connect(path: Path, read_only: bool, timeout: float) -> Database:
    mode = "ro" if read_only else "rw"
    frozen = "&immutable=1" if read_only and can_only_be_read(path) else ""
    uri = f"file:{quote(str(path.absolute()))}?mode={mode}{frozen}"
    return Database(sqlite3.connect(uri, uri=True, timeout=timeout), execute_plugins=False)


def _settle(database: Database, migrations: Migrations, path: Path, read_only: bool) -> None:
    """Set the connection up, and bring the tables of an older file up to date."""
    database.conn.execute("PRAGMA foreign_keys = ON")
    if database.conn.execute("PRAGMA application_id").fetchone() != (APPLICATION_ID,):
        raise StoreError(f"{path} is an SQLite file of another program, not a knowledge base. Name another file.")
    refuse_newer(database, migrations, path)
    if read_only:
        if waiting(database, migrations):
            raise StoreError(
                f"{path} was made by an older version and has to be brought up to date first, but it was "
                "opened for reading only. Load a pack into it, or start the bot with it, once: both do that."
            )
        return
    database.conn.execute("PRAGMA journal_mode = WAL")
    database.conn.execute("PRAGMA synchronous = FULL")
    database.conn.execute(f"PRAGMA journal_size_limit = {_LOG_KEPT}")
    if waiting(database, migrations):
        with transaction(database):
            upgrade(database, migrations, path)


def _create(path: Path, migrations: Migrations, timeout: float) -> None:
    """Make a new file under another name, and give it its own only when it is whole."""
    if not path.parent.is_dir():
        raise StoreError(
            f"The folder {path.parent} does not exist, so {path.name} cannot be made in it. Make it first."
        )
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        _write_new(draft, migrations, path, timeout)
        _give_name(draft, path)
    except OSError as fault:
        raise StoreError(f"{path} could not be made ({fault.strerror}). Nothing was left behind.") from fault
    finally:
        for left in (draft, Path(f"{draft}-wal"), Path(f"{draft}-shm"), Path(f"{draft}-journal")):
            left.unlink(missing_ok=True)


def _give_name(draft: Path, path: Path) -> None:
    """Name the draft `path` without ever replacing a file that another program made in the meantime."""
    try:
        os.link(draft, path)
    except FileExistsError:
        return
    except OSError:  # a file system without hard links
        if not path.exists():
            draft.rename(path)


def _write_new(draft: Path, migrations: Migrations, path: Path, timeout: float) -> None:
    draft.unlink(missing_ok=True)
    draft.touch()
    with explained(path):
        database = Database(sqlite3.connect(draft, timeout=timeout), execute_plugins=False)
        try:
            database.conn.execute("PRAGMA journal_mode = WAL")
            database.conn.execute("PRAGMA synchronous = FULL")
            with transaction(database):
                database.conn.execute(f"PRAGMA application_id = {APPLICATION_ID}")
                upgrade(database, migrations, path)
        finally:
            database.close()
