"""Words and what they mean."""

import pytest

from bot.curiosity.table import COMMON, TABLE
from bot.curiosity.terms import terms
from knowledge.hearing.words import NUMBER, split


def said(text: str, names: str = "") -> list[tuple[str, frozenset[str]]]:
    words = list(split(text.replace("#", NUMBER)))
    return [(term.text, term.means) for term in terms(words, frozenset(names.split()))]


def test_the_longest_entry_that_fits_is_taken():
    assert [text for text, _ in said("shed light on it")] == ["shed_light", "on", "it"]
    (shed,) = said("shed")
    assert "place" in shed[1]


def test_signs_are_left_out_and_accents_and_capitals_do_not_matter():
    assert said("Âge ?!") == said("age")
    assert "made" in dict(said("wyprodukował"))["wyprodukował"]


def test_a_word_that_is_not_in_the_table_means_nothing():
    assert said("xylophone") == [("xylophone", frozenset())]


def test_numbers_found_other_digits_and_names_are_told_apart():
    means = [meaning for _, meaning in said("# 1905 Ottrel", "ottrel")]
    assert means == [{"number"}, {"digits"}, {"name"}]


def test_model_asks_for_nothing_where_it_is_part_of_a_name():
    assert dict(said("model 9", "model 9"))["model"] == {"name"}
    assert "quality" in dict(said("model of the 9", "model 9"))["model"]


def test_a_stem_stands_for_all_words_that_begin_so():
    assert "topic" in dict(said("bobbins"))["bobbins"]


@pytest.mark.parametrize(
    ("slip", "word"), [("waht", "what"), ("yaer", "year"), ("mahcine", "machine"), ("seral", "serial")]
)
def test_two_letters_swapped_or_one_left_out_are_no_hindrance(slip, word):
    assert said(slip)[0][1] == said(word)[0][1] != frozenset()


def test_a_slip_never_takes_the_place_of_a_word():
    assert said("form")[0][1] != said("from")[0][1]
    assert "have" not in dict(said("hat"))["hat"]


def test_common_words_are_in_the_table():
    known = {entry for entries in TABLE.values() for entry in entries.split()}
    assert set(COMMON.split()) <= known
