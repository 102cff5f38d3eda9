"""Dated sightings by place, the curve through them, and how far they are off it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby

from knowledge.inference.constants import COVERAGE, FOLDS, GROSS_DAYS, GROSS_SHARE
from knowledge.inference.isotonic import Fit, fits
from knowledge.inference.points import Point

Place = tuple[Point, ...]
"""All dated sightings of one number."""


def arranged(points: Iterable[Point]) -> list[Place]:
    """Put the dated ones of these points, sorted by order, into their places."""
    dated = (point for point in points if point.dated)
    return [tuple(same) for _, same in groupby(dated, key=lambda point: point.order)]


def curve(places: Sequence[Place]) -> list[Fit]:
    """Return the rising curve that disagrees least with all own bounds, as days (ordinals)."""
    return fits([[(one.earliest.toordinal(), one.latest.toordinal()) for one in place] for place in places])


def agree(places: Sequence[Place]) -> bool:
    """Tell whether some rising curve lies within all own bounds: nothing may end before an earlier one begins."""
    begun = 0
    for place in places:
        begun = max(begun, *(one.earliest.toordinal() for one in place))
        if any(one.latest.toordinal() < begun for one in place):
            return False
    return True


def gross(places: Sequence[Place]) -> tuple[Point, ...]:
    """Return the sightings that are decades off the others: wrong receipts, misread numbers. None when many are."""
    off = [
        one
        for place, fit in zip(places, curve(places), strict=True)
        for one in place
        if days_off(one, fit.lowest, fit.highest) >= GROSS_DAYS
    ]
    return tuple(off) if len(off) <= GROSS_SHARE * sum(map(len, places)) else ()


def reach(places: Sequence[Place]) -> int:
    """Return the days by which at most 1 - COVERAGE of the sightings lie off a curve made without them.

    Each of FOLDS parts, every tenth place, is left out once. The count is rounded as conformal prediction does, so
    that it also holds for one sighting more: of 9 the farthest counts, of 19 the last but one.
    """
    off = sorted(days for fold in range(FOLDS) for days in _off_without(places, fold))
    if not off:
        return 0
    return off[min(len(off), math.ceil(COVERAGE * (len(off) + 1))) - 1]


def days_off(point: Point, low: int, high: int) -> int:
    """Return the days between a point's own bounds and a span (ordinals); 0 when they touch."""
    return max(0, point.earliest.toordinal() - high, low - point.latest.toordinal())


def going_down(places: Sequence[Place], fit: Fit) -> list[int]:
    """Return, sorted, how far down each sighting pooled into the lowest fit takes a span: to its own first day when it
    ends before the fit, else no further than the fit."""
    first, last = fit.low_pool
    pooled = (one for place in places[first : last + 1] for one in place)
    return sorted(
        one.earliest.toordinal() if one.latest.toordinal() <= fit.lowest else fit.lowest
        for one in pooled
        if one.earliest != date.min
    ) or [fit.lowest]


def going_up(places: Sequence[Place], fit: Fit) -> list[int]:
    """Return how far up each sighting pooled into the highest fit takes a span, the farthest first."""
    first, last = fit.high_pool
    pooled = (one for place in places[first : last + 1] for one in place)
    return sorted(
        (
            one.latest.toordinal() if one.earliest.toordinal() >= fit.highest else fit.highest
            for one in pooled
            if one.latest != date.max
        ),
        reverse=True,
    ) or [fit.highest]


def day(ordinal: int) -> date:
    """Return the day with this ordinal, or the nearest there is."""
    return date.fromordinal(min(max(ordinal, date.min.toordinal()), date.max.toordinal()))


def _off_without(places: Sequence[Place], fold: int) -> list[int]:
    """Return how far each sighting of the fold lies outside what the other places leave between its neighbours."""
    others = [place for at, place in enumerate(places) if at % FOLDS != fold]
    found: list[int] = []
    fitted = curve(others)
    for at in range(fold, len(places), FOLDS):
        left = at - (at - fold + FOLDS - 1) // FOLDS  # places before it that were not left out
        if 0 < left < len(others):
            low, high = fitted[left - 1].lowest, fitted[left].highest
            found += (days_off(one, low, high) for one in places[at])
    return found
