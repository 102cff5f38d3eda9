"""The sightings of one series, arranged once; a look-up then takes microseconds. The method: knowledge/inference."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date
from operator import attrgetter

from knowledge.inference import places
from knowledge.inference.constants import AROUND, OUTER
from knowledge.inference.enclosing import Enclosing
from knowledge.inference.points import Point

_order = attrgetter("order")


@dataclass(frozen=True, slots=True)
class Inferred:
    """What the sightings on both sides of a number tell.

    `earliest` and `latest` are days, both included, and `before` and `after` the sightings they rest on; the `bracket`
    holds them. When the model alone follows, days and bracket are `date.min` and `date.max`, and `before` and `after`
    the sightings of that model. `model` is empty when none follows; `showing` are the two sightings that show it.
    `points_used` counts the sightings the span was drawn from. `agree` is false when sightings of the series
    contradict each other, so that spans are wider.
    """

    earliest: date
    latest: date
    before: Point
    after: Point
    model: str
    points_used: int
    bracket: tuple[date, date]
    agree: bool = True
    showing: tuple[Point, Point] | None = None

    @property
    def dated(self) -> bool:
        """Whether a date follows, not the model alone."""
        return self.earliest != date.min


class Series:
    """The sightings of one series, in any order.

    `set_aside` are those too far off all others, `agrees` tells whether the rest fit together, and `reach` by how many
    days they do not.
    """

    def __init__(self, points: Iterable[Point]) -> None:
        self._points = sorted(points, key=_order)
        self.set_aside = places.gross(places.arranged(self._points))
        aside = {id(point) for point in self.set_aside}
        self._places = places.arranged(point for point in self._points if id(point) not in aside)
        self._orders = [place[0].order for place in self._places]
        self._enclosing = Enclosing(self._places)
        self._curve = places.curve(self._places)
        self.agrees = places.agree(self._places)
        self.reach = 0 if self.agrees else places.reach(self._places)
        self._showing = [point for point in self._points if point.model]
        self._found: dict[int, Inferred | None] = {}
        self._others: dict[int, Series] = {}

    def infer(self, order: int, *, with_date: bool = True) -> Inferred | None:
        """Return what follows for the number at this place of the order of issue; None when nothing does.

        A date follows when sightings before the number bound it on one side and sightings after it on the other; a
        model when the nearest ones that show any, on both sides, show the same. Dates of the very number are left out.
        Without `with_date` the model alone is looked for.
        """
        found, showing = self.dated(order) if with_date else None, self._same_model(order)
        if showing is None:
            return found
        before, after = showing
        if found is None:
            found = Inferred(date.min, date.max, before, after, "", 2, (date.min, date.max), self.agrees)
        return replace(found, model=before.model, showing=showing)

    def around(self, order: int, counts: Callable[[Point], bool]) -> Inferred | None:
        """Return what the nearest sightings on both sides tell of a number, whatever is known of the number itself.

        Of the AROUND nearest of each side those are taken that `counts` is true of.
        """
        left, right = bisect_left(self._points, order, key=_order), bisect_right(self._points, order, key=_order)
        before, after = self._points[max(0, left - AROUND) : left], self._points[right : right + AROUND]
        before, after = list(filter(counts, before)), list(filter(counts, after))
        return Series(before + after).infer(order) if before and after else None

    def dated(self, order: int) -> Inferred | None:
        """Return the date alone. All numbers between two sighted ones share it; it is found when first asked for."""
        at = bisect_left(self._orders, order)
        if at < len(self._orders) and self._orders[at] == order:
            if order not in self._others:
                self._others[order] = Series(point for point in self._points if point.order != order)
            return self._others[order].dated(order)
        if at not in self._found:
            self._found[at] = self._between(at) if 0 < at < len(self._places) else None
        return self._found[at]

    def _between(self, at: int) -> Inferred | None:
        """Find the span between the place `at` and the one before it, cut to the bracket."""
        low, high = self._wide(at)
        before, after = self._enclosing.before(at, low), self._enclosing.after(at, high)
        if before is None or after is None:
            return None
        start = before.earliest if before.earliest <= low else self._enclosing.first
        end = after.latest if after.latest >= high else self._enclosing.last
        earliest, latest = max(low, start), min(high, end)
        return Inferred(earliest, latest, before, after, "", self._pooled(at), (start, end), self.agrees)

    def _wide(self, at: int) -> tuple[date, date]:
        """Return the span as wide as the sightings disagree."""
        left, right = self._curve[at - 1], self._curve[at]
        low, high = left.lowest, right.highest
        if not self.agrees:
            lows = places.going_down(self._places, left)
            highs = places.going_up(self._places, right)
            low = min(low - self.reach, lows[int(OUTER * len(lows))])
            high = max(high + self.reach, highs[int(OUTER * len(highs))])
        return places.day(low), places.day(high)

    def _pooled(self, at: int) -> int:
        first, last = self._curve[at - 1].low_pool[0], self._curve[at].high_pool[1]
        return sum(map(len, self._places[first : last + 1]))

    def _same_model(self, order: int) -> tuple[Point, Point] | None:
        """Return the nearest sightings on both sides that show a model, when all there, in between too, show one."""
        left, right = bisect_left(self._showing, order, key=_order), bisect_right(self._showing, order, key=_order)
        if not 0 < left <= right < len(self._showing):
            return None
        around = self._nearest(left - 1) + self._showing[left:right] + self._nearest(right)
        if len({one.model for one in around}) > 1:
            return None
        return self._showing[left - 1], self._showing[right]

    def _nearest(self, at: int) -> list[Point]:
        """Return all sightings of that number that show a model."""
        order = self._showing[at].order
        first, last = bisect_left(self._showing, order, key=_order), bisect_right(self._showing, order, key=_order)
        return self._showing[first:last]
