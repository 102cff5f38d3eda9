"""Experts who use nothing but mail, with the running program, a real mailbox (Dovecot) and a real server (Postfix)."""

from __future__ import annotations

from collections.abc import Iterator
from email.message import Message
from pathlib import Path

import pytest

from tests.mail_bot import DESK, bot_on, empty, flags_of, journal_of, parsed, question, until
from tests.mail_servers import MailServers, mail_servers, missing

pytestmark = pytest.mark.skipif(bool(missing()), reason=missing())
ADA, BEN = "ada.expert@example.org", "ben.expert@example.org"
EXPERTS = f'experts = ["{ADA}", "{BEN}"]'


@pytest.fixture(scope="module")
def servers() -> Iterator[MailServers]:
    with mail_servers() as running:
        yield running


@pytest.fixture(autouse=True)
def _empty_mailboxes(servers) -> None:
    for address in (DESK, ADA, BEN):
        empty(servers, address)


def reply(to: Message, body: str, sender: str = ADA, number: int = 1) -> bytes:
    """Return an answer as mail programs write it."""
    quoted = "\r\n".join(f"> {line}" for line in body_of(to).splitlines())
    return (
        f"From: An Expert <{sender}>\r\nTo: {DESK}\r\nSubject: Re: {to['Subject']}\r\n"
        f"Message-ID: <answer.{number}.{sender}>\r\nIn-Reply-To: {to['Message-ID']}\r\n"
        f"References: {to.get('References', '')} {to['Message-ID']}\r\n\r\n{body}\r\n\r\nAn Expert\r\n\r\n"
        f"On Sunday, 4 May 2031 at 10:00, desk wrote:\r\n{quoted}\r\n"
    ).encode()


def body_of(mail: Message) -> str:
    part = next(part for part in mail.walk() if part.get_content_type() == "text/plain")
    return part.get_payload(decode=True).decode()  # type: ignore[union-attr]


def newest(servers: MailServers, address: str, count: int) -> Message:
    found = parsed(servers.wait_for_mails(address, count))
    assert len(found) == count, [one["Subject"] for one in found]
    return found[-1]


def identifiers(servers: MailServers, address: str) -> set[str]:
    """Return the different mails that somebody got: one that was sent again after a kill is the same."""
    return {one["Message-ID"] for one in parsed(servers.mails(address))}


def test_a_question_without_a_list_is_settled_by_mail_and_known_from_then_on(servers, tmp_path: Path):
    with bot_on(servers, tmp_path, EXPERTS):
        servers.deliver(question("QX81234567", "asker1"), DESK)
        first = newest(servers, "asker1@example.org", 1)
        assert "People of the group will look at it" in " ".join(body_of(first).split())
        card = newest(servers, ADA, 1)
        assert card["Auto-Submitted"] == "auto-generated"
        assert newest(servers, BEN, 1)["Message-ID"] != card["Message-ID"]
        servers.deliver(reply(card, "About 1911, by the shuttle; see ledger p. 40"), DESK)
        shown = newest(servers, ADA, 2)
        assert "about 1911" in body_of(shown)
        assert len(servers.mails("asker1@example.org")) == 1
        servers.deliver(reply(shown, "yes", number=2), DESK)
        told = newest(servers, "asker1@example.org", 2)
        assert "Stored" in body_of(newest(servers, ADA, 3))
        servers.deliver(question("QX81234567", "asker2"), DESK)
        known = newest(servers, "asker2@example.org", 1)
    assert told["In-Reply-To"] == "<asker1.q@example.org>"
    assert told["References"].split() == ["<asker1.q@example.org>", first["Message-ID"]]
    assert "about 1911" in body_of(told)
    for words in ("Settled by an expert of the group", "ledger p. 40", "about 1911"):
        assert words in " ".join(body_of(known).split())
    with journal_of(tmp_path) as journal:
        secret = journal.noted("mail", "secret of the case addresses")
    assert secret
    assert secret not in (tmp_path / "log.jsonl").read_text()
    assert str(card["Message-ID"]) not in (tmp_path / "log.jsonl").read_text()
    assert "People of the group will look" not in body_of(known)


