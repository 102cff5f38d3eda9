"""What goes out: queued with the handled mark, marked before and after each sending, never lost in between.

queued -> sending -> sent | uncertain | failed | queued again for later. What was `sending` when the program ended
becomes `uncertain`; whether that is sent again is the channel's to say (see bot/sending.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from bot.journal.nouns import JournalError, Outgoing, Reply
from bot.journal.rows import Rows, moment, seconds
from bot.journal.waits import SENDING, UNCERTAIN, Waits

_TO_SEND = "state IN ('queued', 'uncertain')"
_OPEN = "'queued', 'sending', 'uncertain'"
_FIELDS = (
    "one.id, one.channel, one.key, one.recipient, one.queued, one.answers, one.conversation, "
    "coalesce((SELECT key FROM people WHERE people.id = one.person), ''), one.state, one.tries, one.unsure, "
    "one.reason, one.remote, {body}"
)


class Outbox(Rows):
    """The part of the journal that holds what goes out."""

    def queue(self, replies: Sequence[Reply], *, now: datetime) -> None:
        """Queue messages that answer no message, such as a notice; one whose key is known is not queued again."""
        with self._writing():
            for reply in replies:
                self._queue(reply, now, None)

    def due(self, channel: str, now: datetime, limit: int = 20) -> list[Outgoing]:
        """Return the messages to be sent now, `queued` and `uncertain` ones.

        New ones come first, oldest first; then those that waited for another try, so that they hold nobody up.
        """
        self._set_waits_right("outgoing", _TO_SEND, seconds(now))
        return self._outgoing(
            f"WHERE one.channel = ? AND one.{_TO_SEND} AND one.next_try <= ? ORDER BY one.next_try, one.id LIMIT ?",
            (channel, seconds(now), limit),
        )

    def outgoing(self, id_: int) -> Outgoing | None:
        """Return one message of the outbox, None when there is no such number."""
        return next(iter(self._outgoing("WHERE one.id = ?", (id_,))), None)

    def outgoing_of(self, channel: str, key: str) -> Outgoing | None:
        """Return the message that went out under this key (in mail the Message-ID), None when none did."""
        return next(iter(self._outgoing("WHERE one.channel = ? AND one.key = ?", (channel, key))), None)

    def replies_to(self, person: str, since: datetime) -> int:
        """Return how many messages were queued for a person since a moment."""
        found = self._one(
            "SELECT count(*) FROM outgoing WHERE queued >= ? AND person = (SELECT id FROM people WHERE key = ?)",
            (seconds(since), person),
        )
        return int(found[0]) if found else 0

    def sending(self, id_: int) -> None:
        """Mark a message as being sent. This is on the disk before the first byte goes out."""
        self._move(id_, "'queued', 'uncertain'", "state = 'sending'")

    def sent(self, id_: int, remote: str = "", *, now: datetime) -> None:
        """Mark a message as sent; `remote` is the name that the other side gave it."""
        self._move(id_, _OPEN, "state = 'sent', remote = ?, reason = '', finished = ?", remote, seconds(now))

    def later(self, id_: int, at: datetime, reason: str = "", *, now: datetime) -> None:
        """Keep a message for later that surely was not sent (no connection, told to wait): no try of it."""
        self._move(
            id_, _OPEN, "state = 'queued', next_try = ?, since = ?, reason = ?", seconds(at), seconds(now), reason
        )

    def put_off(self, id_: int, reason: str, *, now: datetime, waits: Waits = SENDING) -> bool:
        """Try a message again later that was not taken now; `failed` at the last try. Return whether it was."""
        return self._again(id_, "queued", reason, now, waits)

    def uncertain(self, id_: int, reason: str = "", *, now: datetime, waits: Waits = UNCERTAIN) -> bool:
        """Note that nobody can tell whether it arrived; `failed` when that happened too often. Return whether."""
        return self._again(id_, "uncertain", reason, now, waits)

    def settle(self, channel: str) -> int:
        """Make `uncertain` what is marked as being sent in a channel that sends nothing now. Return how many."""
        with self._writing():
            return self._unsure_after_crash("AND channel = ?", channel)

    def failed(self, id_: int, error: str, *, now: datetime) -> None:
        """Mark a message as failed for good: it was refused, or came back after it was sent."""
        self._move(id_, f"{_OPEN}, 'sent'", "state = 'failed', reason = ?, finished = ?", error, seconds(now))

    def note(self, channel: str, name: str, value: str) -> None:
        """Note something down for a channel, such as how far it has read."""
        with self._writing():
            self._note(channel, name, value)

    def noted(self, channel: str, name: str) -> str | None:
        """Return what a channel noted down under a name, None when nothing."""
        found = self._one("SELECT value FROM channel_notes WHERE channel = ? AND name = ?", (channel, name))
        return str(found[0]) if found else None

    def _outgoing(self, where: str, values: Sequence[object], *, whole: bool = True) -> list[Outgoing]:
        fields = _FIELDS.format(body="coalesce(one.body, x'')" if whole else "x''")
        found = self._all(f"SELECT {fields} FROM outgoing AS one {where}", values)
        return [_as_outgoing(*row) for row in found]

    def _queue(self, reply: Reply, now: datetime, answers: int | None) -> None:
        self._execute(
            "INSERT INTO outgoing (channel, key, recipient, answers, conversation, person, queued, body) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
            (
                reply.channel, reply.key, reply.recipient, answers, reply.conversation,
                self._person(reply.person), seconds(now), reply.body,
            ),
        )  # fmt: skip

    def _again(self, id_: int, state: str, reason: str, now: datetime, waits: Waits) -> bool:
        """Put a message back to be sent after a wait, or give it up. `uncertain` counts its own tries."""
        counter = "unsure" if state == "uncertain" else "tries"
        found = self._one(f"SELECT {counter} FROM outgoing WHERE id = ?", (id_,))
        count = int(found[0]) + 1 if found else 1
        wait, start = waits.after(count), seconds(now)
        self._move(
            id_, _OPEN, f"state = ?, {counter} = ?, reason = ?, next_try = ?, since = ?, finished = ?",
            "failed" if wait is None else state, count, reason, start + (wait or 0), start,
            start if wait is None else None,
        )  # fmt: skip
        return wait is None

    def _unsure_after_crash(self, which: str = "", *values: object) -> int:
        """Make `uncertain` what was broken off while it was sent, `failed` when too often. Inside a transaction."""
        return self._execute(
            "UPDATE outgoing SET state = CASE WHEN unsure + 1 < ? THEN 'uncertain' ELSE 'failed' END, "
            "unsure = unsure + 1, next_try = 0, since = 0, reason = 'Broken off while this was being sent.' "
            f"WHERE state = 'sending' {which}",
            (UNCERTAIN.tries, *values),
        ).rowcount

    def _move(self, id_: int, states: str, changes: str, *values: object) -> None:
        """Change a message that is in one of the states; raises JournalError when it is in another."""
        with self._writing():
            sql = f"UPDATE outgoing SET {changes} WHERE id = ? AND state IN ({states})"
            if not self._execute(sql, (*values, id_)).rowcount:
                raise JournalError(f"Message out-{id_} is not in one of the states {states}, so nothing was changed.")

    def _note(self, channel: str, name: str, value: str) -> None:
        self._execute("INSERT OR REPLACE INTO channel_notes VALUES (?, ?, ?)", (channel, name, value))


def _as_outgoing(id_: int, channel: str, key: str, recipient: str, queued: float, *rest: Any) -> Outgoing:
    return Outgoing(id_, channel, key, recipient, moment(queued), *rest)
