"""What commands say fits the terminal, and names at it are told apart by more than how they look."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.commands.dialogue import person_named, show_error, wrapped
from knowledge.errors import UsageError

WORDS = st.lists(st.text("abc.,-é", min_size=1, max_size=19), min_size=1, max_size=40).map(" ".join)


@given(WORDS, st.integers(20, 120), st.sampled_from(["", "  ", "12. ", "  - "]))
def test_every_line_fits_and_no_word_is_lost(text: str, columns: int, beginning: str) -> None:
    lines = list(wrapped(beginning + text, columns))
    assert [line for line in lines if len(line) > columns and len(line.split()) > 1] == []
    assert " ".join(lines).split() == (beginning + text).split()
    assert len({len(line) - len(line.lstrip()) for line in lines[1:]}) <= 1


def test_what_goes_on_is_set_below_where_it_began() -> None:
    said = "  They say: Model 9, made by the shuttle"
    assert list(wrapped(said, 24)) == ["  They say: Model 9,", "    made by the shuttle"]
    assert list(wrapped("1. proposed: a long change", 20)) == ["1. proposed: a long", "   change"]
    assert list(wrapped("one\n\n  two", 20)) == ["one", "", "  two"]


def test_a_path_stays_whole() -> None:
    path = "/home/somebody/in/a/very/long/folder/group.sqlite"
    assert path in wrapped(f"The file {path} cannot be read.", 30)


def test_an_error_fits_a_terminal_and_stays_one_line_in_a_log(capsys, monkeypatch) -> None:
    message = "The knowledge base cannot be read. " * 6
    monkeypatch.setenv("COLUMNS", "60")
    show_error(message)
    assert max(map(len, capsys.readouterr().err.splitlines())) <= 60
    monkeypatch.delenv("COLUMNS")
    show_error(message)
    assert len(capsys.readouterr().err.splitlines()) == 1


@pytest.mark.parametrize("name", ["Ada", " ADA", "\u0410da", "\u0391da", "A\u200bda", "Áda", "\uff21da"])
def test_names_that_look_alike_are_one_person(name: str) -> None:
    assert person_named(name) == "terminal:ada"


@pytest.mark.parametrize("name", ["", "  ", "...", "\u200b"])
def test_a_name_that_says_nothing_is_refused(name: str) -> None:
    with pytest.raises(UsageError, match=r"--as NAME"):
        person_named(name)
