"""An expert's words about a register: what they mean, or what is not clear. Nothing is guessed."""

from __future__ import annotations

import pytest

from knowledge.register_changes.finding_rows import change_of
from knowledge.register_changes.nouns import as_cells
from knowledge.register_changes.reading import Unclear, Wanted, is_change, read_change
from tests.knowledge.sharing.groups import our_pack, ours

KNOWN = ours()


def read(text: str) -> Wanted:
    found = read_change(text, KNOWN)
    assert isinstance(found, Wanted), found
    return found


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("change K 200001-225000 date 1891", {"date": "1891"}),
        ("Change K200001 - K225000: date 1891", {"date": "1891"}),
        ("correct k 200001 to 225000 date=1890-03-02", {"date": "1890-03-02"}),
        ("change block K 200,001-225,000 date about 1891", {"date": "1891~"}),
        ("change K 200001-225000 date between 1890 and 1892", {"date": "1890/1892"}),
        ("change K 200001-225000 model Model 6", {"model": "m6"}),
        ("change K 200001-225000 model 6", {"model": "m6"}),
        ("change K 200001-225000 model m6, works Upper Mill", {"model": "m6", "works": "mill"}),
        ("change K 200001-225000 model nothing", {"model": ""}),
        ("change K 200001-225000 quantity 24,000", {"quantity": "24000"}),
        ("change K 200001-225000 last 224000 quantity 24000", {"last": "224000", "quantity": "24000"}),
        ("change K 200001-225000 source The Book", {"source": "book"}),
        ("change K 200001-225000 date 1891 list The ledger", {"date": "1891"}),
        ("change K 200001-225000 date 1891 list we", {"date": "1891"}),
        ("change K 200001-225000 note copied twice from page 4", {"note": "copied twice from page 4"}),
    ],
)
def test_a_correction_is_read(text: str, cells: dict[str, str]) -> None:
    found = read(text)
    assert (found.verb, found.register, found.prefix, found.first, found.last) == (
        "change",
        "list",
        "K",
        "200001",
        "225000",
    )
    assert found.cells == cells


def test_a_new_block_and_one_to_be_taken_out_are_read() -> None:
    assert read("add K 250001-260000 date 1896 model Model 9").cells == {"date": "1896", "model": "m9"}
    assert read("remove K 200001-225000").verb == "remove"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "cannot read a change"),
        ("what is K 200001?", "cannot read a change"),
        ("change K 200001-225000", "What is to become of it"),
        ("change K 200001-225000 to 1891", "do not know what to do with 'to 1891'"),
        ("change K 200001-225000 date soon", "cannot read 'soon' as a date"),
        ("change K 200001-225000 date 1891 date 1892", "as a date"),
        ("change K 200001-225000 model Model 77", "None goes by the name 'Model 77'"),
        ("change K 200001-224999 date 1891", "There is K200001 to K225000"),
        ("change Q 1-2 date 1891", "No list has a block from Q1 to Q2"),
        ("change K 200001-L 225000 date 1891", "different letters"),
        ("change K 200001-225000 date 1891 list Nowhere", "No list goes by the name"),
        ("change K 200001-225000 date", "The date is not told"),
        ("change K 200001-225000 quantity many", "no number for quantity"),
        ("add K 250001-260000 model m9", "needs a date"),
        ("remove K 200001-225000 date 1891", "begin with 'change'"),
    ],
)
def test_what_is_not_clear_is_asked_back(text: str, said: str) -> None:
    found = read_change(text, KNOWN)
    assert isinstance(found, Unclear)
    assert said in found.text


def test_a_number_in_several_lists_needs_the_name_of_one() -> None:
    two = ours(packs=(our_pack(), our_pack("theirs", "Another", "other")))
    found = read_change("change K 200001-225000 date 1891", two)
    assert isinstance(found, Unclear)
    assert "Which list" in found.text
    named = read_change("change K 200001-225000 date 1891 list Another", two)
    assert isinstance(named, Wanted)
    assert named.register == "theirs/list"


def test_the_ids_of_the_row_are_those_of_its_own_pack() -> None:
    theirs = our_pack("theirs", "We & Sons", "w")
    renamed = ours(packs=(our_pack(), theirs))
    wanted = read_change("change K 200001-225000 model Model 6 list theirs/list", renamed)
    assert isinstance(wanted, Wanted)
    change = change_of(wanted, renamed, {"theirs": theirs})
    assert (change.pack, as_cells("allocations", change.row)["model"]) == ("theirs", "m6")


@pytest.mark.parametrize("text", ["change K 200001-225000 date 1891", "add 5000 date 1875", "Remove K 1-2"])
def test_words_that_begin_like_a_change_are_told_from_others(text: str) -> None:
    assert is_change(text)


@pytest.mark.parametrize("text", ["Model 9, about 1911", "please change it", "add: by the shuttle", "yes", "K204117"])
def test_words_about_a_case_are_no_change_of_a_register(text: str) -> None:
    assert not is_change(text)
