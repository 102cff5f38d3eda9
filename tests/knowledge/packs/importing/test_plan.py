"""Tests of importing/plan.py and what it joins: whole lists, as people have them, become rows of a pack."""

from __future__ import annotations

from pathlib import Path

import pytest

from knowledge.errors import UsageError
from knowledge.packs import load
from knowledge.packs.importing import ImportPlan, Sheet, SheetError, Target, apply, make_plan, read_sheet
from knowledge.packs.tables import Pack, Table
from knowledge.packs.write import write

OURS = Target(register="ours")


def plan(text: str, target: Target = OURS, **answers: str) -> ImportPlan:
    """Plan the import of a list; cells are parted by bars, answers are by key with _ for :."""
    rows = [[cell.strip() for cell in line.split("|")] if line.strip() else [] for line in text.strip("\n").split("\n")]
    return make_plan(Sheet(rows), target, {key.replace("_", ":", 1): answer for key, answer in answers.items()})


def rows(table: Table, *columns: str) -> list[tuple[str, ...]]:
    return list(table.rows(*columns))


def keys(planned: ImportPlan) -> list[str]:
    return [question.key for question in planned.open_questions]


# --- a clean list


def test_a_clear_list_needs_no_questions() -> None:
    planned = plan("""
        Ottrel & Vane, numbers
        (typed from the ledger)

        From   | To     | Year    | Model  | Quantity
        K10001 | K10500 | c. 1889 | Nine   | 500
        K10501 | K11000 | 1890    | do.    | 500
        From   | To     | Year    | Model  | Quantity
        K11001 | K12000 | 1891    | Ten    | 1,000
        Total  |        |         |        | 2,000
        Source: letter book
    """)
    assert planned.questions == ()
    table = apply(planned)
    assert table.name == "allocations"
    assert rows(table, "register", "prefix", "first", "last", "date", "model", "quantity") == [
        ("ours", "K", "10001", "10500", "1889~", "nine", "500"),
        ("ours", "K", "10501", "11000", "1890", "nine", "500"),
        ("ours", "K", "11001", "12000", "1891", "ten", "1000"),
    ]
    assert planned.names["model"] == {"nine": "Nine", "ten": "Ten"}


def test_everything_that_was_assumed_or_left_out_is_said() -> None:
    planned = plan("""
        My list
        From  | To    | Year        | Model
        1.001 | 1.500 | before 1890 | Nine
        1501  | 2000  | 1890        | do.
        the end
    """)
    notes = " ".join(planned.notes)
    for words in (
        "head was found in row 2", "A 'From' as first", "row 1 'My list'", "row 5 'the end'", "1 ditto mark",
        "Thousands marks", "such as 'before 1890' in row 3, now ../1889", "'Nine' into 'nine'",
    ):  # fmt: skip
        assert words in notes


def test_numbers_of_the_repairs_and_questions_are_rows_of_the_spreadsheet() -> None:
    planned = plan("""
        A title

        From    | To     | Date
        0200001 | 225000 | 15.1.1912
        0225001 | 0250000 | 8.2.1912
    """)
    assert planned.questions[0].row == 5
    assert apply(planned, {"1": "day first"}).columns["date"] == ["1912-01-15", "1912-02-08"]
    assert make_plan(planned.sheet, OURS, {"1": "day first"}).repairs[0].row == 4


def test_names_that_the_pack_knows_take_its_ids() -> None:
    target = Target("ours", ids={"model": {"model nine": "ov-9"}, "works": {}})
    planned = plan("From|To|Model|Works\n1|9|MODEL  Nine|Hallowmere Works", target)
    assert rows(apply(planned), "model", "works") == [("ov-9", "hallowmere-works")]
    assert planned.names["model"] == {}


def test_year_starts_are_told_by_the_missing_last_numbers() -> None:
    planned = plan("Year|First number\n1912|1\n1913|25001")
    table = apply(planned)
    assert table.name == "year-starts"
    assert rows(table, "register", "first", "date") == [("ours", "1", "1912"), ("ours", "25001", "1913")]
    assert any("first number of its year" in note for note in planned.notes)


def test_year_month_and_day_columns_are_joined() -> None:
    planned = plan("From|To|Year|Month|Day\n1|9|1912|1|8\n10|19|1912|Feb|\n20|29|1912||")
    assert rows(apply(planned), "date") == [("1912-01-08",), ("1912-02",), ("1912",)]


