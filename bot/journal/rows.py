"""The ground the parts of the journal stand on: the open file, transactions, times, and who a person is."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from knowledge.database import explained, transaction

_CLOCK_SLACK = 1.0  # seconds by which clocks are corrected all the time


class Rows:
    """An open journal file. Every method is one short transaction at most, and nothing in it ever awaits."""

    def __init__(self, path: Path, database: Database) -> None:
        self.path = path
        self._database = database

    def _execute(self, sql: str, values: Sequence[object] = ()) -> sqlite3.Cursor:
        return self._database.conn.execute(sql, [_storable(value) for value in values])

    def _all(self, sql: str, values: Sequence[object] = ()) -> list[tuple[Any, ...]]:
        with explained(self.path):
            return self._execute(sql, values).fetchall()

    def _one(self, sql: str, values: Sequence[object] = ()) -> tuple[Any, ...] | None:
        with explained(self.path):
            found: tuple[Any, ...] | None = self._execute(sql, values).fetchone()
        return found

    @contextmanager
    def _writing(self) -> Iterator[None]:
        with explained(self.path), transaction(self._database):
            yield

    def _person(self, key: str) -> int | None:
        """Return the id of a person, known or new; None for ''. Inside a transaction."""
        if not key:
            return None
        self._execute("INSERT INTO people (key) VALUES (?) ON CONFLICT DO NOTHING", (key,))
        return int(self._execute("SELECT id FROM people WHERE key = ?", (key,)).fetchone()[0])

    def _set_waits_right(self, table: str, which: str, now: float) -> None:
        """After the clock was put back, let each wait be as long as it was meant, counted from now on."""
        ahead = f"{which} AND since > ?"
        if self._one(f"SELECT 1 FROM {table} WHERE {ahead} LIMIT 1", (now + _CLOCK_SLACK,)):
            with self._writing():
                self._execute(
                    f"UPDATE {table} SET next_try = ? + next_try - since, since = ? WHERE {ahead}",
                    (now, now, now + _CLOCK_SLACK),
                )


def _storable(value: object) -> object:
    """Return a value as SQLite takes it: half characters, as broken mail has them, are written out."""
    return value.encode("utf-8", "backslashreplace").decode() if isinstance(value, str) else value


def seconds(moment: datetime) -> float:
    """Return a moment as it is stored: seconds since 1970. It must know its time zone."""
    if moment.tzinfo is None:
        raise ValueError(f"{moment!r} does not say its time zone")
    return moment.timestamp()


def moment(stored: float) -> datetime:
    """Return the moment that was stored, in UTC."""
    return datetime.fromtimestamp(stored, UTC)
