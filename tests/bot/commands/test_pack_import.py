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
