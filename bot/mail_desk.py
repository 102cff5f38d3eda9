"""One mail -> what comes of it: an answer, nothing (and by which rule), or set aside for the experts.

raw -> MailIn -> rules -> does it answer a card? -> yes: believed or reported (bot/mail_settling.py, mail_reports.py)
                                                 -> no: it may be a question (bot/mail_turn.py)

Nothing here waits; the journal keeps what is returned.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from bot.channels.mail_bounces import came_back
from bot.channels.mail_format import MailIn, read
from bot.channels.mail_quotes import Words
from bot.handling import Outcome, Recall, SetAside
from bot.journal import Incoming as Kept
from bot.journal import Talk
from bot.mail_account import desk
from bot.mail_adding import outcome_of
from bot.mail_answers import wrote_by_itself
from bot.mail_asking import Asking, Office
from bot.mail_belief import Believed, Claim, Doubt, believe, claim_of, doubt_without_address, expert_of
from bot.mail_changes import MOST_MAILS, TOPIC, ListTurn, named, new_words
from bot.mail_identity import person_key
from bot.mail_reading import Question
from bot.mail_reports import Report, card_came_back, reported
from bot.mail_rules import Desk, Verdict, is_from_own_list, judge
from bot.mail_searching import asked_in
from bot.mail_settling import MOST_TURNS, ExpertTurn, card_again, case_named
from bot.mail_talk import MailTalk, Thread
from bot.mail_turn import ForPeople, Turn, Writes, both
from bot.settings import MailSettings
from knowledge.base import Knowledge
from knowledge.register_changes.parting import is_for_a_list

_WORTH_A_REPORT = ("from-ourselves", "other-list", "bulk", "no-sender", "to-a-crowd")
"""Rules that stop a mail which no program sent: when it claims to be an expert's answer, the experts hear of it."""
NOT_BELIEVED, CASE_NAMED, ABOUT_LISTS = "not-believed", "case-named", "about-lists"


