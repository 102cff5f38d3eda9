"""Styled text: measured in UTF-16 units, cut at sensible places, harmless to show."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.replies.styled import Span, Styled, harmless, joined, plain, shortened, split, styled, units

TEXTS = st.text(alphabet=st.sampled_from("ab .\n😀é\u0301\u200d\ufe0f🏽"), max_size=200)


def styles(text: Styled) -> list[tuple[str, str]]:
    return [(text.text[one.start : one.end], one.style) for one in text.spans]


@given(TEXTS)
def test_units_are_those_of_utf_16(text):
    assert units(text) == len(text.encode("utf-16-le")) // 2


def test_parts_put_together_keep_their_styles():
    whole = joined([styled("one", "bold"), Styled(), plain("two"), styled("three", "italic")], "\n")
    assert whole.text == "one\ntwo\nthree"
    assert styles(whole) == [("one", "bold"), ("three", "italic")]


@given(TEXTS, st.integers(4, 60))
def test_no_piece_is_too_long_and_nothing_but_white_space_is_lost(text, longest):
    pieces = split(Styled(text), longest)
    assert all(0 < units(piece.text) <= longest for piece in pieces)
    kept = "".join("".join(piece.text.split()) for piece in pieces)
    assert kept == "".join(text.split())


@given(TEXTS, st.integers(8, 60), st.data())
def test_a_style_lies_over_the_same_words_after_a_cut(text, longest, data):
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, len(text)))
    pieces = split(Styled(text, (Span(start, end, "bold"),) if start < end else ()), longest)
    under = "".join(words for piece in pieces for words, _ in styles(piece))
    assert "".join(under.split()) == "".join(text[start:end].split())
    assert all(0 <= one.start < one.end <= len(piece.text) for piece in pieces for one in piece.spans)


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("first part\n\nsecond part is here", "first part"),
        ("one line here\nanother line here", "one line here"),
        ("A sentence. Another sentence", "A sentence."),
        ("some words without any end", "some words without"),
        ("x" * 40, "x" * 20),
    ],
)
def test_cuts_are_made_at_the_best_place_there_is(text, first):
    assert split(Styled(text), 20)[0].text == first


def test_what_is_seen_as_one_sign_is_not_torn_apart():
    family = "👩\u200d👩\u200d👧"
    assert all(piece.text == family for piece in split(Styled(family * 3), units(family)))


def test_what_does_not_fit_ends_in_dots():
    assert shortened(plain("short"), 10).text == "short"
    assert shortened(plain("some words that do not fit"), 16).text == "some words\n…"


@pytest.mark.parametrize("text", ["@ada_treadle", "a@b.example", "bad.example/x", "https://b.example", "/go", "#tag"])
def test_nothing_a_person_wrote_becomes_a_link_a_call_or_a_command(text):
    shown = harmless(f"see {text} there")
    assert text not in shown
    assert shown.replace("\u2060", "") == f"see {text} there"


@pytest.mark.parametrize("text", ["K204117, made 2 March 1921.", "No. 2", "3.5 mm", "Ottrel & Vane", "1889 to 1890"])
def test_ordinary_words_stay_as_they_are(text):
    assert harmless(text) == text


def test_direction_marks_and_control_characters_are_shown_as_what_they_are():
    assert "\u202e" not in harmless("K204\u202e711")
    assert "\x1b" not in harmless("K204\x1b[2J")
