"""Dating by neighbours: the stated coverage beside what came true, and the speed beside plainer ways.

How registers and their sightings are drawn: tests/knowledge/inference/registers_drawn.py.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from datetime import date
from itertools import chain
from typing import Any

from knowledge.inference import COVERAGE, Point, Series, infer
from knowledge.inference.isotonic import Interval, fits
from tests.bench.measure import in_turns, show
from tests.knowledge.inference.registers_drawn import KINDS, SIZES, YEAR, Asked, asked, nearest_alone

Span = tuple[date, date]


def run(registers: int = 1_000) -> bool:
    """Print the tables and return whether what was asked is met."""
    print(f"\nNumbers between sightings, 3 in each of {registers:,} simulated registers of each kind: spans and truth")
    print(f"  {'':<56} {'inferred':>8} {'covered':>8} {'years':>6} {'bracket':>8}   two nearest alone")
    everything: list[Asked] = []
    table: list[tuple[str, str, str, bool | None]] = []
    for name, kind in KINDS.items():
        numbers = list(asked(kind, registers))
        for size, counts in SIZES.items():
            _line(f"{name}, {size}", [one for one in numbers if one.sightings in counts])
        share = _line(name, numbers)
        met = share >= COVERAGE if kind.claimed else None
        table.append((name, f"{share:.3f}", f"at least {COVERAGE}" if kind.claimed else "not claimed", met))
        everything += numbers if kind.claimed else []
    share = _line("all that is claimed", everything)
    table.append(("all that is claimed", f"{share:.3f}", f"at least {COVERAGE}", share >= COVERAGE))
    wider = sum(one.found.bracket[0] > one.found.earliest or one.found.latest > one.found.bracket[1]
                for one in everything if one.found)  # fmt: skip
    table.append((f"spans wider than their bracket, of {len(everything):,}", str(wider), "0", wider == 0))
    return show("Share of the spans that hold the truth", table) & _speed()


def _line(name: str, numbers: Sequence[Asked]) -> float:
    """Print a row and return the share covered: spans and brackets are means, in years."""
    dated = [(one.truth, one.found) for one in numbers if one.found]
    plain = [(one.truth, nearest_alone(one.points, one.order)) for one in numbers]
    share = _covered([(truth, (found.earliest, found.latest)) for truth, found in dated])
    years, bracket = _years([(one.earliest, one.latest) for _, one in dated]), _years([one.bracket for _, one in dated])
    beside = f"{_covered(plain):.3f} {_years([span for _, span in plain]):6.2f} years"
    print(f"  {name:<56} {len(dated) / len(numbers):>8.3f} {share:>8.3f} {years:>6.2f} {bracket:>8.2f}   {beside}")
    return share


def _covered(spans: Sequence[tuple[date, Span]]) -> float:
    return sum(start <= truth <= end for truth, (start, end) in spans) / len(spans)


def _years(spans: Sequence[Span]) -> float:
    return sum((end - start).days for start, end in spans) / len(spans) / YEAR


def _speed() -> bool:
    """Time look-ups in an arranged series beside arranging it for each question, and the fit beside the formula."""
    rng = random.Random(4)
    points = _sightings(rng, 1_000)
    series, big = Series(points), Series(_sightings(rng, 10_000))
    orders = [rng.randrange(1_000_000) for _ in range(500)]
    places = [[(one.earliest.toordinal(), one.latest.toordinal())] for one in _sightings(rng, 120)]
    calls: dict[str, Any] = {
        "arranged once, 1,000 sightings": series.infer,
        "arranged once, 10,000 sightings": big.infer,
        "arranged for each question, 1,000 sightings": lambda order: infer(order, points),
        "fit of 120 places, pooling": fits,
        "fit of 120 places, min-max formula": _min_max,
    }
    asked_of: dict[str, Any] = {name: [places] if name.startswith("fit") else orders for name in calls}
    asked_of["arranged for each question, 1,000 sightings"] = orders[:3]
    seconds = in_turns(calls, asked_of)
    show("Speed of inference, a call", [(name, f"{1e6 * one:,.1f} us", "", None) for name, one in seconds.items()])
    once, bigger, each, pooling, formula = seconds.values()
    return show(
        "Asked of inference",
        [
            ("arranged for each question / arranged once", f"{each / once:,.0f}", "at least 100", each / once >= 100),
            ("10,000 sightings / 1,000", f"{bigger / once:.1f}", "at most 4", bigger / once <= 4),
            ("min-max formula / pooling", f"{formula / pooling:,.0f}", "at least 10", formula / pooling >= 10),
        ],
    )


def _sightings(rng: random.Random, count: int) -> list[Point]:
    """Draw sightings of one register, dates a year off, so that many disagree."""
    begun, kind = date(1880, 1, 1).toordinal(), KINDS["a year off, not said"]
    orders = [rng.randrange(1_000_000) for _ in range(count)]
    return [kind.sighted(rng, order, begun + order * 20_000 // 1_000_000) for order in orders]


def _min_max(places: Sequence[Sequence[Interval]]) -> list[int]:
    """The lowest best fit, as the formula stands in the book (see tests/knowledge/inference/test_isotonic.py)."""
    count = len(places)
    medians = {}
    for first in range(count):
        for last in range(first, count):
            ends = sorted(chain.from_iterable(chain.from_iterable(places[first : last + 1])))
            medians[first, last] = ends[len(ends) // 2 - 1]
    return [max(min(medians[a, b] for b in range(i, count)) for a in range(i + 1)) for i in range(count)]


if __name__ == "__main__":
    run()