# --- questions


def test_an_unknown_column_is_asked_about_first_and_nothing_else_yet() -> None:
    text = "From|To|Date|Colour\n1|9|8.1.1912|green"
    planned = plan(text)
    assert keys(planned) == ["column:D"]
    assert "'Colour' (such as 'green')" in planned.questions[0].text
    assert len(planned.rows) == 0
    kept = plan(text, column_D="keep as it is")
    assert keys(kept) == ["day-order"]
    assert rows(apply(kept, {"day-order": "day first"}), "Colour", "date") == [("green", "1912-01-08")]
    assert "Colour" not in apply(plan(text, column_D="leave out"), {"day-order": "day first"}).columns


def test_a_list_without_a_head_is_asked_about_column_by_column() -> None:
    planned = plan("K|1|9|1912\nK|10|19|1913", column_A="prefix", column_B="first", column_C="last", column_D="date")
    assert rows(apply(planned), "prefix", "first", "last", "date") == [
        ("K", "1", "9", "1912"),
        ("K", "10", "19", "1913"),
    ]


def test_day_and_month_are_asked_even_where_another_row_settles_them() -> None:
    planned = plan("From|To|Date\n1|9|8.1.1912\n10|19|15.2.1912")
    (question,) = planned.questions
    assert question.choices == ("day first", "month first")
    assert "Row 3, '15.2.1912', can only be day first." in question.text
    assert rows(apply(planned, {"1": "month"}), "date") == [("1912-08-01",), ("1912-02-15",)]


def test_two_digit_years_are_asked_with_the_years_of_the_register() -> None:
    planned = plan("From|To|Year\n1|9|98\n10|19|02", Target("ours", years=(1889, 1925)))
    (question,) = planned.questions
    assert "The register runs from 1889 to 1925." in question.text
    assert "1889 to 1988" in question.choices
    assert rows(apply(planned, {"1": "1889 to 1988"}), "date") == [("1898",), ("1902",)]
    assert rows(apply(planned, {"1": "1900"}), "date") == [("1998",), ("1902",)]
    with pytest.raises(UsageError, match=r"give the first of the hundred years"):
        apply(planned, {"1": "long ago"})


def test_years_that_may_be_months_and_day_numbers_are_asked() -> None:
    planned = plan("From|To|Date\n1|9|1911-12\n10|19|1923-24\n20|29|4391")
    assert keys(planned) == ["pair", "serial"]
    assert "Row 3, '1923-24', can only be two years." in planned.questions[0].text
    assert "1912-01-08" in planned.questions[1].text
    dates = rows(apply(planned, {"pair": "two years", "serial": "day number"}), "date")
    assert dates == [("1911/1912",), ("1923/1924",), ("1912-01-08",)]


def test_a_date_that_cannot_be_read_is_asked_once_and_kept_in_words_when_left_empty() -> None:
    planned = plan("From|To|Year|Note\n1|9|old|a\n10|19|old|\n20|29|1912|b")
    assert keys(planned) == ["date:old"]
    left = apply(planned, {"1": "leave empty"})
    assert rows(left, "date", "note") == [("", "a; date as written: old"), ("", "date as written: old"), ("1912", "b")]
    assert rows(apply(planned, {"1": "before 1880"}), "date")[0] == ("../1879",)
    with pytest.raises(UsageError, match=r"that is no date either"):
        apply(planned, {"1": "very old"})


def test_a_cell_full_of_text_is_asked_about_in_short_and_kept_whole() -> None:
    story = "it was said that " * 2_000
    planned = plan(f"From|To|Year\n1|9|{story}")
    assert len(planned.questions[0].text) < 300
    assert story.strip() in apply(planned, {"1": "leave empty"}).columns["note"][0]


def test_a_winter_is_asked_with_both_its_ends() -> None:
    planned = plan("From|To|Date\n1|9|Winter 1912")
    assert planned.questions[0].choices == ("leave empty", "1911-12/1912-02", "1912-12/1913-02")


def test_hundreds_of_unreadable_dates_are_one_question() -> None:
    planned = plan("From|To|Year\n" + "\n".join(f"{n * 10}|{n * 10 + 9}|sheet {n}a" for n in range(1, 400)))
    assert keys(planned) == ["dates"]
    assert len(apply(planned, {"1": "leave empty"})) == 399


