"""A register in order of issue: where the marks stand, and how series, works and dates are told apart."""

from __future__ import annotations

from itertools import pairwise

import pytest

from bot.pictures import alt_text
from bot.pictures.labels import Area
from bot.pictures.shapes import MARKED, PAPER, QUIET, STYLES, Box, Line, Mark
from tests.bot.pictures.small import THREE_SERIES, asked, in_blocks, known, line_of, picture_of, place_marked, table


def test_marks_stand_in_order_of_issue_and_not_in_order_of_numbers() -> None:
    knowledge = known(THREE_SERIES)
    serials = ("Q200500", "Q399000", "Q1000500", "Q1999999", "Q0000017", "Q0204117")
    places = [place_marked(picture_of(f"serial {serial}", knowledge)) for serial in serials]
    assert places == sorted(places)
    assert len(set(places)) == len(places)
    assert [int(serial[1:]) for serial in serials] != sorted(int(serial[1:]) for serial in serials)


def test_later_dates_stand_higher() -> None:
    knowledge = known(THREE_SERIES)

    def height(serial: str) -> float:
        shapes = picture_of(f"serial {serial}", knowledge).shapes
        return next(shape.y for shape in shapes if isinstance(shape, Mark) and shape.fill == MARKED)

    assert height("Q200500") > height("Q1500500") > height("Q0204117")


def test_the_same_digits_with_another_count_are_marked_more_lightly() -> None:
    picture = picture_of("serial Q0204117", known(THREE_SERIES))
    lighter = [shape for shape in picture.shapes if isinstance(shape, Mark) and shape.outline == QUIET]
    assert len(lighter) == 1
    assert lighter[0].x < place_marked(picture)
    words = [text.text for text in picture.texts()]
    assert "if 6 digits: Q204117" in words
    assert "1 January 1890" in words


def test_a_stretch_is_as_long_as_the_quantity_of_its_block() -> None:
    line = line_of(
        "serial Q100500", known([("Q", "100001", "110000", "", "1900"), ("Q", "110001", "140000", "", "1901")])
    )
    assert [stretch.size for stretch in line.stretches] == [10_000, 30_000]
    assert [stretch.start for stretch in line.stretches] == [0, 10_000]


def test_a_batch_not_used_up_is_shorter_and_a_quantity_beyond_the_block_is_not_believed() -> None:
    rows = [
        ("Q", "100001", "110000", "", "1900", "", "", "400"),
        ("Q", "110001", "120000", "", "1901", "", "", "99999999"),
    ]
    assert [stretch.size for stretch in line_of("serial Q100500", known(rows)).stretches] == [400, 10_000]


def test_the_three_series_of_a_prefix_are_told_apart_by_name() -> None:
    bands = line_of("serial Q204117", known(THREE_SERIES)).bands
    assert [band.name for band in bands] == ["6 digits", "7 digits", "7 digits, first a zero"]
    assert all(before.end == after.start for before, after in pairwise(bands))


def test_the_zero_led_series_of_a_list_by_years_is_named_so_too() -> None:
    registers = table("registers", ("register", "maker", "kind"), [("r", "m", "year-starts")])
    firsts = ("500000", "900000", "1000000", "0000001", "0400001")
    starts = table(
        "year-starts", ("register", "prefix", "first", "date"),
        [("r", "Q", first, str(1903 + place)) for place, first in enumerate(firsts)],
    )  # fmt: skip
    bands = line_of("serial Q0000117", known([], registers, starts)).bands
    assert [band.name for band in bands] == ["6 digits", "7 digits", "7 digits, first a zero"]


def test_no_line_to_a_label_runs_behind_another_label() -> None:
    rows = [
        ("Q", "100001", "150000", "", "1905-03-02", "ida", "a"),
        ("Q", "140001", "160000", "", "1906", "ida", "b"),
        ("Q", "145000", "145999", "", "1907~", "ida", "b"),
        ("Q", "200001", "999999", "", "1908/1910", "ida", "a"),
        ("Q", "1000000", "9999999", "", "1911/1920", "ida", "a"),
        ("Q", "0000001", "0500000", "", "1921/..", "ida", "a"),
    ]
    shapes = picture_of("serial Q145500", known(rows)).shapes
    boxes = [shape for shape in shapes if isinstance(shape, Box) and shape.fill == PAPER and shape.outline]
    areas = [Area(box.x, box.y, box.x + box.width, box.y + box.height) for box in boxes if box.height > 20]
    marks = {(shape.x, shape.y) for shape in shapes if isinstance(shape, Mark)}
    lines = [shape for shape in shapes if isinstance(shape, Line) and not shape.is_dashed and len(shape.points) == 2]
    leaders = [(line.points[0], line.points[1]) for line in lines if line.points[0] in marks]
    assert len(areas) == len(leaders) == 4
    assert not [leader for leader in leaders for area in areas if area.is_crossed(leader)]


