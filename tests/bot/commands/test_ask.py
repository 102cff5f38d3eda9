"""`bedstamp ask`, as it is called."""

import json
import subprocess
import sys

import pytest

from bot.__main__ import main


@pytest.fixture
def ask(pack_folder, capsys):
    def call(*arguments: str) -> tuple[int, str, str]:
        code = main(["ask", "--pack", str(pack_folder), *arguments])
        out, err = capsys.readouterr()
        return code, out, err

    return call


def test_the_short_answer_comes_first_and_tells_the_digit_count(ask):
    code, out, err = ask("my gran's machine says K 0 204 117, how old is it?")
    assert code == 0
    assert out.startswith("K0204117 has 7 digits, the first a zero.")
    assert "Tollgate & Sons Model 9, Quay Works, allocated 2 March 1921" in " ".join(out.split())
    assert err == ""


def test_every_dating_names_its_source(ask):
    _, out, _ = ask("K204117")
    assert "[1]" in out
    assert "[1] Ledger of the Upper Mill (invented)" in out


def test_words_need_no_quotes(ask):
    assert ask("how", "old", "is", "K204117")[1].startswith("K204117 has 6 digits.")


def test_json_has_the_fields_of_the_contract(ask):
    _, out, _ = ask("--json", "K204117")
    answer = json.loads(out)
    assert set(answer) >= {
        "text", "tokens", "passed_over", "candidates", "cautions", "ask_back", "case", "working",
    }  # fmt: skip
    assert answer["text"] == "K204117"
    assert answer["candidates"][0]["likelihood"] > 0.5


def test_json_never_holds_a_raw_control_character(ask):
    _, out, _ = ask("--json", "K204117 \x1b[2J \x9b \u202e")
    assert all(character == "\n" or character.isprintable() for character in out)
    assert json.loads(out)["text"] == "K204117 \x1b[2J \x9b \u202e"


def test_control_characters_never_reach_the_terminal(ask):
    _, out, _ = ask("K204117 tel \x1b]0;x\x07 01632 960123 \x9b2J \u202e")
    assert all(character == "\n" or character.isprintable() for character in out)


def test_the_question_may_come_from_standard_input(ask, typed):
    typed(b"K204117, how old?\n")
    code, out, _ = ask("--json")
    assert code == 0
    assert json.loads(out)["text"] == "K204117, how old?"


def test_broken_utf8_is_replaced_and_said(ask, typed):
    typed(b"\xff\xfe K204117")
    code, out, err = ask()
    assert code == 0
    assert out.startswith("K204117")
    assert "not all UTF-8" in err


@pytest.mark.parametrize("raw", [b"", b"   \n", b"\n\n"])
def test_no_question_is_misuse(ask, typed, raw):
    typed(raw)
    code, out, err = ask()
    assert (code, out) == (2, "")
    assert "There is no question" in err


@pytest.mark.parametrize("text", ["😀😀", "hello world", "?", "\x00\x01", "٣", "0" * 10])
def test_a_text_without_a_number_is_answered_kindly(ask, text):
    code, out, err = ask(text)
    assert code == 0
    assert out
    assert err == ""


def test_a_hundred_thousand_digits_do_not_flood_the_screen(ask):
    code, out, _ = ask("K" + "7" * 100_000)
    assert code == 0
    assert len(out) < 3_000


def test_lines_are_answered_one_by_one(ask, typed):
    typed(b'K204117\n"K0204117\\nsecond line"\n\n"broken\n45000')
    code, out, err = ask("--lines")
    answers = [json.loads(line) for line in out.splitlines()]
    assert code == 0
    assert [answer["text"] for answer in answers] == ["K204117", "K0204117\nsecond line", "", '"broken', "45000"]
    assert "Line 4 begins with a quote mark" in err


def test_lines_that_are_no_utf8_are_said_with_their_number(ask, typed):
    typed(b"K204117\n\xff K204117\n")
    code, out, err = ask("--lines")
    assert code == 0
    assert len(out.splitlines()) == 2
    assert err.startswith("Line 2 is not all UTF-8")


def test_all_shows_every_dating(ask):
    few, many = ask("K204117")[1], ask("--all", "K204117")[1]
    assert "more, less likely (--all shows them)" in few
    assert "more, less likely" not in many
    assert len(many) > len(few)


