"""No text, however odd, makes the reading of serial numbers fail or lose its place."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knowledge.tokens import Found, PassedOver, SerialToken, find
from tests.knowledge.tokens.sample_names import NAMES

PIECES = st.sampled_from(
    "K204117|K 0 204 117|2O4ll7|zero two oh four|kay,|letter K, digits|, with a K in front|serial|No.|Nr|#|?|_|*|**|"
    "+44|(|)|1|0|17|204|"
    "1912|8.1.1912|14:30|£|120|€|,-|mm|V|sorry, it is|not|order|patent|> |\n|-- \n|On 3 May Ann wrote:\n|@|.|"
    "https://|a@b.org|номер|К|"
    "\u200b|\u0662|２|1\ufe0f\u20e3|é|e\u0301|🧵|\x00|½|²|Ⅷ|ﬁ|İ|ß|Model 9|with|at the end|preceded by a K|"
    "begins with|ends in|the letter|no letter|V|x|K20x117|K20411[7]|(7?)|[|]|illegible|"
    "twenty|forty-one|hundred|and|two hundred and four|zweihundertvier|trentuno|quatre-vingt|dix|сорок|один|double|kay|"
    "Karl|M507113|M507131|*M507131|hang on|typo|ignore|was wrong|is wrong|edit:|or|perhaps|change|s/|AKT 61390|"
    "27 B 4418|"
    "77/E/5031|typewriter|my piano|registration diamond|year K|month H|day 7|K top|ref.|ul.|1234 AB|12 тысяч|рублей|"
    ",|:|/|-|'|\"|"
    "`|~".split("|")
)
MESSAGES = st.lists(PIECES, max_size=25).flatmap(
    lambda pieces: st.sampled_from(["", " "]).map(lambda separator: separator.join(pieces))
)


def every_place_is_right(text: str, found: Found) -> None:
    pieces: list[SerialToken | PassedOver] = [*found.tokens, *found.passed_over]
    for piece in pieces:
        assert 0 <= piece.start < piece.end <= len(text)
        assert text[piece.start : piece.end] == piece.text
    ordered = sorted(pieces, key=lambda piece: piece.start)
    for first, second in pairwise(ordered):
        assert first.end <= second.start
    assert list(found.tokens) == sorted(found.tokens, key=lambda token: token.start)


def every_token_is_clean(found: Found) -> None:
    for token in found.tokens:
        assert token.digits
        assert set(token.digits) <= set("0123456789?")
        assert token.prefix.isalnum() or not token.prefix
        assert token.prefix.isascii()
        assert token.suffix.isascii()
        assert token.serial == token.serial.upper()
        assert all(0 <= place < len(token.digits) for place in token.letters)
    serials = [token.serial for token in found.tokens]
    assert len(serials) == len(set(serials))


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=200), MESSAGES))
def test_any_text_is_read_without_fault_and_with_its_places_kept(text: str) -> None:
    found = find(text, NAMES)
    every_place_is_right(text, found)
    every_token_is_clean(found)
    assert find(text, NAMES) == found


@pytest.mark.parametrize(
    "text",
    [
        "1" * 100_000,
        "1 " * 50_000,
        "(" * 50_000 + "1" + ")" * 49_999,
        "serial number " * 7_000,
        "a" * 100_000,
        "* " * 50_000,
        "K",
        "\ud800 K204117",
        "\x00\x01\x02K204117",
    ],
    ids=[
        "digits",
        "digits and spaces",
        "brackets",
        "cue words",
        "letters",
        "stars",
        "a letter",
        "half a pair",
        "control",
    ],
)
def test_a_text_made_to_be_hard_is_read_too(text: str) -> None:
    every_place_is_right(text, find(text, NAMES))
