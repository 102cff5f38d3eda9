"""Blocks: which numbers a block holds, that every block is found, and that issue order is not number order."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from knowledge.registers import LONGEST, Block, BlockRow, Blocks


def row(first: str, last: str, prefix: str = "", suffix: str = "", order: str = "", **cells: str) -> BlockRow:
    empty = dict.fromkeys(BlockRow._fields, "")
    return BlockRow(**empty | {"register": "list"} | cells)._replace(
        first=first, last=last, prefix=prefix, suffix=suffix, order=order
    )


def filled(*rows: BlockRow) -> Blocks:
    blocks = Blocks()
    blocks.extend(rows)
    return blocks


def held(blocks: Blocks, digits: str, prefix: str = "", suffix: str = "") -> list[Block]:
    return [blocks.block(found) for found in blocks.covering(prefix, digits, suffix)]


def test_both_ends_belong_to_a_block() -> None:
    blocks = filled(row("200001", "225000", "K"))
    assert [bool(held(blocks, digits, "K")) for digits in ("200000", "200001", "225000", "225001")] == [
        False, True, True, False,
    ]  # fmt: skip


def test_the_number_of_digits_is_part_of_the_number() -> None:
    blocks = filled(row("0200001", "0225000"), row("200001", "225000"))
    assert [block.first for block in held(blocks, "0204117")] == ["0200001"]
    assert [block.first for block in held(blocks, "204117")] == ["200001"]
    assert held(blocks, "00204117") == []


def test_prefix_and_suffix_must_be_equal() -> None:
    blocks = filled(row("1", "9", "K", "B"))
    assert held(blocks, "5", "K", "B")
    assert not held(blocks, "5", "K")
    assert not held(blocks, "5", "", "B")


def test_a_count_that_passes_a_power_of_ten_holds_numbers_of_either_width_but_no_leading_zero() -> None:
    blocks = filled(row("950", "1020"))
    assert held(blocks, "999")
    assert held(blocks, "1000")
    assert not held(blocks, "0999")


def test_every_block_that_holds_the_number_is_found() -> None:
    blocks = filled(row("1", "9", date="a"), row("5", "5", date="b"), row("1", "4", date="c"), row("4", "9", date="d"))
    assert sorted(block.date for block in held(blocks, "5")) == ["a", "b", "d"]


def test_a_block_is_given_back_as_the_list_states_it() -> None:
    blocks = filled(row("0000001", "0025000", "K", date="1921", model="m", works="w", source="s", note="n"))
    assert blocks.block(0) == Block(0, "list", "K", "0000001", "0025000", "", "1921", "m", "w", 25000, "s", "n")


def test_a_stated_quantity_is_kept_even_where_it_differs() -> None:
    assert filled(row("1", "10", quantity="7")).block(0).quantity == 7


def test_numbers_longer_than_any_block_are_in_none() -> None:
    blocks = filled(row("1", "9" * LONGEST))
    assert held(blocks, "9" * LONGEST)
    assert held(blocks, "9" * 100_000) == []
    assert held(blocks, "") == []


def test_issue_order_is_kept_apart_from_number_order() -> None:
    zero_led, six, seven = (
        row("0000001", "0999999", "K", order="3"),
        row("1", "999999", "K", order="1"),
        row("1000000", "9999999", "K", order="2"),
    )
    issued = filled(zero_led, six, seven).in_issue_order("list", "K")
    assert [block.first for block in issued] == ["1", "1000000", "0000001"]


def test_without_an_order_the_rows_stand_as_the_file_has_them() -> None:
    issued = filled(row("5", "9"), row("1", "4")).in_issue_order("list", "")
    assert [block.first for block in issued] == ["5", "1"]


def test_a_row_that_tells_no_order_follows_the_row_above() -> None:
    rows = row("1", "4", order="2"), row("5", "9"), row("10", "14", order="1")
    assert [block.first for block in filled(*rows).in_issue_order("list", "")] == ["10", "1", "5"]


ENDS = st.tuples(st.integers(0, 2_000), st.integers(0, 300), st.booleans())


def _row(ends: tuple[int, int, bool]) -> BlockRow:
    first, length, padded = ends
    return row(str(first).zfill(4), str(first + length).zfill(4)) if padded else row(str(first), str(first + length))


def _holds(one: BlockRow, digits: str) -> bool:
    """State the rule of the design: equal widths, or a plain count without leading zeros."""
    if len(one.first) == len(one.last):
        return len(digits) == len(one.first) and one.first <= digits <= one.last
    return (digits == "0" or digits[0] != "0") and int(one.first) <= int(digits) <= int(one.last)


@given(st.lists(ENDS, max_size=30), st.integers(0, 2_400), st.integers(1, 5))
def test_covering_is_what_a_look_at_every_row_finds(ends: list[tuple[int, int, bool]], number: int, width: int) -> None:
    rows = [_row(one) for one in ends]
    digits = str(number).zfill(width)
    assert sorted(filled(*rows).covering("", digits, "")) == [at for at, one in enumerate(rows) if _holds(one, digits)]


@given(st.lists(ENDS, max_size=20), st.text("?0123456789", min_size=1, max_size=4))
def test_matching_counts_the_numbers_of_a_pattern_in_each_block(
    ends: list[tuple[int, int, bool]], pattern: str
) -> None:
    rows = [_row(one) for one in ends]
    numbers = [str(number).zfill(len(pattern)) for number in range(10 ** len(pattern))]
    fitting = [n for n in numbers if all(p in ("?", d) for p, d in zip(pattern, n, strict=True))]
    counts = ((at, sum(_holds(one, number) for number in fitting)) for at, one in enumerate(rows))
    assert sorted(filled(*rows).matching("", pattern, "")) == [(at, count) for at, count in counts if count]


def test_small_letters_of_a_list_are_the_letters_on_the_machine() -> None:
    blocks = filled(row("1", "9", "k"), row("10", "19", "K"))
    assert held(blocks, "5", "K")
    assert held(blocks, "15", "K")
    assert {key[0] for key in blocks.shapes()} == {"K"}
