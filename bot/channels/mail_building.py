"""A reply -> the bytes of a mail: text and HTML side by side, a picture inside, and a head nothing can break out of.

A card for the experts also carries the asker's pictures, as attachments.

The head is written here and not by the library, so that long identifiers stay whole and addresses beyond ASCII stay
as they are (RFC 6532). Everything a stranger wrote is brought onto one line first.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from email.charset import QP, Charset
from email.header import Header
from email.mime.base import MIMEBase
from email.mime.image import MIMEImage
from email.mime.multipart import MIMEMultipart
from email.mime.text import MIMEText
from email.policy import compat32
from email.utils import format_datetime, formataddr

from bot.channels.mail_headers import is_reply_subject, message_ids, one_line

PICTURE_ID = "picture"
"""Where the HTML refers to the picture: `cid:picture`."""
LONGEST_SUBJECT = 200  # characters
MOST_REFERENCES = 12
_LONGEST_ID = 400  # characters; RFC 5322 allows lines of 998
_ADDRESS = re.compile(r"[^\s<>,;:\"()\\\x00-\x1f@]+@[^\s<>,;:\"()\\\x00-\x1f@]+")
_POLICY = compat32.clone(linesep="\r\n")
_TEXT = Charset("utf-8")
_TEXT.body_encoding = QP


REPLIED, GENERATED = "auto-replied", "auto-generated"
"""RFC 3834, section 5: an answer to a mail, and a mail that nobody's mail caused."""
_BEGINNINGS = (
    (b"\x89PNG", "png"), (b"\xff\xd8\xff", "jpeg"), (b"GIF8", "gif"), (b"BM", "bmp"), (b"II*\0", "tiff"),
    (b"MM\0*", "tiff"), (b"RIFF", "webp"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Draft:
    """A mail to be built. `references` is the whole thread, oldest first; `picture` is PNG, b'' for none.

    `message_id` is fixed before the mail is sent, so that sending again sends the same mail. `photos` are pictures by
    strangers, attached as they came under names of our own. `automatic` is REPLIED or GENERATED.
    """

    sender: str
    sender_name: str
    recipient: str
    subject: str
    message_id: str
    date: datetime
    text: str
    html: str = ""
    picture: bytes = b""
    in_reply_to: str = ""
    references: tuple[str, ...] = ()
    photos: tuple[bytes, ...] = ()
    automatic: str = REPLIED


def build(draft: Draft) -> bytes:
    """Return the mail, its lines ended by CR LF. Raises ValueError when an address or the identifier is none."""
    return b"\r\n".join([*_head(draft), _body(draft)])


def reply_subject(subject: str) -> str:
    """Return a subject for an answer: kept, with one Re: in front.

    >>> reply_subject("Aw: re: How old?\\r\\nBcc: x@y.example"), reply_subject("")
    ('Aw: re: How old? Bcc: x@y.example', 'Re: your mail')
    """
    subject = one_line(subject)[:LONGEST_SUBJECT]
    if is_reply_subject(subject):
        return subject
    return f"Re: {subject or 'your mail'}"


def thread(references: Sequence[str], message_id: str) -> tuple[str, ...]:
    """Return the References of an answer (RFC 5322, section 3.6.4), bounded: the first and the last ones stay."""
    whole = list(dict.fromkeys(one for one in (*references, message_id) if one and len(one) <= _LONGEST_ID))
    if len(whole) > MOST_REFERENCES:
        whole = [whole[0], *whole[1 - MOST_REFERENCES :]]
    return tuple(whole)


def _head(draft: Draft) -> list[bytes]:
    fields = [
        ("From", _mailbox(draft.sender_name, draft.sender)),
        ("To", _address(draft.recipient)),
        ("Subject", _folded(draft.subject, "Subject")),
        ("Date", format_datetime(draft.date)),
        ("Message-ID", _identifier(draft.message_id)),
        ("In-Reply-To", "\r\n ".join(message_ids(draft.in_reply_to)[:1])),
        ("References", "\r\n ".join(one for value in draft.references for one in message_ids(value)[:1])),
        ("Auto-Submitted", draft.automatic),
        ("X-Auto-Response-Suppress", "All"),
        ("MIME-Version", "1.0"),
    ]
    return [f"{name}: {value}".encode() for name, value in fields if value]


def _body(draft: Draft) -> bytes:
    """Return the rest: the head of the content, and the content."""
    content: MIMEBase = MIMEText(draft.text, "plain", _TEXT)  # type: ignore[arg-type]  # takes a Charset
    if draft.html:
        rich: MIMEBase = MIMEText(draft.html, "html", _TEXT)  # type: ignore[arg-type]
        if draft.picture:
            related = MIMEMultipart("related", _boundary(draft, "r"), [rich, _picture(draft.picture)], type="text/html")
            rich = related
        content = MIMEMultipart("alternative", _boundary(draft, "a"), [content, rich])
    if draft.photos:
        photos = [_photo(at, one) for at, one in enumerate(draft.photos, 1)]
        content = MIMEMultipart("mixed", _boundary(draft, "m"), [content, *photos])
    for part in content.walk():
        del part["MIME-Version"]
    return content.as_bytes(policy=_POLICY)


def _picture(content: bytes) -> MIMEImage:
    part = MIMEImage(content, "png")
    part.add_header("Content-ID", f"<{PICTURE_ID}>")
    part.add_header("Content-Disposition", "inline", filename="where-it-stands.png")
    return part


def _photo(number: int, content: bytes) -> MIMEImage:
    kind = next((kind for beginning, kind in _BEGINNINGS if content.startswith(beginning)), "octet-stream")
    part = MIMEImage(content, kind)
    part.add_header("Content-Disposition", "attachment", filename=f"photo-{number}.{kind}")
    return part


def _boundary(draft: Draft, kind: str) -> str:
    """Return a boundary that is the same each time the same mail is built, and cannot stand in quoted-printable."""
    return f"=_{kind}_{re.sub('[^A-Za-z0-9]', '', draft.message_id)[:40]}"


def _mailbox(name: str, address: str) -> str:
    if not address.isascii():
        return f'"{re.sub(chr(92) * 2 + "|" + chr(34), "", one_line(name))}" <{_address(address)}>'
    return formataddr((one_line(name)[:80], _address(address)))


def _address(address: str) -> str:
    if not _ADDRESS.fullmatch(address):
        raise ValueError("this is no mail address that can be written to")
    return address


def _identifier(value: str) -> str:
    if message_ids(value) != [value]:
        raise ValueError("this is no message identifier")
    return value


def _folded(text: str, name: str) -> str:
    text = one_line(text)
    header = Header(text, "us-ascii" if text.isascii() else "utf-8", maxlinelen=76, header_name=name)
    return header.encode(linesep="\r\n")
