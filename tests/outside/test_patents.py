"""United States utility patents: the numbers of the shipped pack against published single facts.

Source: the patent office's table of the first number of each year, in published copies; the single patents
with their days are published facts of the patents themselves. A patent gives the earliest date of what
carries its number.
"""

from datetime import date

import pytest

from knowledge.answer import answer, as_json

FIRST_OF_YEAR = [(1837, 110), (1861, 31_005), (1880, 223_211), (1903, 717_521), (1920, 1_326_899), (1975, 3_858_241)]


@pytest.mark.parametrize(
    ("number", "granted"),
    [
        ("1", date(1836, 7, 13)),
        ("1,647", date(1840, 6, 20)),
        ("223,898", date(1880, 1, 27)),  # the year is published beside it, the day is from memory
        ("1,000,000", date(1911, 8, 8)),
        ("2,000,000", date(1935, 4, 30)),
        ("3,000,000", date(1961, 9, 12)),
    ],
)
def test_a_patent_whose_day_is_published_falls_in_the_span_answered(number, granted, marks, as_typed):
    [found] = as_typed(f"there is a plate that says US Patent No. {number}", marks)
    assert found["earliest"] <= granted.isoformat() <= found["latest"]
    assert found["earliest"][:4] == found["latest"][:4]
    assert found["object"] == "grant"


@pytest.mark.parametrize(("year", "first"), FIRST_OF_YEAR)
def test_a_year_begins_with_its_first_number_and_the_year_before_ends_there(year, first, marks, as_typed):
    [found] = as_typed(f"patent no {first}", marks)
    [before] = as_typed(f"patent no {first - 1}", marks)
    assert (found["date"], before["date"]) == (str(year), str(year - 1))


@pytest.mark.parametrize("number", [1_061, 1_105, 1_106])
def test_1839_begins_with_1061_and_not_with_1106_as_one_copy_prints(number, marks, as_typed):
    [found] = as_typed(f"patent {number}", marks)
    assert found["date"] == "1839"


def test_1060_is_still_of_1838(marks, as_typed):
    [found] = as_typed("patent 1060", marks)
    assert found["date"] == "1838"


@pytest.mark.parametrize(
    "text",
    [
        "Pat. No. 1,000,000",
        "U.S. Pat. No. 1000000",
        "PATENTED NO 1000000",
        "Patentnummer 1000000",
        "patente estadounidense 1.000.000",
        "brevetto americano 1.000.000",
        "Amerikaans octrooi 1.000.000",
        "patent amerykański nr 1000000",
        "amerikanskt patent 1 000 000",
        "brevet américain no 1 000 000",
        "brevet américain n° 1 000 000",
        "патент США 1000000",
    ],
)
def test_the_words_before_a_patent_may_be_of_any_language_of_a_mixed_group(text, marks, as_typed):
    """Common practice, no source: how patents are marked on machines and spoken of."""
    found = as_typed(text, marks)
    assert [one["date"] for one in found if one["register"] == "us-patents"] == ["1911"]


def test_a_patent_is_passed_over_as_a_serial_number_and_answered_from_its_own_register(marks):
    said = as_json(answer("the arm says Pat. No. 1,000,000", marks))
    assert said["tokens"] == []
    assert [one["because"] for one in said["passed_over"]] == ["patent"]
    assert said["candidates"][0]["register"] == "us-patents"


def test_a_number_after_the_end_of_the_table_has_no_year(marks, as_typed):
    assert as_typed("patent no 4,000,000", marks) == []


@pytest.mark.parametrize(("number", "remembered"), [(1_013_095, True), (2_104_004, True), (1_326_899, False)])
def test_a_year_from_memory_says_so_in_its_source(number, remembered, marks, as_typed):
    [found] = as_typed(f"patent no {number}", marks)
    title = marks.sources[found["source"]].title if found["source"] in marks.sources else found["source"]
    assert ("from memory" in title) == remembered
