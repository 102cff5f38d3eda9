"""The names of one knowledge base, arranged by their first words, and the words that stand for words of names."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from knowledge.hearing.words import Lexicon, folded_set, split
from knowledge.names import Names

MODEL = "model"
"""Stands in names and messages for each word that says 'model' or 'number'."""

MODEL_WORDS = folded_set(
    "model models modle moddel modell modelle modells modelo modello modele модель модели модел mod type typ typen "
    "tipo тип class classe klasse klass klasa класс mark mk"
)
NUMBER_WORDS = folded_set("no nr num nos number nummer numero numer номер n № numret #")
JOINERS = folded_set("and und et och og & +")
SKIPPED = frozenset("-.'’ʼ/\"“”„«»_*‐–")
MAKING = Lexicon(
    {
        "making": "made built works factory plant manufactur* produced gebaut hergestellt gefertigt werk werke werks "
        "fabriq* usine atelier* fabric* fabbric* officin* stabiliment* gemaakt gebouwd fabriek wyprodukowan* fabry* "
        "zaklad* zrobion* завод* фабрик* выпущ* изготов* сделан* tillverk* byggd verk verket verken "
        "stammwerk hauptwerk"
    }
)
_ENDINGS = folded_set(
    "s es n en er ern ek a u y e i o om em ie ow owi ami ach ego emu ss is in inen ens erna or ar et een "
    "а у ы е ом ой ою ам ами ах и ю я ей"
)
_LONGEST_ENDING = max(map(len, _ENDINGS))
_LONGEST_NAME = 40
"""Letters. A longer word of a name is heard only as it is written: to look for slips in it takes the square of it."""
_VOWELS = frozenset("aeiouyаяоеиуы")


class Entry(NamedTuple):
    """One name as it is looked for. `kind` is `makers`, `models` or `works`; `ids` are those of the knowledge base.

    `glued` names must be written as one word; those `made_there` count only where something is made there; a `bare`
    one is the name of a model without the word 'model'.
    """

    words: tuple[str, ...]
    kind: str
    ids: tuple[str, ...]
    glued: bool
    made_there: bool
    bare: bool = False


class NameIndex:
    """All names, asked for by the words they begin with."""

    def __init__(self, names: Names) -> None:
        self._entries: dict[str, list[Entry]] = {}
        for kind, known in (("makers", names.makers), ("models", names.models), ("works", names.works)):
            for name, ids in known.items():
                for entry in _entries(name, kind, ids):
                    self._entries.setdefault(_key(entry.words), []).append(entry)
        for entries in self._entries.values():
            entries.sort(key=lambda entry: -len(entry.words))
        every = (entry for entries in self._entries.values() for entry in entries)
        self._vocabulary: set[str] = {word for entry in every for word in entry.words}
        self._stems = {_stem(one): one for one in sorted(self._vocabulary)} | {one: one for one in self._vocabulary}
        self._longest = max(map(len, self._vocabulary), default=0) + _LONGEST_ENDING
        self._known_form = lru_cache(maxsize=1 << 14)(self._form)
        self._shortened: dict[str, list[str]] = {}
        for word in sorted(self._vocabulary):
            for short in _shortened(word) if _may_slip(word) else ():
                self._shortened.setdefault(short, []).append(word)

    def beginning(self, first: str, second: str) -> list[Entry]:
        """Return the names that may begin with two forms, the longest first."""
        if first == MODEL:
            return self._entries.get(_key((first, second)), []) + self._entries.get(MODEL, [])
        return self._entries.get(first, [])

    def form(self, word: str) -> str:
        """Return the word of a name that this word stands for: itself, bent, or one letter off; else the word."""
        return word if len(word) > self._longest else self._known_form(word)

    def _form(self, word: str) -> str:
        if word in self._vocabulary or len(word) < 4 or not word.isalpha():
            return word
        return self._unbent(word) or self._corrected(word) or word

    def _unbent(self, word: str) -> str | None:
        """Return the name of which a word is a bent form, as Rivolandy and Sundrikas are of Rivolanda and Sundrika."""
        for size in range(min(_LONGEST_ENDING, len(word) - 3), 0, -1):
            stem, ending = word[:-size], word[-size:]
            least = 3 if ending in ("s", "es") or word[0] > "\u0400" else 4
            if ending in _ENDINGS and stem in self._stems and len(stem) >= least:
                return self._stems[stem]
        return None

    def _corrected(self, word: str) -> str | None:
        """Return the word of 6 or more letters that is one letter missing, added, changed or swapped away."""
        if not 5 <= len(word) <= _LONGEST_NAME + 1:
            return None
        for short in (word, *_shortened(word)):
            nearby: list[str] = [short, *self._shortened.get(short, ())]
            for near in nearby:
                if near in self._vocabulary and _may_slip(near) and is_one_slip(word, near):
                    return near
        return None


def _key(words: tuple[str, ...]) -> str:
    """Return what a name is filed under: its first word; for the many that begin with 'model' the second one too."""
    return " ".join(words[:2]) if words[0] == MODEL else words[0]


def _entries(name: str, kind: str, ids: tuple[str, ...]) -> Iterator[Entry]:
    """Yield the forms of a name that are looked for."""
    place, _, rest = name.replace("(", ",").partition(",")
    words = _name_words(place if kind == "works" else name)
    if not words:
        return
    if kind == "works":
        bare = tuple(word for word in words if not MAKING.meaning(word) and len(word) > 3)
        yield Entry(words, kind, ids, False, bool(rest) or bare == words)
        if bare and bare != words:
            yield Entry(bare, kind, ids, False, True)
    elif kind == "makers" or (words[0] != MODEL and not words[0].isdigit()):
        yield Entry(words, kind, ids, False, False)
    else:
        bare = words[1:] if words[0] == MODEL else words
        if bare:
            yield Entry((MODEL, *bare), kind, ids, False, False)
        if len("".join(bare)) > 2 and not "".join(bare).isdigit():
            yield Entry(bare, kind, ids, True, False, bare=True)


def _name_words(name: str) -> tuple[str, ...]:
    words = [word.text for word in split(name) if word.text not in SKIPPED]
    words = [word for word in words if word in JOINERS or word.isalnum()]
    joined = ["&" if word in JOINERS else word for word in words]
    if joined and (joined[0] in MODEL_WORDS or (joined[0] in NUMBER_WORDS and joined[1:] and joined[1].isdigit())):
        joined[0] = MODEL
    return tuple(joined)


def _stem(word: str) -> str:
    return word[:-1] if word[-1] in _VOWELS else word


def _may_slip(word: str) -> bool:
    return 6 <= len(word) <= _LONGEST_NAME and word.isalpha()


def _shortened(word: str) -> set[str]:
    return {word[:place] + word[place + 1 :] for place in range(len(word))}


def is_one_slip(one: str, other: str) -> bool:
    """Tell whether one letter missing, added, changed, or swapped with its neighbour makes one word the other.

    >>> is_one_slip("wendelor", "wendelohr"), is_one_slip("wendlehor", "wendelohr")
    (True, False)
    """
    if len(one) > len(other):
        one, other = other, one
    start = 0
    while start < len(one) and one[start] == other[start]:
        start += 1
    if len(other) - len(one) == 1:
        return one[start:] == other[start + 1 :]
    if len(one) != len(other):
        return False
    swapped = one[start : start + 2] == other[start : start + 2][::-1] and one[start + 2 :] == other[start + 2 :]
    return swapped or one[start + 1 :] == other[start + 1 :]
