"""What is done to the journal as a whole: counted, listed, tried again, pruned by age."""

from __future__ import annotations

from datetime import datetime

from bot.journal.inbox import Inbox
from bot.journal.nouns import Incoming, JournalError, Outgoing
from bot.journal.rows import seconds

_AT_ONCE = 500  # messages pruned in one transaction, so that nobody waits long for the file


# Each takes the moment and how many at most.
_PRUNING = (
    """UPDATE incoming SET raw = NULL WHERE id IN (
        SELECT id FROM incoming AS one WHERE state = 'handled' AND raw IS NOT NULL AND finished < ?
        AND NOT EXISTS (
            SELECT 1 FROM outgoing WHERE answers = one.id AND state IN ('queued', 'sending', 'uncertain')
        ) LIMIT ?
    )""",
    """UPDATE outgoing SET body = NULL WHERE id IN (
        SELECT id FROM outgoing WHERE state IN ('sent', 'failed') AND body IS NOT NULL AND finished < ? LIMIT ?
    )""",
    "DELETE FROM conversations WHERE key IN (SELECT key FROM conversations WHERE changed < ? LIMIT ?)",
)


class Upkeep(Inbox):
    """The part of the journal that serves its keeper."""

    def counts(self) -> dict[str, int]:
        """Return how many messages stand in each state: `waiting`, `handled`, `aside`, `queued`, `sending`, ..."""
        found = self._all(
            "SELECT state, count(*) FROM incoming GROUP BY state UNION ALL "
            "SELECT state, count(*) FROM outgoing GROUP BY state"
        )
        return dict(found)

    def list_incoming(self, *states: str, limit: int = 50) -> list[Incoming]:
        """Return the newest messages that came in and are in one of these states, newest first."""
        return self._incoming(f"WHERE one.state IN ({_marks(states)}) ORDER BY one.id DESC LIMIT ?", (*states, limit))

    def list_outgoing(self, *states: str, limit: int = 50) -> list[Outgoing]:
        """Return the newest messages of the outbox in one of these states, newest first, without their bodies."""
        where = f"WHERE one.state IN ({_marks(states)}) ORDER BY one.id DESC LIMIT ?"
        return self._outgoing(where, (*states, limit), whole=False)

    def replies_of(self, id_: int) -> list[Outgoing]:
        """Return the messages that answer a message that came in, oldest first."""
        return self._outgoing("WHERE one.answers = ? ORDER BY one.id", (id_,))

    def next_try(self, id_: int, *, outgoing: bool = False) -> float:
        """Return the time before which a message is not tried again, in seconds since 1970; 0 for at once."""
        found = self._one(f"SELECT next_try FROM {'outgoing' if outgoing else 'incoming'} WHERE id = ?", (id_,))
        return float(found[0]) if found else 0.0

    def handle_again(self, id_: int) -> None:
        """Let a message that was set aside, or waits for its next try, be handled now, with all its tries anew."""
        with self._writing():
            changed = self._execute(
                "UPDATE incoming SET state = 'waiting', tries = 0, begun = 0, next_try = 0, since = 0, shown = 0, "
                "finished = NULL WHERE id = ? AND state IN ('aside', 'waiting') AND raw IS NOT NULL",
                (id_,),
            ).rowcount
            if not changed:
                raise JournalError(self._why_not_again(id_))

    def send_again(self, id_: int) -> None:
        """Let a message that failed, or waits for its next try, be sent now, with all its tries anew."""
        with self._writing():
            changed = self._execute(
                "UPDATE outgoing SET state = CASE state WHEN 'uncertain' THEN state ELSE 'queued' END, tries = 0, "
                "unsure = 0, next_try = 0, since = 0, finished = NULL "
                "WHERE id = ? AND state IN ('failed', 'queued', 'uncertain') AND body IS NOT NULL",
                (id_,),
            ).rowcount
            if not changed:
                raise JournalError(self._why_not_sent_again(id_))

    def prune(self, before: datetime) -> int:
        """Drop the content of messages that were finished before a moment; return of how many.

        What is waiting, set aside or still to be sent stays whole. Of the others stay the keys, so that they are
        not taken for new ones, but no text; conversations that rested as long are dropped.
        """
        limit = seconds(before)
        return sum(self._in_portions(statement, limit) for statement in _PRUNING)

    def _in_portions(self, statement: str, limit: float) -> int:
        done = 0
        while True:
            with self._writing():
                changed = self._execute(statement, (limit, _AT_ONCE)).rowcount
            done += changed
            if changed < _AT_ONCE:
                return done

    def _why_not_again(self, id_: int) -> str:
        found = self._incoming("WHERE one.id = ?", (id_,))
        if not found:
            return f"There is no message in-{id_}. `bedstamp journal list` shows which there are."
        if found[0].state == "handled":
            return f"Message in-{id_} was handled already; once more would answer it twice. Nothing was changed."
        return f"The content of message in-{id_} is not kept any more, so it cannot be handled again."

    def _why_not_sent_again(self, id_: int) -> str:
        found = self._outgoing("WHERE one.id = ?", (id_,))
        if not found:
            return f"There is no message out-{id_}. `bedstamp journal list` shows which there are."
        if found[0].state == "sent":
            return f"Message out-{id_} was sent already; sending it again would repeat it. Nothing was changed."
        if found[0].state == "sending":
            return f"Message out-{id_} is being sent at this moment. Look again in a minute."
        return f"The content of message out-{id_} is not kept any more, so it cannot be sent again."


def _marks(states: tuple[str, ...]) -> str:
    return ", ".join("?" * len(states))
