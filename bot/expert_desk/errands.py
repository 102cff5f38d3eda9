"""What a process without channels left to be sent (the terminal), carried out by the one that has them; and pruning."""

from __future__ import annotations

import json
from datetime import datetime

from bot.cases import Notice
from bot.expert_desk.rows import beginning
from bot.expert_desk.timers import Timers
from bot.journal import Reply
from bot.journal.rows import seconds

_FINISHED = "SELECT id FROM desk_cases WHERE state IN ('settled', 'closed without an answer') AND changed < ?"
_PRUNING = (
    f"DELETE FROM desk_pictures WHERE waiting IN (SELECT id FROM desk_waiting WHERE case_ IN ({_FINISHED}))",
    f"DELETE FROM desk_words WHERE case_ IN ({_FINISHED})",
    f"DELETE FROM desk_proposals WHERE case_ IN ({_FINISHED})",
    f"UPDATE desk_waiting SET text = '', state = '' WHERE text != '' AND case_ IN ({_FINISHED})",
)


class Errands(Timers):
    """The part of the desk that sends what others left. Every errand is carried out once."""

    def look(self, now: datetime, *, by_the_clock: bool) -> int:
        """Carry out errands and, with `by_the_clock`, what is due; queue what is to be sent, and return how much."""
        with self._writing():
            replies = [*self._errands(), *self._change_errands(), *(self.due(now) if by_the_clock else ())]
            self._journal.queue(replies, now=now)
            return len(replies)

    def has_errands(self) -> bool:
        """Whether anything was left to be sent; cheap enough to ask every other second."""
        found = self._one(f"SELECT 1 FROM desk_errands WHERE {self._mine()} LIMIT 1")
        return found is not None or self._has_change_errands()

    def prune(self, before: datetime) -> None:
        """Drop what people wrote, and their pictures, of cases finished before a moment.

        The case, what was found, and how those who asked are reached stay, so that they hear when it is changed.
        """
        with self._writing():
            for statement in _PRUNING:
                self._execute(statement, (seconds(before),))

    def _errands(self) -> list[Reply]:
        sql = f"SELECT id, case_, waiting, kind, what FROM desk_errands WHERE {self._mine()} ORDER BY id"
        replies: list[Reply] = []
        for id_, case, waiting, kind, what in self._all(sql):
            self._execute("DELETE FROM desk_errands WHERE id = ?", (id_,))
            replies += self._notice(case, waiting, what) if kind == "tell" else self._to_experts(case, kind, what)
        return replies

    def _notice(self, id_: int, waiting: int, what: str) -> tuple[Reply, ...]:
        askers = self._askers_where("WHERE one.id = ?", (waiting,))
        key, kind, text = json.loads(what)
        return tuple(
            reply for asker in askers
            for reply in self._carry(asker, Notice(key, kind, id_, text, beginning(asker.text)), self.card(id_))
        )  # fmt: skip

    def _mine(self) -> str:
        """Return which errands the channels at hand can carry out."""
        names = ", ".join("'" + one.name.replace("'", "''") + "'" for one in self._channels)
        return f"(channel = '' AND {bool(self._channels):d}) OR channel IN ({names})"
