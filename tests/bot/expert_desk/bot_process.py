"""A running bot whose experts are reached by the fake channel: `python bot_process.py SETTINGS FOLDER`."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from bot.cases import Asker, Card, Notice
from bot.changes import ChangeCard
from bot.clerk import Clerk
from bot.expert_desk import Digest
from bot.journal import Reply
from bot.running import run
from bot.settings import Settings, read
from tests.chaos.fake_channel import equip


class FileExperts:
    """Writes what is told into the folder of the fake channel."""

    name = "fake"

    def card(self, card: Card) -> list[Reply]:
        return [_reply(f"card-{card.case.id}-{card.case.version}", "card")]

    def changed(self, card: Card) -> list[Reply]:
        return [_reply(f"changed-{card.case.id}-{card.case.version}", card.case.state)]

    def tell(self, asker: Asker, notice: Notice, card: Card) -> list[Reply]:
        return [_reply(notice.key, notice.text)]

    def digest(self, digest: Digest) -> list[Reply]:
        return [_reply(f"digest-{digest.day}", "digest")]

    def change(self, card: ChangeCard) -> list[Reply]:
        return [_reply(f"change{card.number}-{card.change.state}", card.difference)]


def _reply(key: str, text: str) -> Reply:
    return Reply("fake", key, "people", json.dumps({"question": "desk", "text": text}).encode())


def experts(_: Settings, __: Clerk) -> list[FileExperts]:
    return [FileExperts()]


if __name__ == "__main__":
    sys.exit(run(read(Path(sys.argv[1])), equip, experts))
