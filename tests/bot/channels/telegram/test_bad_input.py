"""Nothing that comes in stops the channel: fields missing, of another kind, unknown, enormous or hostile."""

from __future__ import annotations

import copy
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram import updates
from tests.telegram_server import Person
from tests.telegram_server.running import ADA

USER = {"id": 5, "is_bot": False, "first_name": "<b>Ada</b> & Co", "username": "ada", "language_code": "en"}
CHAT = {"id": -1005, "type": "supergroup", "title": "T"}
BOT = {"id": 7000000001, "is_bot": True, "first_name": "Stampdesk"}
MESSAGE = {
    "message_id": 9, "date": 1, "edit_date": 2, "chat": CHAT, "from": USER, "text": "@stampdesk_bot K204117 how old?",
    "entities": [{"type": "mention", "offset": 0, "length": 14},
                 {"type": "text_mention", "offset": 0, "length": 1, "user": USER}],
    "message_thread_id": 4, "is_topic_message": True, "media_group_id": "m", "caption": "c", "via_bot": BOT,
    "caption_entities": [{"type": "bold", "offset": 0, "length": 1}],
    "forward_origin": {"type": "user", "sender_user": USER},
    "photo": [{"file_id": "f", "width": 1, "height": 1}], "document": {"file_id": "d", "mime_type": "image/png"},
    "sender_chat": CHAT, "is_automatic_forward": False,
    "reply_to_message": {"message_id": 8, "chat": CHAT, "from": BOT, "date": 1, "text": "x",
                         "reply_markup": {"inline_keyboard": [[{"text": "a", "callback_data": "1.0"}]]}},
}  # fmt: skip
PRESS = {"id": "p", "from": USER, "data": "1.0", "chat_instance": "1",
         "message": {"message_id": 8, "chat": CHAT, "from": BOT, "date": 0}}  # fmt: skip
UPDATES = [{"update_id": 1, "message": MESSAGE}, {"update_id": 2, "edited_message": MESSAGE},
           {"update_id": 3, "callback_query": PRESS},
           {"update_id": 4, "my_chat_member": {"chat": CHAT, "new_chat_member": {"status": "left"}}},
           {"update_id": 5, "chat_member": {"chat": CHAT, "new_chat_member": {"status": "left", "user": USER}}},
           {"update_id": 6, "message": MESSAGE, "standing": ["expert"], "album": []}]  # fmt: skip
ODD: list[object] = [None, True, -1, 2**70, 1.5, "", "x", "\ud800", [], [None], [[]], {}, {"id": "x"}]


def paths(value, path=()):
    """Every place inside a value."""
    yield path
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for name, one in inner:
        yield from paths(one, (*path, name))


def changed(update, path, value=...):
    """The update with one place taken out, or put to another value."""
    new = copy.deepcopy(update)
    if not path:
        return {} if value is ... else value
    at = new
    for name in path[:-1]:
        at = at[name]
    if value is ...:
        del at[path[-1]]
    else:
        at[path[-1]] = value
    return new


@pytest.mark.parametrize("update", UPDATES, ids=lambda update: "-".join(list(update)[1:]))
def test_any_field_may_be_missing_or_of_any_other_kind(update):
    tried = 0
    for path in list(paths(update)):
        for value in (..., *ODD):
            made = changed(update, path, value)
            raw = json.dumps(made).encode()
            tried += 1
            if isinstance(made, dict):
                assert updates.key(made)
                updates.album_of(made)
                updates.read(raw)
            else:
                with pytest.raises(ValueError, match="object"):
                    updates.read(raw)
    assert tried > 50


_NAMES = st.sampled_from(["message", "chat", "id", "from", "text", "album", "entities"])
_LEAVES = st.none() | st.booleans() | st.integers() | st.text(max_size=5)


@given(st.recursive(_LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_NAMES, inner)))
def test_any_json_is_read_or_refused_with_a_value_error(value):
    try:
        event = updates.read(json.dumps(value).encode())
    except ValueError:
        return
    assert isinstance(event, updates.Event)


@pytest.mark.parametrize("raw", [b"", b"{", b"\xff\xfe", b"[" * 100_000, b"null", b'"x"', b"NaN"])
def test_bytes_that_are_no_update_are_refused(raw):
    with pytest.raises((ValueError, RecursionError)):
        updates.read(raw)


def test_the_program_goes_on_whatever_comes(room):
    odd = [changed(update, path, value) for update in UPDATES for path in list(paths(update))[1:]
           for value in (..., {"id": "x"}, "x", [None])]  # fmt: skip
    for update in odd:
        if isinstance(update, dict):
            update.pop("update_id", None)
            room.server.update(update)
    room.server.update({"poll_answer": {"poll_id": "1"}})
    room.server.update({"something_new": {"of": "tomorrow"}})
    asked = room.group.says(ADA, "K225001, how old is it?")
    assert "1891" in room.wait_for_answer_to(asked)["text"]
    room.server.refused.clear()  # answers to presses that never were, and to chats that are not there


@pytest.mark.parametrize(
    "text",
    [
        "😀" * 2048,
        "@stampdesk_bot " + "😀" * 2000,
        "@stampdesk_bot K204\u202e711 how old is it?\u202c\u2066\u2069",
        "@stampdesk_bot <b>K204117</b> <a href='https://bad.example'>how old</a> & <script>",
        "@stampdesk_bot *K204117* _how_ [old](https://bad.example) `is` ~it~ ||now||?",
        "@stampdesk_bot " + "K204117 " * 500,
        "@stampdesk_bot " + "\u0301" * 4000,
        "@stampdesk_bot K\u200b2\u200b0\u200b4117 how old?",
        "/number@stampdesk_bot " + "9" * 4000,
        "@stampdesk_bot\n\n\n\n\t\r\x0b how old is it",
    ],
)
def test_a_hostile_text_gets_an_answer_that_the_api_takes(room, text):
    asked = room.group.says(Person(40_000, "<i>x</i> & \u202e y"), text)
    if "@stampdesk_bot" in text:
        answer = room.wait_for_answer_to(asked)
        assert "\u202e" not in answer["text"]
        assert "https://" not in answer["text"]
    else:
        room.wait_until(lambda: room.handled(rule="no-question"))


def test_a_very_old_press_and_one_under_a_message_that_is_gone_do_no_harm(room):
    room.group.says(ADA, "K204117, how old is it?")
    answer = room.wait_for(1)[0]
    data = answer["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
    del room.group.messages[answer["message_id"]]
    id_ = room.server.press(ADA, answer, data=data)
    room.server.presses[id_] -= 3600  # the server does not take an answer to it any more
    room.wait_until(lambda: len(room.server.refused) >= 2)
    assert {error.text.partition(":")[2].split()[0] for _, _, error in room.server.refused} == {"query", "message"}
    room.server.refused.clear()
    room.quiet()
