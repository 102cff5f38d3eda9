"""Numbers of books, standards, accounts, parcels and the like, known by their form."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens.rules.spot import Spot, bare

_ACCOUNT: Final = re.compile(r"[A-Z]{2}\d{2}(?:(?: [A-Z0-9]{4}){3,7}(?: [A-Z0-9]{1,3})?|[A-Z0-9]{11,30})(?![^\W_])")
_LONG: Final = re.compile(r"\d(?:[ -]?\d){12,40}(?!\d)")
_PARCEL: Final = re.compile(r"[A-Z]{2} ?\d{3} ?\d{3} ?\d{3} ?[A-Z]{2}(?![^\W_])|0034\d{16}(?!\d)")
_STANDARD: Final = re.compile(
    r"(?:DIN|ISO|EN|IEC|BS|VDE|UL|ANSI|RAL|GOST|NF|RFC|SAE)(?:[ /-](?:EN|ISO|IEC)){0,2}[ "
    r"-]?\d{2,6}(?:[-:.]\d{1,4}){0,4}(?![^\W_])"
)
_COLOUR: Final = re.compile(
    r"hex|colou?r|farb|couleur|rgb|kleur|kolor|farg|heading|headline|background|backdrop|border|css|html|\bfont|\btext|"
    r"banner|header|footer|shade|palette|theme|stylesheet|button|überschrift|uberschrift|hintergrund|schrift|rahmen|"
    r"fond\b|titre|tlo\b|sfondo|fondo|bakgrund|achtergrond|\d ?(?:pt|px)\b|nice green|nice blue|nice red"
)
_HEX: Final = re.compile(r"#?[0-9a-f]{6}")

book_number = bare(r"97[89][- ]?\d[\d -]{8,14}\d(?!\d)|\d-\d{3,5}-\d{3,5}-[\dx](?!\w)")
computer_address = bare(r"\d{1,3}\.\d{1,3}\.\d{1,3}\.\d{1,3}(?!\d)")
catalogued = bare(r"10\.\d{4,9}/\S{1,60}|(?:1[89]|20)\d\d\.\d{1,4}\.\d{1,4}(?!\w)|\d{2,7}-\d{2}-\d(?![\w-])")
"""The number of a paper (10.1000/182), of a museum (1985.204.117), of a substance (64742-47-8)."""
tax_number = bare(r"\d{2,3}/\d{3}/\d{5}(?![\w/])")
"""The number under which a German tax office keeps somebody (from memory)."""
version = bare(r"(?!\d{1,3}\.\d{3}\.\d{3}(?!\d))\d{1,2}\.\d{1,2}\.\d{1,3}(?:\.\d{1,3})?(?!\w)")


def parcel(spot: Spot) -> int:
    """The international number of a letter or parcel: two letters, nine digits, two letters of the country."""
    match = _PARCEL.match(spot.plain, spot.begin)
    return match.end() if match else 0


def account_or_card(spot: Spot) -> int:
    """An account (IBAN) or thirteen digits and more; one piece after the word for a serial is left to it."""
    match = _ACCOUNT.match(spot.plain, spot.start) or _LONG.match(spot.plain, spot.digit)
    if match and spot.lead.kind == "order-number" and spot.lead.near:
        return 0
    if match and spot.lead.kind == cues.SERIAL and " " not in match.group():
        return 0
    return match.end() if match else 0


def standard(spot: Spot) -> int:
    """The number of a standard ('EN 60335-2-28') or of a colour on a standard card ('RAL 9005')."""
    for place in range(max(spot.digit - 12, spot.floor), spot.digit):
        match = _STANDARD.match(spot.plain, place)
        if match and match.end() > spot.digit and not (place and spot.plain[place - 1].isalnum()):
            return match.end()
    return 0


def colour(spot: Spot) -> int:
    """A colour of a screen ('#204117') where colours are spoken of."""
    signed = spot.plain[max(spot.digit - 1, 0) : spot.digit] == "#" or spot.typed.startswith("#")
    if not (signed and _HEX.fullmatch(spot.typed.lower())):
        return 0
    return spot.end if _COLOUR.search(spot.low, max(spot.start - 60, 0), spot.end + 60) else 0
