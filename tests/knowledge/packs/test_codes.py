"""Date codes: parts, lengths, characters, and what the tables may say."""

import pytest

D, T = "date-codes.csv", "code-tables.csv"


def of_parts(folder, *rows):
    found = folder.with_rows(D, *(f"code,{place},{row}" for place, row in enumerate(rows, 1)))
    return [(one.code, one.file, one.row, one.column) for one in found if one.code != "unused-table"]


@pytest.mark.parametrize("row", ["4,digits,year,,,", "2,digits,year,,,", "1,any,year,,,", "1-2,digits,year,,,"])
def test_a_year_in_digits_may_be_read_as_it_stands(folder, row):
    assert of_parts(folder, row) == []


def test_a_year_in_letters_is_read_by_its_table(folder, sound):
    parts = "register,part,length,characters,means,table,constant,rule\ncode,1,2,letters,year,years,,\n"
    folder.write(sound | {D: parts, T: "table,code,value,from,to\nyears,AB,1921,,\nyears,AC,1922/1923,,\n"})
    assert folder.faults() == []


@pytest.mark.parametrize(
    ("row", "fault"),
    [
        ("1,letters,year,,,", ("missing-table", D, 3, "table")),
        ("5,digits,year,,,", ("code-length", D, 3, "length")),
        ("1,digits,month,,,", ("code-length", D, 3, "length")),
        ("3,digits,month,,,", ("code-length", D, 3, "length")),
        ("2,digits,day-of-year,,,", ("code-length", D, 3, "length")),
        ("1,digits,week,,,", ("code-length", D, 3, "length")),
        ("0,digits,day,,,", ("bad-length", D, 3, "length")),
        ("2-1,digits,day,,,", ("bad-length", D, 3, "length")),
        ("1,letters,constant,,,", ("bad-constant", D, 3, "constant")),
        ("1,letters,constant,,5,", ("bad-constant", D, 3, "constant")),
        ("2,letters,constant,,A,", ("bad-constant", D, 3, "constant")),
        ("2,numbers,day,,,", ("unknown-word", D, 3, "characters")),
        ("2,digits,days,,,", ("unknown-word", D, 3, "means")),
        ("2,digits,week,,,sundays", ("unknown-word", D, 3, "rule")),
        ("4,digits,year,,,", ("means-twice", D, 3, "means")),
    ],
)
def test_a_part_that_cannot_be_read_is_an_error(folder, row, fault):
    assert fault in of_parts(folder, "4,digits,year,,,", row)


READABLE = [
    "2,digits,month,,,",
    "3,digits,day-of-year,,,",
    "2,digits,week,,,iso",
    "3,letters,works,,,",
    "1,,sequence,,,",
    "2,letters,constant,,AB,",
]


@pytest.mark.parametrize("row", READABLE)
def test_a_part_that_can_be_read_is_no_fault(folder, row):
    assert of_parts(folder, "4,digits,year,,,", row) == []


def test_a_day_is_read_beside_a_month_and_is_a_warning_without_one(folder):
    year, month, day = "4,digits,year,,,", "2,digits,month,,,", "1-2,digits,day,,,"
    assert of_parts(folder, year, month, day) == []
    assert of_parts(folder, day, year) == [("day-without-month", D, 2, "means")]


def test_several_sequences_and_constants_are_no_fault(folder):
    parts = [
        "4,digits,year,,,",
        "1,digits,sequence,,,",
        "1,digits,sequence,,,",
        "1,any,constant,,X,",
        "1,any,constant,,Y,",
    ]
    assert of_parts(folder, *parts) == []


@pytest.mark.parametrize(
    ("means", "good", "bad"),
    [
        ("month", ["1", "12", "07"], ["0", "13", "May", "1.0"]),
        ("week", ["53"], ["54", "W1"]),
        ("day", ["31"], ["32", "-1"]),
        ("day-of-year", ["366"], ["367"]),
        ("year", ["1921", "1921/1922", "192X"], ["21", "1921.0", "MCM"]),
    ],
)
def test_the_values_of_a_table_are_what_the_part_tells(folder, sound, means, good, bad):
    values = good + bad
    rows = "".join(f"months,{place:02},{value},,\n" for place, value in enumerate(values))
    year = "" if means == "year" else "code,2,4,digits,year,,,\n"
    parts = f"register,part,length,characters,means,table,constant,rule\ncode,1,2,digits,{means},months,,\n{year}"
    folder.write(sound | {T: "table,code,value,from,to\n" + rows, D: parts})
    found = [(one.code, one.row, one.column) for one in folder.faults() if one.code != "day-without-month"]
    assert found == [("bad-value", 2 + len(good) + place, "value") for place in range(len(bad))]


def test_works_and_models_of_a_table_must_be_known(folder, sound):
    parts = "register,part,length,characters,means,table,constant,rule\n"
    parts += "code,1,4,digits,year,,,\ncode,2,1,any,works,w,,\ncode,3,1,any,model,m,,\n"
    tables = "table,code,value,from,to\nw,N,north,,\nw,S,south,,\nm,1,m1,,\nm,2,m2,,\n"
    folder.write(sound | {D: parts, T: tables})
    assert [(one.code, one.row) for one in folder.faults()] == [("unknown-works", 3), ("unknown-model", 5)]


def test_a_code_that_lost_its_zero_is_told_with_its_repair(folder):
    found = folder.spoiled(T, "months,01,1", "months,1,1")
    assert [(one.code, one.row, one.column) for one in found] == [("lost-zero", 2, "code")]
    assert "write 01" in found[0].text


def test_one_code_may_stand_for_several_values_but_not_twice_for_the_same(folder):
    found = folder.spoiled(T, "months,0A,3", "months,0A,3,,\nmonths,0A,3")
    assert [(one.code, one.row, one.column) for one in found] == [("double-row", 5, None)]


def test_a_year_outside_the_register_is_a_warning(folder, sound):
    parts = "register,part,length,characters,means,table,constant,rule\ncode,1,1,letters,year,y,,\n"
    folder.write(sound | {D: parts, T: "table,code,value,from,to\ny,A,1920,,\ny,B,1949,,\ny,C,1950,,\ny,D,1919,,\n"})
    assert [(one.code, one.row, one.column) for one in folder.faults()] == [
        ("outside-register", 4, "value"),
        ("outside-register", 5, "value"),
    ]


def test_a_code_without_a_year_says_what_is_left_to_know(folder, sound):
    assert ("no-year", D, 2, None) in of_parts(folder, "4,digits,sequence,,,")


def test_parts_may_stand_in_any_order_but_not_with_a_hole(folder):
    assert folder.with_rows(D, "code,2,1,digits,year,,,", "code,1,2,any,month,months,,") == []
    found = folder.with_rows(D, "code,2,1,digits,year,,,", "code,3,2,any,month,months,,")
    assert [(one.code, one.row, one.column) for one in found] == [("missing-part", 2, "part")]
