"""Numbers that lost their leading zero, found by the blocks around them.

A spreadsheet turns 0225001 into 225001. Where the block issued just before ends at 0225000, the six digits are no
number of another series but the same count without its zero.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, pairwise

from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.numbers import is_zero_led
from knowledge.packs.tables import Table
from knowledge.packs.times import Days


def lost_among_neighbours(
    table: Table, issued: Sequence[int], firsts: Sequence[int], lasts: Sequence[int]
) -> dict[int, int]:
    """Return the blocks of one prefix and suffix that lost a zero, each with the digits it should have.

    `issued` are the rows in order of issue, `firsts` and `lasts` the values of all rows of the table.
    """
    written = table.columns["first"]
    if len(set(map(len, map(written.__getitem__, issued)))) < 2:
        return {}
    return _joined(table, issued, firsts, lasts) if any(is_zero_led(written[index]) for index in issued) else {}


def lost(table: Table, index: int, width: int) -> Fault:
    """Tell a row that lost its zero."""
    first, last = table.columns["first"][index], table.columns["last"][index]
    text = (
        f"{quoted(first)} to {quoted(last)} goes on where a block of {width} digits stops: the zero in front is lost."
    )
    right = f" Write {first.zfill(width)} and {last.zfill(width)}, after a look at the source."
    return at(table, index, "first", "lost-zero", text + right)


def _joined(table: Table, issued: Sequence[int], firsts: Sequence[int], lasts: Sequence[int]) -> dict[int, int]:
    """Return the rows that join a zero-led block at its end or its start, with the digits they should have."""
    written, ends = table.columns["first"], table.columns["last"]
    widths = {index: len(written[index]) for index in issued if is_zero_led(written[index])}
    held = _Held((widths[index], firsts[index], lasts[index]) for index in widths)
    ending = {(len(ends[index]), lasts[index]): index for index in issued}
    starting = {(len(written[index]), firsts[index]): index for index in issued}
    found: dict[int, int] = {}

    def may_join(index: int, width: int, neighbour: int | None) -> bool:
        """Whether the padded block is free, and the block has no neighbour among the numbers as they are written."""
        plain_and_short = not is_zero_led(written[index]) and len(written[index]) < width
        return plain_and_short and (neighbour is None or neighbour in found) and (width, firsts[index]) not in held

    for before, index in pairwise(issued):
        width = widths.get(before, 0)
        neighbour = ending.get((len(written[index]), firsts[index] - 1))
        if lasts[before] + 1 == firsts[index] and may_join(index, width, neighbour):
            widths[index] = found[index] = width
    for after, index in pairwise(reversed(issued)):
        width = widths.get(after, 0)
        neighbour = starting.get((len(ends[index]), lasts[index] + 1))
        if lasts[index] + 1 == firsts[after] and may_join(index, width, neighbour):
            widths[index] = found[index] = width
    return found


class _Held:
    """The numbers that some blocks hold, asked by number of digits and value."""

    def __init__(self, blocks: Iterable[tuple[int, int, int]]) -> None:
        ordered = sorted(blocks)
        self._starts = [(width, first) for width, first, _ in ordered]
        self._reach = list(accumulate(((width, last) for width, _, last in ordered), max))

    def __contains__(self, number: tuple[int, int]) -> bool:
        place = bisect_right(self._starts, number)
        return place > 0 and self._reach[place - 1] >= number


def perhaps_lost(table: Table, issued: Sequence[int]) -> Iterator[Fault]:
    """Yield rows where the digits become fewer in order of issue though the dates go on."""
    written = table.columns["first"]
    days = Days([table.columns["date"][index] for index in issued])
    for place, (before, index) in enumerate(pairwise(issued), 1):
        width, fewer = len(written[before]), len(written[index]) < len(written[before])
        if fewer and not is_zero_led(written[index]) and days.earliest[place] >= days.latest[place - 1]:
            text = (
                f"{quoted(written[index])} has {len(written[index])} digits, but the block issued before it, row "
                f"{table.row_numbers[before]}, has {width}. If a zero is stamped in front, write "
                f"{written[index].zfill(width)} here and in the rows that go on from it."
            )
            yield at(table, index, "first", "perhaps-lost-zero", text)
