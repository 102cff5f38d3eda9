"""An hour without network and a quiet week: the real channel on a clock that jumps, then once in real time."""

from __future__ import annotations

import random
import time
from itertools import pairwise

import pytest

from tests.bot.channels.telegram.quick import running_quickly
from tests.telegram_server import BotServer, Person
from tests.telegram_server.running import ADA, BEN, EXPERTS_CHAT, desk

HOUR = 3600.0


@pytest.fixture
def unserved() -> BotServer:
    server = BotServer()
    server.group(EXPERTS_CHAT, "Experts")
    return server


def answered(server: BotServer) -> list[tuple[int, int]]:
    """The messages that the bot answered, each as often as it did."""
    return [
        (chat.id, message["reply_to_message"]["message_id"])
        for chat in list(server.chats.values())
        for message in server.messages(chat)
        if "reply_to_message" in message and "text" in message
    ]


def ask(chat, number: int) -> tuple[int, int]:
    return chat.id, chat.says(Person(30_000 + number, "x"), f"K2250{number % 90 + 10}, how old is it?")["message_id"]


@pytest.fixture
def quick(tmp_path, unserved, pack_folder, monkeypatch):
    with running_quickly(tmp_path, unserved, pack_folder, monkeypatch) as made:
        yield made


def test_an_hour_without_network_loses_nothing_and_is_waited_out_in_bounded_steps(quick, unserved):
    groups, chance = [unserved.group(-1001234700000 - number) for number in range(10)], random.Random(20310504)
    asked = [ask(groups[0], 0)]
    quick.until(lambda: answered(unserved), 10)
    quick.sleep(1)
    asked += [ask(groups[0], number) for number in range(1, 6)]  # of these some are taken in and not answered yet
    quick.until(lambda: len(answered(unserved)) == 2, 10)
    quick.line.is_cut, began = True, quick.now
    for number in range(6, 100):
        quick.sleep(chance.uniform(0, 2 * HOUR / 94))
        asked.append(ask(groups[number % 10], number))
    quick.sleep(max(0.0, began + HOUR - quick.now))
    quick.line.is_cut, ended = False, quick.now
    quick.until(lambda: len(answered(unserved)) == 100, 75 + 60)
    tries = quick.line.tries_between(began, ended)
    assert len(tries) < 4 * (ended - began) / 60 + 60, "no busy loop"
    assert max(later - one for one, later in pairwise([began, *tries, ended])) <= 75, "and no giving up"
    quick.sleep(120)
    assert sorted(answered(unserved)) == sorted(asked)
    assert quick.counts() == {"handled": 100, "sent": 100}
    assert unserved.pending == []
    assert unserved.confirmed == 100


@pytest.mark.parametrize("without_network", [False, True])
def test_after_a_quiet_week_updates_are_numbered_anew_and_answered_all_the_same(quick, unserved, without_network):
    group = unserved.group()
    asked = [ask(group, 1)]
    quick.until(lambda: len(answered(unserved)) == 1, 10)
    quick.line.is_cut = without_network
    quick.sleep(HOUR / 4)  # stands for the week: what the server does after it is set below
    unserved.first_update = 2  # below all numbers so far
    quick.line.is_cut = False
    asked.append(ask(group, 2))
    quick.until(lambda: len(answered(unserved)) == 2, 120)
    assert answered(unserved) == asked


@pytest.mark.long
def test_two_minutes_without_network_in_real_time_lose_nothing(tmp_path, pack_folder):
    server = BotServer()
    groups = [server.group(-1001234700000 - number) for number in range(5)]
    server.group(EXPERTS_CHAT, "Experts")
    server.start()
    room = desk(tmp_path, server, pack_folder, every_group=True).start()
    try:
        asked = [ask(groups[number % 5], number) for number in range(20)]
        room.wait_until(lambda: len(answered(server)) >= 5)
        port = server.port
        server.stop()
        for number in range(20, 60):
            asked.append(ask(groups[number % 5], number))
            time.sleep(3)
        server.start(port)
        room.wait_until(lambda: len(answered(server)) >= 60)
        assert set(answered(server)) == set(asked)
        assert len(answered(server)) == 60 or room.program.saw("uncertain")
        assert room.program.terminate() == 0
    finally:
        if room.program.is_running:
            room.program.kill()
        server.stop()


def test_a_restart_after_the_numbers_began_anew_answers_what_waited(tmp_path, server: BotServer, pack_folder):
    room = desk(tmp_path, server, pack_folder)
    try:
        room.start()
        room.group.says(ADA, "K225001, how old is it?")
        room.wait_for(1)
        room.program.kill()
        server.first_update = 0
        room.group.says(BEN, "K225002, how old is it?")
        room.start()
        room.wait_for(2)
    finally:
        room.program.terminate()
