"""Updates from the Bot API into the journal: on the disk first, then acknowledged by asking for the next.

The pictures of an album come as updates of their own, of unknown number. They are kept apart until a moment after the
first, and then go on as one message; the moment is counted from what the journal holds, so a restart changes nothing.
"""

from __future__ import annotations

import asyncio
import json
from collections import defaultdict
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram import updates
from bot.channels.telegram.api import Api
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.sending import note_move
from bot.channels.telegram.updates import Membership, Moved, Post, Press
from bot.clerk import HANDLING, Clerk
from bot.journal import Incoming, Journal, Waits
from bot.logs import Log

ALLOWED = ["message", "edited_message", "callback_query", "my_chat_member"]
ALBUM = "telegram-album"
"""The channel under which the pictures of albums are kept until they go on together."""
ALBUM_WAITS = 1.2
"""Seconds from the first picture of an album until it is taken for whole."""
_BACK_OFF = Waits(first=1, factor=2, longest=60, tries=2**31)

_log = Log(CHANNEL)


@dataclass(frozen=True, slots=True)
class Kept:
    """A new message that is on the disk."""

    id: int
    event: updates.Event


class Receiving:
    """The loop that asks for updates. `reached` is called when the server is reached again after a failure."""

    def __init__(
        self,
        api: Api,
        clerk: Clerk,
        reached: Callable[[], None],
        came: Callable[[Kept], None],
        experts_chat: int | None,
    ) -> None:
        self._api, self._clerk, self._reached, self._came = api, clerk, reached, came
        self._experts_chat = experts_chat
        self._failures = 0

    async def run(self, stop: asyncio.Event) -> None:
        """Receive until `stop`. Raises StoreError when nothing can be kept: then nothing was acknowledged."""
        offset: int | None = None
        while not stop.is_set():
            batch = await self._ask(offset, stop)
            if batch is None:
                continue
            if batch:
                await self._keep(batch)
            # All is confirmed by now, so the next request needs no offset when nothing came: numbers start anew
            # after a quiet week.
            offset = max((_number(one) for one in batch), default=-1) + 1 or None

    async def albums(self, stop: asyncio.Event) -> None:
        """Let albums go on whose time has come, until `stop`."""
        while not stop.is_set():
            waiting, went_on = await self._clerk.do(lambda journal: _albums(journal, self._clerk.now()))
            if went_on:
                self._clerk.ring(HANDLING)
            await self._clerk.wait(ALBUM, 0.2 if waiting else 5.0)

    async def _ask(self, offset: int | None, stop: asyncio.Event) -> list[dict[str, Any]] | None:
        """Return the next updates; None when there was a failure, after waiting a while, or when it is time to stop."""
        asking = asyncio.create_task(self._api.updates(offset, ALLOWED))
        ending = asyncio.create_task(stop.wait())
        await asyncio.wait({asking, ending}, return_when=asyncio.FIRST_COMPLETED)
        ending.cancel()
        if not asking.done():
            asking.cancel()
            await asyncio.wait({asking})
            return None
        try:
            batch = asking.result()
        except TelegramError as fault:
            await self._failed(fault, stop)
            return None
        if self._failures:
            _log.info("the server is reached again", failures=self._failures)
            self._failures = 0
            self._reached()
        return batch

    async def _failed(self, fault: TelegramError, stop: asyncio.Event) -> None:
        self._failures += 1
        wait = _BACK_OFF.pause(self._failures)
        if isinstance(fault, RetryAfter):
            told = fault.retry_after
            wait = max(wait, told if isinstance(told, int) else told.total_seconds())
        if self._failures == 1 or self._failures % 20 == 0 or isinstance(fault, Conflict):
            _log.warning("no updates", why=_in_words(fault), failures=self._failures, wait=round(wait, 1))
        with suppress(TimeoutError):
            async with asyncio.timeout(wait):
                await stop.wait()

    async def _keep(self, batch: Sequence[dict[str, Any]]) -> None:
        kept = await self._clerk.do(lambda journal: self._store(journal, batch))
        self._clerk.ring(HANDLING)
        if any(updates.album_of(one) for one in batch):
            self._clerk.ring(ALBUM)
        for one in kept:
            self._came(one)

    def _store(self, journal: Journal, batch: Sequence[dict[str, Any]]) -> list[Kept]:
        """Keep a batch in one transaction for each of the two kinds, the albums first; return what is new."""
        now = self._clerk.now()
        albums = [one for one in batch if updates.album_of(one)]
        journal.receive_all(ALBUM, [(updates.key(one), _raw(one), updates.album_of(one)) for one in albums], now)
        others = [(updates.key(one), _raw(one), "") for one in batch if not updates.album_of(one)]
        ids = journal.receive_all(CHANNEL, others, now)
        kept = [Kept(id_, _event(raw)) for id_, (_, raw, _) in zip(ids, others, strict=True) if id_ is not None]
        for one in kept:
            _note(journal, one.event, self._experts_chat)
        return kept


def _note(journal: Journal, event: updates.Event, experts_chat: int | None) -> None:
    """Note what later messages depend on: new ids of groups, who is an expert, where the bot is."""
    if isinstance(event, Moved):
        note_move(journal, event.old, event.new)
        _log.info("a group has a new id", chat=event.old, new=event.new)
    if isinstance(event, Membership):
        _log.info("membership", chat=event.chat, kind=event.kind, status=event.status)
    if isinstance(event, Post | Press) and event.chat == experts_chat and not event.sender.is_bot:
        left = event.left if isinstance(event, Post) else ""
        key, standing = f"expert {left or event.sender.key}", "" if left else "seen in the experts' chat"
        if bool(journal.noted(CHANNEL, key)) != bool(standing):
            journal.note(CHANNEL, key, standing)


def _albums(journal: Journal, now: datetime) -> tuple[int, int]:
    """Let each album whose first picture came long enough ago go on as one message; return how many wait, and went."""
    albums: dict[str, list[Incoming]] = defaultdict(list)
    for one in journal.waiting(now, 500, (ALBUM,)):
        albums[one.place].append(one)
    ripe = [parts for parts in albums.values() if (now - parts[0].received).total_seconds() >= ALBUM_WAITS]
    for parts in ripe:
        together = {"album": [json.loads(journal.raw(one.id)) for one in parts]}
        journal.receive(CHANNEL, f"album {parts[0].key}", json.dumps(together).encode(), now)
        for one in parts:
            journal.handled(one.id, rule="part-of-an-album", now=now)
    return len(albums) - len(ripe), len(ripe)


def _raw(update: dict[str, Any]) -> bytes:
    return json.dumps(update, ensure_ascii=False).encode("utf-8", "surrogatepass")


def _event(raw: bytes) -> updates.Event:
    try:
        return updates.read(raw)
    except (ValueError, RecursionError):
        return updates.Other("unreadable")


def _number(update: dict[str, Any]) -> int:
    found = update.get("update_id")
    return found if isinstance(found, int) else -1


def _in_words(fault: TelegramError) -> str:
    if isinstance(fault, Conflict):
        if "webhook" in fault.message.lower():
            return (
                "The bot account is set to deliver to a web address, so nothing can be asked for. Open deleteWebhook "
                "of the Bot API in a browser (see README.md), or use another account."
            )
        return (
            "Another program asks for the updates of the same bot account (409). Only one may: stop the other one, or "
            "make a new token for this one."
        )
    if isinstance(fault, InvalidToken):
        return "The server does not take the token. Put the right one into the file that token_file names."
    return f"{type(fault).__name__}: {fault.message}"
