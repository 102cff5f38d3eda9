"""One mail -> what comes of it: an answer, nothing (and by which rule), or set aside for the experts.

raw -> MailIn -> rules -> does it answer a card? -> yes: believed or reported (bot/mail_settling.py, mail_reports.py)
                                                 -> no: question -> conversation -> reply in text, HTML and picture

What the lists do not settle goes to the experts in the same transaction, and the reply says so (bot/mail_asking.py).
Nothing here waits; the journal keeps what is returned.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot import pictures
from bot.cases import Case
from bot.channels.mail_bounces import came_back
from bot.channels.mail_building import Draft, build, reply_subject, thread
from bot.channels.mail_format import MailIn, read
from bot.channels.mail_quotes import Words
from bot.conversation import NOT_UNDERSTOOD, Incoming, Outgoing, asked_again, reply
from bot.handling import Outcome, Recall, SetAside
from bot.journal import Incoming as Kept
from bot.journal import Journal, Reply, Talk
from bot.mail_account import desk
from bot.mail_asking import NOT_READ, PASSED_ON, Asking, Office
from bot.mail_belief import Believed, Claim, Doubt, believe, claim_of, expert_of
from bot.mail_identity import CHANNEL, own_id, person_key
from bot.mail_reading import Question, acknowledges, question
from bot.mail_reports import Report, card_came_back, reported
from bot.mail_rules import Desk, Verdict, is_from_own_list, judge
from bot.mail_settling import MOST_TURNS, ExpertTurn, card_again, case_named
from bot.mail_talk import MailTalk, Thread, bounded, subject_key
from bot.pictures.png import as_png
from bot.replies.mail import Part, People, compose
from bot.settings import MailSettings
from bot.small_talk import GOODBYE, HELLO, WELCOME
from bot.state import State
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import Candidate

_KIND_WORDS = (WELCOME, GOODBYE, HELLO)
_ALIKE = 10  # datings that are compared to tell whether an answer says anything new
_WORTH_A_REPORT = ("from-ourselves", "other-list", "bulk", "no-sender", "to-a-crowd")
"""Rules that stop a mail which no program sent: when it claims to be an expert's answer, the experts hear of it."""
NOT_BELIEVED, CASE_NAMED = "not-believed", "case-named"


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
        claim = None
        if self._office:
            claim = claim_of(mail, self._settings, self._office.channel.signer, self._now())
        verdict = judge(mail, self._desk)
        if verdict.rule:
            person = person_key(answer_to(mail, self._desk)) if mail.sender else ""
            writes = self._noticed(message, raw, mail, claim, verdict)
            return Outcome(rule=verdict.rule, person=person, writes=writes)
        if claim is None or self._office is None:
            named = self._names_a_case(self._office, message, mail, recall) if self._office else None
            return named or self._asked(message, mail, mail, recall, knowledge)
        doubt = believe(claim)
        if isinstance(doubt, Believed):
            result = self._expert_wrote(self._office, message, mail, doubt, recall, knowledge)
            if isinstance(result, Outcome):
                return result
            doubt = result
        return self._doubted(message, mail, claim, doubt, recall, knowledge)

    @property
    def limit(self) -> int:
        """The most answers to one person in a day."""
        return self._settings.answers_per_day

    def draft(self, message: Kept, mail: MailIn, to: str, at: datetime, number: int) -> Draft:
        """Return an answer to a mail that has no text yet."""
        return Draft(
            sender=self._settings.address,
            sender_name=self._group,
            recipient=to,
            subject=reply_subject(mail.subject),
            message_id=own_id(message.key, number, self._settings.address),
            date=at,
            text="",
            in_reply_to=mail.message_id,
            references=thread(mail.references or ((mail.in_reply_to,) if mail.in_reply_to else ()), mail.message_id),
        )

    @property
    def group(self) -> str:
        """What the group is called."""
        return self._group

    def _asked(
        self, message: Kept, mail: MailIn, asks: MailIn, recall: Recall, knowledge: Knowledge
    ) -> Outcome:
        """Return what comes of a mail that may ask something; `asks` is that of it which may be a question."""
        to = answer_to(mail, self._desk)
        person = person_key(to)
        talk = MailTalk.from_text(recall(person, person))
        old = talk.thread_of(mail)
        asked = question(asks, knowledge, in_known_thread=old is not None)
        office = self._office
        asking = Asking(office.desk(), office.journal(), message, mail, to, knowledge) if office else None
        turn = _Turn(self, message, mail, to, talk, old or Thread(), asked, knowledge, self._now(), asking)
        try:
            if asked.rule == "unreadable":
                raise ForPeople(f"This mail cannot be read: {asked.why}.")
            case = asking.asked_back(old is not None) if asking else None
            outcome = turn.outcome(old) if case is None else turn.answer_to_experts(case, old)
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

    def _names_a_case(self, office: Office, message: Kept, mail: MailIn, recall: Recall) -> Outcome | None:
        """An expert writes about a case without answering its card: that is no question, and no answer either."""
        expert = expert_of(mail, self._settings)
        case = case_named(mail, office.desk()) if expert else 0
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
        channel, report = self._office.channel, Report(rule, why, claim.about, message.id)
        return lambda journal, now: reported(report, mail, channel, journal, now)


