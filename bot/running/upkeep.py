"""What is done now and then while the bot runs: old messages pruned, the state told, a hang noticed."""

from __future__ import annotations

import asyncio
import os
import time
from contextlib import suppress
from datetime import timedelta

from bot.clerk import Clerk
from bot.logs import Log

_EVERY = 3600.0  # seconds
_SLACK = 600.0  # seconds by which the clock may differ from the time that passed, and still be believed
_LOOK = 5.0
HUNG = 120.0  # seconds for one message or one write, far above the slowest there is

_log = Log("upkeep")


class Upkeep:
    """Prunes every hour, and logs how many messages stand in each state."""

    name = "upkeep"

    def __init__(self, clerk: Clerk, keep_days: int) -> None:
        self._clerk = clerk
        self._keep = timedelta(days=keep_days)

    async def run(self, stop: asyncio.Event) -> None:
        """Work until `stop`. The first pruning comes after an hour."""
        while True:
            began, passed = self._clerk.now(), time.monotonic()
            with suppress(TimeoutError):
                async with asyncio.timeout(_EVERY):
                    await stop.wait()
            if stop.is_set():
                return
            jumped = (self._clerk.now() - began).total_seconds() - (time.monotonic() - passed)
            await self.look_after(abs(jumped) <= _SLACK)

    async def look_after(self, clock_is_right: bool) -> None:
        """Prune, unless the clock jumped: then nothing is old by it. Log the counts."""
        pruned = 0
        if clock_is_right:
            before = self._clerk.now() - self._keep
            pruned = await self._clerk.do(lambda journal: journal.prune(before))
        else:
            _log.warning("the clock jumped, so nothing was pruned this time")
        _log.info("state", pruned=pruned, **await self._clerk.do(lambda journal: journal.counts()))


class Watch:
    """Ends the process when one piece of work never ends: started again, it finds everything as it was.

    The message in hand is known by then (`Journal.begin`), and after a few such ends it is set aside.
    """

    name = "watch"

    def __init__(self, clerk: Clerk) -> None:
        self._clerk = clerk

    async def run(self, stop: asyncio.Event) -> None:
        """Look every few seconds until `stop`."""
        while not stop.is_set():
            if self._clerk.busy_for() > HUNG:
                _log.error(
                    "one message or one write takes too long: the process ends, to be started again", seconds=HUNG
                )
                os._exit(1)
            with suppress(TimeoutError):
                async with asyncio.timeout(_LOOK):
                    await stop.wait()
