"""Updates from the Bot API into the journal: on the disk first, then acknowledged by asking for the next.

Pictures of an album are kept apart until all of it came (albums.py), and what only some may do until it is known who
did it (standing.py); then they go on to be handled like everything else.
"""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram import updates
from bot.channels.telegram.albums import ALBUM, ripe
from bot.channels.telegram.api import Api
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.sending import note_move
from bot.channels.telegram.standing import ASKING, roles_to_ask_about
from bot.channels.telegram.surroundings import Surroundings
from bot.channels.telegram.updates import Membership, Moved
from bot.clerk import HANDLING, Clerk
from bot.journal import Journal, Waits
from bot.logs import Log

ALLOWED = ["message", "edited_message", "callback_query", "my_chat_member", "chat_member"]
_BACK_OFF = Waits(first=1, factor=2, longest=60, tries=2**31)

_log = Log(CHANNEL)


@dataclass(frozen=True, slots=True)
class Kept:
    """A new message that is on the disk."""

    id: int
    event: updates.Event


class Receiving:
    """The loop that asks for updates. `reached` is called when the server is reached again after a failure.

    What is new is told to `seen` in the clerk's thread, and to `came` in the loop, when it is on the disk.
    """

    def __init__(
        self,
        api: Api,
        clerk: Clerk,
        reached: Callable[[], None],
        came: Callable[[Kept], None],
        seen: Callable[[Journal, updates.Event], None],
        around: Surroundings,
    ) -> None:
        self._api, self._clerk, self._reached, self._came = api, clerk, reached, came
        self._seen, self._around = seen, around
        self._failures = 0

    async def run(self, stop: asyncio.Event) -> None:
        """Receive until `stop`. Raises StoreError when nothing can be kept: then nothing was acknowledged."""
        offset: int | None = None
        while not stop.is_set():
            batch = await self._ask(offset, stop)
            if batch:
                await self._keep(batch)
            # Numbers start anew after a quiet week, below those of before: an offset is only sent to confirm what has
            # just come. After a failure the last batch may come again, and is known.
            offset = max((_number(one) for one in batch or ()), default=-1) + 1 or None

    async def albums(self, stop: asyncio.Event) -> None:
        """Let albums go on whose time has come, until `stop`."""
        while not stop.is_set():
            waiting, went_on = await self._clerk.do(self._albums)
            if went_on:
                self._clerk.ring(HANDLING)
                self._clerk.ring(ASKING)
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
        kept = await self._clerk.do(lambda journal: self._store(journal, [updates.as_came(one) for one in batch]))
        for bell in (HANDLING, ALBUM, ASKING):
            self._clerk.ring(bell)
        for one in kept:
            self._came(one)

    def _store(self, journal: Journal, batch: Sequence[dict[str, Any]]) -> list[Kept]:
        """Keep a batch, each under the channel where its way begins, and return what is new, without albums."""
        now = self._clerk.now()
        ways: dict[str, list[_Came]] = {ALBUM: [], ASKING: [], CHANNEL: []}
        for update in batch:
            event = _event(raw := _raw(update))
            album = updates.album_of(update)
            ways[ALBUM if album else self._way(event)].append((updates.key(update), raw, album, event))
        kept = []
        for channel, came in ways.items():
            ids = journal.receive_all(channel, [(key, raw, place) for key, raw, place, _ in came], now)
            kept += [Kept(id_, one[3]) for id_, one in zip(ids, came, strict=True) if id_ is not None and not one[2]]
        for one in kept:
            _note(journal, one.event)
            self._seen(journal, one.event)
        return kept

    def _way(self, event: updates.Event) -> str:
        return ASKING if roles_to_ask_about(event, self._around) else CHANNEL

    def _albums(self, journal: Journal) -> tuple[int, int]:
        """Let each album whose time has come go on as one message; return how many wait, and how many went."""
        now = self._clerk.now()
        due, waiting = ripe(journal, now)
        for key, raw, parts in due:
            journal.receive(self._way(_event(raw)), key, raw, now)
            for one in parts:
                journal.handled(one.id, rule="part-of-an-album", now=now)
        return waiting, len(due)


_Came = tuple[str, bytes, str, updates.Event]
"""Key, bytes and album of an update, and what happened."""


def _note(journal: Journal, event: updates.Event) -> None:
    """Note what later messages depend on: new ids of groups; log where the bot is."""
    if isinstance(event, Moved):
        note_move(journal, event.old, event.new)
        _log.info("a group has a new id", chat=event.old, new=event.new)
    if isinstance(event, Membership) and event.is_own:
        _log.info("membership", chat=event.chat, kind=event.kind, status=event.status)


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
