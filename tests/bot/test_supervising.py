"""Tests of bot/running/supervising.py and bot/running/upkeep.py."""

from __future__ import annotations

import asyncio
import os
import threading
from datetime import timedelta

import pytest

from bot.clerk import Clerk
from bot.journal import Waits, open_journal
from bot.running import upkeep
from bot.running.supervising import keep_going
from bot.running.upkeep import Upkeep, Watch

SOON = Waits(first=0.01, factor=2, longest=0.05, tries=2**31)


class Failing:
    name = "failing"

    def __init__(self, times: int) -> None:
        self.times, self.runs = times, 0

    async def run(self, stop: asyncio.Event) -> None:
        self.runs += 1
        if self.runs <= self.times:
            raise ConnectionError("gone")
        await stop.wait()


class Ending(Failing):
    name = "ending"

    async def run(self, stop: asyncio.Event) -> None:
        self.runs += 1


async def run_for(seconds: float, *parts) -> None:
    stop = asyncio.Event()
    tasks = [asyncio.create_task(keep_going(part, stop, SOON)) for part in parts]
    await asyncio.sleep(seconds)
    stop.set()
    await asyncio.wait_for(asyncio.gather(*tasks), 10)


async def test_a_part_that_fails_is_started_again_until_it_holds_and_no_other_is_disturbed() -> None:
    failing, steady = Failing(4), Failing(0)
    await run_for(0.5, failing, steady)
    assert (failing.runs, steady.runs) == (5, 1)


async def test_a_part_that_ends_by_itself_is_started_again() -> None:
    ending = Ending(0)
    await run_for(0.3, ending)
    assert ending.runs > 1


async def test_a_part_that_waits_to_be_started_again_ends_at_once_when_told_to_stop() -> None:
    stop = asyncio.Event()
    task = asyncio.create_task(keep_going(Failing(99), stop, Waits(60, 1, 60, 9)))
    await asyncio.sleep(0.05)
    stop.set()
    await asyncio.wait_for(task, 10)


def test_waits_between_starts_grow_to_a_bound_and_never_end() -> None:
    waits = [Waits(1, 2, 300, 2**31, jitter=0).pause(failures) for failures in (1, 2, 3, 9, 10, 10_000)]
    assert waits == [1, 2, 4, 256, 300, 300]


@pytest.fixture
async def clerk(tmp_path):
    path = tmp_path / "group.sqlite"
    with open_journal(path, create=True) as journal:
        now = Clerk(path).now()
        journal.receive("mail", "k", b"raw", now - timedelta(days=100))
        journal.handled(1, now=now - timedelta(days=91))
    async with Clerk(path) as opened:
        yield opened


async def raw_is_kept(clerk: Clerk) -> bool:
    kept = await clerk.do(lambda journal: journal._one("SELECT raw IS NOT NULL FROM incoming"))
    return kept == (1,)


async def test_messages_older_than_the_days_that_are_set_are_pruned(clerk) -> None:
    await Upkeep(clerk, 92).look_after(clock_is_right=True)
    assert await raw_is_kept(clerk)
    await Upkeep(clerk, 90).look_after(clock_is_right=True)
    assert not await raw_is_kept(clerk)


async def test_nothing_is_pruned_by_a_clock_that_jumped(clerk) -> None:
    await Upkeep(clerk, 1).look_after(clock_is_right=False)
    assert await raw_is_kept(clerk)


async def test_a_piece_of_work_that_never_ends_ends_the_process_so_that_it_is_started_again(clerk, monkeypatch) -> None:
    ended: list[int] = []
    go_on = threading.Event()
    stop = asyncio.Event()

    def end(code: int) -> None:
        ended.append(code)
        stop.set()

    monkeypatch.setattr(upkeep, "HUNG", 0.05)
    monkeypatch.setattr(upkeep, "_LOOK", 0.02)
    monkeypatch.setattr(os, "_exit", end)
    watching = asyncio.create_task(Watch(clerk).run(stop))
    await asyncio.sleep(0.2)
    assert ended == []  # as long as all goes well
    hanging = asyncio.create_task(clerk.do(lambda _: go_on.wait(20)))
    await asyncio.wait_for(watching, 10)
    go_on.set()
    await hanging
    assert ended == [1]
