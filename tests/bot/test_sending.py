"""Tests of bot/sending.py: what each way of sending or not sending leaves in the journal."""

from __future__ import annotations

import asyncio
from datetime import timedelta

import pytest

from bot.clerk import Clerk
from bot.journal import Reply, open_journal
from bot.sending import NotSent, PutOff, Refused, Sending, Verdict


@pytest.fixture
async def clerk(tmp_path):
    path = tmp_path / "group.sqlite"
    open_journal(path, create=True).close()
    async with Clerk(path) as opened:
        yield opened


async def queue(clerk: Clerk, *keys: str) -> None:
    replies = [Reply("mail", key, "ann", key.encode()) for key in keys]
    await clerk.do(lambda journal: journal.queue(replies, now=clerk.now()))


async def states(clerk: Clerk) -> dict[str, str]:
    every = ("queued", "sending", "sent", "uncertain", "failed")
    return {one.key: one.state for one in await clerk.do(lambda journal: journal.list_outgoing(*every))}


async def send(clerk: Clerk, sender, seconds: float = 0.3, **more) -> None:
    """Let a channel send for a while."""
    stop = asyncio.Event()
    task = asyncio.create_task(Sending("mail", clerk, sender, **more).run(stop))
    await asyncio.sleep(seconds)
    stop.set()
    clerk.ring("mail")
    await asyncio.wait_for(task, 20)


async def test_what_is_sent_is_sent_once_under_the_name_the_other_side_gave(clerk) -> None:
    sent = []

    async def sender(message):
        sent.append((message.key, (await states(clerk))[message.key]))
        return f"remote {message.key}"

    await queue(clerk, "a", "b")
    await send(clerk, sender)
    assert sent == [("a", "sending"), ("b", "sending")]  # marked before the first byte goes out
    assert await states(clerk) == {"a": "sent", "b": "sent"}
    assert (await clerk.do(lambda journal: journal.outgoing_of("mail", "a"))).remote == "remote a"


@pytest.mark.parametrize(
    ("fault", "state"),
    [
        (Refused("550"), "failed"),
        (PutOff("451"), "queued"),
        (NotSent("no route"), "queued"),
        (TimeoutError("silence"), "uncertain"),
        (ValueError("anything"), "uncertain"),
    ],
)
async def test_what_goes_wrong_with_one_leaves_it_in_its_state_and_the_others_go_out(clerk, fault, state) -> None:
    async def sender(message):
        if message.key == "bad":
            raise fault
        return ""

    await queue(clerk, "bad", "good")
    await send(clerk, sender, 3.5 if isinstance(fault, NotSent) else 0.3)
    assert await states(clerk) == {"bad": state, "good": "sent"}


async def test_told_to_wait_until_a_time_it_waits_and_uses_up_no_try(clerk) -> None:
    calls = []

    async def sender(message):
        calls.append(message.key)
        raise NotSent("429", clerk.now() + timedelta(seconds=60))

    await queue(clerk, "a")
    await send(clerk, sender)
    clerk.ring("mail")
    assert calls == ["a"]
    assert (await clerk.do(lambda journal: journal.outgoing_of("mail", "a"))).tries == 0


@pytest.mark.parametrize(
    ("verdict", "state", "again"),
    [(Verdict.AGAIN, "sent", 1), (Verdict.ARRIVED, "sent", 0), (Verdict.GIVE_UP, "failed", 0)],
)
async def test_the_channel_says_what_becomes_of_an_uncertain_reply(clerk, verdict, state, again) -> None:
    calls = []

    async def sender(message):
        calls.append(message.key)
        return ""

    async def policy(message):
        assert (message.state, message.unsure) == ("uncertain", 1)
        return verdict

    await queue(clerk, "a")
    await clerk.do(lambda journal: journal.sending(1))  # and here the program ended
    await send(clerk, sender, policy=policy)
    assert await states(clerk) == {"a": state}
    assert len(calls) == again


async def test_several_are_under_way_together_and_one_that_breaks_leaves_the_others_to_their_end(clerk) -> None:
    under_way, most = 0, 0

    async def sender(message):
        nonlocal under_way, most
        under_way += 1
        most = max(most, under_way)
        await asyncio.sleep(0.02)
        under_way -= 1
        if message.key == "2":
            raise RuntimeError("broke")
        return ""

    await queue(clerk, *map(str, range(8)))
    await send(clerk, sender, 0.6, at_once=4)
    assert most == 4
    assert list((await states(clerk)).values()).count("sent") == 7


async def test_told_to_stop_it_finishes_what_is_under_way_and_begins_nothing(clerk) -> None:
    stop = asyncio.Event()

    async def sender(message):
        stop.set()
        await asyncio.sleep(0.05)
        return ""

    await queue(clerk, "a", "b")
    await asyncio.wait_for(Sending("mail", clerk, sender).run(stop), 20)
    assert await states(clerk) == {"a": "sent", "b": "queued"}
