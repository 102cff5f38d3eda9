"""What is remembered of one person in one chat: where the conversation stands, and which questions were answered.

Each answered question keeps the state after its answer, so that a button under an old answer still means what it
says. Kept by the journal as the state of the conversation.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import Any

from bot.state import State

MOST_QUESTIONS = 12
"""Older ones are forgotten; their buttons then say so."""
RESTS_AFTER = 6 * 3600.0
"""Seconds after which what a person writes in a group begins a new conversation."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One answered question. `id` is its number in the journal and in its buttons, `message` its number in the chat.

    `reply` is the key of the answer in the outbox, `serials` the numbers that were answered, `settled` whether a
    button has chosen already. `pictures` came with it, by the server's names for them.
    """

    id: int
    message: int
    text: str
    state: State
    reply: str
    serials: tuple[str, ...] = ()
    album: str = ""
    at: float = 0.0
    settled: bool = False
    pictures: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Memory:
    """All of it. `unasked` is when the last reply was given that nobody had asked the bot for."""

    state: State = State()  # noqa: RUF009  # it is frozen
    asked: tuple[Asked, ...] = ()
    unasked: float = 0.0

    def of(self, id_: int) -> Asked | None:
        """Return the answered question with this number."""
        return next((one for one in self.asked if one.id == id_), None)

    def of_message(self, number: int, album: str = "") -> Asked | None:
        """Return the last answer to this message of the chat, or to another picture of its album."""
        fits = (one for one in reversed(self.asked) if one.message == number or (album and one.album == album))
        return next(fits, None)

    def with_settled(self, id_: int) -> Memory:
        """Return the memory in which a button of this question was pressed."""
        return replace(self, asked=tuple(replace(one, settled=one.settled or one.id == id_) for one in self.asked))

    def at(self, now: float) -> Memory:
        """Return what still counts at a moment: after a rest the conversation begins anew."""
        last = self.asked[-1].at if self.asked else 0.0
        return replace(self, state=State()) if now - last > RESTS_AFTER else self

    def with_answer(self, one: Asked) -> Memory:
        """Return the memory after one more answer."""
        return replace(self, state=one.state, asked=(*self.asked, one)[-MOST_QUESTIONS:])

    def pictures_without_a_number(self, now: float) -> tuple[str, ...]:
        """Return the pictures that came lately with a question that had no number: the number may follow."""
        found = (one for one in self.asked if not one.serials and now - one.at <= RESTS_AFTER)
        return tuple(dict.fromkeys(picture for one in found for picture in one.pictures))

    def serials_since(self, moment: float) -> frozenset[str]:
        """Return the numbers answered since a moment."""
        return frozenset(serial for one in self.asked if one.at >= moment for serial in one.serials)


def written(memory: Memory) -> str:
    """Return a memory as the journal keeps it."""
    return json.dumps(
        {
            "state": memory.state.as_json(),
            "unasked": memory.unasked,
            "asked": [_plain(one) for one in memory.asked],
        }
    )


def read(text: str | None) -> Memory:
    """Return the memory that `written` made; an empty one for None, and for what an other version wrote."""
    try:
        plain = json.loads(text or "{}")
        return Memory(
            State.from_json(plain["state"]), tuple(_asked(one) for one in plain["asked"]), float(plain["unasked"])
        )
    except (ValueError, KeyError, TypeError):
        return Memory()


def _plain(one: Asked) -> dict[str, Any]:
    return {name: getattr(one, name) for name in Asked.__slots__} | {"state": one.state.as_json()}


def _asked(plain: dict[str, Any]) -> Asked:
    return Asked(**{**plain, "state": State.from_json(plain["state"]), "serials": tuple(plain["serials"]),
                    "pictures": tuple(plain.get("pictures", ()))})  # fmt: skip
