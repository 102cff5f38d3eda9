"""Processes that end at a bad moment, and two that settle at once."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from bot.cases import SETTLED
from bot.expert_desk import Desk
from bot.journal import open_journal
from tests.bot.expert_desk.conftest import FakeChannel, Office
from tests.chaos.harness import ROOT, Program, Upstream, until

HARD = "How old is number Z 4711?"
PATIENCE = 60.0  # seconds


@pytest.fixture
def expert(store: Path):
    """Starts experts as processes of their own; those that are left are ended with the test."""
    started: list[subprocess.Popen[str]] = []

    def start(name: str, words: str, how: str, *cases: int) -> subprocess.Popen[str]:
        command = [sys.executable, "-m", "tests.bot.expert_desk.expert_process", str(store), name, words, how]
        process = subprocess.Popen([*command, *map(str, cases)], stdout=subprocess.PIPE, text=True, cwd=ROOT)
        started.append(process)
        return process

    yield start
    for process in started:
        process.kill()
        process.wait(PATIENCE)
        if process.stdout:
            process.stdout.close()


def said(process: subprocess.Popen[str]) -> dict[str, Any]:
    assert process.stdout is not None
    told: dict[str, Any] = json.loads(process.stdout.readline())
    return told


def test_a_process_killed_between_understanding_and_storing_has_stored_nothing_and_the_press_still_works(
    office, expert
) -> None:
    case = office.ask(HARD).case.id
    process = expert("eva", "Model 9, about 1911", "wait", case)
    (proposal,) = said(process)["proposals"]
    process.kill()
    process.wait(PATIENCE)
    assert office.journal.store().findings() == ()
    assert office.told() == []
    assert office.desk.settle(proposal, "chat:eva", office.now).is_done
    assert office.kinds_told() == ["settled"]


def test_a_process_killed_in_the_middle_of_storing_has_stored_nothing_and_told_nobody(office, expert) -> None:
    case = office.ask(HARD).case.id
    process = expert("eva", "Model 9, about 1911", "die", case)
    (proposal,) = said(process)["proposals"]
    assert process.wait(PATIENCE) == -9
    assert office.journal.store().findings() == ()
    assert office.case(case).is_unsettled
    assert not any("tell" in row for row in office.desk._all("SELECT kind FROM desk_errands"))
    assert office.desk.settle(proposal, "chat:eva", office.now).is_done


def test_what_is_settled_in_the_terminal_beside_a_running_bot_is_told_by_it_within_seconds(
    tmp_path, pack, knowledge, capsys
) -> None:
    upstream = Upstream(tmp_path / "upstream")
    store = tmp_path / "bedstamp.sqlite"
    (tmp_path / "settings.toml").write_text("")
    script = str(Path(__file__).with_name("bot_process.py"))
    command = [sys.executable, script, str(tmp_path / "settings.toml"), str(upstream.folder)]
    with open_journal(store, create=True) as journal:
        journal.store().save_pack(pack)
        office = Office(journal, knowledge, FakeChannel("fake"), Desk(journal))
        case = office.ask(HARD, channel="fake").case.id
    with Program(command, tmp_path / "log") as bot:
        bot.start()
        until(bot.has_begun)
        begun = time.monotonic()
        words = "Tollgate, made about 1911, ledger p. 40"
        assert main(["cases", "settle", str(case), words, "--yes", "--db", str(store)]) == 0
        until(lambda: any("about 1911" in one["text"] for one in upstream.answers_to("desk")))
        print(f"told after {time.monotonic() - begun:.1f} s")
        assert bot.terminate() == 0
    assert sum("about 1911" in one["text"] for one in upstream.answers_to("desk")) == 1


def test_of_two_processes_that_settle_at_once_one_wins_every_time_and_everybody_is_told_once(
    office, store, expert
) -> None:
    cases = [office.ask(f"How old is number Z 47{place}1?", f"asker{place}").case.id for place in range(8)]
    processes = [
        expert("eva", "Model 9, about 1911", "race", *cases), expert("fin", "Model 6, about 1890", "race", *cases),
    ]  # fmt: skip
    for process in processes:
        said(process)
    won: list[int] = []
    for case in cases:
        Path(f"{store}.go-{case}").touch()
        outcomes = [said(process) for process in processes]
        assert sorted(one["done"] for one in outcomes) == [False, True]
        (loser,) = [one for one in outcomes if not one["done"]]
        assert loser["may_amend"]
        assert "Somebody was quicker" in str(loser["text"])
        won.append(next(place for place, one in enumerate(outcomes) if one["done"]))
    assert all(office.case(case).state == SETTLED for case in cases)
    assert len(office.journal.store().findings()) == len(cases)
    office.desk.look(office.now, by_the_clock=False)
    assert [len(office.told(f"asker{place}")) for place in range(8)] == [1] * 8
    print(f"first: {won}")


def test_while_another_process_writes_the_desk_waits_its_turn(office, expert) -> None:
    cases = [office.ask(f"How old is number Z 48{place}1?", f"asker{place}").case.id for place in range(4)]
    process = expert("eva", "Model 9, about 1911", "now", *cases)
    said(process)
    until = time.monotonic() + PATIENCE
    while process.poll() is None and time.monotonic() < until:
        with suppress(StopIteration):
            office.ask(HARD, f"asker{time.monotonic_ns()}")
    assert process.poll() == 0
    assert [office.case(case).state for case in cases] == [SETTLED] * 4