class ForPeople(SetAside):
    """Raised for a mail that asks something which only people can answer: it is set aside, and becomes a case."""


Writes = Callable[[Journal, datetime], Sequence[Reply]]


def both(first: Writes | None, second: Writes | None) -> Writes | None:
    """Return one thing to write down that is two, in this order."""
    if first is None or second is None:
        return first or second
    return lambda journal, now: (*first(journal, now), *second(journal, now))


@dataclass(frozen=True, slots=True)
class _Turn:
    """One mail that no rule stopped, with all that is known of it."""

    desk: MailDesk
    message: Kept
    mail: MailIn
    to: str
    talk: MailTalk
    thread: Thread
    asked: Question
    knowledge: Knowledge
    at: datetime
    asking: Asking | None = None

    def outcome(self, old: Thread | None) -> Outcome:
        if self.asked.rule:
            return Outcome(rule=self.asked.rule)
        if len(self.asked.text) > 3 and self.talk.was_said(self._fingerprint(), self.at):
            return Outcome(rule="asked-already")
        if self.talk.answers_lately(self.at) >= self.desk.limit:
            return self._over_the_limit()
        state, outgoing = reply(Incoming(self.asked.text, self.mail.has_picture), self.thread.state, self.knowledge)
        if rule := self._is_left(outgoing, old):
            return Outcome(rule=rule)
        return self._answer(state, outgoing, old)

    def _fingerprint(self) -> str:
        """What tells a question from another: its words, and the open question that short words may answer."""
        open_ = self.thread.state.asked
        return f"{self.asked.text}\n{open_.text if open_ and len(self.asked.text) < 40 else ''}"

    def _is_left(self, outgoing: list[Outgoing], old: Thread | None) -> str:
        """Return the rule by which an answer is left out that would say nothing new: no loop lives on such answers.

        Raises SetAside where a person may have written all the same.
        """
        texts = [one.words for one in outgoing if one.words]
        answers = [one.answer for one in outgoing if one.answer is not None]
        if any(text in _KIND_WORDS for text in texts):
            return "small-talk"
        this = told(answers, 1 if old is None else _ALIKE)
        if this and all(self.talk.was_said(one, self.at) for one in this):
            return self._left("asked-already" if old is None else "nothing-new", answers)
        if old is None:
            return ""
        asked = old.state.asked
        if NOT_UNDERSTOOD in texts or (asked is not None and asked_again(asked) in texts) or _are_empty(answers):
            return self._left("nothing-new", answers)
        if acknowledges(self.asked.text):
            raise SetAside("This answer to one of ours reads as if a program had written it.")
        return ""

    def _left(self, rule: str, answers: list[Answer]) -> str:
        if "?" in self.asked.text and not acknowledges(self.asked.text) and (not answers or _are_empty(answers)):
            raise ForPeople("This mail asks something more that the lists do not answer.")
        return rule

    def _answer(self, state: State, outgoing: list[Outgoing], old: Thread | None) -> Outcome:
        draft = self.desk.draft(self.message, self.mail, self.to, self.at, 1)
        parts = [Part(one.words, one.answer, one.kind == "places", one.again, one.told) for one in outgoing]
        answers = [one.answer for one in outgoing if one.answer is not None]
        asking = self.asking
        opening = asking.opening(self.asked.text, self.thread.state, state, outgoing, draft) if asking else None
        look = asking.will_look(opening, self.at) if asking and opening else ""
        drawable = (one.answer for one in parts if one.answer and not one.places)
        shown = next((answer for answer in drawable if pictures.can_draw(answer)), None)
        picture = pictures.lay_out(shown, self.knowledge) if shown else None
        described = picture.description if picture else ""
        people = People(self.desk.group, look, bool(asking))
        mail_text = compose(parts, self.knowledge, people, draft.subject, described)
        draft = replace(draft, text=mail_text.text, html=mail_text.html, picture=as_png(picture) if picture else b"")
        ids = bounded((*self.thread.ids, self.mail.message_id, draft.message_id))
        new = Thread(ids, subject_key(self.mail.subject), state)
        talk = self.talk.with_thread(old, new).answered(self.at, self._fingerprint(), *told(answers), *told(answers, 1))
        outcome = self._sent(draft, talk)
        if asking is None:
            return outcome
        return replace(outcome, writes=lambda _, now: asking.taken_up(opening, bool(answers), now))

    def answer_to_experts(self, case: Case, old: Thread | None) -> Outcome:
        """Return what comes of a mail that may answer what experts asked: it is handed on, and answered as well."""
        try:
            outcome = self.outcome(old)
        except SetAside:
            outcome = Outcome()
        draft = self.desk.draft(self.message, self.mail, self.to, self.at, 2)
        if not outcome.replies:
            outcome = self._sent(self._in_words(draft, PASSED_ON), self.talk.answered(self.at))
        asking = self.asking
        if asking is None:
            return outcome
        words = self.asked.text
        return replace(
            outcome, writes=both(outcome.writes, lambda _, now: asking.passed_on(case, words, draft, now))
        )

    def to_experts(self, why: str) -> None:
        """Make a case of a mail that is set aside, and tell the asker so, when nothing was said to them lately.

        It has a transaction of its own, before the mail is set aside: done again, it joins what it made the first time.
        """
        if self.asking is None:
            return
        draft = self.desk.draft(self.message, self.mail, self.to, self.at, 1)
        opening = self.asking.unread(why, draft)
        words = NOT_READ.format(why=why, look=self.asking.will_look(opening, self.at))
        self.asking.set_aside(opening, self._reply(self._in_words(draft, words)), self.at)

    def _over_the_limit(self) -> Outcome:
        if self.talk.was_noticed(self.at):
            return Outcome(rule="daily-limit")
        draft = self.desk.draft(self.message, self.mail, self.to, self.at, 1)
        words = _notice(self.desk.limit, self.desk.group)
        outcome = self._sent(self._in_words(draft, words), replace(self.talk, noticed=self.at.timestamp()))
        return replace(outcome, rule="daily-limit")

    def _in_words(self, draft: Draft, words: str) -> Draft:
        mail_text = compose([Part(words=words)], self.knowledge, People(self.desk.group), draft.subject)
        return replace(draft, text=mail_text.text, html=mail_text.html)

    def _sent(self, draft: Draft, talk: MailTalk) -> Outcome:
        return Outcome((self._reply(draft),), Talk(person_key(self.to), talk.as_text()))

    def _reply(self, draft: Draft) -> Reply:
        key = person_key(self.to)
        return Reply(CHANNEL, draft.message_id, self.to, build(draft), person=key, conversation=key)


