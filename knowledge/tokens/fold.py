"""Plain text out of whatever people's keyboards produce, without losing the places of the text as given.

Each character becomes one plain character or none: digits of every script become ASCII digits, Cyrillic and Greek
look-alikes and full-width letters become Latin letters, accents go, every kind of space becomes a space, every kind of
dash a hyphen. Zero-width characters, accents typed apart and the rings of keycap digits disappear.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, NamedTuple

_ALIKE = dict(
    zip(
        "АВЕКМНОРСТХУІЈЅԚԜЗΑΒΕΖΗΙΚΜΝΟΡΤΥΧавекмнорстхуіјѕԛԝοικνυρχ",
        "ABEKMHOPCTXYIJSQWЗABEZHIKMNOPTYXabekmhopctxyijsqwoiknupx",
        strict=True,
    )
)
_PLAIN = {
    **_ALIKE,
    **dict.fromkeys("‐‑‒–—―−﹘﹣－", "-"),
    **dict.fromkeys("’‘ʼ`´", "'"),
    **dict.fromkeys("“”„«»", '"'),
    **dict.fromkeys("·•‧∙⋅", "."),
    "\n": "\n",
    "\r": "\n",
    "\u2028": "\n",
    "\u2029": "\n",
    "\x0b": "\n",
    "\x0c": "\n",
    "\x85": "\n",
    "№": "#",
    "＃": "#",
    "º": "o",
    "ß": "s",
    "ø": "o",
    "Ø": "O",
    "ł": "l",
    "Ł": "L",
    "đ": "d",
    "æ": "a",
    "Æ": "A",
    "œ": "o",
    "Œ": "O",
    "ı": "i",
    "İ": "I",
    "⁄": "/",
    "∕": "/",
    "…": ";",
    "¿": " ",
    "¡": " ",
    "ё": "e",
    "й": "и",
}


def fold_character(character: str) -> str:
    """Return the plain form of one character: one character, or none for what has no width."""
    if character in _PLAIN:
        return _PLAIN[character]
    if character.isascii():
        return character if character.isprintable() else " "
    category = unicodedata.category(character)
    if category in ("Mn", "Me", "Cf"):
        return ""
    if category[0] in "ZC":
        return " "
    digit = unicodedata.digit(character, None)
    if digit is not None and "SUPER" not in (name := unicodedata.name(character, "")) and "SUBSCRIPT" not in name:
        return str(digit)
    return _base_letter(character)


def _base_letter(character: str) -> str:
    base = unicodedata.normalize("NFKD", character)[0]
    if base.isdecimal() or not base.isalpha():  # a fraction, a footnote sign, an emoji: no part of any number
        return character
    base = _PLAIN.get(base, base)
    return base if len(base.lower()) == 1 else character


class _Table(dict[int, str]):
    def __missing__(self, code: int) -> str:
        plain = fold_character(chr(code))
        if len(self) < 5_000:
            self[code] = plain
        return plain


_TABLE = _Table()


def fold_word(word: str) -> str:
    """Return a cue word as it stands in folded text: plain and in lower case."""
    return word.translate(_TABLE).lower()


class Change(NamedTuple):
    """Folded text `start` to `end` becomes `new`, whose place in the text as given is that of `place`."""

    start: int
    end: int
    new: str
    place: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Folded:
    """Plain text; `starts` and `ends` give the place of each of its characters in the text as given (None: the "
    "same)."""

    plain: str
    starts: list[int] | None = None
    ends: list[int] | None = None

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Return the place in the text as given of the non-empty piece `plain[start:end]`."""
        if self.starts is None or self.ends is None:
            return start, end
        return min(self.starts[start:end]), max(self.ends[start:end])

    def rewritten(self, changes: Iterable[Change]) -> Folded:
        """Return the text with each change made; `changes` are in order and do not overlap."""
        plain: list[str] = []
        starts: list[int] = []
        ends: list[int] = []
        done = 0
        own_starts = self.starts or range(len(self.plain))
        own_ends = self.ends or range(1, len(self.plain) + 1)
        for change in [*changes, Change(len(self.plain), len(self.plain), "", (0, 0))]:
            plain += self.plain[done : change.start], change.new
            starts += own_starts[done : change.start]
            ends += own_ends[done : change.start]
            if change.new:
                first, last = self.span(*change.place)
                starts += [first] * len(change.new)
                ends += [last] * len(change.new)
            done = change.end
        return Folded("".join(plain), starts, ends)


def fold_text(text: str) -> Folded:
    """Return `text` in plain characters, with the places they came from.

    >>> fold_text("К\\u00a02\\u200b04").plain
    'K 204'
    """
    plain = text.translate(_TABLE)
    if "&" in plain:
        return _without_entities(_folded(text, plain))
    return _folded(text, plain)


_ENTITY: Final = re.compile(r"&(?:nbsp|ensp|emsp|thinsp|#160|#xa0|#8239|#x202f);", re.IGNORECASE)


def _without_entities(folded: Folded) -> Folded:
    """Turn the spaces of web pages, spelt out, into spaces."""
    spaces = [Change(m.start(), m.end(), " ", m.span()) for m in _ENTITY.finditer(folded.plain)]
    return folded.rewritten(spaces) if spaces else folded


def _folded(text: str, plain: str) -> Folded:
    if len(plain) == len(text):
        return Folded(plain)
    starts = [place for place, character in enumerate(text) if _TABLE[ord(character)]]
    return Folded(plain, starts, [place + 1 for place in starts])
