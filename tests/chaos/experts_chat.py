"""Kill the program at random moments while an expert settles cases in their chat, and presses come twice.

python -m tests.chaos.experts_chat [KILLS] [CASES] [SEED]     12 kills and 8 cases take about three minutes

Every case must be settled once, with one finding, and everybody who asked must hear. A notice or a card may come twice
only where the server had accepted it and the program could not know.
"""

from __future__ import annotations

import random
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from contextlib import closing
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from knowledge.packs import write
from tests.bot.conftest import PACK
from tests.telegram_server import BotServer, Person
from tests.telegram_server.running import EXPERT, EXPERTS_CHAT, Desk, desk

_WORDS = "Tollgate Model 9, about 1911, by the shuttle; see ledger p. 40"
_OPEN = "('waiting', 'aside', 'queued', 'sending', 'uncertain')"


@dataclass(frozen=True)
class Counts:
    """What became of it. `findings` counts every change of what is known; `unmarked` are doubles nobody knows of."""

    kills: int
    cases: int
    settled: int
    findings: int
    told: int
    told_twice: int
    unmarked: int
    left_open: int
    is_sound: bool

    @property
    def is_well(self) -> bool:
        once = self.settled == self.findings == self.told == self.cases
        return once and not self.unmarked and not self.left_open and self.is_sound

    def table(self) -> str:
        return "\n".join(f"{one.name.replace('_', ' '):12} {getattr(self, one.name)}" for one in fields(self))


@dataclass
class Expert:
    """Replies to each card once, and says yes to what was understood, sometimes twice."""

    server: BotServer
    chance: random.Random
    replied: set[str] = field(default_factory=set)
    pressed: set[int] = field(default_factory=set)

    def works(self) -> None:
        chat = self.server.chats[EXPERTS_CHAT]
        for message in list(self.server.messages(chat)):
            title = str(message.get("text", "")).partition(",")[0]
            if title.startswith("Case ") and title not in self.replied:
                self.replied.add(title)
                chat.says(EXPERT, _WORDS, reply_to_message=dict(message))
            if "I understood, for case" in message.get("text", "") and message["message_id"] not in self.pressed:
                self._says_yes(message)

    def _says_yes(self, message: dict[str, Any]) -> None:
        if not message.get("reply_markup"):
            return
        self.pressed.add(message["message_id"])
        data = message["reply_markup"]["inline_keyboard"][0][0]["callback_data"]
        id_ = self.server.press(EXPERT, message, data=data)
        if self.chance.random() < 0.5:
            self.server.press_again(EXPERT, message, data, id_)
        if self.chance.random() < 0.5:
            self.server.press(EXPERT, message, data=data)


def kill_and_count(folder: Path, kills: int, cases: int, seed: int, packs: Path | None = None) -> Counts:
    """Let `cases` questions be settled over the time of `kills` lives of the program."""
    chance = random.Random(seed)
    server = BotServer()
    server.group(EXPERTS_CHAT, "Experts").admins = (EXPERT,)
    with server.running():
        room, expert = desk(folder, server, packs, every_group=True), Expert(server, chance)
        with room.program:
            return _lives(room, expert, kills, cases, chance)


def _lives(room: Desk, expert: Expert, kills: int, cases: int, chance: random.Random) -> Counts:
    for life in range(kills):
        room.program.start()
        moment = time.monotonic() + chance.uniform(2.0, 5.0)
        asked = range(cases * life // kills, cases * (life + 1) // kills)
        for number in asked:
            letters = "QWXYZJ"[number % 6] + "QWXYZJ"[number // 6 % 6]
            room.server.group(-1001000000000 - number).says(
                Person(100_000 + number, "x"), f"My Tollgate says serial {letters} 9988{number:04}, how old is it?"
            )
        while time.monotonic() < moment:
            expert.works()
            time.sleep(0.1)
        room.program.kill()
    return _finish(room, expert, cases, kills)


def _finish(room: Desk, expert: Expert, cases: int, kills: int) -> Counts:
    room.program.start()
    end = time.monotonic() + 60 + 30 * cases
    while time.monotonic() < end and not _is_done(room, cases):
        expert.works()
        time.sleep(0.5)
    assert room.program.terminate() == 0
    told = Counter(
        chat.id for chat in list(room.server.chats.values()) for one in room.server.messages(chat)
        if "People of the group looked at" in one.get("text", "")
    )  # fmt: skip
    with closing(sqlite3.connect(room.folder / "bedstamp.sqlite")) as file:
        sound = file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    twice = [chat for chat, times in told.items() if times > 1]
    sql = "SELECT recipient FROM outgoing WHERE unsure > 0 AND key LIKE 'case%-settled-%'"
    marked = {int(one) for (one,) in _rows(room, sql)}
    return Counts(
        kills, cases, _count(room, "SELECT count(*) FROM desk_cases WHERE state = 'settled'"),
        _count(room, "SELECT count(*) FROM finding_changes"), len(told), len(twice), len(set(twice) - marked),
        _left(room), sound,
    )  # fmt: skip


def _is_done(room: Desk, cases: int) -> bool:
    """Whether all are settled and nothing waits; a program that was killed at once may have no tables yet."""
    if not _count(room, "SELECT count(*) FROM sqlite_master WHERE name = 'desk_cases'"):
        return False
    return _count(room, "SELECT count(*) FROM desk_cases WHERE state = 'settled'") == cases and not _left(room)


def _left(room: Desk) -> int:
    sql = f"SELECT (SELECT count(*) FROM incoming WHERE state IN {_OPEN}) + "
    return _count(room, f"{sql} (SELECT count(*) FROM outgoing WHERE state IN {_OPEN})")


def _count(room: Desk, sql: str) -> int:
    return int(_rows(room, sql)[0][0])


def _rows(room: Desk, sql: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(room.folder / "bedstamp.sqlite")) as file:
        return file.execute(sql).fetchall()


def main(kills: int = 12, cases: int = 8, seed: int | None = None) -> int:
    seed = random.randrange(10**6) if seed is None else seed
    with tempfile.TemporaryDirectory() as folder:
        pack = Path(folder) / "tollgate"
        write(PACK, pack)
        counts = kill_and_count(Path(folder), kills, cases, seed, pack)
    print(f"{'seed':12} {seed}\n{counts.table()}")
    return 0 if counts.is_well else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
