"""Rows of a list of blocks that cannot be placed among the others, and may hold what seems to be missing there."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Sequence

from knowledge.packs.numbers import NONE
from knowledge.packs.tables import Pack

_NO_ROWS: list[int] = []


class Strays:
    """The rows that do not stand where they belong: in no known register, with odd letters, or damaged.

    Rows are counted from 0.
    """

    def __init__(self, pack: Pack) -> None:
        table = pack.tables["allocations"]
        self._known = set(pack.tables["registers"].columns["register"])
        self._of_letters: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
        self._of_register: defaultdict[str, list[int]] = defaultdict(list)
        self.unplaced: set[int] = set()
        keys = zip(*(table.columns[name] for name in ("register", "prefix", "suffix")), strict=True)
        astray = {key for key in set(keys) if self.holds(key)}
        for index, key in enumerate(table.rows("register", "prefix", "suffix") if astray or table.damaged else ()):
            if table.row_numbers[index] in table.damaged:
                self.unplaced.add(index)
            elif key in astray:
                self._sort_in(index, *key)
        self._damaged = sorted(self.unplaced - set().union(*self._of_register.values()))

    def _sort_in(self, index: int, register: str, prefix: str, suffix: str) -> None:
        if _is_odd(prefix) or _is_odd(suffix):
            self._of_register[register].append(index)
            self.unplaced.add(index)
        else:
            self._of_letters[prefix, suffix].append(index)

    def holds(self, series: tuple[str, ...]) -> bool:
        """Tell whether the rows of a series (register, prefix, suffix) are all astray."""
        register, prefix, suffix = series
        return (bool(self._known) and register not in self._known) or _is_odd(prefix) or _is_odd(suffix)

    def beside(self, series: tuple[str, ...]) -> list[int]:
        """Return the rows astray that may belong into a series."""
        register, prefix, suffix = series
        letters = self._of_letters.get((prefix, suffix), _NO_ROWS)
        return [*letters, *self._of_register.get(register, _NO_ROWS), *self._damaged]


class LeftOut:
    """Some rows that were left out of a series, asked whether they may fill a gap in it."""

    def __init__(self, rows: Iterable[int], firsts: Sequence[int], lasts: Sequence[int], unplaced: set[int]) -> None:
        known = list(rows)
        self._ends = sorted(end for row in known for end in (firsts[row], lasts[row]) if end != NONE)
        self._unplaced = sorted(row for row in known if row in unplaced or firsts[row] == lasts[row] == NONE)

    def may_fill(self, first: int, last: int, rows: tuple[int, int]) -> bool:
        """Tell whether one of them ends in `first` to `last` or, its numbers unknown, stands between two rows."""
        return _any_within(self._ends, first, last) or _any_within(self._unplaced, min(rows) + 1, max(rows) - 1)


def _any_within(ordered: Sequence[int], first: int, last: int) -> bool:
    place = bisect_left(ordered, first)
    return place < len(ordered) and ordered[place] <= last


def _is_odd(letters: str) -> bool:
    return bool(letters) and not (letters.isascii() and letters.isalpha())
