"""What makes a message a question, sign by sign."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.curiosity import is_bare, is_keywords, is_shown_with_a_question_mark, listen, weigh
from bot.curiosity.weighing import Weighed
from knowledge.said import hear
from knowledge.tokens import find


@pytest.fixture
def heard(knowledge):
    def listening(text, **more):
        found = find(text, knowledge.names)
        return listen(text, found, hear(text, knowledge.names, found), knowledge.names, **more)

    return listening


@pytest.fixture
def asks(heard):
    return lambda text, **more: weigh(heard(text, **more)).is_question


@pytest.mark.parametrize(
    ("text", "way"),
    [
        ("How old is K204117?", "how old"),
        ("what year is K204117", "which year, model or maker"),
        ("When was K204117 built?", "when was it made"),
        ("Who made K204117?", "who made it, or where"),
        ("K204117, when was that?", "when was that"),
        ("I need the year for K204117", "its age, its model"),
        ("please identify K204117", "identify it"),
        ("What have I got here? K204117", "what is it"),
        ("What does K204117 mean?", "what does it tell"),
        ("Was K204117 made in England?", "was it made there"),
        ("Is K204117 a Model 6?", "is it so"),
        ("Any info on K204117?", "anything about it"),
        ("Anyone? K204117", "anyone"),
        ("Tell me about K204117", "look it up"),
        ("Hello all, I inherited this, serial number K204117.", "a newcomer shows a number"),
    ],
)
def test_every_way_of_asking_is_told_from_the_others(heard, text, way):
    weighed = weigh(heard(text))
    assert weighed.is_question
    assert weighed.way == way


@pytest.mark.parametrize(
    ("asking", "not_asking"),
    [
        ("what year is K204117?", "what year did you buy K204117?"),
        ("How old is K204117?", "How old is the cat next to K204117?"),
        ("I would like to know how old K204117 is", "He told me how old K204117 is"),
        ("Any idea what K204117 is?", "Any idea where K204117 is?"),
        ("Can anyone help with K204117?", "Can anyone help with the belt of K204117?"),
        ("What year is K204117?", "Ann, what year is K204117?"),
        ("What year is K204117?", "Quiz: what year is K204117?"),
        ("What year is my K204117?", "What year is your K204117?"),
        ("What is K204117?", "What is K204117 worth?"),
        ("What is K204117?", "What is K204117 doing upstairs?"),
        ("Is K204117 a Model 6?", "Is K204117 a good Model 6?"),
        ("Is K204117 old?", "Is K204117 ready?"),
        ("Can you tell me about K204117?", "Can you tell Marge about K204117?"),
        ("When was K204117 made?", "When was K204117 repaired?"),
        ("Is it worth keeping and how old is it? K204117", "Is it worth keeping? K204117"),
    ],
)
def test_a_word_makes_the_difference(asks, asking, not_asking):
    assert asks(asking)
    assert not asks(not_asking)


def test_words_that_are_not_known_weigh_against_it_one_by_one(heard):
    points = [weigh(heard(text)).points for text in ("How old is K204117?", "How old is zork K204117?")]
    assert points[0] - points[1] == 1


def test_an_answer_to_a_member_must_ask_more_plainly(asks):
    assert asks("How old is K204117?", to_member=True)
    assert asks("any idea? K204117")
    assert not asks("any idea? K204117", to_member=True)


def test_where_there_is_only_a_picture_every_word_must_be_known(asks):
    assert asks("Can anyone identify this?", shown=True)
    assert not asks("Can anyone identify this bracket?", shown=True)


def test_a_message_without_words_weighs_nothing(heard):
    assert weigh(heard("")) == weigh(heard("👍 ...")) == Weighed()


@pytest.mark.parametrize(
    "text", ["K204117", "Hello, serial no. K204117, thanks!", "Tollgate K204117", "the number is K204117"]
)
def test_a_number_with_labels_and_kind_words_is_bare(heard, text):
    assert is_bare(heard(text))


@pytest.mark.parametrize(
    "text", ["45210", "number 9", "No, K204117", "And K204117?", "*K204117", "K204117!!!", "K204117 ❤", "1905 K204117",
             "thanks, K204117", "K204117 upstairs", "K204117 K204118", "for sale K204117"],
)  # fmt: skip
def test_digits_alone_answers_and_exclamations_are_not(heard, text):
    assert not is_bare(heard(text))


@pytest.mark.parametrize(("text", "is_so"), [
    ("K204117 model and date of manufacture", True),
    ("L118203 from?", True),
    ("K204117 is the model I like", False),
    ("K204117 model 1905", False),
])  # fmt: skip
def test_keywords_beside_a_number_ask(heard, text, is_so):
    assert is_keywords(heard(text)) == is_so


@pytest.mark.parametrize(("text", "is_so"), [
    ("found this in the attic, number K 204 117??", True),
    ("found this in the attic, number K204117", False),
    ("who has number K204117?", False),
    ("belt for number K204117?", False),
])  # fmt: skip
def test_a_question_mark_behind_a_number_that_is_called_one_asks(heard, text, is_so):
    assert is_shown_with_a_question_mark(heard(text)) == is_so


@given(st.text(max_size=400))
def test_no_text_makes_it_fail(knowledge, text):
    found = find(text, knowledge.names)
    message = listen(text, found, hear(text, knowledge.names, found), knowledge.names, shown=True)
    for looks in (weigh, is_bare, is_keywords, is_shown_with_a_question_mark):
        looks(message)
