"""What the desk takes and gives. The nouns of a case itself are in bot/cases.py, so that replies can word them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Protocol

from bot.cases import (
    ASKED_BACK,
    CLOSED,
    OPEN,
    REASONS,
    SETTLED,
    STATES,
    TAKEN,
    UNSETTLED,
    Asker,
    Card,
    Case,
    Event,
    Notice,
    Number,
    Picture,
    Words,
)
from bot.changes import ChangeCard
from bot.journal import Reply
from bot.state import State
from knowledge.errors import BedstampError
from knowledge.expert_answers import Understood
from knowledge.findings import Finding
from knowledge.tokens.nouns import SerialToken

__all__ = [
    "ASKED_BACK", "CLOSED", "OPEN", "REASONS", "SETTLED", "STATES", "TAKEN", "UNSETTLED", "Asker", "Card", "Case",
    "DeskError", "Digest", "Done", "Event", "Expected", "ExpertChannel", "Notice", "Number", "Opened", "Opening",
    "Picture", "Proposal", "Understood", "Words",
]  # fmt: skip


class DeskError(BedstampError):
    """Something cannot be done with a case as it stands; the text says why, in words for the expert who wanted it."""


@dataclass(frozen=True, slots=True)
class Opening:
    """A question that is to become a case. Made by `desk_for`.

    `reasons` are those of the design, `text` is what was asked, `state` where the conversation stands, `serials` the
    numbers it is about (none when no number was told). `message` is the number of the question in the journal, 0 when
    there is none. `notice` is what the desk itself has to say of it to experts, in a sentence; it stands on the card
    apart from the asker's words. `makers` are those that were said of each of the numbers, in their order; left out
    where every number is of the maker that the whole message names.
    """

    reasons: tuple[str, ...]
    text: str
    state: State
    serials: tuple[SerialToken, ...]
    asker: Asker
    message: int = 0
    pictures: tuple[Picture, ...] = ()
    notice: str = ""
    makers: tuple[tuple[str, ...], ...] = ()

    @property
    def named(self) -> tuple[str, ...]:
        """The makers that were said of its numbers, each once."""
        own = tuple(dict.fromkeys(maker for one in self.makers for maker in one))
        return own if self.makers else self.state.said.makers


@dataclass(frozen=True, slots=True)
class Expected:
    """What a question will come to, for the words to the asker, which are sent with the answer.

    `by` is the day on which they hear at the latest. `others` tells that somebody else waits for the same already,
    `again` that this person does.
    """

    by: datetime
    others: bool = False
    again: bool = False


@dataclass(frozen=True, slots=True)
class Opened:
    """A question was taken up: `is_new`, or `joined` to an open case. `replies` go to the experts."""

    case: Case
    is_new: bool
    joined: bool
    by: datetime
    replies: tuple[Reply, ...] = ()


@dataclass(frozen=True, slots=True)
class Proposal:
    """What was understood of an expert's words about a case, kept on disk until they press that it is right.

    `text` says to them what was understood, and what was not. `can_settle` is False when there is nothing to carry
    out: then `text` says why, and there is no button. `amends` tells that the case is settled already: then it is
    carried out with `Desk.amend`, and takes the place of what is stored. `replies` show that the case is taken.
    """

    id: int
    case: int
    expert: str
    words: str
    understood: Understood
    text: str
    can_settle: bool = True
    amends: bool = False
    replies: tuple[Reply, ...] = ()


@dataclass(frozen=True, slots=True)
class Done:
    """What came of a change. `is_done` is False when somebody else was first: then `finding` is what is stored.

    `text` tells it to the expert in one or two sentences. `replies` are to be queued: to those who wait, and the
    changed card to the experts. `may_amend` tells that the same proposal can be carried out with `Desk.amend`.
    """

    case: Case
    is_done: bool
    text: str
    replies: tuple[Reply, ...] = ()
    finding: Finding | None = None
    may_amend: bool = False


@dataclass(frozen=True, slots=True)
class Digest:
    """What experts hear once a day, and only when there is something.

    `new` are the cases since the last digest, `remind` those that wait so long that experts are reminded; `waiting`
    counts all that are not settled, `longest` is the oldest of them. A case is in one of the two lists at most.
    `changes` are changes of lists that have waited long for a second expert.
    """

    day: date
    new: tuple[Case, ...]
    remind: tuple[Case, ...]
    waiting: int
    longest: Case | None = None
    changes: tuple[ChangeCard, ...] = ()


class ExpertChannel(Protocol):
    """A way to experts and back to askers. Every key of a reply stays the same however often it is made.

    The methods make replies and do nothing else; they are called inside the transaction that changes the case.
    """

    @property
    def name(self) -> str:
        """The name of the channel: 'telegram', 'mail'. Askers of this name are told through it."""

    def card(self, card: Card) -> Sequence[Reply]:
        """Put a case before the experts of this channel; keys as in 'case12-card-telegram-1'."""

    def changed(self, card: Card) -> Sequence[Reply]:
        """Show what became of a case: a chat changes its card, mail sends nothing. Every `case.version` differs."""

    def tell(self, asker: Asker, notice: Notice, card: Card) -> Sequence[Reply]:
        """Tell something to somebody who waits, under their own message; `notice.key` is the key of the first reply."""

    def digest(self, digest: Digest) -> Sequence[Reply]:
        """Tell the experts once a day what waits; keys as in 'digest-2026-11-25-mail-1'."""

    def change(self, card: ChangeCard) -> Sequence[Reply]:
        """Put a change of a list before the experts, or show what became of it; keys as in 'change7-card-mail-1'."""
