"""The running program with a real mailbox (Dovecot) and a real mail server (Postfix), as members meet it."""

from __future__ import annotations

import asyncio
import imaplib
import shutil
import smtplib
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import cast

import pytest

from bot.channels.imap import BrokenMail, Imap, ImapFault, connect
from bot.channels.mailbox import LARGEST, _Visit
from bot.channels.smtp import Smtp
from bot.clerk import Clerk
from bot.expert_desk import Desk
from bot.handling import handle
from bot.journal import Journal, Outgoing
from bot.mail_asking import Office
from bot.mail_desk import MailDesk
from bot.mail_experts import MailExperts
from bot.mail_signing import Signer
from bot.sending import NotSent
from bot.setting_values import Secret
from bot.settings import MailSettings, ServerSettings
from knowledge.base import Knowledge
from tests.chaos.harness import Program
from tests.mail_bot import DESK, bot_on, empty, flags_of, journal_of, parsed, question, until
from tests.mail_servers import PASSWORD, MailServers, mail_servers, missing
from tests.smtp_with_faults import faulty_smtp

pytestmark = pytest.mark.skipif(bool(missing()), reason=missing())


@pytest.fixture(scope="module", params=[False, True], ids=["plain", "tls"])
def servers(request) -> Iterator[MailServers]:
    with mail_servers(tls=request.param) as running:
        yield running


@pytest.fixture(scope="module")
def plain() -> Iterator[MailServers]:
    with mail_servers() as running:
        yield running


@pytest.fixture(autouse=True)
def _an_empty_mailbox(request) -> None:
    for name in ("servers", "plain"):
        if name in request.fixturenames:
            empty(request.getfixturevalue(name))


def test_a_members_mail_is_answered_in_its_thread(servers, tmp_path):
    with bot_on(servers, tmp_path):
        servers.deliver(question("K204117", "ada"), DESK)
        (reply,) = parsed(servers.wait_for_mails("ada@example.org", 1))
    assert reply["In-Reply-To"] == "<ada.q@example.org>"
    assert reply["Subject"] == "Re: My machine"
    assert reply["Auto-Submitted"] == "auto-replied"
    assert b"K204117" in reply.as_bytes()


def test_mail_that_came_while_nobody_ran_is_answered_afterwards(servers, tmp_path):
    servers.deliver(question("K204117", "early"), DESK)
    with bot_on(servers, tmp_path):
        assert len(servers.wait_for_mails("early@example.org", 1)) == 1


def test_the_talk_goes_on_after_a_restart(servers, tmp_path):
    with bot_on(servers, tmp_path):
        servers.deliver(question("0662318", "cleo"), DESK)
        (first,) = parsed(servers.wait_for_mails("cleo@example.org", 1))
    with bot_on(servers, tmp_path):
        head = f"In-Reply-To: {first['Message-ID']}\r\n"
        answer = question("x", "cleo", f"Re: {first['Subject']}", head).replace(
            b"How old is x?", b"There is a K in front."
        )
        servers.deliver(answer.replace(b"cleo.q@", b"cleo.2@"), DESK)
        second = parsed(servers.wait_for_mails("cleo@example.org", 2))[-1]
    assert second["In-Reply-To"] == "<cleo.2@example.org>"
    assert b"K0662318" in second.as_bytes()


def test_a_person_sees_in_the_mailbox_what_became_of_each_mail(servers, tmp_path):
    with bot_on(servers, tmp_path):
        servers.deliver(question("K204117", "dora"), DESK)
        servers.deliver(question("K204117", "list", head="Precedence: bulk\r\n"), DESK)
        servers.deliver(question("x", "odd", head="Content-Type: application/pkcs7-mime; name=x.p7m\r\n"), DESK)
        until(lambda: b"Answered" in flags_of(servers, "<dora.q@example.org>"))
        until(lambda: b"Bedstamp-Left" in flags_of(servers, "<list.q@example.org>"))
        until(lambda: b"\\Flagged" in flags_of(servers, "<odd.q@example.org>"))
    with journal_of(tmp_path) as journal:
        assert [one.rule for one in journal.list_incoming("handled") if one.rule] == ["bulk"]
        assert ["cannot be read" in one.reason for one in journal.list_incoming("aside")] == [True]


