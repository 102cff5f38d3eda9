"""Blocks whose two ends do not have the same number of digits, where the blocks around them show that they must.

A count may pass a power of ten inside a block. But where the blocks issued before and after have one number of digits,
share numbers with it, and one digit more or less would make it fit between them, that digit is a slip.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import accumulate, combinations

from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.tables import Table

_MOST_TOO_MANY = 2  # digits; one too few, for any digit may be the one that is missing


def odd_widths(
    table: Table, issued: Sequence[int], firsts: Sequence[int], lasts: Sequence[int]
) -> Iterator[tuple[int, Fault]]:
    """Yield the rows of one series that are at fault, with the fault. `issued` are its sound rows in order of issue."""
    starts, ends = table.columns["first"], table.columns["last"]
    places = [place for place, index in enumerate(issued) if len(starts[index]) != len(ends[index])]
    held: dict[int, _Held] = {}
    for place in places:
        index = issued[place]
        beside = {
            width
            for neighbour in (issued[max(place - 1, 0)], issued[min(place + 1, len(issued) - 1)])
            if neighbour != index
            for width in (len(starts[neighbour]), len(ends[neighbour]))
        }
        if len(beside) != 1:
            continue
        width = beside.pop()
        if width not in held:
            same = (one for one in issued if len(starts[one]) == len(ends[one]) == width)
            held[width] = _Held((firsts[one], lasts[one]) for one in same)
        meant = _meant(starts[index], ends[index], width, held[width])
        if meant:
            yield index, _fault(table, index, width, meant)


def _meant(first: str, last: str, width: int, held: _Held) -> tuple[str, list[str]] | None:
    """Return the end that has a slip and what may be meant by it, best what joins the next block; None without slip."""
    most = {len(first): _MOST_TOO_MANY, len(last): 1}
    if len(last) - len(first) > most.get(width, 0):
        return None
    low, high = max(int(first), 10 ** (width - 1)), min(int(last), 10**width - 1)
    if not held.touches(low, high):
        return None
    if width == len(first):
        shorter = {"".join(kept) for kept in combinations(last, width)}
        fitting = [one for one in sorted(shorter) if first <= one and not held.touches(int(first), int(one))]
        joining = [one for one in fitting if held.touches(int(one) + 1, int(one) + 1)]
        return ("last", joining or fitting) if fitting else None
    longer = {first[:at] + digit + first[at:] for at in range(width) for digit in "0123456789"}
    fitting = [one for one in sorted(longer) if one[0] != "0" and one <= last and not held.touches(int(one), int(last))]
    joining = [one for one in fitting if held.touches(int(one) - 1, int(one) - 1)]
    return ("first", joining or fitting) if fitting else None


def _fault(table: Table, index: int, width: int, meant: tuple[str, list[str]]) -> Fault:
    column, fitting = meant
    first, last = table.columns["first"][index], table.columns["last"][index]
    told = f"{quoted(first)} in first has {len(first)} digits and {quoted(last)} in last has {len(last)}, but the "
    told += f"blocks issued before and after have {width}, and share numbers with it."
    hint = f" {fitting[0]} would fit." if len(fitting) == 1 else ""
    return at(table, index, column, "unequal-digits", f"{told}{hint} Compare both with the source.")


class _Held:
    """The numbers some blocks hold, asked whether a block shares any of them."""

    def __init__(self, blocks: Iterator[tuple[int, int]]) -> None:
        ordered = sorted(blocks)
        self._firsts = [first for first, _ in ordered]
        self._reach = list(accumulate((last for _, last in ordered), max))

    def touches(self, first: int, last: int) -> bool:
        place = bisect_right(self._firsts, last)
        return place > 0 and self._reach[place - 1] >= first
