"""The channel with an hour that takes seconds: a loop whose clock jumps to what is next to do, and a line to a server.

Everything between the journal on the disk and the calls of the API is the real program; the server is the local one,
called without a socket, so that the line can be cut for as long as a test wants.
"""

from __future__ import annotations

import asyncio
import selectors
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from contextlib import asynccontextmanager, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
from telegram import InputFile
from telegram.error import BadRequest, ChatMigrated, Forbidden, NetworkError, RetryAfter, TelegramError

from bot.channels.telegram import api as calls
from bot.clerk import Clerk
from bot.handling import Handling
from bot.running.desk import DeskUpkeep
from bot.running.packs import Shelf, load_packs
from bot.settings import read
from bot.wiring import channels, expert_channels
from tests.telegram_server import BotServer, Fault, methods
from tests.telegram_server.faults import ApiError
from tests.telegram_server.model import parsed
from tests.telegram_server.running import desk
from tests.telegram_server.server import Sent

_BEGINS = datetime(2031, 5, 4, 8, 30).astimezone(UTC)  # by the clock of this computer, as digests come


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
        """Check and carry out a call as the served server does; its refusals become the library's errors."""
        self._try(method)
        plain: dict[str, Any] = {}
        try:
            plain = parsed(method, _as_form(params))
            if fault := self.server.misbehave(method, plain):
                _fail(fault)
            result = methods.carry_out(self.server, method, plain)
        except ApiError as error:
            self.server.refused.append((method, plain, error))
            raise _as_told(error) from error
        self.server.sent.append(Sent(method, plain, result, _now()))
        return result

    async def file(self, id_: str, most: int) -> tuple[str, bytes]:
        told = await self.call("getFile", {"file_id": id_})
        return told["file_path"], self.server.files[id_]

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
            await asyncio.sleep(1.0)

    def _try(self, method: str) -> None:
        self.tried.append((method, _now()))
        if self.is_cut:
            raise NetworkError("cut") from httpx.ConnectError("no route")

    def tries_between(self, begin: float, end: float) -> list[float]:
        return [at for _, at in self.tried if begin < at < end]


def _as_form(params: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value.input_file_content if isinstance(value, InputFile) else value for name, value in params.items()}


def _fail(fault: Fault) -> None:
    if fault.kind == "429":
        raise ApiError(429, "Too Many Requests", retry_after=fault.seconds)
    code = {"refuse": 400, "forbid": 403}.get(fault.kind)
    if code is None:
        raise NetworkError("broken off")
    raise ApiError(code, fault.text)


def _as_told(error: ApiError) -> TelegramError:
    """What the library makes of a refusal."""
    if "migrate_to_chat_id" in error.parameters:
        return ChatMigrated(error.parameters["migrate_to_chat_id"])
    if error.code == 429:
        return RetryAfter(error.parameters["retry_after"])
    return Forbidden(error.text) if error.code == 403 else BadRequest(error.text.removeprefix("Bad Request: "))


def _now() -> float:
    return asyncio.get_running_loop().time()


@dataclass
class Quick:
    """The program while it runs, for tests that do not await: each of these lets it run until something is so."""

    loop: QuickLoop
    line: Line
    clerk: QuickClerk

    @property
    def now(self) -> float:
        return self.loop.time()

    def until(self, condition: Callable[[], object], most: float = 60.0) -> None:
        """Wait until something is so, at most so many seconds of the quick clock."""
        begun = self.now
        while not condition():
            assert self.now - begun < most, "it did not come about in time"
            self.sleep(0.1)

    def sleep(self, seconds: float) -> None:
        self.loop.run_until_complete(asyncio.sleep(seconds))

    def counts(self) -> dict[str, int]:
        return self.clerk.journal.counts()


@contextmanager
def running_quickly(folder: Path, server: BotServer, pack: Path, monkeypatch: Any) -> Iterator[Quick]:
    """Carry the channel and the desk, as `bedstamp run` does, on a clock that jumps."""
    loop = QuickLoop()
    carrying = _carried(folder, server, pack, monkeypatch)
    try:
        line, clerk = loop.run_until_complete(carrying.__aenter__())
        try:
            yield Quick(loop, line, clerk)
        finally:
            loop.run_until_complete(carrying.__aexit__(None, None, None))
    finally:
        loop.close()


@asynccontextmanager
async def _carried(
    folder: Path, server: BotServer, pack: Path, monkeypatch: Any
) -> AsyncIterator[tuple[Line, QuickClerk]]:
    desk(folder, server, pack, every_group=True)
    settings, line, stop = read(folder / "settings.toml"), Line(server), asyncio.Event()
    monkeypatch.setattr(calls, "make", lambda _: line)
    async with QuickClerk(settings.store.path, create=True) as clerk:
        await clerk.do(lambda journal: load_packs(settings.knowledge.packs, journal))
        await clerk.do(lambda journal: journal.recover(clerk.now()))
        (channel,) = channels(settings, clerk)
        handling = Handling(clerk, {channel.name: channel.handle}, Shelf().current)
        upkeep = DeskUpkeep(clerk, expert_channels(settings, clerk), passed=_now)
        parts = [asyncio.create_task(part.run(stop)) for part in (channel, handling, upkeep)]
        try:
            yield line, clerk
        finally:
            stop.set()
            clerk.ring_all()
            await asyncio.gather(*parts)
