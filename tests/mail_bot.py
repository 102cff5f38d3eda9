"""The real program on the real mail servers, for tests: started, asked, killed, and its journal looked into."""

from __future__ import annotations

import contextlib
import sys
import time
from collections.abc import Callable, Iterator
from email import message_from_bytes
from email.message import Message
from pathlib import Path

from bot.journal import Journal, open_journal
from tests.chaos.harness import Program
from tests.mail_servers import MailServers

DESK = "desk@example.net"


def question(number: str, name: str, subject: str = "My machine", head: str = "") -> bytes:
    """Return a member's mail that asks for a number. `name` makes the identifier and the address."""
    return (
        f"From: {name} <{name}@example.org>\r\nTo: {DESK}\r\nSubject: {subject}\r\n"
        f"Message-ID: <{name}.q@example.org>\r\n{head}\r\nHow old is {number}?\r\n"
    ).encode()


@contextlib.contextmanager
def bot_on(
    servers: MailServers, folder: Path, more: str = "", smtp_port: int = 0, ready: bool = True
) -> Iterator[Program]:
    """Run `bedstamp run` with a store of its own in `folder`; told to stop at the end, and it has to obey."""
    folder.mkdir(parents=True, exist_ok=True)
    text = servers.settings(folder / "bedstamp.sqlite", DESK, more)
    if smtp_port:
        text = text.replace(f"smtp_port = {servers.smtp_port}", f"smtp_port = {smtp_port}")
    (folder / "settings.toml").write_text(text)
    trusting = {"SSL_CERT_FILE": str(servers.certificate)}
    command = [sys.executable, "-m", "bot", "run", "--config", str(folder / "settings.toml")]
    with Program(command, folder / "log.jsonl", trusting) as program:
        program.start()
        if ready:
            until(lambda: program.saw("connected"))
        yield program
        if program.is_running:
            assert program.terminate() == 0


def until(holds: Callable[[], object], seconds: float = 30) -> None:
    """Wait until something holds; fail when it does not in time."""
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end, "it did not come to be in time"
        time.sleep(0.05)


def journal_of(folder: Path) -> contextlib.closing[Journal]:
    return contextlib.closing(open_journal(folder / "bedstamp.sqlite"))


def parsed(mails: list[bytes]) -> list[Message]:
    return [message_from_bytes(one) for one in mails]


def flags_of(servers: MailServers, message_id: str) -> bytes:
    """Return the flags of a mail in the desk's mailbox, as a person's mail program sees them."""
    with servers.imap(DESK) as client:
        _, (numbers,) = client.search(None, "HEADER", "Message-ID", message_id)
        _, (answer,) = client.fetch(numbers.split()[0].decode(), "(FLAGS)")
    assert isinstance(answer, bytes)
    return answer


def empty(servers: MailServers, address: str = DESK) -> None:
    """Remove all mail from a mailbox."""
    with servers.imap(address) as client:
        answer, count = client.select("INBOX")
        assert answer == "OK", count
        if count != [b"0"]:
            client.store("1:*", "+FLAGS", "\\Deleted")
            client.expunge()
