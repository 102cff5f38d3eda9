"""The real program in private chats, with pictures, albums and commands."""

from __future__ import annotations

import pytest

from bot.channels.telegram.answers import MOST_DRAWINGS
from tests.telegram_server import BotServer, Fault, Person
from tests.telegram_server.running import ADA, BEN, MINA, buttons, desk

_people = iter(range(20_000, 30_000))


@pytest.fixture
def kim():
    """Somebody who never wrote before."""
    return Person(next(_people), "Kim <b>&amp; Co</b>")


@pytest.fixture
def chat(room, kim):
    return room.server.private(kim)


@pytest.fixture
def shipped(tmp_path, server: BotServer):
    """A program that answers from the packs shipped, which have drawings."""
    made = desk(tmp_path, server)
    yield made.start()
    made.program.terminate()


def test_in_private_the_whole_answer_comes(room, chat, kim):
    chat.says(kim, "K204117")
    text = room.wait_for(1, chat)[0]["text"]
    for part in ("Datings, likeliest first", "Please check", "How I found this", "Sources", "Ledger of the Upper Mill"):
        assert part in text
    assert buttons(room.answers(chat)[0])[:3] == ["6 digits", "7 digits", "I don't know"]


def test_a_choice_in_private_takes_the_buttons_away_and_answers_below(room, chat, kim):
    chat.says(kim, "K204117")
    answer = room.wait_for(1, chat)[0]
    room.server.press(kim, answer, "7 digits")
    room.wait_until(lambda: len([one for one in room.answers(chat) if "text" in one]) == 2)
    assert "reply_markup" not in answer
    assert "K0204117" in room.answers(chat)[-1]["text"]


def test_start_and_help_say_what_can_be_done(room, chat, kim):
    chat.says(kim, "/start")
    chat.says(kim, "/help")
    texts = [one["text"] for one in room.wait_for(2, chat)]
    assert "how old a sewing machine is" in texts[0]
    assert texts[0] == texts[1]


def test_where_tells_where_the_number_is(room, chat, kim):
    chat.says(kim, "/where Tollgate")
    text = room.wait_for(1, chat)[0]["text"]
    assert "near the pillar" in text
    assert "Unplug" not in text  # that is of the other maker


def test_where_shows_the_drawing_of_the_pack_with_the_words(shipped):
    shipped.group.says(ADA, "/where@stampdesk_bot Wendelohr")
    answer = shipped.wait_for(1)[0]
    assert answer["caption"].startswith("Where the number is")
    assert shipped.pictures[0].startswith(b"\x89PNG")
    shipped.group.says(BEN, "/where@stampdesk_bot")
    shipped.wait_for(2 + MOST_DRAWINGS)
    words, *drawings = shipped.answers()[1:]
    assert "Where the number is" in words["text"]
    assert all(one["caption"].startswith("Where the number is: ") for one in drawings)


def test_a_drawing_that_the_server_does_not_take_leaves_the_words(shipped):
    shipped.server.misbehave = lambda method, params: (
        Fault("refuse", text="IMAGE_PROCESS_FAILED") if method == "sendPhoto" else None
    )
    shipped.group.says(MINA, "/where@stampdesk_bot Wendelohr")
    shipped.wait_until(lambda: any("Where the number is" in one.get("text", "") for one in shipped.answers()))


def test_the_number_command_without_a_number_says_what_to_type(room, chat, kim):
    chat.says(kim, "/number")
    assert "Put the number behind" in room.wait_for(1, chat)[0]["text"]
    chat.says(kim, "/number\nK225001")
    assert "K225001 has 6 digits" in room.wait_for(2, chat)[1]["text"]


def test_the_commands_are_offered_through_the_api(room):
    (offered,) = [one for one in room.server.sent if one.method == "setMyCommands"]
    assert [one["command"] for one in offered.params["commands"]] == ["number", "where", "help"]


