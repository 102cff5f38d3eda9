"""One case for each question: doubles join, whoever joins hears too, and the list is in order."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.cases import CLOSED, OPEN
from bot.expert_desk import DeskError
from tests.bot.expert_desk.conftest import DAY

HARD = "How old is number Z 4711?"


def test_the_experts_see_the_case_at_once_with_what_was_asked_read_and_why_it_is_hard(office) -> None:
    office.ask(HARD)
    (card,) = office.channel.cards
    assert card.case.text == HARD
    assert card.case.serials == ("Z4711",)
    assert card.case.reasons == ("outside-registers",)
    assert "4 digits" in card.case.reading[0]


def test_other_people_who_ask_the_same_join_the_case(office) -> None:
    first = office.ask(HARD, "ann")
    second = office.ask("Z4711: what year would that be?", "ben")
    assert (second.case.id, second.is_new, second.joined) == (first.case.id, False, True)
    assert second.case.waiting == 2
    assert [one.person for one in office.desk.askers(first.case.id)] == ["chat:ann", "chat:ben"]
    assert len(office.channel.cards) == 1
    assert office.channel.changes[-1].case.waiting == 2


def test_the_same_person_asking_again_waits_once_and_what_they_say_new_is_added(office) -> None:
    first = office.ask(HARD)
    again = office.ask("Z 4711 please, it has a long shuttle, how old?")
    assert again.case.waiting == 1
    assert again.by == first.by
    assert [one.text for one in office.desk.words(first.case.id)] == ["Z 4711 please, it has a long shuttle, how old?"]


def test_a_number_of_another_maker_is_another_question(office) -> None:
    one = office.ask("My Tollgate has Z 4711, how old?", "ann")
    other = office.ask("My Ambersee has Z 4711, how old?", "ben")
    assert other.case.id != one.case.id


def test_who_names_no_maker_joins_and_a_maker_named_later_is_kept(office) -> None:
    one = office.ask(HARD, "ann")
    joined = office.ask("My Tollgate has Z 4711, how old?", "ben")
    assert joined.case.id == one.case.id
    assert joined.case.makers == ("tollgate",)


def test_two_people_without_a_number_ask_about_two_machines_whatever_they_say(office) -> None:
    text = "How old is my treadle machine?"
    assert office.ask(text, "ann").case.id != office.ask(text, "ben").case.id


def test_a_number_told_soon_after_a_photo_goes_to_the_case_of_the_photo(office) -> None:
    photo = office.ask("What is this?", picture=True)
    number = office.ask("The number is Z 4711, how old?")
    assert number.case.id == photo.case.id
    assert number.case.serials == ("Z4711",)
    assert number.case.reasons == ("outside-registers",)
    assert office.desk.pictures(photo.case.id)[0].ref == "file-of-ann"


def test_a_number_told_days_later_is_a_case_of_its_own(office) -> None:
    photo = office.ask("What is this?", picture=True)
    office.now += DAY
    assert office.ask(HARD).case.id != photo.case.id


def test_a_photo_whose_number_the_lists_know_after_all_is_closed(office) -> None:
    photo = office.ask("What is this?", picture=True)
    office.desk.got_an_answer("chat:ann", office.now)
    assert office.case(photo.case.id).state == CLOSED
    assert office.told() == []
    office.now += 20 * DAY
    office.look()
    assert office.told() == []


def test_a_wish_for_a_person_stays_when_the_lists_answer_something_else(office) -> None:
    wish = office.ask("Can a person of the group help me with my treadle machine, how old is it?").case.id
    office.desk.got_an_answer("chat:ann", office.now)
    assert office.case(wish).state == OPEN


def test_what_is_asked_again_after_nobody_knew_opens_that_case_again(office) -> None:
    case = office.ask(HARD).case.id
    office.now += 15 * DAY
    office.look()
    assert office.case(case).state == CLOSED
    again = office.ask(HARD, "ben")
    assert again.case.id == case
    assert again.case.state == "open"
    assert again.by == office.now + 14 * DAY


def test_who_brings_very_many_cases_in_a_day_fills_the_list_and_the_digest_and_not_the_chat(office) -> None:
    for number in range(30):
        office.ask(f"How old is number Z 47{number:02}?", "mallory")
    assert len(office.channel.cards) == 10
    assert len(office.desk.cases(limit=100)) == 30
    office.look()
    assert len(office.channel.digests[0].new) == 20
    office.now += 2 * DAY
    office.ask("How old is number Z 4800?", "mallory")
    assert len(office.channel.cards) == 11


def test_the_words_to_the_asker_can_be_found_before_the_case_is_opened(office) -> None:
    fresh = office.desk.expected(office.opening(HARD, "ann"), office.now)
    assert (fresh.others, fresh.again, fresh.by) == (False, False, office.now + 14 * DAY)
    office.ask(HARD, "ann")
    assert office.desk.expected(office.opening(HARD, "ben"), office.now).others
    office.now += DAY
    again = office.desk.expected(office.opening(HARD, "ann"), office.now)
    assert again.again
    assert again.by == office.now + 13 * DAY


def test_cases_are_listed_by_how_many_wait_and_then_by_age(office) -> None:
    old = office.ask("Z 1111, how old?").case.id
    office.now += timedelta(hours=1)
    young = office.ask("Z 2222, how old?").case.id
    office.now += timedelta(hours=1)
    wanted = office.ask("Z 3333, how old?").case.id
    office.ask("Z 3333, how old?", "ben")
    assert [one.id for one in office.desk.cases()] == [wanted, old, young]
    assert [one.id for one in office.desk.cases(limit=1, offset=1)] == [old]
    assert office.desk.cases("settled") == []


def test_open_cases_with_neighbouring_numbers_of_one_series_are_shown_together_the_nearest_first(office) -> None:
    far = office.ask("Z 4999, how old?", "ann").case.id
    near = office.ask("Z 4712, how old?", "ben").case.id
    office.ask("Z 47110, how old?", "cat")
    office.ask("Y 4711, how old?", "dan")
    here = office.ask(HARD, "eli").case
    assert [one.id for one in office.desk.similar(here)] == [near, far]
    assert [one.id for one in office.desk.card(here.id).similar] == [near, far]


def test_a_neighbour_whose_maker_differs_is_not_shown(office) -> None:
    office.ask("My Ambersee has Z 4712, how old?", "ann")
    here = office.ask("My Tollgate has Z 4711, how old?", "ben").case
    assert office.desk.similar(here) == ()


def test_a_case_that_is_not_there_is_said_so(office) -> None:
    with pytest.raises(DeskError, match="There is no case 99"):
        office.desk.case(99)


def test_nothing_of_a_person_is_left_when_they_are_forgotten_and_the_case_stays(office) -> None:
    case = office.ask(HARD, "ann", picture=True).case.id
    office.ask("Z4711?", "ben")
    office.desk.ask_asker(case, "chat:eva", "Is the shuttle long?", office.now)
    office.said(case, "It is long, and my name is Ann Example")
    office.journal.forget("chat:ann")
    card = office.desk.card(case)
    assert card.case.waiting == 1
    assert (card.pictures, [one.text for one in card.said]) == ((), ["Is the shuttle long?"])
    assert card.case.serials == ("Z4711",)
    assert "Ann Example" not in str(card)
    office.journal.forget("chat:ben")
    assert office.case(case).text == ""
    assert office.settle(case).is_done


def test_what_a_second_person_writes_about_the_same_stands_on_the_card_as_said_by_another(office) -> None:
    first = office.ask("Z4711, how old?").case.id
    office.ask("How old is Z 4711? The name Wendelohr is on the arm", "ben")
    said = office.desk.card(first).said
    assert [(one.text, one.is_another) for one in said] == [
        ("How old is Z 4711? The name Wendelohr is on the arm", True)
    ]
    office.ask("Z4711, how  old?", "cat")
    office.said(first, "The shuttle is long", "ann")
    assert [(one.text, one.is_another) for one in office.desk.card(first).said][1:] == [("The shuttle is long", False)]


def test_what_the_desk_says_of_a_question_is_not_shown_as_words_of_the_asker(office) -> None:
    opening = replace(office.opening("How old is my treadle machine?"), notice="No program can read this mail.")
    case = office.desk.open(opening, office.knowledge, office.now).case
    assert case.text == "How old is my treadle machine?"
    assert case.reading[0] == "No program can read this mail."


def test_a_question_of_several_numbers_does_not_join_an_older_one_without_a_number(office) -> None:
    first = office.ask("How old is my treadle machine?").case.id
    second = office.ask("Serial ZQ 77, ZQ78, and ZZ 555555 please date all three")
    assert second.is_new
    assert office.case(first).numbers == ()
    assert len(second.case.numbers) == 3
