"""Models that an answer names by their number alone, or by one that nobody knows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.stated import MODEL, Stated
from knowledge.hearing.name_index import MODEL_WORDS
from knowledge.hearing.numbers import value

_BEFORE_NUMBER = (
    r"(?:(?<![^\W_])(?:a|an|the|ein|eine|einen|einer|une|un|una|la|le|el|il|een|de|die|der|das|be|nr|no)\.? "
    r"(?:(?:early|late|later|earlier|transitional|little|old|small|big|standard|ordinary|plain|normal) )?|"
    r"(?<![^\W_])m\.? ?|"
    r"^(?:it's |its |is ))"
)
_BEHIND_NUMBER = (
    r"(?=\s*$|\s+(?:of (?:about |around |c\.? ?)?)?1[789]\d\d(?!\d)|\s+(?:rather|instead|"
    r"because|since|which|from|made|built|not|or|and|by|with|in|about|around|circa|c|ca|von|aus|um|oder|de|du|des|ou|o|del|van|uit|en|et|y|e|und|i)(?![^\W_]))"
)
"""What stands around a number that names a model by itself."""


_OF_DIGITS = re.compile(
    r"(?<![^\W_])(?:a \d or an? \d|misread|last figure|read|reads|digits?|letters?|figures?|zero|"
    r"ziffer\w*|buchstabe\w*|lettre|chiffre|cifra|"
    r"cijfer|an? [b-hj-z]|the [a-z]|the \d|at the (?:end|start|beginning)|in front|his|her|their)(?![^\W_])"
)
"""Where single numbers are those stamped: 'his 6 is an 8'."""
_NUMBER = re.compile(r"(?<![^\W_])(?:number|serial|nummer|numero)(?![^\W_])")
"""The same, where it stands before them."""


_NAMED_MODEL = re.compile(rf"(?<![^\W_])(?:{'|'.join(sorted(MODEL_WORDS))})\s*[:=–-]\s*\Z")


def _stands_first(clause: Clause) -> bool:
    """Tell whether a clause begins its sentence, or stands behind 'Model:'; numbers in lists do neither."""
    before = clause.low[max(0, clause.start - 24) : clause.start]
    begins = not before.strip() or before.rstrip()[-1] in ".!?" or "\n" in before[-2:]
    return begins or _NAMED_MODEL.search(before) is not None


def _sentence_start(clause: Clause) -> int:
    nearest = max(0, clause.start - _NEAR)
    return max(nearest, *(clause.low.rfind(sign, nearest, clause.start) + 1 for sign in ".!?\n"))


_NEAR = 200
"""Signs. What stands further away in a sentence is not said of the same thing."""


def numbered(clause: Clause, models: Mapping[str, tuple[str, ...]]) -> Iterator[Stated]:
    """Yield models named by their number alone: 'it's a 9H', 'the 23'."""
    sentence = clause.low[_sentence_start(clause) : clause.end]
    for name, ids in models.items():
        first, _, number = name.partition(" ")
        if first.rstrip(".") not in MODEL_WORDS or not number[:1].isdigit() or len(number) > 5:
            continue
        if number.isdigit() and (_OF_DIGITS.search(sentence) or _NUMBER.search(sentence.partition(number)[0])):
            continue
        edge = _BEHIND_NUMBER if number.isdigit() else ""
        lead = _BEFORE_NUMBER if number.isdigit() else r"(?<![^\W_])"
        if clause.words == number and _stands_first(clause):
            yield Stated(MODEL, ids, clause.start, clause.end)
        for match in re.finditer(rf"{lead}(?P<number>{re.escape(number)})(?![^\W_]){edge}", clause.words):
            yield Stated("models", ids, clause.start + match.start("number"), clause.start + match.end("number"))


_BESIDE = re.compile(
    r"(?:'s)?[\s,(]+(?:the )?(?:no\.? ?|nr\.? ?|# ?)?(?P<number>\d{1,4}[a-z]?)(?![^\W_])"
    r"(?!\s*(?:[.,/:-]\d|digits?|figures?|numbers?|inch\w*|cm|mm|years?|machines?|of (?:them|these|those)|%|x\d))"
)


def numbered_beside(makers: Sequence[Stated], low: str, models: Mapping[str, tuple[str, ...]]) -> Iterator[Stated]:
    """Yield models named by their number right behind their maker: 'Otrel, 9, 1911'."""
    for maker in makers:
        match = _BESIDE.match(low, maker.end)
        ids = models.get(f"model {match['number']}", ()) if match else ()
        if match and ids:
            yield Stated(MODEL, ids, *match.span("number"), maker.denied)


_MODEL = rf"(?<![^\W_])(?:{'|'.join(sorted(MODEL_WORDS))})"
_IN_WORDS = re.compile(_MODEL + r" (?:number |no\.? )?([^\W\d_]{3,9})(?![^\W_])")


def numbered_in_words(clause: Clause, models: Mapping[str, tuple[str, ...]]) -> list[Stated]:
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


def unknown_numbers(clause: Clause, known: Sequence[Stated]) -> list[Stated]:
    """Return 'Model 77' where it is none of the names known."""
    matches = (match for match in _NUMBERED.finditer(clause.low, clause.start, clause.end))
    return [
        Stated("models", (), match.start(), match.end())
        for match in matches
        if not any(one.start < match.end() and match.start() < one.end for one in known)
    ]
