"""What the deciding of a message looks up: who the bot is, which groups are its own, earlier messages, experts."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from bot.channels.telegram.bodies import CHANNEL
from bot.journal import Incoming, Journal, open_journal
from bot.settings import Settings


@dataclass(frozen=True, slots=True)
class Me:
    """The bot's own account. `reads_all`: whether its group messages are not kept from it."""

    id: int
    username: str
    name: str
    reads_all: bool


class Surroundings:
    """Reads the journal with a connection of its own, opened in the thread that first asks: the clerk's.

    Handlers get no journal, and what they look up here was committed before their turn.
    """

    def __init__(self, settings: Settings) -> None:
        assert settings.telegram is not None, "the channel is on"
        self.speak = settings.group.speak
        self.experts_chat = settings.telegram.experts_chat
        self._groups = settings.telegram.groups
        self._path: Path = settings.store.path
        self._opened: Journal | None = None

    def me(self) -> Me:
        """Return the bot's account as it was last told by the server."""
        noted = self._journal.noted(CHANNEL, "me")
        return Me(**json.loads(noted)) if noted else Me(0, "", "", True)

    def is_ours(self, chat: int) -> bool:
        """Whether the bot is to answer in a group: in those of the settings, in all when there are none."""
        return not self._groups or chat in self._groups or self.home(chat) in self._groups

    def home(self, chat: int) -> int:
        """Return the first id of a group that went on under a new one: conversations keep it."""
        for _ in range(5):
            old = self._journal.noted(CHANNEL, f"was {chat}")
            if not old:
                break
            chat = int(old)
        return chat

    def is_expert(self, person: str) -> bool:
        """Whether a person was seen in the experts' chat, or is an admin of it."""
        return bool(self._journal.noted(CHANNEL, f"expert {person}"))

    def incoming(self, id_: int) -> Incoming | None:
        """Return an earlier message of this channel by its number in the journal."""
        found = self._journal.incoming(id_)
        return found if found and found.channel == CHANNEL else None

    def remembered(self, conversation: str) -> str | None:
        """Return the state of another conversation."""
        return self._journal.conversation(conversation)

    def close(self) -> None:
        """Let go of the file; in the thread that opened it."""
        if self._opened is not None:
            self._opened.close()
            self._opened = None

    @property
    def _journal(self) -> Journal:
        if self._opened is None:
            self._opened = open_journal(self._path)
        return self._opened
