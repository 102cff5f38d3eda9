"""Hard questions in the experts' chat: put there, asked back, settled, and everybody who asked is told."""

from __future__ import annotations

import pytest

from tests.bot.channels.telegram.experts_room import NEWS, QUESTION, SERIAL, buttons, text_of
from tests.telegram_server import Fault
from tests.telegram_server.model import units
from tests.telegram_server.running import ADA, BEN, EXPERT, MINA


def test_a_question_with_no_register_is_settled_by_an_expert_and_known_from_then_on(desk_room):
    card = desk_room.ask()
    told = text_of(desk_room.answer_to(desk_room.asked))
    assert "People of the group will look at it" in told
    assert f"{SERIAL}, open" in text_of(card)
    assert "Why it is hard: no list known here has numbers of this form" in text_of(card)
    assert buttons(card) == ["Take it", "Ask the asker", "Settle", "Not for us"]
    shown = desk_room.writes(EXPERT, NEWS, card)
    assert "Model 9" in text_of(shown)
    assert "about 1911" in text_of(shown)
    assert "by the shuttle" in text_of(shown)
    assert buttons(shown) == ["Yes, store it"]
    assert desk_room.rows("SELECT count(*) FROM finding_changes") == [(0,)]  # shown, and nothing is known yet
    assert "Stored" in desk_room.presses(EXPERT, shown, "Yes, store it")
    heard = text_of(desk_room.answer_to(desk_room.asked))
    assert "Model 9" in heard
    assert "ledger p. 40" in heard
    assert f"{SERIAL}, settled" in text_of(card)
    assert buttons(card) == ["It does not hold"]
    assert buttons(shown) == []
    again = desk_room.other.says(BEN, f"{SERIAL}, how old is it?")
    answer = text_of(desk_room.answer_to(again))
    assert "about 1911" in answer
    assert "an expert of the group" in answer
    assert "will look at it" not in answer
    assert len(desk_room.rows("SELECT id FROM desk_cases")) == 1


def test_the_same_question_of_another_person_joins_the_case_and_both_are_told(desk_room):
    card = desk_room.ask()
    second = desk_room.other.says(BEN, f"{SERIAL} on a Tollgate, how old?")
    assert "Somebody else asked this too" in text_of(desk_room.answer_to(second))
    desk_room.settled_down()
    assert "2 people wait" in text_of(card)
    first = desk_room.asked
    assert "All 2 who asked are told" in desk_room.settles(card)
    assert "Model 9" in text_of(desk_room.answer_to(first))
    assert "Model 9" in text_of(desk_room.answer_to(second))


def test_who_takes_a_case_has_it_and_may_give_it_back(desk_room):
    card = desk_room.ask()
    assert "is yours until" in desk_room.presses(EXPERT, card, "Take it")
    assert "taken by expert 1 until" in text_of(card)
    assert "Another expert has taken" in desk_room.presses(MINA, card, data="k1.y")
    assert buttons(card) == ["Give it back", "Ask the asker", "Settle", "Not for us"]
    assert "open for the others again" in desk_room.presses(EXPERT, card, "Give it back")
    assert f"{SERIAL}, open" in text_of(card)


def test_the_asker_is_asked_by_a_button_and_the_answer_comes_back_to_the_card(desk_room):
    card = desk_room.ask()
    desk_room.presses(EXPERT, card, "Ask the asker")
    prompt = desk_room.answer_to(card)
    assert "The asker is asked" in text_of(desk_room.writes(EXPERT, "Is the bobbin round or long?", prompt))
    question = desk_room.answer_to(desk_room.asked)
    assert "Is the bobbin round or long?" in text_of(question)
    assert "asked back" in text_of(card)
    stranger = desk_room.group.says(BEN, "Mine is round", reply_to_message=dict(question))
    answer = desk_room.group.says(ADA, "Long <b>like</b> a boat, see @ada_x", reply_to_message=dict(question))
    assert "passed it on" in text_of(desk_room.answer_to(answer))
    desk_room.settled_down()
    assert "The asker:\nLong <b>like<" in text_of(card)  # as text: no style, no call
    assert "Mine is round" not in text_of(card)
    assert "taken by expert 1" in text_of(card)
    assert stranger["message_id"] != answer["message_id"]


