"""The rising curve that disagrees least with what is known: isotonic regression by pooling adjacent violators.

Each place knows one or more intervals; a value costs nothing inside an interval and its distance outside. Of all
rising curves with the least total cost, the lowest and the highest are found. Where the intervals agree, the cost is
nothing and the two are the bounds that follow from them; where they disagree, places are pooled, and the value is
a median, so that one gross error is outvoted by its neighbours.

>>> [(fit.lowest, fit.highest) for fit in fits([[(1, 2)], [(9, 9)], [(4, 5)], [(5, 6)]])]
[(1, 2), (5, 6), (5, 6), (5, 6)]

Source (from memory): Robertson, Wright, Dykstra, Order Restricted Statistical Inference (1988), pooling adjacent
violators and the min-max formula, which hold for medians as they do for means.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from dataclasses import dataclass

Interval = tuple[int, int]
"""First and last value, both included."""


@dataclass(frozen=True, slots=True)
class Fit:
    """The lowest and highest best value of one place, and the places pooled with it for each (first and last)."""

    lowest: int
    highest: int
    low_pool: Interval
    high_pool: Interval


def fits(places: Sequence[Sequence[Interval]]) -> list[Fit]:
    """Return the best values of each place, in the order given. Every place needs an interval at least."""
    ends = [[end for interval in place for end in interval] for place in places]
    low, high = _rising(ends, upper=False), _rising(ends, upper=True)
    return [
        Fit(lowest, highest, low_pool, high_pool)
        for (lowest, low_pool), (highest, high_pool) in zip(low, high, strict=True)
    ]


def _rising(ends: Sequence[Sequence[int]], upper: bool) -> list[tuple[int, Interval]]:
    """Pool neighbours while the left one's median lies above the right one's.

    The ends of intervals are sorted numbers, always an even count: below their lower median and above their upper one
    the cost grows, between the two it stays.
    """
    pools: list[tuple[int, int, list[int]]] = []
    for place, own in enumerate(ends):
        first, values = place, sorted(own)
        while pools and _median(pools[-1][2], upper) > _median(values, upper):
            first, _, left = pools.pop()
            values = _merged(left, values)
        pools.append((first, place, values))
    return [
        (_median(values, upper), (first, last))
        for first, last, values in pools
        for _ in range(first, last + 1)
    ]  # fmt: skip


def _median(values: Sequence[int], upper: bool) -> int:
    return values[len(values) // 2 - (not upper)]


def _merged(left: list[int], right: list[int]) -> list[int]:
    """Merge two sorted lists, the shorter into the longer, which is used up."""
    long, short = (left, right) if len(left) >= len(right) else (right, left)
    for value in short:
        insort(long, value)
    return long
