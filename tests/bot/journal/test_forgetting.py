"""Tests of bot/journal/forgetting.py: what is a person's own leaves the file."""

from __future__ import annotations

import pytest

from bot.journal import Reply, open_journal
from knowledge.database import open_database
from knowledge.migrations import KNOWLEDGE, StoreError
from tests.bot.journal.conftest import ask, send


def test_of_a_person_who_is_forgotten_nothing_stays_in_the_file(journal, clock, path) -> None:
    ann, bob = "ann-of-the-lane@example.org", "bob@example.org"
    ask(journal, clock, "<k1 from ann-of-the-lane>", ann, "<1@x>")
    send(journal, clock, "<1@x>")
    ask(journal, clock, "<k2 from ann-of-the-lane>", ann, "<2@x>")
    kept = ask(journal, clock, "<k3>", bob, "<3@x>")
    assert journal.forget(ann) == 4
    journal.rewrite()
    everything = b"".join(one.read_bytes() for one in path.parent.iterdir())
    assert b"ann-of-the-lane" not in everything
    assert b"bob@example.org" in everything
    assert journal.raw(kept)
    assert [one.key for one in journal.due("mail", clock())] == ["<3@x>"]
    assert journal.forget(ann) == 0


def test_a_message_of_somebody_forgotten_that_still_lies_in_the_mailbox_is_not_answered_anew(journal, clock) -> None:
    ask(journal, clock, "k", "ann", "<1@x>")
    journal.forget("ann")
    assert journal.receive("mail", "k", b"raw", clock(), place="INBOX/2/9") is None
    assert journal.waiting(clock()) == []


def test_a_notice_to_others_about_a_person_goes_with_the_person(journal, clock) -> None:
    id_ = journal.receive("mail", "k", b"raw", clock())
    notice = Reply("chat", "n", "experts", b"ann asks", person="ann")
    journal.handled(id_, [notice, Reply("chat", "m", "all", b"news")], person="ann", now=clock())
    journal.forget("ann")
    assert [(one.key, one.answers) for one in journal.due("chat", clock())] == [("m", None)]


def test_every_table_with_texts_is_told_and_each_of_its_cells_can_be_reached(journal, clock) -> None:
    ask(journal, clock, "k", "ann", "<1@x>")
    journal.note("mail", "seen", "ann")
    columns = journal.text_columns(())
    assert {"incoming", "outgoing", "conversations", "channel_notes", "people"} <= set(columns)
    (row,) = [row for row, value in journal.cells("channel_notes", "value") if value == "ann"]
    journal.set_cell("channel_notes", "value", row, "nobody")
    assert journal.noted("mail", "seen") == "nobody"
    journal.delete_row("channel_notes", row)
    assert journal.noted("mail", "seen") is None


def test_a_table_that_is_only_added_to_can_be_cleared_of_a_name_and_is_guarded_again_after(journal) -> None:
    journal.store()  # with its tables of findings
    journal._execute(
        "INSERT INTO finding_changes (what, changed_by, at, why, key, prefix, digits, suffix, maker, model, works, "
        "date, evidence, kind, note, author, settled) VALUES ('added', 'e', '', '', 'k', '', '1', '', '', '', '', '', "
        "'told by Ann', 'opinion', '', 'e', '')"
    )
    journal._database.conn.commit()
    ((row, _),) = journal.cells("finding_changes", "evidence")
    journal.set_cell("finding_changes", "evidence", row, "told by …")
    assert journal.cells("finding_changes", "evidence") == [(row, "told by …")]
    with pytest.raises(Exception, match="only added to"):
        journal._execute("UPDATE finding_changes SET evidence = 'x'")
    journal._database.rollback()


def test_while_somebody_reads_the_log_stays_and_that_is_said(journal, clock, path) -> None:
    ask(journal, clock, "k", "ann")
    reader = open_database(path, KNOWLEDGE, read_only=False)
    reader.conn.execute("BEGIN")
    reader.conn.execute("SELECT count(*) FROM people").fetchall()
    journal._execute("PRAGMA busy_timeout = 50")
    journal.forget("ann")
    with pytest.raises(StoreError):
        journal.rewrite()
    reader.close()
    journal.rewrite()


def test_forgetting_survives_that_the_file_is_opened_anew(journal, clock, path) -> None:
    ask(journal, clock, "k", "ann", "<1@x>")
    journal.forget("ann")
    journal.rewrite()
    with open_journal(path) as again:
        assert again.people() == []
        assert again.receive("mail", "k", b"raw", clock()) is None
