"""Numbers of registers that are no serial numbers: patents, designs and marks, known by the words before them.

`US patent no. 2,000,000`, `Rd No 204117` and `registration diamond: R B 14` are passed over as serials, and carry their
cleaned number and the registers whose words stand there, so that they can be answered from those.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from knowledge.names import Names
from knowledge.tokens import words as lists
from knowledge.tokens.context import words_in
from knowledge.tokens.fold import fold_word
from knowledge.tokens.rules import dates
from knowledge.tokens.rules.spot import Spot

Registers = tuple[str, ...]

_LONGEST: Final = 5  # words of an introducer
_SILENT: Final = frozenset(':.("#°=*_`')
_BETWEEN: Final = lists.folded(
    "no nos nr nrs number numbers n num numero nummer nummern numer номер is was are the with of reads says stamped"
)
_NUMBER: Final = re.compile(r"(?:rd|d|re|us|gb|uk)?[ .]{0,2}\d(?:[ ,.']?\d){0,9}(?!\d)", re.IGNORECASE)
_MARK: Final = re.compile(r"(?<![^\W_])(?:[A-Z]{2}\d{1,2}|[A-Z]\d{0,2}|\d{1,2})(?![^\W_])")
_MARK_ENDS: Final = re.compile(r"[.?!\n](?!\w)|\d{3}|\d[.,]\d")
_MARK_WITHIN: Final = 60  # characters after the introducer in which the letters of a mark stand
_MARK_BEGINS: Final = 30
_NAMED_WITHIN: Final = 120
_PARTS: Final = {
    fold_word(word): role
    for role, words in {
        "year": "year jahr année año anno jaar rok год år rok ano",
        "month": "month monat mois mes mese maand miesiąc месяц månad měsíc",
        "day": "day tag jour día giorno dag dzień день den dia",
        # Letters at the corners of a diamond, published guides: before 1868 the year stands at the top, the month
        # to the left, the day to the right; from 1868 on the day at the top, the year to the right, the month at
        # the bottom.
        "top": "top oben haut arriba",
        "left": "left links gauche izquierda",
        "right": "right rechts droite derecha",
        "bottom": "bottom unten bas abajo",
    }.items()
    for word in words.split()
}
_PART_NAMES: Final = "(?P<name>" + "|".join(sorted(map(re.escape, _PARTS))) + ")"
_ONE_PART: Final = r"[\"']?(?P<mark>(?-i:[A-Z])|\d{1,2})(?![^\W_])[\"']?"
_PART_AFTER_ITS_NAME: Final = re.compile(
    rf"(?<![^\W_]){_PART_NAMES}"
    rf"(?:(?: letter|-letter| figure| number| code| mark| is| was|:| =| of| ist| est)){{0,3}} ?{_ONE_PART}",
    re.IGNORECASE,
)
_PART_BEFORE_ITS_NAME: Final = re.compile(
    rf"(?<![^\W_]){_ONE_PART} ?(?:\(|=|for|as|is|:|-)? ?(?:(?:at|on|to|in) )?(?:the )?{_PART_NAMES}(?![^\W_])",
    re.IGNORECASE,
)
_LETTERS: Final = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True, slots=True)
class Introduced:
    """A cleaned number, where it stands in the folded text, and the registers it may belong to."""

    start: int
    end: int
    number: str
    registers: Registers


@dataclass(frozen=True, slots=True)
class Introducers:
    """The introducers of one knowledge base, as they stand in folded text."""

    phrases: Mapping[str, Registers]
    last_words: frozenset[str]

    def before(self, words: Iterable[str]) -> Registers:
        """Return the registers of the longest introducer that ends these words, fillers aside."""
        plain = _plain(words).split()
        while plain:
            for count in range(min(_LONGEST, len(plain)), 0, -1):
                found = self.phrases.get(" ".join(plain[-count:]))
                if found:
                    return found
            if plain.pop() not in _BETWEEN:
                break
        return ()


_NONE: Final = Introducers({}, frozenset())
_last: tuple[Names, Introducers] = (Names(), _NONE)


def introducers_of(names: Names) -> Introducers:
    """Return the introducers of a knowledge base; those of the one asked for last are kept ready."""
    global _last
    if _last[0] is not names:
        phrases: dict[str, Registers] = {}
        for words, ids in names.introducers.items():
            key = _plain(words_in(fold_word(words), 0, len(words)))
            phrases[key] = tuple(dict.fromkeys((*phrases.get(key, ()), *ids)))
        _last = names, Introducers(phrases, frozenset(key.split()[-1] for key in phrases if key))
    return _last[1]


def _plain(words: Iterable[str]) -> str:
    """Join words without the dots, dashes and signs that people leave out or put in."""
    joined = " ".join(word for word in words if word not in _SILENT)
    return joined.replace(".", "").replace("'", "").replace("-", " ").strip()


def may_introduce(words: list[str], names: Names) -> bool:
    """Say whether words of a message, in lower case, end an introducer."""
    return bool(names.introducers) and not introducers_of(names).last_words.isdisjoint(words)


def introduced_number(spot: Spot, previous: Registers) -> Introduced | None:
    """Read a number with digits whose introducer stands before it, or that is joined to such a number (`previous`)."""
    registers = introducers_of(spot.names).before(spot.lead.words) or previous
    if (
        not registers
        or dates.date(spot)
        or (dates.year(spot) and not spot.introduced and "no" not in spot.lead.words[-2:])
    ):
        return None
    match = _NUMBER.match(spot.plain, spot.start) or _NUMBER.match(spot.plain, spot.digit)
    if match is None or match.end() <= spot.digit:
        return None
    return Introduced(match.start(), match.end(), re.sub(r"[^A-Z0-9]", "", match.group().upper()), registers)


def introduced_marks(plain: str, low: str, names: Names) -> list[Introduced]:
    """Read marks that begin with letters, such as those of a registration diamond: 'diamond: R B 14', 'XC12'."""
    known = introducers_of(names)
    found: list[Introduced] = []
    if not may_introduce(_LETTERS.findall(low), names):
        return found
    for match in _LETTERS.finditer(low):
        if match.group() not in known.last_words or (found and match.start() < found[-1].end):
            continue
        registers = known.before(words_in(low, match.start() - _MARK_WITHIN, match.end()))
        mark = (_mark_in_words(plain, match.end()) or _mark(plain, match.end())) if registers else None
        if mark is not None:
            found.append(Introduced(*mark, registers))
    return found


def _mark_in_words(plain: str, start: int) -> tuple[int, int, str] | None:
    """Read a mark whose parts are named, in any order: 'day 7, month H, year K' is KH7."""
    stop = _MARK_ENDS.search(plain, start, start + _NAMED_WITHIN)
    end = stop.start() if stop else start + _NAMED_WITHIN
    for pattern in (_PART_AFTER_ITS_NAME, _PART_BEFORE_ITS_NAME):
        parts = {_PARTS[part["name"].lower()]: part.span("mark") for part in pattern.finditer(plain, start, end)}
        places = ("year", "month", "day")
        if "top" in parts:
            places = ("top", "left", "right") if plain[parts["top"][0]].isalpha() else ("right", "bottom", "top")
        spans = [parts[place] for place in places if place in parts]
        if len(spans) > 1 and any(plain[first].isalpha() for first, _ in spans):
            return min(spans)[0], max(spans)[1], "".join(plain[first:last] for first, last in spans)
    return None


def _mark(plain: str, start: int) -> tuple[int, int, str] | None:
    stop = _MARK_ENDS.search(plain, start, start + _MARK_WITHIN)
    parts = list(_MARK.finditer(plain, start, stop.start() if stop else start + _MARK_WITHIN))[:3]
    letters = [part for part in parts if part.group()[0].isalpha()]
    if (
        not letters
        or parts[0].start() > start + _MARK_BEGINS
        or letters[0] is not parts[0]
        or sum(len(part.group()) for part in parts) < 2
    ):
        return None
    return parts[0].start(), parts[-1].end(), "".join(part.group() for part in parts)
