"""The parts of a MIME message: its text, and what is attached. Bounded in size, number and depth; never raises.

Attachments are never unpacked. Pictures are kept for the experts when their head says that they are pictures of a
sensible size; pixels are not read.
"""

from __future__ import annotations

import io
import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from email.message import Message

from PIL import Image

from bot.channels.mail_charsets import decoded
from bot.channels.mail_flowed import unflowed
from bot.channels.mail_headers import field, one_line
from bot.channels.mail_html import html_to_text

MOST_PARTS = 200
DEEPEST = 30
MOST_TEXT = 1_000_000  # bytes of one text part that are read
MOST_PICTURES = 10
LARGEST_PICTURE = 12_000_000  # bytes
LARGEST_PIXELS = 80_000_000
_KINDS = ("PNG", "JPEG", "GIF", "WEBP", "TIFF", "BMP", "MPO")
_STUB = re.compile(r"html|browser|programm|client", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Attachment:
    """Something attached. `size` is in bytes; `kept`: it is a picture for the experts; `note` says why it is not."""

    name: str
    type: str
    size: int
    kept: bool
    note: str = ""


@dataclass(frozen=True, slots=True)
class Parts:
    """What a message is made of. `inner` are whole messages that are attached."""

    text: str
    attachments: tuple[Attachment, ...] = ()
    inner: tuple[Message, ...] = ()


def parts_of(message: Message) -> Parts:
    """Take a message apart."""
    texts: list[str] = []
    attachments: list[Attachment] = []
    inner: list[Message] = []
    for part in _leaves(message):
        if part.get_content_type() == "message/rfc822":
            inner.extend(_inner(part))
        elif _is_text(part) and not _is_attached(part):
            texts.append(_text(part))
        elif not _is_text(part) or _is_attached(part):
            attachments.append(_attachment(part, sum(one.kept for one in attachments)))
    text = "\n\n".join(text for text in texts if text.strip())
    return Parts(text, tuple(attachments), tuple(inner[:5]))


def content(part: Message) -> bytes:
    """Return the bytes of a part, as far as they can be told."""
    try:
        payload = part.get_payload(decode=True)
    except Exception:  # noqa: BLE001  # broken encodings of all kinds
        payload = None
    if isinstance(payload, bytes):
        return payload
    raw = part.get_payload()
    return raw.encode("utf-8", "surrogateescape") if isinstance(raw, str) else b""


def pictures(message: Message) -> Iterator[tuple[Attachment, bytes]]:
    """Yield the pictures that are kept, with their bytes."""
    kept = 0
    for part in _leaves(message):
        if not _is_text(part) and part.get_content_type() != "message/rfc822":
            one = _attachment(part, kept)
            if one.kept:
                kept += 1
                yield one, content(part)


def _leaves(message: Message) -> Iterator[Message]:
    """Yield the parts that hold something, in order; of alternatives the one to be read, and all that is no text."""
    waiting = [(message, 0)]
    left = MOST_PARTS
    while waiting and left:
        part, depth = waiting.pop()
        left -= 1
        if part.get_content_type() == "message/rfc822" or not _has_parts(part):
            yield part
        elif depth < DEEPEST:
            inside = [one for one in part.get_payload() if isinstance(one, Message)]
            if part.get_content_type() == "multipart/alternative":
                inside = _chosen(inside)
            waiting.extend((one, depth + 1) for one in reversed(inside[:MOST_PARTS]))


def _has_parts(part: Message) -> bool:
    return part.is_multipart() and isinstance(part.get_payload(), list)


def _chosen(alternatives: list[Message]) -> list[Message]:
    """Of several forms of one text, keep plain text when it says something, else HTML; and all that is no text."""
    plain = [one for one in alternatives if one.get_content_type() == "text/plain"]
    rich = [one for one in alternatives if one not in plain]
    said = "".join(_text(one) for one in plain).strip()
    is_stub = len(said) < 200 and _STUB.search(said) and not any(character.isdigit() for character in said)
    if rich and (not said or is_stub):
        return rich
    without_text = [one for one in rich if one.get_content_maintype() not in ("text", "multipart")]
    return plain + without_text if plain else alternatives


def _is_text(part: Message) -> bool:
    return part.get_content_type() in ("text/plain", "text/html", "text/enriched", "text/x-amp-html") or (
        part.get_content_maintype() == "text" and not part.get_filename()
    )


def _is_attached(part: Message) -> bool:
    return field(part, "Content-Disposition").lower().startswith("attachment")


def _text(part: Message) -> str:
    text = decoded(content(part)[:MOST_TEXT], _parameter(part, "charset")).replace("\r\n", "\n").replace("\r", "\n")
    if part.get_content_type() == "text/html":
        return html_to_text(text)
    if _parameter(part, "format").lower() == "flowed":
        return unflowed(text, _parameter(part, "delsp").lower() == "yes")
    return text


def _parameter(part: Message, name: str) -> str:
    try:
        value = part.get_param(name)
    except Exception:  # noqa: BLE001
        return ""
    if isinstance(value, tuple):
        value = value[2]
    return value if isinstance(value, str) else ""


def _inner(part: Message) -> list[Message]:
    payload = part.get_payload()
    return [one for one in payload if isinstance(one, Message)] if isinstance(payload, list) else []


def _attachment(part: Message, kept_so_far: int) -> Attachment:
    body = content(part)
    name = _name(part)
    note = _why_not_kept(part, body, kept_so_far)
    return Attachment(name, one_line(part.get_content_type())[:100], len(body), note == "", note)


def _name(part: Message) -> str:
    """Return the file name without folders, as it may be shown; '' when there is none."""
    try:
        name = part.get_filename() or ""
    except Exception:  # noqa: BLE001
        name = ""
    return one_line(name).replace("\\", "/").rpartition("/")[2][:120]


def _why_not_kept(part: Message, body: bytes, kept_so_far: int) -> str:
    if part.get_content_maintype() != "image" and not body.startswith((b"\x89PNG", b"\xff\xd8\xff")):
        return "no picture"
    if kept_so_far >= MOST_PICTURES:
        return f"more than {MOST_PICTURES} pictures"
    if len(body) > LARGEST_PICTURE:
        return f"larger than {LARGEST_PICTURE:,} bytes"
    try:
        with warnings.catch_warnings(action="ignore"), Image.open(io.BytesIO(body), formats=_KINDS) as image:
            width, height = image.size
    except Exception:  # noqa: BLE001  # the head of a file by strangers
        return "cannot be read as a picture"
    return "" if width * height <= LARGEST_PIXELS else f"more than {LARGEST_PIXELS:,} pixels"
