"""A change is checked as a pack is: what would make an error is refused, what is only odd is shown."""

from __future__ import annotations

import pytest

from knowledge.register_changes.exporting import changed_rows, whole_table
from knowledge.register_changes.judging import Judged, judge
from knowledge.register_changes.nouns import ChangeError, RegisterChange, Row, as_cells, as_row
from knowledge.register_changes.overlay import standing
from knowledge.register_changes.words import difference, short
from tests.knowledge.sharing.groups import our_pack, ours

PACK = our_pack()
FIRST, SECOND = list(PACK.rows("allocations", *PACK.tables["allocations"].columns))


def corrected(**cells: str) -> Row:
    return as_row("allocations", as_cells("allocations", FIRST) | cells)


def judged(before: Row | None, after: Row | None) -> Judged:
    return judge(RegisterChange("ours", "allocations", before, after), PACK)


def test_a_sound_change_passes_without_a_word() -> None:
    assert judged(FIRST, corrected(date="1891")).warnings == ()


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"date": "soon"}, "date: 'soon'"),
        ({"first": "9999999"}, "first"),
        ({"prefix": "k-"}, "prefix"),
        ({"date": ""}, "date"),
    ],
)
def test_a_change_that_would_make_an_error_is_refused_with_its_fault(cells: dict[str, str], said: str) -> None:
    with pytest.raises(ChangeError, match=r"would make the list wrong") as refused:
        judged(FIRST, corrected(**cells))
    assert said in str(refused.value)


@pytest.mark.parametrize(
    ("cells", "code"),
    [({"last": "226000"}, "overlap"), ({"last": "224000"}, "gap"), ({"quantity": "5"}, "quantity-differs"),
     ({"date": "1899"}, "dates-backwards"), ({"model": "m77"}, "unknown-model")],
)  # fmt: skip
def test_what_is_only_odd_is_a_warning_shown_with_the_difference(cells: dict[str, str], code: str) -> None:
    found = judged(FIRST, corrected(**cells))
    assert [one.code for one in found.warnings] == [code]
    assert "Look at this: " in difference(found, ours())


def test_faults_that_were_there_before_are_not_laid_to_the_change() -> None:
    spoiled = our_pack()
    spoiled.tables["allocations"].columns["date"][1] = "soon"
    change = RegisterChange("ours", "allocations", FIRST, corrected(date="1891"))
    assert judge(change, spoiled).warnings == ()


def test_a_row_that_is_not_there_any_more_and_one_that_is_there_already_are_refused() -> None:
    with pytest.raises(ChangeError, match=r"no row any more"):
        judged(corrected(date="1700"), FIRST)
    with pytest.raises(ChangeError, match=r"says so already"):
        judged(None, FIRST)
    with pytest.raises(ChangeError, match=r"says so already"):
        judged(FIRST, FIRST)


def test_the_new_row_is_called_so_in_what_is_warned_of() -> None:
    new = as_row(
        "allocations", {"register": "list", "prefix": "K", "first": "190001", "last": "200000", "date": "1899"}
    )
    told = difference(judged(None, new), ours())
    assert "K190001 to K200000" in told
    assert "the new row" in told


def test_a_difference_names_the_list_the_row_and_both_cells() -> None:
    told = difference(judged(FIRST, corrected(date="1891", model="m6")), ours())
    assert told.splitlines() == [
        "In the list 'The ledger', K200001 to K225000:",
        "  date: 1890 becomes 1891",
        "  model: Model 9 (m9) becomes Model 6 (m6)",
    ]


def test_a_row_taken_out_tells_what_goes() -> None:
    told = difference(judged(FIRST, None), ours())
    assert "the row is taken out" in told
    assert "date: 1890" in told


def test_a_change_has_a_short_form_for_lists() -> None:
    change = RegisterChange("ours", "allocations", FIRST, corrected(date="1891"))
    assert short(change, ours()) == "K200001 to K225000 (The ledger): date 1890 becomes 1891"


def test_changed_rows_are_told_to_be_put_in_and_taken_out() -> None:
    change = RegisterChange("ours", "allocations", FIRST, corrected(date="1891"), 1)
    text = changed_rows("allocations", standing("allocations", [FIRST, SECOND], [change]))
    head, out, into = text.splitlines()
    assert head.startswith("change,register,order,prefix,first,last,")
    assert out == "take out,list,,K,200001,225000,,1890,m9,mill,,,"
    assert into == "put in,list,,K,200001,225000,,1891,m9,mill,,,"


def test_the_whole_table_is_the_file_of_the_pack() -> None:
    assert whole_table("allocations", [FIRST]).splitlines()[0] == "register,prefix,first,last,date,model,works"
