"""Blocks beside each other: overlaps, gaps, quantities and ends, whatever order the numbers were issued in."""

from hypothesis import assume, given
from hypothesis import strategies as st

from tests.knowledge.packs.small_blocks import of_blocks, places


def test_six_digits_then_seven_then_those_with_a_zero_in_front_are_no_fault():
    assert of_blocks(("990001", "999999"), ("1000000", "9999999"), ("0000001", "0250000")) == []


def test_a_count_may_pass_a_power_of_ten_inside_a_block():
    assert of_blocks(("1", "150"), ("151", "20000"), ("20001", "1200000")) == []


def test_numbers_of_another_digit_count_prefix_or_suffix_do_not_overlap():
    same = [("200001", "225000"), ("0200001", "0225000"), ("200001", "225000"), ("200001", "225000")]
    found = of_blocks(*same, prefix="", suffix=["", "", "A", "B"], register=["r", "r", "r", "r"])
    assert places(found, "overlap") == []
    assert places(found, "double-row") == []


def test_an_overlap_names_both_rows_and_stands_at_the_later_one():
    found = of_blocks(("100", "199"), ("200", "299"), ("150", "180"))
    assert places(found, "overlap") == [(4, "first")]
    assert "row 2, 100 to 199" in next(one.text for one in found if one.code == "overlap")


def test_every_block_inside_a_larger_one_is_told():
    found = of_blocks(("100", "999"), ("100", "199"), ("300", "399"), ("999", "999"))
    assert places(found, "overlap") == [(3, "first"), (4, "first"), (5, "first")]
    assert places(found, "gap") == []


def test_a_count_past_a_power_of_ten_overlaps_blocks_of_either_width():
    assert places(of_blocks(("900", "1100"), ("950", "960"), ("1050", "1060")), "overlap") == [
        (3, "first"),
        (4, "first"),
    ]
    assert places(of_blocks(("900", "1100"), ("0950", "0960")), "overlap") == []
    assert places(of_blocks(("900", "1100"), ("800", "1200")), "overlap") == [(3, "first")]


def test_the_same_block_with_another_date_is_an_overlap_and_with_all_the_same_a_double_row():
    assert places(of_blocks(("100", "199"), ("100", "199")), "overlap") == [(3, "first")]
    found = of_blocks(("100", "199"), ("100", "199"), date=["1900", "1900"])
    assert (places(found, "overlap"), places(found, "double-row")) == ([], [(3, None)])


def test_a_gap_says_which_numbers_are_missing_with_their_zeros():
    found = of_blocks(("0100001", "0110000"), ("0120001", "0130000"), ("0130002", "0140000"))
    assert places(found, "gap") == [(3, "first"), (4, "first")]
    assert "the numbers 0110001 to 0120000 are" in found[0].text
    assert "the number 0130001 is" in found[1].text


def test_a_gap_where_the_digits_become_more_is_told():
    assert places(of_blocks(("800000", "950000"), ("1000000", "1010000")), "gap") == [(3, "first")]
    assert places(of_blocks(("800000", "999999"), ("1000000", "1010000")), "gap") == []


def test_numbers_of_fixed_width_have_a_gap_where_the_zero_ends_but_a_last_series_with_zeros_may_end_anywhere():
    assert places(of_blocks(("080001", "090000"), ("100000", "110000")), "gap") == [(3, "first")]
    assert places(of_blocks(("100000", "110000"), ("080001", "090000")), "gap") == []


def test_issue_order_is_the_order_column_not_the_file():
    assert places(of_blocks(("080001", "090000"), ("100000", "110000"), order=["2", "1"]), "gap") == []


def test_the_file_may_be_in_any_order_of_numbers_without_false_gaps():
    assert of_blocks(("300", "399"), ("100", "199"), ("200", "299")) == []


def test_quantity_is_last_less_first_plus_one():
    found = of_blocks(
        ("2000001", "2025000"), ("2025001", "2050000"), ("2050001", "2060000"), quantity=["25000", "24999", ""]
    )
    assert places(found, "quantity-differs") == [(3, "quantity")]
    assert "25,000" in found[0].text
    assert "24,999" in found[0].text


def test_a_block_of_one_number_is_a_block():
    assert of_blocks(("7", "7"), ("8", "8")) == []
    assert of_blocks(("0", "9"), ("10", "10")) == []


def test_ends_that_do_not_fit_are_errors_and_spoil_no_other_check():
    found = of_blocks(("100", "199"), ("299", "200"), ("0300", "10399"), ("x", "499"), ("200", "499"))
    assert places(found, "first-after-last") == [(3, "first")]
    assert places(found, "unequal-digits") == [(4, "first")]
    assert places(found, "bad-number") == [(5, "first")]
    assert places(found, "overlap") == []


NUMBERS = st.text("0123456789", min_size=1, max_size=3)


@given(st.lists(st.tuples(NUMBERS, NUMBERS), min_size=1, max_size=8))
def test_overlaps_are_told_exactly_when_some_number_lies_in_two_blocks(blocks):
    def held(first, last):
        """Every number of a sound block as it would be stamped, straight from the design; none of a faulty one."""
        if len(first) == len(last):
            return {str(number).zfill(len(first)) for number in range(int(first), int(last) + 1)}
        if first.startswith("0") and len(first) > 1:
            return set()
        return {str(number) for number in range(int(first), int(last) + 1)}

    found = of_blocks(*blocks)
    assume(not places(found, "lost-zero"))  # what is put back before overlaps are looked for has tests of its own
    faulty = {one.row - 2 for one in found if one.code in ("first-after-last", "unequal-digits")}
    numbers = [set() if place in faulty else held(*block) for place, block in enumerate(blocks)]
    shared = any(numbers[one] & numbers[other] for one in range(len(blocks)) for other in range(one))
    assert shared == bool(places(found, "overlap") + places(found, "double-row"))
