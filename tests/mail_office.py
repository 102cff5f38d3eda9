"""A mailbox and a desk without servers: mails go through the real handler into a real journal, replies are read back.

office.mail(...)          a mail comes in and is handled; returns the mails that go out because of it
office.answer(card, ...)  an expert answers a mail as mail programs do
"""

from __future__ import annotations

import email
import email.policy
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from email.message import EmailMessage
from pathlib import Path

from bot.channels.mailbox import key_of
from bot.expert_desk import Desk
from bot.handling import handle
from bot.journal import Journal, Outgoing, Reply, open_journal
from bot.mail_asking import Office
from bot.mail_desk import MailDesk
from bot.mail_experts import MailExperts
from bot.mail_signing import Signer
from bot.setting_values import Secret
from bot.settings import MailSettings, ServerSettings
from knowledge.base import Knowledge

DESK, ADA, BEN = "desk@example.net", "ada@example.org", "ben@example.org"
OWN_LIST = "needles.lists.example.net"
GROUP = "the circle of old needles"
TRUSTED = "mx.example.net"
PASS = f"Authentication-Results: {TRUSTED};\n dmarc=pass header.from=example.org\n"
SERVER = ServerSettings("127.0.0.1", 1, "none", "", Secret(""))


def settings(trusted: str = TRUSTED, experts: tuple[str, ...] = (ADA, BEN)) -> MailSettings:
    return MailSettings(DESK, SERVER, "INBOX", SERVER, trusted, experts, 20, (OWN_LIST,))


@dataclass
class MailOffice:
    """The desk by mail. `now` is the time, which tests move on."""

    journal: Journal
    pack_knowledge: Knowledge
    settings: MailSettings
    now: datetime = datetime(2031, 5, 4, 12, tzinfo=UTC)
    count: int = 0
    experts: MailExperts = field(init=False)
    handler: MailDesk = field(init=False)

    def __post_init__(self) -> None:
        self.experts = MailExperts(
            self.settings, GROUP, lambda: Signer.of(self.journal), lambda: self.now, lambda: self.knowledge
        )
        office = Office(self.experts, lambda: self.journal, lambda: [self.experts])
        self.handler = MailDesk(self.settings, GROUP, lambda: self.now, office)

    @property
    def desk(self) -> Desk:
        return Desk(self.journal, [self.experts])

    @property
    def knowledge(self) -> Knowledge:
        store = self.journal.store()
        with store.unchanging():
            return Knowledge.of(store.sources(), findings=store.findings())

    def raw(self, raw: bytes) -> list[EmailMessage]:
        """Let a mail come in and be handled; return what goes out: nothing for one that came before."""
        self.now += timedelta(seconds=30)
        before = self._last()
        id_ = self.journal.receive("mail", key_of(raw), raw, self.now)
        if id_ is None:
            return []
        self.handle_waiting()
        return [parsed(one.body) for one in self._outgoing() if one.id > before]

    def handle_waiting(self) -> None:
        for message in self.journal.waiting(self.now):
            handle(self.journal, message, self.handler, self.knowledge, lambda: self.now)

    def mail(
        self,
        body: str,
        sender: str = "hattie@example.com",
        subject: str = "My machine",
        head: str = "",
        message_id: str = "",
    ) -> list[EmailMessage]:
        self.count += 1
        own = message_id or f"<{self.count}@example.org>"
        return self.raw(f"{head}From: {sender}\nTo: {DESK}\nSubject: {subject}\nMessage-ID: {own}\n\n{body}".encode())

    def answer(
        self, sent: EmailMessage, body: str, sender: str = ADA, head: str = PASS, subject: str = "", **more: str
    ) -> list[EmailMessage]:
        """Answer a mail as mail programs do: its identifier in In-Reply-To and References, its subject with Re:."""
        references = f"{sent.get('References', '')} {sent['Message-ID']}".strip()
        thread = f"In-Reply-To: {sent['Message-ID']}\nReferences: {references}\n"
        again = sent["Subject"] if sent["Subject"].startswith("Re:") else f"Re: {sent['Subject']}"
        return self.mail(body, sender, subject or again, f"{head}{thread}", **more)

    def last(self) -> str:
        """By which rule the last mail was left alone, '' when by none; 'aside: ...' when it was set aside."""
        (message,) = self.journal.list_incoming("handled", "aside", "waiting", limit=1)
        return message.rule if message.state == "handled" else f"{message.state}: {message.reason}"

    def due(self) -> list[EmailMessage]:
        """Let the desk look at the clock; return what goes out."""
        before = self._last()
        self.journal.queue(self.desk.due(self.now), now=self.now)
        return [parsed(one.body) for one in self._outgoing() if one.id > before]

    def queue(self, replies: Sequence[Reply]) -> list[EmailMessage]:
        self.journal.queue(replies, now=self.now)
        return [parsed(one.body) for one in replies]

    def findings(self) -> list[tuple[str, str, str]]:
        """Serial, model and date of what is known from experts."""
        return [(one.serial, one.model, one.date) for one in self.journal.store().findings()]

    def state_of_all(self) -> list[tuple[object, ...]]:
        """What an outsider must not change: every case, its history, and every finding."""
        cases = self.desk.cases("open", "taken", "asked back", "settled", "closed without an answer", limit=1000)
        seen = [(one.id, one.state, one.version, self.desk.history(one.id), self.desk.words(one.id)) for one in cases]
        return [*seen, *((one,) for one in self.journal.store().findings())]

    def _outgoing(self) -> list[Outgoing]:
        found = self.journal.list_outgoing("queued", "sent", "failed", "sending", "uncertain", limit=10_000)
        return [whole for one in reversed(found) if (whole := self.journal.outgoing(one.id))]

    def _last(self) -> int:
        return max((one.id for one in self._outgoing()), default=0)


def parsed(raw: bytes) -> EmailMessage:
    return email.message_from_bytes(raw, policy=email.policy.default)


def to(mails: Sequence[EmailMessage], address: str) -> list[EmailMessage]:
    """Return the mails to one address."""
    return [one for one in mails if one["To"] == address]


def text_of(mail: EmailMessage, kind: str = "plain") -> str:
    part = next(part for part in mail.walk() if part.get_content_type() == f"text/{kind}")
    return str(part.get_content()).replace("\r", "")


@contextmanager
def mail_office(folder: Path, pack, **more) -> Iterator[MailOffice]:
    """Open an office with a store of its own in `folder`."""
    with open_journal(folder / "office.sqlite", create=True) as journal:
        journal.store().save_pack(pack)
        yield MailOffice(journal, Knowledge.of([pack]), settings(**more))
