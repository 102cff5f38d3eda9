"""Numbers in cells: what is one, what spoiled it, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Sequence

from knowledge.packs.faults import quoted
from knowledge.packs.tables import LONGEST_NUMBER

NONE = -1
"""Stands for a cell that holds no number."""
_DASHES = r"\-\u2010-\u2015\u2212"
_SPACES = "'’ \u00a0\u2009\u202f"
_EXPONENT = re.compile(r"[0-9]+([.,][0-9]+)?[eE]\+?[0-9]+")
_SIGNED = re.compile(rf"([+{_DASHES}])\s*\d.*")
_GROUPS = re.compile(
    rf"[0-9]{{1,3}}([.,{_SPACES}])[0-9]{{3}}(?:\1[0-9]{{3}})*|[0-9]{{1,3}}(?:[{_DASHES}][0-9]{{3}}){{2,}}"
)
_DECIMAL = re.compile(rf"([0-9](?:[0-9.,{_SPACES}]*[0-9])?)[.,]([0-9]+)")
_SEPARATORS = re.compile(rf"[\s.,'’/_{_DASHES}]+")


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
    if sign := _SIGNED.fullmatch(text):
        below = "no number here is below zero" if sign[1] != "+" else "numbers are written without it"
        return "bad-number", f"{shown} begins with '{sign[1]}', and {below}. Look it up in the source; digits only."
    plain = "".join(str(int(c)) if c.isdecimal() else c for c in text)
    if plain != text:
        return "foreign-digits", f"The digits of {shown} are not 0 to 9. Write {quoted(plain)}."
    if text.isascii() and text.isdigit():
        return "long-number", f"{shown} has {len(text)} digits, and {LONGEST_NUMBER} are the most. Check the number."
    bare = _SEPARATORS.sub("", text)
    if bare != text and bare.isascii() and bare.isdigit():
        return _with_marks(text, bare)
    return "bad-number", f"{shown} is no number. Write digits only; letters belong into a column of their own."


def _with_marks(text: str, bare: str) -> tuple[str, str]:
    """Say what to make of digits with points, commas, spaces or dashes in them; only what is plain is joined."""
    shown = quoted(text)
    if _GROUPS.fullmatch(text) or text.rstrip(".,") == bare:
        return "number-separators", f"{shown} has separators inside. Write {bare}."
    decimal = _DECIMAL.fullmatch(text)
    if decimal and (decimal[1].isdigit() or _GROUPS.fullmatch(decimal[1])):
        if decimal[2].strip("0"):
            return "bad-number", f"{shown} is no whole number. Look it up in the source; write digits only."
        whole = _SEPARATORS.sub("", decimal[1])
        made = f"{shown}: a spreadsheet made a decimal number of it. Write {whole}, with the zeros it had in front."
        return "spreadsheet-number", made
    return "number-separators", (
        f"{shown} has separators inside. If it is one number, write {bare}; if it is two numbers or a date, each "
        "belongs into a cell of its own."
    )
