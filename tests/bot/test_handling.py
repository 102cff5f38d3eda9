"""Tests of bot/handling.py: one message through its handler into the journal."""

from __future__ import annotations

import pytest

from bot.handling import Outcome, SetAside, handle
from bot.journal import Journal, Reply, Talk, open_journal
from bot.journal.waits import HANDLING
from knowledge.base import Knowledge
from knowledge.migrations import StoreError
from tests.bot.journal.conftest import Clock

KNOWLEDGE = Knowledge()


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def journal(tmp_path):
    with open_journal(tmp_path / "group.sqlite", create=True) as opened:
        yield opened


def take(journal: Journal, clock: Clock, *keys: str) -> None:
    for key in keys:
        journal.receive("mail", key, key.encode(), clock())


def handle_all(journal: Journal, clock: Clock, handler) -> list[str]:
    """Handle everything whose turn it is, until nothing is left; return the keys in order."""
    order = []

    def noting(message, raw, recall, knowledge):
        outcome = handler(message, raw, recall, knowledge)
        order.append(message.key)
        return outcome

    while waiting := journal.waiting(clock()):
        for message in waiting:
            handle(journal, message, noting, KNOWLEDGE, clock)
    return order


def answering(message, raw, recall, knowledge) -> Outcome:
    state = recall("talk", "ann") or ""
    return Outcome((Reply("mail", f"<{message.key}>", "ann", raw),), Talk("talk", state + message.key), "ann")


def test_the_state_of_the_conversation_goes_from_message_to_message(journal, clock) -> None:
    take(journal, clock, "a", "b", "c")
    assert handle_all(journal, clock, answering) == ["a", "b", "c"]
    assert journal.conversation("talk") == "abc"
    assert [one.key for one in journal.due("mail", clock())] == ["<a>", "<b>", "<c>"]


def test_a_later_message_of_the_conversation_waits_until_the_earlier_one_is_done(journal, clock) -> None:
    failing = {"a"}

    def handler(message, raw, recall, knowledge):
        outcome = answering(message, raw, recall, knowledge)
        if message.key in failing:
            raise RuntimeError("not now")
        return outcome

    take(journal, clock, "a", "b", "c")
    assert handle_all(journal, clock, handler) == []
    failing.clear()
    clock.moves(minutes=5)
    assert handle_all(journal, clock, handler) == ["a", "b", "c"]
    assert journal.conversation("talk") == "abc"


def test_the_handler_sees_the_raw_bytes_the_knowledge_and_the_message(journal, clock) -> None:
    seen = []
    take(journal, clock, "k")

    def handler(message, raw, recall, knowledge):
        seen.append((message.key, raw, knowledge))
        return Outcome()

    handle_all(journal, clock, handler)
    assert seen == [("k", b"k", KNOWLEDGE)]


def test_a_handler_that_can_make_nothing_of_a_message_sets_it_aside_with_its_reason(journal, clock) -> None:
    def handler(*_):
        raise SetAside("no text in it at all")

    take(journal, clock, "k")
    handle_all(journal, clock, handler)
    assert [one.reason for one in journal.list_incoming("aside")] == ["no text in it at all"]


@pytest.mark.parametrize(
    "fault",
    [
        ValueError("x"),
        RecursionError(),
        MemoryError(),
        KeyError("\udcff"),
        AssertionError(),
        StopIteration(),
        OSError("io"),
    ],
)
def test_whatever_a_handler_raises_is_a_failed_try_of_that_message_alone(journal, clock, fault) -> None:
    def handler(message, raw, recall, knowledge):
        if message.key == "bad":
            raise fault
        return Outcome(rule="fine")

    take(journal, clock, "bad", "good")
    assert handle_all(journal, clock, handler) == ["good"]
    for _ in range(HANDLING.tries):
        clock.moves(hours=1)
        handle_all(journal, clock, handler)
    (aside,) = journal.list_incoming("aside")
    assert aside.reason.startswith(type(fault).__name__)


@pytest.mark.parametrize(
    "outcome",
    [
        Outcome((Reply("mail", "k", "r", {"no": "bytes"}),)),  # type: ignore[arg-type]
        Outcome((Reply("mail", None, "r", b""),)),  # type: ignore[arg-type]
        Outcome(talk=Talk("talk", None)),  # type: ignore[arg-type]
        None,
    ],
)
def test_an_outcome_that_cannot_be_kept_is_the_fault_of_its_message_and_not_of_the_journal(
    journal, clock, outcome
) -> None:
    take(journal, clock, "bad", "good")
    handle_all(journal, clock, lambda message, *_: outcome if message.key == "bad" else Outcome())
    assert [one.state for one in journal.list_incoming("waiting", "handled")] == ["handled", "waiting"]
    assert journal.due("mail", clock()) == []


def test_broken_characters_in_names_and_keys_are_kept_written_out(journal, clock) -> None:
    def handler(message, raw, recall, knowledge):
        recall("talk \udce4", "ann\udcff@example.org")
        reply = Reply("mail", "<\udc80@x>", "ann\udcff", b"", "ann\udcff@example.org", "talk \udce4")
        return Outcome((reply,), Talk("talk \udce4", "{}"), "ann\udcff@example.org")

    journal.receive("mail", "\udcfe", b"", clock())
    assert handle_all(journal, clock, handler) == ["\\udcfe"]
    assert journal.conversation("talk \udce4") == "{}"
    assert [one.key for one in journal.due("mail", clock())] == ["<\\udc80@x>"]
    assert journal.forget("ann\udcff@example.org") == 2
    assert journal.receive("mail", "\udcfe", b"", clock()) is None


def test_when_the_journal_cannot_be_written_the_message_waits_and_uses_up_no_try(journal, clock) -> None:
    def big(message, raw, recall, knowledge):
        return Outcome((Reply("mail", "<k>", "r", b"x" * 500_000),))

    take(journal, clock, "k")
    (message,) = journal.waiting(clock())
    pages = journal._database.conn.execute("PRAGMA page_count").fetchone()[0]
    journal._database.conn.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(StoreError, match="disk is full"):
        handle(journal, message, big, KNOWLEDGE, clock)
    journal._database.conn.execute("PRAGMA max_page_count = 1000000")
    assert [one.tries for one in journal.waiting(clock())] == [0]
    assert handle_all(journal, clock, big) == ["k"]


def test_what_else_is_written_stands_in_the_same_transaction_and_its_replies_are_queued(journal, clock) -> None:
    def handler(*_):
        def writes(journal: Journal, now):
            journal.note("desk", "case", "7")
            return [Reply("mail", "<card>", "expert", b"a card")]

        return Outcome((Reply("mail", "<answer>", "ann", b"an answer"),), writes=writes)

    take(journal, clock, "a")
    handle_all(journal, clock, handler)
    assert journal.noted("desk", "case") == "7"
    assert [one.key for one in journal.due("mail", clock())] == ["<answer>", "<card>"]


def test_when_writing_something_else_fails_nothing_is_kept_and_the_message_is_tried_again(journal, clock) -> None:
    def handler(*_):
        def writes(journal: Journal, now):
            journal.note("desk", "case", "7")
            raise RuntimeError("not now")

        return Outcome((Reply("mail", "<answer>", "ann", b"an answer"),), writes=writes)

    take(journal, clock, "a")
    assert handle_all(journal, clock, handler) == ["a"]
    assert journal.noted("desk", "case") is None
    assert journal.due("mail", clock()) == []
    assert journal.incoming(1).state == "waiting"
