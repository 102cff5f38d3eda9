"""The real program in a group, on the local server: what people write, and what they get."""

from __future__ import annotations

import pytest

from tests.telegram_server import BotServer, Fault, Person
from tests.telegram_server.running import ADA, BEN, EXPERT, EXPERTS_CHAT, MINA, buttons, desk


def test_a_question_gets_a_short_answer_under_it_with_buttons_for_the_one_question_that_matters(room):
    asked = room.group.says(ADA, "Hi, found this in the attic, number K 204 117, how old is it?")
    answer = room.wait_for(1)[0]
    assert answer["reply_to_message"]["message_id"] == asked["message_id"]
    assert "K204117 has 6 digits" in answer["text"]
    assert "2 March 1890" in answer["text"]
    assert "Upper Mill" in answer["text"]
    assert "Ledger of the Upper Mill" in answer["text"]  # every claim names its source
    assert buttons(answer)[:3] == ["6 digits", "7 digits", "I don't know"]
    assert len(answer["text"]) < 900


def test_a_digit_doubt_is_explained_by_the_number_line(room):
    room.group.says(ADA, "K204117, how old is it?")
    room.wait_until(lambda: room.pictures)
    assert room.pictures[0].startswith(b"\x89PNG")
    assert room.answers()[1]["caption"]


def test_no_link_previews_and_nothing_that_people_wrote_becomes_a_link_or_a_call(room):
    room.group.says(ADA, "@stampdesk_bot how old? mail ada@post.example or see bad.example/K1 and @ben_treadle")
    room.wait_for(1)
    sent = room.calls("sendMessage")[0]
    assert sent.params["link_preview_options"] == {"is_disabled": True}
    assert "ada@post.example" not in sent.params["text"]
    assert "parse_mode" not in sent.params


