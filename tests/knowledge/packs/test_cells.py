"""Single cells: numbers that spreadsheets spoiled, prefixes, dates and words."""

import pytest

from knowledge.packs.numbers import NONE, values, what_is_wrong

A = "allocations.csv"


@pytest.mark.parametrize(
    ("text", "code", "advice"),
    [
        ("2.00E+05", "spreadsheet-number", "digits are lost"),
        ("2,00E+05", "spreadsheet-number", "digits are lost"),
        ("2E5", "spreadsheet-number", "digits are lost"),
        ("204117.0", "spreadsheet-number", "Write 204117"),
        ("204117,00", "spreadsheet-number", "Write 204117"),
        ("204,117", "number-separators", "Write 204117"),
        ("204.117", "number-separators", "Write 204117"),
        ("1.000", "number-separators", "Write 1000"),
        ("204 117", "number-separators", "Write 204117"),
        ("204\u202f117", "number-separators", "Write 204117"),
        ("204'117", "number-separators", "Write 204117"),
        ("0-204-117", "number-separators", "Write 0204117"),
        ("٢٠٤", "foreign-digits", "'204'"),
        ("２０４", "foreign-digits", "'204'"),
        ("1" * 19, "long-number", "19 digits"),
        ("K204117", "bad-number", "letters belong into a column of their own"),
        ("204.117,00", "spreadsheet-number", "Write 204117"),
        ("20001.", "number-separators", "Write 20001"),
        ("-5", "bad-number", "no number here is below zero"),
        ("\u22122", "bad-number", "no number here is below zero"),
        ("-20001", "bad-number", "Look it up in the source"),
        ("+5", "bad-number", "written without it"),
        ("1.5", "bad-number", "no whole number"),
        ("204.117,5", "bad-number", "no whole number"),
        ("980001-990000", "number-separators", "if it is two numbers"),
        ("100-199", "number-separators", "if it is two numbers"),
        ("1/2", "number-separators", "if it is two numbers"),
        ("8.1.1912", "number-separators", "or a date"),
        ("about 5", "bad-number", "Write digits only"),
        ("²", "bad-number", "Write digits only"),
        ("Ⅻ", "bad-number", "Write digits only"),
        ("#REF!", "bad-number", "Write digits only"),
    ],
)
def test_what_is_no_number_is_told_with_what_to_write(text, code, advice):
    found, said = what_is_wrong(text)
    assert found == code
    assert advice in said


@pytest.mark.parametrize("text", ["-5", "-20001", "1.5", "12,75", "980001-990000", "8.1.1912", "1/2"])
def test_no_repair_is_advised_that_would_make_another_number_of_it(text):
    said = what_is_wrong(text)[1]
    assert "Write" not in said.replace("write digits only", "")


def test_values_of_cells_that_hold_no_number_are_marked():
    assert values(["7", "007", "", "x", "²", "9" * 18, "9" * 19]) == [7, 7, NONE, NONE, NONE, 10**18 - 1, NONE]
    assert values(["7", "007"]) == [7, 7]
    assert values([]) == []


@pytest.mark.parametrize("column", ["order", "first", "last", "quantity"])
def test_every_column_of_numbers_is_checked(folder, sound, column):
    place = sound[A].split("\n")[0].split(",").index(column)
    cells = "ledger,1,K,980001,990000,,1905,m1,north,10000,book,".split(",")
    cells[place] = "1e4"
    found = folder.with_rows(A, ",".join(cells))
    assert [(one.code, one.row, one.column) for one in found] == [("spreadsheet-number", 2, column)]


@pytest.mark.parametrize("prefix", ["K1", "K-", "K ", "K/L", "?", "1"])
def test_a_prefix_is_letters_alone(folder, prefix):
    assert [one.code for one in folder.with_rows(A, f"ledger,1,{prefix}x,1,9,,1905,,,,,")][:1] in (
        ["bad-letters"],
        ["lower-case"],
    )
    assert "bad-letters" in [one.code for one in folder.with_rows(A, f"ledger,1,A{prefix}A,1,9,,1905,,,,,")]


@pytest.mark.parametrize("name", ["works.csv", "models.csv", "registers.csv", "code-tables.csv", "prefixes.csv"])
def test_every_column_of_dates_is_checked(folder, sound, name):
    year = {"works.csv": "1900", "models.csv": "1902", "registers.csv": "1900", "code-tables.csv": "1921",
            "prefixes.csv": "1905/1910"}[name]  # fmt: skip
    assert "bad-date" in [one.code for one in folder.spoiled(name, year, "spring")]


@pytest.mark.parametrize("column", ["kind", "object"])
def test_words_are_told_with_the_words_allowed(folder, column):
    old = {"kind": "allocations", "object": "allocation,1900"}[column]
    found = folder.spoiled("registers.csv", old, "Sold" if column == "kind" else "sale,1900")
    fault = next(one for one in found if one.code == "unknown-word")
    assert (fault.row, fault.column) == (2, column)
    assert "allocation" in fault.text


def test_only_a_list_by_year_may_end_at_a_number(folder):
    assert folder.spoiled("registers.csv", "manufacture,1900,1915", "manufacture,1900,123456") == []
    found = folder.spoiled("registers.csv", "allocation,1900,1950", "allocation,1900,123456")
    assert [(one.code, one.row, one.column) for one in found] == [("bad-date", 2, "to")]
