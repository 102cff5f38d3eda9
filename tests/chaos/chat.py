"""Kill the program at random moments while 50 groups write, the server refuses, hangs and breaks off.

python -m tests.chaos.chat [KILLS] [QUESTIONS] [SEED]     40 kills and 500 questions take about three minutes

No question may be lost. A double is allowed only where the server had accepted and the program could not know it
(killed in between, or broken off before the answer), and the journal must have it marked. An answer of which nobody
knew twice whether it arrived is sent no third time: the experts' chat must have been asked to look.
"""

from __future__ import annotations

import json
import random
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from contextlib import closing
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from tests.telegram_server import BotServer, Chat, Fault, Person
from tests.telegram_server.running import EXPERTS_CHAT, Desk, desk

GROUPS = 50
_SENDS = ("sendMessage", "sendPhoto", "editMessageText")
_FAULTS = {"429": 0.04, "hang": 0.01, "vanish": 0.02, "drop": 0.02, "500": 0.01}
_OPEN = "('waiting', 'aside', 'queued', 'sending', 'uncertain')"


@dataclass(frozen=True)
class Counts:
    """What became of it. `doubles_unmarked` are answers too many of which the journal knows nothing.

    `given_to_people` are answers that did not arrive at the second try either, and of which the experts were told.
    """

    kills: int
    questions: int
    answered: int
    lost: int
    doubles: int
    doubles_unmarked: int
    told_to_wait: int
    hung: int
    broken_off: int
    refused_at_once: int
    given_up: int
    given_to_people: int
    left_open: int
    is_sound: bool

    @property
    def is_well(self) -> bool:
        return self.lost == 0 and self.doubles_unmarked == 0 and self.left_open == 0 and self.is_sound

    def table(self) -> str:
        return "\n".join(f"{one.name.replace('_', ' '):18} {getattr(self, one.name)}" for one in fields(self))


class Weather:
    """The server's mood: each call may meet a fault."""

    def __init__(self, chance: random.Random) -> None:
        self._chance = chance
        self.is_fair = False
        self.met: Counter[str] = Counter()

    def __call__(self, method: str, _: dict[str, Any]) -> Fault | None:
        if self.is_fair or method not in _SENDS:
            return None
        roll = self._chance.random()
        for kind, share in _FAULTS.items():
            roll -= share
            if roll < 0:
                self.met[kind] += 1
                return Fault(kind, 3 if kind == "hang" else 1)
        return None


def kill_and_count(folder: Path, kills: int, questions: int, seed: int, packs: Path | None = None) -> Counts:
    """Ask `questions` over the time of `kills` lives of the program; then let it finish in fair weather."""
    chance = random.Random(seed)
    server = BotServer()
    weather = server.misbehave = Weather(chance)
    groups = [Chat(server, -1001000000000 - number, "supergroup", f"Group {number}") for number in range(GROUPS)]
    server.chats.update({group.id: group for group in groups})
    server.group(EXPERTS_CHAT, "Experts")
    with server.running():
        room = desk(folder, server, packs, every_group=True)
        asked: list[tuple[Chat, int]] = []
        for life in range(kills):
            room.program.start()
            moment = time.monotonic() + chance.uniform(0.5, 2.5)
            while time.monotonic() < moment:
                if len(asked) < questions * (life + 1) / kills:
                    asked.append(_ask(chance.choice(groups), len(asked)))
                time.sleep(chance.uniform(0, 0.03))
            room.program.kill()
        while len(asked) < questions:
            asked.append(_ask(chance.choice(groups), len(asked)))
        weather.is_fair = True
        return _finish(room, asked, kills, weather)


def _ask(group: Chat, number: int) -> tuple[Chat, int]:
    """A question of somebody who never asked before; the number is of a register without doubts."""
    message = group.says(Person(100_000 + number, "x"), f"K2250{number % 90 + 10}, how old is it?")
    return group, message["message_id"]


def _finish(room: Desk, asked: list[tuple[Chat, int]], kills: int, weather: Weather) -> Counts:
    room.program.start()
    end = time.monotonic() + 300
    while (set(_lost(room, asked)) - _given_to_people(room) or _left(room)) and time.monotonic() < end:
        time.sleep(0.5)
    assert room.program.terminate() == 0
    lost, given = set(_lost(room, asked)), _given_to_people(room)
    answers = Counter(_answered(room))
    with closing(sqlite3.connect(room.folder / "bedstamp.sqlite")) as file:
        marked = _marked(file)
        sound = file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        (given_up,) = file.execute("SELECT count(*) FROM outgoing WHERE state = 'failed'").fetchone()
    too_many = {question: count - 1 for question, count in answers.items() if count > 1}
    return Counts(
        kills, len(asked), len(answers), len(lost - given), sum(too_many.values()),
        sum(count for question, count in too_many.items() if question not in marked),
        weather.met["429"], weather.met["hang"], weather.met["vanish"] + weather.met["drop"], weather.met["500"],
        given_up, len(lost & given), _left(room), sound,
    )  # fmt: skip


def _answered(room: Desk) -> list[tuple[int, int]]:
    """The questions that the bot's messages answer, each as often as it was answered."""
    return [
        (chat.id, message["reply_to_message"]["message_id"])
        for chat in list(room.server.chats.values())
        for message in room.server.messages(chat)
        if "reply_to_message" in message and "text" in message
    ]


def _lost(room: Desk, asked: list[tuple[Chat, int]]) -> list[tuple[int, int]]:
    """The questions without an answer."""
    answered = set(_answered(room))
    return [(group.id, number) for group, number in asked if (group.id, number) not in answered]


def _given_to_people(room: Desk) -> set[tuple[int, int]]:
    """The questions to whose answers the experts' chat has a link, to look whether they arrived."""
    notices = room.server.messages(room.server.chats[EXPERTS_CHAT])
    rows = [row for one in notices for row in one.get("reply_markup", {}).get("inline_keyboard", [])]
    links = [button["url"].split("/")[-2:] for row in rows for button in row if "url" in button]
    return {(int(f"-100{chat}"), int(number)) for chat, number in links}


def _left(room: Desk) -> int:
    with closing(sqlite3.connect(room.folder / "bedstamp.sqlite")) as file:
        sql = f"SELECT (SELECT count(*) FROM incoming WHERE state IN {_OPEN}) + "
        (left,) = file.execute(f"{sql} (SELECT count(*) FROM outgoing WHERE state IN {_OPEN})").fetchone()
    return int(left)


def _marked(file: sqlite3.Connection) -> set[tuple[int, int]]:
    """The questions whose answer the journal has marked as uncertain once."""
    bodies = [json.loads(body)["params"] for (body,) in file.execute("SELECT body FROM outgoing WHERE unsure > 0")]
    return {(one["chat_id"], one["reply_parameters"]["message_id"]) for one in bodies if "reply_parameters" in one}


def main(kills: int = 40, questions: int = 500, seed: int | None = None) -> int:
    seed = random.randrange(10**6) if seed is None else seed
    with tempfile.TemporaryDirectory() as folder:
        counts = kill_and_count(Path(folder), kills, questions, seed)
    print(f"{'seed':18} {seed}\n{counts.table()}")
    return 0 if counts.is_well else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))

