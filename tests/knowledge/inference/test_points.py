"""Own bounds of a sighting, and the order of issue."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.edtf import parse
from knowledge.inference import InferenceError, Point, order_of_issue


def bounds(text: str, sold: bool = False) -> tuple[date, date]:
    point = Point.of(1, parse(text), "a machine", sold=sold)
    return point.earliest, point.latest


@pytest.mark.parametrize(
    ("text", "earliest", "latest"),
    [
        ("1912", date(1912, 1, 1), date(1912, 12, 31)),
        ("1912-02", date(1912, 2, 1), date(1912, 2, 29)),
        ("1912-05-03", date(1912, 5, 3), date(1912, 5, 3)),
        ("1910/1912", date(1910, 1, 1), date(1912, 12, 31)),
        ("191X", date(1910, 1, 1), date(1919, 12, 31)),
        ("../1912", date.min, date(1912, 12, 31)),
        ("1912/..", date(1912, 1, 1), date.max),
        ("1912~", date(1907, 1, 1), date(1917, 12, 31)),
        ("1912?", date(1907, 1, 1), date(1917, 12, 31)),
        ("1912-05~", date(1911, 5, 1), date(1913, 5, 31)),
        ("1912~/..", date(1907, 1, 1), date.max),
    ],
)
def test_a_date_means_the_days_it_names_and_about_is_wider(text: str, earliest: date, latest: date) -> None:
    assert bounds(text) == (earliest, latest)


def test_a_sale_reaches_back_by_three_years_and_never_forward() -> None:
    assert bounds("1912-02-29", sold=True) == (date(1909, 2, 28), date(1912, 2, 29))
    assert bounds("../1912", sold=True) == (date.min, date(1912, 12, 31))


def test_a_point_that_ends_before_it_begins_is_refused_by_name() -> None:
    with pytest.raises(InferenceError, match="bill 7: 1912-01-01 is before 1913-01-01"):
        Point(1, date(1913, 1, 1), date(1912, 1, 1), "bill 7")


def test_seven_digits_follow_six_and_those_with_a_leading_zero_come_at_the_very_end() -> None:
    """Common practice, no source: see the facts of the trade."""
    in_order = [
        "0",
        "10",
        "99",
        "00",
        "100000",
        "999999",
        "000000",
        "099999",
        "1000000",
        "9999999",
        "0000000",
        "0999999",
    ]
    places = [order_of_issue(digits) for digits in in_order]
    assert places == sorted(set(places))


def test_the_places_are_counted_without_gaps() -> None:
    every = [f"{number:0{count}}" for count in (1, 2, 3) for number in range(10**count)]
    assert sorted(map(order_of_issue, every)) == list(range(10 + 100 + 1000))


@given(st.text(alphabet="0123456789", min_size=1, max_size=30), st.text(alphabet="0123456789", min_size=1, max_size=30))
def test_the_order_is_that_of_the_three_rules_one_after_the_other(left: str, right: str) -> None:
    def rules(digits: str) -> tuple[int, bool, int]:
        return len(digits), digits[0] == "0", int(digits)

    assert (order_of_issue(left) < order_of_issue(right)) == (rules(left) < rules(right))


@pytest.mark.parametrize("digits", ["", "12?4", "K123", "-1", " 12", "١٢"])
def test_what_is_no_number_has_no_place(digits: str) -> None:
    with pytest.raises(InferenceError, match="digits 0 to 9 alone"):
        order_of_issue(digits)