def answer_to(mail: MailIn, own: Desk) -> str:
    """Return whom to answer: Reply-To when it names one address, else From; in the group's list always From.

    This is a service that mail is addressed to, so that Reply-To may be followed (RFC 3834, section 4).
    """
    replies = set(mail.reply_to)
    return mail.reply_to[0] if len(replies) == 1 and not is_from_own_list(mail, own) else mail.sender


def told(answers: list[Answer], most: int = _ALIKE) -> list[str]:
    """Return what was told of each number, to know whether another answer says anything else.

    `most` is how many datings of a number are compared: with one alone, how likely it is does not matter.
    """
    if _are_empty(answers):
        return ["nothing found"]
    shares = [(token.serial, answer.of_token(at)) for answer in answers for at, token in enumerate(answer.tokens)]
    return [f"{most} {serial} {[_dating(one, most) for one in share[:most]]}" for serial, share in shares]


def _dating(one: Candidate, most: int) -> str:
    share = f"{one.likelihood:.2f}" if most > 1 else ""
    return f"{one.serial} {one.register} {one.first} {one.date} {share}"


def _are_empty(answers: list[Answer]) -> bool:
    """Whether there are answers and none has a number, a dating or a place to tell."""
    return bool(answers) and not any(one.tokens or one.candidates or one.places for one in answers)


def _notice(limit: int, group: str) -> str:
    return (
        f"You had {limit} answers from me today, and more than that I do not write to one person in a day. Your mail "
        f"is kept, but I leave it without an answer. Ask again tomorrow, or turn to the people of {group}."
    )