def test_the_asker_is_asked_by_words_and_may_answer_with_a_photo(desk_room):
    card = desk_room.ask()
    shown = desk_room.writes(EXPERT, "ask him whether the bobbin is round or long", card)
    assert buttons(shown) == ["Yes, ask that"]
    desk_room.presses(EXPERT, shown, "Yes, ask that")
    question = desk_room.answer_to(desk_room.asked)
    desk_room.group.shows(ADA, reply_to_message=dict(question))
    desk_room.settled_down()
    assert "(a picture)" in text_of(card)
    assert [text_of(one) for one in desk_room.said(desk_room.experts) if one.get("photo")] == ["Case 1"]
    assert desk_room.rows("SELECT length(content) > 0, kind FROM desk_pictures") == [(1, "image/jpeg")]


def test_in_private_the_answer_needs_no_reply_and_a_question_of_another_number_stays_a_question(desk_room):
    private = desk_room.server.private(ADA)
    card = desk_room.ask(chat=private)
    desk_room.presses(EXPERT, card, "Ask the asker")
    desk_room.writes(EXPERT, "Is the bobbin round or long?", desk_room.answer_to(card))
    private.says(ADA, "K225001")
    desk_room.settled_down()
    assert "1891" in text_of(desk_room.said(private)[-1])
    private.says(ADA, "it is long")
    desk_room.settled_down()
    assert "passed it on" in text_of(desk_room.said(private)[-1])
    assert "The asker:\nit is long" in text_of(card)
    desk_room.settles(card)
    assert "Model 9" in text_of(desk_room.said(private)[-1])


