"""Somebody whose question lies with the experts writes more: it reaches the card, one short word comes back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

import pytest

from bot.mail_adding import MOST_A_DAY
from tests.bot.channels.test_mail_format import png
from tests.bot.test_mail_experts import HATTIE, IDA, asked, one_line, shown, with_photo
from tests.mail_office import ADA, DESK, OWN_LIST, MailOffice, mail_office, text_of, to

RECEIPT = "I found a receipt from 1911, the name Wendelohr is on the arm. How old is it?"


@pytest.fixture
def office(tmp_path, pack) -> Iterator[MailOffice]:
    with mail_office(tmp_path, pack) as one:
        yield one


def said(office: MailOffice, case: int = 1) -> list[str]:
    return [one.text for one in office.desk.words(case) if one.kind == "said"]


@pytest.mark.parametrize(
    "words",
    [
        RECEIPT,
        "It says Wendelohr on the arm, and there is a lion on the badge.",
        "It is from about 1911, my aunt says.",
        "B123456: the arm says Wendelohr.",
        "What else can you tell me about the shuttle?",
    ],
)
@pytest.mark.parametrize("in_thread", [True, False])
def test_more_about_an_open_question_reaches_the_experts_and_the_asker_hears_that(office, words, in_thread):
    answer, *_ = asked(office)
    went_out = office.answer(answer, words, HATTIE, "") if in_thread else office.mail(words, HATTIE, "The machine")
    (word,) = to(went_out, HATTIE)
    assert "passed that on" in one_line(word)
    assert said(office) == [words]
    assert words in one_line(to(went_out, ADA)[0])
    assert office.desk.counts() == {"open": 1}


def test_the_short_word_is_said_once_a_day_and_what_comes_later_reaches_the_card_all_the_same(office):
    asked(office)
    assert to(office.mail(RECEIPT), HATTIE)
    assert to(office.mail("And it has a round shuttle."), HATTIE) == []
    assert office.last() == "passed-on"
    assert said(office) == [RECEIPT, "And it has a round shuttle."]
    office.now += timedelta(days=1)
    assert to(office.mail("And the needle is long."), HATTIE)


def test_the_same_words_again_are_no_news(office):
    asked(office)
    office.mail(RECEIPT)
    assert office.mail(RECEIPT, subject="Again") == []
    assert said(office) == [RECEIPT]


def test_who_answers_the_short_word_goes_on_about_the_same_machine(office):
    asked(office)
    (word,) = to(office.mail(RECEIPT, subject="A receipt"), HATTIE)
    office.answer(word, "The drawer has a key.", HATTIE, "")
    assert said(office) == [RECEIPT, "The drawer has a key."]


def test_a_photo_in_a_new_mail_goes_to_the_open_question(office):
    asked(office)
    went_out = office.raw(with_photo(png(60, 40), text="", number=2))
    assert "passed that on" in one_line(to(went_out, HATTIE)[0])
    assert "photo-1.png" in [part.get_filename() for part in to(went_out, ADA)[0].walk()]
    assert office.desk.counts() == {"open": 1}


def test_what_changes_the_answer_is_answered_and_reaches_the_experts_too(office):
    answer, *_ = asked(office, "I do not know, please let a person look at it: K204117")
    went_out = office.answer(answer, "It has seven digits, with a zero in front.", HATTIE, "")
    assert "1921" in text_of(to(went_out, HATTIE)[0])
    assert said(office) == ["It has seven digits, with a zero in front."]


@pytest.mark.parametrize(
    ("words", "subject"),
    [
        ("How old is K204117?", "Another one"),
        ("My other machine is a Tollgate. How old is it?", "Another machine"),
        ("Thank you so much!", "Thanks"),
        ("search round shuttle", "Words"),
        ("Where do I find the number on a Tollgate?", "Another question"),
    ],
)
def test_what_is_about_something_else_is_not_put_to_the_open_question(office, words, subject):
    asked(office)
    office.mail(words, HATTIE, subject)
    assert said(office) == []


def test_a_maker_that_does_not_fit_is_another_machine(office):
    asked(office, "How old is my Ambersee B123456?")
    office.mail("How old is a Tollgate?", HATTIE, "A machine")
    assert said(office) == []


def test_what_others_write_is_theirs(office):
    asked(office)
    office.mail(RECEIPT, IDA)
    assert said(office) == []


def test_an_asker_who_answers_a_copy_of_a_card_puts_nothing_on_it(office):
    _, card, _ = asked(office)
    went_out = office.answer(card, "Model 9, about 1911, by the shuttle.", HATTIE, "")
    assert said(office) == []
    assert to(went_out, ADA), "the experts hear of it"


def test_when_the_question_is_settled_nothing_is_passed_on(office):
    _, card, _ = asked(office)
    office.answer(shown(office, card), "yes")
    office.mail(RECEIPT)
    assert said(office) == []


def test_what_a_list_of_the_group_sends_counts_in_its_thread_alone(office):
    answer, *_ = asked(office)
    listed = f"List-Id: <{OWN_LIST}>\n"
    office.mail("I sell a Tollgate from 1911.", head=listed)
    assert said(office) == []
    office.answer(answer, "There is a lion on the badge.", HATTIE, listed)
    assert said(office) == ["There is a lion on the badge."]


def test_only_so_many_mails_a_day_reach_a_card(office):
    asked(office)
    for at in range(MOST_A_DAY + 3):
        office.mail(f"There are {'very ' * at}many scratches on the badge.")
    assert len(said(office)) == MOST_A_DAY
    assert office.last() == "daily-limit"


RESPONDERS = {
    "away": "I am away.",
    "away with a number": "I am away until {n} January. Call 01632 960{n}.",
    "a ticket": "Ticket #56207{n} was opened for you.",
    "received": "Thank you for your message. We will come back to you. {n}",
    "out of office": "I am out of the office, back on day {n}.",
    "what it is": "Which machine is it? {n}",
    "a sign": "There is a lion on the badge, number {n} of many.",
    "a search": "Search our pages for machines while you wait. {n}",
    "about a machine": "Thank you for asking about your Tollgate. Question {n}: which model is it?",
}


@pytest.mark.parametrize("kind", RESPONDERS)
@pytest.mark.parametrize("in_thread", [True, False])
def test_a_loop_with_a_program_that_answers_whoever_waits_for_experts_ends_soon(office, kind, in_thread):
    sent, *_ = asked(office)
    replies = 1
    for at in range(12):
        body = RESPONDERS[kind].format(n=100 + at)
        went_out = office.answer(sent, body, HATTIE, "") if in_thread else office.mail(body, HATTIE, "Your mail")
        answers = to(went_out, HATTIE)
        if not answers:
            break
        replies, sent = replies + 1, answers[0]
    assert replies <= 2
    assert DESK not in [one["To"] for one in went_out]