@pytest.mark.skipif(shutil.which("swaks") is None, reason="swaks is not installed (tests/debian-packages.txt)")
def test_an_ordinary_client_gets_its_answer(plain, tmp_path):
    with bot_on(plain, tmp_path):
        command = ["swaks", "--server", f"127.0.0.1:{plain.smtp_port}", "--from", "gerda@example.org", "--to", DESK]
        content = ["--header", "Subject: Machine", "--body", "How old is K204117?"]
        subprocess.run([*command, *content], check=True, capture_output=True, timeout=30)
        assert len(plain.wait_for_mails("gerda@example.org", 1)) == 1


def test_the_same_mail_delivered_twice_is_answered_once(plain, tmp_path):
    with bot_on(plain, tmp_path) as program:
        plain.deliver(question("K204117", "twin"), DESK)
        plain.deliver(question("K204117", "twin"), DESK)
        plain.deliver(question("K204117", "after"), DESK)
        plain.wait_for_mails("after@example.org", 1)
        assert program.is_running
    assert len(plain.mails("twin@example.org")) == 1


def test_a_mailbox_made_anew_does_not_answer_everything_again(plain, tmp_path):
    """UIDVALIDITY changes when a folder is made anew (RFC 3501, section 2.3.1.1)."""
    with bot_on(plain, tmp_path):
        plain.deliver(question("K204117", "vera"), DESK)
        plain.wait_for_mails("vera@example.org", 1)
    old = plain.mails(DESK)
    plain.stop_dovecot()
    shutil.rmtree(plain.folder / "mailboxes" / DESK)
    plain.start_dovecot()
    for one in old:
        plain.deliver(one, DESK)  # as a backup brings it back
    plain.deliver(question("K204117", "wanda"), DESK)
    with bot_on(plain, tmp_path):
        assert len(plain.wait_for_mails("wanda@example.org", 1)) == 1
    assert len(plain.mails("vera@example.org")) == 1


def test_the_bot_comes_back_when_the_mailbox_does(plain, tmp_path):
    with bot_on(plain, tmp_path) as program:
        plain.stop_dovecot(hard=True)
        until(lambda: program.saw("the mailbox cannot be read"))
        plain.start_dovecot()
        plain.deliver(question("K204117", "back"), DESK)
        assert len(plain.wait_for_mails("back@example.org", 1, 40)) == 1


def test_a_mail_of_25_megabytes_is_answered(plain, tmp_path):
    head = 'MIME-Version: 1.0\r\nContent-Type: multipart/mixed; boundary="b"\r\n'
    body = b"--b\r\n\r\nHow old is K204117?\r\n--b\r\nContent-Type: image/jpeg\r\n"
    body += b"Content-Transfer-Encoding: base64\r\n\r\n"
    mail = (
        question("x", "big", head=head).partition(b"\r\n\r\n")[0]
        + b"\r\n\r\n"
        + body
        + b"QUFB\r\n" * 4_200_000
        + b"--b--\r\n"
    )
    assert len(mail) > 25_000_000
    with bot_on(plain, tmp_path):
        plain.deliver(mail, DESK)
        assert len(plain.wait_for_mails("big@example.org", 1, 60)) == 1


def test_a_bounce_is_matched_to_what_was_sent(plain, tmp_path):
    with bot_on(plain, tmp_path):
        plain.deliver(question("K204117", "gone"), DESK)
        (sent,) = parsed(plain.wait_for_mails("gone@example.org", 1))
        report = (
            "Content-Type: multipart/report; report-type=delivery-status; boundary=b\r\n"
            f"From: MAILER-DAEMON@example.org\r\nTo: {DESK}\r\n\r\n--b\r\n\r\nSorry.\r\n"
            "--b\r\nContent-Type: message/delivery-status\r\n\r\n"
            "Reporting-MTA: dns; mx.example.org\r\n\r\nFinal-Recipient: rfc822; gone@example.org\r\nAction: failed\r\n"
            f"Status: 5.1.1\r\n\r\n--b\r\nContent-Type: text/rfc822-headers\r\n\r\nMessage-ID: {sent['Message-ID']}\r\n"
            "\r\n--b--\r\n"
        )
        plain.deliver(report.encode(), DESK, sender="")
        with journal_of(tmp_path) as journal:
            until(lambda: journal.counts().get("failed"))
            (failed,) = journal.list_outgoing("failed")
    assert failed.key == sent["Message-ID"]
    assert "5.1.1" in failed.reason


