"""`bedstamp pack check` and `pack load`."""

import json
import os
import sqlite3

import pytest

from bot.__main__ import main


def call(capsys, *arguments):
    code = main([str(one) for one in arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


def spoil(folder, old, new):
    path = folder / "allocations.csv"
    path.write_text(path.read_text().replace(old, new))


def test_a_good_pack_passes(capsys, pack_folder):
    code, out, _ = call(capsys, "pack", "check", pack_folder)
    assert code == 0
    assert "tollgate: 0 errors" in out


def test_a_faulty_pack_fails_and_names_file_and_row(capsys, pack_folder):
    spoil(pack_folder, "225000", "125000")
    code, out, _ = call(capsys, "pack", "check", pack_folder)
    assert code == 1
    assert "allocations.csv, row 2" in out


def test_json_tells_errors_and_warnings(capsys, pack_folder):
    spoil(pack_folder, "1890-03-02", "2.3.1890")
    code, out, _ = call(capsys, "pack", "check", pack_folder, "--json")
    told = json.loads(out)
    assert code == 1
    assert set(told) == {"errors", "warnings"}
    assert set(told["errors"][0]) == {"file", "row", "column", "code", "text"}
    assert (told["errors"][0]["row"], told["errors"][0]["column"]) == (2, "date")


def test_ten_thousand_faults_are_counted_not_poured_out(capsys, pack_folder):
    rows = "".join(f"t-ledger,{at},K,3,1,1900,t6,mill,,ledger\n" for at in range(10_000))
    with (pack_folder / "allocations.csv").open("a") as file:
        file.write(rows)
    code, out, _ = call(capsys, "pack", "check", pack_folder)
    assert code == 1
    assert len(out.splitlines()) < 200
    assert "more '" in out
    assert len(call(capsys, "pack", "check", pack_folder, "--all")[1].splitlines()) > 10_000


@pytest.mark.parametrize("command", [["pack", "check"], ["pack", "load", "--db", "x.sqlite"]])
def test_a_folder_that_is_not_there_is_said(capsys, tmp_path, monkeypatch, command):
    monkeypatch.chdir(tmp_path)
    code, out, err = call(capsys, *command, tmp_path / "nowhere")
    assert code == 1
    assert "nowhere" in out + err
    assert not (tmp_path / "x.sqlite").exists()


def test_a_loaded_pack_answers(capsys, pack_folder, tmp_path):
    database = tmp_path / "base.sqlite"
    code, out, _ = call(capsys, "pack", "load", pack_folder, "--db", database)
    assert code == 0
    assert "Loaded the pack tollgate" in out
    assert "allocations: 4 added" in out
    code, out, _ = call(capsys, "ask", "--db", database, "K0204117")
    assert code == 0
    assert "Model 9" in out


def test_loading_again_says_what_changed(capsys, pack_folder, tmp_path):
    database = tmp_path / "base.sqlite"
    call(capsys, "pack", "load", pack_folder, "--db", database)
    assert "Nothing in tollgate changed." in call(capsys, "pack", "load", pack_folder, "--db", database)[1]
    spoil(pack_folder, "1921-03-02", "1922-03-02")
    told = call(capsys, "pack", "load", pack_folder, "--db", database)[1]
    assert "date was 1921-03-02, now 1922-03-02" in " ".join(told.split())


def test_a_faulty_pack_changes_nothing(capsys, pack_folder, tmp_path):
    database = tmp_path / "base.sqlite"
    call(capsys, "pack", "load", pack_folder, "--db", database)
    spoil(pack_folder, "225000", "125000")
    code, out, err = call(capsys, "pack", "load", pack_folder, "--db", database)
    assert (code, out) == (1, "")
    assert "allocations.csv, row 2" in err
    assert "Model 6" in call(capsys, "ask", "--db", database, "K204117")[1]


def test_a_faulty_pack_makes_no_knowledge_base(capsys, pack_folder, tmp_path):
    spoil(pack_folder, "225000", "125000")
    assert call(capsys, "pack", "load", pack_folder, "--db", tmp_path / "base.sqlite")[0] == 1
    assert not (tmp_path / "base.sqlite").exists()


def test_a_knowledge_base_held_by_another_program_is_said(capsys, pack_folder, tmp_path, monkeypatch):
    impatient = {"create": False, "read_only": False, "timeout": 0.1}
    monkeypatch.setattr("knowledge.store.open_store.__kwdefaults__", impatient)
    database = tmp_path / "base.sqlite"
    call(capsys, "pack", "load", pack_folder, "--db", database)
    other = sqlite3.connect(database)
    other.execute("BEGIN IMMEDIATE")
    try:
        code, out, err = call(capsys, "pack", "load", pack_folder, "--db", database)
    finally:
        other.close()
    assert (code, out) == (2, "")
    assert "Another program" in err


def test_a_file_that_is_no_knowledge_base_is_left_alone(capsys, pack_folder, tmp_path):
    file = tmp_path / "letter.txt"
    file.write_text("Dear group, ...")
    code, _, err = call(capsys, "pack", "load", pack_folder, "--db", file)
    assert code in (1, 2)
    assert err
    assert file.read_text() == "Dear group, ..."


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_cannot_be_written_is_said(capsys, pack_folder, tmp_path):
    (tmp_path / "closed").mkdir(mode=0o500)
    code, _, err = call(capsys, "pack", "load", pack_folder, "--db", tmp_path / "closed" / "base.sqlite")
    assert code in (1, 2)
    assert err


@pytest.mark.parametrize("arguments", [[], ["pack"], ["pack", "load", "x"], ["pack", "nonsense"], ["nonsense"]])
def test_misuse_points_to_help(capsys, arguments):
    code, out, err = call(capsys, *arguments)
    assert (code, out) == (2, "")
    assert "--help" in err
