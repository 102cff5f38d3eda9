"""Blocks of numbers in compact columns, and the search for those that hold a number.

A block is a first and a last number of one series: the same prefix, the same suffix, the same number of digits. A
block whose ends have different numbers of digits is a plain count that passes a power of ten: it holds numbers
without leading zeros only. Blocks may overlap; every block that holds a number is found.

A million blocks must fit beside a chat, so a block is no object but a row of typed arrays (about 60 bytes).
"""

from __future__ import annotations

from array import array
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from heapq import heappush, heapreplace
from itertools import islice
from typing import Any, NamedTuple

from knowledge.registers.patterns import NOT_ZERO, bounds, count_up_to

LONGEST = 18
"""The most digits a number in a block may have: what fits a signed 64-bit integer."""

_BATCH = 500
"""Rows taken in together: few enough that the garbage collector is not woken for them."""
_TEXTS = ("register", "date", "model", "works", "source", "note")

SeriesKey = tuple[str, int, str]
"""Prefix, number of digits (0 for a plain count of any length), suffix."""


class BlockRow(NamedTuple):
    """One block as a list states it. Numbers are text, for zeros count; empty text is 'not stated'."""

    register: str
    order: str
    prefix: str
    first: str
    last: str
    suffix: str
    date: str
    model: str
    works: str
    quantity: str
    source: str
    note: str


class Block(NamedTuple):
    """One block as an answer states it. `quantity` is the stated one, else last - first + 1."""

    row: int
    register: str
    prefix: str
    first: str
    last: str
    suffix: str
    date: str
    model: str
    works: str
    quantity: int
    source: str
    note: str


class _Words:
    """Texts kept once and known by a small number."""

    def __init__(self) -> None:
        self.texts: list[str] = []
        self._places: dict[str, int] = {}

    def places(self, texts: Sequence[str]) -> list[int]:
        """Return the number of each text."""
        for text in dict.fromkeys(texts):
            if text not in self._places:
                self._places[text] = len(self.texts)
                self.texts.append(text)
        return list(map(self._places.__getitem__, texts))


class _Layer:
    """Blocks of one series that do not overlap, sorted by their first number."""

    __slots__ = ("firsts", "lasts", "rows")

    def __init__(self) -> None:
        self.firsts = array("q")
        self.lasts = array("q")
        self.rows = array("i")


