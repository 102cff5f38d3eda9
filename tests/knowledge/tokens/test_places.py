"""A piece is said to stand where it stands in the text as given, whatever was folded or rewritten on the way."""

from __future__ import annotations

import pytest

from knowledge.tokens import find
from knowledge.tokens.fold import fold_character, fold_text
from tests.knowledge.tokens.sample_names import NAMES


@pytest.mark.parametrize(
    ("message", "text"),
    [
        ("gran's machine says K 0 204 117, how old?", "K 0 204 117"),
        ("🧵🪡 machine K204117", "K204117"),
        ("machine K2\u200b04\u200b117 here", "K2\u200b04\u200b117"),
        ("machine \uff2b\uff12\uff10\uff14\uff11\uff11\uff17", "\uff2b\uff12\uff10\uff14\uff11\uff11\uff17"),
        ("numéro de série\u00a0: K\u00a0204\u00a0117 ?", "K\u00a0204\u00a0117"),
        ("е\u0301то К204117", "К204117"),
        ("204117, with a K in front", "204117"),
        ("letter K, digits 204117", "204117"),
        ("it is kay, zero two oh four one one seven.", "kay, zero two oh four one one seven"),
        ("serial **K204117** please", "K204117"),
    ],
)
def test_a_token_stands_where_it_was_typed(message: str, text: str) -> None:
    (token,) = find(message, NAMES).tokens
    assert token.text == text
    assert message[token.start : token.end] == text


def test_look_alike_letters_after_the_first_digit_are_digits_and_their_places_are_kept() -> None:
    (token,) = find("K2O4ll7", NAMES).tokens
    assert (token.prefix, token.digits, token.letters) == ("K", "204117", (1, 3, 4))


def test_a_number_written_twice_is_one_token_and_introduced_if_either_is() -> None:
    (token,) = find("K204117, yes, the serial number is K 204 117", NAMES).tokens
    assert token.introduced
    assert token.text == "K 204 117"


def test_a_number_that_is_only_seen_is_not_introduced() -> None:
    (token,) = find("my K204117", NAMES).tokens
    assert not token.introduced


@pytest.mark.parametrize(
    ("character", "plain"),
    [("٣", "3"), ("７", "7"), ("②", "2"), ("К", "K"), ("Μ", "M"), ("é", "e"), ("\u2013", "-"), ("\u2009", " ")],
)
def test_characters_of_other_keyboards_become_plain(character: str, plain: str) -> None:
    assert fold_character(character) == plain


@pytest.mark.parametrize("character", ["²", "½", "Ⅷ", "🧵"])
def test_what_is_no_digit_of_a_number_stays_what_it_is(character: str) -> None:
    assert not fold_character(character).isdecimal()


def test_every_character_becomes_one_plain_character_or_none() -> None:
    assert {len(fold_character(chr(code))) for code in range(0x3000)} == {0, 1}


def test_folding_keeps_the_place_of_every_character() -> None:
    folded = fold_text("a\u200bb1\ufe0f\u20e32")
    assert folded.plain == "ab12"
    assert [folded.span(place, place + 1) for place in range(4)] == [(0, 1), (2, 3), (3, 4), (6, 7)]
