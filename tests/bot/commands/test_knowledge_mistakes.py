"""Tests of `bedstamp knowledge mistakes`."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from bot.__main__ import main
from knowledge.mistakes import Seen, fit
from knowledge.store import open_store
from knowledge.weights import MISTAKES, NONE, PRIOR

SHARES = {"as-typed": 0.7, "zero-restored": 0.2, "none": 0.1}
DAY = date(2026, 11, 25)


@pytest.fixture
def empty(tmp_path: Path) -> Path:
    with open_store(tmp_path / "group.sqlite", create=True) as store:
        return store.path


@pytest.fixture
def taught(empty: Path) -> Path:
    """Twenty settled cases, twelve of which had dropped zeros where four were expected."""
    with open_store(empty) as store:
        for case in range(20):
            store.note_mistake(case, 0, Seen("zero-restored" if case < 12 else "as-typed", SHARES), DAY)
    return empty


@pytest.fixture
def call(capsys, monkeypatch):
    def called(path: Path, *arguments: str, columns: int = 60) -> tuple[int, str, str]:
        monkeypatch.setenv("COLUMNS", str(columns))
        code = main(["knowledge", "mistakes", "--db", str(path), *arguments])
        out, err = capsys.readouterr()
        return code, out, err

    return called


def row_of(words: str, page: str) -> list[str]:
    line = next(line for line in page.splitlines() if line.startswith(words))
    return line[len(words) :].split()


@pytest.mark.parametrize("columns", [60, 100])
def test_each_mistake_stands_beside_what_was_assumed_seen_expected_and_is_believed(taught, call, columns: int) -> None:
    code, page, _ = call(taught, columns=columns)
    assert code == 0
    assert "20 settled cases" in page
    assert max(map(len, page.splitlines())) <= columns
    factor = fit([Seen("zero-restored", SHARES)] * 12 + [Seen("as-typed", SHARES)] * 8).factor(("zero-restored",))
    assert factor > 1.3
    assert row_of("leading zeros", page)[-6:] == ["35", "%", "12", "4.0", f"{35 * factor:.0f}", "%"]


def test_what_could_not_be_seen_stays_as_assumed(taught, call) -> None:
    _, page, _ = call(taught, columns=100)
    assert row_of("two neighbours swapped", page) == ["1.1", "%", "0", "0.0", "1.1", "%"]


def test_without_cases_it_says_so_and_shows_what_is_assumed(empty, call) -> None:
    code, page, _ = call(empty, columns=100)
    assert code == 0
    assert page.startswith("No settled case shows yet what people get wrong")
    assert row_of("one digit left out", page) == ["0.64", "%"]
    assert "Believed" not in page


def test_json_has_every_mistake_with_its_numbers(taught, call) -> None:
    _, out, _ = call(taught, "--json")
    told = json.loads(out)
    assert (told["cases"], told["assumed_counts_for"]) == (20, PRIOR.value)
    assert [one["mistake"] for one in told["mistakes"]] == [*MISTAKES, *NONE]
    zero = next(one for one in told["mistakes"] if one["mistake"] == "zero-restored")
    assert (zero["seen"], zero["expected"], zero["assumed"], zero["origin"]) == (12, 4.0, 0.35, "common practice")
    assert 0.35 < zero["believed"] <= 0.95


def test_json_without_cases_believes_what_is_assumed(empty, call) -> None:
    _, out, _ = call(empty, "--json")
    told = json.loads(out)
    assert told["cases"] == 0
    assert all(one["believed"] == one["assumed"] for one in told["mistakes"])


def test_a_file_that_is_not_there_is_named(tmp_path, call) -> None:
    code, _, err = call(tmp_path / "nowhere.sqlite")
    assert code == 2
    assert "There is no knowledge base at" in err


def test_answers_from_the_file_rest_on_what_was_learned(taught, capsys) -> None:
    from knowledge.packs import load
    from knowledge.shipped import folders

    def likelihoods() -> dict[str, float]:
        assert main(["ask", "--db", str(taught), "--json", "serial number K 204117"]) == 0
        found = json.loads(capsys.readouterr().out)["candidates"]
        return {one["serial"]: one["likelihood"] for one in found}

    with open_store(taught) as store:
        store.save_pack(load(next(folder for folder in folders() if folder.name == "demo")))
        learned = likelihoods()
        for case in range(20):
            store.forget_mistakes(case)
    assumed = likelihoods()
    assert learned["K0204117"] / learned["K204117"] > 1.3 * assumed["K0204117"] / assumed["K204117"]
