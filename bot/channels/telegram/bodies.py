"""What is sent, finished as the Bot API takes it: methods with their parameters, kept as JSON in the outbox."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from bot.journal import Reply
from bot.replies.chat import PRIVATE, Button
from bot.replies.styled import Styled, harmless, shortened, split, units

LONGEST = 4096
LONGEST_CAPTION = 1024
_LONGEST_LABEL = 60
_LONGEST_TOAST, _SHORT_TOAST = 200, 90
MOST_TOGETHER = 10
"""Pictures that may go together."""
_MOST_PIECES = 5
"""A whole answer is sent in no more messages than this; what is over is cut."""
CHANNEL = "telegram"
_NO_PREVIEW = {"is_disabled": True}

Keyboard = Sequence[Sequence[Button]]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a message goes: the chat, the topic in it, and the message that it answers (0: none)."""

    chat: int
    thread: int | None = None
    answers: int = 0

    def as_params(self) -> dict[str, Any]:
        """Return the parameters that say so. A message that is gone meanwhile does not hold up its answer."""
        params: dict[str, Any] = {"chat_id": self.chat}
        if self.thread is not None:
            params["message_thread_id"] = self.thread
        if self.answers:
            params["reply_parameters"] = {"message_id": self.answers, "allow_sending_without_reply": True}
        return params


@dataclass(frozen=True, slots=True)
class For:
    """Whom a reply concerns, and the conversation that an answer to it belongs to."""

    person: str
    conversation: str


def messages(key: str, place: Place, text: Styled, whom: For, keyboard: Any = None) -> list[Reply]:
    """Return a text as one or more messages; the buttons stand under the last, and only the first is an answer."""
    pieces = split(text, LONGEST)
    if len(pieces) > _MOST_PIECES:
        pieces = [*pieces[: _MOST_PIECES - 1], shortened(pieces[_MOST_PIECES - 1] + Styled("\n…"), LONGEST)]
    found = []
    for number, piece in enumerate(pieces):
        where = place if not number else Place(place.chat, place.thread)
        markup = keyboard if number == len(pieces) - 1 else None
        found.append(_reply(key if not number else f"{key}-{number + 1}", place.chat, whom, "sendMessage",
                            {**where.as_params(), **_text(piece), **_markup(markup)}))  # fmt: skip
    return found


def or_else(one: Reply, place: Place, text: Styled) -> Reply:
    """Return a message that goes to another chat as a whole when the server refuses it in its own."""
    params = {**place.as_params(), **_text(shortened(text, LONGEST))}
    body = json.loads(one.body) | {"otherwise": {"method": "sendMessage", "params": params}}
    return replace(one, body=json.dumps(body).encode())


def edit(key: str, chat: int, number: int, text: Styled, whom: For, keyboard: Any = None) -> Reply:
    """Return the change of a message that is known by its number."""
    params = {"chat_id": chat, "message_id": number, **_text(shortened(text, LONGEST)), **_markup(keyboard)}
    return _reply(key, chat, whom, "editMessageText", params)


def edit_of(key: str, target: str, place: Place, text: Styled, whom: For, keyboard: Any = None) -> Reply:
    """Return the change of a message by its key in the outbox; a new message if that one never arrived."""
    cut = {**_text(shortened(text, LONGEST)), **_markup(keyboard)}
    params: dict[str, Any] = {"chat_id": place.chat, **cut}
    otherwise = {"method": "sendMessage", "params": {**place.as_params(), **cut}}
    return _reply(key, place.chat, whom, "editMessageText", params, edits=target, otherwise=otherwise)


def newest_edit_of(
    key: str, target: str, newer: str, version: int, place: Place, text: Styled, whom: For, keyboard: Any = None
) -> Reply:
    """Return a change like that of `edit_of`, which is left out when it is sent if a later one is in the outbox.

    The keys of such changes are `newer` and their version.
    """
    one = edit_of(key, target, place, text, whom, keyboard)
    body = json.loads(one.body) | {"newer": [newer, version]}
    return replace(one, body=json.dumps(body).encode())


def without_buttons_of(key: str, target: str, chat: int, whom: For) -> Reply:
    """Return the taking away of the buttons under a message that is known by its key; nothing if it never arrived."""
    return _reply(key, chat, whom, "editMessageReplyMarkup", {"chat_id": chat}, edits=target)


