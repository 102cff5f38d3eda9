"""'Yes, the second one': the datings that the expert was shown are known by their places."""

import pytest

from knowledge.answer import answer
from knowledge.expert_answers import SETTLES, About, understand

QUESTION = "how old is 100213?"


@pytest.fixture
def about(known):
    return About.of(answer(QUESTION, known))


@pytest.mark.parametrize(
    "text",
    ["yes, the second one is right", "agree with the second", "Number two", "definitely no. 2", "die zweite",
     "c'est la deuxième", "la seconda", "I'd go with the second"],
)  # fmt: skip
def test_the_second_one_is_the_second_that_was_shown(known, about, text):
    one = understand(text, known, about)
    second = about.candidates[1]
    assert one.kind == SETTLES
    assert (one.serial, one.model, one.date) == (second.serial, second.model, second.date)


def test_the_one_of_a_year_is_the_only_one_of_that_year(known, about):
    assert understand("the 1911 one", known, about).serial == "B100213"


def test_what_the_expert_adds_counts_more_than_what_was_shown(known, about):
    one = understand("The first one, but it is a Dovelet", known, about)
    assert (one.serial, one.model) == (about.candidates[0].serial, "br-dovelet")


@pytest.mark.parametrize(
    "text", ["not the first", "neither of those", "the first is wrong", "the first thing to check is the bed"]
)
def test_no_dating_is_agreed_with(known, about, text):
    assert understand(text, known, about).date == ""


def test_a_place_where_nothing_was_shown_is_shown_as_unclear(known, about):
    one = understand("the second one", known, About())
    assert not one.tells
    assert "which of the datings" in one.unclear[0]


def test_yes_alone_agrees_only_where_one_dating_was_shown(known, about):
    assert not understand("yes", known, about).tells
    only = About(candidates=about.candidates[:1])
    assert understand("yes, that's right", known, only).serial == about.candidates[0].serial
