"""The sightings on both sides of a number that enclose a span of days, nearest in date, found from the inside out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import accumulate, chain

from knowledge.inference.places import Place
from knowledge.inference.points import Point


class Enclosing:
    """The places of a series, arranged for looking outwards from a gap: `at` is the place that follows the number.

    `first` and `last` are the outermost days that any sighting knows of; an open end is no day.
    """

    def __init__(self, places: Sequence[Place]) -> None:
        self._places = places
        self._begun = list(accumulate((max(one.earliest for one in place) for place in places), max))
        ended = accumulate((min(one.latest for one in place) for place in reversed(places)), min)
        self._ended = list(ended)[::-1]
        known = list(_all(places))
        self.first = min((one.latest if one.earliest == date.min else one.earliest for one in known), default=date.min)
        self.last = max((one.earliest if one.latest == date.max else one.latest for one in known), default=date.max)

    def before(self, at: int, low: date) -> Point | None:
        """Return the sighting before that begins last, but not after `low`; of equal ones the nearest.

        When none begins so early, the one that begins first; None when no beginning is known.
        """
        best: Point | None = None
        for place in range(at - 1, -1, -1):
            if best and self._begun[place] <= best.earliest:
                break
            for one in self._places[place]:
                if date.min < one.earliest <= low and (best is None or one.earliest > best.earliest):
                    best = one
        begun = (one for one in _all(self._places[:at]) if one.earliest != date.min)
        return best or min(begun, key=lambda one: one.earliest, default=None)

    def after(self, at: int, high: date) -> Point | None:
        """Return the sighting after that ends first, but not before `high`; else as for `before`."""
        best: Point | None = None
        for place in range(at, len(self._places)):
            if best and self._ended[place] >= best.latest:
                break
            for one in self._places[place]:
                if high <= one.latest < date.max and (best is None or one.latest < best.latest):
                    best = one
        ended = (one for one in _all(self._places[at:]) if one.latest != date.max)
        return best or max(ended, key=lambda one: one.latest, default=None)


def _all(places: Sequence[Place]) -> Iterator[Point]:
    return chain.from_iterable(places)
