"""`bedstamp pack import`."""

import io

import pytest

from bot.__main__ import main

LIST = "First;Last;Date;Model\nK 200.001;K 225.000;8.1.1912;Model 6\nK 225.001;K 240.000;c. 1913;do.\n"
ZEROS = "First,Last,Date\n0100001,0125000,1900\n125001,150000,1901\n"


@pytest.fixture
def importing(tmp_path, capsys, monkeypatch):
    def call(text: str, *options: str) -> tuple[int, str, str]:
        monkeypatch.setattr("sys.stdin", io.StringIO())
        path = tmp_path / "list.csv"
        path.write_text(text)
        code = main(["pack", "import", str(path), str(tmp_path / "ours"), *options])
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        return code, out, err

    return call


def test_what_is_unclear_is_asked_and_nothing_is_written(importing, tmp_path):
    code, out, _ = importing(LIST, "--register", "ledger", "--maker", "Tollgate")
    assert code == 1
    assert "day or the month" in out
    assert "--answer" in out
    assert not (tmp_path / "ours").exists()


def test_with_the_answers_a_pack_is_made_that_can_be_loaded(importing, tmp_path, capsys):
    code, _, err = importing(LIST, "--register", "ledger", "--maker", "Tollgate & Sons", "--answer", "1=day first")
    assert (code, err) == (0, "")
    assert main(["pack", "check", str(tmp_path / "ours")]) == 0
    capsys.readouterr()
    assert main(["ask", "--pack", str(tmp_path / "ours"), "K204117"]) == 0
    assert "Model 6, allocated 8 January 1912" in " ".join(capsys.readouterr().out.split())


def test_lost_zeros_are_offered_and_never_put_back_in_silence(importing, tmp_path):
    options = ("--register", "ledger", "--maker", "Tollgate", "--digits", "7")
    code, out, _ = importing(ZEROS, *options)
    assert code == 1
    assert "--repair all" in out
    assert not (tmp_path / "ours").exists()
    assert importing(ZEROS, *options, "--repair", "all")[0] == 0
    assert "0125001,0150000" in (tmp_path / "ours" / "allocations.csv").read_text()


INTO_FULL_WIDTH = "first,last,date\n000001,040000,1900\n40001,80000,1901\n80001,100000,1902\n100001,150000,1903\n"


def test_every_zero_is_offered_back_up_to_the_block_that_needs_none_any_more(importing, tmp_path):
    options = ("--register", "ledger", "--maker", "Tollgate")
    assert importing(INTO_FULL_WIDTH, *options, "--repair", "all")[0] == 0
    rows = (tmp_path / "ours" / "allocations.csv").read_text().splitlines()
    assert rows[2].startswith("ledger,040001,080000")
    assert rows[3].startswith("ledger,080001,100000")


@pytest.mark.parametrize(("repair", "left"), [("none", ["row 3", "row 4"]), ("1", ["row 4"])])
def test_repairs_that_were_declined_are_named_by_the_rows_of_the_list_with_the_way_out(
    importing, tmp_path, repair, left
):
    text = "Our list\n" + INTO_FULL_WIDTH  # the head is in row 2
    code, out, _ = importing(text, "--register", "ledger", "--maker", "Tollgate", "--repair", repair)
    assert code == 1
    assert "Nothing was written" in out
    for row in (one.replace("3", "x").replace("4", "5").replace("x", "4") for one in left):
        assert f"list.csv, {row}, first" in out
    assert "allocations.csv" not in out
    assert "--repair all" in out
    assert not (tmp_path / "ours").exists()


def test_zeros_that_no_repair_was_offered_for_can_be_put_back_by_the_number_of_digits(importing, tmp_path):
    # The order column, not the order of the rows, says what goes on from what.
    text = "order,first,last,date\n3,225001,250000,1901\n2,100001,225000,1900\n1,0000001,0100000,1899\n"
    options = ("--register", "ledger", "--maker", "Tollgate")
    code, out, _ = importing(text, *options)
    assert code == 1
    assert "--digits 7" in out
    assert importing(text, *options, "--digits", "7", "--repair", "all")[0] == 0
    assert "0225001,0250000" in (tmp_path / "ours" / "allocations.csv").read_text()


def test_a_fault_that_no_repair_mends_names_the_row_of_the_list(importing, tmp_path):
    code, out, _ = importing(
        "first,last,date\n100,199,1900\n\n300,299,1901\n", "--register", "r", "--maker", "Tollgate"
    )
    assert code == 1
    assert "list.csv, row 4, first: '300' in first is above '299' in last" in out
    assert not (tmp_path / "ours").exists()


def test_what_was_written_is_counted_in_words(importing):
    out = importing("first,last,date\n1,100,1880\n", "--register", "r", "--maker", "Tollgate")[1]
    assert "Wrote 1 row of allocations into" in out
    assert "; 0 warnings." in out or "; 1 warning." in out


def test_a_register_that_has_rows_is_replaced_only_when_asked(importing, tmp_path):
    options = ("--register", "ledger", "--maker", "Tollgate", "--answer", "1=day first")
    importing(LIST, *options)
    code, _, err = importing(LIST, *options)
    assert code == 2
    assert "--replace" in err
    assert importing(LIST, *options, "--replace")[0] == 0
    assert len((tmp_path / "ours" / "allocations.csv").read_text().splitlines()) == 3


def test_a_second_list_is_added_to_the_pack(importing, tmp_path):
    importing(LIST, "--register", "ledger", "--maker", "Tollgate", "--answer", "1=day first")
    assert importing("First,Last,Date\n1,100,1880\n", "--register", "old-book")[0] == 0
    text = (tmp_path / "ours" / "registers.csv").read_text()
    assert "ledger,tollgate,allocations" in text
    assert "old-book,tollgate,allocations" in text


def test_whose_register_it_is_must_be_told(importing):
    code, _, err = importing(LIST, "--register", "ledger", "--answer", "1=day first")
    assert code == 2
    assert "--maker" in err


@pytest.mark.parametrize(
    "options",
    [("--answer", "day"), ("--answer", "9=x"), ("--register", "r", "--answer", "1=neither"), ("--digits", "x")],
)
def test_options_that_make_no_sense_are_said(importing, options):
    code, _, err = importing(LIST, *options)
    assert code == 2
    assert err


def test_a_file_that_is_not_there_is_said(capsys, tmp_path):
    assert main(["pack", "import", str(tmp_path / "none.xlsx"), str(tmp_path / "ours")]) == 2
    assert "none.xlsx" in capsys.readouterr().err
