"""What an asker's mail brings to the experts' desk: a case, more words about one, or what no program can read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.cases import Asker, Case, Picture
from bot.channels.mail_building import Draft, thread
from bot.channels.mail_format import MailIn
from bot.channels.mail_parts import pictures
from bot.conversation import Outgoing
from bot.expert_desk import Desk, ExpertChannel, Opening, cannot_say, desk_for
from bot.expert_desk.tables import DESK
from bot.journal import Incoming as Kept
from bot.journal import Journal, Reply
from bot.mail_experts import MOST_BYTES, MOST_PHOTOS, MailExperts, Route
from bot.mail_identity import CHANNEL, UNREAD, case_of_id, person_key
from bot.replies import cards
from bot.state import State
from knowledge.base import Knowledge
from knowledge.database import transaction

DAY = timedelta(days=1)
PASSED_ON = "Thank you. I passed that on to the people who look at your question."
AND_LATER = "More that you write about it today reaches them too, even when I do not say so."
NOT_READ = "I could not read your mail: {why}. Please send it once more as plain text. {look}"
_NOT_FETCHED = "A mail came that no program can read ({why}). It is flagged in the mailbox; who wrote it is not known."
_FOR_EXPERTS = "No program can read this mail ({why}). It is flagged in the mailbox."


@dataclass(frozen=True, slots=True)
class Office:
    """Where mail meets the desk: the experts' channel of mail, the journal, and all channels of experts.

    The journal is asked for in the clerk's thread only.
    """

    channel: MailExperts
    journal: Callable[[], Journal]
    channels: Callable[[], Sequence[ExpertChannel]]

    def desk(self) -> Desk:
        """Return the desk."""
        return Desk(self.journal(), self.channels())

    def why_unread(self, message: Kept) -> str:
        """Return why the mailbox could not give a mail whole, as half a sentence; '' when it did."""
        if not message.key.startswith(UNREAD):
            return ""
        return self.journal().noted(CHANNEL, message.key) or "it did not come whole"

    def take_up_unread(self, message: Kept, why: str, now: datetime) -> None:
        """Make a case of a mail whose sender is not known, once, however often it is handled."""
        journal, name = self.journal(), f"case of in-{message.id}"
        with transaction(journal.beside(DESK)):
            if journal.noted(CHANNEL, name) is None:
                journal.note(CHANNEL, name, "made")
                lines = (_NOT_FETCHED.format(why=why),)
                journal.queue(self.desk().open_unasked(("unreadable-mail",), lines, now), now=now)


@dataclass(frozen=True, slots=True)
class Adding:
    """The open case that a mail of its asker may add to; `tells` that there is something of the machine in it."""

    case: Case
    tells: bool


@dataclass(frozen=True, slots=True)
class Asking:
    """One mail of somebody who asks, at the desk. `to` is whom to answer."""

    desk: Desk
    journal: Journal
    message: Kept
    mail: MailIn
    to: str
    knowledge: Knowledge

    @property
    def person(self) -> str:
        """Who asks, in the journal."""
        return person_key(self.to)

    def opening(self, text: str, before: State, state: State, said: Sequence[Outgoing], draft: Draft) -> Opening | None:
        """Return the case that becomes of a mail, None when the answer stands by itself or waits for the asker."""
        answer = next((one.answer for one in said if one.answer is not None), None)
        return desk_for(
            answer, state, self.asker(draft), self.knowledge, message=self.message.id, text=text,
            pictures=self.photos(), unable=cannot_say(before, said),
        )  # fmt: skip

    def asker(self, draft: Draft) -> Asker:
        """Return who asks, reached in the thread that `draft` answers in."""
        references = thread((*draft.references, draft.message_id), "")
        route = Route(self.to, self.mail.subject, self.mail.message_id, references)
        return Asker(CHANNEL, self.person, route.as_text())

    def will_look(self, opening: Opening, now: datetime) -> str:
        """Return what the asker is told with the answer."""
        expected = self.desk.expected(opening, now)
        return cards.will_look(expected.by, others=expected.others, again=expected.again)

    def taken_up(self, opening: Opening | None, is_answered: bool, now: datetime) -> Sequence[Reply]:
        """Take a question up; without one, an answer may end an earlier question. In the open transaction."""
        if opening is not None:
            return self.desk.open(opening, self.knowledge, now).replies
        return self.desk.got_an_answer(self.person, now) if is_answered else ()

    def asked_back(self, is_in_thread: bool) -> Case | None:
        """Return the case of which experts asked this person something, when the mail may be the answer to that."""
        waiting = {case.id: case for case in self.desk.asked_back(self.person)}
        named = map(case_of_id, (self.mail.in_reply_to, *reversed(self.mail.references)))
        of_thread = next((waiting[id_] for id_ in named if id_ in waiting), None)
        if of_thread is None and waiting and (is_in_thread or self.mail.is_reply):
            return next(iter(waiting.values()))
        return of_thread

    def open_case(self, serials: Sequence[str]) -> Case | None:
        """Return the open case of this person about these numbers, or one of them; without any the latest."""
        case = self.desk.open_case_of(self.person, serials)
        each = (self.desk.open_case_of(self.person, (one,)) for one in serials)
        return case or next(filter(None, each), None)

    def passed_on(self, case: Case, words: str, now: datetime) -> Sequence[Reply]:
        """Hand what an asker says, and the photos that came with it, to the experts. In the open transaction."""
        return self.desk.asker_said(
            case.id, words, self.knowledge, now, person=self.person, pictures=self.photos()
        )  # fmt: skip

    def unread(self, why: str, draft: Draft) -> Opening:
        """Return the case of a mail that is set aside."""
        said = self.mail.words.own or self.mail.words.forwarded
        return Opening(
            ("unreadable-mail",), f"Subject: {self.mail.subject or '(none)'}\n{said}".strip(), State(), (),
            self.asker(draft), self.message.id, self.photos(), _FOR_EXPERTS.format(why=why),
        )  # fmt: skip

    def set_aside(self, opening: Opening, notice: Reply, now: datetime) -> None:
        """Take up a mail that is set aside, and tell the asker so unless they heard anything in the last day."""
        with transaction(self.journal.beside(DESK)):
            is_quiet = self.journal.replies_to(self.person, now - DAY) == 0
            replies = self.desk.open(opening, self.knowledge, now).replies
            self.journal.queue((*((notice,) if is_quiet else ()), *replies), now=now)

    def photos(self) -> tuple[Picture, ...]:
        """Return the pictures that came with the mail, within bounds."""
        kept: list[Picture] = []
        for place, (attached, content) in enumerate(pictures(self.mail.head)):
            if len(kept) < MOST_PHOTOS and sum(len(one.content) for one in kept) + len(content) <= MOST_BYTES:
                kept.append(Picture(CHANNEL, f"{self.message.id}/{place}", attached.type, content))
        return tuple(kept)
