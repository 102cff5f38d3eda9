"""One thread that owns one thing, such as an open file: all work with the thing is done there, one after the other.

The event loop stays free meanwhile, and what belongs to its thread (an SQLite connection) is never used from another.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Generic, Protocol, TypeVar


class Closable(Protocol):
    """What can be closed."""

    def close(self) -> None:
        """Close it."""


Thing = TypeVar("Thing", bound=Closable)
Result = TypeVar("Result")


class OneThread(Generic[Thing]):
    """Opens the thing in its thread on entering, and closes it there on leaving."""

    def __init__(self, opened: Callable[[], Thing], name: str) -> None:
        self._open = opened
        self._pool = ThreadPoolExecutor(1, thread_name_prefix=name)
        self._thing: Thing | None = None
        self._busy_since: float | None = None

    async def __aenter__(self) -> OneThread[Thing]:
        try:
            self._thing = await asyncio.get_running_loop().run_in_executor(self._pool, self._open)
        except BaseException:
            self._pool.shutdown(wait=False)
            raise
        return self

    async def __aexit__(self, *_: object) -> None:
        await self.do(lambda thing: thing.close())
        self._pool.shutdown()

    async def do(self, work: Callable[[Thing], Result]) -> Result:
        """Run `work` with the thing, in its thread, and return what it returns or raise what it raises.

        Once begun it is carried through, even when the caller stops waiting for it.
        """
        return await asyncio.get_running_loop().run_in_executor(self._pool, self._run, work)

    @property
    def thing(self) -> Thing:
        """The thing itself, for code that runs in its thread already."""
        assert self._thing is not None, "entered first"
        return self._thing

    def busy_for(self) -> float:
        """Return for how many seconds the work that is being done has taken so far; 0 when there is none."""
        since = self._busy_since
        return 0.0 if since is None else time.monotonic() - since

    def _run(self, work: Callable[[Thing], Result]) -> Result:
        assert self._thing is not None, "entered first"
        self._busy_since = time.monotonic()
        try:
            return work(self._thing)
        finally:
            self._busy_since = None
