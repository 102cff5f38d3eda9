"""One mail -> what comes of it: an answer, nothing (and by which rule), or set aside for the experts.

raw -> MailIn -> rules -> question -> conversation -> reply in text, HTML and picture -> bytes

Nothing here waits or stores; the journal keeps what is returned.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime

from bot import pictures
from bot.channels.mail_building import Draft, build, reply_subject, thread
from bot.channels.mail_format import MailIn, read
from bot.conversation import NOT_UNDERSTOOD, Incoming, Outgoing, asked_again, reply
from bot.handling import Outcome, Recall, SetAside
from bot.journal import Incoming as Kept
from bot.journal import Reply, Talk
from bot.mail_account import desk
from bot.mail_reading import Question, acknowledges, question
from bot.mail_rules import Desk, is_from_own_list, judge
from bot.mail_talk import MailTalk, Thread, bounded, subject_key
from bot.pictures.png import as_png
from bot.replies.mail import Part, compose
from bot.settings import MailSettings
from bot.small_talk import GOODBYE, HELLO, WELCOME
from bot.state import State
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import Candidate

CHANNEL = "mail"
_KIND_WORDS = (WELCOME, GOODBYE, HELLO)
_ALIKE = 10  # datings that are compared to tell whether an answer says anything new


class MailDesk:
    """The handler of the mailbox. `now` tells the time."""

    def __init__(self, settings: MailSettings, group: str, now: Callable[[], datetime]) -> None:
        self._settings, self._group, self._now = settings, group, now
        self._desk = desk(settings)

    def __call__(self, message: Kept, raw: bytes, recall: Recall, knowledge: Knowledge) -> Outcome:
        """Return what comes of a mail. Raises SetAside for one that cannot be read or understood but asks something."""
        mail = read(raw)
        to = answer_to(mail, self._desk)
        person = person_key(to)
        verdict = judge(mail, self._desk)
        if verdict.rule:
            return Outcome(rule=verdict.rule, person=person if mail.sender else "")
        talk = MailTalk.from_text(recall(person, person))
        old = talk.thread_of(mail)
        asked = question(mail, knowledge, in_known_thread=old is not None)
        if asked.rule == "unreadable":
            raise SetAside(f"This mail cannot be read: {asked.why}.")
        desk = _Turn(self, message, mail, to, talk, old or Thread(), asked, knowledge, self._now())
        return replace(desk.outcome(old), person=person)

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
            raise SetAside("This mail asks something more that the lists do not answer.")
        return rule

    def _answer(self, state: State, outgoing: list[Outgoing], old: Thread | None) -> Outcome:
        draft = self.desk.draft(self.message, self.mail, self.to, self.at, 1)
        parts = [Part(one.words, one.answer, one.kind == "places", one.again, one.told) for one in outgoing]
        answers = [one.answer for one in outgoing if one.answer is not None]
        drawable = (one.answer for one in parts if one.answer and not one.places)
        shown = next((answer for answer in drawable if pictures.can_draw(answer)), None)
        picture = pictures.lay_out(shown, self.knowledge) if shown else None
        described = picture.description if picture else ""
        mail_text = compose(parts, self.knowledge, self.desk.group, draft.subject, described)
        draft = replace(draft, text=mail_text.text, html=mail_text.html, picture=as_png(picture) if picture else b"")
        ids = bounded((*self.thread.ids, self.mail.message_id, draft.message_id))
        new = Thread(ids, subject_key(self.mail.subject), state)
        talk = self.talk.with_thread(old, new).answered(self.at, self._fingerprint(), *told(answers), *told(answers, 1))
        return self._sent(draft, talk)

    def _over_the_limit(self) -> Outcome:
        if self.talk.was_noticed(self.at):
            return Outcome(rule="daily-limit")
        draft = self.desk.draft(self.message, self.mail, self.to, self.at, 1)
        part = Part(words=_notice(self.desk.limit, self.desk.group))
        mail_text = compose([part], self.knowledge, self.desk.group, draft.subject)
        outcome = self._sent(
            replace(draft, text=mail_text.text, html=mail_text.html), replace(self.talk, noticed=self.at.timestamp())
        )
        return replace(outcome, rule="daily-limit")

    def _sent(self, draft: Draft, talk: MailTalk) -> Outcome:
        key = person_key(self.to)
        mail = Reply(CHANNEL, draft.message_id, self.to, build(draft), person=key, conversation=key)
        return Outcome((mail,), Talk(key, talk.as_text()))


def answer_to(mail: MailIn, own: Desk) -> str:
    """Return whom to answer: Reply-To when it names one address, else From; in the group's list always From.

    This is a service that mail is addressed to, so that Reply-To may be followed (RFC 3834, section 4).
    """
    replies = set(mail.reply_to)
    return mail.reply_to[0] if len(replies) == 1 and not is_from_own_list(mail, own) else mail.sender


def person_key(address: str) -> str:
    """Return who somebody is in the journal."""
    return f"{CHANNEL}:{address.lower()}"


def own_id(key: str, number: int, address: str) -> str:
    """Return the identifier of our answer to a mail: the same whenever that mail is handled."""
    digest = hashlib.sha256(f"{key}\n{number}".encode("utf-8", "backslashreplace")).hexdigest()[:32]
    domain = address.rpartition("@")[2]
    return f"<{digest}.desk@{domain if domain.isascii() else domain.encode('idna').decode('ascii')}>"


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
