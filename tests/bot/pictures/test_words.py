"""The words of a picture can be read: none lies on others, none leaves the page, long names are cut."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.pictures import alt_text, render
from tests.bot.pictures.small import (
    THREE_SERIES,
    Row,
    asked,
    assert_words_can_be_read,
    code_register,
    in_blocks,
    known,
    picture_of,
)


def test_the_description_says_what_the_picture_shows() -> None:
    knowledge = known(THREE_SERIES)
    words = alt_text(asked("serial Q0204117", knowledge), knowledge)
    for said in ("Q0204117", "7 digits, first a zero", "if 6 digits: Q204117, 1 January 1890", "Model Ida",
                 "Lower Mill", "built and sold later", "The number book (invented)"):  # fmt: skip
        assert said in words


PACKS: dict[str, tuple[list[Row], str]] = {
    "three series": (THREE_SERIES, "serial Q0204117"),
    "six digits of three series": (THREE_SERIES, "serial Q204117"),
    "the last number": (THREE_SERIES, "serial Q0300000"),
    "one block": ([("Q", "100001", "125000", "", "1921-03-02", "ida", "a")], "serial Q104117"),
    "one day and one number": ([("Q", "100001", "100001", "", "1921-03-02")], "serial Q100001"),
    "one count": ([("", "1", "900", "", "1921~")], "serial number 417"),
    "three works": (in_blocks("Q", 200_001, 6, "1890-01-01", 60, ("a", "b", "c")), "serial Q204117"),
    "two works at one time": (
        [(*row[:6], works) for row in in_blocks("Q", 200_001, 6, "1890-01-01", 40) for works in "ab"], "serial Q204117",
    ),
    "a span of centuries": (
        [("Q", "100001", "125000", "", "1000"), ("Q", "125001", "150000", "", "9998")], "serial Q104117",
    ),
    "many series": (
        [("Q", f"{'1' * width}", f"{'9' * width}", "", str(1900 + width), "", "", "500") for width in range(2, 15)],
        "serial Q1234567",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", PACKS)
def test_no_words_lie_on_others_or_leave_the_page(name: str) -> None:
    rows, question = PACKS[name]
    assert_words_can_be_read(picture_of(question, known(rows)))


LONG = "Zjednoczone Zakłady Wytwórcze Maszyn do Szycia „Źródło” w Szczebrzeszynie, dawniej Łękołodzki i Synowie "


@pytest.mark.parametrize("name", [LONG * 2, "Ёлкина и наследники, " * 12, "Wäschemaschinenfabrik" * 15, "縫" * 40, "W"])
def test_names_of_any_length_and_script_keep_to_their_place(name: str) -> None:
    knowledge = known(THREE_SERIES, maker=name, model=name)
    assert_words_can_be_read(picture_of("serial Q0204117", knowledge))
    assert render(asked("serial Q0204117", knowledge), knowledge).startswith(b"\x89PNG")


def test_words_of_a_date_code_with_many_parts_keep_to_their_place() -> None:
    assert_words_can_be_read(picture_of("serial T712345", known([], *code_register())))


@settings(max_examples=25)
@given(
    st.lists(
        st.tuples(st.integers(1, 30_000), st.integers(0, 400), st.sampled_from("abc"), st.integers(5, 8)),
        min_size=1, max_size=40,
    ),
    st.data(),
)  # fmt: skip
def test_words_can_be_read_whatever_the_blocks(blocks: list[tuple[int, int, str, int]], data: st.DataObject) -> None:
    following = dict.fromkeys(range(5, 9), 1)
    rows: list[Row] = []
    when = date(1880, 1, 1)
    for size, days, works, width in blocks:
        first = following[width]
        if first + size < 10**width:
            when += timedelta(days=days)
            ends = (str(first).zfill(width), str(first + size - 1).zfill(width))
            rows.append(("Q", *ends, "", when.isoformat(), "ida", works))
            following[width] = first + size
    if rows:
        row = data.draw(st.sampled_from(rows))
        assert_words_can_be_read(picture_of(f"serial number Q{row[1]}", known(rows)))
