"""Numbers of no common shape: codes with letters between digits, and whatever follows the word for a serial number."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens import words as lists
from knowledge.tokens.cues import kind_of
from knowledge.tokens.rules import amounts, dates
from knowledge.tokens.rules.spot import Spot
from knowledge.tokens.shaping import LONGEST, NO_PREFIX, Shape, matches_code

_MIXED: Final = re.compile(r"[A-Za-z0-9]{1,40}(?:-[A-Za-z0-9]{1,20}){0,4}")
_PARTS: Final = re.compile(r"([A-Z]*)(\d+)([A-Z0-9]*)")
_LETTERS_INSIDE: Final = re.compile(r"\d[A-Z]+\d")
_ONLY_LOOK_ALIKES: Final = re.compile(r"[A-Z]*[0-9OQDILZSGB]+[A-Z]{0,2}")
_LETTERS_BEFORE: Final = re.compile(r"(?<![^\W_])(?<![\w.]-)([A-Z]{1,4}) ?[ .\-/] ?\Z")
_DIGITS: Final = re.compile(r"[A-Z]{0,3}\d{1,12}(?:[A-Z]{1,3}(?:\d{1,8}[A-Z]?)?)?(?![^\W_]|[?*_#])")
_NEXT: Final = re.compile(
    r"(?P<gap>[ .]|[-/]| / )(?P<part>[A-Z]{1,3}(?=[ \-/.]\d)|[A-Z]{0,3}\d{1,8}[A-Z]{0,2}|(?<=[-/])[A-Z]{1,2}"
    r"|(?<=\d )[A-Z]{2}(?= ?[,.;)\n]|\Z))(?![^\W_]|[?*_#])"
)
_ROUND_NUMBER: Final = re.compile(r"(?:1[5-9]|20)\d\d")
_IN_THREES: Final = re.compile(r"\d{1,3}(?: \d{3}){2,3}(?![^\W_]| ?[?*_#])")
_STRONG: Final = 5  # digits of a number of known shape that needs no more


def mixed_code(spot: Spot, cued: bool) -> Shape | None:
    """Read a code of letters and digits in one piece that no plain serial has, such as AB12C345.

    It must match a date code, or, when a word introduces it, have letters between digits that are no look-alikes.
    """
    match = _MIXED.match(spot.plain, spot.start)
    serial = match.group().replace("-", "").upper() if match else ""
    if match is None or match.end() <= spot.digit:
        return None
    mixed = _LETTERS_INSIDE.search(serial) and not _ONLY_LOOK_ALIKES.fullmatch(serial)
    if not (matches_code(serial, spot.names) or (cued and mixed and len(serial) > 4)):
        return None
    return _shape(spot.start, match.end(), serial)


def whole_code(spot: Spot, known: Shape | None) -> Shape | None:
    """Read all that follows the word for a serial number as one number, though no register knows its shape.

    `known` is the best plain reading; the whole is returned only where it goes further: 'serial AKT 61390',
    'S/N 77/E/5031', 'serial no. 27 B 4418'. Years, measures and counted things end it.
    """
    begin = code_begin(spot.plain, spot.start, spot.floor)
    first = _DIGITS.match(spot.plain, spot.start) or _DIGITS.match(spot.plain, spot.digit)
    if first is None or first.end() <= spot.digit:
        return None
    end = first.end()
    if not _is_enough(spot, known, begin):
        end = _end(spot, end)
    if known is not None and known.start <= begin and known.end >= end:
        return None
    serial = re.sub(r"[^A-Z0-9]", "", spot.plain[begin:end])
    return _shape(begin, end, serial) if len(serial) <= LONGEST else None


def code_begin(plain: str, start: int, floor: int) -> int:
    """Return where capitals begin that stand before a number and are no word: 'AKT 61390'."""
    place = start
    for _ in range(2):
        match = _LETTERS_BEFORE.search(plain, max(floor, place - 7), place)
        word = match.group(1).lower() if match else ""
        if match is None or word in NO_PREFIX or kind_of(word) or word in lists.PLEASANTRIES:
            break
        place = match.start(1)
    return place


def _is_enough(spot: Spot, known: Shape | None, begin: int) -> bool:
    if known is None or known.start > begin or not known.known_to(spot.names):
        return False
    whole = _IN_THREES.match(spot.plain, spot.digit) if spot.bare else None
    if whole is not None and known.end < whole.end():
        return False
    return len(known.digits) + 2 * len(known.prefix) >= _STRONG


def _end(spot: Spot, end: int) -> int:
    while match := _NEXT.match(spot.plain, end):
        part = match["part"]
        if match["gap"] == " " and (_ROUND_NUMBER.fullmatch(part) or not _goes_on(spot, match.start("part"))):
            break
        end = match.end()
    return end


def _goes_on(spot: Spot, place: int) -> bool:
    """Say whether a part of a number stands there, and not a measure or a count of things."""
    here = Spot(spot.plain, spot.low, place, place, place, place + 1, spot.lead, spot.names, place)
    return not any(
        rule(here)
        for rule in (amounts.measure, amounts.price_with_sign, amounts.count_of_things, dates.date, dates.short_date)
    ) and not _OF_THINGS.match(spot.low, place)


_OF_THINGS: Final = re.compile(
    r"\d{1,4} ?-?(?:[vawhm]|hz|kg|(?!(?:sous|dans|sans|des|les|las|los|das|aus|was|this|its|plus|yes|thanks)\b)"
    r"[a-z]{3,}s)(?![^\W_])"
)


def _shape(start: int, end: int, serial: str) -> Shape | None:
    parts = _PARTS.match(serial)
    return Shape(start, end, parts[1], parts[2], parts[3]) if parts else None
