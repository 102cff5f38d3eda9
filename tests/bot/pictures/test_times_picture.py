"""Datings without a block of numbers, and answers that date nothing."""

from __future__ import annotations

import pytest

from bot.pictures import can_draw, render
from bot.pictures.shapes import MARKED, Box
from knowledge.answer import answer
from knowledge.errors import BedstampError
from tests.bot.pictures.small import THREE_SERIES, code_register, known, picture_of, table


def test_every_year_a_date_code_may_stand_for_is_marked() -> None:
    picture = picture_of("serial T712345", known([], *code_register()))
    words = {text.text for text in picture.texts()}
    assert {"1927", "1937", "1947"} <= words
    assert picture.title == "T712345: allocated in 1927, 1937 or 1947"
    assert sum(1 for shape in picture.shapes if isinstance(shape, Box) and shape.fill == MARKED) == 3
    assert {"T", "7", "12345", "fixed sign", "year", "running number"} <= words


def test_two_lists_of_codes_of_one_maker_stand_on_one_axis() -> None:
    columns = ("register", "maker", "kind", "from", "to")
    registers = table(
        "registers", columns, [("r", "m", "date-code", "1920", "1929"), ("q", "m", "date-code", "1940", "1949")]
    )
    parts = [
        (register, place, length, "digits", means)
        for register in "rq"
        for place, length, means in (("1", "1", "year"), ("2", "6", "sequence"))
    ]
    codes = table("date-codes", ("register", "part", "length", "characters", "means"), parts)
    picture = picture_of("serial number 7123456", known([], registers, codes))
    assert {"1927", "1947", "Tillerby & Sons: 2 lists date this number"} <= {text.text for text in picture.texts()}


def test_a_number_of_no_block_shows_the_years_of_its_letters() -> None:
    prefixes = table("prefixes", ("register", "prefix", "date", "works"), [("r", "Q", "1890/1925", "a")])
    picture = picture_of("serial Q900117", known([("Q", "100001", "110000", "", "1900")], prefixes))
    assert picture.title == "Q900117: allocated between 1890 and 1925"
    assert "Tillerby & Sons: when Q was used. No block holds this very number." in {t.text for t in picture.texts()}


def test_digits_that_cannot_be_read_are_shown_with_all_they_may_mean() -> None:
    picture = picture_of("serial Q20?117", known(THREE_SERIES))
    assert picture.title == "Q20?117: allocated in January 1890"  # two blocks, of 1 and 31 January


def test_a_patent_is_said_to_give_the_earliest_date() -> None:
    registers = table(
        "registers", ("register", "maker", "kind", "title", "object", "introducer", "to"),
        [("r", "m", "year-starts", "Patents", "grant", "patent", "50000")],
    )  # fmt: skip
    starts = table(
        "year-starts", ("register", "first", "date"), [("r", "1", "1850"), ("r", "1200", "1851"), ("r", "3000", "1852")]
    )
    knowledge = known([], registers, starts)
    picture = picture_of("it says patent 2345 on the plate", knowledge)
    assert picture.title == "2345: patent granted in 1851"
    assert "earliest date" in picture.description


def test_nothing_to_draw_is_said_clearly() -> None:
    knowledge = known(THREE_SERIES)
    empty = answer("hello, what a nice day", knowledge)
    assert not can_draw(empty)
    with pytest.raises(BedstampError, match="nothing to draw"):
        render(empty, knowledge)