def test_a_choice_edits_the_answer_in_its_place(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.press(ADA, answer, "7 digits")
    room.wait_until(lambda: "edit_date" in answer)
    assert "Most likely: K0204117" in answer["text"] or "certainly: K0204117" in answer["text"]
    assert "7 digits" not in buttons(answer)
    room.wait_until(lambda: room.calls("answerCallbackQuery"))


def test_the_same_choice_typed_in_words_is_understood(room):
    room.group.says(ADA, "K204117, how old is it?")
    room.wait_for(1)
    typed = room.group.says(ADA, "seven digits")
    room.wait_until(lambda: room.answers()[-1].get("reply_to_message", {}).get("message_id") == typed["message_id"])
    assert "K0204117" in room.answers()[-1]["text"]


def test_how_it_was_found_and_every_dating_stand_behind_buttons(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.press(ADA, answer, "How I found")
    room.wait_until(lambda: "How I found this" in answer["text"])
    assert "The registers have letter K" in answer["text"]
    assert "How I found this" not in buttons(answer)
    room.server.press(ADA, answer, "Every dating")
    room.wait_until(lambda: "Every dating" in answer["text"])
    assert "How I found this" in buttons(answer)


def test_another_person_may_not_press_but_an_expert_may(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.press(BEN, answer, "7 digits")
    room.wait_until(lambda: room.calls("answerCallbackQuery"))
    assert "Only who asked" in room.calls("answerCallbackQuery")[0].params["text"]
    assert "edit_date" not in answer
    room.server.press(EXPERT, answer, "7 digits")
    room.wait_until(lambda: "edit_date" in answer)


def told_by_toasts(room) -> str:
    return " | ".join(one.params.get("text", "") for one in room.calls("answerCallbackQuery"))


def test_a_silent_member_of_the_experts_chat_counts_from_the_first_press_and_one_who_was_taken_out_no_more(room):
    experts = room.server.chats[EXPERTS_CHAT]
    experts.members.add(MINA)
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.press(MINA, answer, "7 digits")
    room.wait_until(lambda: "edit_date" in answer)
    experts.kicks(MINA)
    room.server.press(MINA, answer, "How I found")
    room.wait_until(lambda: "Only who asked" in told_by_toasts(room))


def test_who_writes_in_the_experts_chat_without_belonging_to_it_is_no_expert(room):
    room.server.chats[EXPERTS_CHAT].says(BEN, "good morning, I am Orla")
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.press(BEN, answer, "7 digits")
    room.wait_until(lambda: "Only who asked" in told_by_toasts(room))
    assert "edit_date" not in answer


def test_where_the_members_are_kept_from_the_bot_its_admins_count(room):
    experts = room.server.chats[EXPERTS_CHAT]
    experts.bot_is_admin = False
    experts.members.add(MINA)
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.press(MINA, answer, "7 digits")
    room.wait_until(lambda: "Only who asked" in told_by_toasts(room))
    room.server.press(EXPERT, answer, "7 digits")
    room.wait_until(lambda: "edit_date" in answer)
    experts.bot_is_admin = True
    experts.members.discard(MINA)
    room.server.refused.clear()


def test_a_press_of_which_nobody_can_say_whether_an_expert_made_it_is_put_off_kindly(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.server.misbehave = lambda method, params: Fault("500") if method == "getChatMember" else None
    room.server.press(MINA, answer, "7 digits")
    room.group.says(BEN, "K225001, how old is it?")  # nobody waits for that
    room.wait_until(lambda: len([one for one in room.answers() if "text" in one]) == 2)
    room.wait_until(lambda: "try again in a minute" in told_by_toasts(room))
    room.server.misbehave = lambda method, params: None
    assert "edit_date" not in answer
    room.server.refused.clear()


def test_an_anonymous_admin_presses_under_the_answer_to_the_group_and_other_members_are_told_who_may(room):
    room.group.admins = (MINA,)
    asked = room.group.add({"from": {"id": 1087968824, "is_bot": True, "first_name": "Group"}, "text": "K204117, age?",
                            "sender_chat": {"id": room.group.id, "type": "supergroup", "title": "x"}})  # fmt: skip
    room.server.update({"message": asked})
    answer = room.wait_for_answer_to(asked)
    room.server.press(BEN, answer, "7 digits")
    room.wait_until(lambda: "in the group's name" in told_by_toasts(room))
    assert "edit_date" not in answer
    room.server.press(MINA, answer, "7 digits")
    room.wait_until(lambda: "edit_date" in answer)


def test_under_the_answer_to_a_channel_the_press_says_what_to_do_instead(room):
    asked = room.group.add({"from": {"id": 136817688, "is_bot": True, "first_name": "Channel"}, "text": "K204117, age?",
                            "sender_chat": {"id": -1007, "type": "channel", "title": "x"}})  # fmt: skip
    room.server.update({"message": asked})
    answer = room.wait_for_answer_to(asked)
    room.server.press(BEN, answer, "7 digits")
    room.wait_until(lambda: "Type it as a reply" in told_by_toasts(room))
    told = room.group.says(BEN, "it has seven digits", reply_to_message=dict(answer))
    assert "K0204117" in room.wait_for_answer_to(told)["text"]


@pytest.mark.parametrize("data", ["", "1", "999.0", "1.0.0", "1.9", "1.z", "-1.0", "x" * 64, "1.0; drop table", "٣.0"])
def test_data_that_was_tampered_with_changes_nothing_and_is_answered(room, data):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    before = dict(answer)
    room.server.press(ADA, answer, data=data)
    room.wait_until(lambda: room.calls("answerCallbackQuery"))
    assert "none of mine" in room.calls("answerCallbackQuery")[0].params["text"]
    assert answer == before


def test_a_button_of_another_group_leads_nowhere(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    elsewhere = room.server.group(-1009, "Elsewhere").add({"from": room.server.me(), "text": "copy"})
    data = answer["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
    room.server.press(ADA, elsewhere, data=data)
    room.wait_until(lambda: room.calls("answerCallbackQuery"))
    assert "none of mine" in room.calls("answerCallbackQuery")[0].params["text"]


def test_a_press_that_is_sent_again_is_carried_out_once(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    data = answer["reply_markup"]["inline_keyboard"][0][1]["callback_data"]
    id_ = room.server.press(ADA, answer, data=data)
    room.wait_until(lambda: "edit_date" in answer)
    room.server.press_again(ADA, answer, data, id_)  # the same press under a new number of the update
    room.server.press(ADA, answer, data=data)  # and a second finger on the old button
    room.wait_until(lambda: len(room.calls("answerCallbackQuery")) == 2)
    assert "chosen already" in room.calls("answerCallbackQuery")[1].params["text"]
    assert len(room.calls("editMessageText")) == 1


def test_the_same_update_delivered_twice_is_answered_once(room):
    asked = room.group.says(ADA, "K204117, how old is it?")
    room.wait_for(1)
    room.server.update({"message": asked})
    assert len([one for one in room.quiet() if "text" in one]) == 1


def test_an_edited_question_edits_the_answer(room):
    asked = room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    room.group.changes(asked, "K225500, how old is it?")
    room.wait_until(lambda: "K225500" in answer["text"])
    assert "1891" in answer["text"]
    assert len([one for one in room.answers() if "text" in one]) == 1


def test_an_edit_without_a_change_does_nothing(room):
    asked = room.group.says(ADA, "K204117, how old is it?")
    room.wait_for(1)
    room.group.changes(asked, asked["text"])
    room.wait_until(lambda: room.handled(rule="unchanged"))
    assert not room.calls("editMessageText")


def test_talk_that_becomes_a_question_by_an_edit_is_answered(room):
    said = room.group.says(ADA, "K204117 is on the bench")
    room.wait_until(lambda: room.handled(rule="no-question"))
    room.group.changes(said, "K204117 is on the bench, how old is it?")
    room.wait_for(1)


def test_a_correction_in_a_later_message_goes_on_with_the_same_machine(room):
    room.group.says(ADA, "my Tollgate Model 9 says K0204111, how old is it?")
    room.wait_for(1)
    room.group.says(ADA, "sorry, K0204117")
    room.wait_until(lambda: "K0204117" in room.answers()[-1].get("text", ""))
    assert "Model 9" in room.answers()[-1]["text"]


def test_one_unasked_reply_to_a_person_in_ten_minutes_but_another_person_gets_one(room):
    room.group.says(ADA, "K204117, how old is it?")
    room.wait_for(1)
    room.group.says(ADA, "and how old is 45210?")
    room.wait_until(lambda: room.handled(rule="spoke-lately"))
    room.group.says(ADA, "@stampdesk_bot how old is 45210?")  # asked for, it speaks
    room.wait_until(lambda: any("45210" in one.get("text", "") for one in room.answers()))
    asked = room.group.says(BEN, "how old is 45210?")
    room.wait_for_answer_to(asked)


def test_other_bots_members_talk_and_channel_posts_stay_unanswered(room):
    robot = Person(777, "Robot", is_bot=True)
    room.group.says(robot, "K204117, how old is it?")
    first = room.group.says(BEN, "nice weather")
    room.group.says(ADA, "yours is K204230 and mine is K204117", reply_to_message=dict(first))
    service = {"id": 777000, "is_bot": False, "first_name": "Service"}
    channel = {"id": -1007, "type": "channel", "title": "News"}
    room.group.add({})
    post = room.group.add({"from": service, "sender_chat": channel, "is_automatic_forward": True, "text": "K204117?"})
    room.server.update({"message": post})
    assert room.quiet() == []
    rules = {one["rule"] for one in room.events() if one["event"] == "handled"}
    assert {"another-bot", "no-question"} <= rules


def test_an_anonymous_admin_and_a_channel_that_asks_are_answered(room):
    stand_in = {"id": 1087968824, "is_bot": True, "first_name": "Group"}
    for chat in ({"id": room.group.id, "type": "supergroup"}, {"id": -1007, "type": "channel"}):
        asked = room.group.add({"from": stand_in, "sender_chat": {**chat, "title": "x"}, "text": "K204117, how old?"})
        room.server.update({"message": asked})
        room.wait_for_answer_to(asked)


def test_in_a_topic_the_answer_goes_to_the_topic_and_elsewhere_no_topic_is_named(room):
    opened = room.group.add({"forum_topic_created": {"name": "Dating"}})
    room.group.says(ADA, "K204117, how old is it?", message_thread_id=77, is_topic_message=True,
                    reply_to_message=opened)  # fmt: skip
    room.wait_for(1)
    room.group.says(BEN, "K204118, how old is it?", message_thread_id=5)  # a mere thread of replies
    room.wait_until(lambda: len(room.calls("sendMessage")) == 2)
    assert [one.params.get("message_thread_id") for one in room.calls("sendMessage")] == [77, None]


def test_a_group_that_became_a_supergroup_is_answered_under_its_new_id(room):
    room.group.says(ADA, "K204117, how old is it?")
    room.wait_for(1)
    new = room.server.group(-1009876543210, "The Treadle Room")
    room.group.moved_to = new.id
    room.group.says(BEN, "K225001, how old is it?")  # asked before, answered after
    room.wait_until(lambda: any("K225001" in one.get("text", "") for one in room.answers(new)))
    room.server.update({"message": new.add({"from": ADA.as_json(), "migrate_from_chat_id": room.group.id})})
    new.says(ADA, "seven digits")  # her conversation goes on
    room.wait_until(lambda: any("K0204117" in one.get("text", "") for one in room.answers(new)))
    room.server.refused.clear()  # the refusal that told of the new id


def test_a_question_whose_message_vanished_is_answered_all_the_same(room):
    asked = room.group.says(ADA, "K204117, how old is it?")
    del room.group.messages[asked["message_id"]]
    room.wait_for(1)


def test_a_group_that_is_not_ours_gets_nothing(tmp_path, server: BotServer, pack_folder):
    room = desk(tmp_path, server, pack_folder)
    try:
        room.start()
        other = server.group(-100777, "Other")
        other.says(ADA, "@stampdesk_bot K204117, how old is it?")
        room.wait_until(lambda: room.handled(rule="not-our-group"))
        assert room.answers(other) == []
    finally:
        room.program.terminate()


def test_only_addressed_speaks_when_spoken_to_alone(tmp_path, server: BotServer, pack_folder):
    room = desk(tmp_path, server, pack_folder, speak="addressed")
    try:
        room.start()
        room.group.says(ADA, "K204117, how old is it?")
        room.group.says(ADA, "/number@stampdesk_bot K204117")
        room.wait_for(1)
        room.group.says(BEN, "what about K225500?", reply_to_message=dict(room.answers()[0]))
        room.wait_until(lambda: any("K225500" in one.get("text", "") for one in room.answers()))
        assert room.handled(rule="not-addressed")
    finally:
        room.program.terminate()


def test_a_member_who_answers_the_bots_answer_talks_about_the_same_machine(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    told = room.group.says(BEN, "I know that one, it has seven digits", reply_to_message=dict(answer))
    assert "K0204117" in room.wait_for_answer_to(told)["text"]


def test_the_same_question_asked_again_by_the_same_person_is_left_alone(room):
    room.group.says(ADA, "K204117, how old is it?")
    room.wait_for(1)
    room.group.says(ADA, "K204117, how old is it?")
    room.wait_until(lambda: room.handled(rule="answered-already"))


def test_two_members_who_talk_with_each_other_are_not_disturbed(room):
    """A number alone is a question to the room; as an answer to a member's question it is none."""
    room.group.says(ADA, "Ben, what's the number on yours?")
    room.group.says(BEN, "K204117")
    asked = room.group.says(MINA, "K3000500, how old is it?")
    answers = room.wait_for(1)
    assert [one["reply_to_message"]["message_id"] for one in answers] == [asked["message_id"]]


def test_a_number_sent_after_ones_own_question_is_answered(room):
    room.group.says(ADA, "Can anybody tell me how old my machine is?")
    number = room.group.says(ADA, "K204117")
    answers = room.wait_for(1)
    assert answers[0]["reply_to_message"]["message_id"] == number["message_id"]
