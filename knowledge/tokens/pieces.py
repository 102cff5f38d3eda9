"""Pieces of a folded message while it is being read: what they are, or why they are passed over."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final

from knowledge.tokens.introducers import Introduced
from knowledge.tokens.rules.spot import Spot
from knowledge.tokens.shaping import Shape

_TELEPHONE: Final = re.compile(r"\d(?:[ .\-/()]{0,3}\d){0,14}")
_GROUPED: Final = re.compile(r"\d{1,3}(?:[., ]\d{3}){1,5}(?!\d)|\d{1,40}(?:[ .\-/]\d{1,20}){0,5}")
_COUNTS: Final = re.compile(r"\d{1,4}(?![-./]\d) [A-Za-z]")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of folded text and what it is: a `shape` for a serial, else `because` it is passed over."""

    start: int
    end: int
    shape: Shape | None = None
    introduced: bool = False
    because: str = ""
    number: str = ""
    registers: tuple[str, ...] = ()
    named: bool = False  # words say what it is, not its form


def token(shape: Shape, introduced: bool) -> Piece:
    """Return the piece of a serial token."""
    return Piece(shape.start, shape.end, shape, introduced)


def passed(spot: Spot, end: int, because: str) -> Piece:
    """Return the piece from this spot to `end`, passed over."""
    start = spot.start if end > spot.start else spot.digit
    return Piece(start, max(end, spot.digit + 1), because=because)


def passed_whole(spot: Spot, because: str) -> Piece:
    """Return the piece that words call so, with all groups of digits that follow it in the same number."""
    match = (_TELEPHONE if because == "telephone" else _GROUPED).match(spot.plain, spot.digit)
    piece = passed(spot, max(match.end() if match else 0, _typed_end(spot)), because)
    return replace(piece, named=True)


def digits_at(spot: Spot) -> int:
    """Return how many digits the number there has with all its groups."""
    match = _GROUPED.match(spot.plain, spot.digit)
    return sum(character.isdigit() for character in match.group()) if match else 0


def passed_unread(spot: Spot) -> Piece:
    """Return a piece of which no rule and no word tells what it is."""
    return passed(spot, _typed_end(spot), "count" if _COUNTS.match(spot.plain, spot.begin) else "reference")


def registered(found: Introduced) -> Piece:
    """Return the piece of a number of a patent, a design or a mark."""
    return Piece(found.start, found.end, None, False, "patent", found.number, found.registers, named=True)


def _typed_end(spot: Spot) -> int:
    return spot.start + len(spot.typed.rstrip("?*_#"))
