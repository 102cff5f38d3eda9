"""The United Kingdom registration diamond: letters for year and month, a figure for the day, two series.

Source: published guides to the mark, among them 'Registered designs 1839-1991' of the National Archives.
The same letter is another year in each series, so every candidate is given. Where a letter is from memory
the check says so.
"""

from datetime import date, timedelta

import pytest

from knowledge.answer import answer_found, as_json
from knowledge.said import Said
from knowledge.tokens import Found, PassedOver

YEARS = {
    "X": 1842, "H": 1843, "C": 1844, "A": 1845, "I": 1846, "F": 1847, "U": 1848, "S": 1849, "V": 1850,
    "P": 1851, "D": 1852, "Y": 1853, "J": 1854, "E": 1855, "L": 1856, "K": 1857, "B": 1858, "M": 1859, "Z": 1860,
    "R": 1861, "O": 1862, "G": 1863, "N": 1864, "W": 1865, "Q": 1866, "T": 1867,
}  # fmt: skip
LATER = {
    "X": 1868, "H": 1869, "C": 1870, "A": 1871, "I": 1872, "F": 1873, "U": 1874, "S": 1875, "V": 1876,
    "P": 1877, "D": 1878, "Y": 1879, "J": 1880, "E": 1881, "L": 1882, "K": 1883,
}  # fmt: skip
MONTHS = "CGWHEMIRDBKA"


def in_days(found):
    assert all(one["earliest"] == one["latest"] and one["object"] == "registration" for one in found)
    return sorted(one["date"] for one in found)


@pytest.fixture
def days(marks):
    """Return a function: from letters and figure, found after the words of the register, to the days they can mean."""
    ids = marks.names.introducers["registration diamond"]

    def ask(code):
        code = code.replace(" ", "")
        passed = PassedOver(code, 0, len(code), "patent", number=code, register=ids[0], registers=ids)
        return in_days(as_json(answer_found(code, Found((), (passed,)), Said(), marks))["candidates"])

    return ask


def test_the_worked_example_of_a_guide_is_7_april_1857_and_as_likely_to_be_of_the_later_series(days):
    assert days("K H 7") == ["1857-04-07", "1883-04-07"]


@pytest.mark.parametrize("letter", YEARS)
def test_each_year_letter_is_every_year_it_stood_for(letter, days):
    wanted = [f"{table[letter]}-05-19" for table in (YEARS, LATER) if letter in table]
    assert days(f"{letter} E 19") == wanted


def test_g_is_1863_though_one_published_copy_prints_1853_which_is_y(days):
    assert days("G E 19") == ["1863-05-19"]
    assert days("Y E 19") == ["1853-05-19", "1879-05-19"]


@pytest.mark.parametrize(("month", "letter"), list(enumerate(MONTHS, start=1)))
def test_each_month_letter_is_its_month(month, letter, days):
    assert days(f"N {letter} 21") == [f"1864-{month:02d}-21"]


def test_in_the_first_half_of_september_1857_r_was_september_as_well_as_august(days):
    assert days("K R 19") == ["1857-08-19", "1857-09-19", "1883-08-19"]
    assert days("K R 20") == ["1857-08-20", "1883-08-20"]


def test_in_december_1860_k_was_december_as_well_as_november(days):
    assert days("Z K 4") == ["1860-11-04", "1860-12-04"]
    assert days("B K 4") == ["1858-11-04"]


def test_from_memory_o_was_january_too_in_the_first_series_alone(days):
    assert days("L O 9") == ["1856-01-09"]


def test_from_memory_w_was_a_year_letter_from_1_to_6_march_1878_alone(days):
    week = [date(1878, 3, 1) + timedelta(days=count) for count in range(6)]
    for day in week:
        assert days(f"W W {day.day}") == [f"1865-03-{day.day:02d}", day.isoformat()]
    assert days("W W 7") == ["1865-03-07"]


def test_a_day_that_the_month_does_not_have_is_no_date(days):
    assert days("N G 30") == []
    assert days("N G 29") == ["1864-02-29"]


@pytest.mark.parametrize(
    "text",
    [
        "diamond K H 7",
        "the registration diamond says K H 7",
        "registration diamond KH7",
        "registration diamond: K, H, 7",
        "registration diamond, year letter K, month H, day 7",
        "Registrierungsraute K H 7",
        "rombo de registro K H 7",
    ],
)
def test_the_letters_may_be_typed_as_people_read_them_off(text, marks, as_typed):
    """Common practice, no source."""
    assert in_days(as_typed(text, marks)) == ["1857-04-07", "1883-04-07"]
