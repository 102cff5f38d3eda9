"""Stored bytes -> the text that can be read in them: mail taken apart and decoded, JSON without its escapes."""

from __future__ import annotations

import email
import json
from collections.abc import Iterator
from email.message import Message
from typing import Any

from bot.channels import mail_headers as headers
from bot.channels.mail_parts import content

_MOST_PARTS = 500
_HEADER = b":"


def readable(stored: object) -> str:
    """Return what a person, or a program, could read in a value of the file, one piece a line. Never raises."""
    raw = stored.encode("utf-8", "backslashreplace") if isinstance(stored, str) else stored
    if not isinstance(raw, bytes):
        return str(raw)
    plain = raw.decode("utf-8", "backslashreplace")
    if raw[:1] in (b"{", b"["):
        return "\n".join((plain, *_of_json(plain)))
    if _HEADER in raw[:200] and b"\n" in raw:
        return "\n".join((plain, *_of_mail(raw)))
    return plain


def _of_json(text: str) -> Iterator[str]:
    try:
        value = json.loads(text)
    except (ValueError, RecursionError):
        return
    waiting: list[Any] = [value]
    while waiting:
        one = waiting.pop()
        if isinstance(one, dict):
            waiting.extend((*one.keys(), *one.values()))
        elif isinstance(one, list):
            waiting.extend(one)
        else:
            yield str(one)


def _of_mail(raw: bytes) -> Iterator[str]:
    try:
        message = email.message_from_bytes(raw)
        parts = [part for part, _ in zip(message.walk(), range(_MOST_PARTS), strict=False)]
    except Exception:  # noqa: BLE001  # mail of all kinds; it was read as plain text already
        return
    for part in parts:
        yield from _of_part(part)


def _of_part(part: Message) -> Iterator[str]:
    for name in dict.fromkeys(part.keys()):
        yield from headers.every(part, name)
    if not part.is_multipart():
        charset = part.get_content_charset() or "utf-8"
        try:
            yield content(part).decode(charset, "replace")
        except LookupError:
            yield content(part).decode("utf-8", "replace")
