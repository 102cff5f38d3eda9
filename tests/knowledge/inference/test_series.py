"""What follows for a number between sightings: dates, models, disagreement, and what is wrong."""

from __future__ import annotations

import random
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.edtf import parse
from knowledge.inference import Inferred, Point, Series, infer


def seen(order: int, when: str, model: str = "", sold: bool = False) -> Point:
    return Point.of(order, parse(when), f"number {order}, {when}", model, sold)


def span(order: int, *points: Point) -> tuple[str, str] | None:
    found = infer(order, points)
    return (str(found.earliest), str(found.latest)) if found else None


@st.composite
def sightings(draw: st.DrawFn) -> list[Point]:
    """Anything: disagreeing, open on either side, several of one number."""
    points = []
    for _ in range(draw(st.integers(1, 25))):
        day, days = (
            date(1900, 1, 1) + timedelta(draw(st.integers(0, 9000))),
            draw(st.sampled_from((0, 0, 30, 365, 3650))),
        )
        earliest = draw(st.sampled_from((day, day, day, date.min)))
        latest = draw(st.sampled_from((day + timedelta(days),) * 3 + (date.max,)))
        points.append(Point(draw(st.integers(0, 40)), earliest, latest, "seen", draw(st.sampled_from(("", "9", "12")))))
    return points


class TestWhereSightingsAgree:
    def test_a_number_is_dated_from_the_one_before_to_the_one_after_and_both_are_named(self) -> None:
        found = infer(500, [seen(900, "1913-05-01"), seen(100, "1911"), seen(50, "1905"), seen(990, "1920")])
        assert found is not None
        assert (found.earliest, found.latest) == (date(1911, 1, 1), date(1913, 5, 1)) == found.bracket
        assert (found.before.name, found.after.name) == ("number 100, 1911", "number 900, 1913-05-01")
        assert found.agree

    def test_a_vague_sighting_nearby_does_not_hide_an_exact_one_further_off(self) -> None:
        found = infer(500, [seen(100, "1911-03"), seen(490, "19XX"), seen(510, "1900/1950"), seen(900, "1912-07")])
        assert found is not None
        assert (found.earliest, found.latest) == (date(1911, 3, 1), date(1912, 7, 31))
        assert (found.before.order, found.after.order) == (100, 900)

    def test_open_spans_bound_one_side(self) -> None:
        assert span(500, seen(100, "1911/.."), seen(900, "../1912")) == ("1911-01-01", "1912-12-31")
        assert span(500, seen(100, "1911/.."), seen(300, "../1920"), seen(900, "1912/..")) is None

    def test_nothing_follows_outside_or_with_sightings_on_one_side_alone(self) -> None:
        both = seen(100, "1911"), seen(900, "1913")
        assert span(50, *both) is None
        assert span(950, *both) is None
        assert span(500, seen(100, "1911"), seen(200, "1912")) is None
        assert span(500) is None

    def test_a_sale_is_later_than_the_issue(self) -> None:
        points = seen(100, "1911-06-01", sold=True), seen(900, "1913-05-01", sold=True)
        assert span(500, *points) == ("1908-06-01", "1913-05-01")

    def test_the_number_itself_is_dated_by_the_others(self) -> None:
        assert span(500, seen(100, "1911"), seen(500, "1930"), seen(900, "1913")) == ("1911-01-01", "1913-12-31")

    @given(sightings(), st.integers(0, 40))
    def test_the_span_is_what_every_pair_of_bounds_leaves(self, points: list[Point], order: int) -> None:
        """The judge looks at every pair; nothing else may decide where all agree."""
        others = [one for one in points if one.order != order]
        agree = all(a.earliest <= b.latest for a in others for b in others if a.order <= b.order)
        if not agree:
            return
        lows = [one.earliest for one in others if one.order < order] or [date.min]
        highs = [one.latest for one in others if one.order > order] or [date.max]
        found = infer(order, points)
        if date.min < max(lows) and min(highs) < date.max:
            assert found is not None
            assert (found.earliest, found.latest) == (max(lows), min(highs)) == found.bracket
        else:
            assert found is None or not found.dated


