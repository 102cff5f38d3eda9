"""Sightings as points: a place in the order of issue, and the days that the date may mean."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from knowledge.edtf import DateSpan
from knowledge.errors import BedstampError
from knowledge.inference.constants import ALLOWANCES


class InferenceError(BedstampError, ValueError):
    """A point or number that nothing can be inferred from; the message says why."""


@dataclass(frozen=True, slots=True)
class Point:
    """One sighting: its place in the order of issue, its own bounds (days, both included), its name and model.

    `date.min` and `date.max` are open bounds; with both open the point tells of the model alone. `model` is empty when
    not known. Raises InferenceError when `latest` is before `earliest`.
    """

    order: int
    earliest: date
    latest: date
    name: str
    model: str = ""

    def __post_init__(self) -> None:
        if self.latest < self.earliest:
            raise InferenceError(f"{self.name}: {self.latest} is before {self.earliest}. Give the earlier day first.")

    @classmethod
    def of(cls, order: int, when: DateSpan, name: str, model: str = "", sold: bool = False) -> Point:
        """Return the sighting of a date as packs write it: a year is a whole year, open ends stay open.

        An approximate date is taken wider either way, and the date of a sale (`sold`) reaches back by the years that
        a machine may have stood unsold: `ALLOWANCES` has them.

        >>> from knowledge.edtf import parse
        >>> Point.of(1, parse("1912~"), "a machine").earliest
        datetime.date(1907, 1, 1)
        >>> Point.of(1, parse("1912-05-03"), "a machine", sold=True).earliest
        datetime.date(1909, 5, 3)
        """
        about = _about(when)
        back = about + (int(ALLOWANCES["sold-later"].value) if sold else 0)
        return cls(order, _years_later(when.earliest, -back), _years_later(when.latest, about), name, model)

    @property
    def dated(self) -> bool:
        """Whether at least one bound is known."""
        return self.earliest != date.min or self.latest != date.max


def order_of_issue(digits: str) -> int:
    """Return the place of a number in the order of issue, counted from 0: all one-digit numbers come first.

    Fewer digits come first; of the same count, those with a leading zero come last (common practice, no source): with
    seven digits 1000000 to 9999999, then 0000000 to 0999999. A register that states its own order has its own places.
    Raises InferenceError for anything but digits 0 to 9.

    >>> order_of_issue("999999") < order_of_issue("1000000") < order_of_issue("9999999") < order_of_issue("0000001")
    True
    """
    if not (digits.isascii() and digits.isdigit()):
        raise InferenceError(f"'{digits}' has no place in the order of issue: it needs the digits 0 to 9 alone.")
    first: int = 10 ** (len(digits) - 1)
    shorter = (10 * first - 10) // 9
    number = int(digits)
    return shorter + (number - first if number >= first else number + 9 * first)


def _about(when: DateSpan) -> int:
    """Years either way that an approximate date may be off."""
    if not when.approximate:
        return 0
    return int(ALLOWANCES["about-a-month" if "-" in when.text else "about-a-year"].value)


def _years_later(day: date, years: int) -> date:
    """Open ends stay open; 29 February becomes the 28th in a year that lacks it."""
    if day in (date.min, date.max):
        return day
    year = min(max(day.year + years, date.min.year), date.max.year)
    try:
        return day.replace(year=year)
    except ValueError:
        return day.replace(year=year, day=28)
