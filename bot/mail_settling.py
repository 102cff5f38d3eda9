"""An expert's mail that is believed: what it says is shown, kept after a yes, asked back or closed, in one transaction.

    own words -> said before? -> a yes to what was shown: carried out
                               -> anything else: understood anew and shown; nothing of it is kept

An expert's answer is never read as a question of theirs, whatever it says.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime

from bot.channels.mail_building import thread
from bot.channels.mail_format import MailIn
from bot.channels.mail_headers import bare_subject
from bot.expert_desk import Desk, DeskError, Proposal
from bot.handling import Outcome
from bot.journal import Incoming as Kept
from bot.journal import Reply, Talk
from bot.mail_answers import is_no, own_words, says_yes, wrote_by_itself
from bot.mail_belief import Believed, Doubt
from bot.mail_changes import KINDS, ListTurn
from bot.mail_experts import MailExperts, Route
from bot.mail_identity import case_of_id, person_key
from bot.mail_signing import Kind
from bot.mail_talk import MailTalk
from bot.replies import cards, mail_cards
from knowledge.base import Knowledge
from knowledge.expert_answers import ASK_BACK, NOT_OURS

MOST_TURNS = 12
"""Mails of one expert about one case in a day: enough to get it right, and an end to every loop."""
_NAMED = re.compile(
    r"\s*(?:(?:case|fall|cas|caso|zaak|sprawa)\s*(?:no\.?|nr\.?)?\s*#?|#)\s*(\d{1,9})\b\s*[:.,)–-]*\s*", re.IGNORECASE
)
_NO_CASE = (
    "I cannot tell which case that is about. Reply to the mail of the case itself, or begin with its number, as in: "
    "case 12: Model 9, about 1911, by the shuttle."
)
_TOO_MANY = (
    "You wrote {most} mails about this today, and more I do not read in a day, so that no program keeps me busy. "
    "Your last one is kept, and nothing came of it. Please write again tomorrow."
)
_NOT_KEPT = "Then nothing is kept. Write how it is in a reply to this mail, and I read it anew."
_CARD_AGAIN = (
    "You wrote about this case without replying to its mail, so I could not know that it was you. Nothing came of it. "
    "Please reply to this mail."
)
_WRITTEN_AGAIN = "You wrote again since. Say yes to the mail with what I understood last."


@dataclass(frozen=True, slots=True)
class ExpertTurn:
    """One believed mail, with all it takes to carry it out."""

    message: Kept
    mail: MailIn
    believed: Believed
    experts: MailExperts
    desk: Desk
    talk: MailTalk
    knowledge: Knowledge
    at: datetime

    def outcome(self) -> Outcome | Doubt:
        """Return what comes of it; a doubt when there are no new words of the expert's in it."""
        words, who = own_words(self.mail), self.person
        if wrote_by_itself(self.mail):
            return Outcome(rule="says-it-is-automatic", person=who)
        if not words:
            return Doubt("no-own-words", "it holds nothing that the expert wrote now, only what is quoted or attached")
        is_again = self.believed.address.kind not in KINDS and self.talk.was_taken(self._as_said(words))
        if is_again or self.talk.was_taken(self.mail.message_id):
            return Doubt("repeated", "the same mail, or the same words about this, came before")
        if self.talk.times_taken(self._topic, self.at) >= MOST_TURNS:
            return self._over_the_limit()
        talk = self.talk.taking(self.at, self._topic, self._as_said(words), self.mail.message_id)
        return Outcome(
            (), Talk(who, talk.as_text()), who, "experts-answer", lambda _, now: self._carried_out(words, now)
        )

    @property
    def person(self) -> str:
        """Who the expert is in the journal."""
        return person_key(self.believed.expert)

    @property
    def _topic(self) -> str:
        address = self.believed.address
        return f"{address.kind.value if address.kind in KINDS else 'case'} {address.number}"

    def _over_the_limit(self) -> Outcome:
        """Say so once, then nothing more for a day: a program that answers everything ends here."""
        notice = f"{self._topic} has too many mails"
        if self.talk.times_taken(notice, self.at):
            return Outcome(rule="daily-limit", person=self.person)
        talk = self.talk.taking(self.at, notice)
        told = self._told("Too many mails", _TOO_MANY.format(most=MOST_TURNS))
        return Outcome((told,), Talk(self.person, talk.as_text()), self.person, "daily-limit")

    def _as_said(self, words: str) -> str:
        address = self.believed.address
        return f"{address.kind.value} {address.number}.{address.part}\n{words.lower()}"

    def _carried_out(self, words: str, now: datetime) -> Sequence[Reply]:
        address = self.believed.address
        lists = ListTurn(
            self.message, self.mail, self.believed.expert, self.experts, self.desk.lists, self.knowledge
        )  # fmt: skip
        if address.kind in KINDS:
            return lists.answered(address, words, now)
        about_lists = lists.written(words, now, beside_a_case=address.kind is not Kind.DAY)
        return self._about_a_case(words, now) if about_lists is None else about_lists

    def _about_a_case(self, words: str, now: datetime) -> Sequence[Reply]:
        address = self.believed.address
        try:
            if address.kind in (Kind.READ, Kind.AMEND) and says_yes(words, self.knowledge):
                return self._settled(address.number, address.part, address.kind is Kind.AMEND, now)
            if address.kind in (Kind.READ, Kind.AMEND) and is_no(words):
                return (self._told(f"Case {address.number}", _NOT_KEPT),)
            if address.kind is not Kind.DAY:
                return self._proposed(address.number, words, now)
            named = _NAMED.match(words)
            if named is None:
                return (self._told("Which case?", _NO_CASE),)
            return self._proposed(int(named[1]), words[named.end() :], now)
        except DeskError as fault:
            return self._not_done("Your answer", fault)

    def _proposed(self, case: int, words: str, now: datetime) -> Sequence[Reply]:
        """Show what was understood. What only asks back or closes needs no yes when it is clear: it keeps nothing."""
        proposal = self.desk.propose(case, self.person, words, self.knowledge, now)
        if _is_plain(proposal):
            return (*proposal.replies, *self._settled(case, proposal.id, False, now))
        mail = self.experts.understood(self.believed.expert, proposal, self.desk.case(case), self._thread)
        return (*proposal.replies, mail)

    def _settled(self, case: int, proposal: int, amends: bool, now: datetime) -> Sequence[Reply]:
        carry_out = self.desk.amend if amends else self.desk.settle
        try:
            done = carry_out(proposal, self.person, now)
        except DeskError as fault:
            return self._not_done(f"Case {case}", fault)
        text = done.text
        if done.may_amend:
            text += "\nIf yours is to take its place, write it once more in a reply to the mail of the case."
        return (*done.replies, self._told(mail_cards.title(self.desk.case(case)), text))

    def _not_done(self, lead: str, fault: DeskError) -> Sequence[Reply]:
        text = _WRITTEN_AGAIN if str(fault) == cards.WRITTEN_AGAIN else str(fault)
        return (self._told(lead, text),)

    def _told(self, lead: str, text: str) -> Reply:
        return self.experts.told(self.believed.expert, self.message.key, lead, text, self._thread)

    @property
    def _thread(self) -> Route:
        mail = self.mail
        return Route(mail.sender, mail.subject, mail.message_id, thread(mail.references, mail.message_id))


def case_named(mail: MailIn, desk: Desk) -> int:
    """Return the case that a mail names in its first words, its subject, or by the mail it answers; 0 for none."""
    named = _NAMED.match(own_words(mail)) or _NAMED.match(bare_subject(mail.subject))
    with suppress(DeskError):
        return desk.case(int(named[1]) if named else case_of_id(mail.in_reply_to)).id
    return 0


def card_again(message: Kept, expert: str, case: int, experts: MailExperts, desk: Desk) -> Sequence[Reply]:
    """Send a card once more to an expert who named a case without answering its card: only that can be believed."""
    return (experts.card_again(expert, desk.card(case, _CARD_AGAIN), message.id),)


def _is_plain(proposal: Proposal) -> bool:
    kind = proposal.understood.kind
    is_clear = proposal.can_settle and not proposal.understood.unclear
    return is_clear and not proposal.amends and kind in (ASK_BACK, NOT_OURS)
