"""The channel with an hour that takes seconds: a loop whose clock jumps to what is next to do, and a line to a server.

Everything between the journal on the disk and the calls of the API is the real program; the server is the local one,
called without a socket, so that the line can be cut for as long as a test wants.
"""

from __future__ import annotations

import asyncio
import selectors
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator, Mapping
from contextlib import asynccontextmanager, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
from telegram.error import NetworkError

from bot.channels.telegram import Telegram
from bot.channels.telegram import api as calls
from bot.channels.telegram.experts import ChatExperts
from bot.clerk import Clerk
from bot.expert_desk import Desk
from bot.handling import Handling
from bot.settings import read
from knowledge.base import Knowledge
from tests.telegram_server import BotServer, Chat, methods
from tests.telegram_server.model import parsed
from tests.telegram_server.running import EXPERTS_CHAT, desk
from tests.telegram_server.server import Sent

_BEGINS = datetime(2031, 5, 4, 12, tzinfo=UTC)


class _Jumping(selectors.DefaultSelector):
    """Never waits: what would be waited for is added to the clock."""

    passed = 0.0

    def select(self, timeout: float | None = None) -> Any:
        self.passed += max(0.0, timeout or 0.0)
        return super().select(0)


class QuickLoop(asyncio.SelectorEventLoop):
    def __init__(self) -> None:
        self._jumping = _Jumping()
        super().__init__(self._jumping)

    def time(self) -> float:
        return self._jumping.passed


class QuickClerk(Clerk):
    """Keeps the journal in the loop's own thread, by the loop's clock."""

    async def __aenter__(self) -> QuickClerk:
        self._thing = self._open()
        return self

    async def __aexit__(self, *_: object) -> None:
        self.journal.close()

    async def do(self, work: Callable[[Any], Any]) -> Any:
        await asyncio.sleep(0)
        return work(self.journal)

    def now(self) -> datetime:
        return _BEGINS + timedelta(seconds=asyncio.get_running_loop().time())


@dataclass
class Line:
    """The calls to the server, and when they were made; `is_cut` is the network gone."""

    server: BotServer
    is_cut: bool = False
    tried: list[tuple[str, float]] = field(default_factory=list)
    offsets: list[int | None] = field(default_factory=list)

    @asynccontextmanager
    async def connected(self) -> AsyncIterator[Line]:
        yield self

    async def call(self, method: str, params: Mapping[str, Any], wait: float = 0) -> Any:
        self._try(method)
        plain = parsed(method, dict(params))
        result = methods.carry_out(self.server, method, plain)
        self.server.sent.append(Sent(method, plain, result, _now()))
        return result

    async def updates(self, offset: int | None, allowed: list[str]) -> list[dict[str, Any]]:
        end = _now() + calls.POLL
        while True:
            self._try("getUpdates")
            self.offsets.append(offset)
            if offset:
                self.server.confirmed += sum(one["update_id"] < offset for one in self.server.pending)
                self.server.pending = [one for one in self.server.pending if one["update_id"] >= offset]
            if self.server.pending or _now() >= end:
                return self.server.pending[:100]
            await asyncio.sleep(0.5)

    def _try(self, method: str) -> None:
        self.tried.append((method, _now()))
        if self.is_cut:
            raise NetworkError("cut") from httpx.ConnectError("no route")

    def tries_between(self, begin: float, end: float) -> list[float]:
        return [at for _, at in self.tried if begin < at < end]


def _now() -> float:
    return asyncio.get_running_loop().time()


@dataclass
class Quick:
    """What a test has in hand while the program runs."""

    line: Line
    clerk: QuickClerk
    group: Chat

    async def until(self, condition: Callable[[], object], most: float) -> float:
        """Wait until something is so, at most so many seconds of the quick clock; return how many it took."""
        begun = _now()
        while not condition():
            assert _now() - begun < most, "it took too long"
            await asyncio.sleep(0.1)
        return _now() - begun

    async def counts(self) -> dict[str, int]:
        found: dict[str, int] = await self.clerk.do(lambda journal: journal.counts())
        return found


def run_quickly(
    folder: Path, server: BotServer, knowledge: Knowledge, script: Callable[[Quick], Awaitable[None]],
    monkeypatch: Any,
) -> None:  # fmt: skip
    """Run the channel while `script` lasts."""
    room = desk(folder, server, every_group=True)
    settings, line = read(folder / "settings.toml"), Line(server)
    monkeypatch.setattr(calls, "make", lambda _: line)

    async def carry() -> None:
        async with QuickClerk(settings.store.path, create=True) as clerk:
            at_desk = lambda: Desk(clerk.journal, [ChatExperts(clerk, EXPERTS_CHAT)])  # noqa: E731
            telegram, stop = Telegram(settings, clerk, lambda: knowledge, at_desk), asyncio.Event()
            handling = Handling(clerk, {telegram.name: telegram.handle}, lambda _: knowledge)
            parts = [asyncio.create_task(part.run(stop)) for part in (telegram, handling)]
            await script(Quick(line, clerk, room.group))
            stop.set()
            clerk.ring_all()
            await asyncio.gather(*parts)

    with _quick() as loop:
        loop.run_until_complete(carry())


@contextmanager
def _quick() -> Iterator[QuickLoop]:
    loop = QuickLoop()
    try:
        yield loop
    finally:
        loop.close()
