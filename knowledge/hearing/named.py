"""Makers, models and works that a message names: longest names first, whole words, bent forms and one slip allowed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from knowledge.hearing.name_context import is_meant
from knowledge.hearing.name_index import JOINERS, MAKING, MODEL, MODEL_WORDS, NUMBER_WORDS, SKIPPED, Entry, NameIndex
from knowledge.hearing.words import Word, folded_set
from knowledge.names import Names
from knowledge.tokens import cues

_MOST_SKIPPED = 4
"""Signs and words for 'model' that may stand between two words of one name."""
_LOOSE_JOINERS = JOINERS | folded_set("y e i и en")
_OR = folded_set("or oder ou o of lub albo czy или eller / and und et y i e och")
_NOT = folded_set(
    "not isn isnt wasn don doesn didn no never nor nicht kein keine keinen keiner pas non niet geen nie не ни inte "
    "ingen ej"
)
_BETWEEN = folded_set(
    "a an the it is its it's s t be really quite actually think believe that this was one of my ein eine einen das der "
    "die es ist un une le la c est el una es il lo e een de het to jest это был det en ar own"
)


class Mention(NamedTuple):
    """One name in a message: `kind` is `makers`, `models` or `works`, and it stands in the words `start` to `end`."""

    kind: str
    ids: tuple[str, ...]
    start: int
    end: int
    denied: bool


class Named(NamedTuple):
    """Ids of what was named, in the order of the message, and the words they were named by."""

    makers: tuple[str, ...]
    models: tuple[str, ...]
    works: tuple[str, ...]
    words: frozenset[str]


def named(words: Sequence[Word], names: Names) -> Named:
    """Return what a message names and does not deny."""
    found: dict[str, list[str]] = {"makers": [], "models": [], "works": []}
    named_by: set[str] = set()
    for entry, start, end in _matches(words, _index(names)):
        found[entry.kind].extend(entry.ids)
        named_by.update(word.text for word in words[start:end])
    makers, models, works = (tuple(dict.fromkeys(found[kind])) for kind in ("makers", "models", "works"))
    return Named(makers, models, works, frozenset(named_by))


def mentions(words: Sequence[Word], names: Names) -> Iterator[Mention]:
    """Yield each name in the words of somebody who tells what a machine is, the denied ones too.

    Names need fewer words beside them here than in questions: 'Marthe, Klingenried' names both.
    """
    for entry, start, end in _matches(words, _index(names), telling=True):
        yield Mention(entry.kind, entry.ids, start, end, _is_denied(words, start))


_kept: list[tuple[Names, NameIndex]] = []


def _index(names: Names) -> NameIndex:
    """Return the index of these names; the last few are kept, for a knowledge base changes seldom."""
    for known, index in _kept:
        if known is names:
            return index
    index = NameIndex(names)
    _kept.append((names, index))
    del _kept[:-8]
    return index


def _matches(words: Sequence[Word], index: NameIndex, telling: bool = False) -> Iterator[tuple[Entry, int, int]]:
    """Yield each name with where it begins and ends. `telling` words are as `mentions` takes them."""
    forms = [_form(words, place, index) for place in range(len(words))]
    place = 0
    while place < len(words):
        entries, end = _longest(words, forms, place, index)
        if not entries:
            place += 1
            continue
        for entry in entries:
            if (telling or not _is_denied(words, place)) and _belongs_here(entry, words, place, end, telling):
                yield entry, place, end
        place = end
        if entries[0].kind == "models" and entries[0].words[0] == MODEL:
            yield from _alternative(words, forms, place, index)


def _belongs_here(entry: Entry, words: Sequence[Word], place: int, end: int, telling: bool) -> bool:
    if telling:
        return len(entry.words) > 1 or entry.kind == "works" or is_meant(words, place, end, entry.words[0], False, True)
    if entry.made_there:
        around: Iterable[Word] = (*words[max(0, place - 4) : place], *words[end : end + 2])
        return any(MAKING.meaning(word.text) for word in around)
    return len(entry.words) > 1 or is_meant(words, place, end, entry.words[0], entry.bare)


def _form(words: Sequence[Word], place: int, index: NameIndex) -> str:
    text = words[place].text
    if text in MODEL_WORDS:
        return MODEL
    if text in NUMBER_WORDS and _next_is_digits(words, place) and not _numbers_something_else(words, place):
        return MODEL
    return "&" if text in JOINERS else index.form(text)


def _next_is_digits(words: Sequence[Word], place: int) -> bool:
    after = [word.text for word in words[place + 1 : place + 3] if word.text not in SKIPPED]
    return bool(after) and after[0].isdigit()


def _numbers_something_else(words: Sequence[Word], place: int) -> bool:
    """Tell whether 'no. 9' is said of a photo, a house, an order: the word before says so."""
    before = words[place - 1].text if place else ""
    kind = cues.kind_of(before)
    return kind not in (None, cues.FILLER, cues.ASIDE, cues.PAUSE, cues.STOP, "model-name")


def _longest(words: Sequence[Word], forms: Sequence[str], place: int, index: NameIndex) -> tuple[list[Entry], int]:
    """Return the longest names that begin at a place (several when they are equally long) and where they end."""
    found: list[Entry] = []
    best = place
    if place and words[place].glued and words[place - 1].text.isalnum():
        return found, best
    second = _next(words, forms, place + 1, forms[place] == MODEL)
    for entry in index.beginning(forms[place], forms[second] if second < len(forms) else ""):
        if found and len(entry.words) < len(found[0].words):
            break
        end = _end_of(entry, words, forms, place)
        if end is not None:
            found, best = [*found, entry], max(best, end)
    return found, best


def _next(words: Sequence[Word], forms: Sequence[str], at: int, of_model: bool) -> int:
    """Return where the next word of a name stands: signs are passed over, after 'model' also 'no.' and the like."""
    furthest = min(len(words), at + _MOST_SKIPPED)
    while at < furthest and (words[at].text in SKIPPED or (of_model and forms[at - 1] == forms[at] == MODEL)):
        at += 1
    return at


def _end_of(entry: Entry, words: Sequence[Word], forms: Sequence[str], place: int) -> int | None:
    at = place + 1
    for wanted in entry.words[1:]:
        at = _next(words, forms, at, entry.words[0] == MODEL)
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
        if text not in _BETWEEN and text not in SKIPPED and text not in MODEL_WORDS:
            return False
    return False


def _alternative(
    words: Sequence[Word], forms: Sequence[str], place: int, index: NameIndex
) -> Iterator[tuple[Entry, int, int]]:
    """Yield the second model of 'a Model 9 or a 23'."""
    after = [at for at in range(place, min(place + 4, len(words))) if words[at].text not in _BETWEEN | SKIPPED]
    if len(after) > 1 and words[after[0]].text in _OR and words[after[1]].text.isdigit():
        at = after[1]
        for entry in index.beginning(MODEL, forms[at]):
            end = _end_of(Entry(entry.words[1:], *entry[1:]), words, forms, at) if entry.words[1:] else None
            if end is not None and entry.words[1] == forms[at]:
                yield entry, at, end
                return
