"""Scales: from dates and counts to pixels, and the round values to write beside an axis."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.errors import BedstampError

_YEARS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000)
_MONTHS = (1, 3, 6)
_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LAST_YEAR = 9999
_HALF_A_YEAR = 183


class Scale(NamedTuple):
    """A straight scale: `low` lies at pixel `at_low`, `high` at pixel `at_high`."""

    low: float
    high: float
    at_low: float
    at_high: float

    def __call__(self, value: float) -> float:
        """Return the pixel of a value."""
        return self.at_low + (value - self.low) * (self.at_high - self.at_low) / (self.high - self.low)


class Moment(NamedTuple):
    """A date as a scale needs it, in days: its two bounds, and where it is drawn. An open end is None."""

    earliest: float | None
    latest: float | None

    @property
    def day(self) -> float:
        """The middle of a closed span, the known end of an open one."""
        known = [end for end in self if end is not None]
        return sum(known) / len(known)


def moment(span: DateSpan) -> Moment | None:
    """Return the days of a span, the end of its last day included; None where both ends are open."""
    earliest = None if span.earliest == date.min else float(span.earliest.toordinal())
    latest = None if span.latest == date.max else float(span.latest.toordinal() + 1)
    return None if earliest is None and latest is None else Moment(earliest, latest)


def moment_of(text: str) -> Moment | None:
    """Return the days that an EDTF text may mean; None where it is empty or no date."""
    try:
        return moment(edtf.parse(text)) if text else None
    except BedstampError:
        return None


def days_around(moments: Iterable[Moment]) -> tuple[float, float]:
    """Return the first and the last day an axis must show, with a little room; there must be at least one moment."""
    days = [end for one in moments for end in one if end is not None]
    low, high = min(days), max(days)
    room = max((high - low) * 0.06, 2.0)
    if high - low < 2 * _HALF_A_YEAR:
        room = max(room, _HALF_A_YEAR)
    return max(1.0, low - room), min(float(date.max.toordinal()), high + room)


def date_ticks(low: float, high: float, most: int) -> list[tuple[float, str]]:
    """Return at most so many round dates within two days, each with its label: years, or months of a short time."""
    first, last = date.fromordinal(int(low)), date.fromordinal(int(high))
    years = last.year - first.year
    for months in _MONTHS if years <= 3 else ():
        found = [tick for tick in _months(first, last, months) if low <= tick[0] <= high]
        if len(found) <= most:
            return found
    for step in _YEARS:
        if years / step < most:
            whole = range(first.year - first.year % step, last.year + 1, step)
            found = [(float(date(year, 1, 1).toordinal()), str(year)) for year in whole if 1 <= year <= _LAST_YEAR]
            return [tick for tick in found if low <= tick[0] <= high]
    return []


def _months(first: date, last: date, step: int) -> Iterator[tuple[float, str]]:
    for count in range(first.year * 12, min(last.year + 1, _LAST_YEAR + 1) * 12, step):
        year, month = divmod(count, 12)
        yield float(date(year, month + 1, 1).toordinal()), f"{_NAMES[month]} {year}"


def round_step(length: float, most: int) -> int:
    """Return the smallest of 1, 2, 5, 10, 20, 50, ... that divides a length into at most so many parts.

    >>> round_step(9_000_000, 5)
    2000000
    """
    power = 1
    while True:
        for factor in (1, 2, 5):
            if length <= factor * power * most:
                return factor * power
        power *= 10
