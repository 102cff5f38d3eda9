"""The people and chats behind the server, and what they write. Every message becomes an update."""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tests.telegram_server.server import BotServer


@dataclass(frozen=True)
class Person:
    id: int
    name: str
    is_bot: bool = False

    def as_json(self) -> dict[str, Any]:
        return {"id": self.id, "is_bot": self.is_bot, "first_name": self.name}


@dataclass
class Chat:
    """A group or a private chat. `admins` and `members` are who belongs to it, as `getChatMember` tells."""

    server: BotServer
    id: int
    kind: str
    title: str = ""
    messages: dict[int, dict[str, Any]] = field(default_factory=dict)
    moved_to: int = 0
    bot_may_write: bool = True
    admins: tuple[Person, ...] = ()
    members: set[Person] = field(default_factory=set)
    bot_is_admin: bool = True
    _next: int = 1

    def says(self, person: Person, text: str = "", **more: Any) -> dict[str, Any]:
        """Somebody writes; `more` are further fields of the message. Returns the message."""
        fields = {"text": text, **_commands(text)} if text else {}
        message = self.add({"from": person.as_json(), **fields, **more})
        self.server.update({"message": message})
        return message

    def shows(self, person: Person, caption: str = "", **more: Any) -> dict[str, Any]:
        """Somebody sends a photo."""
        sizes = [self._photo(size) for size in (90, 800)]
        return self.says(person, photo=sizes, **({"caption": caption} if caption else {}), **more)

    def _photo(self, size: int) -> dict[str, Any]:
        """Put a photo on the server; returns one size of it."""
        id_ = f"photo{self.id}-{self._next}-{size}"
        self.server.files[id_] = b"\xff\xd8 photo %d" % self._next
        return {"file_id": id_, "file_unique_id": f"u{self._next}{size}", "width": size, "height": size}

    def changes(self, message: dict[str, Any], text: str, after: int = 1) -> dict[str, Any]:
        """The writer edits a message."""
        name = "caption" if "caption" in message else "text"
        message.update({name: text, "edit_date": message.get("edit_date", message["date"]) + after})
        self.server.update({"edited_message": dict(message)})
        return message

    def kicks(self, person: Person) -> None:
        """Somebody is taken out; bots that are admins are told at once."""
        self.members.discard(person)
        self.admins = tuple(one for one in self.admins if one != person)
        if self.bot_is_admin:
            told = {"chat": self.as_json(), "from": {"id": 1, "is_bot": False, "first_name": "x"}, "date": 1}
            told |= {"old_chat_member": self.standing(person, "member"), "new_chat_member": self.standing(person)}
            self.server.update({"chat_member": told})

    def standing(self, person: Person, status: str = "") -> dict[str, Any]:
        """Return the ChatMember of somebody."""
        known = "administrator" if person in self.admins else "member" if person in self.members else "left"
        return {"status": status or known, "user": person.as_json()}

    def add(self, fields: dict[str, Any]) -> dict[str, Any]:
        """Put a message into the chat without an update."""
        number = self._next
        self._next += 1
        message = {"message_id": number, "date": int(time.time()), "chat": self.as_json(), **fields}
        self.messages[number] = message
        return message

    def as_json(self) -> dict[str, Any]:
        named = {"title": self.title} if self.kind != "private" else {"first_name": self.title}
        return {"id": self.id, "type": self.kind, **named}


def _commands(text: str) -> dict[str, Any]:
    """The server marks a command at the beginning, as clients show it."""
    if not text.startswith("/"):
        return {}
    return {"entities": [{"type": "bot_command", "offset": 0, "length": len(text.split(maxsplit=1)[0])}]}
