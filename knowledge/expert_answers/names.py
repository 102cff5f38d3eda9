"""Which makers, models and works an answer names for the asker's machine."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from knowledge.expert_answers import vocabulary
from knowledge.expert_answers.clauses import Clause
from knowledge.hearing.name_index import MODEL_WORDS
from knowledge.hearing.named import mentions
from knowledge.hearing.numbers import value
from knowledge.names import Names

MAKER, MODEL, WORKS = "makers", "models", "works"


@dataclass(frozen=True, slots=True)
class Stated:
    """One thing stated at a place of the text. `values` are ids (several: one of these), or one EDTF text.

    `kind` is `makers`, `models`, `works`, `date` or `serial`; no values: named, but not known. A `weak` one was only
    thought of at first, or is what the machine looks like; it gives way to any other. `as_such`: the clause is about
    that model or works, or about another machine: 'the 52P was dropped in 1931', 'my Marthe'.
    """

    kind: str
    values: tuple[str, ...]
    start: int
    end: int
    denied: bool = False
    weak: bool = False
    as_such: bool = False


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


def names_in(clause: Clause, names: Names) -> list[Stated]:
    """Return what one clause names, in order; 'Model 77' has no values when no such model is known."""
    placed = clause.placed()
    words = [one.word for one in placed]
    found = {
        Stated(one.kind, one.ids, placed[one.start].start, placed[one.end - 1].end, one.denied)
        for part in _apart(names)
        for one in mentions(words, part)
    }
    found |= set(_bare(clause, names.models))
    longest = _longest(found)
    longest += _in_words(clause, names.models)
    longest += _unknown(clause, longest)
    return sorted((_judged(clause, one) for one in longest if not _is_other(clause, one)), key=lambda one: one.start)


def _longest(found: Iterable[Stated]) -> list[Stated]:
    """Leave out names that lie inside longer ones of the same kind."""
    kept: list[Stated] = []
    for one in sorted(found, key=lambda one: (one.start - one.end, one.start)):
        if not any(other.kind == one.kind and other.start < one.end and one.start < other.end for other in kept):
            kept.append(one)
    return kept


_BEFORE_NUMBER = (
    r"(?:(?<![^\W_])(?:a|an|the|ein|eine|einen|einer|une|un|una|la|le|el|il|een|de|die|der|das|be|nr|no)\.? |"
    r"^(?:it's |its |is ))"
)
_BEHIND_NUMBER = (
    r"(?=\s*$|\s+of (?:about |around |c\.? ?)?1[789]\d\d|\s+(?:from|made|built|not|or|and|by|with|in|about|around|"
    r"circa|c|ca|von|aus|um|oder|de|du|des|"
    r"ou|o|"
    r"del|van|uit|en|et|y|e|und|i)(?![^\W_]))"
)
"""What stands around a number that names a model by itself."""


_OF_DIGITS = re.compile(
    r"(?<![^\W_])(?:read|reads|digits?|letters?|figures?|zero|number|nummer|ziffer\w*|buchstabe\w*|lettre|chiffre|"
    r"cifra|"
    r"cijfer|an? [b-hj-z]|the [a-z]|the \d|at the (?:end|start|beginning)|in front|his|her|their)(?![^\W_])"
)
"""Where single numbers are those stamped: 'his 6 is an 8'."""


_NAMED_MODEL = re.compile(rf"(?<![^\W_])(?:{'|'.join(sorted(MODEL_WORDS))})\s*[:=–-]\s*\Z")


def _stands_first(clause: Clause) -> bool:
    """Tell whether a clause begins its sentence, or stands behind 'Model:'; numbers in lists do neither."""
    before = clause.low[max(0, clause.start - 24) : clause.start]
    begins = not before.strip() or before.rstrip()[-1] in ".!?" or "\n" in before[-2:]
    return begins or _NAMED_MODEL.search(before) is not None


def _bare(clause: Clause, models: Mapping[str, tuple[str, ...]]) -> Iterator[Stated]:
    """Yield models named by their number alone: 'it's a 9H', 'the 23'."""
    for name, ids in models.items():
        first, _, number = name.partition(" ")
        if first.rstrip(".") not in MODEL_WORDS or not number[:1].isdigit() or len(number) > 5:
            continue
        if number.isdigit() and _OF_DIGITS.search(clause.words):
            continue
        edge = _BEHIND_NUMBER if number.isdigit() else ""
        lead = _BEFORE_NUMBER if number.isdigit() else r"(?<![^\W_])"
        if clause.words == number and _stands_first(clause):
            yield Stated(MODEL, ids, clause.start, clause.end)
        for match in re.finditer(rf"{lead}(?P<number>{re.escape(number)})(?![^\W_]){edge}", clause.words):
            yield Stated("models", ids, clause.start + match.start("number"), clause.start + match.end("number"))


_MODEL = rf"(?<![^\W_])(?:{'|'.join(sorted(MODEL_WORDS))})"
_IN_WORDS = re.compile(_MODEL + r" (?:number |no\.? )?([^\W\d_]{3,9})(?![^\W_])")


def _in_words(clause: Clause, models: Mapping[str, tuple[str, ...]]) -> list[Stated]:
    """Return models whose number is written as a word: 'Model nine'."""
    found = []
    for match in _IN_WORDS.finditer(clause.low, clause.start, clause.end):
        ids = models.get(f"model {value(match[1])}", ())
        if ids:
            found.append(Stated(MODEL, ids, *match.span()))
    return found


_NUMBERED = re.compile(
    r"(?<![^\W_])(?:" + "|".join(sorted(MODEL_WORDS)) + r")\.? ?(?:no\.? ?|nr\.? ?)?\d+[a-z]?(?![^\W_])"
)


def _unknown(clause: Clause, known: Sequence[Stated]) -> list[Stated]:
    matches = (match for match in _NUMBERED.finditer(clause.low, clause.start, clause.end))
    return [
        Stated("models", (), match.start(), match.end())
        for match in matches
        if not any(one.start < match.end() and match.start() < one.end for one in known)
    ]


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
    return (vocabulary.DENIES.ends(before) or vocabulary.DENIES.ends(bare)) and not vocabulary.SURE.ends(bare)


_ARTICLE = re.compile(
    r"(?:\s|(?<![^\W_])(?:an?|the|eine?[nmrs]?|der|die|das|une?|la|le|l'|una?|el|il|een|de|het|be|one))+\Z"
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
    is_like = vocabulary.LIKENESS.ends(before) or vocabulary.LIKENESS.ends(_ARTICLE.sub("", before))
    return is_like and not vocabulary.WEAKLY.search(before)
