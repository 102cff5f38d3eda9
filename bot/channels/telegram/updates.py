"""Raw updates of the Bot API -> what happened, in plain values. Nothing is taken for granted.

Every field that the published API calls optional may be missing, and any field may be of another kind than stated:
what cannot be read counts as not there. Source of the names: https://core.telegram.org/bots/api
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import sha1
from typing import Any

GROUPS = ("group", "supergroup")
STANDING = "standing"
"""The field that is put beside an update when the platform was asked about its sender: a list of roles."""
EXPERT, ADMIN, UNKNOWN = "expert", "admin", "unknown"
"""Roles: of the experts' chat, of the group whose message is pressed; or nothing could be found out."""
_OURS = (STANDING, "album")
_CHANNEL_POSTER = 136817688  # the user that stands for a channel which writes in a group, as the API documents
_SERVICE = 777000  # the user that stands for posts of a linked channel, as the API documents


@dataclass(frozen=True, slots=True)
class Sender:
    """Who wrote: a user, or a chat (an anonymous admin, a channel). `key` is `u12` or `c-100123`."""

    key: str
    is_bot: bool = False
    user: int = 0


@dataclass(frozen=True, slots=True)
class Post:
    """A message. `chat` and `number` name it; `thread` is set for a message in a topic only.

    `written` is when it was written and `changed` when it was last changed (0: never), in seconds since 1970.

    `to` is the sender of the message that it answers, `to_number` the number of that one and `to_buttons` the data
    of the buttons under it. `mentions` are the names called with @, small letters, and `u12` for people without one.
    `written_by` is the user who wrote what is forwarded, 0 where that is not told.
    `left` is the key of somebody who left the chat. `standing` holds the roles that the platform was asked about.
    """

    chat: int
    kind: str
    number: int
    sender: Sender
    text: str = ""
    thread: int | None = None
    written: float = 0.0
    changed: float = 0.0
    album: str = ""
    pictures: tuple[str, ...] = ()
    mentions: tuple[str, ...] = ()
    command: str = ""
    to: Sender | None = None
    to_number: int = 0
    to_buttons: tuple[str, ...] = ()
    forwarded: bool = False
    written_by: int = 0
    automatic: bool = False
    service: bool = False
    left: str = ""
    standing: frozenset[str] = frozenset()

    @property
    def is_private(self) -> bool:
        """Whether it was written to the bot alone."""
        return self.kind == "private"


@dataclass(frozen=True, slots=True)
class Press:
    """A button was pressed. `id` is what has to be answered; `number` is the message under which the button is."""

    id: str
    data: str
    sender: Sender
    chat: int
    kind: str
    number: int
    thread: int | None
    standing: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Moved:
    """A group went on as a supergroup under a new id."""

    old: int
    new: int


@dataclass(frozen=True, slots=True)
class Membership:
    """Somebody was taken into a chat, or out of it: the bot itself (`is_own`), or `user`."""

    chat: int
    kind: str
    status: str
    user: int
    is_own: bool


@dataclass(frozen=True, slots=True)
class Other:
    """Something that is not for us; `what` names it."""

    what: str


Event = Post | Press | Moved | Membership | Other


def key(update: Mapping[str, Any]) -> str:
    """Return what tells an update from every other, also when it is delivered again under a new update_id."""
    for name in ("message", "edited_message", "channel_post", "edited_channel_post"):
        message = _dict(update, name)
        if message and _int(message, "message_id"):
            return f"m{_int(_dict(message, 'chat'), 'id')}:{_int(message, 'message_id')}:{_int(message, 'edit_date')}"
    if pressed := _str(_dict(update, "callback_query"), "id"):
        return f"p{pressed}"
    digest = sha1(json.dumps(update, sort_keys=True, default=str).encode(), usedforsecurity=False).hexdigest()
    return f"u{_int(update, 'update_id')}:{digest[:12]}"


