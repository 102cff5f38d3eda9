"""A number that is told of and not written: 'seven digits, the first a zero'."""

from __future__ import annotations

import re
from collections.abc import Sequence

from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.nouns import About
from knowledge.expert_answers.plain import Phrases
from knowledge.expert_answers.vocabulary import DENIES
from knowledge.hearing.numbers import value
from knowledge.readings import Reading
from knowledge.tokens.nouns import SerialToken

_ZERO = "zero|a zero|an 0|a 0|0|nought|a nought|null|eine null|zéro|un zéro|cero|un cero|uno zero|nul|een nul"
_IN_FRONT = (
    "in front|before it|before the|at the front|at the start|at the beginning|comes first|first|leads|vorne|davor|"
    "vor der|am anfang|devant|au début|delante|al principio|davanti|all'inizio|ervoor|vooraan"
)
_LEADING_ZERO = Phrases(
    "|".join(f"{zero} {place}|{zero} .. {place}" for zero in _ZERO.split("|") for place in _IN_FRONT.split("|")),
    "|".join(f"{lead} {zero}" for zero in _ZERO.split("|") for lead in (
        "first|first .. is|first digit is|first figure is|starts with|begins with|begin with|start with|leading|led by|"
        "beginning with|starting with|beginnt mit|fängt mit|commence par|empieza por|empieza con|inizia con|begint met"
    ).split("|")),
)  # fmt: skip
_DIGITS = re.compile(
    r"(?<![^\W_])(?P<count>\d|[^\W\d_]{3,})[ -]?"
    r"(?:digits?|figures?|stellig|ziffern|chiffres|cifras|cifre|cijfers)"
)


def says_leading_zero(clause: Clause) -> bool:
    """Tell whether a clause says that the number begins with a zero."""
    found = _LEADING_ZERO.search(clause.low, clause.start, clause.end)
    return found is not None and DENIES.search(clause.low, clause.start, found.end()) is None


def described(clauses: Sequence[Clause], about: About) -> Reading | None:
    """Return the one number among those shown that is the number asked about with a zero before it.

    None where several or none are such, or where the count of digits that is told is another.
    """
    if not any(map(says_leading_zero, clauses)):
        return None
    counts = {count for clause in clauses for match in _DIGITS.finditer(clause.words) if (count := _count(match))}
    found = {one.reading.serial: one.reading for one in about.candidates if _has_a_zero_more(one.reading, about)}
    fitting = [one for one in found.values() if not counts or len(one.digits) in counts]
    return fitting[0] if len(fitting) == 1 else None


def _has_a_zero_more(reading: Reading, about: About) -> bool:
    typed = f"{reading.prefix}{reading.digits.removeprefix('0')}{reading.suffix}"
    return reading.digits.startswith("0") and typed in about.serials


def _count(match: re.Match[str]) -> int | None:
    return int(match["count"]) if match["count"].isdecimal() else value(match["count"])


def as_token(reading: Reading, clause: Clause) -> SerialToken:
    """Return the number as if it stood where it is told of."""
    return SerialToken(
        clause.words, clause.start, clause.end, reading.prefix, reading.digits, reading.suffix, introduced=True
    )
