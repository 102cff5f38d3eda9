"""Kill the program at random moments while questions come in, and count what became of them.

python -m tests.chaos.killing [KILLS] [QUESTIONS] [SEED]
"""

from __future__ import annotations

import random
import signal
import sqlite3
import sys
import tempfile
import time
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from tests.chaos.harness import fake_program, until


@dataclass(frozen=True)
class Counts:
    kills: int
    questions: int
    answered: int
    answered_twice: int  # with replies of different keys
    out_of_order: int
    delivered_again: int  # the same reply once more, which a receiver drops by its key
    left_open: int  # in the journal, at the end
    is_sound: bool

    @property
    def is_well(self) -> bool:
        whole = self.answered == self.questions and self.is_sound
        return whole and not (self.answered_twice or self.out_of_order or self.left_open)

    def table(self) -> str:
        return "\n".join(f"{name.replace('_', ' '):16} {getattr(self, name)}" for name in self.__dataclass_fields__)


def kill_and_count(folder: Path, kills: int, questions: int, seed: int) -> Counts:
    """Feed `questions` over the time of `kills` lives of the program; then let it finish."""
    chance = random.Random(seed)
    program, upstream = fake_program(folder)
    talks: dict[str, int] = {}
    with program:
        for life in range(kills):
            program.start()
            moment = time.monotonic() + chance.uniform(0.4, 1.6)
            until((folder / "bedstamp.sqlite").exists)
            while time.monotonic() < moment:
                if len(upstream.fed) < questions * (life + 1) / kills:
                    talk = f"talk {chance.randrange(12)}"
                    talks[talk] = talks.get(talk, 0) + 1
                    upstream.feed(talk=talk, number=talks[talk])
                time.sleep(chance.uniform(0, 0.02))
            program.kill()
        program.start()
        while len(upstream.fed) < questions:
            upstream.feed(talk="last", number=talks.setdefault("last", 0))
        until(lambda: len(upstream.delivered()) == questions and program.has_begun())
        time.sleep(0.5)  # for a reply too many, if there were one
        assert program.terminate() == 0
    return _count(folder, kills, upstream)


def killed_at_step(folder: Path, step: int) -> tuple[bool, Counts]:
    """Kill the program at one step of two questions and their answers; let it finish, and count.

    A step is the moment before or after a transaction of the journal, an acknowledgement or a delivery. Also return
    whether there is such a step.
    """
    program, upstream = fake_program(folder)
    (upstream.folder / "end-at").write_text(str(step))
    for number in range(2):
        upstream.feed(number=number)
    with program:
        program.start()
        until(lambda: not program.is_running or _is_settled(folder))
        was_killed = program.terminate() == -signal.SIGKILL
        if was_killed:
            program.start()
            until(lambda: program.has_begun() and _is_settled(folder))
            assert program.terminate() == 0
    return was_killed, _count(folder, int(was_killed), upstream)


def _is_settled(folder: Path) -> bool:
    """Whether two questions came in and everything is sent."""
    if not (folder / "bedstamp.sqlite").exists():
        return False
    with closing(sqlite3.connect(folder / "bedstamp.sqlite")) as file:
        if not file.execute("SELECT 1 FROM sqlite_master WHERE name = 'outgoing'").fetchone():
            return False
        found = file.execute("SELECT count(DISTINCT answers), min(state), max(state) FROM outgoing").fetchone()
    return bool(found == (2, "sent", "sent"))


def _count(folder: Path, kills: int, upstream) -> Counts:
    delivered = upstream.delivered()
    with closing(sqlite3.connect(folder / "bedstamp.sqlite")) as file:
        states = "('waiting', 'aside', 'queued', 'sending', 'uncertain', 'failed')"
        (left,) = file.execute(
            f"SELECT (SELECT count(*) FROM incoming WHERE state IN {states}) "
            f"+ (SELECT count(*) FROM outgoing WHERE state IN {states})"
        ).fetchone()
        sound = file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        sound = sound and not file.execute("PRAGMA foreign_key_check").fetchall()
    seen = [answers[0]["seen"] for by_key in delivered.values() for answers in by_key.values()]
    return Counts(
        kills=kills,
        questions=len(upstream.fed),
        answered=len(delivered),
        answered_twice=sum(len(by_key) > 1 for by_key in delivered.values()),
        out_of_order=sum(numbers != sorted(numbers) for numbers in seen),
        delivered_again=sum(len(answers) - 1 for by_key in delivered.values() for answers in by_key.values()),
        left_open=left,
        is_sound=sound,
    )


def main(kills: int = 40, questions: int = 300, seed: int | None = None) -> int:
    seed = random.randrange(10**6) if seed is None else seed
    with tempfile.TemporaryDirectory() as folder:
        counts = kill_and_count(Path(folder), kills, questions, seed)
    print(f"{'seed':16} {seed}\n{counts.table()}")
    return 0 if counts.is_well else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
