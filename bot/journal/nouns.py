"""What the journal takes and gives."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from knowledge.errors import BedstampError


class JournalError(BedstampError):
    """The journal was asked for something that does not fit what it holds; the text says what."""


@dataclass(frozen=True, slots=True)
class Incoming:
    """A message that came in. Its bytes are fetched apart, with `Journal.raw`, because they may be 25 MB.

    `key` tells it from every other of its channel; `place` is where the other side keeps it, '' when nowhere.
    `state` is `waiting`, `handled` or `aside`; `tries` counts the times that handling it failed, `begun` the times
    that the program ended while it was in hand. `rule` is the rule that left it without an answer, '' for none.
    `person` and `conversation` are '' until it was read once.
    """

    id: int
    channel: str
    key: str
    place: str
    received: datetime
    size: int
    state: str
    tries: int
    begun: int
    conversation: str
    person: str
    rule: str
    reason: str


@dataclass(frozen=True, slots=True)
class Reply:
    """A message to be sent, finished to the last byte, so that trying again sends the very same.

    `key` is unique in its channel and never changes (in mail the Message-ID). `person` is whom it concerns, and
    `conversation` where an answer to it belongs; '' for neither.
    """

    channel: str
    key: str
    recipient: str
    body: bytes
    person: str = ""
    conversation: str = ""


@dataclass(frozen=True, slots=True)
class Outgoing:
    """A message in the outbox. `state` is `queued`, `sending`, `sent`, `uncertain` or `failed`.

    `tries` counts the times it was put off or left uncertain, `unsure` only the latter; `remote` is the name that
    the other side gave it; `answers` the message it answers.
    """

    id: int
    channel: str
    key: str
    recipient: str
    queued: datetime
    answers: int | None
    conversation: str
    person: str
    state: str
    tries: int
    unsure: int
    reason: str
    remote: str
    body: bytes


@dataclass(frozen=True, slots=True)
class Talk:
    """The state of one conversation, as JSON text; `key` tells it from every other of all channels."""

    key: str
    state: str