def test_blanks_below_a_value_are_asked_about() -> None:
    planned = plan("From|To|Year|Works\n1|9|1912|North\n10|19||\n20|29|1913|South")
    assert keys(planned) == ["blank:date", "blank:works"]
    table = apply(planned, {"blank:date": "same as above", "blank:works": "empty"})
    assert rows(table, "date", "works") == [("1912", "north"), ("1912", ""), ("1913", "south")]


def test_letters_at_the_first_number_only_are_asked_about() -> None:
    planned = plan("From|To\nK1|9\n10|19\nL1|9\n10|19")
    assert keys(planned) == ["blank:prefix"]
    assert rows(apply(planned, {"1": "same"}), "prefix") == [("K",), ("K",), ("L",), ("L",)]
    assert rows(apply(planned, {"1": "no letter"}), "prefix") == [("K",), ("",), ("L",), ("",)]


def test_a_letter_that_disagrees_with_its_column_is_asked_about() -> None:
    planned = plan("Prefix|From|To\nK|L1|L9")
    assert keys(planned) == ["prefix:2"]
    assert rows(apply(planned, {"1": "L"}), "prefix") == [("L",)]


def test_a_shortened_last_number_is_asked_about_once() -> None:
    planned = plan("Numbers|Year\n200001-25000|1912\n225001-50000|1912")
    assert keys(planned) == ["shortened"]
    assert rows(apply(planned, {"1": "shortened"}), "first", "last") == [("200001", "225000"), ("225001", "250000")]
    assert rows(apply(planned, {"1": "as written"}), "last") == [("25000",), ("50000",)]


def test_a_cell_that_is_no_number_is_asked_about_and_may_be_answered_with_one() -> None:
    planned = plan("From|To\n1|9\nten|19")
    assert keys(planned) == ["first:ten"]
    assert rows(apply(planned, {"1": "10"}), "first", "last") == [("1", "9"), ("10", "19")]
    assert rows(apply(planned, {"1": "leave the row out"}), "first") == [("1",)]
    with pytest.raises(UsageError, match=r"that is no number either"):
        apply(planned, {"1": "eleven"})


def test_first_numbers_with_quantities_are_asked_about() -> None:
    planned = plan("From|Quantity|Year\n0001|1,000|1912\n1001|500|1913\n1501||1914")
    assert keys(planned) == ["kind"]
    blocks = plan("From|Quantity|Year\n0001|1,000|1912\n1001|500|1913\n1501||1914", kind="blocks")
    assert keys(blocks) == ["no-last"]
    assert rows(apply(blocks, {"no-last": "one number"}), "last") == [("1000",), ("1500",), ("1501",)]
    starts = apply(planned, {"1": "first number of each year"})
    assert starts.name == "year-starts"
    assert starts.columns["quantity"] == ["1000", "500", ""]


def test_questions_that_an_answer_brings_up_are_numbered_after_those_before() -> None:
    text = "From|Quantity|Date\n1|100|8.1.1912\n101||8.2.1912"
    assert [(q.number, q.key) for q in plan(text).questions] == [(1, "kind"), (2, "day-order")]
    table = apply(plan(text), {"1": "blocks", "2": "day first", "3": "one number"})
    assert rows(table, "last", "date") == [("100", "1912-01-08"), ("101", "1912-02-08")]


def test_the_register_is_asked_when_nobody_says_it() -> None:
    planned = plan("From|To\n1|9", Target())
    assert keys(planned) == ["register"]
    assert rows(apply(planned, {"1": "their-list"}), "register") == [("their-list",)]


# --- answers that do not fit


def test_nothing_is_written_while_a_question_is_open() -> None:
    with pytest.raises(UsageError, match=r"Still to be answered: question 1, 2\. Question 1: "):
        apply(plan("From|To|Date\n1|9|8.1.1912\n10|19|12"))


def test_a_wrong_answer_names_the_choices() -> None:
    with pytest.raises(UsageError, match=r"'week' is no answer .* Choose one of 'day first', 'month first'"):
        plan("From|To|Date\n1|9|8.1.1912", OURS, **{"day-order": "week"})