class TestWhereSightingsDisagree:
    def test_the_span_holds_the_dates_of_both_sides(self) -> None:
        found = infer(500, [seen(100, "1915"), seen(900, "1911")])
        assert found is not None
        assert (found.earliest, found.latest) == (date(1911, 1, 1), date(1915, 12, 31))
        assert not found.agree

    def test_two_dates_of_one_number_both_count(self) -> None:
        points = seen(100, "1905"), seen(300, "1911"), seen(300, "1914"), seen(900, "1920")
        assert span(200, *points) == ("1905-01-01", "1914-12-31")
        assert span(600, *points) == ("1911-01-01", "1920-12-31")

    def test_a_series_that_disagrees_here_is_doubted_there_too(self) -> None:
        days = [date(1900, 1, 1) + timedelta(200 * at + (900 if at % 3 == 0 else 0)) for at in range(40)]
        series = Series(Point(10 * at, day, day, f"{at}") for at, day in enumerate(days))
        assert 300 <= series.reach <= 900
        found = series.infer(205)
        assert found is not None
        assert found.before.earliest <= found.earliest < days[20] < found.latest <= found.after.latest

    def test_one_wrong_receipt_is_set_aside_and_changes_no_other_span(self) -> None:
        right = [seen(100 * at, str(1900 + at)) for at in range(1, 12)]
        for wrong in (seen(450, "1951"), seen(450, "1850"), seen(50, "1930"), seen(1150, "1870")):
            series = Series([*right, wrong])
            assert series.set_aside == (wrong,)
            assert series.agrees
            assert [series.infer(at) for at in range(110, 1100, 100)] == [
                Series(right).infer(at) for at in range(110, 1100, 100)
            ]

    def test_where_many_are_decades_off_nobody_knows_which_and_none_is_set_aside(self) -> None:
        series = Series(seen(at, str(1900 + at * 37 % 100)) for at in range(20))
        assert series.set_aside == ()
        found = series.infer(9) or series.infer(10)
        assert found is not None
        assert found.latest.year - found.earliest.year > 30

    @given(sightings(), st.integers(0, 40))
    def test_a_span_is_never_wider_than_the_bracket_and_the_bracket_never_wider_than_needed(
        self, points: list[Point], order: int
    ) -> None:
        series = Series(one for one in points if one.order != order)
        found = series.infer(order)
        if found is None or not found.dated:
            return
        start, end = found.bracket
        assert start <= found.earliest <= found.latest <= end
        assert found.before.order < order < found.after.order
        kept = [one for one in points if one.order != order and one not in series.set_aside]
        closer = [one for one in kept if one.order < order and start < one.earliest <= found.earliest]
        assert not closer, "a sighting before encloses the span more closely"
        closer = [one for one in kept if one.order > order and found.latest <= one.latest < end]
        assert not closer, "a sighting after encloses the span more closely"
        starts = {one.earliest for one in kept} | {one.latest for one in kept}
        assert {start, end} <= starts, "the bracket ends at days that sightings tell"

    @given(sightings(), st.integers(0, 40), st.randoms(use_true_random=False))
    def test_the_order_in_which_sightings_come_in_does_not_matter(
        self, points: list[Point], order: int, rng: random.Random
    ) -> None:
        def told(found: Inferred | None) -> object:
            return found and (found.earliest, found.latest, found.bracket, found.model, found.agree)

        shuffled = rng.sample(points, len(points))
        assert told(infer(order, points)) == told(infer(order, shuffled))


class TestModels:
    def test_a_model_seen_on_both_sides_follows(self) -> None:
        found = infer(500, [seen(100, "1911", "9"), seen(900, "1913", "9")])
        assert found is not None
        assert found.model == "9"
        assert found.showing == (found.before, found.after)

    @pytest.mark.parametrize(
        "points",
        [
            (seen(100, "1911", "9"), seen(900, "1913", "12")),
            (seen(100, "1911", "9"), seen(400, "1912", "12"), seen(900, "1913", "9")),
            (seen(100, "1911", "9"), seen(100, "1911", "12"), seen(900, "1913", "9")),
            (seen(100, "1911", "9"), seen(500, "1912", "12"), seen(900, "1913", "9")),
            (seen(100, "1911", "9"), seen(900, "1913")),
            (
                seen(100, "1911", "9"),
                seen(400, "1999", "12"),
                seen(700, "1912"),
                seen(800, "1912"),
                seen(900, "1913", "9"),
            ),
        ],
        ids=["two models", "another between", "one number, two models", "the number itself", "one side", "set aside"],
    )
    def test_a_model_that_anything_contradicts_does_not(self, points: tuple[Point, ...]) -> None:
        found = infer(500, points)
        assert found is not None
        assert found.model == ""
        assert found.dated

    def test_sightings_that_show_no_model_do_not_stand_between(self) -> None:
        found = infer(500, [seen(100, "1911", "9"), seen(400, "1912"), seen(600, "1912"), seen(900, "1913", "9")])
        assert found is not None
        assert found.model == "9"
        assert [one.order for one in (found.before, found.after, *(found.showing or ()))] == [400, 600, 100, 900]

    def test_the_model_alone_follows_where_no_date_is_known(self) -> None:
        unknown = [Point(order, date.min, date.max, "seen", "9") for order in (100, 900)]
        found = infer(500, unknown)
        assert found is not None
        assert (found.model, found.dated, found.earliest, found.latest) == ("9", False, date.min, date.max)
        assert infer(100, unknown) is None


def test_a_series_asked_again_says_the_same_and_as_one_made_for_the_question() -> None:
    rng = random.Random(5)
    points = [seen(rng.randrange(300), str(1900 + rng.randrange(30)), rng.choice(("", "9", "12"))) for _ in range(40)]
    series = Series(points)
    for order in rng.choices(range(300), k=200):
        assert series.infer(order) == infer(order, points)


def test_ten_thousand_sightings_give_spans_of_the_same_series_thinned() -> None:
    """More sightings never make exact ones say less."""
    days = [date(1900, 1, 1) + timedelta(at) for at in range(10_000)]
    many = Series(Point(at * 2, day, day, "seen") for at, day in enumerate(days))
    few = Series(Point(at * 2, days[at], days[at], "seen") for at in range(0, 10_000, 100))
    for order in range(1, 19_700, 971):
        fine, coarse = many.infer(order), few.infer(order)
        assert fine is not None
        assert coarse is not None
        assert coarse.earliest <= fine.earliest <= fine.latest <= coarse.latest
        assert (fine.latest - fine.earliest).days <= 2
