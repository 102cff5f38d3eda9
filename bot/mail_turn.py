"""One mail that may ask something -> an answer in its thread, silence by a rule, or a case for the experts.

question -> conversation -> is there anything new to say? -> words, HTML and picture -> bytes
                                                          -> what is left for experts (bot/mail_asking.py)
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot import pictures
from bot.cases import Case
from bot.channels.mail_building import Draft, build, reply_subject, thread
from bot.channels.mail_format import MailIn
from bot.conversation import NOT_UNDERSTOOD, Incoming, Outgoing, asked_again, reply
from bot.handling import Outcome, SetAside
from bot.journal import Incoming as Kept
from bot.journal import Journal, Reply, Talk
from bot.mail_asking import NOT_READ, PASSED_ON, Adding, Asking
from bot.mail_identity import CHANNEL, own_id, person_key
from bot.mail_reading import Question, acknowledges
from bot.mail_searching import told_of
from bot.mail_talk import MailTalk, Thread, bounded, subject_key
from bot.pictures.png import as_png
from bot.replies.mail import Part, People, compose
from bot.settings import MailSettings
from bot.small_talk import GOODBYE, HELLO, WELCOME
from bot.state import State
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import Candidate

ADDS, PASSED_ON_ALONE = "adds-to-a-case", "passed-on"
"""Why a mail gets no answer of its own: it belongs to the open case of its sender; it went there without a word."""
_KIND_WORDS = (WELCOME, GOODBYE, HELLO)
_ALIKE = 10  # datings that are compared to tell whether an answer says anything new


class ForPeople(SetAside):
    """Raised for a mail that asks something which only people can answer: it is set aside, and becomes a case."""


Writes = Callable[[Journal, datetime], Sequence[Reply]]


def both(first: Writes | None, second: Writes | None) -> Writes | None:
    """Return one thing to write down that is two, in this order."""
    if first is None or second is None:
        return first or second
    return lambda journal, now: (*first(journal, now), *second(journal, now))


@dataclass(frozen=True, slots=True)
class Turn:
    """One mail that no rule stopped, with all that is known of it."""

    settings: MailSettings
    group: str
    message: Kept
    mail: MailIn
    to: str
    talk: MailTalk
    thread: Thread
    asked: Question
    knowledge: Knowledge
    at: datetime
    asking: Asking | None = None
    adding: Adding | None = None

    @property
    def is_repeated(self) -> bool:
        """Whether the very same was asked in the day before."""
        return len(self.asked.text) > 3 and self.talk.was_said(self._fingerprint(), self.at)

    def outcome(self, old: Thread | None) -> Outcome:
        """Return what comes of it; `old` is the thread it goes on with. Raises SetAside, ForPeople for a case."""
        if self.asked.rule:
            return Outcome(rule=self.asked.rule)
        if self.is_repeated:
            return Outcome(rule="asked-already")
        if self.talk.answers_lately(self.at) >= self.settings.answers_per_day:
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
        searched = told_of(outgoing)
        if searched and all(self.talk.was_said(one, self.at) for one in searched):
            return "asked-already"
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
        draft = self._draft(1)
        parts = [Part(one.words, one.answer, one.kind == "places", one.again, one.told) for one in outgoing]
        answers = [one.answer for one in outgoing if one.answer is not None]
        asking = self.asking
        opening = asking.opening(self.asked.text, self.thread.state, state, outgoing, draft) if asking else None
        if self.adding and opening and not opening.serials:
            return Outcome(rule=ADDS)
        tells_more = self.adding and self.adding.tells and opening is None and any(one.tokens for one in answers)
        adds = self.adding.case if self.adding and tells_more else None
        look = asking.will_look(opening, self.at) if asking and opening else PASSED_ON if adds else ""
        drawable = (one.answer for one in parts if one.answer and not one.places)
        shown = next((answer for answer in drawable if pictures.can_draw(answer)), None)
        picture = pictures.lay_out(shown, self.knowledge) if shown else None
        described = picture.description if picture else ""
        people = People(self.group, look, bool(asking))
        mail_text = compose(parts, self.knowledge, people, draft.subject, described)
        draft = replace(draft, text=mail_text.text, html=mail_text.html, picture=as_png(picture) if picture else b"")
        ids = bounded((*self.thread.ids, self.mail.message_id, draft.message_id))
        new = Thread(ids, subject_key(self.mail.subject), state)
        said = (self._fingerprint(), *told(answers), *told(answers, 1), *told_of(outgoing))
        talk = self.talk.with_thread(old, new).answered(self.at, *said)
        outcome = self._sent(draft, talk)
        if asking is None:
            return outcome
        writes = both(lambda _, now: asking.taken_up(opening, bool(answers), now), self._adds(adds))
        return replace(outcome, writes=writes)

    def answer_to_experts(self, case: Case, old: Thread | None) -> Outcome:
        """Return what comes of a mail that may answer what experts asked: it is handed on, and answered as well."""
        try:
            outcome = self.outcome(old)
        except SetAside:
            outcome = Outcome()
        if not outcome.replies:
            outcome = self._sent(self._in_words(self._draft(2), PASSED_ON), self.talk.answered(self.at))
        return replace(outcome, writes=both(outcome.writes, self._adds(case)))

    def passed_on(self, talk: MailTalk, case: Case, words: str, old: Thread | None) -> Outcome:
        """Return that a mail goes to an open case. Its asker is told `words`, nothing when there are none."""
        draft = self._draft(1)
        talk = talk.saying(self.at, self._fingerprint())
        if not words:
            return Outcome((), self._talk(talk), rule=PASSED_ON_ALONE, writes=self._adds(case))
        ids = bounded((*self.thread.ids, self.mail.message_id, draft.message_id))
        state = self.thread.state if self.thread.state.text else case.asked
        talk = talk.with_thread(old, Thread(ids, subject_key(self.mail.subject), state)).answered(self.at)
        return replace(self._sent(self._in_words(draft, words), talk), writes=self._adds(case))

    def _adds(self, case: Case | None) -> Writes | None:
        asking = self.asking
        if asking is None or case is None:
            return None
        return lambda _, now: asking.passed_on(case, self.asked.text, now)

    def to_experts(self, why: str) -> None:
        """Make a case of a mail that is set aside, and tell the asker so, when nothing was said to them lately.

        It has a transaction of its own, before the mail is set aside: done again, it joins what it made the first time.
        """
        if self.asking is None:
            return
        draft = self._draft(1)
        opening = self.asking.unread(why, draft)
        words = NOT_READ.format(why=why, look=self.asking.will_look(opening, self.at))
        self.asking.set_aside(opening, self._reply(self._in_words(draft, words)), self.at)

    def _over_the_limit(self) -> Outcome:
        if self.talk.was_noticed(self.at):
            return Outcome(rule="daily-limit")
        draft = self._draft(1)
        words = _notice(self.settings.answers_per_day, self.group)
        outcome = self._sent(self._in_words(draft, words), replace(self.talk, noticed=self.at.timestamp()))
        return replace(outcome, rule="daily-limit")

    def _in_words(self, draft: Draft, words: str) -> Draft:
        mail_text = compose([Part(words=words)], self.knowledge, People(self.group), draft.subject)
        return replace(draft, text=mail_text.text, html=mail_text.html)

    def _sent(self, draft: Draft, talk: MailTalk) -> Outcome:
        return Outcome((self._reply(draft),), self._talk(talk))

    def _talk(self, talk: MailTalk) -> Talk:
        return Talk(person_key(self.to), talk.as_text())

    def _draft(self, number: int) -> Draft:
        """Return the `number`th answer to the mail, without a text yet."""
        mail = self.mail
        return Draft(
            sender=self.settings.address,
            sender_name=self.group,
            recipient=self.to,
            subject=reply_subject(mail.subject),
            message_id=own_id(self.message.key, number, self.settings.address),
            date=self.at,
            text="",
            in_reply_to=mail.message_id,
            references=thread(mail.references or ((mail.in_reply_to,) if mail.in_reply_to else ()), mail.message_id),
        )

    def _reply(self, draft: Draft) -> Reply:
        key = person_key(self.to)
        return Reply(CHANNEL, draft.message_id, self.to, build(draft), person=key, conversation=key)


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
