"""What the deciding of a message looks up: who the bot is, which groups are its own, earlier messages, experts."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass

from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.sent import Sent
from bot.channels.telegram.updates import Post
from bot.clerk import Clerk
from bot.journal import Incoming, Journal
from bot.settings import Settings
from knowledge.shipped import folders

DATA = re.compile(r"(\d{1,15})\.(\d|[a-z])", re.ASCII)
"""The data of a button under an answer: the number of the question in the journal, and which button it is."""


@dataclass(frozen=True, slots=True)
class Me:
    """The bot's own account. `reads_all`: whether its group messages are not kept from it."""

    id: int
    username: str
    name: str
    reads_all: bool

    @property
    def names(self) -> set[str]:
        """The names by which it is called with @."""
        return {self.username.lower(), f"u{self.id}"} - {"", "u0"}

    def is_called(self, post: Post) -> bool:
        """Whether the bot is named in a message: with @, or by its name at the beginning."""
        if set(post.mentions) & self.names:
            return True
        start = post.text.lstrip()[: len(self.name) + 1].lower()
        return bool(self.name) and start[:-1] == self.name.lower() and start[-1:] in ",:!"

    def without_calls(self, post: Post) -> str:
        """Return the text of a message without the bot's name, which is no part of what is said."""
        text = post.text
        if self.username:
            text = re.sub(rf"@{re.escape(self.username)}\b", " ", text, flags=re.IGNORECASE)
        if self.is_called(post) and self.name and text.lower().startswith(self.name.lower()):
            text = text[len(self.name) + 1 :]
        return " ".join(text.split(" ")).strip() if text != post.text else text


class Surroundings:
    """Looks things up in the clerk's journal, for handlers: they work in its thread."""

    def __init__(self, settings: Settings, clerk: Clerk) -> None:
        assert settings.telegram is not None, "the channel is on"
        self._clerk = clerk
        self.speak = settings.group.speak
        self.experts_chat = settings.telegram.experts_chat
        self.drawings = (*settings.knowledge.packs, *folders())
        self._groups = settings.telegram.groups

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

    def now_under(self, chat: int) -> int:
        """Return the id under which a group goes on."""
        for _ in range(5):
            new = self._journal.noted(CHANNEL, f"moved {chat}")
            if not new:
                break
            chat = int(new)
        return chat

    def is_experts_chat(self, chat: int) -> bool:
        """Whether a chat is the experts', also after it went on under a new id."""
        return self.experts_chat is not None and self.home(chat) == self.home(self.experts_chat)

    def asker_of(self, data: str) -> str:
        """Return whose question the data of a button belongs to, '' for data that is none of ours."""
        question = self.incoming(int(found[1])) if (found := DATA.fullmatch(data)) else None
        return question.person if question else ""

    def key_at(self, chat: int, number: int) -> str:
        """Return the key of our message with this number in a chat, '' when it is none of ours."""
        return Sent(self._journal).key_at(chat, number, self.home(chat)) if number else ""

    def incoming(self, id_: int) -> Incoming | None:
        """Return an earlier message of this channel by its number in the journal."""
        found = self._journal.incoming(id_)
        return found if found and found.channel == CHANNEL else None

    def remembered(self, conversation: str) -> str | None:
        """Return the state of another conversation."""
        return self._journal.conversation(conversation)

    @property
    def _journal(self) -> Journal:
        return self._clerk.journal
