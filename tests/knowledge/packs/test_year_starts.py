"""Lists by year: what rises, what may fall, and the register's last number."""

import pytest

Y = "year-starts.csv"


def of_rows(folder, *rows):
    """Return code, row and column of the faults of a list of (first, date)."""
    found = folder.with_rows(Y, *(f"years,,{first},{date},," for first, date in rows))
    return [(one.code, one.row, one.column) for one in found if one.file == Y]


def test_numbers_and_years_that_rise_are_no_fault(folder):
    assert of_rows(folder, ("1", "1901"), ("900", "1902"), ("12000", "1903~"), ("12001", "1903")) == []


def test_a_zero_led_series_may_come_after_the_numbers_are_used_up(folder):
    assert of_rows(folder, ("900000", "1901"), ("1000000", "1902"), ("0000001", "1903"), ("0250000", "1904")) == []


def test_fixed_width_with_zeros_is_no_fault(folder):
    assert of_rows(folder, ("0001", "1901"), ("0900", "1902"), ("1200", "1903")) == []


@pytest.mark.parametrize(
    ("rows", "fault"),
    [
        ([("1", "1901"), ("900", "1902"), ("800", "1903")], ("numbers-backwards", 4, "first")),
        ([("1", "1901"), ("900", "1902"), ("12000", "1900")], ("years-backwards", 4, "date")),
        ([("900", "1902"), ("1", "1901")], ("numbers-backwards", 3, "first")),
        ([("1", "1901"), ("1", "1902")], ("duplicate-key", 3, "first")),
        ([("0800", "1901"), ("900", "1902"), ("1000", "1903")], ("lost-zero", 3, "first")),
        ([("700", "1901"), ("0800", "1902")], ("lost-zero", 2, "first")),
        ([("0900", "1901"), ("10200", "1902")], ("unequal-digits", 3, "first")),
    ],
)
def test_what_would_give_wrong_years_is_an_error_in_its_row(folder, rows, fault):
    found = of_rows(folder, *rows)
    assert fault in found
    assert {code for code, _, _ in found} - {"numbers-backwards", "years-backwards"} <= {fault[0]}


def test_a_list_whose_years_are_in_no_order_is_refused(folder):
    # Source: RFC numbers and their dates, which are not in order (rfc-editor.org/rfc-index); the dates are from memory.
    found = of_rows(folder, ("1", "1969-04"), ("2", "1969-04"), ("12", "1969-08"), ("11", "1969-08"), ("10", "1969-07"))
    assert {code for code, _, _ in found} >= {"numbers-backwards", "years-backwards"}


@pytest.mark.parametrize(
    ("to", "code"),
    [
        ("11999", "to-before-last"),
        ("12000", None),
        ("90000", None),
        ("1915", None),
        ("1903", None),
        ("5000", "to-before-last"),
        ("1903-06/1915", None),
        ("1915~", None),
    ],
)
def test_the_registers_last_number_reaches_the_last_row(folder, to, code):
    found = folder.spoiled("registers.csv", "manufacture,1900,1915", f"manufacture,1900,{to}")
    assert [(one.code, one.row, one.column) for one in found] == ([(code, 3, "to")] if code else [])


def test_a_register_whose_last_year_is_before_its_last_row_is_an_error(folder):
    # Its last year would have no end: every later number would be dated by it.
    found = folder.spoiled("registers.csv", "manufacture,1900,1915", "manufacture,1900,1902")
    told = next(one for one in found if one.code == "to-before-last")
    assert (told.row, told.column, told.severity) == (3, "to", "error")
    assert "'1902' is before '1903'" in told.text
    assert "row 4 of year-starts.csv" in told.text


def test_each_prefix_is_a_list_of_its_own(folder):
    found = folder.with_rows(Y, "years,A,500,1901,,", "years,B,1,1901,,", "years,A,900,1902,,", "years,B,300,1902,,")
    assert found == []
