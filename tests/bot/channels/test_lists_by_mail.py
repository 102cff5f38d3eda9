"""A list is changed by two experts who use nothing but mail, with the running program, Dovecot and Postfix."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.journal import open_journal
from knowledge.packs.tables import Pack
from tests.bot.channels.test_experts_by_mail import ADA, BEN, EXPERTS, body_of, identifiers, newest, reply
from tests.mail_bot import DESK, bot_on, empty, journal_of, question, until
from tests.mail_servers import MailServers, mail_servers, missing

pytestmark = pytest.mark.skipif(bool(missing()), reason=missing())
ASKER = "asker1@example.org"


@pytest.fixture(scope="module")
def servers() -> Iterator[MailServers]:
    with mail_servers() as running:
        yield running


@pytest.fixture(autouse=True)
def _empty_mailboxes(servers) -> None:
    for address in (DESK, ADA, BEN):
        empty(servers, address)


def test_two_experts_change_a_list_by_mail_and_the_next_answer_follows_it(servers, tmp_path: Path, pack: Pack):
    with open_journal(tmp_path / "bedstamp.sqlite", create=True) as journal:
        journal.store().save_pack(pack)
    wish = f"From: {ADA}\r\nTo: {DESK}\r\nSubject: A mistake\r\nMessage-ID: <wish@example.org>\r\n\r\n"
    with bot_on(servers, tmp_path, EXPERTS) as program:
        servers.deliver(f"{wish}Hello,\r\n\r\nchange K 200001-225000 date 1891\r\n\r\nAda\r\n".encode(), DESK)
        offer = newest(servers, ADA, 1)
        assert "date: 1890-03-02 becomes 1891" in body_of(offer)
        assert servers.mails(BEN) == []
        servers.deliver(reply(offer, "yes"), DESK)
        for_ben, for_ada = newest(servers, BEN, 1), newest(servers, ADA, 2)
        assert "date: 1890-03-02 becomes 1891" in body_of(for_ben)
        servers.deliver(reply(for_ada, "yes", number=2), DESK)
        assert "You proposed change 1 yourself" in " ".join(body_of(newest(servers, ADA, 3)).split())
        program.kill()
    servers.deliver(reply(for_ben, "yes", BEN, number=3), DESK)
    servers.deliver(reply(for_ben, "yes", BEN, number=3), DESK)
    with bot_on(servers, tmp_path, EXPERTS):
        until(lambda: len(identifiers(servers, BEN)) == 2)
        until(lambda: len(identifiers(servers, ADA)) == 4)
        servers.deliver(question("K 204117", "asker1"), DESK)
        answer = body_of(newest(servers, ASKER, 1))
    assert "1891" in answer
    assert "March 1890" not in answer
    with journal_of(tmp_path) as journal:
        assert [(one.state, one.other) for one in journal.store().register_changes()] == [("in force", "expert 2")]
