"""The rows of a pack with changes laid over them: in their places, whatever the pack says meanwhile, and none lost."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.register_changes.nouns import RegisterChange, Row, as_row
from knowledge.register_changes.overlay import IN_THE_PACK, LAID_OVER, ROW_GONE, laid_over, standing


def row(first: str, last: str = "", date: str = "1890", **cells: str) -> Row:
    return as_row("allocations", {"register": "list", "prefix": "K", "first": first, "last": last or first,
                                  "date": date, **cells})  # fmt: skip


def changes(*pairs: tuple[Row | None, Row | None]) -> list[RegisterChange]:
    return [RegisterChange("ours", "allocations", was, is_, at) for at, (was, is_) in enumerate(pairs, 1)]


def laid(rows: Sequence[Row], *pairs: tuple[Row | None, Row | None]) -> list[Row]:
    return [one for one, _ in laid_over("allocations", lambda: rows, changes(*pairs))]


def how(rows: Sequence[Row], *pairs: tuple[Row | None, Row | None]) -> list[str]:
    return [one.how for one in standing("allocations", rows, changes(*pairs))]


A, B, C = row("100"), row("200"), row("300")
A2, A3 = row("100", date="1891"), row("100", date="1892")


def test_a_corrected_row_stands_where_the_row_stood() -> None:
    assert laid([A, B, C], (B, row("200", date="1899"))) == [A, row("200", date="1899"), C]


def test_a_row_taken_out_is_gone() -> None:
    assert laid([A, B, C], (B, None)) == [A, C]


@pytest.mark.parametrize(
    ("new", "place"),
    [("250", 2), ("400", 3), ("150", 1), ("050", 3), ("99", 0), ("1000", 3)],
)
def test_a_new_row_stands_where_its_number_was_issued(new: str, place: int) -> None:
    assert laid([A, B, C], (None, row(new))).index(row(new)) == place


def test_a_new_row_of_other_letters_stands_at_the_end_of_its_register() -> None:
    other = as_row("allocations", {"register": "other", "first": "1", "last": "2", "date": "1900"})
    new = row("100", prefix="Z")
    assert laid([A, B, other], (None, new)) == [A, B, new, other]


def test_new_rows_stand_in_order_among_each_other() -> None:
    assert laid([A, C], (None, row("220")), (None, row("210"))) == [A, row("210"), row("220"), C]


def test_a_row_corrected_twice_is_as_it_was_corrected_last() -> None:
    assert laid([A, B], (A, A2), (A2, A3)) == [A3, B]


def test_a_correction_that_was_taken_back_leaves_the_row_as_it_was() -> None:
    assert laid([A, B], (A, A2), (A2, A)) == [A, B]


def test_a_new_row_that_was_taken_out_again_is_gone() -> None:
    assert laid([A], (None, B), (B, None)) == [A]


def test_a_pack_that_took_the_change_over_is_as_it_is() -> None:
    assert laid([A2, B], (A, A2)) == [A2, B]
    assert how([A2, B], (A, A2)) == [IN_THE_PACK]


def test_a_pack_that_took_the_first_of_two_corrections_over_still_gets_the_second() -> None:
    assert laid([A2, B], (A, A2), (A2, A3)) == [A3, B]
    assert how([A2, B], (A, A2), (A2, A3)) == [LAID_OVER, LAID_OVER]


def test_a_pack_that_has_the_new_row_has_it_once() -> None:
    assert laid([A, B], (None, B)) == [A, B]
    assert how([A, B], (None, B)) == [IN_THE_PACK]


def test_a_change_whose_row_is_gone_changes_nothing_and_is_told() -> None:
    assert laid([B, C], (A, A2)) == [B, C]
    assert how([B, C], (A, A2), (B, None)) == [ROW_GONE, LAID_OVER]


def test_of_two_equal_rows_the_first_is_changed() -> None:
    assert laid([A, A, B], (A, A2)) == [A2, A, B]


ROWS = st.lists(st.sampled_from([row(first, date=date) for first in ("1", "2", "01") for date in ("1890", "1891")]),
                unique=True)  # fmt: skip


@given(ROWS, st.data())
def test_changes_that_are_agreed_to_one_after_another_come_to_the_same_as_all_at_once(rows, data) -> None:
    made: list[tuple[Row | None, Row | None]] = []
    now = list(rows)
    for number in range(1, data.draw(st.integers(1, 5)) + 1):
        before = data.draw(st.sampled_from([None, *now]))
        after = data.draw(st.sampled_from([None, row("7", date=str(1900 + number)), row("3", date=str(1900 + number))]))
        if before is None and after is None:
            continue
        now = laid(now, (before, after))
        made.append((before, after))
    assert sorted(laid(rows, *made)) == sorted(now)
