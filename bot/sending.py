"""From the outbox to the other side, with every step marked in the journal before and after.

A channel gives one function that sends one message and returns the name the other side gave it, or raises what it
knows: Refused, PutOff, NotSent. Any other error means that nobody knows, and leaves the message `uncertain`.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from datetime import datetime, timedelta
from enum import Enum

from bot.clerk import Clerk
from bot.journal import Outgoing, Waits
from bot.journal.waits import SENDING
from bot.logs import Log

_LOOK_AGAIN = 2.0  # seconds: for messages that have become due meanwhile
_HOLDING = Waits(first=2, factor=2, longest=300, tries=2**31)  # between tries to reach the other side at all

Send = Callable[[Outgoing], Awaitable[str]]


class Refused(Exception):  # noqa: N818
    """The other side will never take this message (SMTP 5xx, no such chat). It is marked as failed."""


class PutOff(Exception):  # noqa: N818
    """The other side does not take this message now (SMTP 4xx). It is tried again, for about five days."""


class NotSent(Exception):  # noqa: N818
    """Surely nothing was sent: told to wait until `at`, or, without it, no connection or a wrong login.

    Without `at` the whole queue is held back. Neither counts as a try of the message.
    """

    def __init__(self, reason: str, at: datetime | None = None) -> None:
        super().__init__(reason)
        self.at = at


class Verdict(Enum):
    """What is done with a message of which nobody knows whether it arrived."""

    AGAIN = "sent again"
    ARRIVED = "had arrived"
    GIVE_UP = "given up"


Policy = Callable[[Outgoing], Awaitable[Verdict]]


async def always_again(_: Outgoing) -> Verdict:
    """The policy for mail: the same message again, under the same Message-ID, by which receivers drop the double."""
    return Verdict.AGAIN


class Sending:
    """Sends what is due in one channel. `at_once` is how many messages are under way together.

    `waits` says how long a message that is put off is tried.
    """

    def __init__(
        self,
        channel: str,
        clerk: Clerk,
        send: Send,
        *,
        policy: Policy = always_again,
        at_once: int = 1,
        waits: Waits = SENDING,
    ) -> None:
        self._channel, self._clerk, self._send, self._policy = channel, clerk, send, policy
        self._at_once, self._waits = at_once, waits
        self._held = 0  # how often in a row the other side could not be reached
        self._log = Log(channel)

    async def run(self, stop: asyncio.Event) -> None:
        """Send until `stop`; what is under way is finished first. Raises StoreError when the journal fails."""
        await self._clerk.do(lambda journal: journal.settle(self._channel))
        while not stop.is_set():
            now = self._clerk.now()
            due = await self._clerk.do(lambda journal: journal.due(self._channel, now, self._at_once))  # noqa: B023
            if due:
                await self._together(due)
            if not due or self._held:
                await self._clerk.wait(self._channel, _HOLDING.pause(self._held) if self._held else _LOOK_AGAIN)

    async def _together(self, due: list[Outgoing]) -> None:
        """Send these at the same time. One that fails leaves the others to their end."""
        done = await asyncio.gather(*map(self._one, due), return_exceptions=True)
        for fault in filter(None, done):
            raise fault

    async def _one(self, message: Outgoing) -> None:
        if message.state == "uncertain" and not await self._is_to_be_sent(message):
            return
        await self._clerk.do(lambda journal: journal.sending(message.id))
        try:
            remote = await self._send(message)
        except NotSent as fault:
            await self._hold(message, fault)
        except PutOff as fault:
            await self._put_off(message, str(fault))
        except Refused as fault:
            await self._refused(message, str(fault))
        except Exception as fault:  # noqa: BLE001  # whatever it is, nobody knows whether the message arrived
            await self._unknown(message, fault)
        else:
            self._held = 0
            now = self._clerk.now()
            await self._clerk.do(lambda journal: journal.sent(message.id, remote, now=now))
            self._log.info("sent", id=f"out-{message.id}", answers=message.answers and f"in-{message.answers}")

    async def _is_to_be_sent(self, message: Outgoing) -> bool:
        verdict, now = await self._policy(message), self._clerk.now()
        self._log.warning(f"uncertain, {verdict.value}", id=f"out-{message.id}", times=message.unsure)
        if verdict is Verdict.ARRIVED:
            await self._clerk.do(lambda journal: journal.sent(message.id, message.remote, now=now))
        elif verdict is Verdict.GIVE_UP:
            reason = "Nobody knows whether it arrived, and it was not to be sent again."
            await self._clerk.do(lambda journal: journal.failed(message.id, reason, now=now))
        return verdict is Verdict.AGAIN

    async def _hold(self, message: Outgoing, fault: NotSent) -> None:
        self._held = self._held + 1 if fault.at is None else 0
        now = self._clerk.now()
        at = fault.at or now + timedelta(seconds=_HOLDING.pause(self._held))
        await self._clerk.do(lambda journal: journal.later(message.id, at, str(fault), now=now))
        self._log.warning("not sent, held back", id=f"out-{message.id}", reason=fault)

    async def _put_off(self, message: Outgoing, reason: str) -> None:
        self._held = 0
        now = self._clerk.now()
        last = await self._clerk.do(lambda journal: journal.put_off(message.id, reason, now=now, waits=self._waits))
        event = "failed: put off too often" if last else "put off"
        self._log.warning(event, id=f"out-{message.id}", tries=message.tries + 1, reason=reason)

    async def _refused(self, message: Outgoing, reason: str) -> None:
        self._held = 0
        now = self._clerk.now()
        await self._clerk.do(lambda journal: journal.failed(message.id, reason, now=now))
        self._log.error("failed: refused", id=f"out-{message.id}", reason=reason)

    async def _unknown(self, message: Outgoing, fault: Exception) -> None:
        reason, now = f"{type(fault).__name__}: {fault}", self._clerk.now()
        last = await self._clerk.do(lambda journal: journal.uncertain(message.id, reason, now=now))
        event = "failed: uncertain too often" if last else "uncertain"
        self._log.error(event, fault, id=f"out-{message.id}", times=message.unsure + 1)
