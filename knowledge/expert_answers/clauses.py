"""An answer parted into clauses, each with its place, so that what is understood can be shown in the expert's words."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from knowledge.expert_answers.months import month_number
from knowledge.expert_answers.plain import plain
from knowledge.hearing.words import Word, split

_END = re.compile(r"[.!?…]+(?=[\s\"')\]]|\Z)|\n+|\.{2,}|[\U0001f300-\U0001faff\u2600-\u27bf]+")
_PAUSE = re.compile(
    r"[,;:](?=\D|\Z)|[()\[\]—]|(?<=\s)[-–]{1,3}(?=\s)|--+|->|=>|→|(?<=\s)[/|=](?=\s)"
    r"|(?<![^\W_])(?<!nothing )(?<!anything )(?<!none )(?:but|sondern|mais|pero|sino|maar|bensi)(?![^\W_])"
    r"|(?<=\w\s)so(?= (?:it|it's|this|he|she|not|i|i'd|we|must|made|built|probably|before|after|later|earlier|an?|"
    r"yours|\d{4})(?![^\W_]))"
)
_SHORT = frozenset(
    "p pp pg vol fol s st no nr num nos c ca circa approx abt mod ser z b u a i d h e g bl blz pag pags cf vgl bzw ed "
    "dept mr mrs dr jan feb mar apr jun jul aug sep sept oct nov dec okt dez resp incl ref reg col t mk ungef env "
    "aprox tel".split()
)
_OF_NUMBERS = frozenset({"no", "nr", "c", "p", "s", "a", "e", "i", "h", "t"})
"""These shorten something only before a number: 'No. 9', and 'No.' by itself."""
_DAY_BEFORE = re.compile(r"(?<!\w)(\d{1,2})\.\Z")
_NEXT_WORD = re.compile(r"\s*([^\W\d_]{3,})")
_WORD_BEFORE = re.compile(r"([^\W\d_]+)\.\Z")
_MONTH_AND_DAY = re.compile(r"(?<!\w)([^\W\d_]{3,})\.? ?\d{0,2}(?:st|nd|rd|th)?\Z")
_PIECE = re.compile(r"[^\W\d_]+|\d+|[^\w\s]")


@dataclass(frozen=True, slots=True)
class Placed:
    """A word as hearing knows it, with its place in the text."""

    word: Word
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Clause:
    """A piece of the text between two pauses: its place, and the place of the sentence it belongs to.

    `closing` is the sign that ends the sentence, '' at the end of the text.
    """

    text: str
    low: str
    start: int
    end: int
    sentence: int
    closing: str

    @property
    def words(self) -> str:
        """The clause itself, in plain letters."""
        return self.low[self.start : self.end]

    @property
    def is_question(self) -> bool:
        """Whether its sentence ends with a question mark."""
        return "?" in self.closing

    def placed(self) -> tuple[Placed, ...]:
        """Return its words as hearing knows them."""
        return placed_words(self.text, self.start, self.end)


@lru_cache(maxsize=64)
def placed_words(text: str, start: int, end: int) -> tuple[Placed, ...]:
    """Return the words of a piece of text, letters apart from digits, every sign for itself, with their places."""
    found: list[Placed] = []
    before = -1
    for match in _PIECE.finditer(text, start, end):
        word = next(split(match[0]), None)
        if word is not None:
            found.append(Placed(word._replace(glued=match.start() == before), match.start(), match.end()))
        before = match.end()
    return tuple(found)


def clauses(text: str) -> list[Clause]:
    """Return the clauses of a text, in order."""
    low = plain(text)
    found: list[Clause] = []
    for number, (start, end, closing) in enumerate(_sentences(low)):
        parts = (_trimmed(low, *part) for part in _parts(low, start, end))
        found += [Clause(text, low, a, b, number, closing) for a, b in parts if a < b]
    return found


def _sentences(low: str) -> Iterator[tuple[int, int, str]]:
    start = 0
    for match in _END.finditer(low):
        if match[0] == "." and _is_inside(low, match):
            continue
        if low[start : match.start()].strip():
            yield start, match.start(), match[0]
        start = match.end()
    if low[start:].strip():
        yield start, len(low), ""


def _is_inside(low: str, stop: re.Match[str]) -> bool:
    """Tell whether a full stop belongs to an abbreviation: 'p. 40', 'c. 1911'."""
    if (day := _DAY_BEFORE.search(low, max(0, stop.start() - 4), stop.end())) and day[1]:
        following = _NEXT_WORD.match(low, stop.end())
        return following is not None and month_number(following[1]) is not None
    before = _WORD_BEFORE.search(low, max(0, stop.start() - 12), stop.end())
    behind = low[stop.end() : stop.end() + 2].strip()
    if before is None or before[1] not in _SHORT or not behind:
        return False
    return before[1] not in _OF_NUMBERS or behind[0].isdecimal()


def _parts(low: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    begin = start
    for match in _PAUSE.finditer(low, start, end):
        if match[0] == "," and _is_in_a_date(low, match.start(), start, end):
            continue
        yield begin, match.start()
        begin = match.start() if match[0][0].isalpha() else match.end()
    yield begin, end


def _is_in_a_date(low: str, comma: int, start: int, end: int) -> bool:
    """Tell whether a comma stands inside 'March 3, 1911'."""
    year = low[comma + 1 : min(end, comma + 7)].strip()
    before = _MONTH_AND_DAY.search(low, max(start, comma - 16), comma)
    return year[:4].isdecimal() and before is not None and month_number(before[1]) is not None


_YEAR_CUT_SHORT = re.compile(r"'\d\d(?!\d)")


def _is_edge(sign: str) -> bool:
    return sign.isspace() or sign in ",;:-–—*\"'"


def _trimmed(low: str, start: int, end: int) -> tuple[int, int]:
    while start < end and _is_edge(low[start]) and not _YEAR_CUT_SHORT.match(low, start):
        start += 1
    while end > start and (_is_edge(low[end - 1]) or low[end - 1] == "."):
        end -= 1
    return start, end


def of_sentence(parts: Sequence[Clause], number: int) -> list[Clause]:
    """Return the clauses of one sentence."""
    return [part for part in parts if part.sentence == number]
