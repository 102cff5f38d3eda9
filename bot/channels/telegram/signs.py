"""A sign that the bot is working, where an answer takes longer: the chat then shows that it types."""

from __future__ import annotations

import asyncio
from contextlib import suppress

from telegram.error import TelegramError

from bot.channels.telegram.api import Api
from bot.channels.telegram.receiving import Kept
from bot.channels.telegram.updates import Post
from bot.clerk import Clerk
from bot.journal import Journal

AFTER = 1.5
"""Seconds after which an answer takes long."""
AGAIN = 4.5
"""Seconds for which clients show the sign (five, by the API)."""
_MOST_TIMES = 6
_MOST_AT_ONCE = 50


class Signs:
    """Shows the sign for messages to the bot alone, and in groups for those that will be answered for certain."""

    def __init__(self, api: Api, clerk: Clerk) -> None:
        self._api, self._clerk = api, clerk
        self._tasks: set[asyncio.Task[None]] = set()

    def came(self, one: Kept) -> None:
        """Begin to look after a message that came in."""
        if isinstance(one.event, Post) and not one.event.service and len(self._tasks) < _MOST_AT_ONCE:
            task = asyncio.create_task(self._look_after(one.id, one.event))
            self._tasks.add(task)
            task.add_done_callback(self._tasks.discard)

    def stop(self) -> None:
        """Let go of everything."""
        for task in self._tasks:
            task.cancel()

    async def _look_after(self, id_: int, post: Post) -> None:
        await asyncio.sleep(AFTER)
        for _ in range(_MOST_TIMES):
            is_open = await self._clerk.do(lambda journal: _is_open(journal, id_, post.is_private))
            if is_open is False:
                return
            if is_open:
                place = {"chat_id": post.chat, "action": "typing"}
                if post.thread is not None:
                    place["message_thread_id"] = post.thread
                with suppress(TelegramError):
                    await self._api.call("sendChatAction", place)
            await asyncio.sleep(AGAIN if is_open else AFTER)


def _is_open(journal: Journal, id_: int, is_private: bool) -> bool | None:
    """Whether an answer to a message is on its way: decided and not sent, or in private not decided yet.

    None where nobody knows yet whether it is answered at all.
    """
    found = journal.incoming(id_)
    if found is None or found.state == "aside":
        return False
    if found.state == "waiting":
        return True if is_private else None
    return any(one.state in ("queued", "sending") for one in journal.replies_of(id_))