class MailDesk:
    """The handler of the mailbox. `now` tells the time; without an `office` nothing goes to experts."""

    def __init__(
        self, settings: MailSettings, group: str, now: Callable[[], datetime], office: Office | None = None
    ) -> None:
        self._settings, self._group, self._now, self._office = settings, group, now, office
        self._desk = desk(settings)

    def __call__(self, message: Kept, raw: bytes, recall: Recall, knowledge: Knowledge) -> Outcome:
        """Return what comes of a mail. Raises SetAside for one that cannot be read or understood but asks something."""
        mail = read(raw)
        if self._office and (why := self._office.why_unread(message)):
            self._unread(self._office, message, mail, why, recall, knowledge)
            raise SetAside(f"This mail was not read: {why}.")
        claim = None
        if self._office:
            claim = claim_of(mail, self._settings, self._office.channel.signer, self._now())
        verdict = judge(mail, self._desk)
        if verdict.rule:
            person = person_key(answer_to(mail, self._desk)) if mail.sender else ""
            writes = self._noticed(message, raw, mail, claim, verdict)
            return Outcome(rule=verdict.rule, person=person, writes=writes)
        if claim is None or self._office is None:
            found = self._of_an_expert(self._office, message, mail, recall, knowledge) if self._office else None
            return found or self._asked(message, mail, mail, recall, knowledge)
        doubt = believe(claim)
        if isinstance(doubt, Believed):
            result = self._expert_wrote(self._office, message, mail, doubt, recall, knowledge)
            if isinstance(result, Outcome):
                return result
            doubt = result
        return self._doubted(message, mail, claim, doubt, recall, knowledge)

    def _unread(
        self, office: Office, message: Kept, mail: MailIn, why: str, recall: Recall, knowledge: Knowledge
    ) -> None:
        """Make a case of a mail that the mailbox could not give whole, unless its head says that it needs no answer."""
        if not mail.sender:
            office.take_up_unread(message, why, self._now())
        elif not judge(mail, self._desk).rule:
            to = answer_to(mail, self._desk)
            talk = MailTalk.from_text(recall(person_key(to), person_key(to)))
            asking = Asking(office.desk(), office.journal(), message, mail, to, knowledge)
            asked = Question("", (), "unreadable", why)
            Turn(
                self._settings, self._group, message, mail, to, talk, Thread(), asked, knowledge, self._now(), asking
            ).to_experts(why)  # fmt: skip

    def _asked(self, message: Kept, mail: MailIn, asks: MailIn, recall: Recall, knowledge: Knowledge) -> Outcome:
        """Return what comes of a mail that may ask something; `asks` is that of it which may be a question."""
        to = answer_to(mail, self._desk)
        person = person_key(to)
        talk = MailTalk.from_text(recall(person, person))
        old = talk.thread_of(mail)
        asked = asked_in(asks, knowledge, in_known_thread=old is not None)
        office = self._office
        asking = Asking(office.desk(), office.journal(), message, mail, to, knowledge) if office else None
        turn = Turn(
            self._settings, self._group, message, mail, to, talk, old or Thread(), asked, knowledge, self._now(), asking
        )  # fmt: skip
        try:
            if asked.rule == "unreadable":
                raise ForPeople(f"This mail cannot be read: {asked.why}.")
            case = asking.asked_back(old is not None) if asking else None
            # Of a mail that claims to be an expert's nothing reaches a card, of a list's only what stays in its thread.
            may_add = asks is mail and (old is not None or not is_from_own_list(mail, self._desk))
            outcome = outcome_of(turn, old, may_add) if case is None else turn.answer_to_experts(case, old)
        except ForPeople as reason:
            turn.to_experts(asked.why or "it asks something that the lists do not answer")
            raise SetAside(str(reason)) from reason
        return replace(outcome, person=person)

    def _expert_wrote(
        self, office: Office, message: Kept, mail: MailIn, believed: Believed, recall: Recall, knowledge: Knowledge
    ) -> Outcome | Doubt:
        person = person_key(believed.expert)
        talk = MailTalk.from_text(recall(person, person))
        turn = ExpertTurn(message, mail, believed, office.channel, office.desk(), talk, knowledge, self._now())
        return turn.outcome()

    def _of_an_expert(
        self, office: Office, message: Kept, mail: MailIn, recall: Recall, knowledge: Knowledge
    ) -> Outcome | None:
        """Return what comes of a mail that says it is an expert's and answers none of ours; None for a question."""
        expert = expert_of(mail, self._settings)
        if not expert:
            return None
        found = self._wants_lists_changed(office, message, mail, recall, knowledge, expert)
        return found or self._names_a_case(office, message, mail, recall, expert)

    def _wants_lists_changed(
        self, office: Office, message: Kept, mail: MailIn, recall: Recall, knowledge: Knowledge, expert: str
    ) -> Outcome | None:
        """Show to an expert alone what their words would change, or a change that they name."""
        words, lists = new_words(mail), office.desk().lists
        if not is_for_a_list(words, knowledge) and not named(words, lists, knowledge):
            return None
        person = person_key(expert)
        if wrote_by_itself(mail):
            return Outcome(rule="says-it-is-automatic", person=person)
        doubt = doubt_without_address(mail, self._settings, office.channel.signer, self._now())
        if doubt is not None and doubt.rule == "through-a-list":
            return None  # experts talk to each other there
        if doubt is not None:
            report = self._report(message, mail, self._unsigned(office, mail), doubt.rule, doubt.why)
            return Outcome(rule=NOT_BELIEVED, person=person, writes=report)
        talk = MailTalk.from_text(recall(person, person))
        if talk.times_taken(TOPIC, self._now()) >= MOST_MAILS:
            return Outcome(rule="daily-limit", person=person)
        talk = talk.taking(self._now(), TOPIC)
        turn = ListTurn(message, mail, expert, office.channel, lists, knowledge)
        return Outcome(
            (), Talk(person, talk.as_text()), person, ABOUT_LISTS,
            lambda _, now: turn.written(words, now, beside_a_case=False) or (),
        )  # fmt: skip

    def _unsigned(self, office: Office, mail: MailIn) -> Claim:
        return Claim(mail, "", self._settings, office.channel.signer, self._now())

    def _names_a_case(
        self, office: Office, message: Kept, mail: MailIn, recall: Recall, expert: str
    ) -> Outcome | None:
        """An expert writes about a case without answering its card: that is no question, and no answer either."""
        case = case_named(mail, office.desk())
        if not case:
            return None
        person = person_key(expert)
        talk = MailTalk.from_text(recall(person, person))
        if talk.times_taken(CASE_NAMED, self._now()) >= MOST_TURNS:
            return Outcome(rule="daily-limit", person=person)
        talk = talk.taking(self._now(), CASE_NAMED)
        return Outcome(
            (), Talk(person, talk.as_text()), person, CASE_NAMED,
            lambda _, now: card_again(message, expert, case, office.channel, office.desk()),
        )  # fmt: skip

    def _doubted(
        self, message: Kept, mail: MailIn, claim: Claim, doubt: Doubt, recall: Recall, knowledge: Knowledge
    ) -> Outcome:
        """Report a mail that is not believed. What somebody asks in it, in words of their own, is still answered."""
        report = self._report(message, mail, claim, doubt.rule, doubt.why)
        left = Outcome(rule=NOT_BELIEVED, person=person_key(answer_to(mail, self._desk)), writes=report)
        if doubt.rule != "no-expert":
            return left
        try:
            own_words = replace(mail, subject="", words=Words(mail.words.own))
            outcome = self._asked(message, mail, own_words, recall, knowledge)
        except SetAside:
            return left
        return replace(outcome, rule=outcome.rule and NOT_BELIEVED, writes=both(outcome.writes, report))

    def _noticed(self, message: Kept, raw: bytes, mail: MailIn, claim: Claim | None, verdict: Verdict) -> Writes | None:
        """Return what to report of a mail that a rule stopped: a card that came back, or a claim to be an expert's."""
        if claim is not None and verdict.rule in _WORTH_A_REPORT:
            return self._report(message, mail, claim, str(verdict.rule), verdict.why)
        returned = came_back(raw) if self._office else None
        if returned is None or self._office is None:
            return None
        channel = self._office.channel
        return lambda journal, now: card_came_back(returned, message.id, channel, journal, now)

    def _report(self, message: Kept, mail: MailIn, claim: Claim, rule: str, why: str) -> Writes | None:
        if self._office is None:
            return None
        channel, report = self._office.channel, Report(rule, why, claim.about, message.id, claim.case)
        return lambda journal, now: reported(report, mail, channel, journal, now)


def answer_to(mail: MailIn, own: Desk) -> str:
    """Return whom to answer: Reply-To when it names one address, else From; in the group's list always From.

    This is a service that mail is addressed to, so that Reply-To may be followed (RFC 3834, section 4).
    """
    replies = set(mail.reply_to)
    return mail.reply_to[0] if len(replies) == 1 and not is_from_own_list(mail, own) else mail.sender
