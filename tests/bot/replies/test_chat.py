"""Answers as chats show them: short in a group, whole in private."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.replies import chat
from bot.replies.styled import units
from knowledge.answer import answer


@pytest.fixture
def asked(knowledge):
    return lambda text: answer(text, knowledge)


def labels(rows) -> list[list[str]]:
    return [[button.label for button in row] for row in rows]


def test_the_short_answer_has_the_best_datings_the_works_the_source_and_the_question(asked, knowledge):
    text = chat.short(asked("K204117"), knowledge).text
    for part in ("K204117 has 6 digits", "2 March 1890", "Upper Mill", "K0204117", "2 March 1921", "Source: Ledger",
                 "How many digits"):  # fmt: skip
        assert part in text
    assert units(text) < 1000


def test_a_list_that_names_no_source_is_said_to_name_none(asked, knowledge):
    found = asked("K204117")
    without = replace(found, candidates=tuple(one._replace(source="") for one in found.candidates))
    assert "The list names no source." in chat.short(without, knowledge).text
    first, *others = found.candidates
    mixed = replace(found, candidates=(first._replace(source=""), *others))
    assert "the list names no source; Ledger" in chat.short(mixed, knowledge).text


def test_a_caution_that_the_question_back_asks_already_is_left_out(asked, knowledge):
    assert "Count the digits" not in chat.short(asked("K204117"), knowledge).text
    assert "Count the digits" in chat.whole(asked("K204117"), knowledge).text


def test_what_can_hurt_is_said_always_and_before_the_other_cautions(asked, knowledge):
    text = chat.short(asked("K225001, Model 9, and may I open the motor?"), knowledge).text
    assert "pull the plug" in text
    assert text.index("pull the plug") < text.index("built and sold later")


def test_a_group_gets_two_numbers_and_is_told_of_the_others(asked, knowledge):
    text = chat.short(asked("K204117, K225001 and K225002, how old?"), knowledge).text
    assert "K225001 has" in text
    assert "K225002 has" not in text
    assert "Ask me about K225002" in text
    assert "K225002 has" in chat.whole(asked("K204117, K225001 and K225002, how old?"), knowledge).text


def test_every_dating_names_all_with_their_sources(asked, knowledge):
    found = asked("K204117")
    text = chat.every(found, knowledge).text
    assert all(one.serial in text for one in found.candidates)
    assert "[1] Ledger of the Upper Mill" in text


def test_a_number_in_no_list_says_so_and_that_people_may_know(asked, knowledge):
    text = chat.short(asked("serial number QX99887766"), knowledge).text
    assert "No list known here has it" in text
    assert "people who know these machines" in text


def test_a_photo_is_told_where_to_look_on_the_machine_that_is_named(asked, knowledge):
    assert "Stamped underneath. Unplug it first" in chat.photo(asked("how old is my Ambersee?"), knowledge).text
    assert "common practice, no source" in chat.photo(asked("how old is it?"), knowledge).text


def test_short_choices_share_a_row_and_long_ones_do_not(asked):
    rows = labels(chat.buttons(asked("K204117"), can_draw=True))
    assert rows[:2] == [["6 digits", "7 digits"], ["I don't know"]]
    assert ["Picture of the number line"] in rows


def test_a_button_that_would_show_nothing_new_is_left_out(asked):
    does = {button.does for row in chat.buttons(asked("hello"), can_draw=False) for button in row}
    assert does == set()
    rows = chat.buttons(asked("K204117"), can_draw=True, without=frozenset({chat.HOW}))
    assert chat.HOW not in {button.does for row in rows for button in row}