def test_a_server_that_threads_by_itself_puts_the_later_answer_into_the_askers_thread(servers, tmp_path: Path):
    """Judged by Dovecot's THREAD REFERENCES (RFC 5256), in a mailbox that holds both sides."""
    asked = question("QX81234568", "asker3")
    with bot_on(servers, tmp_path, EXPERTS):
        servers.deliver(asked, DESK)
        card = newest(servers, ADA, 1)
        servers.deliver(reply(card, "About 1911, by the shuttle"), DESK)
        servers.deliver(reply(newest(servers, ADA, 2), "Yes", number=2), DESK)
        newest(servers, "asker3@example.org", 2)
        newest(servers, ADA, 3)
    answers, to_ada = servers.mails("asker3@example.org"), servers.mails(ADA)
    for mail in (asked, *answers, question("K1", "other", "Another"), *to_ada):
        servers.deliver(mail, "both@example.org")
    with servers.imap("both@example.org") as client:
        _, (threads,) = client.thread("REFERENCES", "UTF-8", "ALL")
    assert sorted(threads.strip(b"()").split(b")(")) == [b"1 2 3", b"4", b"5 6 7"], threads


def test_where_the_receiver_is_trusted_an_answer_without_its_pass_changes_nothing(servers, tmp_path: Path):
    more = f'{EXPERTS}\ntrusted_authserv_id = "mx.example.net"'
    vouched = b"Authentication-Results: mx.example.net; dmarc=pass header.from=example.org\r\n"
    with bot_on(servers, tmp_path, more):
        servers.deliver(question("QX81234569", "asker4"), DESK)
        card = newest(servers, ADA, 1)
        servers.deliver(reply(card, "About 1911, by the shuttle"), DESK)
        assert "did not believe" in newest(servers, ADA, 2)["Subject"]
        until(lambda: b"Bedstamp-Left" in flags_of(servers, f"<answer.1.{ADA}>"))
        servers.deliver(vouched + reply(card, "About 1912, by the shuttle", number=2), DESK)
        assert "about 1912" in body_of(newest(servers, ADA, 3))
    with journal_of(tmp_path) as journal:
        assert journal.store().findings() == ()


def test_a_kill_between_understanding_and_storing_loses_nothing_and_stores_once(servers, tmp_path: Path):
    with bot_on(servers, tmp_path, EXPERTS) as program:
        servers.deliver(question("QX81234570", "asker5"), DESK)
        card = newest(servers, ADA, 1)
        servers.deliver(reply(card, "About 1911, by the shuttle"), DESK)
        shown = newest(servers, ADA, 2)
        program.kill()
    servers.deliver(reply(shown, "yes", number=2), DESK)
    with bot_on(servers, tmp_path, EXPERTS) as program:
        with journal_of(tmp_path) as journal:
            until(lambda: journal.store().findings())
        program.kill()
    with bot_on(servers, tmp_path, EXPERTS) as program:
        until(program.has_begun)
        until(lambda: len(identifiers(servers, "asker5@example.org")) == 2)
    with journal_of(tmp_path) as journal:
        assert [one.date for one in journal.store().findings()] == ["1911~"]


def test_a_card_that_comes_back_is_marked_and_told_to_the_other_experts(servers, tmp_path: Path):
    with bot_on(servers, tmp_path, EXPERTS):
        servers.deliver(question("QX81234571", "asker6"), DESK)
        newest(servers, ADA, 1)
        newest(servers, BEN, 1)
        (returned,) = servers.mails(ADA)
        bounce = f"From: MAILER-DAEMON@example.org\r\nTo: {DESK}\r\n\r\nUser unknown: 550 {ADA}\r\n\r\n".encode()
        servers.deliver(bounce + returned, DESK, sender="")
        told = newest(servers, BEN, 2)
    assert "came back" in told["Subject"]
    assert "550" in body_of(told)
    with journal_of(tmp_path) as journal:
        assert [one.recipient for one in journal.list_outgoing("failed")] == [ADA]
        assert journal.store().findings() == ()
