"""The ground the parts of the store stand on: the open file, reading, and changes that are seen everywhere."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from knowledge.database import explained, transaction


class Stored:
    """An open knowledge base file. Every change joins the transaction that is open on its connection, if one is."""

    def __init__(self, path: Path, database: Database) -> None:
        self.path = path
        self._database = database

    def _execute(self, sql: str, values: Sequence[object] = ()) -> sqlite3.Cursor:
        return self._database.conn.execute(sql, values)

    @contextmanager
    def _changing(self) -> Iterator[None]:
        """Change knowledge inside the block, whole or not at all."""
        with explained(self.path), transaction(self._database):
            yield

    def _changed(self) -> None:
        """Let everybody who reads the file see that knowledge changed. Inside the transaction that changes it."""
        self._execute("UPDATE revision SET number = number + 1")
