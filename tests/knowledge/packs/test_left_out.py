"""A row that is at fault is told once: the numbers it should have held are no gap beside it."""

import pytest

from tests.knowledge.packs.small_blocks import of_blocks, places

A = "allocations.csv"
ROW = "ledger,2,K,990001,999999,,1906,m1,north,9999,book,"
SPOILT = {
    "bad first": ROW.replace("990001", "99ooo1"),
    "both ends bad": ROW.replace("990001", "x").replace("999999,,", "y,,"),
    "first above last": ROW.replace("990001", "999999").replace("999999,,", "990001,,", 1),
    "unknown register": ROW.replace("ledger", "lodger"),
    "no register": ROW.replace("ledger", ""),
    "odd prefix": ROW.replace("K", "K-"),
    "digits in the prefix": ROW.replace("K,99", "K99,"),
    "another alphabet": ROW.replace("K", "\u0416"),
    "odd suffix": ROW.replace("999999,", "999999,-"),
    "too long": ROW.replace("990001", "9" * 20).replace("999999,,", "9" * 21 + ",,"),
}


@pytest.mark.parametrize("row", SPOILT.values(), ids=SPOILT)
def test_a_row_at_fault_makes_no_gap_beside_it(folder, row):
    found = folder.spoiled(A, ROW, row)
    assert [one.row for one in found if one.severity == "error" or one.code == "foreign-letters"]
    assert places(found, "gap") == []


def test_other_gaps_are_still_told(folder, sound):
    folder.write(sound | {A: sound[A].replace("990001", "99ooo1").replace("0020001", "0021001")})
    assert places(folder.faults(), "gap") == [(7, "first")]


def test_a_row_at_fault_elsewhere_hides_no_gap():
    blocks = [("100", "199"), ("300", "399"), ("400", "4x9"), ("500", "599")]
    assert places(of_blocks(*blocks), "gap") == [(3, "first")]


def test_rows_of_an_unknown_register_have_no_gaps_of_their_own(folder, sound):
    folder.write(sound | {A: sound[A].replace("ledger,1", "lodger,1").replace("ledger,3", "lodger,3")})
    assert places(folder.faults(), "gap") == []


def test_ten_thousand_rows_at_fault_beside_ten_thousand_gaps_are_checked():
    blocks = [(f"{n}001", f"{n}010") if n % 2 else (f"{n}x", f"{n}500") for n in range(1000, 21_000)]
    found = of_blocks(*blocks)
    assert len(places(found, "bad-number")) == 10_000
    assert len(places(found, "gap")) < 10
