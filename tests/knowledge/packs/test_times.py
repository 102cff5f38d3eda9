"""Order of issue against dates, and the years of models, works and registers."""

import pytest

from tests.knowledge.packs.small_blocks import of_blocks, places

A = "allocations.csv"
THREE = [("300", "399"), ("100", "199"), ("200", "299")]


def test_dates_follow_the_order_of_issue_not_the_order_of_numbers():
    assert places(of_blocks(*THREE, date=["1900", "1901", "1902"]), "dates-backwards") == []
    found = of_blocks(*THREE, date=["1902", "1900", "1901"])
    assert places(found, "dates-backwards") == [(3, "date")]
    assert of_blocks(*THREE, date=["1902", "1900", "1901"], order=["3", "1", "2"]) == []


def test_order_is_a_number_not_a_text():
    assert of_blocks(*THREE, date=["1902", "1900", "1901"], order=["10", "8", "9"]) == []


def test_only_dates_that_cannot_be_in_order_are_told():
    dates = ["1910/1912", "1911", "1911-06", "1911~", "1911-01", "../1905"]
    rows = [(str(n), str(n)) for n in range(6)]
    assert places(of_blocks(*rows, date=dates), "dates-backwards") == [(7, "date")]


def test_each_prefix_has_an_order_of_its_own():
    rows = [("1", "1"), ("1", "1"), ("2", "2"), ("2", "2")]
    found = of_blocks(*rows, prefix="", date=["1910", "1900", "1911", "1901"], register=["a", "b", "a", "b"])
    assert places(found, "dates-backwards") == []


def test_one_date_too_early_is_told_once():
    rows = [(str(n), str(n)) for n in range(5)]
    assert places(of_blocks(*rows, date=["1910", "1911", "1901", "1913", "1914"]), "dates-backwards") == [(4, "date")]


def test_a_row_without_order_follows_the_row_above_it():
    found = of_blocks(*THREE, date=["1902", "1900", "1901"], order=["3", "1", ""])
    assert [one.code for one in found] == ["part-order"]


@pytest.mark.parametrize(
    ("date", "code"),
    [
        ("1931", "model-withdrawn"),
        ("1930", None),
        ("1929/1940", None),
        ("1930-12-31", None),
        ("1901", "model-not-introduced"),
        ("1901/1902", None),
        ("1902-01", None),
    ],
)
def test_a_date_that_may_still_lie_in_the_years_of_the_model_is_no_fault(folder, date, code):
    found = folder.with_rows(A, f"ledger,1,K,100,199,,{date},m1,,,book,")
    assert [(one.code, one.row, one.column) for one in found] == ([(code, 2, "model")] if code else [])


def test_a_model_without_years_takes_every_date(folder, sound):
    folder.write(sound | {"models.csv": "model,maker,name\nm1,ara,Model 1\nb1,bel,Bel 1\n"})
    assert folder.faults() == []


def test_works_are_checked_in_every_list_that_has_dates(folder, sound):
    folder.write(sound | {"works.csv": "works,maker,name,from,to\nnorth,ara,N,1906,1950\nbelworks,bel,B,1902,1950\n"})
    found = [(one.file, one.row) for one in folder.faults() if one.code == "works-closed"]
    assert found == [(A, 2), ("year-starts.csv", 2)]


def test_years_the_wrong_way_round_raise_no_echo_in_every_row(folder):
    found = folder.spoiled("works.csv", "North Works,1900,1950", "North Works,1950,1900")
    assert [one.code for one in found] == ["from-after-to"]
