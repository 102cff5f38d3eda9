"""Telephone numbers by their form; words such as 'Tel.' before them are cues."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens.rules.spot import Spot, attached

_INTERNATIONAL: Final = re.compile(r"[ (]{0,2}\d(?:[ .\-/()]{0,3}\d){3,17}(?: ?(?:ext|x|dw)\.? ?\d{1,6})?")
_NATIONAL: Final = re.compile(
    r"\(?0\d{1,5}\)?[ \-/.]{0,3}\d{2,8}(?:[ .\-/]\d{2,8}){0,4}(?!\w)"
    r"|\d{3}[-. ]\d{3}[-. ]\d{4}(?!\w)|\d{3}\)[-. ]?\d{3}[-. ]\d{4}(?!\w)|1-\d{3}-\d{3}-\d{4}(?!\w)"
    r"|[78][ -]?\(?\d{3}\)?[ -]\d{3}[ -]\d{2}[ -]?\d{2}(?!\w)|\d{3}[ -]\d{2}[ -]\d{2}[ -]\d{2}(?!\w)"
)
_GROUPS: Final = re.compile(
    r"\d{1,4}(?:[ \-.]{1,3}\(?\d{1,5}\)?){1,5}[ \-.]{1,2}\d{2,7}(?!\w)|\d{3,4}[ -]\d{5,7}(?!\w)"
)
_AREA: Final = re.compile(r"\d[\d \-]{1,5}\)[ \-]?\d(?:[ \-]?\d){4,8}(?!\w)")
_YEAR_FIRST: Final = re.compile(r"(?:1[5-9]|20)\d\d[ )-]")


def telephone_abroad(spot: Spot) -> int:
    """'+44 1632 960123', whatever stands before it."""
    if not spot.before(4).rstrip(" (").endswith("+"):
        return 0
    match = _INTERNATIONAL.match(spot.low, spot.digit)
    return match.end() if match else 0


telephone_with_double_zero = attached(
    r"00[ -]?[1-9]\d{0,2}[ \-/()]{1,3}\d(?:[ .\-/()]{0,3}\d){5,13}(?!\w)|"
    r"00[1-9]\d{9,13}(?!\w)"
)


def telephone_by_grouping(spot: Spot) -> int:
    """Nine to thirteen digits in short groups, or an area code in brackets; not after the word for a serial."""
    if not spot.bare or (spot.lead.near and spot.lead.kind in (cues.SERIAL, "reference")):
        return 0
    bracketed = spot.plain[spot.digit - 1 : spot.digit] == "("
    patterns = [_NATIONAL, _AREA if bracketed else _GROUPS]
    if _YEAR_FIRST.match(spot.low, spot.digit):  # '1900 123456' may be a year and a serial
        patterns.pop()
    matches = (pattern.match(spot.low, spot.digit) for pattern in patterns)
    return max((match.end() for match in matches if match and _is_long_enough(match)), default=0)


def _is_long_enough(match: re.Match[str]) -> bool:
    return 9 <= sum(character.isdigit() for character in match.group()) <= 13
