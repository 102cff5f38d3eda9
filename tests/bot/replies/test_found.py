"""Tests of bot/replies/found.py: a search in words."""

from __future__ import annotations

from bot.replies.found import found_words
from knowledge.search import SearchResult
from knowledge.searchable import Hit

ALDER = Hit("model", "a", "Alder", "We & Us, 1902 to 1937. Shuttle: vibrating")


def test_each_hit_is_told_with_what_is_known_of_it() -> None:
    book = Hit("source", "s", "Yearbook", "K. Vik, 1920")
    assert found_words(SearchResult((ALDER, book))) == (
        "Alder. We & Us, 1902 to 1937. Shuttle: vibrating\n\nYearbook (source). K. Vik, 1920"
    )


def test_it_says_what_was_taken_for_what_and_what_is_nowhere() -> None:
    words = found_words(SearchResult((ALDER,), (("shutle", "shuttle"),), ("gizmo",)))
    assert words.startswith("I took shutle for shuttle. Nothing here has 'gizmo'.\n\nAlder")


def test_a_long_text_is_cut_between_words() -> None:
    words = found_words(SearchResult((Hit("model", "a", "Alder", "long " * 200),)))
    assert len(words) < 330
    assert words.endswith("long …")


def test_when_nothing_is_found_it_says_what_to_do() -> None:
    words = found_words(SearchResult((), (), ("gizmo", "qqq")))
    assert words.startswith("Nothing that is known here has 'gizmo' or 'qqq'.")
    assert "shuttle" in words
    assert found_words(SearchResult()).startswith("Nothing that is known here has such words.")
