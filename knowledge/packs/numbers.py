"""Numbers in cells: what is one, what spoiled it, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Sequence

from knowledge.packs.faults import quoted
from knowledge.packs.tables import LONGEST_NUMBER

NONE = -1
"""Stands for a cell that holds no number."""
_EXPONENT = re.compile(r"[0-9]+([.,][0-9]+)?[eE]\+?[0-9]+")
_DECIMAL = re.compile(r"([0-9]+)[.,]0+")
_GROUPS = re.compile(r"[0-9]{1,3}([.,'’ \u00a0\u2009\u202f][0-9]{3})+")
_SEPARATORS = re.compile(r"[\s.,'’/_\-\u2010-\u2015]+")


def is_number(text: str) -> bool:
    """Tell whether a cell holds ASCII digits and nothing else, at most LONGEST_NUMBER of them."""
    return text.isascii() and text.isdigit() and len(text) <= LONGEST_NUMBER


def is_zero_led(number: str) -> bool:
    """Tell whether a number begins with a zero that was stamped on purpose; '0' alone is a number like others."""
    return number.startswith("0") and len(number) > 1


def are_numbers(cells: Sequence[str]) -> bool:
    """Tell whether every cell that is not empty holds a number; quickly, for a column has a million of them."""
    joined = "".join(cells)
    return joined.isascii() and joined.isdigit() and max(map(len, cells)) <= LONGEST_NUMBER


def values(cells: Sequence[str]) -> list[int]:
    """Return the value of each cell, NONE where it holds no number."""
    if are_numbers(cells) and "" not in cells:
        return list(map(int, cells))
    return [int(cell) if is_number(cell) else NONE for cell in cells]


def what_is_wrong(text: str) -> tuple[str, str]:
    """Return the code of the fault and a sentence for a cell that holds no number.

    >>> what_is_wrong("204,117")
    ('number-separators', "'204,117' has separators inside. Write 204117.")
    """
    shown = quoted(text)
    if _EXPONENT.fullmatch(text):
        return "spreadsheet-number", (
            f"{shown}: a spreadsheet shortened the number, and digits are lost. Copy it again from the source, with "
            "the column set to text."
        )
    plain = "".join(str(int(c)) if c.isdecimal() else c for c in text)
    if plain != text:
        return "foreign-digits", f"The digits of {shown} are not 0 to 9. Write {quoted(plain)}."
    decimal = _DECIMAL.fullmatch(text)
    if decimal and not _GROUPS.fullmatch(text):
        return "spreadsheet-number", (
            f"{shown}: a spreadsheet made a decimal number of it. Write {decimal[1]}, with the zeros it had in front."
        )
    bare = _SEPARATORS.sub("", text)
    if bare != text and bare.isascii() and bare.isdigit():
        return "number-separators", f"{shown} has separators inside. Write {bare}."
    if text.isascii() and text.isdigit():
        return "long-number", f"{shown} has {len(text)} digits, and {LONGEST_NUMBER} are the most. Check the number."
    return "bad-number", f"{shown} is no number. Write digits only; letters belong into a column of their own."
