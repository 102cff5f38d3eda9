"""The chat against the local Bot API server: how long an answer takes, how fast a backlog goes, what idling costs.

python -m tests.bench.chats        about two minutes
"""

from __future__ import annotations

import os
import sqlite3
import statistics
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path

from bot.when_to_speak import Scene, judge
from bot.wiring import open_library
from tests.bench.measure import show
from tests.chaos.harness import until
from tests.telegram_server import BotServer, Chat, Person
from tests.telegram_server.running import Desk, desk

_ANSWERS = 60
_BACKLOG = 2_000
_IDLE = 30.0
_PIECES = ("kann wer ", "what is the ", "how old ", "any idea of the my old ", "an the my this ", "is it ", "help ")
_AS_INSTALLED = "import runpy, sys; sys.modules['pandas'] = None; runpy.run_module('bot', run_name='__main__')"
"""sqlite-utils takes pandas in where it finds it. The tests bring it along; whoever runs the bot does not have it."""
_TICKS = os.sysconf("SC_CLK_TCK")


def main() -> int:
    """Run every table; exit code 1 when something asked for is not met."""
    with tempfile.TemporaryDirectory() as first, tempfile.TemporaryDirectory() as second:
        met = [_answers_and_idling(Path(first)), _a_backlog(Path(second)), _deciding()]
    return 0 if all(met) else 1


def _answers_and_idling(folder: Path) -> bool:
    server = BotServer()
    with server.running():
        room = desk(folder, server, every_group=True)
        room.program.command[1:3] = ["-c", _AS_INSTALLED]
        room.start()
        groups = [_group(server, number) for number in range(_ANSWERS + 5)]
        times = [_time_of_one(room, group, number) for number, group in enumerate(groups)][5:]
        time.sleep(3)
        before = _processor_time(room)
        time.sleep(_IDLE)
        share = (_processor_time(room) - before) / _IDLE
        memory = _memory(room)
        room.program.terminate()
    median = statistics.median(times)
    return show(
        "The chat, against the local server",
        [
            ("from update to accepted reply, median (picture off)", _ms(median), "at most 60 ms", median <= 0.06),
            ("the slowest of them", _ms(max(times)), "", None),
            (f"idle for {_IDLE:.0f} s: share of a core", f"{share:.2%}", "under 1 %", share < 0.01),
            ("idle: memory", f"{memory:.0f} MB", "under 150 MB", memory < 150),
        ],
    )


def _time_of_one(room: Desk, group: Chat, number: int) -> float:
    """Seconds from the update to the accepted reply. The number has no digit doubt, so that no picture is drawn."""
    began = time.monotonic()
    group.says(Person(5_000 + number, "x"), f"serial {45_210 + number} on a Wendelohr, how old is it?")
    until(lambda: room.answers(group))
    return room.server.calls("sendMessage")[-1].at - began


def _a_backlog(folder: Path) -> bool:
    """Updates that waited while the program was away: half talk, half questions, in 50 groups."""
    server = BotServer()
    groups = [_group(server, number) for number in range(50)]
    with server.running():
        for number in range(_BACKLOG):
            text = "lovely weather for the fair" if number % 2 else f"Wendelohr {40_000 + number}, how old is it?"
            groups[number % 50].says(Person(9_000 + number, "x"), text)
        room = desk(folder, server, every_group=True)
        room.start()
        began = _first_handled(room)
        until(lambda: _handled(folder) >= _BACKLOG, 120)
        seconds = time.monotonic() - began
        replies = _count(folder, "SELECT count(*) FROM outgoing")
        room.program.kill()
    rate = _BACKLOG / seconds
    rows = [
        (f"{_BACKLOG:,} waiting updates handled, {replies:,} replies in the outbox", f"{rate:.0f} a second",
         "at least 200 a second", rate >= 200),
    ]  # fmt: skip
    return show("A backlog", rows)


def _deciding() -> bool:
    """What the patterns of the decision cost on long messages: four times the length, at most eight times as long."""
    knowledge = open_library().current()
    worst = 0.0
    for piece in _PIECES:
        times = []
        for size in (1024, 4096):
            text = "K204117 " + piece * (size // len(piece))
            scene = Scene(text, knowledge)
            began = time.perf_counter()
            judge(scene)
            times.append(time.perf_counter() - began)
        worst = max(worst, times[1] / max(times[0], 1e-4))
    rows = [("4,096 characters against 1,024, the worst", f"{worst:.1f} times", "at most 8 times", worst <= 8)]
    return show("When to speak", rows)


def _group(server: BotServer, number: int) -> Chat:
    return server.group(-1002000000000 - number, f"Group {number}")


def _first_handled(room: Desk) -> float:
    """The moment from which the program takes updates in: it has looked around."""
    until(lambda: room.program.saw("the bot account"))
    return time.monotonic()


def _handled(folder: Path) -> int:
    return _count(folder, "SELECT count(*) FROM incoming WHERE state = 'handled'")


def _count(folder: Path, sql: str) -> int:
    with closing(sqlite3.connect(folder / "bedstamp.sqlite")) as file:
        return int(file.execute(sql).fetchone()[0])


def _processor_time(room: Desk) -> float:
    """Seconds of processor time that the program has used (Linux)."""
    fields = Path(f"/proc/{room.process}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / _TICKS


def _memory(room: Desk) -> float:
    pages = int(Path(f"/proc/{room.process}/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def _ms(seconds: float) -> str:
    return f"{1e3 * seconds:.1f} ms"


if __name__ == "__main__":
    sys.exit(main())
