"""The expert desk: from a hard question to a finding and back to everybody who asked.

    hard.py       which answers become a case (desk_for)
    taking_up.py  a question joins the case of the same question, or becomes one
    life.py       taken, given back, asked back, closed
    proposing.py  an expert's words -> what is understood of them, kept to be pressed
    settling.py   at the press a finding, and everybody is told; amended and taken back
    timers.py     leases, the stated day, the experts' digest
    errands.py    what the terminal leaves to the running bot
    register_changes.py  one expert proposes a change of a list, another agrees; change_cards.py shows it to all,
                  change_offers.py keeps it until its own expert has said yes

It lies in the journal's file and works over the journal's connection: every method joins the transaction that is open,
or makes its own. Nothing in it awaits. It knows no channel; the channels are handed in (`ExpertChannel`).
"""

from __future__ import annotations

from bot.expert_desk.change_offers import ListDesk
from bot.expert_desk.errands import Errands
from bot.expert_desk.hard import cannot_say, desk_for, heard
from bot.expert_desk.nouns import (
    ASKED_BACK,
    CLOSED,
    OPEN,
    SETTLED,
    STATES,
    TAKEN,
    UNSETTLED,
    Asker,
    Card,
    Case,
    DeskError,
    Digest,
    Done,
    Event,
    Expected,
    ExpertChannel,
    Notice,
    Number,
    Opened,
    Opening,
    Picture,
    Proposal,
    Words,
)

__all__ = [
    "ASKED_BACK", "CLOSED", "OPEN", "SETTLED", "STATES", "TAKEN", "UNSETTLED", "Asker", "Card", "Case", "Desk",
    "DeskError", "Digest", "Done", "Event", "Expected", "ExpertChannel", "Notice", "Number", "Opened", "Opening",
    "Picture", "Proposal", "Words", "cannot_say", "desk_for", "heard",
]  # fmt: skip


class Desk(Errands):
    """The whole desk: `Desk(clerk.journal, channels)`. Making one is cheap; it holds nothing but the connection."""

    @property
    def lists(self) -> ListDesk:
        """The desk for changes of lists, with the same journal and channels."""
        return ListDesk(self._journal, self._channels)
