"""Members who are no experts try to settle, change or close a case, in every way that a chat offers.

None of it changes anything. Who tries is told so, and the experts hear of what was an attempt.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.bot.channels.telegram.experts_room import NEWS, ExpertsRoom, buttons, text_of
from tests.telegram_server import Fault, Person
from tests.telegram_server.running import ADA, BEN, EXPERT, MINA

ALIKE = Person(666, "Orla")  # shows the same name as the expert does
ROBOT = Person(777, "Robot", is_bot=True)
CHANNEL = {"id": -1007, "type": "channel", "title": "Experts"}
STAND_IN = {"id": 136817688, "is_bot": True, "first_name": "Channel"}

Way = Callable[[ExpertsRoom, dict, dict], object]
"""Gets the card and what an expert's words were understood as, with their button."""


def pressing(who: Person, label: str) -> Way:
    return lambda room, card, shown: room.server.press(who, shown if label.startswith("Yes") else card, label)


def pressing_data(who: Person, data: str) -> Way:
    return lambda room, card, _: room.server.press(who, card, data=data)


def replying(who: Person, text: str = NEWS, **more: object) -> Way:
    return lambda room, card, _: room.experts.says(who, text, reply_to_message=dict(card), **more)


def in_the_name_of(chat: dict) -> Way:
    def way(room: ExpertsRoom, card: dict, _: dict) -> None:
        fields = {"from": STAND_IN, "sender_chat": chat, "text": NEWS, "reply_to_message": dict(card)}
        room.server.update({"message": room.experts.add(fields)})

    return way


def by_an_inline_bot(room: ExpertsRoom, card: dict, _: dict) -> None:
    room.experts.says(EXPERT, NEWS, reply_to_message=dict(card), via_bot=ROBOT.as_json())


def after_being_taken_out(room: ExpertsRoom, card: dict, shown: dict) -> None:
    room.presses(MINA, card, "Settle")  # the platform said that she belongs to it
    room.before = room.standing()
    room.experts.kicks(MINA)
    room.experts.says(MINA, NEWS, reply_to_message=dict(card))
    room.server.press(MINA, shown, data="k1.y")


def in_private(text: str) -> Way:
    return lambda room, *_: room.server.private(BEN).says(BEN, text)


def in_the_group(text: str) -> Way:
    return lambda room, *_: room.group.says(BEN, text)


def pressing_a_copy_in_the_group(room: ExpertsRoom, card: dict, _: dict) -> None:
    copy = room.group.add({"from": room.server.me(), "text": text_of(card), "reply_markup": card["reply_markup"]})
    room.server.press(BEN, copy, data="k1.y")


def pressing_in_private(room: ExpertsRoom, card: dict, _: dict) -> None:
    copy = room.server.private(BEN).add({"from": room.server.me(), "text": text_of(card)})
    room.server.press(BEN, copy, data="s1-1.y")


ATTEMPTS: dict[str, Way] = {
    "presses take": pressing_data(BEN, "k1.t"),
    "presses ask": pressing(BEN, "Ask the asker"),
    "presses settle": pressing(BEN, "Settle"),
    "presses not for us": pressing(BEN, "Not for us"),
    "presses the yes that closes, which no card shows": pressing_data(BEN, "k1.y"),
    "presses what shows the card": pressing_data(BEN, "k1.c"),
    "presses the yes of an expert's words": pressing(BEN, "Yes, store it"),
    "presses the yes that puts words in the place of others": pressing_data(BEN, "s1-1.w"),
    "the asker presses the yes under the case": pressing(ADA, "Yes, store it"),
    "somebody with the expert's name presses": pressing(ALIKE, "Yes, store it"),
    "somebody with the expert's name replies": replying(ALIKE),
    "replies without belonging to the chat": replying(BEN),
    "the asker replies to the card": replying(ADA),
    "replies with the words of a settled card": replying(BEN, "Case 1: QX99887766, settled by expert 1"),
    "another bot replies": replying(ROBOT),
    "replies by way of an inline bot, with an expert's name": by_an_inline_bot,
    "replies in the name of a channel called like the chat": in_the_name_of(CHANNEL),
    "replies in the name of the group that asked": in_the_name_of({**CHANNEL, "id": -1001234500001}),
    "was taken out of the chat a moment ago": after_being_taken_out,
    "presses a copy of the card in the group": pressing_a_copy_in_the_group,
    "presses in private with data of their own": pressing_in_private,
    "settles in private by the number of the case": in_private(f"Case 1: {NEWS}"),
    "settles in private with a command": in_private(f"/settle case 1 {NEWS}"),
    "closes in private": in_private("case 1: not one of ours"),
    "settles in the group by name": in_the_group(f"@stampdesk_bot case 1: {NEWS}"),
}


def quoting(room: ExpertsRoom, card: dict, _: dict) -> None:
    """A quote from another chat is no reply to the card."""
    external = {"origin": {"type": "chat", "sender_chat": room.experts.as_json()}, "message_id": card["message_id"]}
    room.group.says(BEN, NEWS, external_reply=external, quote={"text": text_of(card), "position": 0})


