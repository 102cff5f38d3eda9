"""Bytes of a mail -> what it says, for the rules and the conversation. Pure, and never raises.

bytes -> headers (mail_headers) -> parts (mail_parts: text, attachments) -> own words (mail_quotes)

The other way, from a reply to bytes, is mail_building.py.
"""

from __future__ import annotations

import email
import re
from dataclasses import dataclass
from email.message import Message

from bot.channels import mail_headers as headers
from bot.channels.mail_parts import Attachment, Parts, parts_of
from bot.channels.mail_quotes import Words, words_of

LONGEST_SUBJECT = 300
MOST_REFERENCES = 30
_PASSED_ON = re.compile(r"\s*(?:fwd?|wg|tr|i|doorst|vb|pd|rv|enc)\s*[:：]", re.IGNORECASE)
_HEAD_ONLY = 100_000  # bytes read of a mail that cannot be taken apart


@dataclass(frozen=True, slots=True)
class MailIn:
    """One mail as it was read. Addresses are as they stand; `head` is there for rules that look at single fields.

    `fault` says why the body could not be read, '' when it could. `holds_mail`: whole mails are attached.
    """

    head: Message
    sender: str
    reply_to: tuple[str, ...]
    recipients: tuple[str, ...]
    delivered_to: tuple[str, ...]
    subject: str
    message_id: str
    in_reply_to: str
    references: tuple[str, ...]
    words: Words
    attachments: tuple[Attachment, ...]
    fault: str = ""
    holds_mail: bool = False

    @property
    def is_reply(self) -> bool:
        """Whether it says that it answers another mail."""
        return bool(self.in_reply_to or self.references) or headers.is_reply_subject(self.subject)

    @property
    def is_passed_on(self) -> bool:
        """Whether its subject says that it passes another mail on, or another mail is attached."""
        return _PASSED_ON.match(self.subject) is not None or self.holds_mail

    @property
    def has_picture(self) -> bool:
        """Whether a picture came with it."""
        return any(one.kept for one in self.attachments)


def read(raw: bytes) -> MailIn:
    """Read a mail, whatever it is."""
    message, fault = _parsed(raw)
    subject = headers.field(message, "Subject")[:LONGEST_SUBJECT]
    parts, fault = _parts(message, fault)
    words = _words(parts, subject)
    senders = headers.addresses(message, "From")
    return MailIn(
        head=message,
        sender=senders[0] if senders else "",
        reply_to=headers.addresses(message, "Reply-To"),
        recipients=headers.addresses(message, "To") + headers.addresses(message, "Cc"),
        delivered_to=headers.addresses(message, "Delivered-To") + headers.addresses(message, "X-Original-To"),
        subject=subject,
        message_id=headers.first_message_id(message, "Message-ID"),
        in_reply_to=headers.first_message_id(message, "In-Reply-To"),
        references=headers.last_message_ids(message, "References", MOST_REFERENCES),
        words=words,
        attachments=parts.attachments,
        fault=fault,
        holds_mail=bool(parts.inner),
    )


def _parsed(raw: bytes) -> tuple[Message, str]:
    try:
        return email.message_from_bytes(raw), ""
    except Exception as fault:  # noqa: BLE001  # strangers' bytes; RecursionError among others
        why = f"it cannot be taken apart ({type(fault).__name__})"
    head = re.split(rb"\r?\n\r?\n", raw[:_HEAD_ONLY], maxsplit=1)[0]
    return headers.parsed_head(head), why


def _parts(message: Message, fault: str) -> tuple[Parts, str]:
    try:
        parts = parts_of(message)
    except Exception as error:  # noqa: BLE001
        return Parts(""), fault or f"its parts cannot be read ({type(error).__name__})"
    return parts, fault


def _words(parts: Parts, subject: str) -> Words:
    words = words_of(parts.text, passed_on=_PASSED_ON.match(subject) is not None)
    if words.forwarded or not parts.inner:
        return words
    inner = "\n\n".join(_inner_text(one) for one in parts.inner)
    return Words(words.own, inner.strip(), words.quoted)


def _inner_text(message: Message) -> str:
    """Return what an attached mail says: its subject and its writer's own words."""
    try:
        words = words_of(parts_of(message).text)
    except Exception:  # noqa: BLE001
        return ""
    subject = headers.bare_subject(headers.field(message, "Subject")[:LONGEST_SUBJECT])
    return f"{subject}\n\n{words.own or words.forwarded or words.quoted}".strip()
