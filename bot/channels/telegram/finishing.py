"""A message of the outbox -> the call that sends it, with what can only be known now: pictures, numbers, new ids."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import Any

from bot.channels.telegram import api as calls
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.photos import KeptPhotos
from bot.channels.telegram.sent import place_of
from bot.clerk import Clerk
from bot.journal import Outgoing
from bot.sending import NotSent, Refused
from knowledge.errors import BedstampError
from knowledge.packs.paths import find_drawing

NOTHING = ""
"""The method of a call that need not be made any more."""
_A_MOMENT = timedelta(seconds=0.5)
_LOOK_AROUND = 40

Draw = Callable[[dict[str, Any]], bytes]
"""Draws what a message tells of. Raises BedstampError when there is nothing to draw."""


@dataclass(frozen=True, slots=True)
class Call:
    """A call of the API. `otherwise` is the method and the parameters of the one to be made if this is refused."""

    method: str
    params: dict[str, Any]
    otherwise: tuple[str, dict[str, Any]] | None = None


class Finishing:
    """Finishes calls. `folders` are where drawings of packs lie."""

    def __init__(self, clerk: Clerk, draw: Draw, folders: Sequence[Path]) -> None:
        self._clerk, self._draw, self._folders = clerk, draw, folders
        self._artist = ThreadPoolExecutor(1, "drawing")  # one at a time: each thread would keep its own memory

    def stop(self) -> None:
        """Draw no more."""
        self._artist.shutdown(wait=False)

    async def call(self, message: Outgoing) -> Call:
        """Return the call for a message. Raises NotSent when it must wait, Refused when it can never be made."""
        body = json.loads(message.body)
        method, params = body["method"], dict(body["params"])
        other = body.get("otherwise")
        otherwise = (other["method"], dict(other["params"])) if other else None
        newer = body.get("newer")
        if newer and await self._is_out_of_date(*newer):
            return Call(NOTHING, {})
        if "edits" in body:
            return await self._edit(Call(method, params, otherwise), body["edits"], *(newer or ("", 0)))
        photo = await self._photo(body)
        if photo is not None:
            params["photo"] = calls.photo(photo)
        elif "photo" not in params and method == "sendPhoto":
            if otherwise is None:
                raise Refused("the picture is not kept any more")
            return await self._where_it_is_now(Call(*otherwise))
        return await self._where_it_is_now(Call(method, params, otherwise))

    async def _edit(self, call: Call, key: str, newer: str, version: int) -> Call:
        """Name the message to be changed by its number; where it has none, or lies in a group that is no more, send.

        What was sent in place of an earlier change is changed then.
        """
        target = await self._clerk.do(lambda journal: journal.outgoing_of(CHANNEL, key))
        if target and target.state in ("queued", "sending", "uncertain"):
            raise NotSent("what it changes is not sent yet", self._clerk.now() + _A_MOMENT)
        earlier = [f"{newer}{number}" for number in range(version - 1, max(0, version - _LOOK_AROUND), -1)]
        for one in (key, *earlier):
            place = await self._place(one)
            if place is not None:
                return Call(call.method, call.params | {"chat_id": place[0], "message_id": place[1]}, call.otherwise)
        return await self._where_it_is_now(Call(*call.otherwise)) if call.otherwise else Call(NOTHING, {})

    async def _place(self, key: str) -> tuple[int, int] | None:
        """Return where a message of the outbox stands, None when it stands nowhere that can be reached."""
        found = await self._clerk.do(lambda journal: journal.outgoing_of(CHANNEL, key))
        chat, number = place_of(found.recipient, found.remote) if found else (0, 0)
        return (chat, number) if number and await self._moved(chat) == chat else None

    async def _where_it_is_now(self, call: Call) -> Call:
        """Send to the id under which a group goes on. There the messages are numbered anew, so it answers none."""
        chat = call.params.get("chat_id")
        new = await self._moved(chat) if isinstance(chat, int) else chat
        if new == chat:
            return call
        params = {name: value for name, value in call.params.items() if name != "reply_parameters"}
        return Call(call.method, params | {"chat_id": new}, call.otherwise)

    async def _moved(self, chat: int) -> int:
        new = await self._clerk.do(lambda journal: journal.noted(CHANNEL, f"moved {chat}"))
        return int(new) if new else chat

    async def _is_out_of_date(self, keys: str, version: int) -> bool:
        """Whether a later change of the same message is in the outbox. Not every version brings one."""
        later = [f"{keys}{number}" for number in range(version + 1, version + _LOOK_AROUND)]
        return await self._clerk.do(
            lambda journal: any(journal.outgoing_of(CHANNEL, key) is not None for key in later)
        )

    async def _photo(self, body: dict[str, Any]) -> bytes | None:
        """Return the picture that goes with a message: drawn, from a pack, or from the desk."""
        if "drawing" in body:
            return await self._drawn(body["drawing"])
        if "kept" in body:
            channel, ref = body["kept"]
            return await self._clerk.do(lambda journal: KeptPhotos(journal).content(channel, ref)) or None
        return _content(find_drawing(body["file"], self._folders)) if "file" in body else None

    async def _drawn(self, drawing: dict[str, Any]) -> bytes:
        try:
            return await asyncio.get_running_loop().run_in_executor(self._artist, self._draw, drawing)
        except BedstampError as fault:
            raise Refused(str(fault)) from fault


def _content(drawing: Path | None) -> bytes | None:
    try:
        return drawing.read_bytes() if drawing else None
    except OSError:
        return None
