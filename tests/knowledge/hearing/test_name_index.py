"""The index of names: what is compared with what, and how much of it."""

from __future__ import annotations

import pytest

from knowledge.hearing import name_index
from knowledge.hearing.name_index import MODEL, NameIndex
from knowledge.names import Names

NAMES = Names(
    makers={"wendelohr": ("w",), "ottrel & vane": ("o",)},
    models={f"model {number}": (f"m{number}",) for number in range(1, 500)},
)


@pytest.mark.parametrize(
    ("word", "form"),
    [
        ("wendelohr", "wendelohr"),
        ("wendelohrs", "wendelohr"),
        ("wendelor", "wendelohr"),
        ("wendelhor", "wendelohr"),
        ("wendlehor", "wendlehor"),
        ("vanes", "vane"),
        ("9", "9"),
    ],
)
def test_a_word_is_taken_for_the_name_it_is_a_form_of(word: str, form: str) -> None:
    assert NameIndex(NAMES).form(word) == form


def test_only_the_models_of_the_number_that_follows_are_looked_at() -> None:
    assert [entry.ids for entry in NameIndex(NAMES).beginning(MODEL, "7")] == [("m7",)]


@pytest.mark.parametrize("names", [NAMES, Names(makers={"q" * 50_000: ("long",)})])
def test_no_long_word_is_shortened_letter_by_letter(names: Names, monkeypatch: pytest.MonkeyPatch) -> None:
    """To build every form of a word that lacks one letter takes the square of its length."""
    shortened: list[int] = []
    of_word = name_index._shortened

    def counting(word: str) -> set[str]:
        shortened.append(len(word))
        return of_word(word)

    monkeypatch.setattr(name_index, "_shortened", counting)
    index = NameIndex(names)
    for word in ("x" * 100_000, "wendelohr" * 10_000, "q" * 49_999, "wendelor"):
        index.form(word)
    assert max(shortened) < 50
    assert index.form("q" * 50_000) == "q" * 50_000
