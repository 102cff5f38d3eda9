"""A small channel for tests, run as a process of its own: `python tests/chaos/fake_channel.py SETTINGS FOLDER`.

Its upstream is a folder. A file in FOLDER/in is a message; removing it is the acknowledgement. A file written to
FOLDER/out is a delivery, each under a new name, so that every delivery can be counted. What a message says decides
what goes wrong (see `_obey`).
"""

from __future__ import annotations

import asyncio
import json
import os
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from sqlite_utils import Database

from bot.clerk import Clerk
from bot.handling import Outcome, Recall, SetAside
from bot.journal import Incoming, Outgoing, Reply, Talk, rows
from bot.running import run
from bot.sending import NotSent, PutOff, Refused, Sending
from bot.settings import Settings, read
from knowledge.base import Knowledge
from knowledge.database import transaction
from knowledge.errors import BedstampError


@dataclass
class FakeChannel:
    folder: Path
    clerk: Clerk
    name: str = "fake"

    async def run(self, stop: asyncio.Event) -> None:
        sending = asyncio.create_task(Sending(self.name, self.clerk, self._send, at_once=3).run(stop))
        while not stop.is_set() and not sending.done():
            for path in sorted((self.folder / "in").iterdir()):
                await self.clerk.receive(self.name, path.name, path.read_bytes())
                path.unlink()
                _step()
                if path.name == "break-the-channel":
                    raise ConnectionError("upstream went away")
            await asyncio.sleep(0.005)
        await sending

    def handle(self, message: Incoming, raw: bytes, recall: Recall, knowledge: Knowledge) -> Outcome:
        asked = json.loads(raw)
        seen = json.loads(recall(asked["talk"], asked["talk"]) or "[]")
        _obey(asked["text"], self.folder)
        seen.append(asked["number"])
        answer = {"question": message.key, "seen": seen, "text": asked["text"], "makers": sorted(knowledge.makers)}
        reply = Reply(self.name, str(uuid4()), asked["talk"], json.dumps(answer).encode(), asked["talk"], asked["talk"])
        return Outcome((reply,), Talk(asked["talk"], json.dumps(seen)), asked["talk"])

    async def _send(self, message: Outgoing) -> str:
        await asyncio.sleep(0.002)
        text = json.loads(message.body)["text"]
        if text == "refuse it":
            raise Refused("550 no")
        if text == "put it off":
            raise PutOff("451 later")
        if text == "no connection" and not (self.folder / "connected").exists():
            raise NotSent("no route")
        name = f"{message.key}~{uuid4()}"
        draft = self.folder / f"draft-{name}"
        draft.write_bytes(message.body)
        draft.rename(self.folder / "out" / name)
        _step()
        await asyncio.sleep(0.002)
        if text == "say nothing once" and message.state != "uncertain":
            raise TimeoutError("no answer after the last line")
        return name


def _obey(text: str, folder: Path) -> None:
    if text == "end the program":
        os._exit(70)
    if text == "fail":
        raise ValueError("it cannot be done")
    if text == "fail until mended" and not (folder / "mended").exists():
        raise ValueError("not mended yet")
    if text == "unreadable":
        raise SetAside("nothing can be made of it")
    if text == "take your time":
        (folder / "in-hand").touch()
        time.sleep(1.0)


_end_at = Path(sys.argv[2]) / "end-at"
_steps_left = int(_end_at.read_text()) if _end_at.exists() else -1


def _step() -> None:
    """One place where a plug can be pulled. At the one that FOLDER/end-at counts to, the program kills itself, once."""
    global _steps_left
    _steps_left -= 1
    if _steps_left == 0:
        _end_at.unlink()
        os.kill(os.getpid(), signal.SIGKILL)


@contextmanager
def _counted(database: Database) -> Iterator[None]:
    """A transaction of the journal, with a step before and after it is committed."""
    with transaction(database):
        yield
        _step()
    _step()


def equip(settings: Settings, clerk: Clerk) -> list[FakeChannel]:
    return [FakeChannel(Path(sys.argv[2]), clerk)]


if __name__ == "__main__":
    rows.transaction = _counted  # type: ignore[attr-defined]
    try:
        sys.exit(run(read(Path(sys.argv[1])), equip))
    except BedstampError as fault:
        print(fault, file=sys.stderr)
        sys.exit(fault.exit_code)
