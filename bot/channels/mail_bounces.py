"""Reports that a mail of ours did not arrive (RFC 3464): which mail it was, and why."""

from __future__ import annotations

import email
from collections.abc import Iterator
from dataclasses import dataclass
from email.message import Message

from bot.channels import mail_headers as headers
from bot.channels.mail_parts import content

_MOST_PARTS = 100
_LONGEST = 200


@dataclass(frozen=True, slots=True)
class CameBack:
    """`message_id` is that of the mail that did not arrive; `reason` is what the server said, on one line."""

    message_id: str
    reason: str


def came_back(raw: bytes) -> CameBack | None:
    """Return which mail did not arrive for good; None for reports of delay or success, and for anything else."""
    try:
        return _read(email.message_from_bytes(raw))
    except Exception:  # noqa: BLE001  # strangers' bytes; a report that cannot be read says nothing
        return None


def _read(message: Message) -> CameBack | None:
    failure, message_id = "", ""
    for part in _parts(message):
        kind = part.get_content_type()
        if kind == "message/delivery-status":
            failure = failure or _failure(part)
        elif kind == "text/rfc822-headers":
            message_id = headers.first_message_id(headers.parsed_head(content(part)), "Message-ID")
        elif kind == "message/rfc822":
            message_id = next((headers.first_message_id(one, "Message-ID") for one in _parts(part)), "")
    return CameBack(message_id, failure) if failure and message_id else None


def _parts(message: Message) -> Iterator[Message]:
    inside = message.get_payload()
    yield from (one for one in inside[:_MOST_PARTS] if isinstance(one, Message)) if isinstance(inside, list) else ()


def _failure(part: Message) -> str:
    """Return what the report says of the first recipient that failed, '' when none did."""
    blocks = part.get_payload()
    for block in blocks if isinstance(blocks, list) else ():
        if isinstance(block, Message) and headers.field(block, "Action").lower() == "failed":
            told = (headers.field(block, name) for name in ("Status", "Diagnostic-Code"))
            return " ".join(one for one in told if one)[:_LONGEST] or "no reason told"
    return ""
