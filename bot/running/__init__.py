"""`bedstamp run`: one process that carries all channels, each kept going by itself, until it is told to stop.

One thread does what would hold up the event loop (`Clerk`): it keeps the journal, handles messages, and reads the
knowledge anew when it changed. Channels stay in the loop and only ever wait for it: a message takes a few thousandths
of a second, a picture some hundredths, new knowledge about a third of a second for 100,000 allocations.
"""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from typing import Protocol

from bot import logs
from bot.clerk import Clerk
from bot.expert_desk import ExpertChannel
from bot.handling import Handler, Handling
from bot.running.desk import DeskUpkeep
from bot.running.lock import only_process
from bot.running.packs import Shelf, load_packs
from bot.running.supervising import Part, keep_going
from bot.running.upkeep import Upkeep, Watch
from bot.setting_values import Secret
from bot.settings import Settings
from knowledge.errors import UsageError

GRACE = 20.0  # seconds in which everything has to finish what is in hand when told to stop
_LAST = 5.0  # and these, once it is told that it is over

_log = logs.Log("run")


class Channel(Part, Protocol):
    """A way to people: `run` receives and sends, `handle` turns one message of it into what comes of it."""

    @property
    def handle(self) -> Handler:
        """The handler of its messages; it works in the clerk's thread."""


Equip = Callable[[Settings, Clerk], Sequence[Channel]]
"""Makes the channels that the settings switch on."""
Experts = Callable[[Settings, Clerk], Sequence[ExpertChannel]]
"""Makes the ways by which the desk reaches experts, and those who asked."""


def _no_experts(_: Settings, __: Clerk) -> Sequence[ExpertChannel]:
    return ()


def run(settings: Settings, equip: Equip, experts: Experts = _no_experts) -> int:
    """Carry the channels until SIGTERM or SIGINT, and return 0. Raises BedstampError when it cannot start."""
    logs.start(_secrets(settings))
    with only_process(settings.store.path):
        return asyncio.run(_carry(settings, equip, experts))


async def _carry(settings: Settings, equip: Equip, experts: Experts) -> int:
    stop = asyncio.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(number, stop.set)
    async with Clerk(settings.store.path, create=True) as clerk:
        channels = equip(settings, clerk)
        if not channels:
            raise UsageError(f"No channel is on. Add a section for one to {settings.file}, for example [mail].")
        await clerk.do(lambda journal: load_packs(settings.knowledge.packs, journal))
        await _recover(clerk)
        handlers = {channel.name: channel.handle for channel in channels}
        handling = Handling(clerk, handlers, Shelf().current)
        desk = DeskUpkeep(clerk, experts(settings, clerk), settings.store.keep_days)
        parts: list[Part] = [handling, Upkeep(clerk, settings.store.keep_days), Watch(clerk), desk, *channels]
        is_clean = await _until_told(parts, clerk, stop)
    _log.info("ended", clean=is_clean)
    return 0


async def _recover(clerk: Clerk) -> None:
    unsure, aside = await clerk.do(lambda journal: journal.recover(clerk.now()))
    counts = await clerk.do(lambda journal: journal.counts())
    _log.info("begins", process=os.getpid(), made_uncertain=unsure, set_aside=aside, **counts)


async def _until_told(parts: Sequence[Part], clerk: Clerk, stop: asyncio.Event) -> bool:
    """Keep all parts going until `stop`; then let them finish. Return whether all did so in time."""
    tasks = [asyncio.create_task(keep_going(part, stop), name=part.name) for part in parts]
    await stop.wait()
    _log.info("told to stop")
    clerk.ring_all()
    _, late = await asyncio.wait(tasks, timeout=GRACE)
    for task in late:
        _log.warning("did not finish in time", part_of_it=task.get_name())
        task.cancel()
    if late:
        await asyncio.wait(late, timeout=_LAST)
    if clerk.busy_for() > _LAST:  # the thread cannot be ended, and would be waited for
        _log.error("the journal does not come to an end; what it has on the disk is whole")
        os._exit(1)
    return not late


def _secrets(settings: Settings) -> Iterator[Secret]:
    if settings.mail:
        yield from filter(None, (settings.mail.imap.password, settings.mail.smtp.password))
    if settings.telegram:
        yield settings.telegram.token
