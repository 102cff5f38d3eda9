"""From the journal to the conversation and back: each waiting message is handled once, in order, or set aside.

    waiting -> knowledge as it stands now -> handler of the channel -> replies and handled mark in one transaction

The handler and the journal work in the clerk's thread; a message in hand is always carried through.
"""

from __future__ import annotations

import asyncio
import sqlite3
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from bot.clerk import HANDLING, Clerk
from bot.journal import Incoming, Journal, Reply, Talk
from bot.logs import Log, told
from knowledge.base import Knowledge
from knowledge.migrations import StoreError

_LOOK_AGAIN = 1.0  # seconds: for tries that have become due, and for what another process let in again
_LONGEST_REASON = 300

Recall = Callable[[str, str], str | None]
"""Called with the key of the conversation a message belongs to and the person who wrote it; returns its state."""

_log = Log("handling")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What comes of a message: replies and the conversation after it, or the rule that leaves it unanswered.

    `writes` is what else is to be written down; it is called with the journal in the transaction that marks the
    message handled, and the replies it returns are queued with the others. What it raises undoes all of it.
    """

    replies: tuple[Reply, ...] = ()
    talk: Talk | None = None
    person: str = ""
    rule: str | None = None
    writes: Callable[[Journal, datetime], Sequence[Reply]] | None = None


class SetAside(Exception):  # noqa: N818  # it is no error of the program
    """Raised by a handler for a message that it can make nothing of; the text says why, for the experts."""


class Handler(Protocol):
    """Turns one message into what comes of it. Reads nothing but what it is given, and never waits."""

    def __call__(self, message: Incoming, raw: bytes, recall: Recall, knowledge: Knowledge) -> Outcome:
        """Return what comes of a message. It calls `recall` before it answers."""


class _NotItsTurn(Exception):  # noqa: N818
    """An earlier message of the same conversation is not handled yet."""


class Handling:
    """The loop that handles what waits. Supervised like a channel."""

    name = HANDLING

    def __init__(
        self, clerk: Clerk, handlers: Mapping[str, Handler], knowledge: Callable[[Journal], Knowledge]
    ) -> None:
        self._clerk = clerk
        self._handlers = handlers
        self._knowledge = knowledge

    async def run(self, stop: asyncio.Event) -> None:
        """Handle messages until `stop`. Raises StoreError when the journal cannot be written; nothing is lost then."""
        channels = tuple(self._handlers)
        while not stop.is_set():
            now = self._clerk.now()
            waiting = await self._clerk.do(lambda journal: journal.waiting(now, channels=channels))  # noqa: B023
            for message in waiting:
                if stop.is_set():
                    return
                await self._handle(message)
            if not waiting:
                await self._clerk.wait(HANDLING, _LOOK_AGAIN)

    async def _handle(self, message: Incoming) -> None:
        handler = self._handlers[message.channel]
        outcome = await self._clerk.do(
            lambda journal: handle(journal, message, handler, self._knowledge(journal), self._clerk.now)
        )
        if outcome and outcome.writes:
            self._ring_all(self._handlers)
        elif outcome:
            self._ring_all({reply.channel for reply in outcome.replies})

    def _ring_all(self, channels: Iterable[str]) -> None:
        for channel in channels:
            self._clerk.ring(channel)


def handle(
    journal: Journal, message: Incoming, handler: Handler, knowledge: Knowledge, now: Callable[[], datetime]
) -> Outcome | None:
    """Handle one message, and write down what came of it. Return the outcome when there is one.

    Whatever the handler raises counts as a failed try of this message alone. Raises StoreError when nothing could
    be written: then the message waits as before.
    """
    where = _Where(journal, message)
    journal.begin(message.id)
    try:
        outcome = handler(message, journal.raw(message.id), where.recall, knowledge)
        _keep(journal, message, outcome, now())
    except _NotItsTurn:
        journal.not_yet(message.id, where.conversation, where.person)
    except SetAside as reason:
        journal.set_aside(message.id, str(reason)[:_LONGEST_REASON], now=now())
        _log.warning("set aside", id=f"in-{message.id}", channel=message.channel)
    except Exception as fault:  # one message must not stop the rest, whatever it does
        if isinstance(fault, StoreError) and not _is_about_the_message(fault):
            raise
        _failed(journal, message, where, fault, now)
    else:
        _log.info(
            "handled", id=f"in-{message.id}", channel=message.channel, replies=len(outcome.replies), rule=outcome.rule
        )
        return outcome
    return None


def _keep(journal: Journal, message: Incoming, outcome: Outcome, now: datetime) -> None:
    writes = outcome.writes
    also: Callable[[], Sequence[Reply]] = tuple if writes is None else lambda: writes(journal, now)
    journal.handled(
        message.id, outcome.replies, outcome.talk, outcome.rule, person=outcome.person, also=also, now=now
    )


@dataclass(slots=True)
class _Where:
    """Where a message belongs, as far as its handler has said."""

    journal: Journal
    message: Incoming
    conversation: str = ""
    person: str = ""

    def recall(self, conversation: str, person: str) -> str | None:
        self.conversation, self.person = conversation, person
        if not self.journal.is_its_turn(self.message.id, conversation):
            raise _NotItsTurn
        return self.journal.conversation(conversation)


def _failed(journal: Journal, message: Incoming, where: _Where, fault: Exception, now: Callable[[], datetime]) -> None:
    reason = f"{type(fault).__name__}: {fault}"[:_LONGEST_REASON]
    aside = journal.failed_try(message.id, reason, where.conversation, where.person, now=now())
    event = "set aside" if aside else "failed, to be tried again"
    _log.warning(event, id=f"in-{message.id}", channel=message.channel, tries=message.tries + 1, **told(fault))


def _is_about_the_message(fault: StoreError) -> bool:
    """Whether the file refused what was to be written, and not the writing itself (disk full, file held)."""
    return isinstance(fault.__cause__, (sqlite3.IntegrityError, sqlite3.DataError))
