"""How fast the chat is written to: in one chat, in a group, in all, and after a restart."""

from __future__ import annotations

from itertools import pairwise

from bot.channels.telegram.pace import BETWEEN, IN_A_GROUP, IN_ALL, Pace

GROUP, PERSON = "-1001", "55"


def moments(pace: Pace, chat: str, count: int, now: float) -> list[float]:
    found = []
    for _ in range(count):
        at = pace.slot(chat, now)
        pace.take(chat, at)
        found.append(at)
    return found


def test_a_group_gets_one_a_second_and_no_more_than_twenty_in_any_minute():
    found = moments(Pace(), GROUP, 70, 1000.0)
    assert found[0] == 1000.0
    assert all(later - one >= 1.0 for one, later in pairwise(found))
    assert all(sum(at <= one < at + 60 for one in found) <= 20 for at in found)
    assert found[-1] < 1000 + 70 / IN_A_GROUP * 60 + 60  # and not much slower than it may


def test_a_private_chat_is_bound_by_the_second_alone():
    found = moments(Pace(), PERSON, 70, 1000.0)
    assert abs(found[-1] - (1000 + 69 * BETWEEN)) < 0.01


def test_one_chat_does_not_hold_up_another():
    pace = Pace()
    moments(pace, GROUP, 30, 1000.0)
    pace.wait_until(GROUP, 9000.0)
    assert pace.slot("-1002", 1000.0) == 1000.0


def test_in_all_there_is_room_for_less_than_thirty_in_any_second():
    pace = Pace()
    for _ in range(IN_ALL):
        assert pace.room(1000.0) > 0
        pace.begins(1000.0)
    assert pace.room(1000.9) == 0
    assert pace.room(1001.1) == IN_ALL


def test_a_restart_knows_what_went_and_what_was_told_to_wait():
    pace = Pace()
    moments(pace, GROUP, IN_A_GROUP, 1000.0)
    pace.wait_until(PERSON, 2000.0)
    again = Pace.read(pace.written(1030.0), 1030.0)
    assert again.slot(GROUP, 1030.0) >= 1030.0
    assert again.slot(PERSON, 1030.0) == 2000.0
    found = moments(again, GROUP, 5, 1030.0)
    went = [1000.0 + BETWEEN * number for number in range(IN_A_GROUP)]
    assert sum(at > found[-1] - 60 for at in (*went, *found)) <= 20


def test_what_is_long_past_is_not_kept():
    pace = Pace()
    for number in range(1000):
        pace.take(f"-{number}", 1000.0)
    assert len(pace.written(2000.0)) < 100
    assert Pace.read(None, 0.0).slot(GROUP, 5.0) == 5.0
