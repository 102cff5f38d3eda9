"""Tests of bot/journal/outbox.py: what goes out is never lost, and never sent twice without saying so."""

from __future__ import annotations

import pytest

from bot.journal import JournalError, Reply, open_journal
from bot.journal.waits import SENDING, UNCERTAIN


def queue(journal, clock, *keys: str) -> list[int]:
    journal.queue([Reply("mail", key, "a@example.org", b"body", person="a@example.org") for key in keys], now=clock())
    found = [journal.outgoing_of("mail", key) for key in keys]
    return [one.id for one in found if one]


def state(journal, id_: int) -> str:
    found = journal.outgoing(id_)
    return found.state if found else ""


def test_a_reply_goes_from_queued_through_sending_to_sent(journal, clock) -> None:
    (id_,) = queue(journal, clock, "<1@x>")
    assert state(journal, id_) == "queued"
    journal.sending(id_)
    assert state(journal, id_) == "sending"
    assert journal.due("mail", clock()) == []
    journal.sent(id_, "remote-17", now=clock())
    found = journal.outgoing(id_)
    assert (found.state, found.remote) == ("sent", "remote-17")
    assert journal.due("mail", clock.moves(days=9)) == []


def test_a_reply_with_a_known_key_is_queued_once(journal, clock) -> None:
    queue(journal, clock, "<1@x>", "<2@x>")
    queue(journal, clock, "<1@x>")
    assert [one.key for one in journal.due("mail", clock())] == ["<1@x>", "<2@x>"]


def test_what_was_being_sent_when_the_program_ended_is_uncertain_and_due_with_the_same_key(path, clock) -> None:
    with open_journal(path, create=True) as journal:
        lost, safe, done = queue(journal, clock, "<1@x>", "<2@x>", "<3@x>")
        journal.sending(lost)
        journal.sending(done)
        journal.sent(done, now=clock())
    with open_journal(path) as journal:
        assert journal.recover(clock()) == (1, 0)
        assert [(one.id, one.key, one.state, one.unsure) for one in journal.due("mail", clock())] == [
            (lost, "<1@x>", "uncertain", 1),
            (safe, "<2@x>", "queued", 0),
        ]


def test_an_uncertain_reply_is_tried_again_but_not_without_end(journal, clock) -> None:
    (id_,) = queue(journal, clock, "<1@x>")
    rounds = 0
    while journal.due("mail", clock.moves(days=1)):
        journal.sending(id_)
        given_up = journal.uncertain(id_, "no answer after the last line", now=clock())
        rounds += 1
    assert rounds == UNCERTAIN.tries
    assert given_up
    assert journal.outgoing(id_).reason == "no answer after the last line"
    assert state(journal, id_) == "failed"


def test_what_the_other_side_puts_off_is_tried_for_about_five_days_and_then_fails(journal, clock) -> None:
    # RFC 5321, section 4.5.4.1: "Retries continue until the message is transmitted or the sender gives up; the
    # give-up time generally needs to be at least 4-5 days."
    (id_,) = queue(journal, clock, "<1@x>")
    start = clock()
    while True:
        journal.sending(id_)
        if journal.put_off(id_, "451 later", now=clock()):
            break
        assert journal.due("mail", clock()) == []
        wait = journal.next_try(id_, outgoing=True) - clock().timestamp()
        assert len(journal.due("mail", clock.moves(seconds=wait + 0.01))) == 1
    assert state(journal, id_) == "failed"
    assert journal.outgoing(id_).tries == SENDING.tries
    assert 4 <= (clock() - start).total_seconds() / 86400 <= 7


def test_what_surely_was_not_sent_waits_as_long_as_told_and_uses_up_no_try(journal, clock) -> None:
    (id_,) = queue(journal, clock, "<1@x>")
    for _ in range(SENDING.tries + 5):
        journal.sending(id_)
        journal.later(id_, clock.moves(seconds=90), "no connection", now=clock())
    assert journal.outgoing(id_).tries == 0
    assert len(journal.due("mail", clock.moves(seconds=1))) == 1


def test_one_that_fails_does_not_hold_up_the_others(journal, clock) -> None:
    first, second = queue(journal, clock, "<1@x>", "<2@x>")
    journal.put_off(first, "451", now=clock())
    assert [one.id for one in journal.due("mail", clock())] == [second]
    journal.failed(second, "550 no such person", now=clock())
    assert [one.reason for one in journal.list_outgoing("failed")] == ["550 no such person"]


def test_one_that_is_due_again_and_again_does_not_come_before_the_new_ones(journal, clock) -> None:
    first, second, third = queue(journal, clock, "<1@x>", "<2@x>", "<3@x>")
    journal.later(first, clock(), now=clock())
    assert [one.id for one in journal.due("mail", clock.moves(days=1))] == [second, third, first]


def test_a_sent_mail_that_comes_back_is_failed(journal, clock) -> None:
    (id_,) = queue(journal, clock, "<1@x>")
    journal.sending(id_)
    journal.sent(id_, now=clock())
    journal.failed(id_, "came back: mailbox full", now=clock())
    assert state(journal, id_) == "failed"


def test_marks_that_do_not_fit_are_refused(journal, clock) -> None:
    (id_,) = queue(journal, clock, "<1@x>")
    journal.sending(id_)
    with pytest.raises(JournalError, match=f"out-{id_}"):
        journal.sending(id_)
    journal.sent(id_, now=clock())
    for mark in (
        lambda: journal.sent(id_, now=clock()),
        lambda: journal.later(id_, clock(), now=clock()),
        lambda: journal.put_off(id_, "", now=clock()),
        lambda: journal.uncertain(id_, now=clock()),
        lambda: journal.failed(999, "", now=clock()),
    ):
        with pytest.raises(JournalError):
            mark()
    assert state(journal, id_) == "sent"


def test_waits_for_sending_survive_a_clock_put_back(journal, clock) -> None:
    (id_,) = queue(journal, clock, "<1@x>")
    journal.put_off(id_, "451", now=clock())
    clock.moves(days=-4000)
    assert journal.due("mail", clock()) == []
    assert len(journal.due("mail", clock.moves(minutes=2))) == 1


def test_replies_to_a_person_can_be_counted_since_a_moment(journal, clock) -> None:
    queue(journal, clock, "<1@x>")
    since = clock.moves(hours=1)
    queue(journal, clock, "<2@x>", "<3@x>")
    assert journal.replies_to("a@example.org", since) == 2
    assert journal.replies_to("nobody", since) == 0


def test_each_channel_sees_its_own(journal, clock) -> None:
    queue(journal, clock, "<1@x>")
    journal.queue([Reply("chat", "<1@x>", "5", b"")], now=clock())
    assert [one.recipient for one in journal.due("chat", clock())] == ["5"]
