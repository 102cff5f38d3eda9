"""Makers, models and works that a message names: longest names first, whole words, bent forms and one slip allowed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from knowledge.hearing.words import Lexicon, Word, folded_set, split
from knowledge.names import Names
from knowledge.tokens import cues

MODEL = "model"
"""Stands in names and messages for each word that says 'model' or 'number'."""

_MODEL_WORDS = folded_set(
    "model models modell modelle modells modelo modello modele модель модели модел mod type typ typen tipo тип "
    "class classe klasse klass klasa класс mark mk"
)
_NUMBER_WORDS = folded_set("no nr num nos number nummer numero numer номер n № numret #")
_JOINERS = folded_set("and und et och og & +")
_LOOSE_JOINERS = _JOINERS | folded_set("y e i и en")
_SKIPPED = frozenset("-.'’ʼ/\"“”„«»_*‐–")
_ENDINGS = folded_set(
    "s es n en er ern ek a u y e i o om em ie ow owi ami ach ego emu ss is in inen ens erna or ar et een "
    "а у ы е ом ой ою ам ами ах и ю я ей"
)
_LONGEST_ENDING = max(map(len, _ENDINGS))
_VOWELS = frozenset("aeiouyаяоеиуы")
_OR = folded_set("or oder ou o of lub albo czy или eller / and und et y i e och")
_NOT = folded_set(
    "not isn isnt wasn don doesn didn no never nor nicht kein keine keinen keiner pas non niet geen nie не ни inte "
    "ingen ej"
)
_BETWEEN = folded_set(
    "a an the it is its s t be really quite actually think believe that this was one of my ein eine einen das der "
    "die es ist un une le la c est el una es il lo e een de het to jest это был det en ar own"
)
_MAKING = Lexicon(
    {
        "making": "made built works factory plant manufactur* produced gebaut hergestellt gefertigt werk werke werks "
        "fabriq* usine atelier* fabric* fabbric* officin* stabiliment* gemaakt gebouwd fabriek wyprodukowan* fabry* "
        "zaklad* zrobion* завод* фабрик* выпущ* изготов* сделан* tillverk* byggd verk verket verken "
        "stammwerk hauptwerk"
    }
)


class Named(NamedTuple):
    """Ids of what was named, in the order of the message."""

    makers: tuple[str, ...]
    models: tuple[str, ...]
    works: tuple[str, ...]


class _Entry(NamedTuple):
    words: tuple[str, ...]
    kind: str
    ids: tuple[str, ...]
    glued: bool
    made_there: bool


class NameIndex:
    """The names of one knowledge base, arranged by their first words."""

    def __init__(self, names: Names) -> None:
        self.by_first: dict[str, list[_Entry]] = {}
        for kind, known in (("makers", names.makers), ("models", names.models), ("works", names.works)):
            for name, ids in known.items():
                for entry in _entries(name, kind, ids):
                    self.by_first.setdefault(entry.words[0], []).append(entry)
        for entries in self.by_first.values():
            entries.sort(key=lambda entry: -len(entry.words))
        every = (entry for entries in self.by_first.values() for entry in entries)
        self.vocabulary: set[str] = {word for entry in every for word in entry.words}
        self._stems = {_stem(word): word for word in sorted(self.vocabulary)} | {word: word for word in self.vocabulary}
        self.form = lru_cache(maxsize=1 << 14)(self._form)
        self._shortened: dict[str, list[str]] = {}
        for word in sorted(self.vocabulary):
            for short in _shortened(word) if _may_slip(word) else ():
                self._shortened.setdefault(short, []).append(word)

    def _form(self, word: str) -> str:
        """Return the word of a name that this word stands for: itself, bent, or one letter off; else the word."""
        if word in self.vocabulary or len(word) < 4 or not word.isalpha():
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
        if len(word) < 5:
            return None
        for short in (word, *_shortened(word)):
            nearby: list[str] = [short, *self._shortened.get(short, ())]
            for near in nearby:
                if near in self.vocabulary and _may_slip(near) and is_one_slip(word, near):
                    return near
        return None


def named(words: Sequence[Word], names: Names) -> Named:
    """Return what a message names and does not deny."""
    found: dict[str, list[str]] = {"makers": [], "models": [], "works": []}
    for entry in _matches(words, _index(names)):
        found[entry.kind].extend(entry.ids)
    return Named(*(tuple(dict.fromkeys(found[kind])) for kind in ("makers", "models", "works")))


_kept: list[tuple[Names, NameIndex]] = []


def _index(names: Names) -> NameIndex:
    """Return the index of these names; the last few are kept, for a knowledge base changes seldom."""
    for known, index in _kept:
        if known is names:
            return index
    index = NameIndex(names)
    _kept.append((names, index))
    del _kept[:-4]
    return index


def _entries(name: str, kind: str, ids: tuple[str, ...]) -> Iterator[_Entry]:
    """Yield the forms of a name that are looked for."""
    place, _, rest = name.replace("(", ",").partition(",")
    words = _name_words(place if kind == "works" else name)
    if not words:
        return
    if kind == "works":
        bare = tuple(word for word in words if not _MAKING.meaning(word) and len(word) > 3)
        yield _Entry(words, kind, ids, False, bool(rest) or bare == words)
        if bare and bare != words:
            yield _Entry(bare, kind, ids, False, True)
    elif kind == "makers" or (words[0] != MODEL and not words[0].isdigit()):
        yield _Entry(words, kind, ids, False, False)
    else:
        bare = words[1:] if words[0] == MODEL else words
        if bare:
            yield _Entry((MODEL, *bare), kind, ids, False, False)
        if len("".join(bare)) > 2 and not "".join(bare).isdigit():
            yield _Entry(bare, kind, ids, True, False)


def _name_words(name: str) -> tuple[str, ...]:
    words = [word.text for word in split(name) if word.text not in _SKIPPED]
    words = [word for word in words if word in _JOINERS or word.isalnum()]
    joined = ["&" if word in _JOINERS else word for word in words]
    if joined and (joined[0] in _MODEL_WORDS or (joined[0] in _NUMBER_WORDS and joined[1:] and joined[1].isdigit())):
        joined[0] = MODEL
    return tuple(joined)


def _matches(words: Sequence[Word], index: NameIndex) -> Iterator[_Entry]:
    forms = [_form(words, place, index) for place in range(len(words))]
    place = 0
    while place < len(words):
        entries, end = _longest(words, forms, place, index)
        if not entries:
            place += 1
            continue
        for entry in entries:
            if not _is_denied(words, place) and (not entry.made_there or _is_made_there(words, place, end)):
                yield entry
        place = end
        if entries[0].kind == "models" and entries[0].words[0] == MODEL:
            yield from _alternative(words, forms, place, index)


def _form(words: Sequence[Word], place: int, index: NameIndex) -> str:
    text = words[place].text
    if text in _MODEL_WORDS:
        return MODEL
    if text in _NUMBER_WORDS and _next_is_digits(words, place) and not _numbers_something_else(words, place):
        return MODEL
    return "&" if text in _JOINERS else index.form(text)


def _next_is_digits(words: Sequence[Word], place: int) -> bool:
    after = [word.text for word in words[place + 1 : place + 3] if word.text not in _SKIPPED]
    return bool(after) and after[0].isdigit()


def _numbers_something_else(words: Sequence[Word], place: int) -> bool:
    """Tell whether 'no. 9' is said of a photo, a house, an order: the word before says so."""
    before = words[place - 1].text if place else ""
    kind = cues.kind_of(before)
    return kind not in (None, cues.FILLER, cues.ASIDE, cues.PAUSE, cues.STOP, "model-name")


def _longest(words: Sequence[Word], forms: Sequence[str], place: int, index: NameIndex) -> tuple[list[_Entry], int]:
    """Return the longest names that begin at a place (several when they are equally long) and where they end."""
    found: list[_Entry] = []
    best = place
    if place and words[place].glued and words[place - 1].text.isalnum():
        return found, best
    for entry in index.by_first.get(forms[place], ()):
        if found and len(entry.words) < len(found[0].words):
            break
        end = _end_of(entry, words, forms, place)
        if end is not None:
            found, best = [*found, entry], max(best, end)
    return found, best


def _end_of(entry: _Entry, words: Sequence[Word], forms: Sequence[str], place: int) -> int | None:
    at = place + 1
    for wanted in entry.words[1:]:
        while at < len(words) and (
            words[at].text in _SKIPPED or (forms[at] == MODEL and entry.words[0] == MODEL and forms[at - 1] == MODEL)
        ):
            at += 1
        if at < len(words) and (forms[at] == wanted or (wanted == "&" and words[at].text in _LOOSE_JOINERS)):
            if entry.glued and not words[at].glued:
                return None
            at += 1
        elif wanted != "&":
            return None
    if at < len(words) and words[at].glued and words[at].text == "s":  # 'two Model 9s'
        at += 1
    cut = at < len(words) and words[at].glued and words[at].text.isalnum()
    return None if cut else at


def _is_denied(words: Sequence[Word], place: int) -> bool:
    """Tell whether 'not' stands before a name, with nothing but small words between."""
    for before in range(place - 1, max(place - 9, -1), -1):
        text = words[before].text
        if text in _NOT:
            return True
        if text not in _BETWEEN and text not in _SKIPPED and text not in _MODEL_WORDS:
            return False
    return False


def _is_made_there(words: Sequence[Word], place: int, end: int) -> bool:
    around: Iterable[Word] = (*words[max(0, place - 4) : place], *words[end : end + 2])
    return any(_MAKING.meaning(word.text) for word in around)


def _alternative(words: Sequence[Word], forms: Sequence[str], place: int, index: NameIndex) -> Iterator[_Entry]:
    """Yield the second model of 'a Model 9 or a 23'."""
    after = [at for at in range(place, min(place + 4, len(words))) if words[at].text not in _BETWEEN | _SKIPPED]
    if len(after) > 1 and words[after[0]].text in _OR and words[after[1]].text.isdigit():
        at = after[1]
        for entry in index.by_first.get(MODEL, ()):
            end = _end_of(_Entry(entry.words[1:], *entry[1:]), words, forms, at)
            if entry.words[1:] and entry.words[1] == forms[at] and end is not None:
                yield entry
                return


def _stem(word: str) -> str:
    return word[:-1] if word[-1] in _VOWELS else word


def _may_slip(word: str) -> bool:
    return len(word) >= 6 and word.isalpha()


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