def test_a_bounce_without_form_is_matched_by_the_mail_it_quotes(plain, tmp_path):
    with bot_on(plain, tmp_path):
        plain.deliver(question("K204117", "moved"), DESK)
        (sent,) = plain.wait_for_mails("moved@example.org", 1)
        report = f"From: MAILER-DAEMON@example.org\r\nTo: {DESK}\r\n\r\nNo such user: 550 moved@example.org\r\n\r\n"
        plain.deliver(report.encode() + sent, DESK, sender="")
        with journal_of(tmp_path) as journal:
            until(lambda: journal.counts().get("failed"))
            (failed,) = journal.list_outgoing("failed")
    assert failed.key == parsed([sent])[0]["Message-ID"]
    assert "No such user" in failed.reason


def test_mail_older_than_the_bot_is_known_and_left_alone(plain, tmp_path):
    old = question("K204117", "old").replace(b"Subject:", b"Date: Tue, 04 May 2010 10:00:00 +0000\r\nSubject:")
    with plain.imap(DESK) as client:
        client.append("INBOX", "", imaplib.Time2Internaldate(time.time() - 31 * 86_400), old)
        client.append("INBOX", "", imaplib.Time2Internaldate(time.time() - 29 * 86_400), question("K204117", "recent"))
    with bot_on(plain, tmp_path):
        assert len(plain.wait_for_mails("recent@example.org", 1)) == 1
        until(lambda: b"Bedstamp-Left" in flags_of(plain, "<old.q@example.org>"))
    assert plain.mails("old@example.org") == []
    with journal_of(tmp_path) as journal:
        assert [one.rule for one in journal.list_incoming("handled") if one.rule] == ["from-before-the-bot"]


class _OneUidFails:
    """Stands in for a mailbox in which the mail with UID 1 never comes as it should."""

    validity = 7
    can_idle = True
    takes_keywords = True

    def __init__(self) -> None:
        self.asked: list[int] = []
        self.flags: dict[int, str] = {}

    async def open_folder(self, name: str) -> None:
        pass

    async def uids(self, first: int = 1) -> list[int]:
        return [uid for uid in (1, 2) if uid >= first]

    async def sizes(self, uids: list[int]) -> dict[int, int]:
        return dict.fromkeys(uids, 100)

    async def fetch(self, uid: int, *, head_only: bool = False) -> tuple[bytes, datetime | None]:
        self.asked.append(uid)
        if uid == 1:
            raise BrokenMail("two bodies in one answer")
        return question("K204117", "behind"), None

    async def flag(self, uids: list[int], flags: str) -> None:
        self.flags.update(dict.fromkeys(uids, flags))


async def test_a_mail_that_cannot_be_fetched_three_times_is_set_aside_and_holds_up_nobody(tmp_path):
    imap, server = _OneUidFails(), ServerSettings("127.0.0.1", 1, "none", "", None)
    settings = MailSettings(DESK, server, "INBOX", server, "", (), 20)

    def desk_of(journal: Journal, clerk: Clerk) -> MailDesk:
        experts = MailExperts(settings, "", lambda: Signer.of(journal), clerk.now)
        return MailDesk(settings, "", clerk.now, Office(experts, lambda: journal, tuple))

    async with Clerk(tmp_path / "store.sqlite", create=True) as clerk:
        visit = _Visit(cast("Imap", imap), settings, clerk, Counter())
        await visit.begin()
        for _ in range(5):
            await visit._look(asyncio.Event())
        waiting = await clerk.do(lambda journal: journal.waiting(clerk.now()))
        assert [one.key.partition(" ")[0] for one in waiting] == ["<behind.q@example.org>", "place"]
        await clerk.do(lambda journal: handle(journal, waiting[1], desk_of(journal, clerk), Knowledge(), clerk.now))
        await visit._show()
        (aside,) = await clerk.do(lambda journal: journal.list_incoming("aside"))
        (case,) = await clerk.do(lambda journal: Desk(journal).cases())
    assert imap.asked == [1, 2, 1, 1]
    assert "3 times (two bodies in one answer)" in aside.reason
    assert case.reasons == ("unreadable-mail",)
    assert "3 times" in case.reading[0]
    assert imap.flags == {1: "\\Flagged Bedstamp-Aside"}