def without_buttons(key: str, chat: int, number: int, whom: For) -> Reply:
    """Return the taking away of the buttons under a message."""
    return _reply(key, chat, whom, "editMessageReplyMarkup", {"chat_id": chat, "message_id": number})


def picture(key: str, place: Place, caption: Styled, drawing: Mapping[str, Any], whom: For) -> Reply:
    """Return a picture, which is drawn when it is sent: `drawing` says of what."""
    params = {**place.as_params(), **_caption(caption)}
    return _reply(key, place.chat, whom, "sendPhoto", params, drawing=dict(drawing))


def drawing(key: str, place: Place, caption: Styled, name: str, whom: For) -> Reply:
    """Return a drawing of a pack, by its name there; where its file is gone when it is sent, the words alone go."""
    otherwise = {"method": "sendMessage", "params": {**place.as_params(), **_text(caption)}}
    params = {**place.as_params(), **_caption(caption)}
    return _reply(key, place.chat, whom, "sendPhoto", params, file=name, otherwise=otherwise)


def photos(key: str, place: Place, caption: Styled, files: Sequence[str], whom: For) -> Reply:
    """Return pictures that the server has already, by their files there: one alone, or up to ten together."""
    if len(files) == 1:
        params = {**place.as_params(), **_caption(caption), "photo": files[0]}
        return _reply(key, place.chat, whom, "sendPhoto", params)
    media = [{"type": "photo", "media": file} for file in files[:MOST_TOGETHER]]
    return _reply(key, place.chat, whom, "sendMediaGroup",
                  {**place.as_params(), "media": [media[0] | _caption(caption), *media[1:]]})  # fmt: skip


def kept_photo(key: str, place: Place, caption: Styled, channel: str, ref: str, whom: For) -> Reply:
    """Return a picture that came by another channel and is kept at the desk: it is fetched there when it is sent."""
    params = {**place.as_params(), **_caption(caption)}
    return _reply(key, place.chat, whom, "sendPhoto", params, kept=[channel, ref])


def fetch(key: str, file: str, whom: For) -> Reply:
    """Return the fetching of a picture from the server, so that it is kept here too: a job like a message."""
    return _reply(key, 0, whom, "getFile", {"file_id": file})


def toast(key: str, press: str, text: str, whom: For) -> Reply:
    """Return the short answer to a press, which its sender alone sees; it also ends the turning of the button.

    One that is long stands until it is put away.
    """
    params: dict[str, Any] = {"callback_query_id": press}
    if text:
        params["text"] = text if len(text) <= _LONGEST_TOAST else text[: _LONGEST_TOAST - 1] + "…"
    if len(text) > _SHORT_TOAST:
        params["show_alert"] = True
    return _reply(key, 0, whom, "answerCallbackQuery", params)


def keyboard(rows: Keyboard, id_: int, private_link: str = "") -> list[list[dict[str, str]]]:
    """Return buttons whose data is the number of the question in the journal and which button it is."""
    return [[_button(button, id_, private_link) for button in row] for row in rows if row]


def entities(text: Styled) -> list[dict[str, Any]]:
    """Return the styles as the API wants them: places and lengths in UTF-16 units."""
    return [
        {"type": one.style, "offset": units(text.text[: one.start]), "length": units(text.text[one.start : one.end])}
        for one in text.spans
    ]


def _button(button: Button, id_: int, private_link: str) -> dict[str, str]:
    label = harmless(button.label)
    label = label if len(label) <= _LONGEST_LABEL else label[: _LONGEST_LABEL - 1] + "…"
    if button.does == PRIVATE:
        return {"text": label, "url": private_link}
    return {"text": label, "callback_data": f"{id_}.{button.does}"}


def _text(text: Styled) -> dict[str, Any]:
    return {"text": text.text, "entities": entities(text), "link_preview_options": _NO_PREVIEW}


def _caption(caption: Styled) -> dict[str, Any]:
    cut = shortened(caption, LONGEST_CAPTION)
    return {"caption": cut.text, "caption_entities": entities(cut)}


def _markup(rows: Any) -> dict[str, Any]:
    return {"reply_markup": {"inline_keyboard": rows}} if rows else {}


def _reply(key: str, chat: int, whom: For, method: str, params: Mapping[str, Any], **more: Any) -> Reply:
    body = json.dumps({"method": method, "params": params, **more}).encode()
    return Reply(CHANNEL, key, str(chat) if chat else "", body, whom.person, whom.conversation)