def read(raw: bytes) -> Event:
    """Return what happened. Raises ValueError when the bytes are no update; an album is a list of updates."""
    value = json.loads(raw)
    if not isinstance(value, dict):
        raise ValueError("an update is a JSON object")
    album = value.get("album")
    event = _album([_read(one) for one in album if isinstance(one, dict)]) if isinstance(album, list) else _read(value)
    roles = value.get(STANDING)
    if isinstance(event, Post | Press) and isinstance(roles, list):
        return replace(event, standing=frozenset(role for role in roles if isinstance(role, str)))
    return event


def as_came(update: Mapping[str, Any]) -> dict[str, Any]:
    """Return an update without the fields that are only ever put beside it here."""
    return {name: value for name, value in update.items() if name not in _OURS}


def album_of(update: Mapping[str, Any]) -> str:
    """Return the album that a new message is part of, with its chat; '' for none."""
    message = _dict(update, "message")
    group = _str(message, "media_group_id")
    return f"{_int(_dict(message, 'chat'), 'id')}:{group}" if group else ""


def _read(update: Mapping[str, Any]) -> Event:
    if pressed := _dict(update, "callback_query"):
        return _press(pressed)
    for name in ("my_chat_member", "chat_member"):
        if changed := _dict(update, name):
            return _membership(changed, name == "my_chat_member")
    for name in ("message", "edited_message"):
        if message := _dict(update, name):
            return _message(message, name == "edited_message")
    return Other(next((name for name in update if name != "update_id"), "nothing")[:40])


def _membership(changed: Mapping[str, Any], is_own: bool) -> Event:
    chat, new = _dict(changed, "chat"), _dict(changed, "new_chat_member")
    user = _int(_dict(new, "user"), "id")
    return Membership(_int(chat, "id"), _str(chat, "type"), _str(new, "status"), user, is_own)


def _message(message: Mapping[str, Any], edited: bool) -> Event:
    chat = _int(_dict(message, "chat"), "id")
    if new := _int(message, "migrate_to_chat_id"):
        return Moved(chat, new)
    if old := _int(message, "migrate_from_chat_id"):
        return Moved(old, chat)
    sender = _sender(message)
    if not chat or not _int(message, "message_id") or sender is None:
        return Other("message-without-sender")
    return _post(message, chat, sender, edited)


def _post(message: Mapping[str, Any], chat: int, sender: Sender, edited: bool) -> Post:
    text, entities = _text(message)
    replied = _dict(message, "reply_to_message")
    pictures = tuple(_pictures(message))
    # In a topic the first message of the topic counts as answered although nobody answered it.
    is_answer = bool(replied) and not _dict(replied, "forum_topic_created")
    return Post(
        chat=chat,
        kind=_str(_dict(message, "chat"), "type"),
        number=_int(message, "message_id"),
        sender=sender,
        text=text,
        thread=(_int(message, "message_thread_id") or None) if message.get("is_topic_message") is True else None,
        written=float(_int(message, "date")),
        changed=float(_int(message, "edit_date") or _int(message, "date")) if edited else 0.0,
        album=_str(message, "media_group_id"),
        pictures=pictures,
        mentions=tuple(_mentions(text, entities)),
        command=_command(text, entities),
        to=_sender(replied) if is_answer else None,
        to_number=_int(replied, "message_id") if is_answer else 0,
        to_buttons=tuple(_button_data(replied)) if is_answer else (),
        forwarded=bool(_dict(message, "forward_origin")) or "forward_date" in message,
        written_by=_int(_dict(_dict(message, "forward_origin"), "sender_user"), "id"),
        automatic=message.get("is_automatic_forward") is True,
        service=not text and not pictures,
        left=f"u{gone}" if (gone := _int(_dict(message, "left_chat_member"), "id")) else "",
    )


def _press(pressed: Mapping[str, Any]) -> Event:
    message = _dict(pressed, "message")
    chat = _dict(message, "chat")
    user = _int(_dict(pressed, "from"), "id")
    if not _str(pressed, "id") or not user:
        return Other("press-without-sender")
    thread = (_int(message, "message_thread_id") or None) if message.get("is_topic_message") is True else None
    return Press(
        _str(pressed, "id"), _str(pressed, "data"), Sender(f"u{user}", user=user),
        _int(chat, "id"), _str(chat, "type"), _int(message, "message_id"), thread,
    )  # fmt: skip


