"""Checks of allocated blocks: each by itself, then those of one prefix beside each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from knowledge.packs import numbers
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.lost_zeros import lost, lost_among_neighbours, perhaps_lost
from knowledge.packs.numbers import is_zero_led
from knowledge.packs.tables import Table
from knowledge.packs.times import in_issue_order, series_of

_SAYS = ("date", "model", "works", "quantity", "source")


class Piece(NamedTuple):
    """The numbers of a block that have one number of digits; a count past a power of ten is several pieces."""

    width: int
    first: int
    last: int
    row: int

    @property
    def is_zero_led(self) -> bool:
        """Whether its numbers begin with a zero; that is the case for all of them or for none to speak of."""
        return self.width > 1 and self.first < 10 ** (self.width - 1)


def check_blocks(table: Table) -> Iterator[Fault]:
    """Yield the faults of the numbers in `allocations`: ends, quantities, lost zeros, overlaps and gaps."""
    firsts, lasts = numbers.values(table.columns["first"]), numbers.values(table.columns["last"])
    faulty: set[int] = set()
    for index, column, code, text in _ends(table, firsts, lasts):
        faulty.add(index)
        if code:
            yield at(table, index, column, code, text)
    yield from _quantities(table, firsts, lasts, faulty)
    orders = numbers.values(table.columns["order"])
    for series in series_of(table, "register", "prefix", "suffix").values():
        sound = [index for index in series if index not in faulty] if faulty else series
        if _run_on(table, sound, firsts, lasts):
            continue
        issued = in_issue_order(sound, orders)
        widths = lost_among_neighbours(table, issued, firsts, lasts)
        yield from (lost(table, index, width) for index, width in widths.items())
        yield from perhaps_lost(table, [index for index in issued if index not in widths])
        places = {index: place for place, index in enumerate(issued)}
        yield from _beside_each_other(table, _pieces(table, sound, firsts, lasts, widths), places)


def _ends(table: Table, firsts: Sequence[int], lasts: Sequence[int]) -> Iterator[tuple[int, str, str, str]]:
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


def _quantities(table: Table, firsts: Sequence[int], lasts: Sequence[int], faulty: set[int]) -> Iterator[Fault]:
    for index, quantity in enumerate(numbers.values(table.columns["quantity"])):
        if quantity == numbers.NONE or index in faulty:
            continue
        held = lasts[index] - firsts[index] + 1
        if quantity != held:
            text = f"The block holds {held:,} numbers (last - first + 1), but quantity says {quantity:,}."
            text += " A mistake in the list, or a batch not used up: check which."
            yield at(table, index, "quantity", "quantity-differs", text)


def _run_on(table: Table, series: Sequence[int], firsts: Sequence[int], lasts: Sequence[int]) -> bool:
    """Tell whether blocks of one width follow each other without a gap: as usual. Then nothing is left to check."""
    written = (column[index] for column in table_ends(table) for index in series)
    if len(set(map(len, written))) != 1:
        return False
    ordered = sorted(zip(map(firsts.__getitem__, series), map(lasts.__getitem__, series), strict=True))
    return all(before + 1 == first for (_, before), (first, _) in pairwise(ordered))


def _pieces(
    table: Table, series: Sequence[int], firsts: Sequence[int], lasts: Sequence[int], lost: Mapping[int, int]
) -> list[Piece]:
    """Return the pieces of some blocks, sorted by number of digits, then by number; lost zeros are put back."""
    pieces = []
    for index in series:
        width, last_width = len(table.columns["first"][index]), len(table.columns["last"][index])
        if width == last_width or index in lost:
            pieces.append(Piece(lost.get(index, width), firsts[index], lasts[index], index))
            continue
        for digits in range(width, last_width + 1):
            first = max(firsts[index], 10 ** (digits - 1) if digits > width else 0)
            pieces.append(Piece(digits, first, min(lasts[index], 10**digits - 1), index))
    pieces.sort()
    return pieces


def _beside_each_other(table: Table, pieces: Sequence[Piece], places: dict[int, int]) -> Iterator[Fault]:
    """Yield overlaps and gaps. `places` gives the place of each row in the order of issue."""
    plain = [piece for piece in pieces if not piece.is_zero_led]
    yield from _widening_gaps(table, plain)
    if not pieces:
        return
    told: set[tuple[int, int]] = set()
    top = pieces[0]
    for piece in pieces[1:]:
        if piece.width != top.width:
            top = piece
            continue
        if piece.first <= top.last:
            pair = (min(top.row, piece.row), max(top.row, piece.row))
            if pair not in told:
                told.add(pair)
                yield _overlap(table, *pair)
        elif piece.first > top.last + 1 and not _series_ended(top, piece, places):
            yield _gap(table, top, piece)
        if piece.last > top.last:
            top = piece


def _series_ended(top: Piece, piece: Piece, places: dict[int, int]) -> bool:
    """The numbers that begin with zero were issued last, so they may end anywhere before the others of their width."""
    return top.is_zero_led and not piece.is_zero_led and places[piece.row] < places[top.row]


def _widening_gaps(table: Table, plain: Sequence[Piece]) -> Iterator[Fault]:
    """Yield gaps where a count goes on with one digit more, as from 999999 to 1000000."""
    for before, piece in pairwise(plain):
        if piece.width > before.width and piece.first > before.last + 1:
            yield _gap(table, before, piece)


def _overlap(table: Table, earlier: int, later: int) -> Fault:
    row = table.row_numbers[earlier]
    firsts, lasts = table_ends(table)
    same_block = (firsts[earlier], lasts[earlier]) == (firsts[later], lasts[later])
    if same_block and all(table.columns[name][earlier] == table.columns[name][later] for name in _SAYS):
        return at(table, later, None, "double-row", f"The block stands in row {row} already. Delete one of the two.")
    ours, theirs = f"{firsts[later]} to {lasts[later]}", f"{firsts[earlier]} to {lasts[earlier]}"
    text = f"The block {ours} shares numbers with row {row}, {theirs}."
    return at(table, later, "first", "overlap", f"{text} Both will be shown; check them in the source.")


def _gap(table: Table, before: Piece, piece: Piece) -> Fault:
    first = str(before.last + 1).zfill(before.width)
    last = str(piece.first - 1).zfill(before.width)
    missing = f"the number {first} is" if first == last else f"the numbers {first} to {last} are"
    text = f"Between this block and row {table.row_numbers[before.row]}, {missing} in no block. Check the source."
    return at(table, piece.row, "first", "gap", text)
