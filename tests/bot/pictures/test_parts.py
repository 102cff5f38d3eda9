"""The parts of a layout: places for labels, ticks of an axis, texts that fit, signs."""

from __future__ import annotations

from datetime import date
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.pictures.fonts import fitted, width_of, wrapped
from bot.pictures.labels import Area, Leader, Wanted, in_rows, place_all, shared
from bot.pictures.scales import date_ticks
from bot.pictures.shapes import STYLES, Mark, outline_of


def test_a_label_is_placed_clear_of_others_and_of_the_line() -> None:
    page, line = Area(0, 0, 400, 300), [(float(x), 300 - 0.75 * x) for x in range(0, 400, 5)]
    taken = [Area(188, 138, 212, 162)]
    for _ in range(3):
        (area,) = place_all([Wanted((200, 150), 90, 40)], page, taken, line)
        assert area is not None
        assert page.holds(area)
        assert not any(area.overlaps(other) for other in taken)
        assert not any(area.left < x < area.right and area.top < y < area.foot for x, y in line)
        taken.append(area)


@pytest.mark.parametrize(
    ("line", "crosses"),
    [
        (((0, 50), (100, 50)), True),
        (((0, 0), (100, 100)), True),
        (((50, 50), (50, 55)), True),
        (((0, 0), (30, 50)), False),
        (((0, 0), (100, 0)), False),
        (((50, 0), (50, 39)), False),
        (((0, 90), (90, 180)), False),
    ],
)
def test_a_line_through_an_area_is_told(line: Leader, crosses: bool) -> None:
    assert Area(40, 40, 60, 60).is_crossed(line) is crosses


def test_a_label_that_finds_no_room_is_left_out() -> None:
    page = Area(0, 0, 100, 100)
    assert place_all([Wanted((50, 50), 40, 40)], page, [page], []) == [None]


def test_a_label_without_a_place_leaves_the_others_theirs() -> None:
    page = Area(0, 0, 100, 100)
    small, large = Wanted((50, 50), 20, 20), Wanted((50, 50), 500, 20)
    placed = place_all([small, large, small], page, [], [])
    assert [area is not None for area in placed] == [True, False, True]


def test_where_lines_to_labels_cannot_be_kept_clear_the_labels_still_are() -> None:
    page = Area(0, 0, 100, 100)
    placed = [area for area in place_all([Wanted((3, 50), 90, 14)] * 5, page, [], []) if area is not None]
    assert len(placed) > 2
    assert not any(one.overlaps(other) for one, other in combinations(placed, 2))


def test_labels_in_a_strip_go_to_further_rows_before_they_are_left_out() -> None:
    wanted = [(50.0, 80.0)] * 3
    placed = in_rows(wanted, (0, 100), 2, 5)
    assert [place and place[0] for place in placed] == [0, 1, None]


@given(st.lists(st.floats(1, 300), min_size=1, max_size=8), st.floats(10, 1500))
def test_a_shared_width_is_never_exceeded_and_small_wishes_come_first(wanted: list[float], whole: float) -> None:
    shares = shared(wanted, whole)
    assert sum(shares) <= max(whole, 0) + 1e-6
    assert all(share <= want for share, want in zip(shares, wanted, strict=True))
    if sum(wanted) <= whole:
        assert shares == wanted


@given(st.dates(date(1000, 1, 1)), st.integers(20, 300_000), st.integers(4, 9))
def test_ticks_of_dates_are_few_in_order_and_within_the_axis(first: date, length: int, most: int) -> None:
    low = float(first.toordinal())
    high = min(low + length, float(date.max.toordinal()))
    ticks = date_ticks(low, high, most)
    days = [day for day, _ in ticks]
    assert days == sorted(set(days))
    assert len(days) <= most + 1
    assert all(low <= day <= high for day in days)


@given(st.text(max_size=80), st.floats(40, 400))
def test_a_text_that_is_made_to_fit_fits(text: str, width: float) -> None:
    assert width_of(fitted(text, width, 18), 18) <= width
    lines = wrapped(text, width, 18, 2)
    assert len(lines) <= 2
    assert all(width_of(line, 18) <= width for line in lines)


@pytest.mark.parametrize("style", STYLES)
def test_every_works_has_a_sign_with_corners_of_its_own_or_a_disc(style) -> None:
    assert (style.shape == "disc") == (not outline_of(Mark(style.shape, 0, 0, 1, style.colour)))