@pytest.mark.parametrize(
    ("when", "title"),
    [
        ("1931", "Q104117: allocated in 1931"),
        ("1931-05", "Q104117: allocated in May 1931"),
        ("1931-05-04", "Q104117: allocated 4 May 1931"),
        ("1931~", "Q104117: allocated about 1931"),
        ("1930/1932", "Q104117: allocated between 1930 and 1932"),
    ],
)
def test_the_title_reads_as_a_sentence(when: str, title: str) -> None:
    assert picture_of("serial Q104117", known([("Q", "100001", "110000", "", when)])).title == title


def test_numbers_filled_up_with_zeros_from_the_start_are_one_series() -> None:
    rows = [
        ("Q", "000001", "090000", "", "1900"),
        ("Q", "090001", "130000", "", "1901"),
        ("Q", "130001", "160000", "", "1902"),
    ]
    assert [band.name for band in line_of("serial Q100500", known(rows)).bands] == ["6 digits"]


def test_a_plain_count_that_passes_powers_of_ten_is_one_series() -> None:
    rows = [("", "1", "150", "", "1870"), ("", "151", "900", "", "1871"), ("", "901", "20000", "", "1872")]
    assert [band.name for band in line_of("serial number 12345", known(rows)).bands] == ["plain count, 1 to 5 digits"]


def test_a_last_year_without_an_end_leaves_the_other_years_room() -> None:
    registers = table("registers", ("register", "maker", "kind"), [("r", "m", "year-starts")])
    starts = table(
        "year-starts", ("register", "prefix", "first", "date"),
        [("r", "Q", str(100_000 + 5_000 * place), str(1900 + place)) for place in range(20)],
    )  # fmt: skip
    knowledge = known([], registers, starts)
    line = line_of("serial Q120500", knowledge)
    assert line.stretches[-1].is_open
    assert line.stretches[-1].size == 5_000
    assert line.bands[0].last == ""
    assert "999999" not in alt_text(asked("serial Q120500", knowledge), knowledge)


def test_a_number_far_out_in_an_open_block_is_still_on_the_page() -> None:
    registers = table("registers", ("register", "maker", "kind"), [("r", "m", "year-starts")])
    starts = table(
        "year-starts", ("register", "prefix", "first", "date"), [("r", "Q", "100", "1900"), ("r", "Q", "900", "1901")]
    )
    assert place_marked(picture_of("serial Q777123", known([], registers, starts))) < 1000


def test_works_are_told_apart_by_colour_and_by_shape() -> None:
    picture = picture_of("serial Q204117", known(in_blocks("Q", 200_001, 6, "1890-01-01", 60, ("a", "b", "c"))))
    signs = {(mark.shape, mark.outline) for mark in picture.shapes if isinstance(mark, Mark) and mark.radius == 8}
    assert {(style.shape, style.colour) for style in STYLES[:3]} <= signs
    assert {"Lower Mill", "Quayside Works", "Upper Mill"} <= {text.text for text in picture.texts()}


def test_a_number_that_two_works_used_has_two_marks() -> None:
    rows = [("Q", "200001", "210000", "", "1890", "ida", "a"), ("Q", "200001", "210000", "", "1902", "ida", "b")]
    picture = picture_of("serial Q204117", known(rows))
    assert "or: Q204117" in {text.text for text in picture.texts()}
    assert picture.title == "Q204117: allocated in 1890 or 1902"


def test_blocks_without_a_date_are_grey_and_the_small_print_says_so() -> None:
    rows = [
        ("Q", "100001", "110000", "", "1900"),
        ("Q", "110001", "120000", "", ""),
        ("Q", "120001", "130000", "", "1902"),
    ]
    picture = picture_of("serial Q104117", known(rows))
    assert "Grey: 1 block without a date." in {text.text for text in picture.texts()}


@pytest.mark.parametrize(("when", "arrow"), [("1900/..", "arrow-up"), ("../1900", "arrow-down")])
def test_a_date_with_an_open_end_has_an_arrow(when: str, arrow: str) -> None:
    rows = [("Q", "100001", "110000", "", when), ("Q", "110001", "120000", "", "1905")]
    picture = picture_of("serial Q104117", known(rows))
    assert arrow in {shape.shape for shape in picture.shapes if isinstance(shape, Mark)}
