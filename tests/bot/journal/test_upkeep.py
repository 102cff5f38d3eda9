"""Tests of bot/journal/upkeep.py: trying again, pruning by age."""

from __future__ import annotations

import pytest

from bot.journal import JournalError, Reply
from tests.bot.journal.conftest import ask, send

# --- trying again


def test_what_was_set_aside_can_be_handled_again_with_all_its_tries(journal, clock) -> None:
    id_ = journal.receive("mail", "k", b"raw", clock())
    journal.set_aside(id_, "broke", now=clock())
    journal.handle_again(id_)
    (again,) = journal.waiting(clock())
    assert (again.id, again.tries) == (id_, 0)


def test_what_failed_can_be_sent_again_under_the_same_key(journal, clock) -> None:
    journal.queue([Reply("mail", "<1@x>", "a", b"body")], now=clock())
    (one,) = journal.due("mail", clock())
    journal.failed(one.id, "550", now=clock())
    journal.send_again(one.id)
    assert [(again.key, again.tries) for again in journal.due("mail", clock())] == [("<1@x>", 0)]


def test_what_was_answered_is_not_answered_again_and_what_was_sent_not_sent_again(journal, clock) -> None:
    id_ = ask(journal, clock, "k", "ann", "<1@x>")
    send(journal, clock, "<1@x>")
    with pytest.raises(JournalError, match="answer it twice"):
        journal.handle_again(id_)
    with pytest.raises(JournalError, match="sent already"):
        journal.send_again(journal.outgoing_of("mail", "<1@x>").id)


def test_what_is_not_there_is_said_to_be_not_there(journal) -> None:
    with pytest.raises(JournalError, match="no message in-5"):
        journal.handle_again(5)
    with pytest.raises(JournalError, match="no message out-5"):
        journal.send_again(5)
    with pytest.raises(JournalError, match="in-5"):
        journal.raw(5)


# --- pruning


def test_pruning_drops_the_content_of_what_was_finished_before_and_keeps_it_known(journal, clock) -> None:
    old = ask(journal, clock, "old", "ann", "<1@x>")
    send(journal, clock, "<1@x>")
    border = clock.moves(days=1)
    new = ask(journal, clock, "new", "bob", "<2@x>")
    send(journal, clock, "<2@x>")
    assert journal.prune(border) == 3  # the message, its reply, the conversation
    with pytest.raises(JournalError, match="not kept"):
        journal.raw(old)
    assert journal.raw(new)
    assert journal.outgoing_of("mail", "<1@x>").body == b""
    assert journal.outgoing_of("mail", "<2@x>").body
    assert (journal.conversation("talk of ann"), journal.conversation("talk of bob")) == (None, "{}")
    assert journal.receive("mail", "old", b"again", clock()) is None


def test_what_waits_is_set_aside_or_is_still_to_be_sent_is_never_pruned(journal, clock) -> None:
    waiting = journal.receive("mail", "w", b"raw", clock())
    aside = journal.receive("mail", "a", b"raw", clock())
    journal.set_aside(aside, "broke", now=clock())
    unsent = ask(journal, clock, "u", "ann", "<1@x>")
    journal.prune(clock.moves(days=1000))
    assert journal.raw(waiting)
    assert journal.raw(aside)
    assert journal.raw(unsent)
    assert journal.outgoing_of("mail", "<1@x>").body


def test_pruning_many_takes_several_short_transactions(journal, clock) -> None:
    for number in range(1203):
        id_ = journal.receive("mail", str(number), b"raw", clock())
        journal.handled(id_, now=clock())
    assert journal.prune(clock.moves(days=1)) == 1203


def test_the_states_are_counted(journal, clock) -> None:
    ask(journal, clock, "a", "ann", "<1@x>")
    journal.receive("mail", "b", b"", clock())
    assert journal.counts() == {"handled": 1, "waiting": 1, "queued": 1}
