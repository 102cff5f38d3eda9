"""The group's mailbox: mail comes in by IMAP and goes out by SMTP, through the journal, and nothing is decided here.

Receiving: look for UIDs that are not known, fetch each into the journal, flag what is done, wait for a push (IDLE) or a
timer, look again. The mailbox is never changed but for flags: `\\Answered` and the keyword Bedstamp-Answered on mail
that got an answer, Bedstamp-Left on mail that a rule left alone, `\\Flagged` and Bedstamp-Aside on mail set aside.
"""

from __future__ import annotations

import asyncio
import hashlib
from collections import Counter
from contextlib import suppress
from datetime import UTC, datetime, timedelta

from bot.channels import mail_headers as headers
from bot.channels.imap import BrokenMail, Imap, ImapFault, LoginFault, connect
from bot.channels.mail_bounces import came_back
from bot.channels.smtp import Smtp
from bot.clerk import Clerk
from bot.handling import Handler
from bot.journal import Incoming, Journal, JournalError, Waits
from bot.logs import Log
from bot.mail_identity import UNREAD
from bot.sending import Sending
from bot.setting_values import is_loopback
from bot.settings import MailSettings

NAME = "mail"
AT_ONCE = 4  # mails under way at the same time, each on a connection of its own
LARGEST = 60_000_000  # bytes; of a larger mail only the head is kept, and it is set aside
IDLE = 240.0  # seconds; some routers forget a silent connection after five minutes
NEAR = 0.12  # seconds between looks at a server on this computer: Dovecot holds each push back for half a second
POLL = 30.0  # seconds between looks at a server that does not tell of new mail
SOON = 0.2  # seconds until flags are set on what was handled meanwhile
SLOWLY = 5.0  # seconds until a mail that did not come as it should is tried again
WHOLE = 900.0  # seconds after which the whole folder is compared again
FETCH_TRIES = 3
FROM_BEFORE = timedelta(days=30)  # mail older than this when the bot first sees the mailbox is not answered
_RECONNECT = Waits(first=1, factor=2, longest=300, tries=2**31)
_BEGAN = "first look"
_REPORTS = ("delivery-report", "empty-return-path", "marked-automatic", "robot-sender", "responder")
"""The rules that hold back what may be a report of a mail that did not arrive."""
_ONLY_TOLD_OF = (*_REPORTS, "not-believed", "from-ourselves", "other-list", "bulk", "no-sender", "to-a-crowd")
"""The rules under which a mail has no answer, though experts may be told of it."""
_FAR = datetime(9000, 1, 1, tzinfo=UTC)

_log = Log(NAME)


class Mailbox:
    """The channel. Each of its two halves goes on while the other fails."""

    name = NAME

    def __init__(self, settings: MailSettings, clerk: Clerk, handle: Handler) -> None:
        self._clerk = clerk
        self._handler = handle
        self._receiving = Receiving(settings, clerk)
        self._sending = Sending(NAME, clerk, Smtp(settings.smtp, settings.address).send, at_once=AT_ONCE)

    @property
    def handle(self) -> Handler:
        """The handler of its messages; it works in the clerk's thread."""
        return self._handler

    async def run(self, stop: asyncio.Event) -> None:
        """Receive and send until `stop`."""
        async with asyncio.TaskGroup() as both:
            both.create_task(self._receiving.run(stop))
            both.create_task(self._sending.run(stop))


class Receiving:
    """Brings every mail of the folder into the journal, and shows there what became of it."""

    def __init__(self, settings: MailSettings, clerk: Clerk) -> None:
        self._settings, self._clerk = settings, clerk
        self._failed: Counter[str] = Counter()  # how often the mail at a place could not be fetched

    async def run(self, stop: asyncio.Event) -> None:
        """Work until `stop`; connect anew after each failure, later each time. Raises StoreError."""
        failures = 0
        while not stop.is_set():
            try:
                imap = await connect(self._settings.imap)
                try:
                    visit = _Visit(imap, self._settings, self._clerk, self._failed)
                    await visit.begin()
                    failures = 0
                    await visit.work(stop)
                finally:
                    await _leave(imap)
            except ImapFault as fault:
                failures += 1
                wait = _RECONNECT.pause(max(failures, 5) if isinstance(fault, LoginFault) else failures)
                _log.warning("the mailbox cannot be read", reason=fault, failures=failures, wait=round(wait, 1))
                with suppress(TimeoutError):
                    async with asyncio.timeout(wait):
                        await stop.wait()


