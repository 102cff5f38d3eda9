"""Findings in the knowledge base file: every change is a row of its own, and none is ever overwritten.

A row holds the finding as it is since that change. The last row of a key tells whether it is in force.
"""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import datetime
from typing import Any

from knowledge.database import explained
from knowledge.findings import ADDED, AMENDED, WITHDRAWN, Change, Finding, FindingError, check, in_utc
from knowledge.stored import Stored

_CELLS = tuple(field.name for field in fields(Finding) if field.name != "typed")
_COLUMNS = ", ".join(f'"{name}"' for name in _CELLS)
NOT_WITHDRAWN = (
    "NOT IN (SELECT key FROM finding_changes WHERE what = 'withdrawn' AND number IN "
    "(SELECT max(number) FROM finding_changes GROUP BY key))"
)
"""What SQL says of a key that counts: also one that other groups share again."""
_LAST = "number IN (SELECT max(number) FROM finding_changes GROUP BY key)"


class StoredFindings(Stored):
    """The part of the store that keeps findings and their history."""

    def findings(self) -> tuple[Finding, ...]:
        """Return those in force, in the order in which they came to be as they are."""
        select = f"SELECT {_COLUMNS} FROM finding_changes WHERE {_LAST} AND what != ? ORDER BY number"
        spelt: dict[str, list[str]] = {}
        with explained(self.path):
            for typed, key in self._execute("SELECT typed, finding FROM spellings ORDER BY typed"):
                spelt.setdefault(key, []).append(typed)
            found = [_finding(row) for row in self._execute(select, (WITHDRAWN,))]
        return tuple(replace(one, typed=tuple(spelt.get(one.key, ()))) for one in found)

    def note_spelling(self, typed: str, key: str) -> None:
        """Remember how the number of a finding was typed by somebody, where it is stamped otherwise."""
        with self._changing():
            self._execute("INSERT INTO spellings VALUES (?, ?) ON CONFLICT DO NOTHING", (typed, key))
            self._changed()

    def withdrawn_findings(self) -> frozenset[str]:
        """Return the keys of those that were withdrawn: they count no more, whoever shares them again."""
        with explained(self.path):
            found = self._execute(f"SELECT key FROM finding_changes WHERE {_LAST} AND what = ?", (WITHDRAWN,))
            return frozenset(key for (key,) in found)

    def add_finding(self, finding: Finding) -> None:
        """Add a finding. Raises FindingError when it cannot be answered from, or its key was used before."""
        check(finding)
        with self._changing():
            if self._last(finding.key):
                raise FindingError(
                    f"The finding {finding.key} on {finding.serial} is known already, in force or withdrawn. Amend it, "
                    "or settle the machine anew."
                )
            self._write(ADDED, finding.author, finding.settled, "", finding)

    def amend_finding(self, key: str, new: Finding, why: str = "") -> None:
        """Put `new` in the place of the finding with this key; what it was stays in the history.

        `new` tells who amended it and when. The same again changes nothing. Raises FindingError, also when there is
        none in force.
        """
        new = replace(new, key=key)
        check(new)
        with self._changing():
            if self._in_force(key) != new:
                self._write(AMENDED, new.author, new.settled, why, new)

    def withdraw_finding(self, key: str, author: str, at: datetime, why: str) -> None:
        """Let a finding count no more; it stays in the history. Raises FindingError when there is none in force."""
        with self._changing():
            self._write(WITHDRAWN, author, at, why, self._in_force(key))

    def finding_history(self, key: str) -> tuple[Change, ...]:
        """Return everything that was done to a finding, the earliest first; nothing for a key never used."""
        select = f"SELECT what, changed_by, at, why, {_COLUMNS} FROM finding_changes WHERE key = ? ORDER BY number"
        with explained(self.path):
            rows = self._execute(select, (key,)).fetchall()
        return tuple(
            Change(what, author, datetime.fromisoformat(at), why, _finding(cells))
            for what, author, at, why, *cells in rows
        )

    def _write(self, what: str, author: str, at: datetime, why: str, finding: Finding) -> None:
        values = (what, author, _cell(at), why, *(_cell(getattr(finding, name)) for name in _CELLS))
        marks = ", ".join("?" * len(values))
        self._execute(f"INSERT INTO finding_changes (what, changed_by, at, why, {_COLUMNS}) VALUES ({marks})", values)
        self._changed()

    def _in_force(self, key: str) -> Finding:
        last = self._last(key)
        if last is None or last[0] == WITHDRAWN:
            was = "was withdrawn" if last else "is not known here"
            raise FindingError(f"The finding {key} {was}, so nothing was changed. Settle the machine anew.")
        return _finding(last[1:])

    def _last(self, key: str) -> tuple[Any, ...] | None:
        """Return what was done to a finding last, and its cells; None when the key was never used."""
        select = f"SELECT what, {_COLUMNS} FROM finding_changes WHERE key = ? ORDER BY number DESC LIMIT 1"
        found: tuple[Any, ...] | None = self._execute(select, (key,)).fetchone()
        return found


def _cell(value: object) -> object:
    return in_utc(value).isoformat() if isinstance(value, datetime) else value


def _finding(cells: Any) -> Finding:
    told = dict(zip(_CELLS, cells, strict=True))
    return Finding(**{**told, "settled": datetime.fromisoformat(told["settled"])})