@pytest.mark.parametrize("ending", [".png", ".svg"])
def test_a_picture_is_drawn(ask, tmp_path, ending):
    path = tmp_path / f"picture{ending}"
    code, _, _ = ask("--picture", str(path), "K204117")
    assert code == 0
    assert path.stat().st_size > 1_000


def test_a_picture_that_cannot_be_written_is_said_after_the_answer(ask, tmp_path):
    code, out, err = ask("--picture", str(tmp_path / "nowhere" / "x.png"), "K204117")
    assert code in (1, 2)
    assert out.startswith("K204117")
    assert "nowhere" in err


@pytest.mark.parametrize("width", ["40", "60", "80", "100", "200"])
def test_no_line_is_wider_than_the_screen(ask, monkeypatch, width):
    monkeypatch.setenv("COLUMNS", width)
    _, out, _ = ask("K204117 or 45000, Серийный номер, 日本語")
    assert max(map(len, out.splitlines())) <= int(width)
    assert all(line == line.rstrip() for line in out.splitlines())


def test_there_is_no_colour_in_a_pipe(ask):
    assert "\x1b" not in ask("K204117")[1]


@pytest.mark.parametrize(
    "arguments",
    [
        ["--pack", "x", "--db", "y", "K1"],
        ["--lines", "K1"],
        ["--lines", "--picture", "x.png"],
        ["--nonsense"],
        ["--js", "K1"],
    ],
)
def test_misuse_says_what_to_do(capsys, typed, arguments):
    typed(b"")
    assert main(["ask", *arguments]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.strip()
    assert "Traceback" not in err


@pytest.mark.parametrize("what", ["missing", "empty", "file", "half written"])
def test_a_pack_that_cannot_be_used_is_said(capsys, tmp_path, pack_folder, what):
    folder = tmp_path / "other"
    if what == "empty":
        folder.mkdir()
    elif what == "file":
        folder.write_text("")
    elif what == "half written":
        folder = pack_folder
        allocations = folder / "allocations.csv"
        allocations.write_bytes(allocations.read_bytes()[:-30])
    assert main(["ask", "--pack", str(folder), "K204117"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert folder.name in err


def test_a_knowledge_base_that_is_not_there_is_said(capsys, tmp_path):
    assert main(["ask", "--db", str(tmp_path / "none.sqlite"), "K1"]) in (1, 2)
    assert "none.sqlite" in capsys.readouterr().err


def test_the_packs_shipped_answer_when_nothing_is_named(capsys):
    assert main(["ask", "--json", "K 0 204 117"]) == 0
    assert json.loads(capsys.readouterr().out)["candidates"]


def test_as_a_whole_process_it_ends_quietly_when_nobody_reads():
    command = f'yes K204117 | head -n 200 | "{sys.executable}" -m bot ask --lines | head -n 1'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=False)
    assert json.loads(done.stdout)["tokens"][0]["digits"] == "204117"
    assert done.stderr == ""


def test_as_a_whole_process_it_takes_arguments_that_are_no_utf8():
    done = subprocess.run(
        [sys.executable, "-m", "bot", "ask", "--json", b"K204117 \xff"], capture_output=True, timeout=60, check=False
    )
    assert done.returncode == 0
    assert json.loads(done.stdout)["text"] == "K204117 \ufffd"
    assert b"not all UTF-8" in done.stderr


def test_nothing_heavy_is_imported_for_json():
    code = (
        "import sys; from bot.__main__ import main; main(['ask', '--json', 'K204117']); "
        "print(sorted(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)
    for name in ("rich", "sqlite3", "sqlite_utils", "PIL", "telegram", "asyncio", "python_calamine"):
        assert f"'{name}'" not in done.stderr, name


def test_a_mistake_of_ours_is_said_in_one_line_without_a_traceback(ask, monkeypatch):
    def broken(*_):
        raise ZeroDivisionError

    monkeypatch.setattr("knowledge.answer.answer", broken)
    code, out, err = ask("K204117")
    assert (code, out) == (1, "")
    assert "ZeroDivisionError" in err
    assert "Traceback" not in err