async def _leave(imap: Imap) -> None:
    await imap.logout()
    imap.close()


class _Visit:
    """The work on one connection."""

    def __init__(self, imap: Imap, settings: MailSettings, clerk: Clerk, failed: Counter[str]) -> None:
        self._imap, self._folder, self._clerk, self._failed = imap, settings.folder, clerk, failed
        self._longest = NEAR if is_loopback(settings.imap.host) else IDLE
        self._start = ""  # what all places begin with
        self._known: set[int] = set()
        self._last = 0  # every UID up to this one is known, or was looked at
        self._compared = 0.0
        self._unshown = True
        self._again = False  # a mail did not come as it should

    async def begin(self) -> None:
        """Open the folder, and learn what is known of it already."""
        await self._imap.open_folder(self._folder)
        self._start = f"{self._folder}/{self._imap.validity}/"
        places = await self._clerk.do(lambda journal: journal.places(NAME, self._start))
        self._known = {int(place.rpartition("/")[2]) for place in places}
        _log.info("connected", known=len(self._known), idle=self._imap.can_idle)

    async def work(self, stop: asyncio.Event) -> None:
        """Look, show, wait, again and again."""
        loop = asyncio.get_running_loop()
        idle_rounds = 0
        while not stop.is_set():
            began = loop.time()
            if not self._compared or loop.time() - self._compared > WHOLE:
                self._last, self._compared = 0, loop.time()
            found = await self._look(stop)
            await self._show()
            if not stop.is_set():
                await self._wait(stop)
            idle_rounds = idle_rounds + 1 if not found and loop.time() - began < SOON / 2 else 0
            if idle_rounds > 1:  # a server that wakes us for nothing must not keep us running in circles
                await asyncio.sleep(min(0.05 * 2.0 ** min(idle_rounds, 10), SLOWLY))

    async def _look(self, stop: asyncio.Event) -> bool:
        """Fetch every mail that is not known; those that failed before come last. Return whether there was any."""
        found = await self._imap.uids(self._last + 1)
        new = [uid for uid in found if uid not in self._known]
        new.sort(key=lambda uid: (self._failed[self._at(uid)], uid))
        first_look = await self._clerk.do(lambda journal: journal.noted(NAME, _BEGAN)) is None
        sizes = await self._imap.sizes(new)
        for uid in new:
            if stop.is_set():
                return True
            await self._take(uid, sizes.get(uid, 0), first_look)
        self._last = max([self._last, *found])
        self._again = any(uid not in self._known for uid in new)
        if self._again:
            self._last = 0
        if first_look:
            await self._clerk.do(lambda journal: journal.note(NAME, _BEGAN, self._clerk.now().isoformat()))
        return bool(new)

    async def _take(self, uid: int, size: int, first_look: bool) -> None:
        """Bring one mail into the journal. Raises ImapFault when it could not be fetched this time."""
        place, is_large = self._at(uid), size > LARGEST
        try:
            fetched = await self._imap.fetch(uid, head_only=is_large)
        except ImapFault as fault:
            await self._not_fetched(uid, fault)
            if isinstance(fault, BrokenMail):
                return  # the connection is sound, and others wait
            raise
        self._known.add(uid)
        if fetched is None:
            return  # somebody removed it meanwhile
        raw, came = fetched
        self._failed.pop(place, None)
        if is_large:
            await self._unread(place, f"it has {size:,} bytes, more than {LARGEST:,}, and only its head was read", raw)
        elif first_look and came and came < self._clerk.now() - FROM_BEFORE:
            await self._leave_alone(place, raw)
        else:
            await self._clerk.receive(NAME, key_of(raw), raw, place=place)
        self._unshown = True

    async def _not_fetched(self, uid: int, fault: ImapFault) -> None:
        place = self._at(uid)
        self._failed[place] += 1
        _log.warning("a mail was not fetched", place=place, times=self._failed[place], reason=fault)
        if self._failed[place] >= FETCH_TRIES:
            await self._unread(place, f"it could not be fetched {FETCH_TRIES} times ({fault})", b"")
            self._known.add(uid)

    async def _unread(self, place: str, reason: str, raw: bytes) -> None:
        """Keep that there is a mail which was not read whole, and why; its handler sets it aside for people."""
        await self._clerk.receive(NAME, f"{UNREAD}{place}", raw, place=place, notes={f"{UNREAD}{place}": reason})
        _log.info("not read whole", place=place, reason=reason)

    async def _leave_alone(self, place: str, raw: bytes) -> None:
        def work(journal: Journal) -> None:
            now = self._clerk.now()
            id_ = journal.receive(NAME, key_of(raw), raw, now, place=place)
            if id_ is not None:
                journal.handled(id_, rule="from-before-the-bot", now=now)

        await self._clerk.do(work)

    async def _show(self) -> None:
        """Flag the mails that are finished, and mark what came back to us as failed."""
        while self._unshown:
            finished = await self._clerk.do(lambda journal: journal.to_show(NAME))
            if not finished:
                waiting = await self._clerk.do(lambda journal: journal.waiting(_FAR, 1, [NAME]))
                self._unshown = bool(waiting)
                return
            for message in finished:
                if message.rule in _REPORTS:
                    await self._clerk.do(lambda journal: note_bounce(journal, message, self._clerk.now()))  # noqa: B023
            await self._flag(finished)

    async def _flag(self, finished: list[Incoming]) -> None:
        answered = await self._clerk.do(
            lambda journal: {one.id for one in finished if one.rule not in _ONLY_TOLD_OF and journal.replies_of(one.id)}
        )
        by_flags: dict[str, list[int]] = {}
        for message in finished:
            start, _, uid = message.place.rpartition("/")
            if f"{start}/" == self._start and uid.isdigit():
                by_flags.setdefault(self._flags(message, message.id in answered), []).append(int(uid))
        for flags, uids in by_flags.items():
            if flags:
                await self._imap.flag(uids, flags)
        await self._clerk.do(lambda journal: _shown(journal, finished))

    def _flags(self, message: Incoming, is_answered: bool) -> str:
        plain, keyword = "", "Bedstamp-Left"
        if message.state == "aside":
            plain, keyword = "\\Flagged", "Bedstamp-Aside"
        elif is_answered:
            plain, keyword = "\\Answered \\Seen", "Bedstamp-Answered"
        return f"{plain} {keyword if self._imap.takes_keywords else ''}".strip()

    async def _wait(self, stop: asyncio.Event) -> None:
        seconds = SOON if self._unshown else SLOWLY if self._again else self._longest
        if self._imap.can_idle:
            await self._imap.idle(seconds, [stop])
            return
        with suppress(TimeoutError):
            async with asyncio.timeout(min(seconds, POLL)):
                await stop.wait()
        await self._imap.noop()

    def _at(self, uid: int) -> str:
        return f"{self._start}{uid}"


