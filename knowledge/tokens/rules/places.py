"""Postcodes, streets, vehicle plates and places on the globe."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens.context import about_a_machine
from knowledge.tokens.rules.spot import Spot, any_of, bare

_POSTCODE: Final = re.compile(
    r"(?<![^\W_])(?:[A-Z]{1,2}\d[A-Z\d]? \d[A-Z]{2}|[A-Z]{1,2}\d{1,2}[A-Z]? ?\d[A-Z]{2}|[A-Z]\d[A-Z] ?\d[A-Z]\d"
    r"|[DAFILSE]{1,2}-\d{4,5}(?= [A-Z]))(?![^\W_])"
)
_STATE: Final = re.compile(
    r"(?<=[a-z,] )(?:A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|PA|RI|S[CD]|T[NX]|"
    r"UT|V[AT]"
    r"|W[AIVY]) \d{5}(?:-\d{4})?(?!\w)"
)
_BEFORE_A_TOWN: Final = re.compile(
    r"\d{5}-\d{4}(?!\w)|\d{4} ?[A-Z]{2}(?= [A-Z][a-z])|\d{2}-\d{3}(?= [A-Z])|\d{3} \d{2}(?= [A-Z][a-z])"
)
_TOWN: Final = re.compile(r"\d{5} ([A-Z][a-z]{2,}(?:-[A-Za-z]+)*)(?= ?[,.\n(]|$)")
_TOWN_BEFORE: Final = re.compile(r"[A-Z][a-z]{2,}, ?\Z")
_DUTCH: Final = re.compile(r"\d{4} ?[A-Z]{2}(?= ?[,.;\n]|\Z)")
_TWO_CAPITALS: Final = re.compile(r"(?<=[a-z], )[A-Z]{2} \d{5}(?:-\d{4})?(?!\w)")
_RUSSIAN: Final = re.compile(r"\d{6}(?![\w?*#])")
_RUSSIAN_ADDRESS: Final = re.compile(
    rf"(?<![^\W_]){any_of('г гор ул обл пос д пр просп пер пл кв город')}\. "
    r"?[^\W\d_]"
)
_AFTER_A_TOWN: Final = re.compile(r"(?<![^\W_])(?:a|in|en|te|i|w|near|bei|aus|from|b) [A-Z][a-z]{2,20} \Z")
_COUNTRY: Final = re.compile(r"(?<![^\W_])(?:d|a|ch|nl|f|b|pl|s)[ -]\Z")
_AFTER_COUNTRY: Final = re.compile(r"\d{4,5}(?= [A-Z][a-z])")
_PLATE: Final = re.compile(
    r"(?<![^\W_])(?:[A-Z]{2}\d{2} ?[A-Z]{3}|[A-Z]{2}-\d{3}-[A-Z]{2}|[A-Z]{1,3}-[A-Z]{1,2} ?\d{1,4}[EH]?"
    r"|\d{4} [BCDFGHJ-NPR-TV-Z]{3}|[A-Z]{3} \d{2}[A-Z\d]"
    r"|[A-Z]{1,3}-[A-Z]{1,2}-\d{1,4}|[A-Z]{2}-\d{2}-[A-Z]{2}|[A-Z]\d{1,3} [A-Z]{3})(?![^\W_])"
)
_STREET: Final = re.compile(
    r"\d{1,4}[a-z]?,? (?:[a-z']+ ){1,3}(?:street|st|road|rd|lane|avenue|ave|drive|close|court|way|place|terrace|"
    r"square)(?![^\W_])"
)
_STREET_BEFORE: Final = re.compile(r"(?:stra[st]?se|str|straat|gatan|gata|gade|weg|laan|allee|platz|plein)\Z")

place_on_earth = bare(r"\d{1,3}\.\d{3,9}°?,? ?(?:[ns],? ?)?-?\d{1,3}\.\d{3,9}(?!\w)|0[.,]\d{1,9}(?!\w|[.,]\d)")


def postcode(spot: Spot) -> int:
    """'SW1A 1AA', 'Springfield, IL 62704', '1234 AB Utrecht', '50667 Oberdorf'."""
    match = _POSTCODE.match(spot.plain, spot.start) or _STATE.match(spot.plain, max(spot.digit - 3, 0))
    if (
        match is None
        and spot.digit - spot.begin == 3
        and (spot.plain[spot.begin : spot.begin + 2], 5, "") not in spot.names.shapes
    ):
        match = _TWO_CAPITALS.match(spot.plain, spot.begin)
    if match is None and spot.bare:
        match = _in_a_russian_address(spot)
    if match is None and spot.start == spot.digit:
        match = _BEFORE_A_TOWN.match(spot.plain, spot.digit)
        if match is None and _COUNTRY.search(spot.before(4)):
            match = _AFTER_COUNTRY.match(spot.plain, spot.digit)
        if match is None and _TOWN_BEFORE.search(spot.plain, max(spot.digit - 30, spot.floor), spot.digit):
            match = _DUTCH.match(spot.plain, spot.digit)
        if match is None and spot.end - spot.digit == 5 and _stands_by_a_town(spot):
            return spot.end
    return match.end() if match else 0


def _in_a_russian_address(spot: Spot) -> re.Match[str] | None:
    match = _RUSSIAN.match(spot.plain, spot.digit)
    if match and _RUSSIAN_ADDRESS.search(spot.low, max(spot.digit - 40, 0), spot.end + 40):
        return match
    return None


def _stands_by_a_town(spot: Spot) -> bool:
    """Say whether a town may follow (no word of the trade, no maker), or stands before ('in Oberdorf 50667')."""
    if _AFTER_A_TOWN.search(spot.plain[max(spot.digit - 30, spot.floor) : spot.digit]):
        return True
    match = _TOWN.match(spot.plain, spot.digit)
    word = match.group(1).lower() if match else ""
    known = about_a_machine(word) or cues.kind_of(word) or word in spot.names.makers or word in spot.names.models
    return bool(word) and not known


def plate(spot: Spot) -> int:
    """The plate of a vehicle: 'AB12 CDE', 'B-MX 4711', 'AA-123-BB'."""
    for place in range(spot.start, max(spot.floor, spot.start - 6) - 1, -1):
        match = _PLATE.match(spot.plain, place)
        if match and match.end() > spot.digit:
            return match.end()
        if spot.plain[max(spot.start - 1, 0)] not in " -":
            break
    return 0


def street(spot: Spot) -> int:
    """'12 Mill Lane', 'Hauptstr. 117'."""
    if not spot.bare or spot.end - spot.digit > 5:
        return 0
    match = _STREET.match(spot.low, spot.digit)
    if match:
        return match.end()
    return spot.end if _STREET_BEFORE.search(spot.word_before) else 0
