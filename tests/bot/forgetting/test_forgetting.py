"""A person is forgotten: the raw file and its side files are searched for everything that could tell of them."""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Iterator
from datetime import UTC, datetime
from email.message import EmailMessage
from pathlib import Path

import pytest

from bot.cases import Asker
from bot.conversation import Incoming, reply
from bot.expert_desk import Desk, desk_for
from bot.forgetting import forget
from bot.journal import Journal, Reply, Talk, open_journal
from bot.state import State
from knowledge.answer import answer
from knowledge.base import Knowledge

NOW = datetime(2031, 5, 4, 12, 0, tzinfo=UTC)
ANN, BOB = "mail:annika.zwart@example.org", "mail:bob@example.net"
CHAT_ANN = "telegram:u731904522"
WORDS = "Hello, my late aunt Leopoldine left me a machine with Z 5550123 stamped on it, I live in Quimperlane."
TRACES = ("annika.zwart", "Annika Zwart", "annika zwart", "Leopoldine", "Quimperlane", "731904522", "zwartje_sews")


def mail(sender: str, text: str, name: str = "", encoding: str = "8bit") -> bytes:
    made = EmailMessage()
    made["From"] = f"{name} <{sender}>" if name else sender
    made["To"] = "desk@example.org"
    made["Subject"] = "An old machine"
    made["Message-ID"] = f"<{abs(hash((sender, text)))}@{sender.partition('@')[2]}>"
    made.set_content(text, cte=encoding)
    return made.as_bytes()


def update(user: int, name: str, text: str, answers: dict[str, object] | None = None) -> bytes:
    message: dict[str, object] = {
        "message_id": 5, "date": 1, "text": text, "chat": {"id": -100, "type": "group"},
        "from": {"id": user, "is_bot": False, "first_name": name.partition(" ")[0], "last_name": name.partition(" ")[2],
                 "username": "zwartje_sews" if user == 731904522 else "bob_b"},
    }  # fmt: skip
    return json.dumps({"update_id": 1, "message": {**message, "reply_to_message": answers}}).encode()


@pytest.fixture
def path(tmp_path: Path, pack) -> Path:
    path = tmp_path / "group.sqlite"
    with open_journal(path, create=True) as journal:
        journal.store().save_pack(pack)
    return path


@pytest.fixture
def journal(path: Path) -> Iterator[Journal]:
    with open_journal(path) as opened:
        yield opened


def handled(journal: Journal, channel: str, key: str, raw: bytes, person: str, *replies: Reply) -> int:
    id_ = journal.receive(channel, key, raw, NOW)
    assert id_ is not None
    state = json.dumps({"text": raw.decode("utf-8", "replace")})
    journal.handled(id_, replies, Talk(f"talk of {person}", state), person=person, now=NOW)
    return id_


def sent(journal: Journal, channel: str, key: str) -> None:
    one = journal.outgoing_of(channel, key)
    assert one is not None
    journal.sending(one.id)
    journal.sent(one.id, now=NOW)


