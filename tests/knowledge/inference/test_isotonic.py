"""The fit, against two judges written differently: every rising curve tried, and the published min-max formula."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, chain, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.inference.isotonic import Interval, fits

Places = list[list[Interval]]

intervals = st.tuples(st.integers(0, 12), st.integers(0, 6)).map(lambda drawn: (drawn[0], sum(drawn)))
places = st.lists(st.lists(intervals, min_size=1, max_size=3), min_size=1, max_size=9)


def cost(value: int, place: Sequence[Interval]) -> int:
    return sum(max(0, first - value, value - last) for first, last in place)


def best_by_trying(places: Places) -> list[Interval]:
    """Lowest and highest value of each place on any cheapest rising curve, by dynamic programming over all ends."""
    values = sorted(set(chain.from_iterable(chain.from_iterable(places))))
    costs = [[cost(value, place) for value in values] for place in places]
    up_to, onward = _cheapest(costs), [row[::-1] for row in _cheapest([row[::-1] for row in costs[::-1]])][::-1]
    found = []
    for own, left, right in zip(costs, up_to, onward, strict=True):
        total = [a + b - c for a, b, c in zip(left, right, own, strict=True)]
        best = [value for value, sum_ in zip(values, total, strict=True) if sum_ == min(total)]
        found.append((best[0], best[-1]))
    return found


def _cheapest(costs: list[list[int]]) -> list[list[int]]:
    """For each place and value the cost of the cheapest rising curve that ends there."""
    rows = [costs[0]]
    for row in costs[1:]:
        rows.append([own + before for own, before in zip(row, accumulate(rows[-1], min), strict=True)])
    return rows


def min_max(places: Places, upper: bool) -> list[int]:
    """max over a <= i of min over b >= i of the median of a..b.

    Source, from memory: Robertson, Wright, Dykstra, Order Restricted Statistical Inference (1988).
    """
    count = len(places)

    def median(first: int, last: int) -> int:
        ends = sorted(chain.from_iterable(chain.from_iterable(places[first : last + 1])))
        return ends[len(ends) // 2 - (not upper)]

    return [max(min(median(a, b) for b in range(i, count)) for a in range(i + 1)) for i in range(count)]


@given(places)
def test_no_rising_curve_disagrees_less_and_none_as_good_goes_lower_or_higher(drawn: Places) -> None:
    assert [(fit.lowest, fit.highest) for fit in fits(drawn)] == best_by_trying(drawn)


@given(places)
def test_pooling_finds_what_the_min_max_formula_finds(drawn: Places) -> None:
    found = fits(drawn)
    assert [fit.lowest for fit in found] == min_max(drawn, upper=False)
    assert [fit.highest for fit in found] == min_max(drawn, upper=True)


@given(places)
def test_both_curves_rise_and_a_pool_has_one_value(drawn: Places) -> None:
    found = fits(drawn)
    for left, right in pairwise(found):
        assert left.lowest <= right.lowest
        assert left.highest <= right.highest
        assert left.low_pool != right.low_pool or left.lowest == right.lowest
    assert all(fit.lowest <= fit.highest for fit in found)
    assert all(first <= at <= last for at, fit in enumerate(found) for first, last in (fit.low_pool, fit.high_pool))


@pytest.mark.parametrize("values", list(product(range(3), repeat=4)))
def test_every_series_of_four_single_values_is_fitted_at_the_least_cost(values: tuple[int, ...]) -> None:
    places = [[(value, value)] for value in values]
    assert [(fit.lowest, fit.highest) for fit in fits(places)] == best_by_trying(places)


def test_one_value_far_off_is_outvoted_by_its_neighbours() -> None:
    found = fits([[(day, day)] for day in (10, 11, 500, 13, 14)])
    assert [(fit.lowest, fit.highest) for fit in found] == [(10, 10), (11, 11), (13, 14), (13, 14), (14, 14)]


def test_of_two_that_disagree_neither_wins() -> None:
    assert {(fit.lowest, fit.highest) for fit in fits([[(50, 50)], [(3, 3)]])} == {(3, 50)}


def test_the_judge_sees_a_fit_that_is_wrong() -> None:
    values = [[(5, 5)], [(1, 1)], [(3, 3)]]
    assert best_by_trying(values) != [(5, 5)] * 3


def test_of_nothing_nothing_is_fitted() -> None:
    assert fits([]) == []
