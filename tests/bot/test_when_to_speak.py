"""When the bot speaks: measured on group talk and real questions, and rule by rule."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot import conversation as core
from bot.lately import KEPT, Line
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


def test_a_second_and_harder_set_does_as_well(shipped):
    wrong = measure.unwanted(measure.talk("second_talk.txt"), shipped, "questions")
    lost = measure.missed(measure.questions("second_questions.txt"), shipped, "questions")
    assert len(wrong) == 0, told(wrong)
    assert len(lost) <= 5, told(lost)


def test_so_do_eleven_rounds_of_talk_and_questions_in_new_words(shipped):
    said, asked = measure.talk("round_*_talk.txt"), measure.questions("round_*_questions.txt")
    wrong, lost = measure.unwanted(said, shipped, "questions"), measure.missed(asked, shipped, "questions")
    assert len(said) > 2900
    assert len(asked) > 1700
    assert len(wrong) <= 5, told(wrong)
    assert len(lost) <= len(asked) * 0.05, told(lost)


def test_of_talk_that_is_a_word_away_from_a_question_few_lines_are_answered(shipped):
    said, asked = measure.talk("close_*_talk.txt"), measure.questions("close_*_questions.txt")
    wrong, lost = measure.unwanted(said, shipped, "questions"), measure.missed(asked, shipped, "questions")
    assert len(said) > 500
    assert len(wrong) <= len(said) * 0.02, told(wrong)
    assert len(lost) <= len(asked) * 0.05, told(lost)


@pytest.mark.parametrize("number", measure.ROUNDS)
def test_no_round_is_left_behind(shipped, number):
    said, asked = measure.talk(f"round_{number}_talk.txt"), measure.questions(f"round_{number}_questions.txt")
    assert len(measure.unwanted(said, shipped, "questions")) <= 2
    assert len(measure.missed(asked, shipped, "questions")) <= len(asked) * 0.08


TALKS = (5, 7, 8, 9, 10, 11)
"""The rounds in which each line follows the one before."""


@pytest.mark.parametrize("people", [2, 3, 5])
def test_a_talk_whose_lines_before_are_known_is_hardly_ever_answered(shipped, people):
    wrong = [line for number in TALKS for line in in_a_talk(measure.talk(f"round_{number}_talk.txt"), shipped, people)]
    assert len(wrong) <= 2, told(wrong)


def in_a_talk(lines, knowledge, people):
    """Yield the lines that are answered, when so many people speak in turn, every twenty seconds."""
    for at, line in enumerate(lines):
        before = range(max(0, at - KEPT), at)
        recent = tuple(Line(lines[one].text, one % people == at % people, 20.0 * (at - one)) for one in before)
        if judge(replace(line.scene(knowledge, "questions"), recent=recent)).speak:
            yield line


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


# --- the lines before


def after(*lines) -> tuple[Line, ...]:
    """Lines said before, ten seconds apart; those that begin with `me: ` by the writer."""
    ago = range(10 * len(lines), 0, -10)
    return tuple(Line(one.removeprefix("me: "), one.startswith("me: "), at) for one, at in zip(lines, ago, strict=True))


@pytest.mark.parametrize(
    "before",
    [
        ("which number is on the Stine?",),
        ("me: mine is older", "which one was it?"),
        ("me: I let two go", "the L118203 I know"),
    ],
)
@pytest.mark.parametrize("text", ["K204117", "hello, K204117", "number K204117?"])
def test_a_number_alone_in_a_talk_of_two_members_is_no_question(scene, before, text):
    assert judge(scene(text)).speak
    assert not judge(scene(text, recent=after(*before))).speak


def test_a_question_in_words_is_one_whatever_was_said_before(scene):
    before = after("me: mine is older", "which one was it?")
    assert judge(scene("How old is K204117?", recent=before)).speak
    assert judge(scene("K204117, which year?", recent=before)).speak


def test_what_was_said_long_before_or_without_a_question_leaves_a_number_alone_a_question(scene):
    assert judge(scene("K204117", recent=(Line("which number?", False, 181),))).speak
    assert judge(scene("K204117", recent=after("kettle is on"))).speak


@pytest.mark.parametrize(
    "before", ["Can anyone help me date my nan's machine?", "How old is my machine?", "What model do I have?"]
)
@pytest.mark.parametrize("text", ["it's an Ottrel, the number is K204117", "sorry, forgot the number: K204117"])
def test_a_number_after_a_question_without_one_belongs_to_it(scene, before, text):
    assert not judge(scene(text)).speak
    assert judge(scene(text, recent=after(f"me: {before}"))).speak
    assert judge(scene(text, recent=after(f"me: {before}", "what is the number?"))).speak
    assert not judge(scene(text, recent=after(before))).speak
    assert not judge(scene(text, recent=after("me: what a day"))).speak


def test_a_number_for_sale_after_a_question_does_not(scene):
    before = after("me: How old is my machine?")
    assert not judge(scene("For sale: K204117, 60 euro", recent=before)).speak


@given(st.text(max_size=300), st.sampled_from(["addressed", "questions", "any-serial"]))
def test_no_text_makes_it_raise(knowledge, text, speak):
    judge(Scene(text, knowledge, speak, picture=True))