def test_what_was_understood_wrongly_is_put_right_by_writing_again_and_only_the_last_can_be_stored(desk_room):
    card = desk_room.ask()
    first = desk_room.writes(EXPERT, "Model 6, about 1901, by the bobbin", card)
    data = first["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
    second = desk_room.writes(EXPERT, "sorry, Model 9, about 1911, by the shuttle", first)
    assert buttons(first) == []
    assert "You wrote again since" in desk_room.presses(EXPERT, first, data=data)
    assert desk_room.rows("SELECT count(*) FROM finding_changes") == [(0,)]
    desk_room.presses(EXPERT, second, "Yes")
    assert "Model 9" in text_of(desk_room.answer_to(desk_room.asked))


def test_words_that_an_expert_changes_are_understood_anew_and_an_edit_without_a_change_is_left(desk_room):
    card = desk_room.ask()
    written = desk_room.experts.says(EXPERT, "Model 6, about 1901, by the bobbin", reply_to_message=dict(card))
    first = desk_room.answer_to(written)
    desk_room.experts.changes(written, written["text"])
    desk_room.settled_down()
    assert desk_room.answer_to(written) is first
    desk_room.experts.changes(written, "Model 9, about 1911, by the shuttle")
    desk_room.settled_down()
    second = desk_room.answer_to(written)
    assert "Model 9" in text_of(second)
    assert buttons(first) == []


def test_of_two_experts_at_once_the_first_is_stored_and_the_second_may_put_theirs_in_its_place(desk_room):
    card = desk_room.ask()
    one, two = desk_room.writes(EXPERT, NEWS, card), desk_room.writes(MINA, "Model 6, about 1901, by the bobbin", card)
    assert "These are the words of another expert" in desk_room.presses(MINA, one, "Yes")
    desk_room.presses(EXPERT, one, "Yes")
    assert "Somebody was quicker" in desk_room.presses(MINA, two, "Yes")
    assert buttons(two) == ["Yes, put it in its place"]
    desk_room.presses(MINA, two, "Yes, put it in its place")
    assert "was corrected" in text_of(desk_room.answer_to(desk_room.asked))
    assert "Model 6" in text_of(card)


def test_a_press_that_comes_twice_is_carried_out_once(desk_room):
    card = desk_room.ask()
    shown = desk_room.writes(EXPERT, NEWS, card)
    data = shown["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
    id_ = desk_room.server.press(EXPERT, shown, data=data)
    desk_room.server.press_again(EXPERT, shown, data, id_)
    desk_room.server.press(EXPERT, shown, data=data)
    desk_room.settled_down()
    assert desk_room.rows("SELECT count(*) FROM finding_changes") == [(1,)]
    told = [one for one in desk_room.said(desk_room.group) if "Model 9" in text_of(one)]
    assert len(told) == 1
    assert "Stored" in text_of(shown)


def test_not_for_us_is_asked_once_more_and_then_the_asker_is_told(desk_room):
    card = desk_room.ask()
    desk_room.presses(EXPERT, card, "Not for us")
    sure = desk_room.answer_to(card)
    assert f"{SERIAL}, open" in text_of(card)
    desk_room.presses(EXPERT, sure, "Yes, none for us")
    assert "closed" in text_of(card)
    assert buttons(card) == []
    assert "not a machine they know" in text_of(desk_room.answer_to(desk_room.asked))


def test_what_does_not_hold_is_taken_back_with_a_reason_and_the_case_is_open_again(desk_room):
    card = desk_room.ask()
    desk_room.settles(card)
    desk_room.presses(MINA, card, "It does not hold")
    desk_room.writes(MINA, "The shuttle was changed later", desk_room.answer_to(card))
    assert "was taken back" in text_of(desk_room.answer_to(desk_room.asked))
    new = desk_room.card()
    assert new is not card
    assert f"{SERIAL}, open" in text_of(new)


def test_a_settled_case_is_corrected_by_a_reply_to_its_card(desk_room):
    card = desk_room.ask()
    desk_room.settles(card)
    shown = desk_room.writes(MINA, "Model 6, about 1901, by the bobbin", card)
    assert buttons(shown) == ["Yes, put it in its place"]
    desk_room.presses(MINA, shown, "Yes")
    assert "was corrected" in text_of(desk_room.answer_to(desk_room.asked))


def test_a_picture_without_a_number_goes_to_the_experts_and_is_kept(desk_room):
    asked = desk_room.group.shows(ADA, "How old is this machine?")
    told = text_of(desk_room.answer_to(asked))
    assert "The picture is kept for people who know these machines" in told
    assert "People of the group will look at it" in told
    card = desk_room.card("a machine without a number")
    picture = [one for one in desk_room.said(desk_room.experts) if one.get("photo")]
    assert [text_of(one) for one in picture] == ["Case 1"]
    assert picture[0]["message_id"] < card["message_id"]
    desk_room.settled_down()
    assert desk_room.rows("SELECT length(content) > 0 FROM desk_pictures") == [(1,)]
    desk_room.settles(card, "It is a Tollgate Model 9, about 1911, by the shuttle")
    assert "Model 9" in text_of(desk_room.answer_to(asked))


def test_a_photo_that_the_asker_sends_later_follows_to_the_experts(desk_room):
    card = desk_room.ask()
    answer = desk_room.answer_to(desk_room.asked)
    desk_room.group.shows(ADA, reply_to_message=dict(answer))
    desk_room.settled_down()
    assert "1 picture came with it" in text_of(card)
    assert [text_of(one) for one in desk_room.said(desk_room.experts) if one.get("photo")] == ["Case 1"]
    desk_room.group.shows(ADA, "and the badge", reply_to_message=dict(answer))
    desk_room.settled_down()
    assert len([one for one in desk_room.said(desk_room.experts) if one.get("photo")]) == 2
    assert len(desk_room.rows("SELECT id FROM desk_cases")) == 1


def test_an_album_goes_to_the_experts_together(desk_room):
    asked = [desk_room.group.shows(ADA, caption, media_group_id="a1") for caption in ("How old is this machine?", "")]
    desk_room.answer_to(asked[0])
    desk_room.settled_down()
    (album,) = desk_room.server.calls("sendMediaGroup")
    assert len(album.params["media"]) == 2
    assert len(desk_room.rows("SELECT ref FROM desk_pictures WHERE length(content) > 0")) == 2
    desk_room.group.shows(ADA, media_group_id="a1")  # it came too late for the answer
    desk_room.settled_down()
    assert len(desk_room.rows("SELECT ref FROM desk_pictures WHERE length(content) > 0")) == 3
    assert len(desk_room.server.calls("sendPhoto")) == 1
    assert len(desk_room.said(desk_room.group)) == 1


def test_a_number_that_follows_a_picture_ends_the_case_when_the_lists_know_it_and_takes_the_picture_along_when_not(
    desk_room,
):
    asked = desk_room.group.shows(ADA, "How old is this machine?")
    answer = desk_room.answer_to(asked)
    desk_room.group.says(ADA, "K225001", reply_to_message=dict(answer))
    desk_room.settled_down()
    assert desk_room.rows("SELECT state FROM desk_cases") == [("closed without an answer",)]
    asked = desk_room.group.shows(BEN, "How old is this machine?")
    answer = desk_room.answer_to(asked)
    desk_room.group.says(BEN, f"it says {SERIAL}", reply_to_message=dict(answer))
    desk_room.settled_down()
    assert f"{SERIAL}, open" in text_of(desk_room.card())
    assert [row[0] for row in desk_room.rows("SELECT state FROM desk_cases")] == ["closed without an answer", "open"]


def test_who_cannot_answer_the_question_back_is_passed_on_to_people(desk_room):
    asked = desk_room.group.says(ADA, "K?00117, how old is it?")
    answer = desk_room.answer_to(asked)
    assert "will look at it" not in text_of(answer)
    desk_room.presses(ADA, answer, "I don't know")
    assert "will look at it" in text_of(answer)
    assert "several datings fit" in text_of(desk_room.card("K?00117"))


def test_everybody_is_told_also_when_their_message_is_gone_or_the_group_threw_the_bot_out(desk_room):
    card = desk_room.ask()
    del desk_room.group.messages[desk_room.asked["message_id"]]
    second = desk_room.other.says(BEN, f"{SERIAL}, how old?")
    desk_room.answer_to(second)
    private = desk_room.server.private(BEN)
    desk_room.other.bot_may_write = False
    desk_room.settles(card)
    assert f"You asked: {QUESTION[:30]}" in desk_room.texts(desk_room.group)
    assert "Model 9" in desk_room.texts(private)
    desk_room.server.refused.clear()  # the refusal of the group


def test_groups_that_became_supergroups_are_told_and_the_experts_go_on_in_theirs(desk_room):
    card = desk_room.ask()
    new_group, new_experts = desk_room.server.group(-1009000000001), desk_room.server.group(-1009000000002, "Experts")
    new_experts.admins, new_experts.members = (EXPERT,), {MINA}
    for old, new in ((desk_room.group, new_group), (desk_room.experts, new_experts)):
        old.moved_to = new.id
        old_is = {"from": EXPERT.as_json(), "migrate_from_chat_id": old.id}
        desk_room.server.update({"message": new.add(old_is)})
    new_group.says(MINA, "good morning")  # takes the number of the question in the old group
    desk_room.settled_down()
    desk_room.presses(EXPERT, {**card, "chat": new_experts.as_json()}, data="k1.t")
    desk_room.experts = new_experts
    moved = desk_room.card()
    assert "taken by expert 1" in text_of(moved)
    desk_room.settles(moved)
    assert f"{SERIAL}, settled" in text_of(moved)  # the one that was sent anew is changed from then on
    told = next(one for one in desk_room.said(new_group) if "Model 9" in text_of(one))
    assert "reply_to_message" not in told
    desk_room.server.refused.clear()


def test_a_card_stays_within_the_limit_whatever_was_asked_and_said(desk_room):
    card = desk_room.ask(f"{QUESTION} " + "😀<b>&amp;</b> " * 250)
    desk_room.presses(EXPERT, card, "Ask the asker")
    prompt = desk_room.answer_to(card)
    for _ in range(2):
        desk_room.writes(EXPERT, "Is it " + "long or " * 300 + "round?", prompt)
        question = desk_room.answer_to(desk_room.asked)
        desk_room.group.says(ADA, "Long " + "😀" * 1500, reply_to_message=dict(question))
        desk_room.settled_down()
    assert units(text_of(card)) <= 4096
    assert "The asker:\nLong" in text_of(card)
    assert "Reply with what you know" in text_of(card)
    assert buttons(card)


def test_a_card_may_be_shown_again(desk_room):
    card = desk_room.ask()
    desk_room.presses(EXPERT, card, data="k1.c")
    again = desk_room.card()
    assert again is not card
    assert buttons(again) == buttons(card)


def test_the_digest_of_the_day_brings_the_cards_and_comes_only_when_there_is_something(desk_room):
    desk_room.ask()
    desk_room.quick.sleep(2 * 3600)  # it is half past eight when the program begins
    digests = [one for one in desk_room.said(desk_room.experts) if text_of(one).startswith("New")]
    assert len(digests) == 1
    assert f"case 1: {SERIAL} (1 person waits), since 4 May 2031" in text_of(digests[0])
    desk_room.presses(EXPERT, digests[0], "Case 1")
    assert desk_room.card()["message_id"] > digests[0]["message_id"]


def test_a_picture_that_the_server_has_no_more_holds_nothing_up(desk_room):
    desk_room.server.misbehave = lambda method, params: (
        Fault("refuse", text="wrong file_id") if method in ("getFile", "sendPhoto") else None
    )
    desk_room.group.shows(ADA, "How old is this machine?")
    desk_room.settled_down()
    assert buttons(desk_room.card("a machine without a number"))
    desk_room.server.refused.clear()


@pytest.mark.parametrize("text", ["", "hm, let me think", "good morning"])
def test_words_that_say_nothing_of_a_machine_store_nothing_and_have_no_button(desk_room, text):
    card = desk_room.ask()
    if text:
        shown = desk_room.writes(EXPERT, text, card)
    else:
        written = desk_room.experts.shows(EXPERT, reply_to_message=dict(card))
        shown = desk_room.answer_to(written)
        assert "cannot read pictures" in text_of(shown)
    assert buttons(shown) == []
    assert desk_room.rows("SELECT count(*) FROM finding_changes") == [(0,)]
