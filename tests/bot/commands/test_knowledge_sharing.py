"""`bedstamp knowledge export` and `compare`, and `pack load` of what was shared, from group to group."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from bot.expert_desk import Desk
from bot.journal import open_journal
from tests.bot.conftest import PACK
from tests.bot.expert_desk.conftest import NOW, FakeChannel, Office

SECRETS = ["ann", "Lovelace", "eva", "example.org", "960123", "hayloft", "grandmother", "u17"]
ASKED = (
    "Hello, I am Ann Lovelace (ann@example.org, 01632 960123). My grandmother's machine in the hayloft is number Z 4711"
)
ANSWERED = (
    "Model 9, about 1911, by the shuttle; bill of sale from ann@example.org, call 01632 960123. Dear Ann, keep it dry!"
)


def call(capsys, *arguments: Any) -> tuple[int, str, str]:
    code = main([str(one) for one in arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


def rows(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture
def store(tmp_path: Path, pack) -> Path:
    path = tmp_path / "group.sqlite"
    with open_journal(path, create=True) as journal:
        journal.store().save_pack(pack)
    return path


@pytest.fixture
def settled(store: Path, knowledge) -> Path:
    """The file of a group whose expert settled what somebody asked, with everything that people wrote in it."""
    with open_journal(store) as journal:
        journal.receive("chat", "m1", ASKED.encode(), NOW)
        office = Office(journal, knowledge, FakeChannel(), Desk(journal, [FakeChannel()]))
        case = office.ask(ASKED, "u17-ann").case
        office.settle(case.id, ANSWERED, "eva")
    return store


@pytest.fixture
def other(tmp_path: Path, pack_folder: Path, capsys) -> Path:
    """The file of another group, with the same registers."""
    path = tmp_path / "other.sqlite"
    assert call(capsys, "pack", "load", pack_folder, "--db", path)[0] == 0
    return path


def test_an_export_holds_no_name_no_address_and_no_message_text(capsys, settled: Path, tmp_path: Path) -> None:
    code, out, _ = call(capsys, "knowledge", "export", tmp_path / "out", "--db", settled, "--group", "Hallow circle")
    assert code == 0
    assert "1 finding" in out
    whole = "\n".join(path.read_text(encoding="utf-8") for path in (tmp_path / "out").iterdir())
    assert [secret for secret in SECRETS if re.search(rf"\b{re.escape(secret)}\b", whole, re.IGNORECASE)] == []
    with open_journal(settled) as journal:
        held = str(journal.people()) + journal.raw(1).decode()
    assert [secret for secret in SECRETS if secret not in held + ANSWERED] == [], (
        "what is looked for must be in the file"
    )
    assert "shuttle" in whole


def test_what_one_group_settled_answers_in_another_under_its_name(capsys, settled, other, tmp_path) -> None:
    call(capsys, "knowledge", "export", tmp_path / "out", "--db", settled, "--group", "Hallow circle")
    assert call(capsys, "pack", "check", tmp_path / "out")[0] == 0
    code, out, _ = call(capsys, "knowledge", "compare", tmp_path / "out", "--db", other)
    assert code == 0
    assert "1 new, 0 equal to what is known here, 0 contradictory" in out
    code, out, _ = call(capsys, "pack", "load", tmp_path / "out", "--db", other)
    assert code == 0
    assert "1 new" in out
    _, out, _ = call(capsys, "ask", "Z4711", "--db", other)
    assert "Model 9" in out
    assert "Hallow circle" in " ".join(out.split())
    _, out, _ = call(capsys, "ask", "Z4711", "--db", other, "--json")
    best = json.loads(out)["candidates"][0]
    assert (best["kind"], best["model"], best["maker"], best["date"]) == ("finding", "t9", "tollgate", "1911~")
    assert best["source"].startswith("an expert of Hallow circle")


def test_twice_the_same_changes_nothing(capsys, settled, other, tmp_path) -> None:
    call(capsys, "knowledge", "export", tmp_path / "out", "--db", settled, "--group", "Hallow circle")
    call(capsys, "pack", "load", tmp_path / "out", "--db", other)
    _, out, _ = call(capsys, "pack", "load", tmp_path / "out", "--db", other, "--json")
    told = json.loads(out)
    assert told["changes"] == {}
    assert (told["shared"]["findings"]["new"], told["shared"]["findings"]["equal"]) == (0, 1)


def test_the_same_knowledge_is_exported_to_the_same_bytes_and_comes_back_equal(capsys, settled, tmp_path) -> None:
    for name in ("one", "two"):
        call(capsys, "knowledge", "export", tmp_path / name, "--db", settled)
    files = [{path.name: path.read_bytes() for path in (tmp_path / name).iterdir()} for name in ("one", "two")]
    assert files[0] == files[1]
    _, out, _ = call(capsys, "knowledge", "compare", tmp_path / "one", "--db", settled, "--json")
    assert json.loads(out)["findings"] == {"new": 0, "equal": 1, "contradictory": 0, "outdated": 0, "withdrawn": 0}


def contradicting(tmp_path: Path) -> Path:
    """A pack, written by hand, that says something else of a number in our ledger."""
    folder = tmp_path / "theirs"
    folder.mkdir()
    (folder / "makers.csv").write_text("maker,name\ntb,Tollgate & Sons\n")
    (folder / "models.csv").write_text("model,maker,name\nx,tb,Model 23\n")
    (folder / "findings.csv").write_text(
        "finding,prefix,number,digits,maker,model,date,evidence,kind,author,settled\n"
        f"{'9' * 32},K,204117,6,tb,x,1935,plate on the motor,feature,an expert of Quay friends,2026-01-02T03:04:05Z\n"
    )
    (folder / "datapackage.json").write_text('{"name": "quay-friends", "resources": []}')
    return folder


def test_a_contradiction_names_both_sides_and_becomes_a_case_once(capsys, store, tmp_path) -> None:
    folder = contradicting(tmp_path)
    _, out, _ = call(capsys, "knowledge", "compare", folder, "--db", store)
    flat = " ".join(out.split())
    assert "0 new, 0 equal to what is known here, 1 contradictory" in flat
    assert "They say (an expert of Quay friends): Model 23, 1935: plate on the motor" in flat
    assert "Tollgate ledger" in flat
    code, out, _ = call(capsys, "pack", "load", folder, "--db", store)
    assert code == 0
    assert "1 contradiction became a case" in out
    _, out, _ = call(capsys, "pack", "load", folder, "--db", store, "--json")
    assert (json.loads(out)["cases"], json.loads(out)["shared"]["findings"]["contradictory"]) == (0, 1)
    with open_journal(store) as journal:
        assert [case.reasons for case in Desk(journal).cases()] == [("contradiction",)]


def test_the_first_load_makes_the_case_also_where_no_desk_ever_worked(capsys, other, tmp_path) -> None:
    _, out, _ = call(capsys, "pack", "load", contradicting(tmp_path), "--db", other)
    assert "1 contradiction became a case" in out
    _, out, _ = call(capsys, "cases", "list", "--db", other)
    assert "K204117" in out


@pytest.mark.parametrize(
    ("maker", "number", "disagrees"),
    [
        ("Tollgate & Sons", "K204117", True),
        ("Ambersee", "K204117", True),  # its own list has no such number, that of another maker has it
        ("Nobody's", "K204117", False),  # no list of this maker is known here: two makers may have one number
        ("", "K204117", True),
        ("Tollgate & Sons", "Y4711", False),
        ("Tollgate & Sons", "Z9000001", True),  # two of their own findings cannot both be true
    ],
)
def test_comparing_tells_a_contradiction_exactly_where_an_answer_disagrees(
    capsys, other, tmp_path, maker, number, disagrees
) -> None:
    folder = contradicting(tmp_path)
    rows = [(str(at) * 32, number[0], number[1:], date) for at, date in enumerate(["1935"])]
    if number == "Z9000001":
        rows.append(("7" * 32, "Z", "9000001", "1890"))
    head = "finding,prefix,number,digits,maker,date,evidence,kind,author,settled\n"
    (folder / "makers.csv").write_text(f"maker,name\ntb,{maker}\n")
    (folder / "models.csv").write_text("model,maker,name\n")
    (folder / "findings.csv").write_text(head + "".join(
        f"{key},{letter},{digits},{len(digits)},{maker and 'tb'},{date},plate,feature,an expert,2026-01-02T03:04:05Z\n"
        for key, letter, digits, date in rows
    ))  # fmt: skip
    _, out, _ = call(capsys, "knowledge", "compare", folder, "--db", other, "--json")
    told = json.loads(out)
    assert bool(told["contradictions"]) == disagrees
    assert call(capsys, "pack", "load", folder, "--db", other)[0] == 0
    _, out, _ = call(capsys, "ask", number, "--db", other, "--json")
    assert ("lists-disagree" in [one["code"] for one in json.loads(out)["cautions"]]) == disagrees


def test_looking_changes_nothing(capsys, other, tmp_path) -> None:
    before = other.read_bytes()
    call(capsys, "knowledge", "compare", contradicting(tmp_path), "--db", other)
    assert other.read_bytes() == before


def test_a_folder_with_something_else_in_it_is_left_alone(capsys, settled, pack_folder) -> None:
    code, _, err = call(capsys, "knowledge", "export", pack_folder, "--db", settled)
    assert code == 2
    assert "holds something else" in err
    assert (pack_folder / "allocations.csv").exists()


def test_an_export_takes_the_place_of_an_earlier_one(capsys, settled, tmp_path) -> None:
    for _ in range(2):
        assert call(capsys, "knowledge", "export", tmp_path / "out", "--db", settled)[0] == 0


def test_nothing_to_share_and_nothing_to_compare_are_said(capsys, other, pack_folder, tmp_path) -> None:
    code, _, err = call(capsys, "knowledge", "export", tmp_path / "out", "--db", other)
    assert (code, "nothing to share" in err) == (2, True)
    code, _, err = call(capsys, "knowledge", "compare", pack_folder, "--db", other)
    assert (code, "nothing to compare" in err) == (2, True)


def test_a_pack_of_findings_does_not_take_the_place_of_registers_by_its_name(capsys, other, tmp_path) -> None:
    folder = contradicting(tmp_path)
    (folder / "datapackage.json").write_text(json.dumps({"name": PACK.name, "resources": []}))
    code, _, err = call(capsys, "pack", "load", folder, "--db", other)
    assert code == 2
    assert "they would be lost" in err


def test_json_tells_what_was_written_and_what_stayed_here(capsys, settled, tmp_path) -> None:
    _, out, _ = call(capsys, "knowledge", "export", tmp_path / "out", "--db", settled, "--json")
    told = json.loads(out)
    assert told["rows"]["findings"] == 1
    assert told["masked"] == 1
    assert [row["author"] for row in rows(tmp_path / "out", "findings.csv")] == [
        "an expert of another collectors' group"
    ]
