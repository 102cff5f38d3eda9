"""What a process without channels leaves to be sent is sent by the one that has them, once."""

from __future__ import annotations

import pytest

from bot.expert_desk import Desk
from bot.journal import open_journal

HARD = "How old is number Z 4711?"


@pytest.fixture
def terminal(office, store):
    """The desk as the terminal has it: another process's file, no channels."""
    with open_journal(store) as journal:
        yield Desk(journal)


def test_what_the_terminal_settles_is_told_by_the_running_bot_as_if_it_had_been_settled_there(office, terminal) -> None:
    case = office.ask(HARD).case.id
    assert not office.desk.has_errands()
    proposal = terminal.propose(case, "terminal:eva", "Model 9, about 1911", office.knowledge, office.now)
    done = terminal.settle(proposal.id, "terminal:eva", office.now)
    assert done.is_done
    assert done.replies == ()
    assert office.told() == []
    assert office.desk.has_errands()
    office.desk.look(office.now, by_the_clock=False)
    assert office.kinds_told() == ["settled"]
    assert "about 1911" in office.told()[0]
    assert office.channel.changes[-1].case.state == "settled"
    assert not office.desk.has_errands()
    assert office.desk.look(office.now, by_the_clock=False) == 0


def test_a_message_queued_from_an_errand_has_the_key_it_would_have_had(office, terminal) -> None:
    case = office.ask(HARD).case.id
    terminal.ask_asker(case, "terminal:eva", "Long or round?", office.now)
    office.desk.look(office.now, by_the_clock=False)
    (sent,) = [one for one in office.journal.due("chat", office.now, 50) if one.recipient == "ann"]
    assert sent.key.startswith(f"case{case}-question-")


def test_errands_for_a_channel_that_is_off_wait_until_it_is_on(office, terminal) -> None:
    case = office.ask(HARD, channel="mail").case.id
    terminal.not_ours(case, "terminal:eva", office.now)
    office.desk.look(office.now, by_the_clock=False)
    assert not office.desk.has_errands()
    office.channel.name = "mail"
    assert office.desk.has_errands()


def test_an_errand_to_somebody_who_was_forgotten_meanwhile_is_gone(office, terminal) -> None:
    case = office.ask(HARD).case.id
    terminal.not_ours(case, "terminal:eva", office.now)
    office.journal.forget("chat:ann")
    office.desk.look(office.now, by_the_clock=False)
    assert office.told() == []
