"""Calls of the Bot API with plain values, and what their errors mean for a message that was to be sent."""

from __future__ import annotations

from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from typing import Any

import httpx
from telegram import Bot, InputFile
from telegram.error import BadRequest, ChatMigrated, Conflict, Forbidden, InvalidToken, RetryAfter, TelegramError
from telegram.request import HTTPXRequest

from bot.sending import NotSent, PutOff, Refused
from bot.settings import TelegramSettings

POLL = 50
"""Seconds that the server holds a request for updates when there are none."""
CALL = 10.0
"""Seconds to wait for the answer to any other call."""
FILE = 60.0
"""Seconds for a picture to come."""
CONNECT = 10.0
_USUAL_SERVER = "https://api.telegram.org/bot"
_NEVER_SENT = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout, httpx.UnsupportedProtocol)
_DONE_ALREADY = ("message is not modified",)
_NO_MATTER = ("query is too old", "query id is invalid", "message to edit not found", "message can't be edited")
"""Answers to a press that came too late, and changes of a message that is gone: nothing is lost."""


class Api(Bot):
    """The bot of the library, for calls in the server's own names with plain values: what the journal keeps."""

    async def call(self, method: str, params: Mapping[str, Any], wait: float = CALL) -> Any:
        """Call a method and return its result as it came. Raises TelegramError; see `meaning`."""
        return await self._post(method, dict(params), read_timeout=wait, write_timeout=wait)

    @asynccontextmanager
    async def connected(self) -> AsyncIterator[Api]:
        """Hold the connections while the block runs. Unlike the library's own way nothing is asked for at once."""
        try:
            yield self
        finally:
            for request in self._request:
                await request.shutdown()

    async def updates(self, offset: int | None, allowed: list[str]) -> list[dict[str, Any]]:
        """Return the updates from `offset` on, as they came. Asking with an offset confirms all before it."""
        params = {"offset": offset, "timeout": POLL, "limit": 100, "allowed_updates": allowed}
        found = await self.call("getUpdates", params, POLL + CALL)
        return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []

    async def file(self, id_: str, most: int) -> tuple[str, bytes]:
        """Return path and content of a file that the server has; b'' when it is larger than `most` bytes, or gone."""
        told = await self.call("getFile", {"file_id": id_})
        path = str(told.get("file_path", "")) if isinstance(told, dict) else ""
        if not path or int(told.get("file_size") or 0) > most:
            return path, b""
        try:
            content = await self._request[1].retrieve(f"{self.base_file_url}/{path}", read_timeout=FILE)
        except (BadRequest, Forbidden, InvalidToken):  # so a missing file is told
            return path, b""
        return path, content if len(content) <= most else b""


def make(settings: TelegramSettings) -> Api:
    """Return the bot for the settings. Requests for updates have a connection of their own.

    Files lie beside the methods of a server, as the API documents: /bot and /file/bot.
    """
    server = settings.base_url or _USUAL_SERVER
    return Api(
        settings.token.reveal(),
        base_url=server,
        base_file_url=f"{server.removesuffix('bot')}file/bot",
        request=HTTPXRequest(connection_pool_size=32, connect_timeout=CONNECT, pool_timeout=CONNECT),
        get_updates_request=HTTPXRequest(connection_pool_size=2, connect_timeout=CONNECT, pool_timeout=CONNECT),
    )


def photo(content: bytes) -> InputFile:
    """Return a picture as it is handed to a call."""
    return InputFile(content, "picture.png")


def is_unreachable(fault: TelegramError) -> bool:
    """Whether the server was not reached, so that surely nothing was done."""
    return isinstance(fault.__cause__, _NEVER_SENT)


def meaning(fault: TelegramError, now: datetime) -> Exception | None:
    """Return what an error means for the message: NotSent, PutOff or Refused; None when all is well nevertheless.

    The error itself comes back when nobody knows whether the message arrived. `now` is the time of the call.
    """
    if isinstance(fault, RetryAfter):
        return NotSent("told to wait (429)", now.astimezone(UTC) + _seconds(fault))
    if isinstance(fault, InvalidToken | Conflict) or is_unreachable(fault):
        return NotSent(_why(fault))
    if isinstance(fault, Forbidden | ChatMigrated):
        return Refused(_why(fault))
    if isinstance(fault, BadRequest):
        said = fault.message.lower()
        if any(words in said for words in _DONE_ALREADY + _NO_MATTER):
            return None
        return PutOff(_why(fault)) if "try again" in said else Refused(_why(fault))
    return fault


def _seconds(fault: RetryAfter) -> timedelta:
    wait = fault.retry_after
    return wait if isinstance(wait, timedelta) else timedelta(seconds=float(wait))


def _why(fault: TelegramError) -> str:
    return f"{type(fault).__name__}: {fault.message}"
