"""Experts change lists in their chat: one writes it to the bot, another agrees with a button, and nobody else does."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest

from bot.changes import ChangeCard
from bot.expert_desk import Desk
from bot.journal import open_journal
from bot.replies import chat_cards
from knowledge.base import Knowledge
from knowledge.register_changes.nouns import RegisterChange
from tests.bot.channels.telegram.experts_room import NEWS, ExpertsRoom, buttons, text_of
from tests.bot.channels.telegram.test_pretenders import ALIKE, CHANNEL, ROBOT, STAND_IN
from tests.telegram_server.running import ADA, BEN, EXPERT, MINA

NAME = "@stampdesk_bot"
CHANGE = "change K 200001-225000 date 1891"
NOW = datetime(2031, 5, 4, 8, 30, tzinfo=UTC)
AGREE, TURN_DOWN = "I agree", "Turn it down, or take it back"


def last(room: ExpertsRoom, words: str) -> dict:
    """Return the last message in the experts' chat with these words."""
    found = [one for one in room.said(room.experts) if words in text_of(one)]
    assert found, room.texts(room.experts)
    return found[-1]


def says(room: ExpertsRoom, text: str, person=EXPERT, **more) -> dict:
    written = room.experts.says(person, f"{NAME} {text}", **more)
    room.settled_down()
    return written


def proposed(room: ExpertsRoom, text: str = CHANGE) -> dict:
    says(room, text)
    return last(room, "of a list, proposed")


def states(room: ExpertsRoom) -> list[str]:
    with open_journal(room.folder / "bedstamp.sqlite") as journal:
        return [one.state for one in journal.store().register_changes()]


def date_of(room: ExpertsRoom) -> str:
    with open_journal(room.folder / "bedstamp.sqlite") as journal:
        rows = list(journal.store().source("tollgate").rows("allocations", "first", "date"))
    return next(date for first, date in rows if first == "200001")


def test_one_proposes_another_agrees_by_one_button_and_the_next_answer_follows_it(desk_room):
    card = proposed(desk_room)
    assert "date: 1890-03-02 becomes 1891" in text_of(card)
    assert buttons(card) == [AGREE, TURN_DOWN]
    assert date_of(desk_room) == "1890-03-02"
    assert "in force now" in desk_room.presses(MINA, card, AGREE)
    assert states(desk_room) == ["in force"]
    assert "of a list, in force" in text_of(card)
    assert buttons(card) == []
    assert "agreed by expert 2" in text_of(last(desk_room, "Change 1 is in force"))
    desk_room.group.says(ADA, "K 204117, how old is it?")
    desk_room.settled_down()
    assert "1891" in desk_room.texts(desk_room.group)
    assert "March 1890" not in desk_room.texts(desk_room.group)


def test_who_proposed_it_cannot_agree_but_may_take_it_back(desk_room):
    card = proposed(desk_room)
    assert "You proposed change 1 yourself" in desk_room.presses(EXPERT, card, AGREE)
    assert states(desk_room) == ["proposed"]
    assert buttons(card) == [AGREE, TURN_DOWN]
    assert "taken back" in desk_room.presses(EXPERT, card, TURN_DOWN)
    assert "of a list, taken back" in text_of(card)
    assert date_of(desk_room) == "1890-03-02"


def test_another_may_turn_it_down_and_what_is_decided_stays(desk_room):
    card = proposed(desk_room)
    data = [cell["callback_data"] for row in card["reply_markup"]["inline_keyboard"] for cell in row]
    desk_room.presses(MINA, card, TURN_DOWN)
    assert "turned down already" in desk_room.presses(EXPERT, card, data=data[0])
    assert "turned down already" in desk_room.presses(MINA, card, data=data[1])
    assert states(desk_room) == ["turned down"]


