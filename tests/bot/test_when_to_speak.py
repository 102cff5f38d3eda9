"""When the bot speaks: measured on group talk and real questions, and rule by rule."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot import conversation as core
from bot.state import State
from bot.when_to_speak import Scene, judge
from bot.wiring import open_library
from tests.corpus_chat import measure


@pytest.fixture(scope="module")
def shipped():
    return open_library().current()


def told(lines) -> str:
    return "\n".join(map(str, lines))


# --- measured


@pytest.mark.parametrize("speak", ["addressed", "questions"])
def test_of_a_thousand_lines_of_talk_at_most_two_are_answered(shipped, speak):
    said = measure.talk()
    wrong = measure.unwanted(said, shipped, speak)
    assert len(said) >= 1000
    assert len(wrong) <= 2, told(wrong)


def test_where_any_serial_is_answered_talk_without_one_is_not(shipped):
    quiet = measure.without_numbers(measure.talk(), shipped)
    wrong = measure.unwanted(quiet, shipped, "any-serial")
    assert len(quiet) >= 1000
    assert len(wrong) <= 2, told(wrong)


@pytest.mark.parametrize("speak", ["questions", "any-serial"])
def test_of_200_real_questions_at_least_190_are_answered(shipped, speak):
    asked = measure.questions()
    lost = measure.missed(asked, shipped, speak)
    assert len(asked) == 200
    assert len(lost) <= 10, told(lost)


def test_every_question_that_calls_the_bot_is_answered(shipped):
    assert measure.missed(measure.questions(), shipped, "addressed", addressed=True) == []


def test_a_second_and_harder_set_does_nearly_as_well(shipped):
    wrong = measure.unwanted(measure.talk("second_talk.txt"), shipped, "questions")
    lost = measure.missed(measure.questions("second_questions.txt"), shipped, "questions")
    assert len(wrong) <= 2, told(wrong)
    assert len(lost) <= 6, told(lost)


# --- rule by rule


@pytest.fixture
def scene(knowledge):
    return lambda text, **more: Scene(text, knowledge, **more)


@pytest.mark.parametrize("speak", ["addressed", "questions", "any-serial"])
def test_another_bot_is_never_answered_and_a_private_message_always(scene, speak):
    assert not judge(scene("K204117, how old is it?", speak=speak, by_machine=True)).speak
    assert judge(scene("hello", speak=speak, is_private=True)).speak


def test_who_calls_the_bot_is_answered_whatever_is_said(scene):
    assert judge(scene("nice weather", speak="addressed", addressed=True)).rule == "addressed"


def test_the_same_number_is_not_answered_twice_to_the_same_person(scene):
    answered = frozenset({"K204117"})
    assert judge(scene("K204117, how old is it?", answered=answered)).rule == "answered-already"
    assert judge(scene("K204117, how old is it?", answered=answered, addressed=True)).speak


def test_one_unasked_reply_in_ten_minutes(scene):
    assert judge(scene("K204117, how old is it?", since_unasked=599)).rule == "spoke-lately"
    verdict = judge(scene("K204117, how old is it?", since_unasked=601))
    assert verdict.speak
    assert verdict.unasked


@pytest.fixture
def asked(knowledge):
    """The state after 'K204117': it was asked how many digits there are."""
    state, _ = core.reply(core.Incoming("K204117"), State(), knowledge)
    return state


@pytest.mark.parametrize("text", ["seven digits", "7", "it starts with zero", "I don't know", "sieben", "six"])
def test_an_answer_to_the_open_question_needs_no_call(scene, asked, text):
    assert judge(scene(text, speak="addressed", state=asked, since_reply=60)).rule == "goes-on"
    assert not judge(scene(text, speak="addressed", state=asked, since_reply=3600)).speak
    assert not judge(scene(text, speak="addressed", state=asked, since_reply=60, to_member=True)).speak


@pytest.mark.parametrize("text", ["thanks!", "is it seven, Ann?", "see you at 7 tomorrow then, with cake"])
def test_other_words_are_no_answer_to_it(scene, asked, text):
    assert not judge(scene(text, state=asked, since_reply=60)).speak


def test_a_number_put_right_needs_no_call_and_counts_as_no_unasked_reply(scene, asked):
    verdict = judge(scene("sorry, K204118", speak="addressed", state=asked, since_reply=60, since_unasked=60))
    assert verdict.rule == "goes-on"
    assert not verdict.unasked


@given(st.text(max_size=300), st.sampled_from(["addressed", "questions", "any-serial"]))
def test_no_text_makes_it_raise(knowledge, text, speak):
    judge(Scene(text, knowledge, speak, picture=True))
