"""Nothing a stranger wrote reaches a screen as a control sequence, or floods it."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.replies.as_json import as_json_text
from bot.replies.cleaning import LONGEST_RUN, clean, safe


@pytest.mark.parametrize("character", ["\x00", "\x07", "\x1b", "\x7f", "\x9b", "\u202e", "\u2066", "\ud800", "\ufeff"])
def test_control_characters_are_shown_not_obeyed(character):
    assert clean(f"a{character}b") == "a\ufffdb"


@pytest.mark.parametrize("text", ["plain", "Größe", "Серийный", "縫製機械", "👩‍👧", "a\nb", "½ º №"])
def test_letters_of_every_script_stay(text):
    assert clean(text) == text


def test_long_runs_are_cut_and_counted():
    cut = clean("number " + "7" * 100_000)
    assert "100,000 characters" in cut
    assert len(cut) < 2 * LONGEST_RUN


def test_long_sentences_stay_whole():
    text = "word " * 500
    assert clean(text) == text


def test_paths_stay_whole():
    path = "/folder/" + "x" * 200
    assert safe(path) == path


@given(st.text())
def test_json_is_printable_and_the_same_value(text):
    printed = as_json_text({"text": text}, 2)
    assert json.loads(printed) == {"text": text}
    assert all(character == "\n" or character.isprintable() for character in printed)
