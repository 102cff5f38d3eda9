"""The stated coverage comes true. How registers and sightings are drawn: registers_drawn.py beside this."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from knowledge.inference import COVERAGE
from tests.knowledge.inference.registers_drawn import KINDS, Asked, asked, nearest_alone

CLAIMED = [name for name, kind in KINDS.items() if kind.claimed]


def covered(numbers: Iterable[Asked]) -> float:
    """The share of the numbers that were dated whose span holds the truth."""
    dated = [(one.truth, one.found) for one in numbers if one.found]
    return sum(found.earliest <= truth <= found.latest for truth, found in dated) / len(dated)


def within_bracket(one: Asked) -> bool:
    """Whether the span lies within the bracket, and the bracket within what all sightings kept tell of."""
    if one.found is None:
        return True
    start, end = one.found.bracket
    aside = {id(point) for point in one.series.set_aside}
    kept = [point for point in one.points if id(point) not in aside]
    outermost = min(point.earliest for point in kept), max(point.latest for point in kept)
    return outermost[0] <= start <= one.found.earliest <= one.found.latest <= end <= outermost[1]


def test_in_1200_registers_of_every_kind_the_span_holds_the_truth_and_keeps_to_the_bracket() -> None:
    numbers = {name: list(asked(KINDS[name], 150, seed=7)) for name in CLAIMED}
    everything = [one for kind in numbers.values() for one in kind]
    assert all(map(within_bracket, everything))
    assert sum(one.found is None for one in everything) / len(everything) < 0.02
    assert covered(everything) >= COVERAGE
    assert {name: covered(kind) for name, kind in numbers.items() if covered(kind) < COVERAGE} == {}


@pytest.mark.long
@pytest.mark.parametrize("name", CLAIMED)
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_so_it_does_in_1000_registers_of_each_kind(name: str, seed: int) -> None:
    numbers = list(asked(KINDS[name], 1_000, seed))
    assert all(map(within_bracket, numbers))
    assert covered(numbers) >= COVERAGE


@pytest.mark.parametrize("name", ["exact", "year only", "sold 0 to 3 years later"])
def test_where_own_bounds_hold_the_truth_the_span_always_does(name: str) -> None:
    assert covered(asked(KINDS[name], 150)) == 1.0


def test_the_two_nearest_sightings_alone_would_not_hold_the_truth_where_dates_are_a_year_off() -> None:
    """Shows that the simulation can tell a good method from a bad one."""
    numbers = list(asked(KINDS["a year off, not said"], 150))
    nearest = [(one.truth, nearest_alone(one.points, one.order)) for one in numbers]
    assert sum(start <= truth <= end for truth, (start, end) in nearest) / len(nearest) < 0.7


def test_sales_that_are_taken_for_the_day_of_issue_are_not_covered_and_nobody_claims_it() -> None:
    name = "sold 0 to 3 years later, not said"
    assert name not in CLAIMED
    assert covered(asked(KINDS[name], 150)) < COVERAGE
