"""Find places for labels, so that none lies on another, and as little as possible on what is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from bot.pictures.shapes import Point

_DISTANCES = (16, 34, 60, 80, 100, 125, 150, 200)
_GRID = 12
_ON_A_LINE = 40.0
"""What a point of a line under a label costs, in pixels that the label would rather move away."""
_MOST_TRIED = 20_000
"""How many places are looked at for labels that get into each other's way."""

Leader = tuple[Point, Point]
"""The line from a mark to its label, by its ends."""


class Area(NamedTuple):
    """A rectangle by its edges."""

    left: float
    top: float
    right: float
    foot: float

    def overlaps(self, other: Area, gap: float = 0.0) -> bool:
        """Tell whether two areas share a point, or come nearer to each other than `gap`."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.foot + gap
            and other.top < self.foot + gap
        )

    def holds(self, other: Area) -> bool:
        """Tell whether the other area lies inside."""
        return (
            self.left <= other.left and other.right <= self.right and self.top <= other.top and other.foot <= self.foot
        )

    def nearest(self, point: Point) -> Point:
        """Return the point of the area that is nearest to a point."""
        return min(max(point[0], self.left), self.right), min(max(point[1], self.top), self.foot)


    def is_crossed(self, line: Leader) -> bool:
        """Tell whether a straight line from one point to another runs through the area."""
        (x, y), (end_x, end_y) = line
        enters, leaves = 0.0, 1.0
        for at, way, low, high in ((x, end_x - x, self.left, self.right), (y, end_y - y, self.top, self.foot)):
            if way == 0:
                if not low < at < high:
                    return False
                continue
            first, last = sorted(((low - at) / way, (high - at) / way))
            enters, leaves = max(enters, first), min(leaves, last)
        return enters < leaves


class Wanted(NamedTuple):
    """A label that wants a place: the point it belongs to, and its size."""

    point: Point
    width: float
    height: float


class _Place(NamedTuple):
    """A label at a place, with the line that leads to it."""

    area: Area
    leader: Leader

    def disturbs(self, other: _Place) -> bool:
        """Tell whether two labels lie on each other, or the line to one runs behind the other."""
        runs_behind = self.area.is_crossed(other.leader) or other.area.is_crossed(self.leader)
        return runs_behind or self.area.overlaps(other.area, 3)


def place_all(
    wanted: Sequence[Wanted], within: Area, taken: Sequence[Area], lines: Sequence[Point]
) -> list[Area | None]:
    """Return the best places for labels near their points: clear of `taken`, few points of `lines` under them.

    They are clear of each other, and no line from a point to its label runs behind another label, where that can be
    found. A label is None when there is no free place for it. The first one chooses first.
    """
    places = [_free(one, within, taken, lines) for one in wanted]
    together = _undisturbed([own for own in places if own])
    if together is None:
        return _one_by_one(places)
    there = iter(together)
    return [next(there).area if own else None for own in places]


def _free(wanted: Wanted, within: Area, taken: Sequence[Area], lines: Sequence[Point]) -> list[_Place]:
    """Return the places of one label that are clear of `taken`: the best first, those near the point before others."""
    point, width, height = wanted
    found: list[tuple[float, _Place]] = []
    for areas in (_around(point, width, height, within), _everywhere(width, height, within)):
        free = (area for area in dict.fromkeys(areas) if not any(area.overlaps(other, 3) for other in taken))
        own = [_Place(area, (point, area.nearest(point))) for area in free if within.holds(area)]
        found += sorted((_cost(place.area, point, lines), place) for place in own)
    return [place for _, place in found]


def _undisturbed(places: Sequence[Sequence[_Place]]) -> list[_Place] | None:
    """Return a place for each label, such that none disturbs another; None when none was found in a good while."""
    tried = 0
    chosen: list[_Place] = []
    at = [0] * len(places)
    while len(chosen) < len(places):
        own = places[len(chosen)]
        while at[len(chosen)] < len(own) and any(own[at[len(chosen)]].disturbs(one) for one in chosen):
            at[len(chosen)] += 1
            tried += 1
        if at[len(chosen)] < len(own):
            chosen.append(own[at[len(chosen)]])
            continue
        at[len(chosen)] = 0
        if not chosen or tried > _MOST_TRIED:
            return None
        chosen.pop()
        at[len(chosen)] += 1
    return chosen


def _one_by_one(places: Sequence[Sequence[_Place]]) -> list[Area | None]:
    held: list[Area] = []
    found: list[Area | None] = []
    for own in places:
        free = (place.area for place in own if not any(place.area.overlaps(other, 3) for other in held))
        found.append(next(free, None))
        held += [area for area in found[-1:] if area is not None]
    return found


def _around(point: Point, width: float, height: float, within: Area) -> Iterator[Area]:
    """Yield places at growing distance on all sides, those that would leave `within` pushed back into it."""
    x, y = point
    for away in _DISTANCES:
        for left in (x - width - away, x + away, x - width / 2):
            left = min(max(left, within.left + 3), within.right - width - 3)
            for top in (y - height - away, y + away, y - height / 2):
                top = min(max(top, within.top + 3), within.foot - height - 3)
                yield Area(left, top, left + width, top + height)


def _everywhere(width: float, height: float, within: Area) -> Iterator[Area]:
    across, down = (within.right - width - within.left) / _GRID, (within.foot - height - within.top) / _GRID
    for row in range(_GRID + 1):
        for column in range(_GRID + 1):
            left, top = within.left + column * across, within.top + row * down
            yield Area(left, top, left + width, top + height)


def _cost(area: Area, point: Point, lines: Iterable[Point]) -> float:
    x, y = area.nearest(point)
    away = abs(x - point[0]) + abs(y - point[1])
    left, top, right, foot = area.left - 4, area.top - 4, area.right + 4, area.foot + 4
    return away + _ON_A_LINE * sum(1 for at, height in lines if left <= at <= right and top <= height <= foot)


def in_rows(
    wanted: Sequence[tuple[float, float]], within: tuple[float, float], rows: int, gap: float
) -> list[tuple[int, float] | None]:
    """Share labels in a strip out to rows. `wanted` gives middle and width of each, the important ones first.

    Return row and left edge of each, None for those that find no room. A label keeps inside `within`.
    """
    used: list[list[tuple[float, float]]] = [[] for _ in range(rows)]
    placed: list[tuple[int, float] | None] = []
    for middle, width in wanted:
        place = _free_row(middle, width, within, used, gap) if width <= within[1] - within[0] else None
        if place is not None:
            used[place[0]].append((place[1], place[1] + width))
        placed.append(place)
    return placed


def _free_row(
    middle: float, width: float, within: tuple[float, float], used: Sequence[Sequence[tuple[float, float]]], gap: float
) -> tuple[int, float] | None:
    """Return the first row, and the left edge in it, where a label fits: centred, else beside its middle."""
    for row, spans in enumerate(used):
        for share in (0.5, 0.9, 0.1):
            left = max(within[0], min(middle - width * share, within[1] - width))
            if all(left >= end + gap or left + width + gap <= start for start, end in spans):
                return row, left
    return None


def shared(wanted: Sequence[float], whole: float) -> list[float]:
    """Share a width out: each gets what it wants, the greediest less where it does not suffice for all.

    >>> shared([10, 80, 60], 120)
    [10, 55.0, 55.0]
    """
    left, most = whole, 0.0
    for place, one in enumerate(sorted(wanted)):
        most = left / (len(wanted) - place)
        if one > most:
            return [min(want, most) for want in wanted]
        left -= one
    return list(wanted)