def replying_to_a_forwarded_card(room: ExpertsRoom, card: dict, _: dict) -> None:
    origin = {"type": "user", "sender_user": room.server.me(), "date": 1}
    passed_on = room.group.says(EXPERT, text_of(card), forward_origin=origin)
    room.group.says(ADA, NEWS, reply_to_message=dict(passed_on))


def an_expert_passes_on_the_askers_words(room: ExpertsRoom, card: dict, _: dict) -> None:
    origin = {"type": "user", "sender_user": ADA.as_json(), "date": 1}
    room.experts.says(EXPERT, NEWS, reply_to_message=dict(card), forward_origin=origin)


def marked_as_an_expert_by_a_field_of_ours(room: ExpertsRoom, card: dict, _: dict) -> None:
    message = room.experts.add({"from": BEN.as_json(), "text": NEWS, "reply_to_message": dict(card)})
    room.server.update({"message": message, "standing": ["expert"]})


def anonymous(room: ExpertsRoom, card: dict, shown: dict) -> None:
    in_the_name_of({"id": room.experts.id, "type": "supergroup", "title": "Experts"})(room, card, shown)


WITHOUT_EFFECT: dict[str, Way] = {
    "quotes the card in the group": quoting,
    "replies to a card that an expert had forwarded to the group": replying_to_a_forwarded_card,
    "an expert passes on what the asker wrote": an_expert_passes_on_the_askers_words,
    "an update says itself that its sender is an expert": marked_as_an_expert_by_a_field_of_ours,
    "an admin of the experts' chat who hides their name": anonymous,
    "an expert presses data that was tampered with": pressing_data(EXPERT, "k1.q"),
    "an expert presses a case that never was": pressing_data(EXPERT, "k999.y"),
    "an expert presses words that never were": pressing_data(EXPERT, "s999-1.y"),
    "another expert presses the yes of somebody's words": pressing(MINA, "Yes, store it"),
    "a number too large for a case": pressing_data(EXPERT, "k999999999999999.t"),
    "digits of another script": pressing_data(EXPERT, "k١.y"),
}


@pytest.fixture
def opened(desk_room: ExpertsRoom):
    """A case, and an expert's words about it that nobody said yes to."""
    card = desk_room.ask()
    shown = desk_room.writes(EXPERT, NEWS, card)
    desk_room.before = desk_room.standing()
    return card, shown


@pytest.mark.parametrize("way", ATTEMPTS.values(), ids=ATTEMPTS)
def test_who_is_no_expert_changes_nothing_and_the_experts_hear_of_it(desk_room, opened, way):
    way(desk_room, *opened)
    desk_room.settled_down()
    assert desk_room.standing() == desk_room.before
    assert "Somebody who does not belong to this chat" in desk_room.texts(desk_room.experts)
    assert "Nothing was changed" in desk_room.texts(desk_room.experts)


@pytest.mark.parametrize("way", WITHOUT_EFFECT.values(), ids=WITHOUT_EFFECT)
def test_what_is_not_an_experts_own_word_or_press_changes_nothing(desk_room, opened, way):
    way(desk_room, *opened)
    desk_room.settled_down()
    assert desk_room.standing() == desk_room.before


def test_an_attempt_is_told_of_once_a_day_of_each_person(desk_room, opened):
    card, _ = opened
    for _ in range(5):
        desk_room.presses(BEN, card, "Ask the asker")
        desk_room.presses(ALIKE, card, "Ask the asker")
    assert desk_room.texts(desk_room.experts).count("Somebody who does not belong") == 2


def test_an_asker_who_names_their_case_is_heard_and_not_taken_for_an_expert(desk_room, opened):
    card, _ = opened
    said = desk_room.server.private(ADA).says(ADA, "Case 1: I think it is a Model 9 of about 1911")
    desk_room.settled_down()
    assert "passed it on" in text_of(desk_room.said(desk_room.server.private(ADA))[-1])
    assert "The asker:\nCase 1: I think" in text_of(card)
    assert desk_room.rows("SELECT count(*) FROM finding_changes") == [(0,)]
    assert said["text"] not in desk_room.texts(desk_room.group)


def test_an_expert_elsewhere_is_told_where_cases_are_settled(desk_room, opened):
    desk_room.server.private(EXPERT).says(EXPERT, f"Case 1: {NEWS}")
    desk_room.settled_down()
    assert "settled in the experts' chat" in desk_room.texts(desk_room.server.private(EXPERT))
    assert "Somebody who does not belong" not in desk_room.texts(desk_room.experts)
    assert desk_room.standing() == desk_room.before


def test_where_nobody_can_say_who_belongs_to_the_chat_an_experts_words_are_put_off_kindly(desk_room, opened):
    card, shown = opened
    desk_room.quick.sleep(60)  # what was believed of the expert is over
    asking = ("getChatMember", "getChatAdministrators")
    desk_room.server.misbehave = lambda method, _: Fault("500") if method in asking else None
    told = desk_room.writes(EXPERT, "Model 6, about 1901, by the bobbin", card)
    assert "send that again in a minute" in text_of(told)
    assert "a minute" in desk_room.presses(EXPERT, shown, "Yes")
    assert desk_room.standing() == desk_room.before
    desk_room.server.misbehave = lambda *_: None
    assert "Stored" in desk_room.presses(EXPERT, shown, "Yes")
    assert buttons(shown) == []
    desk_room.server.refused.clear()
