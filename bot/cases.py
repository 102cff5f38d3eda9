"""The nouns of the expert desk that everybody knows who shows a case: plain values, without a file and a channel.

The desk itself (bot/expert_desk) keeps them; their words are in bot/replies/cards.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bot.state import State

OPEN, TAKEN, ASKED_BACK, SETTLED = "open", "taken", "asked back", "settled"
CLOSED = "closed without an answer"
STATES = (OPEN, TAKEN, ASKED_BACK, SETTLED, CLOSED)
"""The states of a case, as people read them."""
UNSETTLED = (OPEN, TAKEN, ASKED_BACK)
"""The states in which a case waits for somebody."""

REASONS = (
    "no-token", "no-register", "outside-registers", "undecided", "contradiction", "photo-only", "asked-for-a-person",
    "unreadable-mail",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture that came with a question. `content` is b'' while only the channel's own name for it (`ref`) is known.

    `kind` is its media type, '' when the channel did not say.
    """

    channel: str
    ref: str
    kind: str = ""
    content: bytes = b""


IN_PERSON = "in person"
"""The 'channel' of somebody who asked an expert by telephone or face to face: experts tell them themselves."""


@dataclass(frozen=True, slots=True)
class Asker:
    """Somebody who waits for the end of a case. `person` is the key in the journal, as in 'telegram:u12'.

    `route` is JSON text of the channel's own: how this person is reached. `text` is what they wrote, '' when it is not
    kept; `by` is the day they were told to hear at the latest. `id` is their place at the desk, 0 before they have one.
    """

    channel: str
    person: str
    route: str
    text: str = ""
    asked: datetime | None = None
    by: datetime | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class Number:
    """One number that a case is about. `finding` is the key of what was found out of it, '' while nothing is."""

    prefix: str
    digits: str
    suffix: str
    finding: str = ""

    @property
    def serial(self) -> str:
        """The number as it was typed, cleaned."""
        return self.prefix + self.digits + self.suffix


@dataclass(frozen=True, slots=True)
class Words:
    """What was said between experts and askers: `kind` is 'asked' (an expert) or 'said' (an asker).

    `is_another` tells that it was said by somebody else than whose question the case shows.
    """

    kind: str
    text: str
    at: datetime
    is_another: bool = False


@dataclass(frozen=True, slots=True)
class Event:
    """One change of a case. `who` is 'expert 3', 'asker' or 'desk', and names nobody; `more` are small facts."""

    at: datetime
    who: str
    what: str
    more: str = ""


@dataclass(frozen=True, slots=True)
class Case:
    """A question queued for the experts.

    `numbers` are those it is about, none when no number was told. `makers` are ids of the makers that the asker named.
    `reading` are lines that say what was read and which datings are possible, as they were when it was opened. `text`
    and `asked` (where that conversation stood) are of who asked first and is still known; empty when nobody is.
    `findings` are the keys of what was found out. `waiting` counts the people who asked. `expert` has the case
    ('expert 3', '' for nobody) until `lease`. `until` is the day after which those who asked are told that nobody
    knew. `version` grows with every change.
    """

    id: int
    state: str
    reasons: tuple[str, ...]
    numbers: tuple[Number, ...]
    makers: tuple[str, ...]
    reading: tuple[str, ...]
    text: str
    asked: State
    findings: tuple[str, ...]
    waiting: int
    expert: str
    lease: datetime | None
    opened: datetime
    changed: datetime
    until: datetime
    version: int

    @property
    def serials(self) -> tuple[str, ...]:
        """The numbers as they were typed, cleaned."""
        return tuple(one.serial for one in self.numbers)

    @property
    def is_unsettled(self) -> bool:
        """Whether it waits for somebody."""
        return self.state in UNSETTLED


@dataclass(frozen=True, slots=True)
class Card:
    """A case as it is put before experts: with its pictures, what was said since, open cases like it, its history.

    `found` are lines that say what is stored of its numbers; `note` is one line of news, '' when there is none.
    """

    case: Case
    pictures: tuple[Picture, ...] = ()
    said: tuple[Words, ...] = ()
    similar: tuple[Case, ...] = ()
    found: tuple[str, ...] = ()
    history: tuple[Event, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Notice:
    """Something to tell to somebody who waits. `key` is for the outbox: the same however often it is made.

    `kind` is 'settled', 'changed', 'withdrawn', 'question' (an answer to it is wanted), 'nobody-knew', 'not-ours' or
    'closed'. `text` may hold line breaks and no marks of style; it is safe to show. `quoted` is the beginning of what
    they had asked, '' when that is not kept.
    """

    key: str
    kind: str
    case: int
    text: str
    quoted: str = ""