async def test_of_a_mail_that_is_too_large_only_the_head_is_kept_with_the_reason(tmp_path):
    class OneIsLarge(_OneUidFails):
        async def sizes(self, uids: list[int]) -> dict[int, int]:
            return dict.fromkeys(uids, LARGEST + 1)

        async def fetch(self, uid: int, *, head_only: bool = False) -> tuple[bytes, datetime | None]:
            assert head_only
            return b"From: hattie@example.org\r\nSubject: My machine\r\n\r\n", None

    server = ServerSettings("127.0.0.1", 1, "none", "", None)
    settings = MailSettings(DESK, server, "INBOX", server, "", (), 20)
    async with Clerk(tmp_path / "store.sqlite", create=True) as clerk:
        visit = _Visit(cast("Imap", OneIsLarge()), settings, clerk, Counter())
        await visit.begin()
        await visit._look(asyncio.Event())
        waiting = await clerk.do(lambda journal: journal.waiting(clerk.now()))
        why = await clerk.do(lambda journal: journal.noted("mail", waiting[0].key))
    assert [one.key for one in waiting] == ["place INBOX/7/1", "place INBOX/7/2"]
    assert why == "it has 60,000,001 bytes, more than 60,000,000, and only its head was read"


@pytest.mark.parametrize("fault", ["451", "452-data", "421", "drop"])
def test_what_the_server_puts_off_is_sent_again_under_the_same_identifier(plain, tmp_path, fault):
    with faulty_smtp(fault) as smtp, bot_on(plain, tmp_path, smtp_port=smtp.port):
        plain.deliver(question("K204117", "late"), DESK)
        with journal_of(tmp_path) as journal:
            until(lambda: journal.list_outgoing("queued", "uncertain", "sent") and smtp.connections)
            (waiting,) = journal.list_outgoing("queued", "uncertain", "sent", "sending")
            until(lambda: journal.list_outgoing("queued", "uncertain", "sent"))
            if not smtp.taken and fault != "421":
                journal.send_again(waiting.id)
        until(lambda: smtp.taken)
    assert set(smtp.message_ids()) == {waiting.key}


@pytest.mark.parametrize("fault", ["550", "554-data"])
def test_what_the_server_refuses_is_not_sent_again_and_is_shown(plain, tmp_path, fault):
    with faulty_smtp(fault) as smtp, bot_on(plain, tmp_path, smtp_port=smtp.port):
        plain.deliver(question("K204117", "no"), DESK)
        with journal_of(tmp_path) as journal:
            until(lambda: journal.list_outgoing("failed"))
            (failed,) = journal.list_outgoing("failed")
    assert failed.reason[:3] == fault[:3]
    assert smtp.taken == []


def test_an_answer_that_nobody_knows_of_is_uncertain_and_goes_out_again_the_same(plain, tmp_path):
    with faulty_smtp("drop-after") as smtp, bot_on(plain, tmp_path, smtp_port=smtp.port):
        plain.deliver(question("K204117", "maybe"), DESK)
        with journal_of(tmp_path) as journal:
            until(lambda: journal.list_outgoing("uncertain"))
            journal.send_again(journal.list_outgoing("uncertain")[0].id)
            until(lambda: journal.list_outgoing("sent"))
    assert len(smtp.taken) == 2
    assert smtp.taken[0] == smtp.taken[1]


def test_a_kill_while_the_server_is_silent_after_the_dot_leaves_one_answer_under_one_identifier(plain, tmp_path):
    with faulty_smtp("hang") as smtp:
        with bot_on(plain, tmp_path, smtp_port=smtp.port) as program:
            plain.deliver(question("K204117", "quiet"), DESK)
            until(lambda: smtp.taken)
            program.kill()
        with bot_on(plain, tmp_path, smtp_port=smtp.port):
            until(lambda: len(smtp.taken) == 2)
    assert len(set(smtp.message_ids())) == 1


def test_an_address_beyond_ascii_is_refused_clearly_by_a_server_that_cannot(plain, tmp_path):
    mail = question("K204117", "x").replace(b"<x@example.org>", "<jürgen@example.org>".encode())
    with faulty_smtp() as smtp, bot_on(plain, tmp_path, smtp_port=smtp.port):
        plain.deliver(mail, DESK)
        with journal_of(tmp_path) as journal:
            until(lambda: journal.list_outgoing("failed"))
            assert "SMTPUTF8" in journal.list_outgoing("failed")[0].reason


def test_an_address_beyond_ascii_is_answered_by_a_server_that_can(plain, tmp_path):
    mail = question("K204117", "x").replace(b"<x@example.org>", "<jürgen@example.org>".encode())
    with bot_on(plain, tmp_path):
        plain.deliver(mail, DESK)
        with journal_of(tmp_path) as journal:
            until(lambda: journal.list_outgoing("sent", "failed"))
            assert journal.list_outgoing("failed") == []


