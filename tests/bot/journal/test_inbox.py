"""Tests of bot/journal/inbox.py: what came in is kept, handled once and in order, and set aside when it cannot be."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.journal import Journal, JournalError, Reply, Talk, open_journal
from bot.journal.waits import BEGUN_MOST, HANDLING
from knowledge.migrations import StoreError
from knowledge.store import open_store


def take(journal: Journal, clock, *keys: str) -> list[int]:
    ids = [journal.receive("mail", key, f"raw {key}".encode(), clock()) for key in keys]
    return [id_ for id_ in ids if id_ is not None]


def reply(key: str = "<r1@x>", **more) -> Reply:
    return Reply("mail", key, "asker@example.org", b"the answer", **more)


# --- taking in


def test_what_was_received_is_on_the_disk_for_another_process_to_read(journal, clock, path) -> None:
    journal.receive("mail", "k", b"From: \xff\x00\n\nhow old?", clock())
    with closing(sqlite3.connect(path)) as other:
        assert other.execute("SELECT raw FROM incoming").fetchall() == [(b"From: \xff\x00\n\nhow old?",)]


def test_a_message_known_by_its_key_is_not_taken_twice_but_the_same_key_in_another_channel_is(journal, clock) -> None:
    assert journal.receive("mail", "k", b"first", clock()) is not None
    assert journal.receive("mail", "k", b"second", clock()) is None
    assert journal.receive("chat", "k", b"third", clock()) is not None
    assert [journal.raw(one.id) for one in journal.waiting(clock())] == [b"first", b"third"]


def test_a_known_message_gets_its_new_place(journal, clock) -> None:
    journal.receive("mail", "k", b"", clock(), place="INBOX/7/1")
    journal.receive("mail", "k", b"", clock(), place="INBOX/8/90")
    assert journal.places("mail") == {"INBOX/8/90"}
    assert journal.places("mail", "INBOX/7/") == set()


def test_notes_of_the_channel_are_kept_with_the_message(journal, clock, path) -> None:
    journal.receive("chat", "1", b"", clock(), notes={"offset": "2"})
    with open_journal(path) as other:
        assert other.noted("chat", "offset") == "2"
        assert other.noted("mail", "offset") is None


def test_the_journal_lives_in_the_file_of_the_knowledge_base(path, clock) -> None:
    with open_store(path, create=True) as store, open_journal(path) as journal:
        take(journal, clock, "k")
        assert store.pack_names() == ()


def test_a_time_without_its_zone_is_refused_before_anything_is_written(journal, clock) -> None:
    with pytest.raises(ValueError, match="time zone"):
        journal.receive("mail", "k", b"", datetime(2031, 1, 1))  # noqa: DTZ001
    assert journal.waiting(clock()) == []


@given(raw=st.binary(max_size=3000), key=st.text(st.characters(exclude_categories=["Cs"]), max_size=40))
def test_any_bytes_and_any_key_come_back_as_they_were(tmp_path_factory, raw: bytes, key: str) -> None:
    path = tmp_path_factory.mktemp("any") / "group.sqlite"
    with open_journal(path, create=True) as journal:
        id_ = journal.receive("mail", key, raw, datetime.now(UTC))
        assert id_ is not None
        assert journal.raw(id_) == raw
        assert journal.receive("mail", key, raw, datetime.now(UTC)) is None


# --- handling


def test_handling_queues_the_replies_keeps_the_conversation_and_marks_the_message(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    journal.handled(id_, [reply()], Talk("talk", '{"a": 1}'), person="asker@example.org", now=clock())
    assert journal.waiting(clock()) == []
    (queued,) = journal.due("mail", clock())
    assert (queued.answers, queued.body, queued.key) == (id_, b"the answer", "<r1@x>")
    assert journal.conversation("talk") == '{"a": 1}'
    found = journal.incoming(id_)
    assert found is not None
    assert (found.state, found.person, found.conversation) == ("handled", "asker@example.org", "talk")


def test_when_anything_of_it_fails_nothing_of_it_is_kept(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    broken = Reply("mail", "<r2@x>", "a", None)  # type: ignore[arg-type]  # queued last, and refused by the table
    journal._database.conn.execute(
        "CREATE TRIGGER refuse BEFORE INSERT ON outgoing WHEN new.body IS NULL BEGIN SELECT RAISE(ABORT, 'no'); END"
    )
    with pytest.raises(StoreError):
        journal.handled(id_, [reply(), broken], Talk("talk", "{}"), now=clock())
    assert journal.due("mail", clock()) == []
    assert journal.conversation("talk") is None
    assert [one.id for one in journal.waiting(clock())] == [id_]


def test_a_message_is_never_answered_twice(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    journal.handled(id_, [reply("<r1@x>")], now=clock())
    with pytest.raises(JournalError, match=f"in-{id_}"):
        journal.handled(id_, [reply("<r2@x>")], now=clock())
    assert [one.key for one in journal.due("mail", clock())] == ["<r1@x>"]


def test_the_rule_that_left_a_message_without_answer_can_be_seen(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    journal.handled(id_, rule="auto-submitted", now=clock())
    found = journal.incoming(id_)
    assert found is not None
    assert (found.state, found.rule) == ("handled", "auto-submitted")


def test_waiting_messages_come_oldest_first_whatever_the_clock_said(journal, clock) -> None:
    first = take(journal, clock, "a")
    clock.moves(days=-400)
    second = take(journal, clock, "b")
    assert [one.id for one in journal.waiting(clock())] == first + second
    assert len(journal.waiting(clock(), limit=1)) == 1


# --- in order


def test_a_message_waits_for_the_earlier_ones_of_its_conversation_and_for_no_other(journal, clock) -> None:
    first, second, other = take(journal, clock, "a", "b", "c")
    journal.failed_try(first, "broke", "talk", now=clock())
    assert not journal.is_its_turn(second, "talk")
    assert journal.is_its_turn(other, "another talk")
    journal.not_yet(second, "talk")
    assert [one.id for one in journal.waiting(clock())] == [other]
    clock.moves(minutes=5)
    assert [one.id for one in journal.waiting(clock())] == [first, other]
    journal.handled(first, now=clock())
    assert [one.id for one in journal.waiting(clock())] == [second, other]


def test_a_message_set_aside_lets_the_later_ones_of_its_conversation_go_on(journal, clock) -> None:
    first, second = take(journal, clock, "a", "b")
    journal.failed_try(first, "broke", "talk", now=clock())
    journal.not_yet(second, "talk")
    journal.set_aside(first, "cannot be read", now=clock())
    assert [one.id for one in journal.waiting(clock())] == [second]


# --- failing


def test_handling_is_tried_again_after_growing_waits_and_then_set_aside_with_its_reason(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    waits = []
    for _ in range(HANDLING.tries - 1):
        assert not journal.failed_try(id_, "ValueError: broke", now=clock())
        assert journal.waiting(clock()) == []
        waits.append(journal.next_try(id_) - clock().timestamp())
        assert [one.id for one in journal.waiting(clock.moves(seconds=waits[-1] + 0.001))] == [id_]
    assert waits == sorted(waits)
    assert journal.failed_try(id_, "ValueError: broke", now=clock())
    assert journal.waiting(clock.moves(days=1)) == []
    (aside,) = journal.list_incoming("aside")
    assert (aside.id, aside.reason, aside.tries) == (id_, "ValueError: broke", HANDLING.tries)


def test_waits_are_jittered_so_that_many_do_not_come_back_at_one_moment(journal, clock) -> None:
    ids = take(journal, clock, *map(str, range(20)))
    for id_ in ids:
        journal.failed_try(id_, "broke", now=clock())
    waits = {round(journal.next_try(id_) - clock().timestamp(), 3) for id_ in ids}
    assert len(waits) > 10
    assert all(0.8 * HANDLING.first <= wait <= 1.2 * HANDLING.first for wait in waits)


def test_waits_outlast_the_program(journal, clock, path) -> None:
    (id_,) = take(journal, clock, "k")
    journal.failed_try(id_, "broke", now=clock())
    with open_journal(path) as later:
        assert later.waiting(clock()) == []
        assert len(later.waiting(clock.moves(minutes=2))) == 1


def test_a_message_that_ends_the_program_every_time_is_set_aside_and_the_rest_goes_on(path, clock) -> None:
    with open_journal(path, create=True) as journal:
        poison, other = take(journal, clock, "poison", "fine")
    for _ in range(BEGUN_MOST):
        with open_journal(path) as journal:
            journal.recover(clock())
            assert journal.waiting(clock())[0].id == poison
            journal.begin(poison)  # and here the program ends
    with open_journal(path) as journal:
        assert journal.recover(clock()) == (0, 1)
        assert [one.id for one in journal.waiting(clock())] == [other]
        assert str(BEGUN_MOST) in journal.list_incoming("aside")[0].reason


def test_a_message_that_only_fails_does_not_count_as_one_that_ends_the_program(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    for _ in range(3):
        journal.begin(id_)
        journal.failed_try(id_, "broke", now=clock())
    assert journal.waiting(clock.moves(hours=1))[0].begun == 0


def test_after_marking_a_message_as_in_hand_everything_else_is_forced_onto_the_disk_again(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    journal.begin(id_)
    assert journal._database.conn.execute("PRAGMA synchronous").fetchone() == (2,)
    assert not journal._database.conn.in_transaction


# --- clocks that jump


@pytest.mark.parametrize("years", [-30, 30])
def test_a_clock_that_jumps_loses_no_message_and_repeats_none(journal, clock, years) -> None:
    failing, fresh, done = take(journal, clock, "a", "b", "c")
    journal.failed_try(failing, "broke", now=clock())
    journal.handled(done, [reply()], now=clock())
    clock.moves(days=365 * years)
    assert fresh in [one.id for one in journal.waiting(clock())]
    clock.moves(minutes=2)
    assert [one.id for one in journal.waiting(clock())] == [failing, fresh]
    clock.moves(days=-365 * years)
    assert [one.id for one in journal.waiting(clock())] == [failing, fresh]
    assert [one.key for one in journal.due("mail", clock())] == ["<r1@x>"]


def test_a_clock_put_back_leaves_a_wait_as_long_as_it_was_meant(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    for _ in range(3):
        journal.failed_try(id_, "broke", now=clock())
    wait = journal.next_try(id_) - clock().timestamp()
    clock.moves(days=-3)
    assert journal.waiting(clock()) == []
    assert journal.next_try(id_) - clock().timestamp() == pytest.approx(wait, abs=1e-3)


# --- a file that cannot be written


def fill(journal: Journal) -> None:
    pages = journal._database.conn.execute("PRAGMA page_count").fetchone()[0]
    journal._database.conn.execute(f"PRAGMA max_page_count = {pages}")


def make_room(journal: Journal) -> None:
    journal._database.conn.execute("PRAGMA max_page_count = 1000000")


def test_nothing_is_acknowledged_on_a_full_disk_and_all_goes_on_when_there_is_room(journal, clock) -> None:
    fill(journal)
    with pytest.raises(StoreError, match="disk is full"):
        journal.receive("mail", "k", b"x" * 100_000, clock())
    assert journal.waiting(clock()) == []
    make_room(journal)
    assert journal.receive("mail", "k", b"x" * 100_000, clock()) is not None


def test_a_reply_that_does_not_fit_on_the_disk_leaves_its_question_waiting(journal, clock) -> None:
    (id_,) = take(journal, clock, "k")
    fill(journal)
    with pytest.raises(StoreError, match="disk is full"):
        journal.handled(id_, [Reply("mail", "<r@x>", "a", b"x" * 100_000)], now=clock())
    assert [(one.id, one.tries) for one in journal.waiting(clock())] == [(id_, 0)]
    make_room(journal)
    journal.handled(id_, [reply()], now=clock())


def test_a_file_held_by_another_program_is_waited_for_and_then_named(path: Path, clock) -> None:
    with open_journal(path, create=True, timeout=0.05) as journal, closing(sqlite3.connect(path)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match="Another program is writing"):
            journal.receive("mail", "k", b"", clock())
        other.rollback()
        assert journal.receive("mail", "k", b"", clock()) is not None


# --- showing upstream


def test_finished_messages_are_told_to_the_other_side_once(journal, clock) -> None:
    handled, aside, waiting = take(journal, clock, "a", "b", "c")
    journal.handled(handled, now=clock())
    journal.set_aside(aside, "no", now=clock())
    assert [one.id for one in journal.to_show("mail")] == [handled, aside]
    assert journal.to_show("chat") == []
    journal.shown(handled)
    journal.shown(aside)
    assert journal.to_show("mail") == []
    journal.handled(waiting, now=clock())
    assert [one.id for one in journal.to_show("mail")] == [waiting]