def test_a_press_that_comes_twice_is_carried_out_once(desk_room):
    card = proposed(desk_room)
    data = card["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
    id_ = desk_room.server.press(MINA, card, data=data)
    desk_room.server.press_again(MINA, card, data, id_)
    desk_room.server.press(MINA, card, data=data)
    desk_room.settled_down()
    assert desk_room.rows("SELECT what FROM register_decisions") == [("in force",)]
    assert len([one for one in desk_room.said(desk_room.experts) if "Change 1 is in force" in text_of(one)]) == 1


@pytest.mark.parametrize("words", ["change 1", "Change no. 1?"])
def test_an_old_button_on_a_change_that_was_shown_again_does_nothing_and_goes(desk_room, words):
    card = proposed(desk_room)
    says(desk_room, words)
    again = last(desk_room, "of a list, proposed")
    assert again["message_id"] != card["message_id"]
    desk_room.presses(MINA, card, AGREE)
    assert "in force already" in desk_room.presses(MINA, again, AGREE)
    assert buttons(again) == []


def test_a_row_that_was_changed_meanwhile_is_not_changed_by_an_old_button(desk_room):
    first, second = proposed(desk_room), proposed(desk_room, "change K 200001-225000 date 1892")
    desk_room.presses(MINA, first, AGREE)
    desk_room.presses(MINA, second, AGREE)
    assert states(desk_room) == ["in force", "proposed"]
    assert "propose anew" in desk_room.texts(desk_room.experts)
    assert date_of(desk_room) == "1891"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("change K 200001-225000", "What is to become of it?"),
        ("change 9", "There is no change 9"),
        ("change K 200001-225999 date 1891", "No list has a block"),
        ("change K 200001-225000 first 230000", "would make the list wrong"),
        ("change K 200001-225000 date 1890-03-02", "nothing would change"),
    ],
)
def test_what_cannot_be_proposed_is_answered_with_the_reason(desk_room, words, told):
    written = says(desk_room, words)
    assert told in text_of(desk_room.answer_to(written))
    assert states(desk_room) == []


def test_what_the_checks_warn_of_is_shown_and_several_changes_may_stand_in_one_message(desk_room):
    says(desk_room, "change K 200001-225000 quantity 20000\nremove K 225001-240000\n\nThe ledger says so.")
    assert "Look at this:" in text_of(last(desk_room, "quantity"))
    assert "the row is taken out" in text_of(last(desk_room, "Why: The ledger says so."))
    assert states(desk_room) == ["proposed", "proposed"]


def test_in_reply_to_a_card_a_change_is_proposed_and_an_answer_stays_an_answer(desk_room):
    card = desk_room.ask()
    desk_room.experts.says(EXPERT, CHANGE, reply_to_message=dict(card))
    desk_room.settled_down()
    assert states(desk_room) == ["proposed"]
    assert "I understood, for case" in text_of(desk_room.writes(MINA, f"Correct: {NEWS}", card))
    assert states(desk_room) == ["proposed"]


def test_what_was_asked_for_by_a_button_of_a_case_is_never_taken_for_a_change(desk_room):
    card = desk_room.ask()
    desk_room.presses(EXPERT, card, "Ask the asker")
    prompt = last(desk_room, "reply to this with the question")
    desk_room.writes(EXPERT, "Correct: 200001-225000, or are there more digits?", prompt)
    assert "are there more digits" in desk_room.texts(desk_room.group)
    assert states(desk_room) == []


def test_a_reply_to_a_change_decides_nothing_and_says_what_to_press(desk_room):
    card = proposed(desk_room)
    assert "Use the buttons" in text_of(desk_room.writes(MINA, "yes", card))
    assert states(desk_room) == ["proposed"]


def test_a_message_that_is_changed_proposes_nothing_a_second_time(desk_room):
    written = says(desk_room, CHANGE)
    desk_room.experts.changes(written, f"{NAME} {CHANGE}")
    desk_room.experts.changes(written, f"{NAME} change K 200001-225000 date 1892")
    desk_room.settled_down()
    assert "stays as it is" in text_of(desk_room.answer_to(written))
    assert states(desk_room) == ["proposed"]


def test_experts_who_talk_to_each_other_about_a_change_propose_none(desk_room):
    desk_room.experts.says(EXPERT, CHANGE)
    desk_room.settled_down()
    assert states(desk_room) == []
    assert [one for one in desk_room.said(desk_room.experts) if one["from"]["is_bot"]] == []


def test_the_digest_names_a_change_that_waits_and_how_to_see_it_again():
    change = RegisterChange("tollgate", "allocations", ("a",), ("b",), 7, "expert 3")
    text = chat_cards.digest((), (), 0, [ChangeCard(change, "In the list 'Ledger', K1 to K2:\n  date", "mail")]).text
    assert "Changes of lists that wait for a second expert" in text
    assert "• change 7, proposed by expert 3: in the list 'Ledger', K1 to K2\n" in text
    assert "Write “change 7” to me to see it again." in text


