"""Blocks whose ends differ in digits: a count past a power of ten, or a digit too many or too few."""

import pytest

from tests.knowledge.packs.small_blocks import of_blocks, places

SIX = [("100001", "200000"), ("225001", "300000")]


def with_slip(*block):
    return of_blocks(SIX[0], block, SIX[1])


def test_a_digit_too_many_among_blocks_of_one_width_is_an_error_with_what_would_fit():
    found = with_slip("200001", "2250000")
    assert [(one.code, one.row, one.column, one.severity) for one in found] == [("unequal-digits", 3, "last", "error")]
    assert "225000 would fit" in found[0].text


def test_a_digit_too_few_among_blocks_of_one_width_is_an_error_with_what_would_fit():
    found = with_slip("20001", "225000")
    assert [(one.code, one.row, one.column) for one in found] == [("unequal-digits", 3, "first")]
    assert "200001 would fit" in found[0].text


def test_two_digits_too_many_are_found_too():
    assert places(with_slip("200001", "22500000"), "unequal-digits") == [(3, "last")]


def test_it_is_found_where_another_series_of_the_prefix_has_seven_digits():
    seven = [("1000000", "1500000"), ("1500001", "2500000")]
    found = of_blocks(SIX[0], ("200001", "2250000"), SIX[1], ("300001", "999999"), *seven)
    assert places(found, "unequal-digits") == [(3, "last")]


@pytest.mark.parametrize(
    "blocks",
    [
        [("900001", "999999"), ("1000000", "1100000"), ("1100001", "1200000")],
        [("800001", "900000"), ("900001", "1100000"), ("1100001", "1200000")],
        [("800001", "900000"), ("900001", "1100000")],
        [("1", "150"), ("151", "20000"), ("20001", "1200000")],
        [("900", "1100"), ("950", "960"), ("1050", "1060")],
        [("900", "1100"), ("800", "1200")],
        [("500", "999"), ("900", "1100")],
    ],
)
def test_a_count_that_passes_a_power_of_ten_is_no_fault(blocks):
    assert places(of_blocks(*blocks), "unequal-digits") == []


def test_ten_thousand_slips_are_all_found():
    blocks = [(str(100_000 + 20 * n), str(100_000 + 20 * n + 9)) for n in range(10_001)]
    slips = [(str(100_010 + 20 * n), f"{100_010 + 20 * n + 9}0") for n in range(10_000)]
    mixed = [block for pair in zip(blocks, slips, strict=False) for block in pair] + blocks[-1:]
    assert len(places(of_blocks(*mixed), "unequal-digits")) == 10_000
