"""Checks of allocated blocks: each by itself, then those of one prefix beside each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from knowledge.packs import numbers
from knowledge.packs.block_ends import check_quantities, table_ends, unsound_ends
from knowledge.packs.faults import Fault, at
from knowledge.packs.left_out import LeftOut, Strays
from knowledge.packs.lost_zeros import lost, lost_among_neighbours, perhaps_lost
from knowledge.packs.odd_widths import odd_widths
from knowledge.packs.tables import Pack, Table
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


def check_blocks(pack: Pack) -> Iterator[Fault]:
    """Yield the faults of the numbers in `allocations`: ends, quantities, lost zeros, overlaps and gaps."""
    table = pack.tables["allocations"]
    firsts, lasts = numbers.values(table.columns["first"]), numbers.values(table.columns["last"])
    faulty: set[int] = set()
    for index, column, code, text in unsound_ends(table, firsts, lasts):
        faulty.add(index)
        if code:
            yield at(table, index, column, code, text)
    orders = numbers.values(table.columns["order"])
    strays = Strays(pack)
    for key, series in series_of(table, "register", "prefix", "suffix").items():
        sound = [index for index in series if index not in faulty] if faulty else series
        if _run_on(table, sound, firsts, lasts):
            continue
        issued = in_issue_order(sound, orders)
        for index, fault in odd_widths(table, issued, firsts, lasts):
            faulty.add(index)
            yield fault
        if faulty:
            sound, issued = ([index for index in rows if index not in faulty] for rows in (sound, issued))
        widths = lost_among_neighbours(table, issued, firsts, lasts)
        yield from (lost(table, index, width) for index, width in widths.items())
        yield from perhaps_lost(table, [index for index in issued if index not in widths])
        places = {index: place for place, index in enumerate(issued)}
        others = LeftOut([*faulty.intersection(series), *strays.beside(key)], firsts, lasts, strays.unplaced)
        gaps = None if strays.holds(key) else others
        yield from _beside_each_other(table, _pieces(table, sound, firsts, lasts, widths), places, gaps)
    yield from check_quantities(table, firsts, lasts, faulty)


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


def _beside_each_other(
    table: Table, pieces: Sequence[Piece], places: dict[int, int], left_out: LeftOut | None
) -> Iterator[Fault]:
    """Yield overlaps and gaps. `places` gives the place of each row in the order of issue.

    `left_out` are the rows that may fill a gap; None where nothing can be said of gaps.
    """
    plain = [piece for piece in pieces if not piece.is_zero_led]
    yield from _widening_gaps(table, plain, left_out)
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
            yield from _gap(table, top, piece, left_out)
        if piece.last > top.last:
            top = piece


def _series_ended(top: Piece, piece: Piece, places: dict[int, int]) -> bool:
    """The numbers that begin with zero were issued last, so they may end anywhere before the others of their width."""
    return top.is_zero_led and not piece.is_zero_led and places[piece.row] < places[top.row]


def _widening_gaps(table: Table, plain: Sequence[Piece], left_out: LeftOut | None) -> Iterator[Fault]:
    """Yield gaps where a count goes on with one digit more, as from 999999 to 1000000."""
    for before, piece in pairwise(plain):
        if piece.width > before.width and piece.first > before.last + 1:
            yield from _gap(table, before, piece, left_out)


def _overlap(table: Table, earlier: int, later: int) -> Fault:
    row = table.row_numbers[earlier]
    firsts, lasts = table_ends(table)
    same_block = (firsts[earlier], lasts[earlier]) == (firsts[later], lasts[later])
    if same_block and all(table.columns[name][earlier] == table.columns[name][later] for name in _SAYS):
        return at(table, later, None, "double-row", f"The block stands in row {row} already. Delete one of the two.")
    ours, theirs = f"{firsts[later]} to {lasts[later]}", f"{firsts[earlier]} to {lasts[earlier]}"
    text = f"The block {ours} shares numbers with row {row}, {theirs}."
    return at(table, later, "first", "overlap", f"{text} Both will be shown; check them in the source.")


def _gap(table: Table, before: Piece, piece: Piece, left_out: LeftOut | None) -> Iterator[Fault]:
    """Yield the gap between two pieces, unless a row that was left out may fill it: then that row is told."""
    if left_out is None or left_out.may_fill(before.last + 1, piece.first - 1, (before.row, piece.row)):
        return
    first = str(before.last + 1).zfill(before.width)
    last = str(piece.first - 1).zfill(before.width)
    missing = f"the number {first} is" if first == last else f"the numbers {first} to {last} are"
    text = f"Between this block and row {table.row_numbers[before.row]}, {missing} in no block. Check the source."
    yield at(table, piece.row, "first", "gap", text)