def _shown(journal: Journal, messages: list[Incoming]) -> None:
    for message in messages:
        journal.shown(message.id)


def note_bounce(journal: Journal, message: Incoming, now: datetime) -> None:
    """Mark the mail of ours that a report says did not arrive. Doing it twice does no harm."""
    with suppress(JournalError):
        returned = came_back(journal.raw(message.id))
        found = (journal.outgoing_of(NAME, one) for one in returned.message_ids) if returned else ()
        sent = next((one for one in found if one), None)
        if returned and sent and sent.state != "failed":
            journal.failed(sent.id, f"It came back (in-{message.id}): {returned.reason}", now=now)
            _log.warning("came back", id=f"out-{sent.id}", report=f"in-{message.id}")


def key_of(raw: bytes) -> str:
    """Return what tells a mail from every other: its Message-ID and a digest of all that does not change on the way.

    So a mail that is delivered twice, or found again after the folder was made anew, is known.
    """
    head, _, body = raw.partition(b"\r\n\r\n") if b"\r\n\r\n" in raw else raw.partition(b"\n\n")
    fields = headers.parsed_head(head)
    message_id = headers.first_message_id(fields, "Message-ID")
    if not message_id:
        return f"sha256 {hashlib.sha256(raw).hexdigest()}"
    digest = hashlib.sha256(body)
    for name in ("From", "Date", "Subject"):
        digest.update(f"\n{name}: {headers.field(fields, name)}".encode("utf-8", "backslashreplace"))
    return f"{message_id[:200]} {digest.hexdigest()[:32]}"
