"""A list is changed with the real program over the local server: two experts, a kill between them, the next answer."""

from __future__ import annotations

import pytest

from tests.bot.channels.telegram.experts_room import text_of
from tests.telegram_server import BotServer
from tests.telegram_server.running import ADA, EXPERT, EXPERTS_CHAT, MINA, Desk, buttons, desk


@pytest.fixture
def program(tmp_path, server: BotServer, pack_folder):
    """`bedstamp run`, answering in every group, with two members of the experts' chat."""
    server.chats[EXPERTS_CHAT].admins, server.chats[EXPERTS_CHAT].members = (EXPERT,), {MINA}
    made = desk(tmp_path, server, pack_folder, every_group=True)
    yield made.start()
    assert made.program.terminate() == 0
    assert [error.text for _, _, error in server.refused] == []


def written(room: Desk, words: str, chat) -> dict:
    """Wait for a message of the bot with these words."""
    room.wait_until(lambda: any(words in text_of(one) for one in room.answers(chat)))
    return next(one for one in reversed(room.answers(chat)) if words in text_of(one))


def test_two_experts_change_a_list_in_their_chat_and_the_next_answer_follows_it(program):
    experts = program.server.chats[EXPERTS_CHAT]
    experts.says(EXPERT, f"@{program.server.username} change K 200001-225000 date 1891")
    card = written(program, "of a list, proposed", experts)
    assert buttons(card)[0] == "I agree"
    program.program.kill()
    data = card["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
    id_ = program.server.press(MINA, card, data=data)
    program.server.press_again(MINA, card, data, id_)
    program.start()
    written(program, "Change 1 is in force", experts)
    program.wait_until(lambda: "of a list, in force" in text_of(card))
    assert buttons(card) == []
    asked = program.group.says(ADA, "K 204117, how old is it?")
    program.wait_for_answer_to(asked)
    said = "\n".join(text_of(one) for one in program.answers(program.group))
    assert "1891" in said
    assert "March 1890" not in said
    assert len([one for one in program.answers(experts) if "Change 1 is in force" in text_of(one)]) == 1
