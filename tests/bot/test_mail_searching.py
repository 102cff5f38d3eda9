"""Searching by mail: 'search' and the words wherever they stand, descriptions, programs that begin so too."""

from __future__ import annotations

import pytest

from bot.channels.mail_format import read
from bot.mail_searching import asked_in
from knowledge.base import Knowledge
from tests.bot.test_mail_desk import Correspondence, html_of, text_of

WORDS = "three-quarter size with a vibrating shuttle"


@pytest.fixture(scope="module")
def demo() -> Knowledge:
    from bot.wiring import open_library

    return open_library().current()


@pytest.fixture
def letters(demo) -> Correspondence:
    return Correspondence(demo)


@pytest.mark.parametrize(
    ("subject", "body"),
    [
        ("My machine", f"search {WORDS}"),
        ("", f"Search: {WORDS}\n"),
        ("Hello", f"Hello,\n\nplease search for {WORDS}\n\nKind regards\nHattie"),
        ("Hello", f"search\n\n{WORDS}\n\nHattie"),
        (f"search {WORDS}", ""),
        (f"Search for {WORDS}", "Hello, thank you in advance for your help!\n\nHattie\n"),
        ("Search", WORDS),
        ("search:", f"Hi,\n\n{WORDS}\n\nThanks, Hattie"),
        ("Suche", f"suche {WORDS}"),
        ("A machine", "which model has a three-quarter bed and a vibrating shuttle?"),
        ("A machine", "Hello,\nwhich model has a three-quarter bed and a vibrating shuttle?\n\nRegards, Hattie\n"),
        ("Which model has a three-quarter bed and a vibrating shuttle?", "Thanks, Hattie"),
    ],
)
def test_a_search_is_answered_with_what_has_the_words_in_both_forms(letters, subject, body):
    outcome = letters.mail(body, subject)
    for form in (text_of(outcome), html_of(outcome)):
        assert "Model 9H" in form
    assert "Hattie" not in text_of(outcome)


def test_a_search_for_what_is_nowhere_says_so(letters):
    assert "Nothing that is known here has 'qwertzuiop'" in text_of(letters.mail("search qwertzuiop"))


def test_a_search_in_a_thread_is_answered_and_the_talk_of_the_machine_goes_on(letters):
    first = letters.mail("How old is 204117?")
    second = letters.answer(first, f"search {WORDS}")
    assert "Model 9H" in text_of(second)
    assert "K204117" in text_of(letters.answer(second, "there is a K in front"))


def test_the_quote_below_a_search_is_not_searched_for(letters):
    first = letters.mail(f"search {WORDS}")
    second = letters.answer(first, "search boat shuttle\n\nOn 4 May 2031 at 10:00, desk wrote:\n> Model 9H.\n")
    assert "boat" in text_of(second)


@pytest.mark.parametrize(
    ("subject", "body"),
    [
        ("Search engine services", "We bring your site to the first page of every search engine. Call us today."),
        ("Your site", "Search engine visibility is what your business needs now, and we offer our best price to you."),
        ("Meeting", "Searching for a new room for our meeting is on the agenda of Saturday."),
        (
            "Your site",
            "Search engine visibility is what your business needs. " + "We do it all for you, our friend. " * 20,
        ),
        ("Search", ""),
        ("Re: search", "See you on Saturday."),
    ],
)
def test_what_only_begins_like_a_search_is_left_alone(letters, subject, body):
    assert letters.mail(body, subject).replies == ()


def test_a_number_below_the_word_search_is_a_question_about_that_number(letters, demo):
    assert "K204117" in text_of(letters.mail("search K204117"))
    raw = b"Subject: Search for my machine\n\nHow old is K230000?"
    assert "K230000" in asked_in(read(raw), demo).text


@pytest.mark.parametrize("in_thread", [True, False])
@pytest.mark.parametrize(
    "answer",
    [
        "Search our help pages while you wait. Ticket {n}.",
        "search vibrating shuttle ticket {n}",
        "Search ticket {n}: received.",
        "Which model has a three-quarter bed and a vibrating shuttle? Ticket {n}",
    ],
)
def test_a_program_that_begins_its_answers_like_a_search_is_answered_once_at_most(letters, answer, in_thread):
    outcome, replies = letters.mail("search vibrating shuttle", subject="search vibrating shuttle"), 0
    while outcome.replies and replies < 10:
        replies += 1
        body = answer.format(n=5_620_718 + replies)
        outcome = letters.answer(outcome, body) if in_thread else letters.mail(body, "search vibrating shuttle")
    assert replies <= 2
