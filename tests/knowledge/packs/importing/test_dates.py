"""Tests of importing/dates.py and one_date.py."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge import edtf
from knowledge.packs.importing.dates import read_date
from knowledge.packs.importing.one_date import Habits

CLEAR = {
    "1912": "1912", "1912.0": "1912", "[1912]": "1912", "1912 г.": "1912", "1912-01-08": "1912-01-08",
    "1912~": "1912~", "1910/1912": "1910/1912", "../1912": "../1912", "191X": "191X",
    "1912-01-08 00:00:00": "1912-01-08", "19120108": "1912-01-08", "1912/01/08": "1912-01-08",
    "c. 1912": "1912~", "c1912": "1912~", "ca 1912": "1912~", "circa 1912": "1912~", "um 1912": "1912~",
    "vers 1912": "1912~", "~1912": "1912~", "около 1912": "1912~", "1912 (?)": "1912~", "c. January 1912": "1912-01~",
    "early 1912": "1912~/1912-04~", "mid-1912": "1912-05~/1912-08~", "late 1912": "1912-09~/1912-12~",
    "Anfang 1912": "1912~/1912-04~", "fin 1912": "1912-09~/1912-12~", "early 1910s": "1910~/1913~",
    "mid 1910s": "1914~/1916~", "late 1910s": "1917~/1919~", "late January 1912": "1912-01-21~/1912-01-31~",
    "before 1912": "../1911", "pre-1912": "../1911", "<1912": "../1911", "by 1912": "../1912", "bis 1912": "../1912",
    "after 1912": "1913/..", "from 1912": "1912/..", "1912 onwards": "1912/..", "1912+": "1912/..", "1912-": "1912/..",
    "1911-1912": "1911/1912", "1911–1912": "1911/1912", "1911/12": "1911/1912", "1923-24": "1923/1924",
    "1899-00": "1899/1900", "1911-05": "1911-05", "1911 or 1912": "1911/1912", "between 1911 and 1912": "1911/1912",
    "von 1911 bis 1912": "1911/1912", "Jan 1911 - Mar 1912": "1911/1912-03", "mid 1911 to late 1912": "1911-05~/1912~",
    "Jan. 8 1912": "1912-01-08", "Jan. 8, 1912": "1912-01-08", "8 Jan 1912": "1912-01-08",
    "8th January 1912": "1912-01-08", "8. Januar 1912": "1912-01-08", "le 1er janvier 1912": "1912-01-01",
    "8 de enero de 1912": "1912-01-08", "8 января 1912 г.": "1912-01-08", "Monday, 8 January 1912": "1912-01-08",
    "January 1912": "1912-01", "Januar 1912": "1912-01", "janv. 1912": "1912-01", "maj 1912": "1912-05",
    "1/1912": "1912-01", "01/1912": "1912-01", "15.1.1912": "1912-01-15", "1/15/1912": "1912-01-15",
    "5.5.1912": "1912-05-05", "1910s": "191X", "1910er": "191X", "années 1910": "191X", "191?": "191X",
    "Q1 1912": "1912/1912-03", "1912 Q3": "1912-07/1912-09", "2nd quarter 1912": "1912-04/1912-06",
    "spring 1912": "1912-03/1912-05", "Herbst 1912": "1912-09/1912-11", "winter 1911/12": "1911-12/1912-02",
    "1912 approx.": "1912~", "1912 (circa)": "1912~", "probably 1912": "1912~", "1912-1914 гг.": "1912/1914",
    "H1 1912": "1912/1912-06", "second half of 1912": "1912-07/1912-12", "1900s": "190X", "1910 & 1912": "1910/1912",
    "Dec. 1911/Jan. 1912": "1911-12/1912-01", "1912.12": "1912-12",
    "": "", "?": "", "n/a": "", "unbekannt": "", "-": "",
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), CLEAR.items())
def test_what_is_clear_is_read_without_a_question(text: str, expected: str) -> None:
    read = read_date(text)
    assert (read.edtf, read.question) == (expected, "")


ASKED = {
    "8.1.1912": "day-order", "8/1/1912": "day-order", "08 01 1912": "day-order", "about 8.1.1912": "day-order",
    "1/8/12": "day-order", "12": "century", "'98": "century", "8-Jan-12": "century", "15/1/12": "century",
    "12.12.12": "century", "1911-12": "pair", "c. 1911-12": "pair", "4391": "serial", "12345": "serial",
    "Jan 12": "words", "winter 1912": "words", "before the war": "words", "31.2.1912": "words", "13/1912": "words",
    "912": "words", "1912/3": "words", "1912-3": "words", "1912.3": "words", "12-14": "words", "Mar/Apr 1912": "words",
    "1912 to date": "words", "1912*": "words", "Easter 1912": "words", "8.I.1912": "words",
    "1912-1910": "words", "8 January": "words", "0": "words", "Feb 30 1912": "words",
}  # fmt: skip


@pytest.mark.parametrize(("text", "question"), ASKED.items())
def test_what_is_not_clear_is_asked(text: str, question: str) -> None:
    read = read_date(text)
    assert (read.edtf, read.question) == ("", question)


ANSWERED = [
    ("8.1.1912", Habits(order="day first"), "1912-01-08"),
    ("8/1/1912", Habits(order="month first"), "1912-08-01"),
    ("1/8/12", Habits(order="day first", window=1850), "1912-08-01"),
    ("12/8/1", Habits(order="day first", window=1850), ""),
    ("12/8/01", Habits(order="year first", window=1900), "1912-08-01"),
    ("12", Habits(window=1850), "1912"),
    ("60", Habits(window=1850), "1860"),
    ("1911-12", Habits(pair="two years"), "1911/1912"),
    ("1911-12", Habits(pair="year and month"), "1911-12"),
    ("4391", Habits(serial="day number"), "1912-01-08"),
    ("4391", Habits(serial="no date"), ""),
]


@pytest.mark.parametrize(("text", "habits", "expected"), ANSWERED)
def test_the_habit_of_the_column_settles_it(text: str, habits: Habits, expected: str) -> None:
    assert read_date(text, habits).edtf == expected


@pytest.mark.parametrize(
    ("text", "words"),
    [("early 1912", "third"), ("before 1912", "leaving the date itself out"), ("spring 1912", "northern"),
     ("1911/12", "two years"), ("n/a", "not known"), ("1912-", "from that year on"),
     ("1900s", "not a hundred")],
)  # fmt: skip
def test_what_was_assumed_is_said(text: str, words: str) -> None:
    assert words in read_date(text).note


@given(st.dates(date(1800, 1, 1), date(1999, 12, 31)), st.sampled_from(["day first", "month first"]))
def test_a_date_written_in_a_known_order_comes_back(day: date, order: str) -> None:
    numbers = (day.day, day.month) if order == "day first" else (day.month, day.day)
    text = f"{numbers[0]}/{numbers[1]}/{day.year}"
    assert read_date(text, Habits(order=order)).edtf == day.isoformat()
    assert read_date(f"{day.day} {day:%B} {day.year}").edtf == day.isoformat()


@given(st.integers(61, 99_999))
def test_day_numbers_count_from_1900_as_spreadsheets_do(number: int) -> None:
    # Day 61 is 1 March 1900 (ECMA-376 part 1, 18.17.4.1; section from memory).
    if not 1500 <= number <= 2100 and number >= 1000:
        day = date(1900, 3, 1) + timedelta(number - 61)
        assert read_date(str(number), Habits(serial="day number")).edtf == day.isoformat()


@given(st.text(max_size=30) | st.from_regex(r"[a-z.]{0,8} ?[0-9./ -]{1,10}", fullmatch=True))
def test_whatever_is_written_the_answer_is_edtf_or_a_question(text: str) -> None:
    read = read_date(text)
    if read.edtf:
        assert edtf.parse(read.edtf).text == read.edtf
        assert not read.question
