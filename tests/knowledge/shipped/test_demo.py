"""The invented demo group: what its pack must hold so that every kind of question can be tried on it."""

import pytest

from knowledge.answer import answer, as_json
from knowledge.base import Knowledge
from knowledge.packs import faults_of, load
from knowledge.shipped import folders

[FOLDER] = [folder for folder in folders() if folder.name == "demo"]
# Three gaps, one batch not used up, and three blocks of one works that meet four rows of another.
WARNINGS = ["gap"] * 3 + ["overlap"] * 4 + ["quantity-differs"]


@pytest.fixture(scope="module")
def pack():
    return load(FOLDER)


@pytest.fixture(scope="module")
def demo(pack):
    return Knowledge.of([pack])


def candidates(text, knowledge):
    return as_json(answer(text, knowledge))["candidates"]


def rows_of(pack, prefix):
    columns = ("prefix", "first", "last", "date", "works", "quantity")
    return [row for row in pack.rows("allocations", *columns) if row[0] == prefix]


def test_the_only_faults_are_the_warnings_that_the_ledger_deserves():
    _, faults = faults_of(FOLDER)
    assert [fault for fault in faults if fault.severity == "error"] == []
    assert sorted(fault.code for fault in faults) == WARNINGS


def test_there_are_four_makers_and_every_kind_of_register(pack):
    assert len(list(pack.rows("makers", "maker"))) == 4
    assert {kind for (kind,) in pack.rows("registers", "kind")} == {"allocations", "year-starts", "date-code"}
    assert 400 <= len(list(pack.rows("allocations", "first"))) <= 800


def test_letter_k_runs_six_digits_then_seven_from_a_million_then_seven_with_a_zero(pack):
    firsts = [first for _, first, *_ in rows_of(pack, "K")]
    widths = ["zero" if len(first) == 7 and first[0] == "0" else str(len(first)) for first in firsts]
    assert widths == sorted(widths, key=["6", "7", "zero"].index)
    assert firsts[widths.index("7")] == "1000000"
    assert rows_of(pack, "K")[widths.index("zero") - 1][2] == "9999999"
    assert firsts[widths.index("zero")] == "0000001"


def test_the_dates_of_letter_k_follow_the_order_of_issue_and_not_the_numbers(pack):
    dates = [date for _, _, _, date, *_ in rows_of(pack, "K")]
    assert dates == sorted(dates)


def test_two_works_used_some_numbers_of_letter_m_twice(demo):
    found = [one for one in candidates("serial number M308500", demo) if one["steps"] == ["as-typed"]]
    assert sorted((one["works"], one["date"][:4]) for one in found) == [("brackwater", "1930"), ("hallowmere", "1928")]


def test_one_batch_was_not_used_up_and_its_row_says_so(pack):
    columns = ("first", "last", "quantity", "note")
    short = [row for row in pack.rows("allocations", *columns) if int(row[2]) != int(row[1]) - int(row[0]) + 1]
    [(first, last, quantity, note)] = short
    assert (first, last, quantity) == ("0700001", "0725000", "18640")
    assert "not used" in note


def test_the_example_of_the_first_question_is_dated_to_its_batch_of_25000(demo):
    best = candidates("my gran's machine says K 0 204 117, how old is it?", demo)[0]
    assert (best["serial"], best["first"], best["last"], best["quantity"]) == ("K0204117", "0200001", "0225000", 25_000)
    assert (best["date"], best["position"], best["model"]) == ("1921-03-02", 4_117, "ov-9")


def test_without_its_zero_the_example_is_another_model_and_thirty_years_older(demo):
    found = {one["serial"]: one for one in candidates("Ottrel K204117", demo)}
    assert found["K204117"]["date"] == "1889-11-05"
    assert found["K204117"]["model"] != found["K0204117"]["model"]


def test_a_plain_count_is_dated_by_the_year_it_falls_in(demo):
    found = [one for one in candidates("Wendelohr number 823774", demo) if one["steps"] == ["as-typed"]]
    assert {(one["register"], one["date"]) for one in found} == {("wendelohr-years", "1913")}


def test_a_year_letter_that_was_used_twice_gives_both_years(demo):
    found = [one for one in candidates("Rivolanda serial DH104517", demo) if one["steps"] == ["as-typed"]]
    assert sorted(one["date"] for one in found) == ["1925-08", "1940-08"]


def test_the_works_figure_leaves_out_a_year_in_which_that_works_did_not_exist(demo):
    found = [one for one in candidates("Rivolanda serial DH204517", demo) if one["steps"] == ["as-typed"]]
    assert [(one["date"], one["works"]) for one in found] == [("1940-08", "portolesso")]


def test_a_last_figure_of_the_year_and_a_week_give_both_decades_unless_the_model_tells(demo):
    either = [one for one in candidates("Rivolanda R142V20317", demo) if one["steps"] == ["as-typed"]]
    assert sorted(one["earliest"] for one in either) == ["1952-03-31", "1962-04-02"]
    treadle = [one for one in candidates("Rivolanda R142V10317", demo) if one["steps"] == ["as-typed"]]
    assert [(one["earliest"], one["model"]) for one in treadle] == [("1952-03-31", "ri-cincia")]


@pytest.mark.parametrize(
    ("typed", "date"), [("004512 A", "1908-04-06"), ("SE 41302", "1939-03-31"), ("SF204117", "1954-02-03")]
)
def test_letters_before_or_behind_the_number_are_series_of_their_own(typed, date, demo):
    assert candidates(f"Sundrika no {typed}", demo)[0]["date"] == date


def test_a_letter_put_before_the_number_that_stands_behind_it_is_no_number_as_typed(demo):
    assert [one for one in candidates("Sundrika no A004512", demo) if one["steps"] == ["as-typed"]] == []


def test_the_second_list_disagrees_about_late_numbers_of_letter_m_and_agrees_about_letter_k(demo):
    codes = {one.code for one in answer("Ottrel M590000", demo).cautions}
    assert "lists-disagree" in codes
    codes = {one.code for one in answer("Ottrel K0204117", demo).cautions}
    assert "lists-disagree" not in codes


def test_an_electric_model_brings_the_caution_about_old_wiring(demo):
    assert "old-wiring" in {one.code for one in answer("Sundrika Runa E, number SF204117", demo).cautions}


def test_every_batch_was_made_while_its_model_was(pack):
    spans = {model: (first, last) for model, first, last in pack.rows("models", "model", "introduced", "withdrawn")}
    for date, model in pack.rows("allocations", "date", "model"):
        assert spans[model][0] <= date[:4] <= spans[model][1]


def test_every_model_says_what_it_sews_with_and_every_maker_where_the_number_is(pack):
    for cells in pack.rows("models", "shuttle", "bobbin", "needle", "bed", "drive"):
        assert all(cells)
    for cells in pack.rows("makers", "where", "drawing", "country"):
        assert all(cells)


def test_every_invented_source_says_that_it_is_invented(pack):
    for (title,) in pack.rows("sources", "title"):
        assert title.endswith("(invented)")
