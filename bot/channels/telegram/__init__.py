"""The group's chat, by the Bot API of Telegram. Thin: what is said is decided elsewhere, what is kept is the journal's.

    receiving -> journal -> deciding (and presses) -> journal -> finishing -> sending, at the pace that pace.py allows

updates.py reads what comes, bodies.py writes what goes; starting.py looks around at the start. albums.py and
standing.py keep back what is not whole, or whose sender is not known to be allowed; unsure.py is for what may be lost.
asking.py takes what is hard to the desk of the experts, experts.py shows it in their chat and tells whoever asked, and
at_the_desk.py carries out what they press and write there.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

from telegram.error import InvalidToken, TelegramError

from bot.channels.telegram import api as calls
from bot.channels.telegram.albums import ALBUM
from bot.channels.telegram.answers import answer_of
from bot.channels.telegram.asking import OpenDesk
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.deciding import Deciding
from bot.channels.telegram.finishing import Finishing
from bot.channels.telegram.receiving import Kept, Receiving
from bot.channels.telegram.sending import ChatSending
from bot.channels.telegram.signs import Signs
from bot.channels.telegram.standing import ASKING, Standings
from bot.channels.telegram.starting import look_around, only_poller
from bot.channels.telegram.surroundings import Surroundings
from bot.channels.telegram.unsure import Unsure
from bot.clerk import Clerk
from bot.handling import Handler, Outcome, Recall
from bot.journal import Incoming
from bot.logs import Log
from bot.pictures import render
from bot.settings import Settings
from bot.state import State
from knowledge.base import Knowledge

__all__ = ["Telegram"]

_LOOK_AGAIN = 5.0

_log = Log(CHANNEL)


class Telegram:
    """The channel. `run` receives and sends until it is told to stop; `handle` decides what comes of an update."""

    name = CHANNEL

    def __init__(
        self, settings: Settings, clerk: Clerk, knowledge: Callable[[], Knowledge], desk: OpenDesk
    ) -> None:
        assert settings.telegram is not None, "the channel is on"
        self._settings, self._clerk, self._knowledge = settings, clerk, knowledge
        self._token = settings.telegram.token.reveal()
        self._around = Surroundings(settings, clerk)
        self._decide = Deciding(self._around, desk)
        self._known: Knowledge | None = None

    @property
    def handle(self) -> Handler:
        """The handler of its updates; it works in the clerk's thread."""
        return self._handle

    async def run(self, stop: asyncio.Event) -> None:
        """Receive and send until `stop`. Raises SecondPoller, and StoreError when the journal cannot be written."""
        assert self._settings.telegram is not None
        with only_poller(self._token):
            async with calls.make(self._settings.telegram).connected() as api:
                await self._carry(api, stop)

    async def _carry(self, api: calls.Api, stop: asyncio.Event) -> None:
        assert self._settings.telegram is not None
        if not await self._look_around(api, stop):
            return
        signs, unsure = Signs(api, self._clerk), Unsure(self._clerk, self._settings.telegram.experts_chat)
        sending = ChatSending(self._clerk, api, Finishing(self._clerk, self._draw, self._around.drawings), unsure)
        standings = Standings(api, self._clerk, self._around)

        def came(one: Kept) -> None:
            signs.came(one)
            standings.came(one.event)

        receiving = Receiving(api, self._clerk, sending.try_now, came, unsure.came, self._around)
        ended = asyncio.Event()
        parts = [part(ended) for part in (receiving.run, receiving.albums, standings.run, sending.run)]
        tasks = [asyncio.create_task(part) for part in (*parts, stop.wait())]
        try:
            await asyncio.wait(tasks, return_when=asyncio.FIRST_COMPLETED)
            ended.set()
            self._clerk.ring(CHANNEL)
            self._clerk.ring(ALBUM)
            self._clerk.ring(ASKING)
            await asyncio.gather(*tasks[:-1])
        finally:
            signs.stop()
            for task in tasks:
                task.cancel()

    async def _look_around(self, api: calls.Api, stop: asyncio.Event) -> bool:
        """Look around until the server is reached; False when told to stop before."""
        failures = 0
        while not stop.is_set():
            try:
                await look_around(api, self._clerk, self._settings)
            except TelegramError as fault:
                failures += 1
                is_token = isinstance(fault, InvalidToken)
                what = "The server does not take the token. See token_file." if is_token else "Not reached yet."
                _log.warning("cannot begin", why=f"{what} {type(fault).__name__}", failures=failures)
                await self._clerk.wait(f"{CHANNEL}-start", min(60.0, _LOOK_AGAIN * failures))
            else:
                return True
        return False

    def _handle(self, message: Incoming, raw: bytes, recall: Recall, knowledge: Knowledge) -> Outcome:
        self._known = knowledge
        return self._decide(message, raw, recall, knowledge)

    def _draw(self, drawing: dict[str, Any]) -> bytes:
        """Draw the picture of an answer, with the knowledge that the last update was answered from.

        Where none was answered yet in this run, it is read. Raises BedstampError when there is nothing to draw.
        """
        known = self._known = self._known or self._knowledge()
        return render(answer_of(State.from_json(drawing), known), known)
