"""What settled cases show of mistakes, in the knowledge base file: counts and shares, no words and no names."""

from __future__ import annotations

import json
from datetime import date

from knowledge.database import explained
from knowledge.mistakes import Seen
from knowledge.stored import Stored

_DIGITS = 6  # of a share that are kept: far more than what is learned from it can tell apart


class StoredMistakes(Stored):
    """The part of the store that keeps what settled cases show of mistakes."""

    def mistakes(self) -> tuple[Seen, ...]:
        """Return what the settled cases show, in the order of the cases."""
        select = 'SELECT observed, shares FROM mistakes ORDER BY "case", token'
        with explained(self.path):
            return tuple(Seen(observed, json.loads(shares)) for observed, shares in self._execute(select))

    def note_mistake(self, case: int, token: int, seen: Seen | None, day: date) -> None:
        """Keep what a case shows of the number at place `token` of its question, instead of what it showed before.

        With None it shows nothing (any more). The same again changes nothing.
        """
        row = (seen.observed, _as_json(seen), day.isoformat()) if seen else None
        with self._changing():
            select = 'SELECT observed, shares, day FROM mistakes WHERE "case" = ? AND token = ?'
            before = self._execute(select, (case, token)).fetchone()
            if row and row[:2] != (before or ())[:2]:
                self._execute("INSERT OR REPLACE INTO mistakes VALUES (?, ?, ?, ?, ?)", (case, token, *row))
                self._changed()
            elif before and not row:
                self._execute('DELETE FROM mistakes WHERE "case" = ? AND token = ?', (case, token))
                self._changed()

    def forget_mistakes(self, case: int) -> None:
        """Let a case show nothing any more: what was found in it was withdrawn."""
        with self._changing():
            if self._execute('DELETE FROM mistakes WHERE "case" = ?', (case,)).rowcount:
                self._changed()


def _as_json(seen: Seen) -> str:
    return json.dumps({class_: float(f"{share:.{_DIGITS}g}") for class_, share in sorted(seen.shares.items())})
