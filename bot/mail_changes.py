"""An expert's mail about a change of a list: shown to them, proposed after their yes, agreed to by another's yes.

    new words         -> understood, shown to their expert alone (an 'offer'); nothing is kept of it yet
    yes to that       -> proposed: every expert gets it, each with an address that was signed for this change and them
    another's yes     -> in force, and every expert hears of it

Only mails that are believed come here (bot/mail_belief.py). A mail with new words needs no signed address, because its
expert alone is shown what it would do; both kinds of yes do.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.channels.mail_building import thread
from bot.channels.mail_format import MailIn
from bot.channels.mail_headers import bare_subject
from bot.expert_desk import DeskError
from bot.expert_desk.change_offers import ListDesk
from bot.journal import Incoming as Kept
from bot.journal import Reply
from bot.mail_answers import own_words, says_yes, turned_down
from bot.mail_experts import MailExperts, Route
from bot.mail_identity import person_key
from bot.mail_signing import Address, Kind
from bot.replies.changes import TOO_MANY
from knowledge.base import Knowledge
from knowledge.register_changes.nouns import ChangeError
from knowledge.register_changes.parting import is_for_a_list, parted
from knowledge.register_changes.reading import HOW, Unclear, read_change

KINDS = (Kind.OFFER, Kind.AGREE)
"""The signed addresses that are about lists."""
MOST_MAILS = 40
"""Mails of one expert with new changes in a day: a long list by hand, and an end to every loop."""
TOPIC = "changes of lists"
_NAMED = re.compile(r"\s*change\s*(?:no\.?|nr\.?|#)?\s*(\d{1,6})\b(?!\s*(?:[-–—]|to\b)\s*\d)", re.IGNORECASE)
_NOT_KEPT = "Then nothing is kept. To propose another change, write it in a reply to this mail."
_YES_OR_NO = (
    "I cannot tell whether that is a yes. Reply with yes alone to agree, or with no, and behind it why, to turn it "
    "down; whoever proposed it takes it back so."
)
_YES_OR_ANEW = f"I cannot tell whether that is a yes. Reply with yes alone, or write the change anew. {HOW}"
_NOT_BY_REPLY = (
    "You wrote about this change without replying to its mail, so I could not know that it was you. Nothing came of "
    "it. Please reply to this mail."
)


@dataclass(frozen=True, slots=True)
class ListTurn:
    """One believed mail that is about lists, with all it takes to carry it out. Used in the open transaction."""

    message: Kept
    mail: MailIn
    expert: str
    experts: MailExperts
    lists: ListDesk
    knowledge: Knowledge

    def written(self, words: str, now: datetime, *, beside_a_case: bool) -> Sequence[Reply] | None:
        """Return what comes of words that want lists changed, or name a change; None for all others."""
        if not beside_a_case and (number := named(words, self.lists, self.knowledge)):
            card = self.lists.change_card(number)
            return (self.experts.change_again(self.expert, card, _NOT_BY_REPLY, self.message.id),)
        is_for_us = is_for_a_list(words, self.knowledge, beside_a_case=beside_a_case)
        return self._offered(words, now) if is_for_us else None

    def answered(self, address: Address, words: str, now: datetime) -> Sequence[Reply]:
        """Return what comes of an answer to an offer or to a change."""
        if is_for_a_list(words, self.knowledge):
            return self._offered(words, now)
        about = "Your change of a list" if address.kind is Kind.OFFER else f"Change {address.number}"
        try:
            if address.kind is Kind.OFFER:
                return self._of_an_offer(address.number, words, now)
            return self._of_a_change(address.number, words, now)
        except (DeskError, ChangeError) as fault:
            return (self._told(about, str(fault)),)

    def _offered(self, words: str, now: datetime) -> tuple[Reply, ...]:
        found = parted(words)
        mails = [self._offer(one, found.why, at, now) for at, one in enumerate(found.changes)]
        more = [self._told("Changes of lists", TOO_MANY.format(left=found.left), "left")] if found.left else []
        return (*mails, *more)

    def _offer(self, words: str, why: str, place: int, now: datetime) -> Reply:
        try:
            offer = self.lists.offer_words(self._person, words, self.knowledge, now, why)
        except (DeskError, ChangeError) as fault:
            return self._told("Your change of a list", f"{fault}\n\nYou wrote: {words}", f"change{place}")
        return self.experts.offered(self.expert, offer, why, self._thread)

    def _of_an_offer(self, offer: int, words: str, now: datetime) -> Sequence[Reply]:
        if says_yes(words, self.knowledge):
            made = self.lists.accept(offer, self._person, self.knowledge, now)
            already = (self._told(f"Change {made.change.number}", made.already),) if made.already else ()
            return (*already, *made.replies)
        is_no = turned_down(words) is not None
        return (self._told("Your change of a list", _NOT_KEPT if is_no else _YES_OR_ANEW),)

    def _of_a_change(self, number: int, words: str, now: datetime) -> Sequence[Reply]:
        if says_yes(words, self.knowledge):
            return self.lists.agree(number, self._person, now).replies
        why = turned_down(words)
        if why is None:
            return (self._told(f"Change {number}", _YES_OR_NO),)
        return self.lists.turn_down(number, self._person, now, why).replies

    @property
    def _person(self) -> str:
        return person_key(self.expert)

    def _told(self, lead: str, text: str, name: str = "") -> Reply:
        return self.experts.told(self.expert, f"{self.message.key}{name}", lead, text, self._thread)

    @property
    def _thread(self) -> Route:
        mail = self.mail
        return Route(mail.sender, mail.subject, mail.message_id, thread(mail.references, mail.message_id))


def new_words(mail: MailIn) -> str:
    """Return what a mail says that answers nothing: its own words, or the subject of one without any."""
    return own_words(mail) or ("" if mail.is_reply else bare_subject(mail.subject))


def named(words: str, lists: ListDesk, knowledge: Knowledge) -> int:
    """Return the change that words begin with, 0 for none: 'change 7: yes'."""
    found = _NAMED.match(words)
    if found is None or not isinstance(read_change(words, knowledge), Unclear):
        return 0
    try:
        return lists.change_card(int(found[1])).number
    except ChangeError:
        return 0
