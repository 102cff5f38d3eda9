"""The journal: every message that came in and every reply that goes out, on the disk before anything depends on it.

    receive -> (acknowledge upstream) -> waiting -> handled: replies queued -> due -> sending -> sent

It lies in the SQLite file of the knowledge base, with tables of its own. Read tables.py, inbox.py, outbox.py. All
methods are short and synchronous; a journal belongs to the thread that opened it. When the file cannot be written
(disk full, held by another program) they raise StoreError and have changed nothing.
"""

from __future__ import annotations

from pathlib import Path

from sqlite_utils import Database, Migrations

from bot.journal.forgetting import Forgetting
from bot.journal.nouns import Incoming, JournalError, Outgoing, Reply, Talk
from bot.journal.tables import JOURNAL
from bot.journal.waits import Waits
from knowledge.database import TIMEOUT, explained, open_database
from knowledge.migrations import KNOWLEDGE, upgrade, waiting
from knowledge.store import Store

__all__ = ["Incoming", "Journal", "JournalError", "Outgoing", "Reply", "Talk", "Waits", "open_journal", "open_to_read"]


class Journal(Forgetting):
    """An open journal. Made by `open_journal`; use it as a context manager, or call `close`."""

    def __init__(self, path: Path, database: Database) -> None:
        super().__init__(path, database)
        self._up_to_date: set[str] = set()

    def __enter__(self) -> Journal:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def store(self) -> Store:
        """Return the knowledge in the same file, over the same connection, its tables brought up to date."""
        return Store(self.path, self.beside(KNOWLEDGE), TIMEOUT)

    def beside(self, migrations: Migrations) -> Database:
        """Return the connection for another part's tables in the same file, those tables brought up to date.

        What that part writes joins the transaction that is open. A person is known there by their id in `people`.
        """
        if migrations.name not in self._up_to_date:
            with self._writing():
                upgrade(self._database, migrations, self.path)
            if not self._database.conn.in_transaction:  # else the caller may still undo it
                self._up_to_date.add(migrations.name)
        return self._database

    def take_as_up_to_date(self, *parts: Migrations) -> None:
        """Note that the tables of these parts need no step, for a file that is only read."""
        self._up_to_date.update(one.name for one in parts)

    def close(self) -> None:
        """Close the file. Doing it twice does no harm."""
        self._database.close()


def open_to_read(path: Path, *parts: Migrations) -> Journal | None:
    """Open a file to read what these parts keep in it, and write nothing; None when they keep nothing in it yet.

    A file that may be written and was made by an older version is brought up to date first. Raises StoreError.
    """
    wanted = (JOURNAL, *parts)
    database = open_database(path, Migrations("nothing"), read_only=True)
    with explained(path):
        lacks = [waiting(database, one) for one in wanted]
        has_none = any(not one.applied(database) for one in wanted)
    if has_none:
        database.close()
        return None
    if any(lacks):
        database.close()
        return open_journal(path)
    journal = Journal(path, database)
    journal.take_as_up_to_date(*wanted)
    return journal


def open_journal(path: Path, *, create: bool = False, timeout: float = TIMEOUT) -> Journal:
    """Open the journal in the knowledge base file at `path`; with `create` make the file when it is missing.

    `timeout` (seconds) is how long to wait for another program that is writing. Raises StoreError.
    """
    database = open_database(path, JOURNAL, create=create, timeout=timeout)
    database.conn.execute("PRAGMA secure_delete = ON")  # what is forgotten is overwritten, not only unlinked
    return Journal(path, database)
