"""What came in: kept raw before it is acknowledged, handled once, set aside when it cannot be."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import Any

from bot.journal.nouns import Incoming, JournalError, Reply, Talk
from bot.journal.outbox import Outbox
from bot.journal.rows import moment, seconds
from bot.journal.waits import BEGUN_MOST, HANDLING
from knowledge.database import explained

FORGOTTEN = "forgotten:"  # and the SHA-256 of the key: the message is known still, but says nothing
_FIELDS = (
    "one.id, one.channel, one.key, one.place, one.received, one.size, one.state, one.tries, one.begun, "
    "one.conversation, coalesce((SELECT key FROM people WHERE people.id = one.person), ''), one.rule, one.reason"
)
_EARLIER = (
    "SELECT 1 FROM incoming AS earlier WHERE earlier.state = 'waiting' AND earlier.id < {id} "
    "AND earlier.conversation = {conversation} AND earlier.conversation != ''"
)


class Inbox(Outbox):
    """The part of the journal that holds what came in."""

    def receive(
        self,
        channel: str,
        key: str,
        raw: bytes,
        at: datetime,
        *,
        place: str = "",
        notes: Mapping[str, str] | None = None,
    ) -> int | None:
        """Keep a message as it came, and return its id; None when `key` is known in this channel already.

        When this returns, the message is on the disk and may be acknowledged to the other side. A known message
        only gets its new `place`. `notes` are kept in the same transaction (see `note`).
        """
        with self._writing():
            id_ = None if self._is_forgotten(channel, key) else self._insert(channel, key, place, raw, at)
            if id_ is None and place:
                self._execute(
                    "UPDATE incoming SET place = ? WHERE channel = ? AND key IN (?, ?)",
                    (place, channel, key, forgotten(key)),
                )
            for name, value in (notes or {}).items():
                self._note(channel, name, value)
        return id_

    def receive_all(
        self, channel: str, messages: Sequence[tuple[str, bytes, str]], at: datetime
    ) -> list[int | None]:
        """Keep several messages in one transaction, each given as key, bytes and place ('' for none).

        Return the id of each, None where its key is known already: such a message changes nothing.
        """
        with self._writing():
            return [
                None if self._is_forgotten(channel, key) else self._insert(channel, key, place, raw, at)
                for key, raw, place in messages
            ]

    def waiting(self, now: datetime, limit: int = 20, channels: Sequence[str] | None = None) -> list[Incoming]:
        """Return the messages whose turn it is, oldest first; with `channels`, only of these.

        A message waits for the earlier ones of its conversation, as far as it is known where it belongs.
        """
        self._set_waits_right("incoming", "state = 'waiting'", seconds(now))
        earlier = _EARLIER.format(id="one.id", conversation="one.conversation")
        # The plus keeps SQLite from going through all messages of a channel, by their keys, instead of those that wait.
        of_these = "" if channels is None else f"AND +one.channel IN ({', '.join('?' * len(channels))})"
        return self._incoming(
            f"WHERE one.state = 'waiting' AND one.next_try <= ? {of_these} AND NOT EXISTS ({earlier}) "
            "ORDER BY one.id LIMIT ?",
            (seconds(now), *(channels or ()), limit),
        )

    def raw(self, id_: int) -> bytes:
        """Return a message as it came. Raises JournalError when it is not kept any more."""
        found = self._one("SELECT raw FROM incoming WHERE id = ?", (id_,))
        if found is None or not isinstance(found[0], bytes):
            raise JournalError(f"Message in-{id_} is not kept any more, or never was.")
        return found[0]

    def incoming(self, id_: int) -> Incoming | None:
        """Return one message that came in, None when there is no such number."""
        return next(iter(self._incoming("WHERE one.id = ?", (id_,))), None)

    def begin(self, id_: int) -> None:
        """Note that a message is in hand, so that one which ends the program every time is found out.

        Told to the operating system but not forced onto the disk: it has to outlast the program, not a power cut.
        """
        with explained(self.path):
            self._execute("PRAGMA synchronous = NORMAL")
            try:
                self._execute("UPDATE incoming SET begun = begun + 1 WHERE id = ?", (id_,))
                self._database.conn.commit()
            finally:
                self._database.rollback()
                self._execute("PRAGMA synchronous = FULL")

    def is_its_turn(self, id_: int, conversation: str) -> bool:
        """Whether no earlier message of this conversation waits to be handled."""
        return self._one(_EARLIER.format(id="?", conversation="?"), (id_, conversation)) is None

    def not_yet(self, id_: int, conversation: str, person: str = "") -> None:
        """Note where a message belongs whose turn has not come, so that it waits for the earlier ones."""
        with self._writing():
            self._leave(id_, "conversation = ?, person = ?, begun = 0", conversation, self._person(person))

    def handled(
        self,
        id_: int,
        replies: Sequence[Reply] = (),
        conversation: Talk | None = None,
        rule: str | None = None,
        *,
        person: str = "",
        also: Callable[[], Sequence[Reply]] = tuple,
        now: datetime,
    ) -> None:
        """Queue the replies, keep the conversation and mark the message handled: all of it, or nothing.

        `rule` is the name of the rule that left it without an answer. `also` is called in the same transaction, for
        whatever else is to be written down, and returns further replies. Raises JournalError when the message is
        not waiting any more, and then queues nothing: a question is answered once.
        """
        with self._writing():
            who = self._person(person)
            self._leave(
                id_, "state = 'handled', person = ?, conversation = ?, rule = ?, reason = '', begun = 0, finished = ?",
                who, conversation.key if conversation else "", rule or "", seconds(now),
            )  # fmt: skip
            for reply in (*replies, *also()):
                self._queue(reply, now, id_)
            if conversation:
                self._keep_talk(conversation, who, now)

    def set_aside(self, id_: int, reason: str, *, now: datetime) -> None:
        """Set a message aside that cannot be handled; it is kept and shown with its reason."""
        with self._writing():
            self._leave(id_, "state = 'aside', reason = ?, finished = ?, begun = 0", reason, seconds(now))

    def failed_try(self, id_: int, error: str, conversation: str = "", person: str = "", *, now: datetime) -> bool:
        """Note that handling failed: it is tried again later, and set aside at the last try. Return whether it was."""
        with self._writing():
            tries = self._tries(id_) + 1
            wait = HANDLING.after(tries)
            start = seconds(now)
            self._leave(
                id_,
                "tries = ?, reason = ?, conversation = ?, person = ?, begun = 0, state = ?, next_try = ?, since = ?, "
                "finished = ?",
                tries, error, conversation, self._person(person), "aside" if wait is None else "waiting",
                start + (wait or 0), start, start if wait is None else None,
            )  # fmt: skip
        return wait is None

    def conversation(self, key: str) -> str | None:
        """Return the state of a conversation as it was kept, None when there is none."""
        found = self._one("SELECT state FROM conversations WHERE key = ?", (key,))
        return str(found[0]) if found else None

    def to_show(self, channel: str, limit: int = 100) -> list[Incoming]:
        """Return the finished messages of which the other side does not know yet (`shown`), oldest first."""
        return self._incoming(
            "WHERE one.channel = ? AND one.shown = 0 AND one.state != 'waiting' ORDER BY one.id LIMIT ?",
            (channel, limit),
        )

    def shown(self, id_: int) -> None:
        """Note that the other side shows the message as finished, so that `to_show` leaves it out."""
        with self._writing():
            self._execute("UPDATE incoming SET shown = 1 WHERE id = ?", (id_,))

    def places(self, channel: str, start: str = "") -> set[str]:
        """Return the places of the known messages of a channel that begin with `start`."""
        sql = "SELECT place FROM incoming WHERE channel = ? AND substr(place, 1, ?) = ?"
        return {str(place) for (place,) in self._all(sql, (channel, len(start), start))}

    def recover(self, now: datetime) -> tuple[int, int]:
        """Settle what an earlier run left behind; called once, at the start.

        What was being sent becomes `uncertain`. A message that was in hand too often when the program ended is
        set aside. Return how many of each.
        """
        reason = f"The program ended {BEGUN_MOST} times while it handled this message."
        with self._writing():
            unsure = self._unsure_after_crash()
            aside = self._execute(
                "UPDATE incoming SET state = 'aside', reason = ?, finished = ? WHERE state = 'waiting' AND begun >= ?",
                (reason, seconds(now), BEGUN_MOST),
            ).rowcount
        return unsure, aside

    def _incoming(self, where: str, values: Sequence[object]) -> list[Incoming]:
        found = self._all(f"SELECT {_FIELDS} FROM incoming AS one {where}", values)
        return [_as_incoming(*row) for row in found]

    def _insert(self, channel: str, key: str, place: str, raw: bytes, at: datetime) -> int | None:
        cursor = self._execute(
            "INSERT INTO incoming (channel, key, place, received, size, raw) VALUES (?, ?, ?, ?, ?, ?) "
            "ON CONFLICT DO NOTHING",
            (channel, key, place, seconds(at), len(raw), raw),
        )
        return cursor.lastrowid if cursor.rowcount else None

    def _is_forgotten(self, channel: str, key: str) -> bool:
        sql = "SELECT 1 FROM incoming WHERE channel = ? AND key = ?"
        return self._execute(sql, (channel, forgotten(key))).fetchone() is not None

    def _leave(self, id_: int, changes: str, *values: object) -> None:
        """Change a waiting message; raises JournalError when it is not waiting."""
        sql = f"UPDATE incoming SET {changes} WHERE id = ? AND state = 'waiting'"
        if not self._execute(sql, (*values, id_)).rowcount:
            raise JournalError(f"Message in-{id_} is not waiting to be handled, so nothing was changed.")

    def _tries(self, id_: int) -> int:
        found = self._execute("SELECT tries FROM incoming WHERE id = ?", (id_,)).fetchone()
        return int(found[0]) if found else 0

    def _keep_talk(self, talk: Talk, person: int | None, now: datetime) -> None:
        self._execute(
            "INSERT INTO conversations (key, person, state, changed) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (key) DO UPDATE SET person = excluded.person, state = excluded.state, "
            "changed = excluded.changed",
            (talk.key, person, talk.state, seconds(now)),
        )


def _as_incoming(id_: int, channel: str, key: str, place: str, received: float, *rest: Any) -> Incoming:
    return Incoming(id_, channel, key, place, moment(received), *rest)


def forgotten(key: str) -> str:
    """Return what stands in place of the key of a message of somebody who was forgotten."""
    return FORGOTTEN + hashlib.sha256(key.encode("utf-8", "backslashreplace")).hexdigest()
