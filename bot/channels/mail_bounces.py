"""Reports that a mail of ours did not arrive: which mail it was, and why.

Well made ones say it in a part of their own (RFC 3464). Others only quote the mail, or its head, below some sentences;
they count when a mail system sent them, speak of a failure, and of no delay.
"""

from __future__ import annotations

import email
import re
from collections.abc import Iterator
from dataclasses import dataclass
from email.message import Message

from bot.channels import mail_headers as headers
from bot.channels.mail_parts import content

_MOST_PARTS = 100
_MOST_TEXT = 200_000  # bytes of each part of a report without form
_MOST_IDS = 20
_LONGEST = 200
_SYSTEM = re.compile(r"mailer-?daemon|postmaster|mail-?delivery.*|mdaemon", re.IGNORECASE)
_FAILURE = re.compile(
    r"[^\n]*(?:undeliver|(?:not|n.t) (?:be )?delivered|delivery[^\n]{0,60} fail|fail[^\n]{0,30} deliver|"
    r"permanent (?:error|failure)|(?:user|recipient|address|mailbox)[^\n]{0,20} "
    r"(?:unknown|unavailable|not found|does not exist|rejected|disabled)|"
    r"(?:unknown|no such) (?:user|recipient|mailbox|address)|\b5\.\d\.\d{1,3}\b|\b55\d[ -]|"
    r"unzustellbar|nicht zugestellt|n.a pas pu être (?:remis|distribué)|no se (?:ha podido|pudo) entregar|"
    r"non (?:è stato )?consegnat|niet (?:worden )?(?:af)?geleverd|nie (?:został|mógł)[^\n]{0,20} dostarczon|"
    r"не доставлен|kunde inte levereras)[^\n]*",
    re.IGNORECASE,
)
_DELAY = re.compile(
    r"delayed|still (?:trying|being)|(?:keep|continue|go on) (?:on )?trying|will (?:be )?(?:try|retr|attempt)|"
    r"temporar|no action is required|verzögert|retard",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class CameBack:
    """`message_ids`: those the mail that did not arrive may have had. `reason` is what was said, on one line."""

    message_ids: tuple[str, ...]
    reason: str


def came_back(raw: bytes) -> CameBack | None:
    """Return which mail did not arrive for good; None for reports of delay or success, and for anything else."""
    try:
        message = email.message_from_bytes(raw)
        if any(part.get_content_type() == "message/delivery-status" for part in _parts(message)):
            return _read(message)
        return _guessed(message)
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
    return CameBack((message_id,), failure) if failure and message_id else None


def _guessed(message: Message) -> CameBack | None:
    """Read a report without form. Ids are looked for in all it holds, for some quote the mail as plain text."""
    if not _is_from_a_mail_system(message):
        return None
    texts = list(_texts(message))
    told = " ".join([headers.field(message, "Subject"), *texts[:1]])
    failure = _FAILURE.search("\n".join([headers.field(message, "Subject"), *texts[:1]]))
    ids = dict.fromkeys(one for text in texts for one in headers.message_ids(text))
    if failure is None or _DELAY.search(told) or not ids:
        return None
    return CameBack(tuple(ids)[:_MOST_IDS], headers.one_line(failure[0])[:_LONGEST])


def _is_from_a_mail_system(message: Message) -> bool:
    senders = (*headers.addresses(message, "From"), *headers.addresses(message, "Sender"))
    return (
        headers.field(message, "Return-Path").replace(" ", "") == "<>"
        or headers.has(message, "X-Failed-Recipients")
        or any(_SYSTEM.fullmatch(one.partition("@")[0]) for one in senders)
    )


def _texts(message: Message) -> Iterator[str]:
    """Yield the texts of a mail, and the heads of mails in it."""
    for part in [message, *_walked(message)]:
        if part is not message and headers.has(part, "Message-ID"):
            yield headers.first_message_id(part, "Message-ID")
        if not part.is_multipart():
            yield content(part)[:_MOST_TEXT].decode("utf-8", "replace")


def _walked(message: Message) -> list[Message]:
    return [part for _, part in zip(range(_MOST_PARTS), message.walk(), strict=False)][1:]


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