def a_years_traffic(journal: Journal, knowledge: Knowledge) -> int:
    """Ann writes by mail and in the chat, others quote her, her case is settled. Return the number of the case."""
    own = mail("annika.zwart@example.org", WORDS, "Annika Zwart", "base64")
    answered = Reply(
        "mail", "<a1@x>", "annika.zwart@example.org", mail("desk@example.org", f"> {WORDS}\n\nNo list."), ANN
    )
    handled(journal, "mail", "m1", own, ANN, answered)
    sent(journal, "mail", "<a1@x>")
    quoting = (
        "Annika Zwart wrote:\n> Hello, my late aunt Leopoldine left me a machine with\n> Z 5550123 stamped on it, I\n"
        "> live in Quimperlane.\nMine is K204117."
    )
    handled(journal, "mail", "m2", mail("bob@example.net", quoting, "Bob", "quoted-printable"), BOB)
    handled(journal, "mail", "m3", mail("bob@example.net", "And what of K 204 118?", "Bob"), BOB)
    hers = json.loads(
        update(731904522, "Annika Zwart", "my aunt Leopoldine's machine again, from Quimperlane, any news?")
    )
    handled(journal, "telegram", "t1", json.dumps(hers).encode(), CHAT_ANN)
    handled(journal, "telegram", "t2", update(55, "Bob B", "K204117?", hers["message"]), "telegram:u55")
    journal.note("telegram", "expert u731904522", "admin")
    desk = Desk(journal, [])
    state, said = reply(Incoming(WORDS), State(), knowledge)
    opening = desk_for(
        said[0].answer, state, Asker("mail", ANN, json.dumps({"to": "annika.zwart@example.org"})), knowledge, text=WORDS
    )
    assert opening is not None
    case = desk.open(opening, knowledge, NOW).case.id
    card = Reply("telegram", "case1-card", "-200", json.dumps({"text": f"Somebody asks: {WORDS}"}).encode())
    journal.queue([card, Reply("telegram", "case1-again", "-200", card.body)], now=NOW)
    sent(journal, "telegram", "case1-card")
    proposal = desk.propose(
        case, "mail:eva@example.org", f"Model 9, about 1911, by the shuttle.\n\n> {WORDS}", knowledge, NOW
    )
    assert proposal.can_settle, proposal.text
    assert desk.settle(proposal.id, "mail:eva@example.org", NOW).is_done
    return case


def everything(path: Path) -> bytes:
    return b"".join(one.read_bytes() for one in sorted(path.parent.glob(f"{path.name}*")))


def found_in(path: Path) -> list[str]:
    """Return the traces that can be read in the file or beside it, plainly, in small letters, or as base64."""
    raw = everything(path)
    small = raw.lower()
    forms = {trace: {trace.encode().lower(), trace.encode("utf-16-le").lower()} for trace in TRACES}
    coded = {trace: {b64encode(b" " * shift + trace.encode())[4:-4] for shift in (0, 1, 2)} for trace in TRACES}
    return [
        trace
        for trace in TRACES
        if any(form in small for form in forms[trace]) or any(form in raw for form in coded[trace])
    ]


def test_nothing_of_the_person_is_left_in_the_file_or_beside_it(journal, knowledge, path) -> None:
    a_years_traffic(journal, knowledge)
    assert set(found_in(path)) == set(TRACES), "the search itself finds them before"
    for person in (ANN, CHAT_ANN):
        done = forget(journal, person)
        assert done.is_complete
    assert found_in(path) == []


def test_what_was_found_out_stays_and_answers_the_next_one(journal, knowledge, path) -> None:
    case = a_years_traffic(journal, knowledge)
    for person in (ANN, CHAT_ANN, "mail:eva@example.org"):
        forget(journal, person)
    (finding,) = journal.store().findings()
    assert (finding.serial, finding.date, finding.case) == ("Z5550123", "1911~", case)
    assert "shuttle" in finding.evidence
    known = Knowledge.of(journal.store().sources(), findings=journal.store().findings())
    assert answer("Z5550123?", known).candidates[0].kind == "finding"
    assert Desk(journal, []).case(case).state == "settled"


def test_others_keep_what_tells_nothing_of_the_person(journal, knowledge, path) -> None:
    a_years_traffic(journal, knowledge)
    forget(journal, ANN)
    kept = [one.key for one in journal.messages_of(BOB) if journal.raw_or_nothing(one.id)]
    assert kept == ["m3"]
    assert b"bob@example.net" in everything(path)


def test_a_card_that_is_still_to_be_sent_is_sent_without_them(journal, knowledge) -> None:
    a_years_traffic(journal, knowledge)
    forget(journal, ANN)
    queued = json.loads(journal.outgoing_of("telegram", "case1-again").body)
    assert queued == {"text": "Somebody asks: …"}
    assert journal.outgoing_of("telegram", "case1-card").body == b""


