"""What each method does in the chats behind the server, with the refusals that the API is known for."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any

from tests.telegram_server.faults import ApiError, bad
from tests.telegram_server.world import Chat, Person

if TYPE_CHECKING:
    from tests.telegram_server.server import BotServer

_TOO_OLD = 60.0  # seconds after which a press can not be answered any more


def carry_out(server: BotServer, method: str, params: dict[str, Any]) -> Any:
    """Carry out one call and return its result; raises ApiError."""
    known = _METHODS.get(method)
    if known is None:
        raise bad(f"the local server does not do {method}")
    return known(server, params)


def _get_me(server: BotServer, _: dict[str, Any]) -> Any:
    return server.me()


def _true(_server: BotServer, _: dict[str, Any]) -> Any:
    return True


def _member(server: BotServer, params: dict[str, Any]) -> Any:
    chat, id_ = _chat(server, params), int(params["user_id"])
    if id_ == server.me()["id"]:
        status = "administrator" if chat.bot_is_admin else "member"
        return {"status": status if chat.bot_may_write else "kicked", "user": server.me()}
    if not chat.bot_is_admin:
        raise bad("member list is inaccessible")
    return chat.standing(next((one for one in (*chat.admins, *chat.members) if one.id == id_), Person(id_, "x")))


def _admins(server: BotServer, params: dict[str, Any]) -> Any:
    return [{"status": "administrator", "user": one.as_json()} for one in _chat(server, params).admins]


def _webhook(server: BotServer, _: dict[str, Any]) -> Any:
    return {"url": server.webhook, "has_custom_certificate": False, "pending_update_count": 0}


def _send_message(server: BotServer, params: dict[str, Any]) -> Any:
    return _posted(server, params, {name: params[name] for name in ("text", "entities") if name in params})


def _send_photo(server: BotServer, params: dict[str, Any]) -> Any:
    photo = params["photo"]
    if isinstance(photo, str) and photo not in server.files:
        raise bad("wrong file identifier/HTTP URL specified")
    server.photos.append(photo.data if hasattr(photo, "data") else server.files[photo])
    fields: dict[str, Any] = {name: params[name] for name in ("caption", "caption_entities") if name in params}
    size = {"file_id": f"sent{len(server.photos)}", "file_unique_id": "x", "width": 800, "height": 400}
    return _posted(server, params, {"photo": [size], **fields})


def _send_album(server: BotServer, params: dict[str, Any]) -> Any:
    media = params["media"]
    if not 2 <= len(media) <= 10:
        raise bad("wrong number of media in the album")
    one = {name: value for name, value in params.items() if name != "media"}
    return [_send_photo(server, {**one, **each, "photo": each["media"]}) for each in media]


def _get_file(server: BotServer, params: dict[str, Any]) -> Any:
    id_ = params["file_id"]
    if id_ not in server.files:
        raise bad("wrong file_id or the file is temporarily unavailable")
    size = len(server.files[id_])
    return {"file_id": id_, "file_unique_id": "x", "file_path": f"photos/{id_}.jpg", "file_size": size}


def _posted(server: BotServer, params: dict[str, Any], fields: dict[str, Any]) -> dict[str, Any]:
    chat = _chat(server, params)
    if not chat.bot_may_write:
        raise ApiError(403, "Forbidden: bot was kicked from the group chat")
    reply = params.get("reply_parameters")
    if reply and reply["message_id"] not in chat.messages:
        if not reply.get("allow_sending_without_reply"):
            raise bad("message to be replied not found")
        reply = None
    if reply:
        answered = chat.messages[reply["message_id"]]
        fields["reply_to_message"] = {name: value for name, value in answered.items() if name != "reply_to_message"}
    if "message_thread_id" in params:
        fields |= {"message_thread_id": params["message_thread_id"], "is_topic_message": True}
    if "reply_markup" in params:
        fields["reply_markup"] = params["reply_markup"]
    return chat.add({"from": server.me(), **fields})


def _edit(server: BotServer, params: dict[str, Any]) -> Any:
    chat = _chat(server, params)
    message = chat.messages.get(params["message_id"])
    if message is None:
        raise bad("message to edit not found")
    if message["from"]["id"] != server.me()["id"]:
        raise bad("message can't be edited")
    new: dict[str, Any] = {name: params[name] for name in ("text", "entities") if name in params}
    markup: dict[str, Any] = {"reply_markup": params["reply_markup"]} if "reply_markup" in params else {}
    if all(message.get(name) == value for name, value in new.items()) and message.get("reply_markup") == markup.get(
        "reply_markup"
    ):
        raise bad("message is not modified: specified new message content and reply markup are exactly the same")
    message.pop("reply_markup", None)
    message.update({**new, **markup, "edit_date": int(time.time())})
    return message


def _answer_press(server: BotServer, params: dict[str, Any]) -> Any:
    pressed = server.presses.get(params["callback_query_id"])
    if pressed is None or time.monotonic() - pressed > _TOO_OLD:
        raise bad("query is too old and response timeout expired or query ID is invalid")
    return True


def _chat(server: BotServer, params: dict[str, Any]) -> Chat:
    chat = server.chats.get(int(params["chat_id"]))
    if chat is None:
        raise bad("chat not found")
    if chat.moved_to:
        raise ApiError(
            400, "Bad Request: group chat was upgraded to a supergroup chat", migrate_to_chat_id=chat.moved_to
        )
    return chat


_METHODS = {
    "getMe": _get_me,
    "setMyCommands": _true,
    "sendChatAction": _true,
    "getChatMember": _member,
    "getChatAdministrators": _admins,
    "getWebhookInfo": _webhook,
    "sendMessage": _send_message,
    "sendPhoto": _send_photo,
    "sendMediaGroup": _send_album,
    "getFile": _get_file,
    "editMessageText": _edit,
    "editMessageReplyMarkup": _edit,
    "answerCallbackQuery": _answer_press,
}
