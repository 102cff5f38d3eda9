"""A message as plain words: small letters, no accents, letters apart from digits, numbers that were found taken out."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from knowledge.names import fold
from knowledge.tokens.nouns import Found, PassedOver

NUMBER = "\ue000"
"""Stands in the words where a number was found."""

_KEPT = frozenset({"year", "date", "count", "model-name"})
"""What is passed over for these reasons still says something beside the number."""

_PIECE = re.compile(r"[^\W\d_]+|\d+|[^\w\s]|\n")
_ENDS = frozenset(".!?;\n…")
_PAUSES = _ENDS | frozenset(",:()–—")
_SHORT = frozenset(
    "no nr num nos ca c circa cca approx abt ok pat mod ser r g ung ungef z u a i mr mrs ms st jh jhd wg vgl bzw "
    "okt feb jan mar apr jun jul aug sep sept oct nov dec ок г прим н ном тип".split()
)
_BUT = frozenset("but aber sondern mais pero sino maar ale но men".split())


class Word(NamedTuple):
    """One word, digit group or sign, in small letters.

    `glued` says that nothing stands between it and the one before, `capital` that it was written with a capital.
    """

    text: str
    glued: bool
    capital: bool = False


def plain_words(text: str, found: Found) -> list[Word]:
    """Return the words of a message beside all numbers. Quoted lines are left out: somebody else said them."""
    spans = [(one.start, one.end) for one in found.tokens]
    spans += [(one.start, one.end) for one in found.passed_over if not _says_something(one)]
    return list(split(_without_quotes(_without(text, spans))))


def words_with_names(text: str, found: Found) -> list[Word]:
    """Return the words as `plain_words` does, with everything in that may belong to a name: 'Model 9H', 'the 52P'."""
    return list(split(_without_quotes(_without(text, [(one.start, one.end) for one in found.tokens]))))


def split(text: str) -> Iterator[Word]:
    """Yield the words of a text, letters apart from digits, every sign for itself."""
    end = -1
    for match in _PIECE.finditer(_unaccented(text)):
        piece = match[0]
        small = piece.casefold()
        yield Word(small, match.start() == end, piece[0] != small[0])
        end = match.end()


def sentences(words: list[Word]) -> Iterator[list[Word]]:
    """Yield the words sentence by sentence, with the sign that ends each."""
    yield from _parted(words, _ENDS, frozenset())


def clauses(words: list[Word]) -> Iterator[list[Word]]:
    """Yield the words in the pieces that commas, brackets and 'but' make, with the sign that ends each."""
    yield from _parted(words, _PAUSES, _BUT)


def folded_set(text: str) -> frozenset[str]:
    """Return the words of a list, folded.

    >>> sorted(folded_set("zéro ноль"))
    ['zero', 'ноль']
    """
    return frozenset(lower(word) for word in text.split())


def lower(text: str) -> str:
    """Fold as names are folded, small letters throughout."""
    return fold(text).casefold()


_NOTHING: frozenset[str] = frozenset()


class Lexicon:
    """Words that mean something; one that ends in `*` stands for all that begin so. Asked by `meaning`."""

    def __init__(self, meanings: Mapping[str, str]) -> None:
        self._whole: dict[str, set[str]] = {}
        self._begun: dict[str, set[str]] = {}
        for meaning, words in meanings.items():
            for word in words.split():
                folded = lower(word)
                kept = self._begun if folded.endswith("*") else self._whole
                kept.setdefault(folded.removesuffix("*"), set()).add(meaning)
        self._lengths = sorted({len(stem) for stem in self._begun})
        self.meaning = lru_cache(maxsize=1 << 14)(self._meaning)

    def meanings(self, words: Iterable[Word]) -> frozenset[str]:
        """Return everything that these words mean."""
        meaning = self.meaning
        return _NOTHING.union(*[meaning(word.text) for word in words])

    def _meaning(self, word: str) -> frozenset[str]:
        found = set(self._whole.get(word, ()))
        for length in self._lengths:
            if length > len(word):
                break
            found |= self._begun.get(word[:length], set())
        return frozenset(found)


def _says_something(passed: PassedOver) -> bool:
    if passed.because == "reference":
        return len(passed.text) <= 2  # '7' may be a count of digits, '30' a decade
    is_amount = passed.because == "count" and passed.text[:4].isdecimal() and len(passed.text) >= 4
    return passed.because in _KEPT and not is_amount


def _without(text: str, spans: list[tuple[int, int]]) -> str:
    if not spans:
        return text
    parts: list[str] = []
    done = 0
    for start, end in sorted(spans):
        if start >= done:
            parts += text[done:start], f" {NUMBER} "
            done = end
    return "".join((*parts, text[done:]))


def _without_quotes(text: str) -> str:
    if ">" not in text:
        return text
    return "\n".join(line for line in text.splitlines() if not line.lstrip().startswith(">"))


def _unaccented(text: str) -> str:
    """Take the accents off a text, as `fold` does, but keep its lines and its capitals."""
    if text.isascii():
        return text
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))


def _parted(words: list[Word], ends: Collection[str], before: Collection[str]) -> Iterator[list[Word]]:
    part: list[Word] = []
    for place, word in enumerate(words):
        if word.text in before and part:
            yield part
            part = []
        part.append(word)
        if word.text in ends and not (word.text == "." and _is_inside(words, place)):
            yield part
            part = []
    if part:
        yield part


def _is_inside(words: list[Word], place: int) -> bool:
    """Tell whether a full stop belongs to an abbreviation or a number, and ends nothing."""
    before = words[place - 1].text if place else ""
    after = words[place + 1] if place + 1 < len(words) else None
    return before in _SHORT or (after is not None and after.glued and after.text.isalnum())