@pytest.mark.parametrize("name", ["7", "no-such-question", "0"])
def test_an_answer_to_no_question_is_refused(name: str) -> None:
    with pytest.raises(UsageError, match=rf"no question {name}"):
        plan("From|To|Date\n1|9|8.1.1912", OURS, **{name: "yes"})


# --- repairs


EATEN = "From|To|Year\n0200001|0225000|1921\n225001|250000|1921\n250001|275000|1922"


def test_repairs_are_offered_and_never_made_by_themselves() -> None:
    planned = plan(EATEN)
    assert [(repair.row, repair.old, repair.new) for repair in planned.repairs] == [
        (3, "225001 to 250000", "0225001 to 0250000"),
        (4, "250001 to 275000", "0250001 to 0275000"),
    ]
    assert rows(apply(planned), "first") == [("0200001",), ("225001",), ("250001",)]
    assert rows(apply(planned, {}, [2]), "first") == [("0200001",), ("225001",), ("0250001",)]
    assert rows(apply(planned, {}, "all"), "last") == [("0225000",), ("0250000",), ("0275000",)]


def test_a_repair_that_nobody_offered_is_refused() -> None:
    with pytest.raises(UsageError, match=r"no repair 3. There are 2"):
        apply(plan(EATEN), {}, [3])


def test_repairs_wait_for_the_answers() -> None:
    assert plan(EATEN + "\n275001|300000|1/2/1922").repairs == ()


# --- what must be set right in the file


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            "From|To\n2.04E+05|2.29E+05",
            r"Column 'first': 1 number was rounded.*'2.04E\+05' in row 2.*set .* to text",
        ),
        ("From|To\ndo.|9", r"Row 2, column 'first': a ditto mark has no value above"),
        ("Name|Town\nAnna|Ulm", r"no number anywhere"),
        ("Year|Model\n1912|Nine", r"No column of the sheet holds the numbers \(row 1 has the headings Year, Model\)"),
        ("From|To\nK1|L9", r"Row 2 begins with letter K and ends with L"),
        ("Numbers|To\n1-9|19", r"Row 2 has a block in one cell and another number beside it"),
        ("|".join(f"c{n}" for n in range(200)) + "\n" + "|".join("1" * 200), r"has 200 columns"),
    ],
)
def test_what_cannot_be_asked_is_an_error_that_names_the_row(text: str, words: str) -> None:
    with pytest.raises(SheetError, match=words):
        plan(text)


def test_two_columns_cannot_both_be_the_first_number() -> None:
    with pytest.raises(SheetError, match=r"Columns A and C cannot both be 'first'"):
        plan("From|To|Other\n1|9|5", column_C="first")


# --- from file to rows


def test_a_german_list_with_semicolons_and_an_old_encoding_becomes_a_pack_table(tmp_path: Path) -> None:
    path = tmp_path / "liste.csv"
    lines = [
        "Nummernliste;;;",
        "Von;Bis;Jahr;Stückzahl",
        "0.200.001;225.000;um 1921;25.000",
        '225.001;250.000;";25.000',
    ]
    path.write_bytes("\r\n".join(lines).encode("cp1252"))
    planned = make_plan(read_sheet(path), OURS)
    assert planned.open_questions == ()
    table = apply(planned, {}, "all")
    assert rows(table, "first", "last", "date", "quantity") == [
        ("0200001", "0225000", "1921~", "25000"),
        ("0225001", "0250000", "1921~", "25000"),
    ]
    assert any("guessed" in note for note in planned.notes)


def test_an_imported_list_is_a_pack_that_loads(tmp_path: Path) -> None:
    table = apply(
        plan("From|To|Year|Model|Farbe\nK10001|K10500|c. 1889|Nine|red\nK10501|K11000|1890|Ten|", column_E="keep")
    )
    pack = Pack.of(
        "imported",
        Table.of("makers", {"maker": ["ottrel"], "name": ["Ottrel & Vane"]}),
        Table.of("models", {"model": ["nine", "ten"], "name": ["Nine", "Ten"], "maker": ["ottrel"] * 2}),
        Table.of("registers", {"register": ["ours"], "maker": ["ottrel"], "kind": ["allocations"], "title": ["Ours"]}),
        table,
        title="Imported",
        version="1",
    )
    write(pack, tmp_path)
    again = load(tmp_path)
    assert rows(again.tables["allocations"], *table.columns) == rows(table, *table.columns)