def test_what_was_proposed_at_the_terminal_comes_to_the_chat_and_is_agreed_there_only_when_they_are_two(desk_room):
    with open_journal(desk_room.folder / "bedstamp.sqlite") as journal, journal.store().unchanging():
        knowledge = Knowledge.of(journal.store().sources())
    with open_journal(desk_room.folder / "bedstamp.sqlite") as journal:
        Desk(journal).lists.propose_words("terminal:ada", CHANGE, knowledge, NOW)
    desk_room.settled_down()
    card = last(desk_room, "of a list, proposed")
    assert "It was proposed at the terminal, so I cannot know that you are somebody else" in text_of(card)
    assert "I wrote below why" in desk_room.presses(MINA, card, AGREE)
    why = last(desk_room, "bedstamp knowledge experts --different 1 2")
    assert "one writes at the terminal, the other in the chat" in text_of(why)
    with open_journal(desk_room.folder / "bedstamp.sqlite") as journal:
        Desk(journal).lists.are_different(1, 2)
    desk_room.presses(MINA, card, AGREE)
    assert states(desk_room) == ["in force"]


# --- nobody else

Way = Callable[[ExpertsRoom, dict], object]


def in_the_name_of(chat: dict) -> Way:
    def way(room: ExpertsRoom, card: dict) -> None:
        fields = {"from": STAND_IN, "sender_chat": chat, "text": f"{NAME} {CHANGE} model Model 6"}
        room.server.update({"message": room.experts.add(fields)})

    return way


def after_being_taken_out(room: ExpertsRoom, card: dict) -> None:
    room.experts.kicks(MINA)
    room.server.press(MINA, card, AGREE)
    room.experts.says(MINA, f"{NAME} remove K 225001-240000")


WAYS: dict[str, Way] = {
    "a member presses": lambda room, card: room.server.press(ADA, card, AGREE),
    "a member turns it down": lambda room, card: room.server.press(ADA, card, TURN_DOWN),
    "somebody of the same name presses": lambda room, card: room.server.press(ALIKE, card, AGREE),
    "made-up data": lambda room, card: room.server.press(ADA, card, data="r1.a"),
    "data of no change": lambda room, card: room.server.press(MINA, card, data="r99.a"),
    "a member writes there": lambda room, card: room.experts.says(ADA, f"{NAME} remove K 225001-240000"),
    "a member writes in the group": lambda room, card: room.group.says(BEN, f"{NAME} remove K 225001-240000"),
    "a member writes in private": lambda room, card: room.server.private(BEN).says(BEN, "remove K 225001-240000"),
    "an expert writes in the group": lambda room, card: room.group.says(MINA, f"{NAME} remove K 225001-240000"),
    "an expert writes in private": lambda room, card: room.server.private(MINA).says(MINA, "remove K 225001-240000"),
    "another bot writes": lambda room, card: room.experts.says(ROBOT, f"{NAME} remove K 225001-240000"),
    "by way of another bot": lambda room, card: room.experts.says(
        MINA, f"{NAME} remove K 225001-240000", via_bot=ROBOT.as_json()
    ),
    "passed on": lambda room, card: room.experts.says(
        MINA, f"{NAME} remove K 225001-240000", forward_origin={"type": "hidden_user", "sender_user_name": "X"}
    ),
    "in the name of a channel": in_the_name_of(CHANNEL),
    "after being taken out of the chat": after_being_taken_out,
}


@pytest.mark.parametrize("way", WAYS)
def test_nobody_else_proposes_or_agrees_in_any_way(desk_room, way):
    card = proposed(desk_room)
    WAYS[way](desk_room, card)
    desk_room.settled_down()
    assert states(desk_room) == ["proposed"], way
    assert date_of(desk_room) == "1890-03-02"


def test_the_experts_hear_of_it_when_somebody_else_tries(desk_room):
    card = proposed(desk_room)
    assert "Only who belongs to the experts' chat" in desk_room.presses(ADA, card, AGREE)
    assert "pressed a button under a change of a list" in desk_room.texts(desk_room.experts)
    written = desk_room.group.says(BEN, f"{NAME} remove K 225001-240000")
    desk_room.settled_down()
    assert "Lists are changed in the experts' chat alone" in text_of(desk_room.answer_to(written))
    assert "wrote to me to change a list" in desk_room.texts(desk_room.experts)


def test_an_asker_who_corrects_their_number_in_private_is_no_pretender(desk_room):
    written = desk_room.server.private(ADA).says(ADA, "Correct: K 204-117, how old is it?")
    desk_room.settled_down()
    assert written
    assert "Lists are changed" not in desk_room.texts(desk_room.server.private(ADA))
    assert "does not belong" not in desk_room.texts(desk_room.experts)
