"""The account of one mail: what was read, what every rule said, and whether it is answered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

from bot.channels.mail_format import MailIn, read
from bot.mail_reading import Question
from bot.mail_rules import Desk, Verdict, desk_of, judge
from bot.mail_searching import asked_in
from bot.settings import MailSettings
from knowledge.answer import answer, as_json
from knowledge.base import Knowledge


@dataclass(frozen=True, slots=True)
class Account:
    """What the bot makes of one mail. `tokens` are as `ask --json` prints them, found in the text of the question."""

    file: str
    mail: MailIn
    verdict: Verdict
    question: Question
    tokens: tuple[Any, ...]

    @property
    def rule(self) -> str | None:
        """The rule that stops it, None when it is answered."""
        return self.verdict.rule or self.question.rule

    def as_json(self) -> dict[str, Any]:
        """Return the account as `mail read --json` prints it."""
        return {
            "file": self.file,
            "reply": self.rule is None,
            "rule": self.rule,
            "text": self.question.text,
            "tokens": list(self.tokens),
            "attachments": [asdict(one) for one in self.mail.attachments],
            "why": self.verdict.why or self.question.why,
            "from": self.mail.sender,
            "subject": self.mail.subject,
            "text_from": list(self.question.sources),
            "rules": [{"rule": one.rule, "hit": bool(one.why), "why": one.why} for one in self.verdict.checked],
        }

    def in_words(self) -> Iterator[str]:
        """Return the account for people, line by line."""
        yield self.file
        yield f"  From {self.mail.sender or '(nobody)'}: {self.mail.subject or '(no subject)'}"
        yield "  Rules:"
        for one in self.verdict.checked:
            yield f"    {'stops it ' if one.why else 'no       '} {one.rule}{': ' + one.why if one.why else ''}"
        if self.verdict.rule is None and self.question.rule:
            yield f"    stops it  {self.question.rule}: {self.question.why}"
        yield f"  Read as asked ({', '.join(self.question.sources) or 'nothing'}):"
        yield from (f"    | {line}" for line in self.question.text.split("\n"))
        serials = [f"{one['prefix']}{one['digits']}{one['suffix']}" for one in self.tokens]
        yield f"  Serial numbers: {', '.join(serials) or 'none'}"
        for file in self.mail.attachments:
            yield f"  Attached: {file.name or '(no name)'}, {file.type}, {file.size:,} bytes, {_kept(file.note)}"
        yield f"  Left alone by the rule {self.rule}." if self.rule else "  This mail is answered."


def account(file: str, raw: bytes, knowledge: Knowledge, settings: MailSettings | None = None) -> Account:
    """Read one mail and judge it as the bot does, without what it remembers of earlier mails."""
    mail = read(raw)
    verdict = judge(mail, desk(settings) if settings else desk_of(mail))
    asked = asked_in(mail, knowledge)
    return Account(file, mail, verdict, asked, tuple(as_json(answer(asked.text, knowledge))["tokens"]))


def desk(settings: MailSettings) -> Desk:
    """Return the own side as the settings tell it."""
    return Desk.of(settings.address, lists=settings.lists)


def _kept(note: str) -> str:
    return f"left alone ({note})" if note else "kept for the experts"
