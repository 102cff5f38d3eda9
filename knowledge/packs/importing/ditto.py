"""Marks that mean 'the same as above', and blanks that may mean it."""

from __future__ import annotations

import re

from knowledge.names import fold

_WORDS = frozenset(
    "do|do.|ditto|dto|dto.|dito|dito.|idem|idem.|id.|ebd|ebd.|ebenda|desgl|desgl.|dsgl.|wie oben|wie vor|as above"
    "|as before|same|same as above|comme ci-dessus|jw|jw.|j.w.|j. w.|то же|-//-|//".split("|")
)
_LONGEST = max(map(len, _WORDS))
# One or two quote marks of any shape, also with dashes beside them: ", '', 〃, -"-.
_MARK = re.compile(r"[-–—]?\s*(?:[\"”“„″〃'’]{1,2})\s*[-–—]?")


def is_ditto(text: str) -> bool:
    """Tell whether a cell says 'the same as above'.

    >>> [is_ditto(text) for text in ("do.", '"', "〃", '-"-', "''", "1912", "")]
    [True, True, True, True, True, False, False]
    """
    if not text or len(text) > _LONGEST or text[0].isdecimal():
        return False
    return fold(text) in _WORDS or _MARK.fullmatch(text) is not None


def fill_dittos(cells: list[str]) -> tuple[list[str], int, list[int]]:
    """Put the value above in the place of each mark.

    Return the cells, how many were filled, and the places (from 0) of marks that have nothing above them.
    """
    filled, count, lost, above = [], 0, [], ""
    for place, cell in enumerate(cells):
        if not is_ditto(cell):
            above = cell or above
        elif above:
            cell, count = above, count + 1
        else:
            lost.append(place)
        filled.append(cell)
    return filled, count, lost


def fill_blanks(cells: list[str]) -> list[str]:
    """Put the value above in the place of each blank."""
    filled: list[str] = []
    for cell in cells:
        filled.append(cell or (filled[-1] if filled else ""))
    return filled


def blanks_below(cells: list[str]) -> int:
    """Count the blanks that have a value somewhere above them."""
    return sum(not cell for cell in cells[_first_value(cells) :])


def first_blank_below(cells: list[str]) -> int:
    """Return the place of the first such blank. Raises ValueError when there is none."""
    return cells.index("", _first_value(cells))


def _first_value(cells: list[str]) -> int:
    return next((place for place, cell in enumerate(cells) if cell), len(cells))
