"""`bedstamp knowledge propose`, `agree` and the rest, as they are called."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from knowledge.store import open_store

WORDS = "change K 200001-225000 date 1891"


@pytest.fixture
def group(tmp_path: Path, pack_folder: Path, capsys) -> Path:
    path = tmp_path / "group.sqlite"
    assert call(capsys, "pack", "load", pack_folder, "--db", path)[0] == 0
    return path


def call(capsys, *arguments: Any) -> tuple[int, str, str]:
    code = main([str(one) for one in arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


def knowledge(capsys, group: Path, command: str, *arguments: Any) -> tuple[int, str, str]:
    return call(capsys, "knowledge", command, *arguments, "--db", group)


def in_force(capsys, group: Path, *words: str) -> int:
    code, out, err = knowledge(capsys, group, "propose", *(words or (WORDS,)), "--as", "Ada")
    assert code == 0, err
    number = int(out.split("This is change ")[1].split(".")[0])
    assert knowledge(capsys, group, "agree", number, "--as", "Ben", "--yes")[0] == 0
    return number


def dated(capsys, group: Path) -> str:
    _, out, _ = call(capsys, "ask", "K204117", "--db", group, "--json")
    return next(str(one["date"]) for one in json.loads(out)["candidates"] if one["serial"] == "K204117")


def test_a_change_takes_two_at_one_terminal_who_name_themselves(capsys, group) -> None:
    code, out, _ = knowledge(capsys, group, "propose", WORDS, "--as", "Ada", "--why", "page 4 of the ledger")
    assert code == 0
    assert "date: 1890-03-02 becomes 1891" in out
    assert dated(capsys, group) == "1890-03-02"
    for name in ("Ada", "ADA", " ada  ", "\u0410da", "A\u200bd\u00e1"):
        code, _, err = knowledge(capsys, group, "agree", 1, "--as", name, "--yes")
        assert (code, "another expert agrees" in err) == (1, True)
    code, _, err = knowledge(capsys, group, "agree", 1)
    assert (code, "--as" in err) == (2, True)
    assert dated(capsys, group) == "1890-03-02"
    code, out, _ = knowledge(capsys, group, "agree", 1, "--as", "Ben", "--yes")
    assert (code, "in force now" in out) == (0, True)
    assert dated(capsys, group) == "1891"


def test_names_that_only_look_different_are_one_expert(capsys, group) -> None:
    for one, other in (("Ilka", "llka"), ("Bo", "B0"), ("Вера", "BEPA"), ("Αda Byron", "Ada Вyrоn")):
        knowledge(capsys, group, "propose", WORDS, "--as", one)
        number = knowledge(capsys, group, "changes")[1].split(".")[0]
        code, _, err = knowledge(capsys, group, "agree", number, "--as", other, "--yes")
        assert (code, "yourself" in err) == (1, True), (one, other)
        assert knowledge(capsys, group, "turn-down", number, "--as", one)[0] == 0


def test_a_name_in_letters_of_two_alphabets_is_refused_and_one_in_any_alphabet_is_not(capsys, group) -> None:
    code, _, err = knowledge(capsys, group, "propose", WORDS, "--as", "\u04c0an")
    assert (code, "mixes letters of several alphabets" in err) == (2, True)
    for name in ("Андрей", "Ελένη", "Zoë", "田中さくら"):
        assert knowledge(capsys, group, "propose", WORDS, "--as", name)[0] == 0


def test_agreeing_shows_the_change_and_asks(capsys, group, monkeypatch) -> None:
    knowledge(capsys, group, "propose", WORDS, "--as", "Ada")
    for typed, text in (("", "--yes"), ("\n", "Nothing was changed"), ("n\n", "Nothing was changed")):
        monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
        code, out, _ = knowledge(capsys, group, "agree", 1, "--as", "Ben")
        assert (code, "date: 1890-03-02 becomes 1891" in out, text in out) == (1, True, True)
        assert dated(capsys, group) == "1890-03-02"
    monkeypatch.setattr(sys, "stdin", io.StringIO("y\n"))
    assert "in force now" in knowledge(capsys, group, "agree", 1, "--as", "Ben")[1]
    assert dated(capsys, group) == "1891"
    code, _, err = knowledge(capsys, group, "agree", 1, "--as", "Cara")
    assert (code, "in force" in err) == (1, True)


@pytest.mark.parametrize("columns", [60, 100])
def test_no_line_is_wider_than_the_terminal(capsys, group, monkeypatch, columns) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    why = "the second copy of the ledger in the museum of the town says so on page 412, and a third one too"
    said = [
        knowledge(capsys, group, "propose", WORDS, "--as", "Ada", "--why", why),
        knowledge(capsys, group, "propose", "change K 1-2 date 1891", "--as", "Ada"),
        knowledge(capsys, group, "agree", 1, "--as", "Ada", "--yes"),
        knowledge(capsys, group, "agree", 1, "--as", "Ben", "--yes", "--why", why),
        *(knowledge(capsys, group, command) for command in ("changes", "history", "experts", "mistakes")),
        knowledge(capsys, group, "change", 1),
        knowledge(capsys, group, "propose", "--as", "Ada"),
        call(capsys, "knowledge", "nothing"),
        call(capsys, "ask", "--db", "nowhere.sqlite", "K204117"),
    ]
    lines = [line for _, out, err in said for line in (out + err).splitlines()]
    assert [line for line in lines if len(line) > columns] == []
    assert " ".join(" ".join(lines).split()).count(why) == 4


def test_the_list_and_one_change_tell_who_what_when_and_why(capsys, group) -> None:
    knowledge(capsys, group, "propose", WORDS, "--as", "Ada", "--why", "page 4 of the ledger")
    _, out, _ = knowledge(capsys, group, "changes")
    assert " ".join(out.split()).startswith(
        "1. proposed: K200001 to K225000 (Tollgate ledger): date 1890-03-02 becomes 1891 (by expert 1)"
    )
    _, out, _ = knowledge(capsys, group, "change", 1)
    assert "proposed by expert 1 (page 4 of the ledger)" in out
    _, out, _ = knowledge(capsys, group, "change", 1, "--json")
    told = json.loads(out)
    assert (told["state"], told["before"]["date"], told["after"]["date"]) == ("proposed", "1890-03-02", "1891")
    assert [step["what"] for step in told["history"]] == ["proposed"]


def test_what_was_turned_down_is_in_the_history_and_in_no_list(capsys, group) -> None:
    knowledge(capsys, group, "propose", WORDS, "--as", "Ada")
    assert knowledge(capsys, group, "turn-down", 1, "--as", "Ben", "--why", "the second copy says 1890")[0] == 0
    assert "No changes" in knowledge(capsys, group, "changes")[1]
    assert "turned down" in knowledge(capsys, group, "changes", "--all")[1]
    assert "turned down by expert 2 (the second copy says 1890): change 1" in knowledge(capsys, group, "history")[1]


def test_rows_are_printed_for_the_file_of_the_pack_which_takes_the_change_over_then(capsys, group, pack_folder) -> None:
    in_force(capsys, group)
    _, out, _ = knowledge(capsys, group, "rows")
    assert [line.split(",")[0] for line in out.splitlines()] == ["change", "take out", "put in"]
    _, out, _ = knowledge(capsys, group, "rows", "--whole")
    (pack_folder / "allocations.csv").write_text(out)
    code, out, _ = call(capsys, "pack", "load", pack_folder, "--db", group)
    assert code == 0
    assert "does not count" not in out
    assert dated(capsys, group) == "1891"
    assert "in the pack itself now" in knowledge(capsys, group, "changes")[1]
    assert knowledge(capsys, group, "rows")[1].count("\n") == 1


def test_a_pack_whose_row_says_something_else_now_is_told_at_the_load(capsys, group, pack_folder) -> None:
    number = in_force(capsys, group)
    path = pack_folder / "allocations.csv"
    path.write_text(path.read_text().replace("1890-03-02", "1889"))
    _, out, _ = call(capsys, "pack", "load", pack_folder, "--db", group)
    assert f"Change {number} of K200001 to K225000 does not count any more" in " ".join(out.split())
    assert dated(capsys, group) == "1889"
    assert "the row it changes is gone" in knowledge(capsys, group, "changes")[1]
    assert json.loads(knowledge(capsys, group, "changes", "--json")[1])["stands"] == "the row it changes is gone"


def test_rows_can_be_told_by_their_columns(capsys, group) -> None:
    code, out, _ = knowledge(capsys, group, "propose", "--as", "Ada", "--table", "year-starts", "--row",
                             "register=a-years", "--row", "first=40000", "--set", "date=1891")  # fmt: skip
    assert (code, "date: 1890 becomes 1891" in out) == (0, True)
    code, out, _ = knowledge(capsys, group, "propose", "--as", "Ada", "--set", "register=t-ledger", "--set", "prefix=K",
                             "--set", "first=240001", "--set", "last=250000", "--set", "date=1892")  # fmt: skip
    assert (code, "a new row" in out) == (0, True)
    code, out, _ = knowledge(capsys, group, "propose", "--as", "Ada", "--row", "first=225001", "--remove")
    assert (code, "the row is taken out" in out) == (0, True)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "Say what is to change"),
        (("change K 1-2 date 1891",), "No list has a block from K1 to K2"),
        ((WORDS, "--set", "date=1891"), "in words"),
        (("--set", "date"), "is not COLUMN=CELL"),
        (("--set", "colour=red"), "has no column 'colour'"),
        (("--row", "first=1", "--set", "date=1891"), "No row says first 1"),
        (("--row", "register=t-ledger", "--set", "date=1891"), "4 rows say"),
        (("--row", "first=225001"), "--remove"),
        (("--row", "first=225001", "--set", "date=soon"), "would make the list wrong"),
    ],
)
def test_what_cannot_be_proposed_is_said(capsys, group, arguments, said) -> None:
    code, _, err = knowledge(capsys, group, "propose", *arguments, "--as", "Ada")
    assert code != 0
    assert said in err
    assert "No changes" in knowledge(capsys, group, "changes")[1]


def test_a_change_that_is_not_there_is_said(capsys, group) -> None:
    for command, more in (("agree", ("--as", "Ada")), ("change", ()), ("turn-down", ("--as", "Ada"))):
        code, _, err = knowledge(capsys, group, command, 7, *more)
        assert (code, "no change 7" in err) == (1, True)


def test_experts_are_listed_by_number_and_channel_and_never_by_name(capsys, group) -> None:
    in_force(capsys, group)
    _, out, _ = knowledge(capsys, group, "experts")
    assert out.splitlines() == ["expert 1: writes by terminal", "expert 2: writes by terminal"]
    assert "are two people" in knowledge(capsys, group, "experts", "--different", 1, 2)[1]
    assert knowledge(capsys, group, "experts", "--different", 1, 9)[0] == 1


def test_looking_at_changes_opens_the_file_for_reading_alone(monkeypatch, capsysbinary, tmp_path, pack) -> None:
    path = tmp_path / "plain.sqlite"
    with open_store(path, create=True) as store:
        store.save_pack(pack)
    before = path.read_bytes()
    monkeypatch.setattr("bot.journal.open_journal", lambda *_, **__: pytest.fail("opened to be written to"))
    for arguments in (["changes"], ["history"], ["rows", "--table", "allocations"]):
        assert main(["knowledge", *arguments, "--db", str(path)]) == 0, capsysbinary.readouterr().err
    assert path.read_bytes() == before
