"""The desk while the bot runs: what is due is carried out every hour, what the terminal left is sent within seconds.

Nothing is told by a clock that jumped. When the clock and the time that passed disagree, every wait of the desk is
moved by the difference, so that it stays as long as it was meant; a clock that is put right again moves them back.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import datetime, timedelta

from bot.clerk import Clerk
from bot.expert_desk import Desk, ExpertChannel
from bot.expert_desk.timers import PORTION
from bot.expert_desk.times import CLOCK_SLACK
from bot.journal import Journal
from bot.logs import Log
from bot.settings import KEEP_DAYS

_LOOK = 2.0  # seconds between two looks for what another process left
_HOUR = 3600.0
_SHORT_STOP = timedelta(days=2)
"""After a longer stop nothing is told by the clock in the first hour, in case it is not right yet."""
_NOTES, _LOOKED = "desk", "looked"

_log = Log("desk")


def _passed() -> float:
    """Return the seconds that passed, those included in which the computer slept."""
    clock = getattr(time, "CLOCK_BOOTTIME", time.CLOCK_MONOTONIC)
    return time.clock_gettime(clock)


class DeskUpkeep:
    """Looks after the cases. `channels` are those of the experts; supervised like a channel.

    What people wrote is dropped `keep_days` after their case was finished.
    """

    name = "desk"

    def __init__(
        self,
        clerk: Clerk,
        channels: Sequence[ExpertChannel] = (),
        keep_days: int = KEEP_DAYS,
        *,
        passed: Callable[[], float] = _passed,
    ) -> None:
        self._clerk, self._channels, self._passed = clerk, tuple(channels), passed
        self._keep = timedelta(days=keep_days)
        self._seen = clerk.now()
        self._seen_at = passed()
        self._next = self._seen_at

    async def run(self, stop: asyncio.Event) -> None:
        """Work until `stop`. Raises StoreError when the journal cannot be written; nothing is lost or told twice."""
        await self.begin()
        while not stop.is_set():
            await self.look()
            with suppress(TimeoutError):
                async with asyncio.timeout(_LOOK):
                    await stop.wait()

    async def begin(self) -> None:
        """Compare the clock with the last look of an earlier run: one that was put back moves the waits."""
        self._seen, self._seen_at = self._clerk.now(), self._passed()
        self._next = self._seen_at
        noted = await self._clerk.do(lambda journal: journal.noted(_NOTES, _LOOKED))
        if noted is None:
            return
        stopped = self._seen - datetime.fromisoformat(noted)
        if stopped < -CLOCK_SLACK:
            await self._jumped(stopped)
        if abs(stopped) > _SHORT_STOP:
            self._next += _HOUR

    async def look(self) -> None:
        """Send what was left to be sent; once an hour carry out what is due."""
        now, at = self._clerk.now(), self._passed()
        jump = now - self._seen - timedelta(seconds=at - self._seen_at)
        self._seen, self._seen_at = now, at
        if abs(jump) > CLOCK_SLACK:
            await self._jumped(jump)
        is_time = at >= self._next
        if is_time:
            self._next = at + _HOUR
        sent = await self._clerk.do(lambda journal: self._work(journal, now, is_time))
        if is_time and sent >= PORTION:
            self._next = at  # there is more
        if sent:
            _log.info("queued", messages=sent)
            for channel in self._channels:
                self._clerk.ring(channel.name)

    def _work(self, journal: Journal, now: datetime, is_time: bool) -> int:
        desk = Desk(journal, self._channels)
        if not is_time and not desk.has_errands():
            return 0
        if is_time:
            journal.note(_NOTES, _LOOKED, now.isoformat())
            desk.prune(now - self._keep)
        return desk.look(now, by_the_clock=is_time)

    async def _jumped(self, by: timedelta) -> None:
        _log.warning("the clock jumped, so every wait was moved along", seconds=round(by.total_seconds()))
        await self._clerk.do(lambda journal: Desk(journal).shift(by))