def test_a_mail_to_somebody_else_that_is_still_to_be_sent_is_kept_and_named(journal, knowledge) -> None:
    a_years_traffic(journal, knowledge)
    body = mail("desk@example.org", f"Somebody asks: {WORDS}")
    journal.queue([Reply("mail", "<card@x>", "eva@example.org", body, "mail:eva@example.org")], now=NOW)
    one = journal.outgoing_of("mail", "<card@x>")
    assert forget(journal, ANN).in_hand == (f"out-{one.id}",)
    assert journal.outgoing_of("mail", "<card@x>").body == body


def test_what_others_ask_and_is_not_answered_yet_is_kept_and_named(journal, knowledge, path) -> None:
    a_years_traffic(journal, knowledge)
    waiting = journal.receive("mail", "m9", mail("bob@example.net", "Annika Zwart told me of you. K204117?"), NOW)
    done = forget(journal, ANN)
    assert done.in_hand == (f"in-{waiting}",)
    assert journal.raw(waiting)
    journal.handled(waiting, person=BOB, now=NOW)
    assert forget(journal, ANN, ["Annika Zwart"]).is_complete
    assert not journal.raw_or_nothing(waiting)


def test_forgetting_somebody_unknown_changes_nothing(journal, knowledge, path) -> None:
    a_years_traffic(journal, knowledge)
    before = journal.counts()
    done = forget(journal, "mail:nobody@example.com")
    assert (done.own, done.others, done.is_complete) == (0, 0, True)
    assert journal.counts() == before


def name_of(journal: Journal, address: str, name: str) -> None:
    handled(journal, "mail", f"k-{address}", mail(address, "How old is K204117?", name), f"mail:{address}")


@pytest.mark.parametrize("name", ["example", "Peter", "Model 9", "asker", "Bob", "Tollgate & Sons", "gmail", "K"])
def test_a_name_that_others_may_have_changes_nothing_of_others(name, journal, knowledge) -> None:
    a_years_traffic(journal, knowledge)
    name_of(journal, "peter@example.net", "Peter Hill")
    name_of(journal, "p.hill@example.com", name)
    journal.queue(
        [Reply("mail", "<q@x>", "peter@example.net", b"From: desk\n\nModel 9, Peter", "mail:peter@example.net")],
        now=NOW,
    )
    people = set(journal.people()) - {"mail:p.hill@example.com"}
    history = Desk(journal, []).history(1)
    done = forget(journal, "mail:p.hill@example.com")
    assert set(journal.people()) == people
    assert journal.outgoing_of("mail", "<q@x>").body
    assert Desk(journal, []).history(1) == history
    assert done.traces.left == (name,)


def test_a_name_that_is_asked_for_is_cleared_from_what_others_wrote_and_from_nothing_else(journal, knowledge) -> None:
    a_years_traffic(journal, knowledge)
    name_of(journal, "peter@example.net", "Bob Stone")
    theirs = handled(journal, "mail", "about", mail("bob@example.net", "PÉTERS mother had it. Peter's receipt."), BOB)
    done = forget(journal, "mail:nobody@example.com", ["Peter"])
    assert not done.was_known
    assert not journal.raw_or_nothing(theirs)
    assert "mail:peter@example.net" in journal.people()


@pytest.mark.parametrize(
    "quoted",
    ["annika.zwart@example.o…", "(annika.zwart@exam...", "ANNIKA.ZWART@EXAMPLE.ORG", "Ánnika  zwart's", "annika zwart"],
)
def test_however_others_write_a_name_or_an_address_it_goes(quoted, journal, knowledge) -> None:
    a_years_traffic(journal, knowledge)
    id_ = handled(journal, "mail", "m8", mail("bob@example.net", f"as {quoted} told me"), BOB)
    forget(journal, ANN)
    assert not journal.raw_or_nothing(id_)


def test_an_expert_of_the_terminal_and_one_of_the_same_name_elsewhere_are_two(journal, knowledge) -> None:
    a_years_traffic(journal, knowledge)
    name_of(journal, "ada@example.org", "Ada Lowe")
    forget(journal, "terminal:ada")
    assert "mail:ada@example.org" in journal.people()
