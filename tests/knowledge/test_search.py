"""Tests of knowledge/search.py: words in, what is known out, best first, whatever people type."""

from __future__ import annotations

import random
import string

import pytest

from knowledge.base import Knowledge
from knowledge.search import search
from tests.knowledge.small import pack, table

MODELS = (
    {"model": "a", "maker": "we", "name": "Alder", "shuttle": "vibrating, long", "bed": "three-quarter flat bed",
     "introduced": "1902", "withdrawn": "1937"},
    {"model": "b", "maker": "we", "name": "Birch", "shuttle": "vibrating, long", "bed": "flat bed",
     "aliases": "Betula; Le Bouleau"},
    {"model": "c", "maker": "they", "name": "Cedar", "shuttle": "rotary hook", "bed": "free arm",
     "note": "the first zigzag"},
    {"model": "d", "maker": "they", "name": "Cedar Zickzack", "shuttle": "rotary hook", "bed": "free arm"},
)  # fmt: skip


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    makers = table(
        "makers",
        {"maker": "we", "name": "Wé & Us", "country": "Norway", "where": "in an oval plate on the pillar"},
        {"maker": "they", "name": "Theirs"},
    )
    works = table("works", {"works": "w", "maker": "we", "name": "Hill Works", "place": "Åsbakken"})
    sources = table(
        "sources", {"source": "s", "title": "Yearbook of the house", "author": "K. Vik", "year": "1920/1931"}
    )
    return Knowledge.of([pack(makers, works, sources, table("models", *MODELS))])


def titles(words: str, knowledge: Knowledge) -> list[str]:
    return [hit.title for hit in search(words, knowledge).hits]


def test_what_has_all_the_words_comes_before_what_has_some(knowledge) -> None:
    assert titles("three-quarter size with a vibrating shuttle", knowledge)[0] == "Alder"
    assert titles("vibrating shuttle, flat bed", knowledge)[:2] == ["Birch", "Alder"]


def test_slips_of_the_keyboard_are_forgiven_and_told(knowledge) -> None:
    result = search("vibratig shutle thre-quarter", knowledge)
    assert result.hits[0].title == "Alder"
    assert dict(result.taken)["shutle"] == "shuttle"
    assert dict(result.taken)["vibratig"] == "vibrating"


def test_two_letters_in_the_wrong_order_are_a_slip_too(knowledge) -> None:
    assert titles("ceadr", knowledge)[0] == "Cedar"


def test_endings_and_beginnings_of_words_are_enough(knowledge) -> None:
    assert set(titles("vibrate shuttles", knowledge)) == {"Alder", "Birch"}
    assert titles("zigz", knowledge)[0] == "Cedar"


def test_accents_and_capitals_do_not_matter(knowledge) -> None:
    assert titles("ASBAKKEN", knowledge) == ["Hill Works"]
    assert titles("bouléau", knowledge) == ["Birch"]


def test_what_is_called_just_so_comes_before_what_has_it_in_a_longer_name(knowledge) -> None:
    assert titles("cedar", knowledge)[:2] == ["Cedar", "Cedar Zickzack"]


@pytest.mark.parametrize(
    ("words", "title"),
    [
        ("zig-zag", "Cedar"), ("zig zag", "Cedar"), ("freearm", "Cedar"), ("free-arm", "Cedar"), ("Freiarm", "Cedar"),
        ("bras libre", "Cedar"), ("machine a coudre bras libre", "Cedar"), ("Schiffchen", "Alder"), ("челнок", "Alder"),
        ("threequarter", "Alder"), ("driekwart", "Alder"),
    ],
)  # fmt: skip
def test_words_joined_or_parted_and_words_of_other_languages_are_understood(words, title, knowledge) -> None:
    assert title in titles(words, knowledge)


def test_a_short_word_is_not_taken_for_any_other_of_its_length(knowledge) -> None:
    assert titles("zack fled", knowledge) == []


def test_words_that_are_nowhere_are_named_and_do_no_harm(knowledge) -> None:
    result = search("yearbook qqqqzz", knowledge)
    assert [hit.kind for hit in result.hits] == ["source"]
    assert result.nowhere == ("qqqqzz",)


def test_only_little_words_find_nothing(knowledge) -> None:
    assert search("what is the machine", knowledge).hits == ()
    assert search("", knowledge).hits == ()


def test_another_knowledge_has_an_index_of_its_own(knowledge) -> None:
    assert titles("alder", knowledge) == ["Alder"]
    assert titles("alder", Knowledge()) == []
    assert titles("alder", knowledge) == ["Alder"]


@pytest.mark.parametrize(
    "typed",
    ['"', '""', "'; DROP TABLE texts; --", "NEAR(a b)", "a AND", "* ^ ( )", "title:x", "-alder", "\x00alder", "\ud800",
     "ß" * 500, "🧵 alder", "alder " * 10_000],
)  # fmt: skip
def test_nothing_that_people_type_is_taken_for_the_language_of_the_index(typed, knowledge) -> None:
    search(typed, knowledge)


def test_random_text_never_raises(knowledge) -> None:
    letters = string.printable + "äöüß\"'*^()-:éя\u200d\u202e"
    chance = random.Random(7)
    for _ in range(2_000):
        search("".join(chance.choices(letters, k=chance.randrange(40))), knowledge)


def test_every_word_with_one_slip_still_finds_its_thing(knowledge) -> None:
    """A letter left out, doubled, swapped or changed in any place but the first, in words of six letters and more."""
    chance = random.Random(3)
    for word, title in (
        ("vibrating", "Alder"),
        ("quarter", "Alder"),
        ("yearbook", "Yearbook of the house"),
        ("zickzack", "Cedar Zickzack"),
    ):
        for at in range(1, len(word)):
            other = chance.choice(string.ascii_lowercase)
            swapped = word[: at - 1] + word[at] + word[at - 1] + word[at + 1 :]
            for typed in (
                word[:at] + word[at + 1 :],
                word[:at] + word[at - 1 :],
                swapped,
                word[:at] + other + word[at + 1 :],
            ):
                assert title in titles(typed, knowledge), typed
