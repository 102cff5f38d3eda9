"""The model year in a vehicle identification number, as a date code of a pack.

Source: 49 CFR 565.15, Table VII: the tenth character, a cycle of 30 years from A = 1980. Judge: the package
`vininfo`, which gives every year a number can mean; it ends with next year by today's date, so both are
compared up to 2025.
"""

import random

import pytest
from vininfo import Vin

CYCLE = "ABCDEFGHJKLMNPRSTVWXY123456789"
LAST = 2025


@pytest.fixture
def vehicles(knowledge_of):
    years = [["years", CYCLE[(year - 1980) % 30], str(year), "", ""] for year in range(1980, LAST + 1)]
    return knowledge_of(
        registers=[["register", "maker", "kind", "object", "from", "to"],
                   ["vin", "m", "date-code", "manufacture", "1980", str(LAST)]],
        date_codes=[["register", "part", "length", "characters", "means", "table"],
                    ["vin", "1", "9", "any", "sequence", ""], ["vin", "2", "1", "any", "year", "years"],
                    ["vin", "3", "7", "any", "sequence", ""]],
        code_tables=[["table", "code", "value", "from", "to"], *years],
    )  # fmt: skip


def a_number(code):
    chance = random.Random(code)
    signs = [chance.choice("ABCDEFGHJKLMNPRSTUVWXYZ0123456789") for _ in range(17)]
    signs[0], signs[9] = "1", code
    signs[11:] = [chance.choice("0123456789") for _ in range(6)]
    return "".join(signs)


def test_the_published_example_is_of_1989_or_2019(vehicles, as_typed):
    found = as_typed("serial number 1M8GDM9AXKP042788", vehicles)
    assert sorted(one["date"] for one in found) == ["1989", "2019"]


@pytest.mark.parametrize("code", CYCLE)
def test_every_year_that_vininfo_gives_is_a_candidate_and_no_other(code, vehicles, as_typed):
    number = a_number(code)
    found = {int(one["date"]) for one in as_typed(f"serial number {number}", vehicles)}
    assert found == {year for year in Vin(number).years if year <= LAST}


@pytest.mark.parametrize(("code", "years"), [("A", {1980, 2010}), ("L", {1990, 2020}), ("Y", {2000}), ("1", {2001})])
def test_the_letters_published_one_by_one_stand_for_their_years(code, years, vehicles, as_typed):
    found = {int(one["date"]) for one in as_typed(f"serial number {a_number(code)}", vehicles)}
    assert found == years


def test_a_letter_that_is_never_used_for_a_year_gives_no_date(vehicles, as_typed):
    assert as_typed("serial number 1M8GDM9AXUP042788", vehicles) == []
