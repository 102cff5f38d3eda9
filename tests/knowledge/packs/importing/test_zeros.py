"""Tests of importing/zeros.py."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from knowledge.packs.importing.zeros import Block, propose


def blocks(*numbers: tuple[str, str], prefix: str = "K", since: str = "") -> list[Block]:
    return [Block(row, prefix, "", first, last, since) for row, (first, last) in enumerate(numbers, 2)]


def proposed(*numbers: tuple[str, str], digits: int = 0) -> dict[int, str]:
    return {repair.row: repair.new for repair in propose(blocks(*numbers), digits)}


def test_a_zero_on_one_number_of_a_row_only_is_missed_on_the_other() -> None:
    assert proposed(("0200001", "225000")) == {2: "K0200001 to 0225000"}


def test_a_row_that_goes_on_from_a_zero_led_one_is_mended_and_so_are_those_below() -> None:
    found = propose(blocks(("0200001", "0225000"), ("225001", "250000"), ("250001", "275000")))
    assert [(repair.row, repair.old, repair.new) for repair in found] == [
        (3, "K225001 to 250000", "K0225001 to 0250000"),
        (4, "K250001 to 275000", "K0250001 to 0275000"),
    ]
    assert found[0].reason == "it goes on from 0200001 to 0225000 in the row above, which has 7 digits"
    assert found[0].cells == (("first", "0225001"), ("last", "0250000"))


def test_a_block_that_passes_into_full_width_gets_its_first_number_back_and_the_count_goes_on() -> None:
    rows = [("000001", "040000"), ("40001", "80000"), ("80001", "100000"), ("100001", "150000")]
    assert proposed(*rows) == {3: "K040001 to 080000", 4: "K080001 to 100000"}


def test_a_block_longer_than_the_series_above_is_left_alone() -> None:
    assert proposed(("000001", "040000"), ("40001", "1000000")) == {}


def test_rows_above_a_zero_led_one_that_goes_on_from_them_are_mended() -> None:
    assert proposed(("1", "25000"), ("25001", "50000"), ("0050001", "0075000")) == {
        2: "K0000001 to 0025000",
        3: "K0025001 to 0050000",
    }


def test_short_numbers_after_the_end_of_the_long_ones_are_the_zero_led_series() -> None:
    # Common practice, no source: the numbers that start with zero come at the very end, after 9999999.
    found = proposed(("9975001", "9999999"), ("1", "25000"), ("25001", "50000"))
    assert found == {3: "K0000001 to 0025000", 4: "K0025001 to 0050000"}


def test_an_earlier_date_shows_that_the_list_is_only_sorted_otherwise() -> None:
    later, earlier = blocks(("1000001", "1025000"), since="1925"), blocks(("100001", "125000"), since="1905")
    assert propose([*later, *earlier]) == []


def test_a_falling_list_is_left_alone() -> None:
    assert proposed(("1025001", "1050000"), ("1000001", "1025000"), ("975001", "999999")) == {}


def test_a_stated_number_of_digits_mends_every_shorter_number() -> None:
    assert proposed(("1", "25000"), ("1000001", "1025000"), digits=7) == {2: "K0000001 to 0025000"}
    assert proposed(("12345678", "12345699"), digits=7) == {}


def test_letters_are_counted_apart() -> None:
    assert propose([*blocks(("0200001", "0225000")), *blocks(("225001", "250000"), prefix="L")]) == []


def test_first_numbers_alone_are_mended_too() -> None:
    found = propose([Block(2, "", "", "0000001"), Block(3, "", "", "25001")])
    assert [repair.cells for repair in found] == [(("first", "0025001"),)]


@given(st.lists(st.integers(1, 5_000), min_size=1, max_size=60))
def test_a_plain_count_is_never_touched(sizes: list[int]) -> None:
    numbers, start = [], 1
    for size in sizes:
        numbers.append((str(start), str(start + size - 1)))
        start += size
    assert proposed(*numbers) == {}


@given(st.lists(st.integers(1, 5_000), min_size=2, max_size=60), st.integers(1, 30))
def test_zeros_eaten_below_one_good_row_are_all_offered_back(sizes: list[int], good: int) -> None:
    whole, start = [], 1
    for size in sizes:
        whole.append((f"{start:07}", f"{start + size - 1:07}"))
        start += size
    good = min(good, len(whole))
    # One more block, past the last number with a zero in front.
    whole.append((f"{start:07}", "1000000"))
    eaten = whole[:good] + [(first.lstrip("0"), last.lstrip("0")) for first, last in whole[good:]]
    assert proposed(*eaten) == {row: f"K{a} to {b}" for row, (a, b) in enumerate(whole, 2) if row - 2 >= good}
