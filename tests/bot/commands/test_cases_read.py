"""`bedstamp cases read`, as it is called: what is understood of experts' answers, and nothing stored."""

import json
import subprocess
import sys

import pytest

from bot.__main__ import main


@pytest.fixture
def read(pack_folder, capsys):
    def call(*arguments: str) -> tuple[int, str, str]:
        code = main(["cases", "read", "--pack", str(pack_folder), *arguments])
        out, err = capsys.readouterr()
        return code, out, err

    return call


@pytest.fixture
def read_lines(read, typed):
    def call(raw: bytes) -> tuple[list[dict], str]:
        typed(raw)
        code, out, err = read("--json", "--lines")
        assert code == 0
        return [json.loads(line) for line in out.splitlines()], err

    return call


def test_what_is_understood_is_said_in_words(read):
    code, out, err = read("Model 9, about 1911, by the shuttle; see ledger p. 40")
    assert code == 0
    assert out.splitlines() == [
        "This settles the case.",
        "Machine: Model 9, about 1911",
        "Evidence: by the shuttle; see ledger p. 40 (kept as a ledger or list)",
    ]
    assert err == ""


def test_what_is_not_clear_is_said_too(read):
    assert "Not understood: 'model 77': nothing of that name is known" in read("Model 77")[1]


def test_json_has_the_fields_that_were_promised(read):
    told = json.loads(read("--json", "Tollgate Model 9, Quay Works, 1921, K0204117")[1])
    assert {name: told[name] for name in ("kind", "serial", "maker", "model", "works", "date", "evidence")} == {
        "kind": "settles", "serial": "K0204117", "maker": "tollgate", "model": "t9", "works": "quay", "date": "1921",
        "evidence": None,
    }  # fmt: skip


def test_every_line_is_an_answer_and_gets_a_line(read_lines):
    told, err = read_lines(b"Model 9\nno idea\nask him for a photo\nnot one of ours\n")
    assert [one["kind"] for one in told] == ["settles", "no-answer", "ask-back", "not-ours"]
    assert err == ""


def test_a_line_that_begins_with_a_quote_mark_is_a_json_string(read_lines):
    told, _ = read_lines(json.dumps("Dear all,\n\nModel 9.\n\nCheers\nBo").encode() + b"\n")
    assert [one["model"] for one in told] == ["t9"]


def test_a_broken_json_string_is_read_as_it_stands_and_its_line_is_named(read_lines):
    told, err = read_lines(b'Model 6\n"Model 9, 1911\n')
    assert [one["model"] for one in told] == ["t6", "t9"]
    assert err.startswith("Line 2 begins with a quote mark but is no JSON string")


def test_an_empty_line_is_no_answer_and_keeps_its_place(read_lines):
    told, _ = read_lines(b"\nModel 9\n   \n")
    assert [one["kind"] for one in told] == ["no-answer", "settles", "no-answer"]


def test_a_huge_line_is_read_at_its_beginning(read_lines):
    told, _ = read_lines(b"Model 9. " + b"and so on, " * 50_000 + b"\nModel 6\n")
    assert [one["model"] for one in told] == ["t9", "t6"]
    assert "was not read" in told[0]["unclear"][-1]


def test_bytes_that_are_no_utf8_are_replaced_and_that_is_said(read_lines):
    told, err = read_lines(b"Model 9 \xff\xfe, 1911\n")
    assert told[0]["date"] == "1911"
    assert "Line 1 is not all UTF-8" in err


def test_no_lines_give_no_lines(read_lines):
    assert read_lines(b"") == ([], "")


def test_without_an_answer_it_says_how_to_give_one(read, typed):
    typed(b"  \n")
    code, _, err = read()
    assert code == 2
    assert "There is no answer" in err
    assert "bedstamp cases read" in err


def test_text_beside_lines_is_refused(read):
    code, _, err = read("--lines", "Model 9")
    assert code == 2
    assert "leave the text out" in err


def test_a_pack_that_is_not_there_is_named(capsys):
    assert main(["cases", "read", "--pack", "nowhere", "Model 9"]) != 0
    assert "nowhere" in capsys.readouterr().err


def test_a_knowledge_base_serves_as_well_as_a_pack(pack_folder, tmp_path, capsys):
    base = tmp_path / "base.sqlite"
    assert main(["pack", "load", str(pack_folder), "--db", str(base)]) == 0
    capsys.readouterr()
    before = base.read_bytes()
    assert main(["cases", "read", "--json", "--db", str(base), "Model 9"]) == 0
    assert json.loads(capsys.readouterr().out)["model"] == "t9"
    assert base.read_bytes() == before


def test_answers_come_line_by_line_through_a_pipe():
    command = [sys.executable, "-m", "bot", "cases", "read", "--json", "--lines"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write("no idea\n")
        process.stdin.flush()
        assert json.loads(process.stdout.readline())["kind"] == "no-answer"
        process.stdin.close()
        assert process.wait(timeout=60) == 0
