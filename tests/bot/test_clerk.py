"""Tests of bot/clerk.py and bot/one_thread.py."""

from __future__ import annotations

import asyncio
import threading
import time
from pathlib import Path

import pytest

from bot.clerk import HANDLING, Clerk
from bot.journal import open_journal
from bot.one_thread import OneThread
from knowledge.migrations import StoreError


@pytest.fixture
async def clerk(tmp_path: Path):
    path = tmp_path / "group.sqlite"
    open_journal(path, create=True).close()
    async with Clerk(path) as opened:
        yield opened


async def test_what_is_received_is_kept_and_wakes_the_handling_once(clerk) -> None:
    async def woken() -> float:
        began = time.monotonic()
        await clerk.wait(HANDLING, 30)
        return time.monotonic() - began

    waiting = asyncio.create_task(woken())
    await asyncio.sleep(0.01)
    assert await clerk.receive("mail", "k", b"raw") == 1
    assert await waiting < 10
    assert await clerk.receive("mail", "k", b"raw") is None
    began = time.monotonic()
    await clerk.wait(HANDLING, 0.05)  # a message known already wakes nobody
    assert time.monotonic() - began >= 0.05


async def test_a_bell_that_rang_before_anybody_waited_is_not_lost(clerk) -> None:
    clerk.ring("mail")
    await asyncio.wait_for(clerk.wait("mail", 60), 10)


async def test_at_the_end_nobody_waits_any_more_not_even_who_comes_late(clerk) -> None:
    waiting = asyncio.create_task(clerk.wait("mail", 60))
    await asyncio.sleep(0)
    clerk.ring_all()
    await asyncio.wait_for(waiting, 10)
    for name in ("mail", "mail", "chat"):
        await asyncio.wait_for(clerk.wait(name, 60), 10)


async def test_the_loop_stays_free_while_the_thread_works(clerk) -> None:
    go_on = threading.Event()
    work = asyncio.create_task(clerk.do(lambda _: go_on.wait(30)))
    await asyncio.sleep(0.02)
    assert clerk.busy_for() > 0
    go_on.set()  # the loop gets here only when it is free
    assert await work
    assert clerk.busy_for() == 0


async def test_work_that_was_begun_is_carried_through_though_nobody_waits_for_it(clerk) -> None:
    at = clerk.now()

    def slow(journal):
        time.sleep(0.05)
        return journal.receive("mail", "k", b"raw", at)

    task = asyncio.create_task(clerk.do(slow))
    await asyncio.sleep(0.01)
    task.cancel()
    with pytest.raises(asyncio.CancelledError):
        await task
    assert len(await clerk.do(lambda journal: journal.waiting(clerk.now()))) == 1


async def test_work_is_done_in_the_order_in_which_it_was_given_and_in_one_thread(clerk) -> None:
    order: list[tuple[int, int]] = []
    await asyncio.gather(
        *(clerk.do(lambda _, number=number: order.append((number, threading.get_ident()))) for number in range(50))
    )
    assert [number for number, _ in order] == list(range(50))
    assert len({thread for _, thread in order}) == 1


async def test_what_cannot_be_opened_says_so_and_leaves_no_thread(tmp_path) -> None:
    before = threading.active_count()
    with pytest.raises(StoreError, match="no knowledge base"):
        async with Clerk(tmp_path / "none.sqlite"):
            pass
    await asyncio.sleep(0.05)
    assert threading.active_count() == before


async def test_the_thing_is_closed_in_its_own_thread() -> None:
    closed = []

    class Thing:
        def close(self) -> None:
            closed.append(threading.current_thread().name)

    async with OneThread(Thing, "own"):
        pass
    assert [name.startswith("own") for name in closed] == [True]
