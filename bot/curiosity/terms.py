"""A text as terms: words, or several together, with what they mean by the table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from bot.curiosity.table import COMMON, TABLE
from knowledge.hearing.words import NUMBER, Word, lower

Meanings = frozenset[str]

_NOTHING: Meanings = frozenset()
_LONGEST = max(entry.count("_") + 1 for entries in TABLE.values() for entry in entries.split())


@dataclass(frozen=True, slots=True)
class Term:
    """One word, or several that mean something together. A word that the table does not know means nothing."""

    text: str
    means: Meanings
    capital: bool = False


def terms(words: Sequence[Word], names: frozenset[str]) -> Iterator[Term]:
    """Yield the terms of a text, the longest that the table has; signs are left out.

    A number that was found means `number`, other digits `digits`, and one of `names` (words of makers, models and
    works that the text names) means `name`.
    """
    said = [word for word in words if word.text == NUMBER or word.text.isalnum()]
    place = 0
    while place < len(said):
        several = _several(said[place : place + _LONGEST])
        means = _WHOLE[several.replace("ł", "l")] if several else _one(said, place, names)
        yield Term(several or said[place].text, means, said[place].capital)
        place += several.count("_") + 1 if several else 1


def _several(said: Sequence[Word]) -> str:
    """Return the longest entry of the table that these words begin with, of two words at least; '' for none."""
    texts = ["#" if word.text == NUMBER else word.text for word in said]
    entries = ("_".join(texts[:length]) for length in range(len(texts), 1, -1))
    return next((entry for entry in entries if entry.replace("ł", "l") in _WHOLE), "")


def _one(said: Sequence[Word], place: int, names: frozenset[str]) -> Meanings:
    text = said[place].text
    if text == NUMBER:
        return frozenset({"number"})
    is_name = text in names
    if is_name and (text.isdecimal() or (place + 1 < len(said) and said[place + 1].text in names)):
        return frozenset({"name"})  # 'Model 9': here 'model' asks for nothing
    if text.isdecimal():
        return frozenset({"digits"})
    return _meaning(text.replace("ł", "l")) | ({"name"} if is_name else _NOTHING)


@lru_cache(maxsize=1 << 14)
def _meaning(word: str) -> Meanings:
    found = _WHOLE.get(word, _NOTHING)
    for length in range(_SHORTEST_STEM, min(len(word), _LONGEST_STEM) + 1):
        found |= _BEGUN.get(word[:length], _NOTHING)
    return found


def _arranged(stems: bool) -> dict[str, Meanings]:
    """Return the table the other way round: entry -> meanings. Stems apart from whole entries."""
    arranged: dict[str, Meanings] = {}
    for meaning, entries in TABLE.items():
        for entry in entries.split():
            if entry.endswith("*") == stems:
                folded = lower(entry.rstrip("*"))
                arranged[folded] = arranged.get(folded, _NOTHING) | {meaning}
    return arranged


def _slips(word: str) -> Iterator[str]:
    """Yield the word with two neighbours swapped, and a longer one with a letter left out."""
    for at in range(len(word) - 1):
        yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    if len(word) > 5:
        yield from (word[:at] + word[at + 1 :] for at in range(1, len(word)))


_WHOLE, _BEGUN = _arranged(stems=False), _arranged(stems=True)
_SHORTEST_STEM, _LONGEST_STEM = min(map(len, _BEGUN)), max(map(len, _BEGUN))
for _word in COMMON.split():
    for _slip in _slips(_word):
        _WHOLE.setdefault(_slip, _WHOLE[_word])
