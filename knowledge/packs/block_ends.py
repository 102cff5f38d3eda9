"""Checks of each block by itself: its first and its last number, and the quantity between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from knowledge.packs import numbers
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.numbers import is_zero_led
from knowledge.packs.tables import Table


def unsound_ends(table: Table, firsts: Sequence[int], lasts: Sequence[int]) -> Iterator[tuple[int, str, str, str]]:
    """Yield row, column, code and text of blocks whose ends do not fit; no code where a cell is no number at all."""
    for index, (first, last, low, high) in enumerate(zip(*table_ends(table), firsts, lasts, strict=True)):
        if len(first) == len(last) and 0 <= low <= high:
            continue
        if low == numbers.NONE or high == numbers.NONE:
            yield index, "", "", ""
        elif wrong := _misfit(first, last, low, high):
            yield index, *wrong


def table_ends(table: Table) -> tuple[list[str], list[str]]:
    """Return the first and the last numbers as they are written."""
    return table.columns["first"], table.columns["last"]


def _misfit(first: str, last: str, low: int, high: int) -> tuple[str, str, str] | None:
    """Return column, code and text when two ends do not make a block."""
    if len(first) < len(last) and is_zero_led(last) and first.zfill(len(last)) <= last:
        text = f"{quoted(first)} in first has fewer digits than {quoted(last)} in last: it lost its zero in front."
        return "first", "lost-zero", f"{text} Write {first.zfill(len(last))}, after a look at the source."
    if len(first) > len(last) and is_zero_led(first) and first <= last.zfill(len(first)):
        text = f"{quoted(last)} in last has fewer digits than {quoted(first)} in first: it lost its zero in front."
        return "last", "lost-zero", f"{text} Write {last.zfill(len(first))}, after a look at the source."
    if low > high:
        text = f"{quoted(first)} in first is above {quoted(last)} in last. Compare both with the source."
        return "first", "first-after-last", text
    if is_zero_led(first):
        text = f"{quoted(first)} in first begins with zero and has {len(first)} digits, "
        text += f"{quoted(last)} in last has {len(last)}."
        return "first", "unequal-digits", f"{text} Give both the digits they are stamped with."
    return None  # a count that passes a power of ten


def check_quantities(table: Table, firsts: Sequence[int], lasts: Sequence[int], faulty: set[int]) -> Iterator[Fault]:
    """Yield stated quantities that are not last - first + 1; not of blocks that are at fault themselves."""
    for index, quantity in enumerate(numbers.values(table.columns["quantity"])):
        if quantity == numbers.NONE or index in faulty:
            continue
        held = lasts[index] - firsts[index] + 1
        if quantity != held:
            text = f"The block holds {held:,} numbers (last - first + 1), but quantity says {quantity:,}."
            text += " A mistake in the list, or a batch not used up: check which."
            yield at(table, index, "quantity", "quantity-differs", text)
