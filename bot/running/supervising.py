"""Keep one part of the program going by itself: what fails is started again, later each time, and disturbs no other."""

from __future__ import annotations

import asyncio
import time
from contextlib import suppress
from typing import Protocol

from bot.journal import Waits
from bot.logs import Log

RESTARTS = Waits(first=1, factor=2, longest=300, tries=2**31)
STEADY = 300.0  # seconds a part has to run for its earlier failures to be forgotten


class Part(Protocol):
    """What is kept going: a channel, the handling, the upkeep."""

    @property
    def name(self) -> str:
        """The name in the logs."""

    async def run(self, stop: asyncio.Event) -> None:
        """Work until `stop` is set, then finish what is in hand and return. May raise anything at any time."""


async def keep_going(part: Part, stop: asyncio.Event, restarts: Waits = RESTARTS) -> None:
    """Run a part until `stop`, again and again, with growing and jittered waits after each failure."""
    log = Log(part.name)
    failures = 0
    while not stop.is_set():
        log.info("started", failures=failures)
        began = time.monotonic()
        fault = await _run(part, stop)
        if stop.is_set() and fault is None:
            break
        failures = 1 if time.monotonic() - began > STEADY else failures + 1
        wait = restarts.pause(failures)
        log.error(
            "failed, started again" if fault else "ended by itself", fault, failures=failures, wait=round(wait, 1)
        )
        with suppress(TimeoutError):
            async with asyncio.timeout(wait):
                await stop.wait()
    log.info("stopped")


async def _run(part: Part, stop: asyncio.Event) -> Exception | None:
    try:
        await part.run(stop)
    except Exception as fault:  # noqa: BLE001  # that is what a supervisor is for
        return fault
    return None
