"""Who may do what only some may: asked of the platform, before what they did is handled.

A press under somebody else's answer, and words to the bot in the experts' chat, are kept apart until the platform has
said whether their sender belongs to that chat; then they go on, with that answer beside them. So handling never waits,
and what was found out is in the journal. A name, a forwarded message or a copy of a card proves nothing here.

A good answer is believed for BELIEVED seconds, and forgotten at once where the platform tells that somebody left.
"""

from __future__ import annotations

import asyncio
import json
from datetime import datetime

from telegram.error import BadRequest, ChatMigrated, TelegramError

from bot.channels.telegram import updates
from bot.channels.telegram.api import Api
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.experts import case_named, is_of_a_case
from bot.channels.telegram.list_cards import is_of_a_change
from bot.channels.telegram.sending import note_move
from bot.channels.telegram.surroundings import Surroundings
from bot.channels.telegram.updates import ADMIN, EXPERT, UNKNOWN, Event, Membership, Post, Press
from bot.clerk import HANDLING, Clerk
from bot.journal import Incoming, Journal
from bot.logs import Log
from knowledge.register_changes.reading import is_change

ASKING = "telegram-standing"
"""The channel under which is kept what waits for the answer of the platform."""
BELIEVED = 30.0
"""Seconds for which somebody counts as a member after the platform has said so."""
PATIENCE = 8.0
"""Seconds after which something goes on although nothing could be found out; then it is refused with kind words."""
_CALL = 5.0
_ADMINS = ("administrator", "creator")
_MEMBERS = (*_ADMINS, "member")

_log = Log(CHANNEL)


def roles_to_ask_about(event: Event, around: Surroundings) -> dict[str, int]:
    """Return which roles of its sender matter for an event, and in which chat each is held."""
    if not isinstance(event, Post | Press) or not event.sender.user or event.sender.is_bot:
        return {}
    experts = {EXPERT: around.experts_chat} if around.experts_chat is not None else {}
    if isinstance(event, Post):
        return experts if _only_experts_may(event, around) else {}
    if around.is_experts_chat(event.chat) or is_of_a_case(event.data) or is_of_a_change(event.data):
        return experts
    asker = around.asker_of(event.data)
    if asker in ("", f"{CHANNEL}:{event.sender.key}"):
        return {}
    is_of_the_group = asker == f"{CHANNEL}:c{event.chat}"
    return experts | ({ADMIN: event.chat} if is_of_the_group else {})


def _only_experts_may(post: Post, around: Surroundings) -> bool:
    is_called = bool(post.command) or around.me().is_called(post)
    if around.is_experts_chat(post.chat):
        return not post.service and (is_called or post.to is not None)
    is_about_experts_matters = case_named(post.text) is not None or is_change(around.me().without_calls(post))
    if post.is_private:
        return post.command.startswith("/start") or is_about_experts_matters
    return is_called and is_about_experts_matters


class Standings:
    """Asks the platform about the senders of what waits, and lets it go on."""

    def __init__(self, api: Api, clerk: Clerk, around: Surroundings) -> None:
        self._api, self._clerk, self._around = api, clerk, around
        self._known: dict[tuple[int, int], tuple[str, float]] = {}

    async def run(self, stop: asyncio.Event) -> None:
        """Ask until `stop`."""
        while not stop.is_set():
            waiting = await self._clerk.do(self._waiting)
            went = await asyncio.gather(*(self._one(*one) for one in waiting))
            if any(went):
                self._clerk.ring(HANDLING)
            await self._clerk.wait(ASKING, 5.0 if all(went) else 1.0)

    def came(self, event: Event) -> None:
        """Forget what was known of somebody who joined or left."""
        if isinstance(event, Membership):
            self._known.pop((event.chat, event.user), None)
        if isinstance(event, Post) and event.left:
            self._known.pop((event.chat, int(event.left[1:])), None)

    def _waiting(self, journal: Journal) -> list[tuple[Incoming, bytes, Event]]:
        waiting = journal.waiting(self._clerk.now(), 50, (ASKING,))
        raws = [journal.raw(one.id) for one in waiting]
        return [(one, raw, updates.read(raw)) for one, raw in zip(waiting, raws, strict=True)]

    async def _one(self, message: Incoming, raw: bytes, event: Event) -> bool:
        """Find out about one and let it go on; False when that is to be tried once more."""
        assert isinstance(event, Post | Press)
        roles = await self._clerk.do(lambda _: roles_to_ask_about(event, self._around))
        found = [await self._role(role, chat, event.sender.user) for role, chat in roles.items()]
        if UNKNOWN in found and (self._clerk.now() - message.received).total_seconds() < PATIENCE:
            return False
        now = self._clerk.now()
        await self._clerk.do(lambda journal: _go_on(journal, message, raw, [one for one in found if one], now))
        return True

    async def _role(self, role: str, chat: int, user: int) -> str:
        """Return the role if somebody has it, '' if not, and UNKNOWN where nobody can tell."""
        status = await self._status(chat, user)
        if status in (_ADMINS if role == ADMIN else _MEMBERS):
            return role
        return UNKNOWN if status == UNKNOWN else ""

    async def _status(self, chat: int, user: int) -> str:
        chat = await self._clerk.do(lambda _: self._around.now_under(chat))
        status, at = self._known.get((chat, user), ("", 0.0))
        if status and _now() - at < BELIEVED:
            return status
        try:
            status = await self._asked(chat, user)
        except ChatMigrated as fault:
            new = fault.new_chat_id
            await self._clerk.do(lambda journal: note_move(journal, chat, new))
            return UNKNOWN
        except TelegramError as fault:
            _log.warning("could not ask who belongs to a chat", chat=chat, why=f"{type(fault).__name__}")
            return UNKNOWN
        self._known = {key: value for key, value in self._known.items() if _now() - value[1] < BELIEVED}
        if status in _MEMBERS:
            self._known[chat, user] = (status, _now())
        return status

    async def _asked(self, chat: int, user: int) -> str:
        """Ask what somebody is in a chat. Where the members are kept from the bot, its admins can be told still."""
        try:
            return _status(await self._api.call("getChatMember", {"chat_id": chat, "user_id": user}, _CALL))
        except ChatMigrated:
            raise
        except BadRequest:
            admins = await self._api.call("getChatAdministrators", {"chat_id": chat}, _CALL)
            found = admins if isinstance(admins, list) else []
            return next((_status(one) for one in found if one.get("user", {}).get("id") == user), "left")


def _now() -> float:
    return asyncio.get_running_loop().time()


def _status(told: object) -> str:
    """Return the status that a ChatMember tells; one whose rights are cut down is a member all the same."""
    if not isinstance(told, dict):
        return "left"
    status = str(told.get("status", "left"))
    return "member" if status == "restricted" and told.get("is_member") is True else status


def _go_on(journal: Journal, message: Incoming, raw: bytes, standing: list[str], now: datetime) -> None:
    together = json.loads(raw) | {updates.STANDING: standing}
    journal.receive(CHANNEL, message.key, json.dumps(together).encode(), now)
    journal.handled(message.id, rule="asked-about", now=now)
