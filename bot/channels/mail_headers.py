"""Header fields of mail as strangers write them: decoded whatever stands in them, without line breaks, bounded.

Nothing here raises. The standard library's modern parser does on real mail, so only its old one is used.
"""

from __future__ import annotations

import email
import re
import unicodedata
from email.header import decode_header
from email.message import Message
from email.utils import getaddresses

from bot.channels.mail_charsets import decoded

LONGEST = 2_000  # characters of one field; a subject is cut further where it is used
LONGEST_LIST = 1_000_000  # characters of To and Cc that are looked at: more than 10,000 addresses
_MESSAGE_ID = re.compile(r"<[^\s<>\x00-\x1f\x7f-\U0010ffff]{1,500}>")
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"|\([^()]*\)')
_ADDRESS = re.compile(r"[^\s<>\"(),;:\\@]{1,64}@[^\s<>\"(),;:\\@]{1,255}")
_ONE_ANGLED = re.compile(rf"[^<>\"(),;]*<\s*({_ADDRESS.pattern})\s*>\s*")
_SOLE = re.compile(
    rf"(?P<bare>{_ADDRESS.pattern})|"
    rf"(?:[^<>\"(),;:@\\]*|\s*\"[^<>\"@\\]*\"\s*|\"?(?P<named>{_ADDRESS.pattern})\"?\s*)<(?P<angled>{_ADDRESS.pattern})>"
)
_MARKS = re.compile(
    r"^\s*(?:(?:re|aw|sv|vs|antw|odp|ynt|ang|rif|res|r|fwd?|wg|tr|i|doorst|vb|pd|rv|enc)\s*(?:\[\d+\]|\(\d+\))?\s*[:：]\s*|"
    r"\[[^\]\n]{0,40}\]\s*)",
    re.IGNORECASE,
)
_REPLY = re.compile(r"\s*(?:re|aw|sv|vs|antw|odp|ynt|ang|rif|res|r)\s*(?:\[\d+\]|\(\d+\))?\s*[:：]", re.IGNORECASE)


def parsed_head(head: bytes) -> Message:
    """Return the fields of a head by themselves; none where it cannot be read."""
    try:
        return email.message_from_bytes(head + b"\n\n")
    except Exception:  # noqa: BLE001
        return Message()


def field(message: Message, name: str, longest: int = LONGEST) -> str:
    """Return the first field of this name, decoded, on one line; '' when there is none."""
    return one_line(_decoded(_raw(message, name)[:longest]))


def every(message: Message, name: str) -> list[str]:
    """Return all fields of this name, topmost first, each as `field` gives it; 100 at most."""
    return [one_line(_decoded(one[:LONGEST])) for one in _raws(message, name)[:100]]


def has(message: Message, name: str) -> bool:
    """Whether there is such a field, even an empty one."""
    return name in message


def addresses(message: Message, name: str) -> tuple[str, ...]:
    """Return the addresses in all fields of this name, in order.

    They are looked for before encoded words are decoded: what a name says is no address (RFC 2047, section 5).
    """
    longest = LONGEST_LIST if name.lower() in ("to", "cc") else LONGEST
    values = [_text(one)[:longest] for one in _raws(message, name)[:100]]
    found = tuple(address for value in values for address in addresses_in(value))
    return found or tuple(address for value in every(message, name) for address in addresses_in(value))


def sole_sender(message: Message) -> str:
    """Return the one address that a mail can be from, '' when its From can be read in more than one way.

    That is one field, with one address, alone or in angle brackets behind a plain, quoted or encoded name, or behind
    the same address as a name. Groups, comments, routes and several addresses are refused: programs do not agree on
    whom they name.
    """
    values = _raws(message, "From")
    found = _SOLE.fullmatch(_text(values[0])) if len(values) == 1 else None
    if found is None or found["named"] not in (None, found["angled"]):
        return ""
    return found["bare"] or found["angled"]


def addresses_in(value: str) -> list[str]:
    """Return the addresses in a value.

    >>> addresses_in('"Orla, a@b.example" <orla@example.org>, ben@example.org (Ben)')
    ['orla@example.org', 'ben@example.org']
    """
    if one := _ONE_ANGLED.fullmatch(value):
        return [one[1]]
    if len(value) < LONGEST:
        try:
            found = [address for _, address in getaddresses([value]) if _ADDRESS.fullmatch(address)]
        except Exception:  # noqa: BLE001
            found = []
        if found:
            return found
    return _ADDRESS.findall(_QUOTED.sub(" ", value))


def message_ids(value: str) -> list[str]:
    """Return the message identifiers in a value, as they stand, with their angle brackets."""
    return _MESSAGE_ID.findall(value)


def first_message_id(message: Message, name: str) -> str:
    """Return the first message identifier in a field, '' when there is none that could be repeated."""
    return next(iter(message_ids(_raw(message, name)[:LONGEST])), "")


def last_message_ids(message: Message, name: str, most: int) -> tuple[str, ...]:
    """Return the last identifiers of a field that may be long."""
    return tuple(message_ids(_raw(message, name)[-50_000:])[-most:])


def is_reply_subject(subject: str) -> bool:
    """Whether a subject begins with Re: or what other languages write for it."""
    return _REPLY.match(subject) is not None


def bare_subject(subject: str) -> str:
    """Return a subject without Re:, Fwd: and the tags of lists, however many.

    >>> bare_subject("AW: Re: [desk] Fwd: K204117")
    'K204117'
    """
    for _ in range(20):
        shorter = _MARKS.sub("", subject, count=1)
        if shorter == subject:
            break
        subject = shorter
    return subject.strip()


def one_line(text: str) -> str:
    """Return text with line breaks and control characters as single spaces: nothing in it can begin a new field."""
    shown = (" " if unicodedata.category(one) in ("Cc", "Zl", "Zp", "Cs") else one for one in text)
    return " ".join("".join(shown).split())


def _raw(message: Message, name: str) -> str:
    return next(iter(_raws(message, name)), "")


def _raws(message: Message, name: str) -> list[str]:
    """Return the fields as they came: bytes beyond ASCII are half characters (surrogates) here."""
    return [str(value) for one, value in message.raw_items() if one.lower() == name.lower()]


def _text(raw: str) -> str:
    """Return a raw field as text, on one line, its encoded words left as they are."""
    return one_line(decoded(raw.encode("utf-8", "surrogateescape"), "") if not raw.isascii() else raw)


def _decoded(value: str) -> str:
    try:
        pieces = decode_header(value)
    except Exception:  # noqa: BLE001  # such as base64 that is none
        pieces = [(value, None)]
    return "".join(_piece(piece, charset) for piece, charset in pieces)


def _piece(piece: bytes | str, charset: str | None) -> str:
    if isinstance(piece, bytes):
        return decoded(piece, charset or "")
    return decoded(piece.encode("utf-8", "surrogateescape"), "") if not piece.isascii() else piece
