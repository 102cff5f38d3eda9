"""Year starts: a row runs to the next row's first number less one, in order of issue."""

from __future__ import annotations

import pytest

from knowledge.base import Knowledge
from knowledge.registers.year_starts import is_last_number
from tests.knowledge.small import pack, register, table


def years(*starts: str, to: str = "", prefix: str = "") -> Knowledge:
    """Make a register from '1900 1' (year, first number) and so on, in order of issue."""
    rows = [
        {"register": "list", "prefix": prefix, "date": start.split()[0], "first": start.split()[1]} for start in starts
    ]
    return Knowledge.of([pack(table("registers", register("year-starts", to=to)), table("year-starts", *rows))])


def dates(knowledge: Knowledge, digits: str, prefix: str = "") -> list[str]:
    return [block.date for block in knowledge.covering(prefix, digits, "")]


def test_a_number_belongs_to_the_last_year_that_had_begun() -> None:
    known = years("1900 1", "1901 600", "1902 1200", to="9999999")
    assert [dates(known, digits) for digits in ("1", "599", "600", "1199", "1200")] == [
        ["1900"], ["1900"], ["1901"], ["1901"], ["1902"],
    ]  # fmt: skip


def test_a_number_before_the_first_row_is_in_none() -> None:
    assert dates(years("1900 100", "1901 600"), "99") == []


def test_a_plain_count_has_no_leading_zeros() -> None:
    assert dates(years("1900 1", "1901 600"), "0599") == []


def test_six_digits_run_out_before_the_seven_begin_and_the_zero_led_come_last() -> None:
    known = years("1900 500000", "1905 1000000", "1919 0000001", "1921 0300000", prefix="K", to="0400000")
    assert dates(known, "999999", "K") == ["1900"]
    assert dates(known, "9999999", "K") == ["1905"]
    assert dates(known, "0299999", "K") == ["1919"]
    assert dates(known, "0400000", "K") == ["1921"]
    assert dates(known, "0400001", "K") == []


def test_numbers_of_a_fixed_width_pass_from_zero_led_to_plain_ones() -> None:
    known = years("1900 0500", "1901 0900", "1902 1000", to="3999")
    assert [dates(known, digits) for digits in ("0899", "0999", "1000", "5000")] == [["1900"], ["1901"], ["1902"], []]


def test_zero_led_numbers_end_where_the_plain_ones_of_that_width_begin() -> None:
    known = years("1900 500000", "1902 900000", "1903 1000000", "1905 0000001", prefix="J", to="1906")
    assert dates(known, "1000000", "J") == ["1903"]
    assert dates(known, "0999999", "J") == ["1905/1906"]


def test_the_last_row_runs_to_the_last_number_of_the_register() -> None:
    known = years("1900 1", "1901 600", to="800")
    assert dates(known, "800") == ["1901"]
    assert dates(known, "801") == []


def test_the_last_row_runs_to_the_last_year_of_the_register() -> None:
    known = years("1900 1", "1901 600", to="1903")
    assert dates(known, "700") == ["1901/1903"]
    assert dates(known, "70000") == ["1901/1903"]


def test_a_last_year_that_is_the_row_s_own_adds_nothing() -> None:
    assert dates(years("1900 1", "1901 600", to="1901"), "700") == ["1901"]


def test_a_register_without_an_end_is_open() -> None:
    assert dates(years("1900 1", "1901 600"), "700") == ["1901/.."]


@pytest.mark.parametrize(
    ("to", "first", "is_number"),
    [("1961", "500", False), ("8000", "500", True), ("900", "500", True), ("400", "500", False), ("", "1", False)],
)
def test_a_year_is_told_from_a_last_number(to: str, first: str, is_number: bool) -> None:
    assert is_last_number(to, first) is is_number
