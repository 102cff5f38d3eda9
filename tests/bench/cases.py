"""The list of cases with 5,000 open: `python -m tests.bench.cases`. Printed, and as a ratio of one run.

Beside it stands a naive list: every row read, joined and sorted in Python, as one would write it first.
"""

from __future__ import annotations

import json
import random
import sys
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.cases import Asker
from bot.commands.cases_words import listed
from bot.expert_desk import Desk, Opening
from bot.expert_desk.tables import DESK
from bot.journal import Journal, open_journal
from bot.state import State
from knowledge.base import Knowledge
from knowledge.database import transaction
from knowledge.tokens.nouns import SerialToken
from tests.bench.measure import each, in_turns, show

CASES = 5_000
ASKED_MS = 50.0
_BEGAN = datetime(2031, 5, 4, 12, 0, tzinfo=UTC)


def run(cases: int = CASES) -> bool:
    """Fill a desk, and print how long its list takes; return whether what was asked for is met."""
    with tempfile.TemporaryDirectory() as folder, open_journal(Path(folder) / "desk.sqlite", create=True) as journal:
        desk = Desk(journal)
        _fill(desk, journal, cases)
        open_ = desk.cases(limit=1)[0].id
        calls = {
            "list": lambda _: _list(desk),
            "naive": lambda _: _naive(desk),
            "all": lambda _: desk.cases(limit=cases),
            "show": lambda one: desk.card(int(str(one))),
        }
        some = random.Random(3).sample(range(1, cases + 1), 20)
        seconds = in_turns(calls, {"list": [0] * 5, "naive": [0], "all": [0], "show": some})
        worst = each(lambda _: _list(desk), [0] * 40).percentile(0.95)
        lines = _list(desk)
        looks = each(lambda _: desk.due(_BEGAN + timedelta(days=90)), [0] * 10).percentile(0.95)
    return show(
        f"The desk with {cases:,} open cases (first in the list: case {open_})",
        [
            ("bedstamp cases list, 20 shown, in ms", f"{seconds['list'] * 1e3:.1f}", f"<= {ASKED_MS:.0f}",
             seconds["list"] * 1e3 <= ASKED_MS),
            ("the same, 95 of 100 times, in ms", f"{worst * 1e3:.1f}", f"<= {ASKED_MS:.0f}", worst * 1e3 <= ASKED_MS),
            ("a naive list takes so many times as long", f"{seconds['naive'] / seconds['list']:.1f}", ">= 2",
             seconds["naive"] >= 2 * seconds["list"]),
            ("all of them read, in ms", f"{seconds['all'] * 1e3:.0f}", "", None),
            ("one card with the cases like it, in ms", f"{seconds['show'] * 1e3:.1f}", "", None),
            ("a look at the clock when all of them are due, in ms", f"{looks * 1e3:.0f}", "", None),
            ("lines printed", f"{lines}", "<= 200", lines <= 200),
        ],
    )  # fmt: skip


def _list(desk: Desk) -> int:
    return len(list(listed(desk.cases(), desk.counts(), (), 1, 80, {})))


def _naive(desk: Desk) -> int:
    found = []
    for row in desk._all("SELECT id, state, opened FROM desk_cases"):
        waiting = desk._all("SELECT text FROM desk_waiting WHERE case_ = ?", row[:1])
        numbers = desk._all("SELECT prefix, digits, suffix FROM desk_numbers WHERE case_ = ?", row[:1])
        found.append((row, waiting, numbers))
    found.sort(key=lambda one: (-len(one[1]), one[0][2]))
    return len(found[:20])


def _fill(desk: Desk, journal: Journal, cases: int) -> None:
    chance, knowledge = random.Random(20310504), Knowledge()
    with transaction(journal.beside(DESK)):
        for number in range(cases):
            at = _BEGAN + timedelta(minutes=number)
            for person in range(min(int(chance.expovariate(1.2)) + 1, 9)):
                desk.open(_opening(number, f"chat:p{number}-{person}", chance), knowledge, at)


def _opening(number: int, person: str, chance: random.Random) -> Opening:
    prefix, digits = "QWXZ"[number % 4], str(100_000 + 7 * number)
    token = SerialToken(prefix + digits, 0, len(digits) + 1, prefix, digits, "", introduced=True)
    text = f"How old is number {prefix} {digits}? " + "It was my grandmother's. " * chance.randrange(6)
    asker = Asker("chat", person, json.dumps({"to": person}))
    return Opening(("outside-registers",), text, State(f"{prefix} {digits}"), (token,), asker)


if __name__ == "__main__":
    sys.exit(0 if run() else 1)
