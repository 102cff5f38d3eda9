"""The desk while the bot runs: looks every hour, sends what the terminal left, and tells nothing by a wrong clock."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import pytest

from bot.clerk import Clerk
from bot.expert_desk import Desk
from bot.journal import open_journal
from bot.running.desk import DeskUpkeep
from tests.bot.expert_desk.conftest import DAY, HOUR

HARD = "How old is number Z 4711?"


@dataclass
class FakeTime:
    """What the clock shows, and how much time passed: the two need not agree."""

    shown: datetime = datetime(2031, 5, 4, 12, 0, tzinfo=UTC)
    passed: float = 1_000.0

    def goes_by(self, span: timedelta) -> None:
        self.shown += span
        self.passed += span.total_seconds()


class FakeClerk(Clerk):
    """A clerk whose clock the test sets."""

    time: FakeTime

    def now(self) -> datetime:
        return self.time.shown


@pytest.fixture
async def running(office, store):
    """The upkeep of a bot that was just started, with the time it sees."""
    clerk = FakeClerk(store)
    clerk.time = FakeTime(office.now)
    async with clerk:
        upkeep = DeskUpkeep(clerk, [office.channel], passed=lambda: clerk.time.passed)
        await upkeep.begin()
        yield upkeep, clerk.time


async def test_what_is_due_is_told_within_the_hour(office, running) -> None:
    upkeep, clock = running
    office.ask(HARD)
    for _ in range(15 * 24):
        clock.goes_by(HOUR)
        await upkeep.look()
    assert office.kinds_told() == ["nobody-knew"]


async def test_between_two_hourly_looks_nothing_is_told_by_the_clock(office, running) -> None:
    upkeep, clock = running
    await upkeep.look()
    office.now -= 15 * DAY
    office.ask(HARD)
    clock.goes_by(HOUR / 2)
    await upkeep.look()
    assert office.told() == []
    clock.goes_by(HOUR / 2)
    await upkeep.look()
    assert office.kinds_told() == ["nobody-knew"]


async def test_what_the_terminal_left_is_queued_at_the_next_look(office, running, store) -> None:
    upkeep, _ = running
    case = office.ask(HARD).case.id
    with open_journal(store) as journal:
        Desk(journal).not_ours(case, "terminal:eva", office.now)
    await upkeep.look()
    assert office.kinds_told() == ["not-ours"]


async def test_long_after_a_case_is_finished_words_and_pictures_are_dropped_and_changes_are_still_told(
    office, running
) -> None:
    upkeep, clock = running
    case = office.ask(HARD, picture=True).case.id
    office.settle(case)
    kept = office.ask("Y 8155, how old? Can a person look?", "ben").case.id
    clock.goes_by(91 * DAY)
    await upkeep.look()
    card = office.desk.card(case)
    assert (card.case.text, card.pictures) == ("", ())
    assert card.case.serials == ("Z4711",)
    assert office.desk.card(kept).case.text != ""
    office.desk.withdraw(case, "chat:eva", "It was another one", office.now)
    assert office.kinds_told() == ["settled", "withdrawn"]


@pytest.mark.parametrize("jump", [timedelta(days=400), timedelta(days=-400)])
async def test_by_a_clock_that_jumps_nothing_is_told_and_nothing_is_told_later_than_it_was_meant(
    office, running, jump
) -> None:
    upkeep, clock = running
    await upkeep.look()
    office.ask(HARD)
    clock.shown += jump
    await upkeep.look()
    for _ in range(13 * 24):
        clock.goes_by(HOUR)
        await upkeep.look()
    assert office.told() == []
    clock.shown -= jump  # and put right again
    for _ in range(2 * 24):
        clock.goes_by(HOUR)
        await upkeep.look()
    assert office.kinds_told() == ["nobody-knew"]


async def test_a_computer_that_starts_with_an_old_clock_tells_nothing_when_the_clock_is_put_right(
    office, store
) -> None:
    office.ask(HARD)
    office.journal.note("desk", "looked", office.now.isoformat())
    clerk = FakeClerk(store)
    clerk.time = FakeTime(datetime(2000, 1, 1, tzinfo=UTC))
    async with clerk:
        upkeep = DeskUpkeep(clerk, [office.channel], passed=lambda: clerk.time.passed)
        await upkeep.begin()
        await upkeep.look()
        clerk.time.shown = office.now + HOUR
        clerk.time.passed += HOUR.total_seconds()
        await upkeep.look()
    assert office.told() == []
    assert abs(office.case(1).until - office.now - 14 * DAY) < 3 * HOUR


async def test_after_a_long_stop_nothing_is_told_by_the_clock_in_the_first_hour(office, store) -> None:
    office.ask(HARD)
    office.journal.note("desk", "looked", office.now.isoformat())
    clerk = FakeClerk(store)
    clerk.time = FakeTime(office.now + 20 * DAY)
    async with clerk:
        upkeep = DeskUpkeep(clerk, [office.channel], passed=lambda: clerk.time.passed)
        await upkeep.begin()
        await upkeep.look()
        assert office.told() == []
        clerk.time.goes_by(HOUR)
        await upkeep.look()
    assert office.kinds_told() == ["nobody-knew"]


async def test_it_ends_when_it_is_told_to_stop(office, store) -> None:
    stop = asyncio.Event()
    async with Clerk(store) as clerk:
        task = asyncio.create_task(DeskUpkeep(clerk, [office.channel]).run(stop))
        await asyncio.sleep(0.05)
        stop.set()
        async with asyncio.timeout(10):
            await task
