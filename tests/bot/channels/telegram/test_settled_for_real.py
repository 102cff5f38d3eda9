"""The whole of it with the real program over the local server: a hard question, an expert, the next one who asks."""

from __future__ import annotations

import pytest

from tests.bot.channels.telegram.experts_room import NEWS, QUESTION, SERIAL, is_card, text_of
from tests.telegram_server import BotServer
from tests.telegram_server.running import ADA, BEN, EXPERT, EXPERTS_CHAT, Desk, buttons, desk


@pytest.fixture
def program(tmp_path, server: BotServer, pack_folder):
    """`bedstamp run`, answering in every group, with an experts' chat."""
    server.chats[EXPERTS_CHAT].admins = (EXPERT,)
    made = desk(tmp_path, server, pack_folder, every_group=True)
    yield made.start()
    assert made.program.terminate() == 0
    assert [error.text for _, _, error in server.refused] == []


def written(room: Desk, words: str, chat) -> dict:
    """Wait for a message of the bot with these words."""
    room.wait_until(lambda: any(words in text_of(one) for one in room.answers(chat)))
    return next(one for one in reversed(room.answers(chat)) if words in text_of(one))


def test_a_question_with_no_register_is_settled_in_the_experts_chat_and_the_next_one_is_answered_at_once(program):
    experts, elsewhere = program.server.chats[EXPERTS_CHAT], program.server.group(-1001234500077, "Elsewhere")
    asked = program.group.says(ADA, QUESTION)
    answer = program.wait_for_answer_to(asked)
    assert "People of the group will look at it" in text_of(answer)
    card = written(program, f"{SERIAL}, open", experts)
    assert is_card(card)
    experts.says(EXPERT, NEWS, reply_to_message=dict(card))
    shown = written(program, "I understood, for case", experts)
    assert buttons(shown) == ["Yes, store it"]
    program.program.kill()  # between understanding and storing
    program.server.press(EXPERT, shown, "Yes, store it")
    program.start()
    heard = written(program, "Model 9", program.group)
    assert heard["reply_to_message"]["message_id"] == asked["message_id"]
    again = elsewhere.says(BEN, f"{SERIAL}, how old is it?")
    program.wait_until(lambda: program.answers(elsewhere))
    (answer,) = program.answers(elsewhere)
    assert answer["reply_to_message"]["message_id"] == again["message_id"]
    assert "about 1911" in text_of(answer)
    assert "an expert of the group" in text_of(answer)
