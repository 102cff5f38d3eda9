"""The month letters of French tinned food, as a date code of a pack.

Source: French order of 10 May 1976, annex II: the months are N F U O C P D B S H T L. The order has letters
for years and signs for days too; they are not at hand, so year and day stand here in figures, which is our
own.
"""

import calendar

import pytest

MONTHS = "NFUOCPDBSHTL"


@pytest.fixture
def tins(knowledge_of):
    months = [["months", letter, f"{month:02d}", "", ""] for month, letter in enumerate(MONTHS, start=1)]
    return knowledge_of(
        registers=[["register", "maker", "kind", "object", "from", "to"],
                   ["tins", "m", "date-code", "manufacture", "1976", "1985"]],
        date_codes=[["register", "part", "length", "characters", "means", "table"],
                    ["tins", "1", "2", "digits", "year", ""],
                    ["tins", "2", "1", "letters", "month", "months"],
                    ["tins", "3", "3", "digits", "sequence", ""]],
        code_tables=[["table", "code", "value", "from", "to"], *months],
    )  # fmt: skip


@pytest.mark.parametrize(("month", "letter"), list(enumerate(MONTHS, start=1)))
def test_each_letter_is_the_whole_of_its_month(month, letter, tins, as_typed):
    [found] = as_typed(f"serial number 80{letter}417", tins)
    last = calendar.monthrange(1980, month)[1]
    assert (found["earliest"], found["latest"]) == (f"1980-{month:02d}-01", f"1980-{month:02d}-{last}")


@pytest.mark.parametrize("letter", sorted(set("ABCDEFGHIJKLMNOPQRSTUVWXYZ") - set(MONTHS)))
def test_a_letter_that_is_no_month_gives_no_date(letter, tins, as_typed):
    assert as_typed(f"serial number 80{letter}417", tins) == []
