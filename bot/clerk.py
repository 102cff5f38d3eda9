"""The clerk: keeps the journal in one thread, and rings a bell for whoever waits for work.

async with Clerk(path) as clerk:
    await clerk.receive("mail", key, raw)                    on the disk when this returns; handling is woken
    await clerk.do(lambda journal: journal.sending(id_))     anything else
    await clerk.wait("mail", 5)                              until there is something to send, or 5 seconds
"""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from contextlib import suppress
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from bot.journal import Journal, open_journal
from bot.one_thread import OneThread

HANDLING = "handling"  # the bell for messages that came in; the other bells have the names of their channels


class Clerk(OneThread[Journal]):
    """The journal, for everything that runs in the event loop."""

    def __init__(self, path: Path, *, create: bool = False) -> None:
        super().__init__(partial(open_journal, path, create=create), "journal")
        self._bells: dict[str, asyncio.Event] = {}
        self._is_ending = False

    async def __aenter__(self) -> Clerk:
        await super().__aenter__()
        return self

    @property
    def journal(self) -> Journal:
        """The journal itself, for handlers and whatever else runs in its thread already; nowhere else."""
        return self.thing

    def now(self) -> datetime:
        """Return the time by the clock of this computer."""
        return datetime.now(UTC)

    async def receive(
        self, channel: str, key: str, raw: bytes, *, place: str = "", notes: Mapping[str, str] | None = None
    ) -> int | None:
        """Keep a message as it came; see `Journal.receive`. Raises StoreError: then it must not be acknowledged."""
        at = self.now()
        id_ = await self.do(lambda journal: journal.receive(channel, key, raw, at, place=place, notes=notes))
        if id_ is not None:
            self.ring(HANDLING)
        return id_

    def ring(self, name: str) -> None:
        """Wake whoever waits for this bell, now or next."""
        self._bell(name).set()

    def ring_all(self) -> None:
        """Wake everybody, now and from now on: the program ends."""
        self._is_ending = True
        for bell in self._bells.values():
            bell.set()

    async def wait(self, name: str, seconds: float) -> None:
        """Wait until the bell rings, or so many seconds."""
        bell = self._bell(name)
        with suppress(TimeoutError):
            async with asyncio.timeout(seconds):
                await bell.wait()
        if not self._is_ending:
            bell.clear()

    def _bell(self, name: str) -> asyncio.Event:
        bell = self._bells.setdefault(name, asyncio.Event())
        if self._is_ending:
            bell.set()
        return bell
