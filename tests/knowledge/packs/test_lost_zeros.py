"""Zeros that a spreadsheet ate: found by the other end of a block, or by the blocks around it."""

from tests.knowledge.packs.small_blocks import of_blocks, places


def lost(*blocks, **more):
    return {one.row: one.text for one in of_blocks(*blocks, **more) if one.code == "lost-zero"}


def test_a_first_shorter_than_a_last_that_begins_with_zero_lost_its_own():
    found = lost(("200001", "0225000"))
    assert found.keys() == {2}
    assert "Write 0200001" in found[2]


def test_a_last_shorter_than_a_first_that_begins_with_zero_lost_its_own():
    found = lost(("0200001", "225000"))
    assert "Write 0225000" in found[2]


def test_several_zeros_may_be_lost_at_once():
    assert "Write 0000001" in lost(("1", "0000500"))[2]


def test_rows_that_lost_both_zeros_between_others_are_found_and_the_repair_is_said():
    rows = [
        ("0200001", "0225000"),
        ("225001", "250000"),
        ("250001", "275000"),
        ("275001", "300000"),
        ("0300001", "0325000"),
    ]
    found = lost(*rows)
    assert found.keys() == {3, 4, 5}
    assert "Write 0225001 and 0250000" in found[3]


def test_a_row_that_lost_its_zeros_raises_no_echo_as_a_gap_or_an_overlap():
    found = of_blocks(("0200001", "0225000"), ("225001", "250000"), ("0250001", "0275000"))
    assert [one.code for one in found] == ["lost-zero"]


def test_rows_at_the_end_and_at_the_start_of_a_series_are_found():
    assert lost(("0200001", "0225000"), ("225001", "250000")).keys() == {3}
    assert lost(("175001", "200000"), ("0200001", "0225000")).keys() == {2}


def test_only_the_first_lost_its_zero_where_the_count_reaches_full_width():
    found = lost(("080001", "090000"), ("90001", "100000"), ("100001", "110000"))
    assert found.keys() == {3}
    assert "Write 090001 and 100000" in found[3]


def test_a_series_of_six_digits_beside_one_of_seven_with_zeros_lost_nothing():
    six = [("200001", "225000"), ("225001", "250000"), ("250001", "275000")]
    seven = [("0200001", "0225000"), ("0225001", "0250000")]
    assert lost(*six, *seven) == {}
    assert lost(six[0], seven[0], six[1], seven[1], six[2]) == {}


def test_another_prefix_is_another_series():
    assert lost(("0200001", "0225000"), ("225001", "250000"), prefix="", suffix=["", "A"]) == {}


def test_issue_order_decides_what_stands_beside_what():
    rows = [("225001", "250000"), ("0200001", "0225000")]
    assert lost(*rows, order=["2", "1"]).keys() == {2}
    assert lost(*rows) == {}


def test_fewer_digits_in_order_of_issue_are_perhaps_a_lost_zero_when_the_dates_go_on():
    rows = [("990001", "999999"), ("1000000", "1009999"), ("200001", "225000"), ("225001", "250000")]
    assert places(of_blocks(*rows), "perhaps-lost-zero") == [(4, "first")]
    assert places(of_blocks(*rows, date=["1920", "1921", "1910", "1911"]), "perhaps-lost-zero") == []


def test_ten_thousand_lost_zeros_are_all_found():
    rows = [("0000001", "0000010"), *((f"{n * 10 + 1}", f"{n * 10 + 10}") for n in range(1, 10_000))]
    assert len(lost(*rows)) == 9_999
