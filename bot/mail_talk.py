"""What is remembered of one person who writes by mail: their threads, and how many answers they got.

It is one conversation in the journal, so that the mails of a person are handled in order. It holds no text but the
question that is open and the last number asked about (bot/state.py); texts are kept as digests.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field, replace
from datetime import datetime
from typing import Any

from bot.channels.mail_format import MailIn
from bot.channels.mail_headers import bare_subject
from bot.state import State

MOST_THREADS = 20
MOST_IDS = 40
MOST_TAKEN = 1_000
DAY = 24 * 3600.0  # seconds


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread: the identifiers of its mails, its bare subject, and where its conversation stands."""

    ids: tuple[str, ...] = ()
    subject: str = ""
    state: State = field(default_factory=State)

    def fits(self, mail: MailIn) -> bool:
        """Whether a mail goes on with this thread, by what it answers, or by its subject when it is lost that."""
        if {mail.in_reply_to, *mail.references} & set(self.ids) - {""}:
            return True
        return mail.is_reply and bool(self.subject) and self.subject == subject_key(mail.subject)


@dataclass(frozen=True, slots=True)
class MailTalk:
    """Times are seconds since 1970. `said` are digests of what was asked and told; `noticed`: the limit was told.

    `taken` are digests of what an expert wrote about cases, so that the same words do nothing a second time.
    """

    threads: tuple[Thread, ...] = ()
    answers: tuple[float, ...] = ()
    said: tuple[tuple[str, float], ...] = ()
    noticed: float = 0.0
    taken: tuple[tuple[str, float], ...] = ()

    def thread_of(self, mail: MailIn) -> Thread | None:
        """Return the thread a mail belongs to, None when it begins one."""
        return next((thread for thread in reversed(self.threads) if thread.fits(mail)), None)

    def with_thread(self, old: Thread | None, new: Thread) -> MailTalk:
        """Return the talk with a thread put in the place of another, as the latest one."""
        others = tuple(thread for thread in self.threads if thread is not old)
        return replace(self, threads=(*others, new)[-MOST_THREADS:])

    def answered(self, at: datetime, *said: str) -> MailTalk:
        """Return the talk with one more answer, and what was asked and told in it."""
        now = at.timestamp()
        recent = tuple(one for one in self.answers if _is_recent(one, now))
        return replace(self.saying(at, *said), answers=(*recent, now)[-10_000:])

    def saying(self, at: datetime, *said: str) -> MailTalk:
        """Return the talk with what was asked and told, without an answer."""
        now = at.timestamp()
        earlier = tuple(one for one in self.said if _is_recent(one[1], now))
        more = tuple((digest(text), now) for text in said)
        return replace(self, said=(*earlier, *more)[-400:])

    def answers_lately(self, at: datetime) -> int:
        """Return how many answers there were in the day before."""
        return sum(_is_recent(one, at.timestamp()) for one in self.answers)

    def was_noticed(self, at: datetime) -> bool:
        """Whether the limit was told in the day before."""
        return _is_recent(self.noticed, at.timestamp())

    def was_said(self, text: str, at: datetime) -> bool:
        """Whether the very same was asked or told in the day before."""
        return any(one == digest(text) and _is_recent(when, at.timestamp()) for one, when in self.said)

    def taking(self, at: datetime, *texts: str) -> MailTalk:
        """Return the talk with one more mail of an expert about a case."""
        more = tuple((digest(text), at.timestamp()) for text in texts if text)
        return replace(self, taken=(*self.taken, *more)[-MOST_TAKEN:])

    def was_taken(self, text: str) -> bool:
        """Whether this came before in a mail about a case."""
        return bool(text) and any(one == digest(text) for one, _ in self.taken)

    def times_taken(self, text: str, at: datetime) -> int:
        """Return how often this came in the day before."""
        return sum(one == digest(text) and _is_recent(when, at.timestamp()) for one, when in self.taken)

    def as_text(self) -> str:
        """Return the talk as JSON text."""
        threads = [{**asdict(replace(one, state=State())), "state": one.state.as_json()} for one in self.threads]
        plain = {
            "threads": threads, "answers": self.answers, "said": self.said, "noticed": self.noticed,
            "taken": self.taken,
        }  # fmt: skip
        return json.dumps(plain, ensure_ascii=False)

    @classmethod
    def from_text(cls, text: str | None) -> MailTalk:
        """Return the talk that `as_text` told; an empty one for None."""
        if text is None:
            return cls()
        plain: dict[str, Any] = json.loads(text)
        return cls(
            tuple(_thread(one) for one in plain["threads"]),
            tuple(plain["answers"]),
            tuple((digest_, when) for digest_, when in plain["said"]),
            plain["noticed"],
            tuple((digest_, when) for digest_, when in plain.get("taken", ())),  # talks of before have none
        )


def subject_key(subject: str) -> str:
    """Return what is equal in the subjects of one thread."""
    return bare_subject(subject).casefold()


def digest(text: str) -> str:
    """Return a short digest of a text, the same however its white space is set."""
    return hashlib.sha256(" ".join(text.split()).encode("utf-8", "backslashreplace")).hexdigest()[:24]


def bounded(ids: Iterable[str]) -> tuple[str, ...]:
    """Return the identifiers that are remembered."""
    return tuple(dict.fromkeys(one for one in ids if one))[-MOST_IDS:]


def _is_recent(then: float, now: float) -> bool:
    return now - DAY < then <= now + DAY  # a clock that was put back forgets nothing


def _thread(plain: dict[str, Any]) -> Thread:
    return Thread(tuple(plain["ids"]), plain["subject"], State.from_json(plain["state"]))