def test_the_button_of_a_group_leads_its_asker_to_the_whole_answer_and_nobody_else(room, chat, kim):
    asked = room.group.says(kim, "K204117, how old is it?")
    (link,) = [one["url"] for row in room.wait_for_answer_to(asked)["reply_markup"]["inline_keyboard"]
               for one in row if "url" in one]  # fmt: skip
    payload = link.partition("?start=")[2]
    assert link.startswith("https://t.me/stampdesk_bot?start=q")
    chat.says(kim, f"/start {payload}")
    assert "Datings, likeliest first" in room.wait_for(1, chat)[0]["text"]
    other = room.server.private(BEN)
    other.says(BEN, f"/start {payload}")
    assert "asked by somebody else" in room.wait_for(1, other)[0]["text"]


def test_a_talk_in_private_goes_on_like_any_other(room, chat, kim):
    for count, text in enumerate(("K204117", "seven digits", "it is a Model 9", "thank you"), 1):
        chat.says(kim, text)
        room.wait_until(lambda: len([one for one in room.answers(chat) if "text" in one]) == count)  # noqa: B023
    assert "You are welcome" in room.answers(chat)[-1]["text"]


def test_a_photo_without_a_number_is_told_what_to_look_for_and_where(room, chat, kim):
    chat.shows(kim)
    text = room.wait_for(1, chat)[0]["text"]
    assert "cannot read numbers off a picture" in text
    assert "near the base of the pillar" in text
    assert "Unplug" in text
    chat.shows(kim, "my Tollgate")
    assert "Tollgate & Sons: Stamped into the bed" in room.wait_for(2, chat)[1]["text"]


def test_a_photo_with_its_number_in_the_caption_is_answered_like_text(room):
    asked = room.group.shows(ADA, "K225001, how old is it?")
    assert "1891" in room.wait_for_answer_to(asked)["text"]


def test_a_photo_with_a_question_and_no_number_is_answered_in_the_group_and_one_without_is_not(room):
    room.group.shows(BEN, "look at my Sunday")
    asked = room.group.shows(ADA, "How old is this machine?")
    assert "cannot read numbers off a picture" in room.wait_for_answer_to(asked)["text"]
    assert len(room.answers()) == 1


def test_an_album_is_one_question_whichever_picture_has_the_words(room):
    pictures = [room.group.shows(ADA, caption, media_group_id="a1") for caption in ("", "K225001, how old?", "")]
    answer = room.wait_for_answer_to(pictures[1])
    assert "K225001" in answer["text"]
    late = room.group.shows(ADA, media_group_id="a1")
    room.wait_until(lambda: room.handled(rule="late-picture"))
    assert all(one["reply_to_message"]["message_id"] != late["message_id"] for one in room.answers())


def test_an_album_without_words_in_private_gets_one_answer(room, chat, kim):
    for _ in range(4):
        chat.shows(kim, media_group_id="b2")
    room.wait_for(1, chat)
    chat.says(kim, "K225001")
    room.wait_for(2, chat)
    assert ["cannot read" in one["text"] for one in room.answers(chat)] == [True, False]


def test_a_forwarded_question_is_answered(room):
    origin = {"type": "hidden_user", "sender_user_name": "Somebody", "date": 1}
    asked = room.group.says(ADA, "K225001, how old is it?", forward_origin=origin)
    assert "1891" in room.wait_for_answer_to(asked)["text"]


def test_many_numbers_make_a_long_answer_that_is_cut_at_sensible_places(room, chat, kim):
    chat.says(kim, "How old are these: " + ", ".join(f"K{number}" for number in range(200_117, 200_140)))
    room.wait_until(lambda: len(room.answers(chat)) >= 2)
    room.quiet(chat=room.group)
    texts = [one["text"] for one in room.answers(chat)]
    assert len(texts) <= 5
    assert all(len(text.encode("utf-16-le")) // 2 <= 4096 for text in texts)
    assert all(text == text.strip() for text in texts)


def test_a_motor_or_wiring_brings_the_usual_caution_first(room):
    asked = room.group.says(ADA, "@stampdesk_bot K225001 how old is it, and can I rewire the motor myself?")
    text = room.wait_for_answer_to(asked)["text"]
    assert "pull the plug" in text
    assert "qualified person" in text
