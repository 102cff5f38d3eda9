"""From the outbox to the Bot API, at the pace the platform allows, every chat by itself.

A message whose chat may not be written to yet is put back with its time, in the journal, so that the pace outlives
the program. Where nobody knows whether a message arrived, see unsure.py.
"""

from __future__ import annotations

import asyncio
import json
from datetime import UTC, datetime, timedelta
from typing import Any

from telegram.error import ChatMigrated, RetryAfter, TelegramError

from bot.channels.telegram.api import Api, meaning
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.finishing import NOTHING, Call, Finishing
from bot.channels.telegram.pace import Pace
from bot.channels.telegram.photos import MOST_BYTES, KeptPhotos
from bot.channels.telegram.sent import TELEGRAM, name_in
from bot.channels.telegram.unsure import Unsure
from bot.clerk import Clerk
from bot.journal import Journal, Outgoing, Waits
from bot.logs import Log
from bot.sending import NotSent, Refused, Sending
from knowledge.database import transaction

AT_ONCE = 12
"""Messages under way together. One that hangs keeps one place, for as long as a call may take."""
_LOOK_AGAIN = 2.0
_A_MOMENT = timedelta(seconds=0.5)
_NO_ROOM = 0.05
_NOTED_EVERY = 0.5
_RUSH, _MANY, _PICTURES_WAIT = 1.0, 10, 60.0
_UNREACHED = Waits(first=1, factor=2, longest=60, tries=2**31)
_PACED = ("sendMessage", "sendPhoto", "sendMediaGroup", "editMessageText", "editMessageReplyMarkup")

_log = Log(CHANNEL)


