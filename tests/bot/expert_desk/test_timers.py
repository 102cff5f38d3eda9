"""What becomes due: leases, askers who do not answer, the stated day, the experts' digest; and a clock that jumps."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bot.cases import ASKED_BACK, CLOSED, OPEN, TAKEN
from bot.expert_desk.timers import PORTION
from tests.bot.expert_desk.conftest import DAY, HOUR

HARD = "How old is number Z 4711?"
EVA = "chat:eva"


@pytest.fixture
def case(office) -> int:
    number: int = office.ask(HARD).case.id
    return number


def digests_of(office, days: int):
    """Let days go by with a look every hour, and return the digests of that time."""
    office.channel.digests.clear()
    for _ in range(24 * days):
        office.now += HOUR
        office.look()
    return list(office.channel.digests)


def test_a_case_whose_expert_left_is_open_again_after_a_day(office, case) -> None:
    office.propose(case, "Model 9")
    office.now += DAY - timedelta(seconds=1)
    office.look()
    assert office.case(case).state == TAKEN
    office.now += timedelta(seconds=1)
    office.look()
    assert (office.case(case).state, office.case(case).expert) == (OPEN, "")
    assert office.happened(case)[-1] == "lease ran out"


def test_what_was_understood_can_still_be_pressed_after_the_lease_ran_out(office, case) -> None:
    proposal = office.propose(case, "Model 9, about 1911")
    office.now += 2 * DAY
    office.look()
    assert office.desk.settle(proposal.id, EVA, office.now).is_done


def test_an_asker_who_says_nothing_for_a_week_gives_the_case_back_to_all_experts_with_a_note(office, case) -> None:
    office.desk.ask_asker(case, EVA, "Long or round?", office.now)
    office.now += 6 * DAY
    office.look()
    assert office.case(case).state == ASKED_BACK
    office.now += DAY
    office.look()
    assert (office.case(case).state, office.case(case).expert) == (OPEN, "")
    assert "did not answer" in office.channel.changes[-1].note


def test_on_the_stated_day_the_asker_is_told_honestly_that_nobody_knew_and_once(office, case) -> None:
    office.now += 14 * DAY - timedelta(seconds=1)
    office.look()
    assert office.told() == []
    office.now += timedelta(seconds=1)
    office.look()
    office.look()
    (told,) = office.told()
    assert "nobody of the group knows more about Z4711" in told
    assert office.case(case).state == CLOSED


def test_who_joined_later_is_told_on_their_own_day_and_the_case_stays_open_until_then(office, case) -> None:
    office.now += 10 * DAY
    office.ask(HARD, "ben")
    office.now += 4 * DAY
    office.look()
    assert (len(office.told("ann")), office.told("ben")) == (1, [])
    assert office.case(case).state == OPEN
    office.now += 10 * DAY
    office.look()
    assert (len(office.told("ann")), len(office.told("ben"))) == (1, 1)
    assert office.case(case).state == CLOSED


def test_a_case_that_an_expert_has_stays_theirs_on_the_stated_day(office, case) -> None:
    office.now += 13 * DAY + 12 * HOUR
    office.desk.take(case, EVA, office.now)
    office.now += 12 * HOUR
    office.look()
    assert office.kinds_told() == ["nobody-knew"]
    assert office.case(case).state == TAKEN
    office.now += 2 * DAY
    office.look()
    assert office.case(case).state == CLOSED


def test_very_many_are_told_in_portions_so_that_nobody_waits_long_for_the_file(office) -> None:
    for number in range(PORTION + 20):
        office.ask(f"How old is number Z 4{number:03}?", f"person{number}")
    office.now += 14 * DAY
    told = []
    for _ in range(3):
        office.look()
        told.append(len(office.channel.told))
    assert told == [PORTION, PORTION + 20, PORTION + 20]
    assert office.desk.counts() == {CLOSED: PORTION + 20}


def test_who_asks_again_after_they_were_told_that_nobody_knew_has_a_new_day(office, case) -> None:
    office.now += 13 * DAY
    office.ask(HARD, "ben")
    office.now += DAY
    office.look()
    assert office.kinds_told("ann") == ["nobody-knew"]
    expected = office.desk.expected(office.opening(HARD, "ann"), office.now)
    again = office.ask(HARD, "ann")
    assert expected.by == again.by == office.now + 14 * DAY


# --- the digest


def test_experts_hear_of_new_cases_in_one_digest_and_are_reminded_after_2_6_and_10_days(office, case) -> None:
    digests = digests_of(office, 13)
    assert [(len(one.new), len(one.remind)) for one in digests] == [(1, 0), (0, 1), (0, 1), (0, 1)]
    days = [one.day - digests[0].day for one in digests]
    assert all(0 * DAY <= waited - age * DAY <= DAY for age, waited in zip((0, 2, 6, 10), days, strict=True))


def test_there_is_one_digest_a_day_at_most_however_many_cases_there_are(office) -> None:
    for number in range(1, 40):
        office.ask(f"How old is number Z 48{number:02}?", f"person{number}")
        office.now += HOUR
    days = [one.day for one in digests_of(office, 12)]
    assert len(days) == len(set(days))


def test_there_is_no_digest_where_nothing_is_new_or_due(office, case) -> None:
    digests_of(office, 1)
    office.settle(case)
    assert digests_of(office, 13) == []


def test_a_reminder_that_was_missed_is_not_made_up_for(office, case) -> None:
    office.look()
    office.now += 11 * DAY
    office.look()
    assert len(office.channel.digests[-1].remind) == 1
    assert [len(one.remind) for one in digests_of(office, 2)] == []


def test_a_digest_names_the_day_and_how_many_wait(office, case) -> None:
    office.ask("Y 815, how old?", "ben")
    office.look()
    (digest,) = office.channel.digests
    assert digest.day == date(2031, 5, 4)
    assert digest.waiting == 2
    assert digest.longest is not None
    assert digest.longest.id == case


# --- clocks


def test_after_a_jump_of_the_clock_every_wait_is_as_long_as_it_was_meant(office, case) -> None:
    office.desk.take(case, EVA, office.now)
    year = timedelta(days=365)
    office.now += year
    office.desk.shift(year)
    office.look()
    assert office.told() == []
    assert office.case(case).lease == office.now + DAY
    office.desk.shift(-year)
    office.now -= year
    office.now += 14 * DAY
    office.look()
    assert office.kinds_told() == ["nobody-knew"]


def test_what_is_told_already_is_not_told_again_after_a_jump(office, case) -> None:
    office.now += 15 * DAY
    office.look()
    office.desk.shift(-15 * DAY)
    office.look()
    assert len(office.told()) == 1