def _album(parts: Sequence[Event]) -> Event:
    """Return the pictures of one album as one message: that with words, or else the first."""
    posts = sorted((one for one in parts if isinstance(one, Post)), key=lambda post: post.number)
    if not posts:
        return Other("album-without-messages")
    first = next((post for post in posts if post.text), posts[0])
    texts = "\n".join(dict.fromkeys(post.text for post in posts if post.text))
    values = {name: getattr(first, name) for name in Post.__slots__}
    values |= {"text": texts, "pictures": tuple(file for post in posts for file in post.pictures)}
    return Post(**values)


def _sender(message: Mapping[str, Any]) -> Sender | None:
    """Return who wrote a message. Anonymous admins and channels come with a stand-in user that is called a bot."""
    as_chat, user = _int(_dict(message, "sender_chat"), "id"), _dict(message, "from")
    by_bot = bool(_dict(message, "via_bot"))
    if as_chat:
        return Sender(f"c{as_chat}", by_bot)
    id_ = _int(user, "id")
    if not id_:
        return None
    stand_in = id_ in (_CHANNEL_POSTER, _SERVICE)
    return Sender(f"u{id_}", by_bot or (user.get("is_bot") is True and not stand_in), id_)


def _text(message: Mapping[str, Any]) -> tuple[str, list[Mapping[str, Any]]]:
    for text, entities in (("text", "entities"), ("caption", "caption_entities")):
        if _str(message, text):
            return _str(message, text), _list(message, entities)
    return "", []


def _pictures(message: Mapping[str, Any]) -> list[str]:
    """Return the file of each picture: the largest size of a photo, or a picture sent as a file."""
    sizes = [_str(size, "file_id") for size in _list(message, "photo")]
    document = _dict(message, "document")
    as_file = [_str(document, "file_id")] if _str(document, "mime_type").startswith("image/") else []
    return [file for file in (*sizes[-1:], *as_file) if file]


def _mentions(text: str, entities: Sequence[Mapping[str, Any]]) -> list[str]:
    found = [_piece(text, one)[1:].lower() for one in entities if one.get("type") == "mention"]
    found += [f"u{_int(_dict(one, 'user'), 'id')}" for one in entities if one.get("type") == "text_mention"]
    return found + [name.lower() for name in re.findall(r"(?<![\w@])@(\w{4,32})", text) if name.lower() not in found]


def _command(text: str, entities: Sequence[Mapping[str, Any]]) -> str:
    """Return the command that a message begins with, as written, '' for none."""
    for one in entities:
        if one.get("type") == "bot_command" and one.get("offset") == 0:
            return _piece(text, one)
    found = re.match(r"/\w{1,32}(?:@\w+)?", text)
    return found[0] if found else ""


def _piece(text: str, entity: Mapping[str, Any]) -> str:
    """Return the text of an entity, whose place is counted in UTF-16 units."""
    start, length = _int(entity, "offset"), _int(entity, "length")
    if start < 0 or length < 0:
        return ""
    raw = text.encode("utf-16-le", "surrogatepass")[2 * start : 2 * (start + length)]
    return raw.decode("utf-16-le", "replace")


def _button_data(message: Mapping[str, Any]) -> list[str]:
    rows = _dict(message, "reply_markup").get("inline_keyboard")
    cells = [cell for row in rows if isinstance(row, list) for cell in row] if isinstance(rows, list) else []
    return [_str(cell, "callback_data") for cell in cells if isinstance(cell, dict) and _str(cell, "callback_data")]


def _dict(value: Mapping[str, Any], name: str) -> Mapping[str, Any]:
    found = value.get(name)
    return found if isinstance(found, dict) else {}


def _list(value: Mapping[str, Any], name: str) -> list[Mapping[str, Any]]:
    found = value.get(name)
    return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []


def _str(value: Mapping[str, Any], name: str) -> str:
    found = value.get(name)
    return found if isinstance(found, str) else ""


def _int(value: Mapping[str, Any], name: str) -> int:
    found = value.get(name)
    return found if isinstance(found, int) and not isinstance(found, bool) and abs(found) < 2**62 else 0
