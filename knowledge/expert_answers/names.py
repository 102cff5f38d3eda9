"""Which makers, models and works an answer names for the asker's machine."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from knowledge.expert_answers import vocabulary
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.model_numbers import numbered, numbered_beside, numbered_in_words, unknown_numbers
from knowledge.expert_answers.stated import MAKER, MODEL, WORKS, Stated
from knowledge.expert_answers.unheard import with_letters_changed
from knowledge.hearing.named import mentions
from knowledge.names import Names

_kept: list[tuple[Names, tuple[Names, ...]]] = []


def _apart(names: Names) -> tuple[Names, ...]:
    """Return makers, models and works as names of their own, so that 'Rivolanda Cincia' names a maker and a model."""
    for known, parts in _kept:
        if known is names:
            return parts
    makers = tuple(f"{maker} " for maker in names.makers)
    models = {name: ids for name, ids in names.models.items() if not name.startswith(makers)}
    parts = (Names(makers=names.makers), Names(models=models), Names(works=names.works))
    _kept.append((names, parts))
    del _kept[:-2]
    return parts


def names_in(clause: Clause, names: Names, before: Clause | None = None) -> list[Stated]:
    """Return what one clause names, in order; 'Model 77' has no values when no such model is known.

    `before` is its neighbour in the sentence, which may be the maker of the 9 in 'Otrel, 9, 1911'.
    """
    found = {one for part in _apart(names) for one in _mentioned(clause, part)}
    found |= set(numbered(clause, names.models))
    makers = [one for one in found if one.kind == MAKER]
    if before is not None and clause.words[:1].isdecimal():
        makers += _mentioned(before, _apart(names)[0])
    beside = numbered_beside(makers, clause.low[: clause.end], names.models)
    found |= {one for one in beside if one.start >= clause.start}
    longest = [_with_its_variant(one, clause.low, names) for one in _longest(found)]
    longest += numbered_in_words(clause, names.models)
    longest += with_letters_changed(clause, names, longest)
    longest += unknown_numbers(clause, longest)
    return sorted((_judged(clause, one) for one in longest if not _is_other(clause, one)), key=lambda one: one.start)


def _mentioned(clause: Clause, names: Names) -> Iterator[Stated]:
    placed = clause.placed()
    for one in mentions([one.word for one in placed], names):
        yield Stated(one.kind, one.ids, placed[one.start].start, placed[one.end - 1].end, one.denied)


def _with_its_variant(one: Stated, low: str, names: Names) -> Stated:
    """Return the model that a word behind its name makes it: 'a Hedel, the electric one'."""
    if one.kind != MODEL or not (match := _VARIANT.match(low, one.end)):
        return one
    ids = names.models.get(f"{low[one.start : one.end]} {match['word']}", ())
    return replace(one, values=ids) if ids else one


_VARIANT = re.compile(
    r"[ ,(]+(?:(?:the|with|in|an?|die|mit|la|le|avec|con|de|met|as)\s+){0,2}(?P<word>[^\W\d_]{4,})(?![^\W_])"
    r"(?!\s+(?:motor|light|lamp|foot))"
)


def _longest(found: Iterable[Stated]) -> list[Stated]:
    """Leave out names that lie inside longer ones of the same kind."""
    kept: list[Stated] = []
    for one in sorted(found, key=lambda one: (one.start - one.end, one.start)):
        if not any(other.kind == one.kind and other.start < one.end and one.start < other.end for other in kept):
            kept.append(one)
    return kept


def _judged(clause: Clause, one: Stated) -> Stated:
    before = clause.low[max(clause.start, one.start - 40) : one.start]
    denied = one.denied or denies(before) or vocabulary.DENIED.begins(clause.low[: clause.end], one.end) is not None
    weak = vocabulary.WEAKLY.search(before) is not None
    return replace(one, denied=denied, weak=weak, as_such=_is_as_such(clause, one))


def _is_as_such(clause: Clause, one: Stated) -> bool:
    before = clause.low[max(clause.start, one.start - 40) : one.start]
    if vocabulary.MINE.ends(before) or (one.kind == WORKS and vocabulary.LIVES_IN.ends(before)):
        return True
    if one.kind == MAKER or vocabulary.THIS.ends(before):
        return False
    found = vocabulary.AS_SUCH.begins(clause.low[: clause.end], one.end)
    return found is not None and vocabulary.MADE.begins(clause.low[: clause.end], found.end()) is None


def denies(before: str) -> bool:
    """Tell whether a plain text ends with 'not', small words aside: 'it isn't a'."""
    bare = _ARTICLE.sub("", before)
    if vocabulary.MEANT.ends(bare):
        return False
    if _WOULD_NOT_CALL.search(bare):
        return True
    return (vocabulary.DENIES.ends(before) or vocabulary.DENIES.ends(bare)) and not vocabulary.SURE.ends(bare)


_WOULD_NOT_CALL = re.compile(
    r"(?<![^\W_])(?:wouldn't|would not|don't|do not) (?:call|say|think|believe|see)"
    r"(?: (?:that|this|it|it's|is|was|yours))*\Z"
)
_ARTICLE = re.compile(
    r"(?:\s|(?<![^\W_])(?:an?|the|eine?[nmrs]?|der|die|das|une?|la|le|l'|una?|el|il|een|de|het|be|one|plain|ordinary|normal|usual|simple|"
    r"regular|standard|old|normale|einfache|gewone|made|built|produced|in|at|"
    r"by|from|gebaut|aus|faite?|fabriquee?|hecha|en|fatta|gemaakt|uit))+\Z"
)


_ON_A = re.compile(
    r"(?<![^\W_])(?:on|in|with|from|auf|mit|sur|avec|dans|sobre|con|su|op|met) (?:an?|the|eine[mr]?|une?|una?|een) *\Z"
)
_FURNITURE = re.compile(
    r" *(?:treadle|stand|table|cabinet|case|base|lid|motor|shuttle|bobbin|parts?|gestell|tisch|koffer|pied|pie)"
    r"(?![^\W_])"
)
"""Between the two a model names only a part: 'on a Model 6 treadle'."""


def _is_one_word(clause: Clause, one: Stated) -> bool:
    return clause.low[one.start : one.end].isalpha()


def _is_other(clause: Clause, one: Stated) -> bool:
    """Tell 'shorter than the Model 9', 'I thought of a Model 9' and 'on a Model 9 treadle'."""
    before, behind = clause.low[max(clause.start, one.start - 40) : one.start], clause.low[one.end : clause.end]
    if one.kind == MODEL and _ON_A.search(before) and _FURNITURE.match(behind):
        return True
    is_a_person = one.kind == MODEL and _is_one_word(clause, one) and vocabulary.SPOKEN_TO.ends(before)
    if is_a_person or vocabulary.THOUGHT.search(before):
        return True
    bare = _ARTICLE.sub("", before)
    is_like = vocabulary.LIKENESS.ends(before) or vocabulary.LIKENESS.ends(bare)
    return is_like and not vocabulary.MEANT.ends(bare) and not vocabulary.WEAKLY.search(before)