@pytest.mark.parametrize(("trusted", "password", "what"), [(False, PASSWORD, "certificate"), (True, "wrong", "535")])
async def test_a_wrong_certificate_or_login_holds_the_queue(servers, monkeypatch, trusted, password, what):
    if not servers.tls:
        pytest.skip("only with TLS")
    monkeypatch.delenv("SSL_CERT_FILE", raising=False)
    if trusted:
        monkeypatch.setenv("SSL_CERT_FILE", str(servers.certificate))
    smtp = Smtp(ServerSettings("127.0.0.1", servers.smtp_port, "starttls", DESK, Secret(password)), DESK)
    mail = Outgoing(1, "mail", "<1@x>", "a@example.org", datetime.now(UTC), None, "", "", "sending", 0, 0, "", "", b"x")
    with pytest.raises(NotSent, match=what) as held:
        await smtp.send(mail)
    assert held.value.at is None  # with a time only this mail would wait
    await asyncio.sleep(0.05)  # the connection closes


def test_a_wrong_password_is_told_and_nothing_is_lost(plain, tmp_path):
    with bot_on(plain, tmp_path):
        plain.deliver(question("K204117", "before"), DESK)
        plain.wait_for_mails("before@example.org", 1)
    settings = tmp_path / "settings.toml"
    (tmp_path / "wrong").write_text("wrong")
    settings.write_text(settings.read_text().replace(str(plain.folder / "password"), str(tmp_path / "wrong")))
    with Program([sys.executable, "-m", "bot", "run", "--config", str(settings)], tmp_path / "log2.jsonl") as program:
        program.start()
        until(lambda: program.saw("the mailbox cannot be read"))
        assert "login" in str([one.get("reason") for one in program.events()])
        assert program.terminate() == 0


def test_mail_through_smtp_reaches_the_bot_too(plain, tmp_path):
    with bot_on(plain, tmp_path), smtplib.SMTP("127.0.0.1", plain.smtp_port) as client:
        client.sendmail("ida@example.org", [DESK], question("K204117", "ida"))
        assert len(plain.wait_for_mails("ida@example.org", 1)) == 1


def test_a_server_that_threads_by_itself_sees_question_and_answers_as_one_thread(plain, tmp_path):
    """Judged by Dovecot's THREAD REFERENCES (RFC 5256), in a mailbox that holds both sides."""
    with bot_on(plain, tmp_path):
        plain.deliver(question("0662318", "thea"), DESK)
        (first,) = parsed(plain.wait_for_mails("thea@example.org", 1))
        head = f"In-Reply-To: {first['Message-ID']}\r\nReferences: {first['References']} {first['Message-ID']}\r\n"
        follow = question("x", "thea", "Re: My machine", head).replace(b"How old is x?", b"There is a K in front.")
        follow = follow.replace(b"Message-ID: <thea.q@", b"Message-ID: <thea.2@")
        plain.deliver(follow, DESK)
        replies = plain.wait_for_mails("thea@example.org", 2)
    for mail in (question("0662318", "thea"), replies[0], follow, replies[1], question("K1", "other", "Another")):
        plain.deliver(mail, "both@example.org")
    with plain.imap("both@example.org") as client:
        _, (threads,) = client.thread("REFERENCES", "UTF-8", "ALL")
    assert threads == b"(1 2 3 4)(5)", threads


async def test_a_push_ends_the_waiting_and_none_is_lost_to_another_call(plain):
    """RFC 2177, section 3: new mail is told while the client idles; outside IDLE, in the answer to any call."""
    server = ServerSettings("127.0.0.1", plain.imap_port, "none", DESK, Secret(PASSWORD))
    imap = await connect(server)
    try:
        await imap.open_folder("INBOX")
        known = await imap.uids()
        delivery = asyncio.get_running_loop().run_in_executor(None, plain.deliver, question("K204117", "push"), DESK)
        async with asyncio.timeout(20):
            await imap.idle(60, [])
            await delivery
            (new,) = [uid for uid in await imap.uids() if uid not in known]
            plain.deliver(question("K204117", "push2"), DESK)
            await imap.noop()  # the server tells of it here, and not again
            await imap.idle(60, [])
            assert len(await imap.uids(new + 1)) == 1
    finally:
        imap.close()


async def test_a_connection_that_is_lost_ends_every_call(plain):
    server = ServerSettings("127.0.0.1", plain.imap_port, "none", DESK, Secret(PASSWORD))
    imap = await connect(server)
    await imap.open_folder("INBOX")
    plain.stop_dovecot(hard=True)
    try:
        async with asyncio.timeout(20):
            with pytest.raises(ImapFault):
                await imap.uids()
            with pytest.raises(ImapFault):
                await imap.idle(60, [])
    finally:
        imap.close()
        plain.start_dovecot()
