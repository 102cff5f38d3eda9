"""`bedstamp forget`, as it is called."""

from datetime import UTC, datetime

import pytest

from bot.__main__ import main
from bot.journal import open_journal

NOW = datetime(2031, 5, 4, tzinfo=UTC)


@pytest.fixture
def store(tmp_path):
    path = tmp_path / "group.sqlite"
    with open_journal(path, create=True) as journal:
        for key, person in (("a", "mail:ann@example.org"), ("b", "telegram:u4711"), ("c", "mail:bob@example.org")):
            id_ = journal.receive("mail", key, f"From: {person}".encode(), NOW)
            assert id_ is not None
            journal.handled(id_, person=person, now=NOW)
    return path


def people(store) -> list[str]:
    with open_journal(store) as journal:
        return journal.people()


def test_people_are_named_by_address_or_by_the_number_of_their_account(store, capsys):
    assert main(["forget", "Ann@example.org", "4711", "--yes", "--db", str(store)]) == 0
    assert people(store) == ["mail:bob@example.org"]
    out = capsys.readouterr().out
    assert "mail:ann@example.org: 1 message removed" in out
    assert "telegram:u4711: 1 message removed" in out


def test_it_asks_first_and_without_a_terminal_wants_to_be_told(store, capsys):
    assert main(["forget", "ann@example.org", "--db", str(store)]) == 2
    assert "--yes" in capsys.readouterr().err
    assert len(people(store)) == 3


@pytest.mark.parametrize("typed", ["Ann", "ann at example.org", "", "u", "@ann"])
def test_a_name_alone_is_refused_for_it_may_be_anybodys(store, typed, capsys):
    assert main(["forget", typed, "--yes", "--db", str(store)]) == 2
    assert "neither a mail address nor" in capsys.readouterr().err
    assert len(people(store)) == 3


def test_what_is_in_hand_is_named_and_told_by_the_exit_code(store, capsys):
    with open_journal(store) as journal:
        waiting = journal.receive("mail", "d", b"ann@example.org told me to write", NOW)
    assert main(["forget", "ann@example.org", "--yes", "--db", str(store)]) == 1
    assert f"in-{waiting}" in capsys.readouterr().out
