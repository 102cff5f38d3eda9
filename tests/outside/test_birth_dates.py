"""Dates inside national numbers, as date codes of packs: letter months, a century by month or by one figure.

Judge: the package `python-stdnum` (`get_birth_date` of each module), which cites the offices that issue the
numbers. The numbers are made up; their check digits do not matter here.
"""

import random
from datetime import date

import pytest
from stdnum.bg import egn
from stdnum.dk import cpr
from stdnum.exceptions import ValidationError
from stdnum.it import codicefiscale

PARTS = ["register", "part", "length", "characters", "means", "table"]
TABLE = ["table", "code", "value", "from", "to"]


def register(first, last):
    return [["register", "maker", "kind", "object", "from", "to"], ["n", "m", "date-code", "manufacture", first, last]]


def judged(module, number):
    """Return the date that python-stdnum reads, as a list of none or one."""
    try:
        return [module.get_birth_date(number).isoformat()]
    except ValidationError:
        return []


def dates(found):
    return [one["date"] for one in found]


@pytest.fixture
def italian(knowledge_of):
    days = [["days", f"{code:02d}", f"{code % 40:02d}", "", ""] for code in (*range(1, 32), *range(41, 72))]
    months = [["months", code, f"{month:02d}", "", ""] for month, code in enumerate("ABCDEHLMPRST", start=1)]
    return knowledge_of(
        registers=register("1920", "2019"),
        date_codes=[PARTS, ["n", "1", "6", "letters", "sequence", ""], ["n", "2", "2", "digits", "year", ""],
                    ["n", "3", "1", "letters", "month", "months"], ["n", "4", "2", "digits", "day", "days"],
                    ["n", "5", "5", "any", "sequence", ""]],
        code_tables=[TABLE, *days, *months],
    )  # fmt: skip


def test_the_published_example_of_a_fiscal_code_is_18_november_1983(italian, as_typed):
    assert dates(as_typed("serial number RCCMNL83S18D969H", italian)) == [date(1983, 11, 18).isoformat()]


@pytest.mark.parametrize("seed", range(30))
def test_letter_months_and_days_raised_by_40_are_read_as_python_stdnum_reads_them(seed, italian, as_typed):
    chance = random.Random(seed)
    year, month = chance.randrange(100), chance.choice("ABCDEHLMPRST")
    day = chance.choice([*range(1, 32), *range(41, 72)])
    number = f"RCCMNL{year:02d}{month}{day:02d}D969H"
    assert dates(as_typed(f"serial number {number}", italian)) == judged(codicefiscale, number)


@pytest.fixture
def bulgarian(knowledge_of):
    centuries = [(0, "1900", "1999"), (20, "1800", "1899"), (40, "2000", "2099")]
    months = [
        ["months", f"{month + more:02d}", f"{month:02d}", from_, to]
        for more, from_, to in centuries
        for month in range(1, 13)
    ]
    return knowledge_of(
        registers=register("1800", "2099"),
        date_codes=[PARTS, ["n", "1", "2", "digits", "year", ""],
                    ["n", "2", "2", "digits", "month", "months"],
                    ["n", "3", "2", "digits", "day", ""], ["n", "4", "4", "digits", "sequence", ""]],
        code_tables=[TABLE, *months],
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(40))
def test_a_century_told_by_the_month_is_read_as_python_stdnum_reads_it(seed, bulgarian, as_typed):
    chance = random.Random(seed)
    month = chance.randrange(1, 13) + chance.choice((0, 20, 40))
    year, day, rest = chance.randrange(100), chance.randrange(1, 32), chance.randrange(10_000)
    number = f"{year:02d}{month:02d}{day:02d}{rest:04d}"
    assert dates(as_typed(f"serial number {number}", bulgarian)) == judged(egn, number)


@pytest.fixture
def danish(knowledge_of):
    """The seventh figure tells the century, with the year: code tables say so by from and to."""
    spans = [("0123", "1900", "1999"), ("49", "1937", "1999"), ("49", "2000", "2036"),
             ("5678", "1858", "1899"), ("5678", "2000", "2057")]  # fmt: skip
    centuries = [["centuries", code, code, from_, to] for codes, from_, to in spans for code in codes]
    return knowledge_of(
        registers=register("1858", "2057"),
        date_codes=[PARTS, ["n", "1", "2", "digits", "day", ""], ["n", "2", "2", "digits", "month", ""],
                    ["n", "3", "2", "digits", "year", ""], ["n", "4", "1", "digits", "sequence", "centuries"],
                    ["n", "5", "3", "digits", "sequence", ""]],
        code_tables=[TABLE, *centuries],
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(60))
def test_a_century_told_by_a_single_figure_is_read_as_python_stdnum_reads_it(seed, danish, as_typed):
    chance = random.Random(seed)
    day, month = chance.randrange(1, 32), chance.randrange(1, 13)
    year, rest = chance.randrange(100), chance.randrange(10_000)
    number = f"{day:02d}{month:02d}{year:02d}{rest:04d}"
    assert dates(as_typed(f"serial number {number}", danish)) == judged(cpr, number)
