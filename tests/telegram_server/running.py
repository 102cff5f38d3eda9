"""The real program, started against the local server with settings of its own."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.chaos.harness import Program, until
from tests.telegram_server.server import BotServer, Sent
from tests.telegram_server.world import Chat, Person

ADA, BEN, MINA, EXPERT = Person(501, "Ada"), Person(502, "Ben"), Person(503, "Mina"), Person(601, "Orla")
EXPERTS_CHAT = -1001234599999


@dataclass
class Desk:
    """The program, its server and the group, with the words tests need."""

    folder: Path
    server: BotServer
    program: Program
    group: Chat
    _seen: tuple[int, int] = (0, 0)

    def begin(self, group: Chat) -> None:
        """Go on in another group, and forget what was sent, refused and logged so far."""
        self.group = group
        self.server.refused.clear()
        self._seen = (len(self.server.sent), len(self.program.events()))

    def events(self) -> list[dict[str, Any]]:
        """What the program logged since the test began."""
        return self.program.events()[self._seen[1] :]

    def start(self) -> Desk:
        self.program.start()
        until(lambda: self.program.saw("the bot account", username=self.server.username) and self.program.has_begun())
        return self

    @property
    def process(self) -> int:
        """The id of the process that runs."""
        begun = [one["process"] for one in self.program.events() if one["event"] == "begins"]
        return int(begun[-1])

    def answers(self, chat: Chat | None = None) -> list[dict[str, Any]]:
        return self.server.messages(chat or self.group)

    @property
    def pictures(self) -> list[bytes]:
        """The pictures sent to the group."""
        return [one.params["photo"].data for one in self.calls("sendPhoto") if one.params["chat_id"] == self.group.id]

    def wait_for(self, count: int, chat: Chat | None = None) -> list[dict[str, Any]]:
        """Wait until the bot has written so many messages there, and return them."""
        until(lambda: len(self.answers(chat)) >= count)
        return self.answers(chat)

    def wait_for_answer_to(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Wait until the bot has answered this message of the group, and return the answer."""
        until(lambda: any(_answers(one, asked) for one in self.answers()))
        return next(one for one in self.answers() if _answers(one, asked))

    def wait_until(self, condition: Callable[[], object]) -> None:
        until(condition)

    def quiet(self, then: str = "K231111, how old?", chat: Chat | None = None) -> list[dict[str, Any]]:
        """Let somebody else ask something, wait for that answer, and return what the bot said before it.

        What came first is handled first, so whatever it was to bring has been brought by then.
        """
        before = len(self.answers(chat))
        other = Person(9000 + before, "Another")
        asked = (chat or self.group).says(other, then)
        until(lambda: any(_answers(one, asked) for one in self.answers(chat)))
        return [one for one in self.answers(chat) if not _answers(one, asked)]

    def calls(self, method: str) -> list[Sent]:
        """The calls since the test began."""
        return [one for one in self.server.sent[self._seen[0] :] if one.method == method]

    def handled(self, **facts: object) -> bool:
        return any(one["event"] == "handled" and facts.items() <= one.items() for one in self.events())


def _answers(message: dict[str, Any], asked: dict[str, Any]) -> bool:
    return bool(message.get("reply_to_message", {}).get("message_id") == asked["message_id"])


def desk(
    folder: Path, server: BotServer, pack: Path | None = None, speak: str = "questions", every_group: bool = False
) -> Desk:
    """Return the program with its settings written, not started yet. The server runs already."""
    group = server.group()
    groups = "" if every_group else f"groups = [{group.id}]"
    (folder / "token").write_text(server.token)
    packs = f'[knowledge]\npacks = ["{pack}"]\n' if pack else ""
    settings = folder / "settings.toml"
    settings.write_text(
        f'{packs}[group]\nname = "The Treadle Room"\nspeak = "{speak}"\n[telegram]\ntoken_file = "token"\n'
        f'base_url = "{server.url}"\n{groups}\nexperts_chat = {EXPERTS_CHAT}\n'
    )
    command = [sys.executable, "-m", "bot", "run", "--config", str(settings)]
    return Desk(folder, server, Program(command, folder / "log"), group)


def buttons(message: dict[str, Any]) -> list[str]:
    return [one["text"] for row in message.get("reply_markup", {}).get("inline_keyboard", []) for one in row]