class ChatSending(Sending):
    """Sends what is due. Unlike the usual sending no message waits for another to come back."""

    def __init__(self, clerk: Clerk, api: Api, finishing: Finishing, unsure: Unsure) -> None:
        super().__init__(CHANNEL, clerk, self._deliver, policy=unsure.verdict, at_once=AT_ONCE)
        self._api, self._finishing = api, finishing
        self._pace, self._unsure = Pace(), unsure
        self._taken: dict[int, float] = {}
        self._under_way: dict[int, asyncio.Task[None]] = {}
        self._ready: dict[int, Call] = {}
        self._quiet_until = self._noted = 0.0

    def try_now(self) -> None:
        """Try again at once: the server was reached."""
        if self._quiet_until:
            self._quiet_until = 0.0
            self._clerk.ring(CHANNEL)

    async def run(self, stop: asyncio.Event) -> None:
        """Send until `stop`; what is under way is finished first. Raises StoreError when the journal fails."""
        await self._clerk.do(lambda journal: journal.settle(CHANNEL))
        await self._unsure.begin()
        noted = await self._clerk.do(lambda journal: journal.noted(CHANNEL, "pace"))
        self._pace = Pace.read(noted, self._now())
        self._under_way, self._taken = {}, {}
        try:
            while not stop.is_set():
                if not await self._begin_what_is_due():
                    await self._clerk.wait(CHANNEL, _LOOK_AGAIN)
                for task in [task for task in self._under_way.values() if task.done()]:
                    task.result()
        finally:
            await asyncio.gather(*self._under_way.values(), return_exceptions=True)
            self._finishing.stop()

    async def _begin_what_is_due(self) -> bool:
        """Begin to send what may go out now; return whether there was anything to do."""
        free, now = self._free(), self._clerk.now()
        if not free:
            self._ring_in(_NO_ROOM)
            return False
        limit = free + len(self._under_way)
        due = await self._clerk.do(lambda journal: journal.due(CHANNEL, now, limit))
        new = [message for message in due if message.id not in self._under_way]
        if len(new) > len(new := await self._without_pictures_in_a_rush(new)):
            self._ring_in(_RUSH)
        held = [(message, at) for message in new if (at := self._its_time(message, now.timestamp())) > now.timestamp()]
        if held:
            await self._clerk.do(lambda journal: _put_back(journal, held, now))
            self._taken.update({message.id: at for message, at in held if message.id in self._taken})
        if new:
            await self._note_the_pace()
        if self._taken:
            self._ring_in(min(self._taken.values()) - now.timestamp())
        for message in new:
            if message.id not in {one.id for one, _ in held} and self._free():
                self._begin(message)
        return len(new) > len(held) or any(message.state == "queued" for message, _ in held)

    def _free(self) -> int:
        if self._now() < self._quiet_until:
            return 0
        most = 1 if self._held else self._at_once
        return max(0, min(most - len(self._under_way), self._pace.room(self._now())))

    def _begin(self, message: Outgoing) -> None:
        self._taken.pop(message.id, None)
        self._pace.begins(self._now())
        self._pace.goes(message.recipient, self._now())
        task = asyncio.create_task(self._one(message))
        self._under_way[message.id] = task
        task.add_done_callback(lambda _: self._finished(message.id))

    async def _hold(self, message: Outgoing, fault: NotSent) -> None:
        """Keep a message for later. When the server is not reached nothing else is tried for a while either."""
        if fault.at is not None:
            return await super()._hold(message, fault)
        self._held += 1
        now = self._clerk.now()
        self._quiet_until = now.timestamp() + _UNREACHED.pause(self._held)
        await self._clerk.do(lambda journal: journal.later(message.id, now + _A_MOMENT, str(fault), now=now))
        if self._held == 1:
            _log.warning("not sent, held back", id=f"out-{message.id}", reason=fault)
        return None

    async def _unknown(self, message: Outgoing, fault: Exception) -> None:
        await super()._unknown(message, fault)
        self._unsure.add(message.id)

    def _finished(self, id_: int) -> None:
        task = self._under_way[id_]
        if task.cancelled() or task.exception() is None:
            del self._under_way[id_]
        self._clerk.ring(CHANNEL)

    def _its_time(self, message: Outgoing, now: float) -> float:
        """Return when a message may go out, and take that moment for it."""
        if json.loads(message.body)["method"] not in _PACED:
            return now
        if message.id in self._taken:
            return self._pace.not_before(message.recipient, now)
        at = self._pace.slot(message.recipient, now)
        self._pace.take(message.recipient, at)
        self._taken[message.id] = at
        return at

    async def _one(self, message: Outgoing) -> None:
        """Finish the call, then send it. Only what is ready counts as being sent, however long a picture takes."""
        try:
            self._ready[message.id] = await self._finishing.call(message)
        except NotSent as fault:
            await self._hold(message, fault)
        except Refused as fault:
            await self._refused(message, str(fault))
        else:
            await super()._one(message)
        finally:
            self._ready.pop(message.id, None)

    async def _deliver(self, message: Outgoing) -> str:
        """Send one message and return what it is called there. Raises what `Sending` knows."""
        call = self._ready[message.id]
        if call.method == NOTHING:
            return ""
        if call.method in _PACED:
            self._pace.goes(message.recipient, self._now())
        try:
            if call.method == "getFile":
                return await self._fetch(call.params["file_id"])
            return _name_of(await self._api.call(call.method, call.params), message.recipient)
        except ChatMigrated as fault:
            await self._moved(int(call.params["chat_id"]), fault.new_chat_id)
            raise NotSent("the group has a new id", self._clerk.now()) from fault
        except TelegramError as fault:
            return await self._failed(message, call, fault)

    async def _failed(self, message: Outgoing, call: Call, fault: TelegramError) -> str:
        """Do what an error means: nothing, the other call, or raise what `Sending` knows."""
        known = meaning(fault, self._clerk.now())
        if known is None:
            return ""
        if isinstance(known, Refused) and call.otherwise:
            self._ready[message.id] = Call(*call.otherwise)
            return await self._deliver(message)
        if isinstance(fault, RetryAfter) and isinstance(known, NotSent) and known.at:
            self._pace.wait_until(message.recipient, known.at.timestamp())
            await self._note_the_pace()
        raise known from fault

    async def _fetch(self, file: str) -> str:
        """Fetch a picture and keep it. Doing it twice does no harm."""
        path, content = await self._api.file(file, MOST_BYTES)
        if content:
            await self._clerk.do(lambda journal: KeptPhotos(journal).keep(file, content, path))
        return path

    async def _moved(self, old: int, new: int) -> None:
        await self._clerk.do(lambda journal: note_move(journal, old, new))
        _log.info("a group has a new id", chat=old, new=new)

    async def _note_the_pace(self) -> None:
        """Write the pace down, no more than twice a second: each time waits for the disk."""
        if self._now() - self._noted >= _NOTED_EVERY:
            self._noted = self._now()
            text = self._pace.written(self._now())
            await self._clerk.do(lambda journal: journal.note(CHANNEL, "pace", text))

    async def _without_pictures_in_a_rush(self, messages: list[Outgoing]) -> list[Outgoing]:
        """Leave pictures for later while many updates wait to be handled: to draw takes longer than to answer."""
        now = self._clerk.now()
        if not any(b'"drawing"' in message.body for message in messages):
            return messages
        waiting = await self._clerk.do(lambda journal: journal.waiting(now, _MANY, (CHANNEL,)))
        if len(waiting) < _MANY:
            return messages
        too_long = now - timedelta(seconds=_PICTURES_WAIT)
        return [one for one in messages if b'"drawing"' not in one.body or one.queued < too_long]

    def _now(self) -> float:
        return self._clerk.now().timestamp()

    def _ring_in(self, seconds: float) -> None:
        """Look again a little after a moment: just before it, nothing would be due."""
        asyncio.get_running_loop().call_later(max(0.0, seconds) + 0.01, self._clerk.ring, CHANNEL)


def note_move(journal: Journal, old: int, new: int) -> None:
    """Note that a group goes on under a new id; what waits for the old one goes to the new."""
    journal.note(CHANNEL, f"moved {old}", str(new))
    journal.note(CHANNEL, f"was {new}", str(old))


def _put_back(journal: Journal, held: list[tuple[Outgoing, float]], now: datetime) -> None:
    """Write down when each message may go out. An uncertain one stays as it is, so that it is known for one.

    All in one transaction: each waits for the disk, and while many wait there are many of these.
    """
    with transaction(journal.beside(TELEGRAM)):
        for message, at in held:
            if message.state == "queued":
                journal.later(message.id, datetime.fromtimestamp(at, UTC), "waits for its turn", now=now)


def _name_of(result: Any, recipient: str) -> str:
    """Return the number of the message that was sent, of an album the first; with its chat if that is another."""
    first = result[0] if isinstance(result, list) and result else result
    if not isinstance(first, dict) or "message_id" not in first:
        return ""
    chat, number = first.get("chat", {}).get("id"), int(first["message_id"])
    return str(number) if chat is None or str(chat) == recipient or not recipient else name_in(chat, number)


__all__ = ["ChatSending", "note_move"]
