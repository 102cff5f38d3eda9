"""A group, a second group and the experts' chat, on the quick clock, with the words that tests of cases need."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any

from tests.bot.channels.telegram.quick import Quick
from tests.telegram_server import BotServer, Chat, Person
from tests.telegram_server.running import ADA, EXPERT, buttons

NEWS = "Tollgate Model 9, about 1911, by the shuttle; see ledger p. 40"
QUESTION = "Hi, my Tollgate has the serial number QX 99887766, how old is it?"
SERIAL = "QX99887766"
_STATES = ("open", "taken", "asked back", "settled", "closed")


@dataclass
class ExpertsRoom:
    quick: Quick
    server: BotServer
    folder: Path
    group: Chat
    other: Chat
    experts: Chat
    before: list[tuple[Any, ...]] = field(default_factory=list)
    _people: Any = field(default_factory=lambda: count(70_000))

    def until(self, condition, most: float = 120.0) -> None:
        self.quick.until(condition, most)

    def settled_down(self) -> None:
        """Let everything that is under way come to its end."""
        self.quick.sleep(5)
        self.until(lambda: not {"waiting", "queued", "sending"} & set(self.quick.counts()), 300)

    def somebody(self, name: str = "Zoe") -> Person:
        return Person(next(self._people), name)

    def said(self, chat: Chat) -> list[dict[str, Any]]:
        return self.server.messages(chat)

    def texts(self, chat: Chat) -> str:
        return "\n".join(text_of(one) for one in self.said(chat))

    def answer_to(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Wait for the bot's message that replies to one, and return the last such."""
        chat = self.server.chats[asked["chat"]["id"]]

        def found() -> list[dict[str, Any]]:
            return [one for one in self.said(chat)
                    if one.get("reply_to_message", {}).get("message_id") == asked["message_id"]]  # fmt: skip

        self.until(found)
        return found()[-1]

    def card(self, about: str = SERIAL) -> dict[str, Any]:
        """Wait for the card of a case, and return it; it changes as the case does."""

        def found() -> list[dict[str, Any]]:
            return [one for one in self.said(self.experts) if is_card(one) and about in text_of(one)]

        self.until(found)
        return found()[-1]

    def ask(self, text: str = QUESTION, person: Person = ADA, chat: Chat | None = None) -> dict[str, Any]:
        """Somebody asks something hard. Returns the card of it; what was asked is `asked`."""
        self.asked = (chat or self.group).says(person, text)
        self.settled_down()
        return self.card()

    def writes(self, person: Person, text: str, to: dict[str, Any], **more: Any) -> dict[str, Any]:
        """Somebody replies in the experts' chat, and gets an answer, which is returned."""
        written = self.experts.says(person, text, reply_to_message=dict(to), **more)
        self.settled_down()
        return self.answer_to(written)

    def presses(self, person: Person, message: dict[str, Any], label: str = "", data: str | None = None) -> str:
        """Somebody presses a button; returns what they are told."""
        before = len(self.server.calls("answerCallbackQuery"))
        self.server.press(person, message, label, data)
        self.settled_down()
        self.until(lambda: len(self.server.calls("answerCallbackQuery")) > before)
        return str(self.server.calls("answerCallbackQuery")[-1].params.get("text", ""))

    def settles(self, card: dict[str, Any], text: str = NEWS, person: Person = EXPERT) -> str:
        return self.presses(person, self.writes(person, text, card), "Yes")

    def rows(self, sql: str) -> list[tuple[Any, ...]]:
        with closing(sqlite3.connect(self.folder / "bedstamp.sqlite")) as file:
            return file.execute(sql).fetchall()

    def standing(self) -> list[tuple[Any, ...]]:
        """All that experts can change."""
        return [*self.rows("SELECT id, state, expert, version FROM desk_cases"),
                *self.rows("SELECT count(*) FROM finding_changes"), *self.rows("SELECT count(*) FROM desk_proposals"),
                *self.rows("SELECT count(*) FROM desk_words")]  # fmt: skip


def text_of(message: dict[str, Any]) -> str:
    return str(message.get("text") or message.get("caption") or "")


def is_card(message: dict[str, Any]) -> bool:
    first = text_of(message).partition("\n")[0]
    return first.startswith("Case ") and any(f", {state}" in first for state in _STATES)


__all__ = ["NEWS", "QUESTION", "SERIAL", "ExpertsRoom", "buttons", "is_card", "text_of"]
