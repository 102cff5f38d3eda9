"""What the bot sends, checked against aiogram's typed methods and types, and the limits the API publishes."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import aiogram.methods
from aiogram.client.bot import Bot as _Bot  # noqa: F401  # its import completes the models
from aiogram.methods.base import TelegramMethod
from aiogram.types import BufferedInputFile
from pydantic import BaseModel, ValidationError

from tests.telegram_server.faults import bad

_MOST_TEXT, _MOST_CAPTION, _MOST_DATA, _MOST_TOAST = 4096, 1024, 64, 200


def units(text: str) -> int:
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def parsed(method: str, form: Mapping[str, Any]) -> dict[str, Any]:
    """Return the parameters of a call as plain values; raises ApiError for what the model or the API does not know."""
    known = getattr(aiogram.methods, method[:1].upper() + method[1:], None)
    if known is None:
        raise bad(f"method {method} is none of the Bot API")
    values = {name: _value(known, name, raw) for name, raw in form.items()}
    try:
        made = known(**values)
    except ValidationError as fault:
        raise bad(f"aiogram does not take it: {fault.errors()[0]['loc']} {fault.errors()[0]['msg']}") from fault
    _no_unknown_fields(made, method)
    _within_limits(values)
    return values


def _value(method: type[TelegramMethod[Any]], name: str, raw: Any) -> Any:
    """Forms carry everything as text: lists and objects as JSON, numbers as digits."""
    if isinstance(raw, bytes):
        return BufferedInputFile(raw, "file")
    if name not in method.model_fields:
        raise bad(f"{method.__name__} has no parameter {name}")
    if isinstance(raw, str) and name not in ("text", "caption", "callback_query_id", "action"):
        try:
            return json.loads(raw)
        except ValueError:
            return raw
    return raw


def _no_unknown_fields(made: BaseModel, where: str) -> None:
    """aiogram keeps fields it does not know: here they are faults."""
    if made.model_extra:
        raise bad(f"{where} has no field {sorted(made.model_extra)}")
    for name in type(made).model_fields:
        value = getattr(made, name)
        for one in value if isinstance(value, list) else [value]:
            for inner in one if isinstance(one, list) else [one]:
                if isinstance(inner, BaseModel):
                    _no_unknown_fields(inner, f"{where}.{name}")


def _within_limits(values: Mapping[str, Any]) -> None:
    for name, most in (("text", _MOST_TEXT), ("caption", _MOST_CAPTION)):
        text = values.get(name)
        if isinstance(text, str):
            most = _MOST_TOAST if "callback_query_id" in values else most
            if units(text) > most:
                raise bad("message is too long" if name == "text" else "message caption is too long")
            if name == "text" and not text.strip() and "callback_query_id" not in values:
                raise bad("message text is empty")
            _check_entities(text, values.get("entities" if name == "text" else "caption_entities") or [])
    for row in (values.get("reply_markup") or {}).get("inline_keyboard", []):
        for button in row:
            _check_button(button)


def _check_entities(text: str, entities: list[dict[str, Any]]) -> None:
    raw = text.encode("utf-16-le", "surrogatepass")
    for one in entities:
        start, end = 2 * one["offset"], 2 * (one["offset"] + one["length"])
        if not 0 <= start < end <= len(raw):
            raise bad("entity beyond the end of the text")
        raw[start:end].decode("utf-16-le")  # in the middle of a character it raises, and the test sees it


def _check_button(button: dict[str, Any]) -> None:
    if not button.get("text"):
        raise bad("Text buttons are unallowed in the inline keyboard")
    if "url" in button:
        return
    if not 1 <= len(button.get("callback_data", "").encode()) <= _MOST_DATA:
        raise bad("BUTTON_DATA_INVALID")
