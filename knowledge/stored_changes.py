"""Changes of registers in the knowledge base file: proposed by one expert, agreed to by another, only ever added to.

A change in force is laid over the pack's rows as they are read (`register_changes/overlay.py`), so it outlives every
loading of the pack anew. A pack without changes is read as it lies there.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from knowledge.database import explained
from knowledge.findings import in_utc
from knowledge.register_changes.nouns import (
    IN_FORCE,
    PROPOSED,
    TABLES,
    TAKEN_BACK,
    ChangeError,
    RegisterChange,
    Row,
    Step,
    as_cells,
    as_row,
)
from knowledge.stored import Stored

_CHANGES = (
    "SELECT number, pack, in_table, before, after, proposer, one.at, one.why, what, who, decided.at "
    "FROM register_changes AS one LEFT JOIN register_decisions AS decided ON decided.change = one.number"
)


class StoredChanges(Stored):
    """The part of the store that keeps changes of registers."""

    def register_changes(self, *states: str) -> tuple[RegisterChange, ...]:
        """Return the changes in these states (all, when none is named), the earliest first."""
        found = self._changes_where("ORDER BY number")
        return tuple(one for one in found if not states or one.state in states)

    def register_change(self, number: int) -> RegisterChange:
        """Return one change. Raises ChangeError when there is none of that number."""
        found = self._changes_where("WHERE number = ?", (number,))
        if not found:
            raise ChangeError(f"There is no change {number}. `bedstamp knowledge changes` shows which there are.")
        return found[0]

    def register_steps(self, number: int) -> tuple[Step, ...]:
        """Return the history of a change: proposed, then what became of it. Raises ChangeError."""
        one = self.register_change(number)
        sql = "SELECT what, who, at, why FROM register_decisions WHERE change = ?"
        with explained(self.path):
            decided = self._execute(sql, (number,)).fetchall()
        begun = [Step(PROPOSED, one.proposer, one.at, one.why)] if one.at else []
        return (*begun, *(Step(what, who, datetime.fromisoformat(at), why) for what, who, at, why in decided))

    def changes_in_force(self, pack: str, table: str) -> tuple[RegisterChange, ...]:
        """Return what is laid over a table of a pack, in the order in which it came into force."""
        if table not in TABLES:
            return ()
        where = "WHERE what = ? AND pack = ? AND in_table = ? ORDER BY place"
        return tuple(self._changes_where(where, (IN_FORCE, pack, table)))

    def add_change(self, change: RegisterChange) -> RegisterChange:
        """Keep a proposal, and return it with its number; nothing is in force yet. It was checked before."""
        if not change.proposer or change.at is None:
            raise ChangeError("A change needs somebody who proposes it, and when that was.")
        with self._changing():
            cursor = self._execute(
                "INSERT INTO register_changes (pack, in_table, before, after, proposer, at, why) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)",
                (
                    change.pack, change.table, _as_json(change.table, change.before),
                    _as_json(change.table, change.after), change.proposer, in_utc(change.at).isoformat(), change.why,
                ),
            )  # fmt: skip
            return replace(change, number=int(cursor.lastrowid or 0))

    def decide_change(self, number: int, what: str, who: str, at: datetime, why: str = "") -> RegisterChange:
        """Put a proposal in force, turn it down or take it back. Raises ChangeError, and nothing is changed then.

        In force it comes only by another expert than the one who proposed it, and back only by that one.
        """
        with self._changing():
            one = self.register_change(number)
            if one.state != PROPOSED:
                when = f" on {one.since.date()}" if one.since else ""
                raise ChangeError(f"Change {number} is {one.state} already, by {one.other}{when}.")
            if what == IN_FORCE and who == one.proposer:
                raise ChangeError(
                    f"You proposed change {number} yourself. A register changes only when another expert agrees."
                )
            if what == TAKEN_BACK and who != one.proposer:
                raise ChangeError(f"Change {number} is {one.proposer}'s. You can turn it down, not take it back.")
            self._execute(
                "INSERT INTO register_decisions (change, what, who, at, why) VALUES (?, ?, ?, ?, ?)",
                (number, what, who, in_utc(at).isoformat(), why),
            )
            if what == IN_FORCE:
                self._changed()
            return self.register_change(number)

    def _changes_where(self, where: str, values: Sequence[object] = ()) -> list[RegisterChange]:
        with explained(self.path):
            return list(_changes(self._execute(f"{_CHANGES} {where}", values)))


def _changes(rows: Any) -> Iterator[RegisterChange]:
    for number, pack, table, before, after, proposer, at, why, what, who, since in rows:
        yield RegisterChange(
            pack, table, _as_row(table, before), _as_row(table, after), number, proposer, datetime.fromisoformat(at),
            why, what or PROPOSED, who or "", datetime.fromisoformat(since) if since else None,
        )  # fmt: skip


def _as_json(table: str, row: Row | None) -> str | None:
    if row is None:
        return None
    return json.dumps({name: cell for name, cell in as_cells(table, row).items() if cell}, ensure_ascii=False)


def _as_row(table: str, text: str | None) -> Row | None:
    return None if text is None else as_row(table, json.loads(text))
