"""Whether the stated coverage holds: registers are drawn with their truth, and sightings of them with their errors.

A register is a rising curve from the order of issue to the date, over 4 to 40 years: even, uneven, with pauses, or in
steps, as batches are. 2 to 60 of its numbers are sighted, spread evenly or in clusters, and three numbers between are
inferred. All of it is invented; how far dates are off in the world is an assumption, so several kinds are tried. The
number of years a sale comes after the issue, 0 to 3, is common practice, no source.
"""

from __future__ import annotations

import random
from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import accumulate

from knowledge.edtf import parse
from knowledge.inference import Inferred, Point, Series

YEAR = 365.25
NUMBERS = 1_000_000
"""How many numbers each register has."""
ASKED = 3
"""How many numbers of each register are inferred."""
SIZES = {"2 to 6 sightings": range(2, 7), "7 to 20": range(7, 21), "21 to 60": range(21, 61)}

Curve = Callable[[int], int]
"""From the place in the order of issue to the true day (an ordinal)."""
Sighted = Callable[[random.Random, int, int], Point]
"""From the place and the true day to a sighting."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One number inferred: how many sightings the register had, the truth, what was said, and what it was said from."""

    sightings: int
    order: int
    truth: date
    found: Inferred | None
    series: Series
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Errors:
    """A kind of sightings: how they come about, and whether coverage is stated for them."""

    sighted: Sighted
    claimed: bool
    disorder: float = 0.0
    """Share of the register that was issued out of order, as batches that changed places with others."""


def exact(rng: random.Random, order: int, day: int) -> Point:
    """A ledger that has the day."""
    return _on(order, day)


def sold_later(rng: random.Random, order: int, day: int) -> Point:
    """A bill, up to three years later; that it is a bill is known."""
    sale = date.fromordinal(day + rng.randint(0, int(3 * YEAR)))
    return Point.of(order, parse(sale.isoformat()), "a bill", sold=True)


def sold_later_unsaid(rng: random.Random, order: int, day: int) -> Point:
    """The same, but nobody knows that it is the day of a sale."""
    return _on(order, day + rng.randint(0, int(3 * YEAR)))


def grossly_wrong(rng: random.Random, order: int, day: int) -> Point:
    """A ledger; every tenth time it is about another machine, 5 to 40 years off."""
    wrong = rng.choice((-1, 1)) * rng.randint(int(5 * YEAR), int(40 * YEAR)) if rng.random() < 0.1 else 0
    return _on(order, day + wrong)


def year_only(rng: random.Random, order: int, day: int) -> Point:
    """The right year and no more."""
    return Point.of(order, parse(str(date.fromordinal(day).year)), "a year")


def about(rng: random.Random, order: int, day: int) -> Point:
    """A year that is off by two or so (standard deviation), and said to be 'about'."""
    return Point.of(order, parse(f"{date.fromordinal(int(day + rng.gauss(0, 2 * YEAR))).year}~"), "by its looks")


def off_unsaid(rng: random.Random, order: int, day: int) -> Point:
    """A day that is off by a year or so (standard deviation), and stated as if it were exact."""
    return _on(order, int(day + rng.gauss(0, YEAR)))


def of_all_kinds(rng: random.Random, order: int, day: int) -> Point:
    """What a group has after some years."""
    return rng.choice((exact, sold_later, grossly_wrong, year_only, about))(rng, order, day)


KINDS: dict[str, Errors] = {
    "exact": Errors(exact, claimed=True),
    "sold 0 to 3 years later": Errors(sold_later, claimed=True),
    "10 % grossly wrong": Errors(grossly_wrong, claimed=True),
    "year only": Errors(year_only, claimed=True),
    "about": Errors(about, claimed=True),
    "of all kinds": Errors(of_all_kinds, claimed=True),
    "exact, 10 % of batches out of order": Errors(exact, claimed=True, disorder=0.1),
    "a year off, not said": Errors(off_unsaid, claimed=True),
    "sold 0 to 3 years later, not said": Errors(sold_later_unsaid, claimed=False),
}


def asked(kind: Errors, registers: int, seed: int = 1) -> Iterator[Asked]:
    """Draw registers and yield, for each, the numbers asked about."""
    rng = random.Random(seed)
    for _ in range(registers):
        curve = _disordered(rng, a_curve(rng), kind.disorder)
        orders = _orders(rng, rng.randint(2, 60))
        points = tuple(kind.sighted(rng, order, curve(order)) for order in orders)
        series = Series(points)
        for order in _between(rng, orders):
            yield Asked(len(orders), order, date.fromordinal(curve(order)), series.infer(order), series, points)


def a_curve(rng: random.Random) -> Curve:
    """Draw a register: when it began, how long it ran, and how fast its numbers were used."""
    begun, years = date(rng.randint(1870, 1930), 1, 1).toordinal(), rng.choice((4, 10, 20, 40))
    stretches, steps = rng.randint(3, 12), rng.random() < 0.25
    speeds: dict[str, Callable[[], float]] = {
        "even": lambda: 1.0,
        "uneven": lambda: rng.expovariate(1) + 0.05,
        "pauses": lambda: rng.choice((0.01, 0.01, 1.0, 8.0)),
    }
    speed = speeds[rng.choice(sorted(speeds))]
    ends = [0.0, *accumulate(speed() for _ in range(stretches))]

    def day(order: int) -> int:
        at = min(stretches - 1, order * stretches // NUMBERS)
        within = 0.0 if steps else order * stretches / NUMBERS - at
        return int(begun + years * YEAR * (ends[at] + within * (ends[at + 1] - ends[at])) / ends[-1])

    return day


def nearest_alone(points: Sequence[Point], order: int) -> tuple[date, date]:
    """Return what somebody would say who looks at the two nearest sightings alone (the naive way)."""
    before = max((one for one in points if one.order < order), key=lambda one: one.order)
    after = min((one for one in points if one.order > order), key=lambda one: one.order)
    return min(before.earliest, after.earliest), max(before.latest, after.latest)


def _on(order: int, day: int) -> Point:
    return Point(order, date.fromordinal(day), date.fromordinal(day), "a day")


def _orders(rng: random.Random, count: int) -> list[int]:
    """Draw places, in order: anywhere, or around three centres, as when a few owners write in."""
    if rng.random() < 0.7:
        return sorted(rng.randrange(NUMBERS) for _ in range(count))
    centres = [rng.random() for _ in range(3)]
    drawn = (int(NUMBERS * (rng.choice(centres) + rng.gauss(0, 0.05))) for _ in range(count))
    return sorted(min(NUMBERS - 1, max(0, one)) for one in drawn)


def _between(rng: random.Random, orders: Sequence[int]) -> list[int]:
    drawn = [rng.randint(orders[0], orders[-1]) for _ in range(ASKED)]
    return [one for one in drawn if orders[max(0, bisect_right(orders, one) - 1)] != one]


def _disordered(rng: random.Random, curve: Curve, share: float, batches: int = 200) -> Curve:
    """Let a share of the batches change places with one up to ten batches away."""
    places = list(range(batches))
    for at in rng.sample(places, int(share * batches / 2)):
        other = min(batches - 1, at + rng.randint(1, 10))
        places[at], places[other] = places[other], places[at]
    size = NUMBERS // batches
    return lambda order: curve(places[order // size] * size + order % size)