class Blocks:
    """All blocks of some registers: filled by `extend`, asked by `covering`."""

    def __init__(self) -> None:
        self._words = _Words()
        self._first, self._last, self._quantity = array("q"), array("q"), array("q")
        self._order = array("q")
        self._last_order = 0  # a row that tells no order follows the row above
        self._width, self._last_width = array("b"), array("b")
        self._texts = {name: array("i") for name in ("series", *_TEXTS)}
        self._keys: list[SeriesKey] = []
        self._key_places: dict[SeriesKey, int] = {}
        self._members: list[array[int]] = []
        self._layers: dict[SeriesKey, list[_Layer]] = {}

    def __len__(self) -> int:
        return len(self._first)

    def extend(self, rows: Iterable[tuple[str, ...]]) -> None:
        """Take in rows, each with the cells of a BlockRow.

        `first` and `last` must be ASCII digits, at most LONGEST of them, first <= last.
        """
        remaining = iter(rows)
        while batch := list(islice(remaining, _BATCH)):
            columns: Any = zip(*batch, strict=True)
            self._take(BlockRow(*columns))

    def _take(self, columns: Any) -> None:
        """Take in a batch, a BlockRow of columns; column by column is much faster than row by row."""
        begin = len(self._first)
        firsts, lasts = list(map(int, columns.first)), list(map(int, columns.last))
        widths, last_widths = list(map(len, columns.first)), list(map(len, columns.last))
        self._first.extend(firsts)
        self._last.extend(lasts)
        self._width.extend(widths)
        self._last_width.extend(last_widths)
        ends = zip(columns.quantity, firsts, lasts, strict=True)
        self._quantity.extend([int(stated) if stated else last - first + 1 for stated, first, last in ends])
        for order in columns.order:
            self._last_order = int(order) if order else self._last_order
            self._order.append(self._last_order)
        for name in _TEXTS:
            self._texts[name].extend(self._words.places(getattr(columns, name)))
        same = [width if width == last else 0 for width, last in zip(widths, last_widths, strict=True)]
        self._sort_in(begin, list(zip(columns.prefix, same, columns.suffix, strict=True)))

    def _sort_in(self, begin: int, keys: list[SeriesKey]) -> None:
        for key in dict.fromkeys(keys):
            if key not in self._key_places:
                self._new_series(key)
        places = list(map(self._key_places.__getitem__, keys))
        self._texts["series"].extend(places)
        for row, place in enumerate(places, begin):
            self._members[place].append(row)

    def _new_series(self, key: SeriesKey) -> None:
        """Make a series, or find the one that is the same but for small letters."""
        stamped = (key[0].upper(), key[1], key[2].upper())
        place = self._key_places.get(stamped)
        if place is None:
            self._key_places[stamped] = place = len(self._keys)
            self._keys.append(stamped)
            self._members.append(array("i"))
        self._key_places[key] = place

    def prepare(self) -> None:
        """Sort every series now; else each is sorted when it is first asked for."""
        for key in self._keys:
            self._series(key)

    def shapes(self) -> frozenset[SeriesKey]:
        """Return prefix, number of digits (0: plain count) and suffix of every series."""
        return frozenset(self._keys)

    def covering(self, prefix: str, digits: str, suffix: str) -> list[int]:
        """Return the rows of every block that holds this number, in no particular order.

        `digits` are ASCII digits; more than LONGEST of them are in no block.
        """
        width = len(digits)
        if not width or width > LONGEST:
            return []
        found: list[int] = []
        number = int(digits)
        layers = self._series((prefix, width, suffix))
        if width == 1 or digits[0] != "0":
            layers = layers + self._series((prefix, 0, suffix))
        for layer in layers:
            at = bisect_right(layer.firsts, number) - 1
            if at >= 0 and layer.lasts[at] >= number:
                found.append(layer.rows[at])
        return found

    def matching(self, prefix: str, pattern: str, suffix: str) -> list[tuple[int, int]]:
        """Return the row of every block that holds numbers of a pattern, and how many; `?` stands for any digit."""
        width = len(pattern)
        if not width or width > LONGEST:
            return []
        found = [hit for layer in self._series((prefix, width, suffix)) for hit in _touched(layer, pattern)]
        if pattern[0] != "0" or width == 1:
            led = NOT_ZERO if pattern[0] == "?" and width > 1 else pattern[0]
            plain = self._series((prefix, 0, suffix))
            found += [hit for layer in plain for hit in _touched(layer, led + pattern[1:])]
        return found

    def block(self, row: int) -> Block:
        """Return the block of a row."""
        words, texts = self._words.texts, self._texts
        prefix, _, suffix = self._keys[texts["series"][row]]
        return Block(
            row,
            words[texts["register"][row]],
            prefix,
            str(self._first[row]).zfill(self._width[row]),
            str(self._last[row]).zfill(self._last_width[row]),
            suffix,
            words[texts["date"][row]],
            words[texts["model"][row]],
            words[texts["works"][row]],
            self._quantity[row],
            words[texts["source"][row]],
            words[texts["note"][row]],
        )

    def in_issue_order(self, register: str, prefix: str, suffix: str = "") -> list[Block]:
        """Return the blocks of one register and prefix as they were issued, which is not the order of numbers."""
        return [self.block(row) for row in self._issued(register, prefix, suffix)]

    def firsts_in_issue_order(self, register: str, prefix: str, suffix: str = "") -> list[str]:
        """Return the first numbers of the same blocks, in the same order; much faster than the whole blocks."""
        return [str(self._first[row]).zfill(self._width[row]) for row in self._issued(register, prefix, suffix)]

    def _issued(self, register: str, prefix: str, suffix: str) -> list[int]:
        series = [place for place, key in enumerate(self._keys) if key[0] == prefix and key[2] == suffix]
        words, registers = self._words.texts, self._texts["register"]
        rows = [row for place in series for row in self._members[place] if words[registers[row]] == register]
        rows.sort(key=lambda row: (self._order[row], row))
        return rows

    def _series(self, key: SeriesKey) -> list[_Layer]:
        layers = self._layers.get(key)
        if layers is None and key in self._key_places:
            layers = self._layers[key] = self._in_layers(self._members[self._key_places[key]])
        return layers or _NONE

    def _in_layers(self, members: array[int]) -> list[_Layer]:
        """Share blocks out to as few layers as overlaps allow, each free of overlaps."""
        first, last = self._first, self._last
        layers: list[_Layer] = []
        ends: list[tuple[int, int]] = []  # a heap: the last number of each layer, and its place
        for row in sorted(members, key=first.__getitem__):
            if ends and ends[0][0] < first[row]:
                place = heapreplace(ends, (last[row], ends[0][1]))[1]
            else:
                place = len(layers)
                layers.append(_Layer())
                heappush(ends, (last[row], place))
            layers[place].firsts.append(first[row])
            layers[place].lasts.append(last[row])
            layers[place].rows.append(row)
        return layers


_NONE: list[_Layer] = []


def _touched(layer: _Layer, pattern: str) -> Iterable[tuple[int, int]]:
    lowest, highest = bounds(pattern)
    begin = max(0, bisect_right(layer.firsts, lowest) - 1)
    for at in range(begin, bisect_right(layer.firsts, highest)):
        count = count_up_to(pattern, layer.lasts[at]) - count_up_to(pattern, layer.firsts[at] - 1)
        if count:
            yield layer.rows[at], count
