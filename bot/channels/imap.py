"""One connection to a mailbox by IMAP: every call bounded in time, and thrown away after any failure.

What the library does not tell is guarded here: a dropped connection fails every call under way, a fetched mail is
checked for its UID and length, and a push is only a reason to look again.
"""

from __future__ import annotations

import asyncio
import base64
import re
import ssl
from collections.abc import Awaitable, Callable, Iterable, Sequence
from contextlib import suppress
from datetime import datetime
from typing import Any, TypeVar

from aioimaplib import aioimaplib

from bot.settings import ServerSettings

CALL = 60.0  # seconds for a call
FETCH = 600.0  # seconds for one mail, however large
_MOST_OF_ONE = 200  # UIDs in one command whose answer has a line for each; beyond 1,000 lines the library breaks
_WHAT = "(UID FLAGS INTERNALDATE RFC822.SIZE BODY.PEEK[])"
_HEAD_ONLY = "(UID FLAGS INTERNALDATE RFC822.SIZE BODY.PEEK[HEADER])"
_UID = re.compile(rb"\bUID (\d+)")
_SIZE = re.compile(rb"\bRFC822\.SIZE (\d+)")
_DATE = re.compile(rb'INTERNALDATE "([^"]{10,40})"')
_LITERAL = re.compile(rb"\{(\d+)\}$")
_VALIDITY = re.compile(rb"\[UIDVALIDITY (\d+)\]", re.IGNORECASE)
_PERMANENT = re.compile(rb"\[PERMANENTFLAGS \(([^)]*)\)\]", re.IGNORECASE)

_Answer = TypeVar("_Answer")


class ImapFault(Exception):  # noqa: N818  # as faults are named everywhere here
    """The connection or the server failed; connect anew."""


class LoginFault(ImapFault):
    """The server does not take the login."""


class BrokenMail(ImapFault):
    """One mail did not come as it should; the others may."""


class _Protocol(aioimaplib.IMAP4ClientProtocol):  # type: ignore[misc]  # the library tells no types
    """Notices that the server tells of new mail, which it does once, in the answer to whatever call is under way."""

    def __init__(self, loop: asyncio.AbstractEventLoop, on_loss: Callable[[Exception | None], None]) -> None:
        super().__init__(loop, on_loss)
        self.told_of_mail = False

    def _untagged_response(self, line: bytes) -> Any:
        if line.rstrip().endswith(b" EXISTS"):
            self.told_of_mail = True
        return super()._untagged_response(line)


class _Client(aioimaplib.IMAP4):  # type: ignore[misc]
    def create_client(
        self, host: str, port: int, loop: Any, conn_lost_cb: Any = None, ssl_context: ssl.SSLContext | None = None
    ) -> None:
        loop = asyncio.get_running_loop()
        self.protocol = _Protocol(loop, conn_lost_cb)
        self._client_task = loop.create_task(
            loop.create_connection(lambda: self.protocol, host, port, ssl=ssl_context)
        )


class Imap:
    """An open connection with a folder selected. Made by `connect`."""

    def __init__(self, client: Any, lost: asyncio.Future[Any]) -> None:
        self._client, self._lost = client, lost
        self.validity = ""
        self.takes_keywords = False

    def close(self) -> None:
        """Throw the connection away."""
        self._client._client_task.cancel()  # noqa: SLF001  # the library has no other way to give up connecting
        transport = self._client.protocol.transport
        if transport is not None:
            transport.abort()
        if not self._lost.done():
            self._lost.cancel()

    async def greet(self, server: ServerSettings) -> None:
        """Wait for the server's greeting and log in."""
        await self._bounded(self._client.wait_hello_from_server(), CALL)
        if self._client.get_state() != "AUTH":
            password = server.password.reveal() if server.password else ""
            answer = await self._bounded(self._client.login(quoted(server.user), password), CALL)
            if answer.result != "OK":
                raise LoginFault(f"the server does not take the login ({_shown(answer)})")
        await self._bounded(self._client.protocol.capability(), CALL)  # what the login line told is mangled

    async def open_folder(self, folder: str) -> None:
        """Select a folder and learn its UIDVALIDITY."""
        lines = await self._ok(self._client.select(quoted(mailbox_name(folder))), f"the folder {folder} is not there")
        told = b"\n".join(bytes(line) for line in lines)
        found = _VALIDITY.search(told)
        if found is None:
            raise ImapFault("the server tells no UIDVALIDITY")
        self.validity = found[1].decode()
        flags = _PERMANENT.search(told)
        self.takes_keywords = flags is not None and b"\\*" in flags[1]

    async def uids(self, first: int = 1) -> list[int]:
        """Return the UIDs from `first` on, in order."""
        self._client.protocol.told_of_mail = False
        lines = await self._ok(self._client.uid_search(f"UID {first}:*", charset=None), "the search failed")
        numbers = {int(word) for line in lines[:-1] for word in bytes(line).split() if word.isdigit()}
        return sorted(one for one in numbers if one >= first)  # `n:*` always gives the last one too

    async def sizes(self, uids: Sequence[int]) -> dict[int, int]:
        """Return the size in bytes of each mail, as far as the server tells."""
        found: dict[int, int] = {}
        for start in range(0, len(uids), _MOST_OF_ONE):
            some = uids[start : start + _MOST_OF_ONE]
            lines = await self._ok(self._client.uid("fetch", _set(some), "(UID RFC822.SIZE)"), "sizes are not told")
            for line in lines:
                uid, size = _UID.search(bytes(line)), _SIZE.search(bytes(line))
                if uid and size:
                    found[int(uid[1])] = int(size[1])
        return found

    async def fetch(self, uid: int, head_only: bool = False) -> tuple[bytes, datetime | None] | None:
        """Return one mail and when it came to the server, None when it is there no more. Raises BrokenMail."""
        what = _HEAD_ONLY if head_only else _WHAT
        call = self._client.uid("fetch", str(uid), what)
        lines = await self._ok(call, "the mail is not given out", FETCH, BrokenMail)
        return body_of(uid, [bytes(line) for line in lines[:-1]])

    async def flag(self, uids: Iterable[int], flags: str) -> bool:
        """Add flags to mails; return whether the server took them."""
        if self._lost.done():
            raise ImapFault("the connection was lost")
        answer = await self._bounded(self._client.uid("store", _set(uids), "+FLAGS.SILENT", f"({flags})"), CALL)
        return bool(answer.result == "OK")

    async def idle(self, seconds: float, woken: Iterable[asyncio.Event]) -> None:
        """Wait until the server tells of a change, one of the events is set, or so many seconds have passed.

        Does not wait when it told of new mail since the last `uids`.
        """
        if self._client.protocol.told_of_mail:
            return
        idling = await self._bounded(self._client.idle_start(timeout=seconds + CALL), CALL)
        push = asyncio.ensure_future(self._client.wait_server_push(seconds))
        events = (asyncio.ensure_future(event.wait()) for event in woken)
        waiting: list[asyncio.Future[Any]] = [push, self._lost, *events]
        try:
            await asyncio.wait(waiting, timeout=seconds, return_when=asyncio.FIRST_COMPLETED)
        finally:
            for one in waiting:
                if one is not self._lost:
                    one.cancel()
            await asyncio.gather(*(one for one in waiting if one is not self._lost), return_exceptions=True)
        if self._lost.done():
            raise ImapFault("the connection was lost while waiting for mail")
        self._client.idle_done()
        await self._bounded(idling, CALL)
        while not self._client.protocol.idle_queue.empty():
            self._client.protocol.idle_queue.get_nowait()

    @property
    def can_idle(self) -> bool:
        """Whether the server tells of new mail by itself (RFC 2177)."""
        return bool(self._client.has_capability("IDLE"))

    async def noop(self) -> None:
        """Let the server look for new mail, and see that it is there."""
        await self._ok(self._client.noop(), "the server does not answer")

    async def logout(self) -> None:
        """Say goodbye, whatever comes of it."""
        with suppress(Exception):
            await self._bounded(self._client.logout(), 5)

    async def _ok(
        self, call: Awaitable[Any], wrong: str, seconds: float = CALL, kind: type[ImapFault] = ImapFault
    ) -> list[Any]:
        answer = await self._bounded(call, seconds)
        if answer.result != "OK":
            raise kind(f"{wrong} ({_shown(answer)})")
        return list(answer.lines)

    async def _bounded(self, call: Awaitable[_Answer], seconds: float) -> _Answer:
        """Await a call; raises ImapFault when it fails, takes too long, or the connection is lost meanwhile."""
        task: asyncio.Future[_Answer] = asyncio.ensure_future(call)
        await asyncio.wait({task, self._lost}, timeout=seconds, return_when=asyncio.FIRST_COMPLETED)
        if not task.done():
            task.cancel()
            await asyncio.gather(task, return_exceptions=True)
            raise ImapFault("the connection was lost" if self._lost.done() else f"no answer in {seconds:.0f} seconds")
        try:
            return task.result()
        except (aioimaplib.AioImapException, OSError, TimeoutError, ValueError, IndexError, AttributeError) as fault:
            raise ImapFault(f"{type(fault).__name__}: {fault}") from fault


async def connect(server: ServerSettings) -> Imap:
    """Connect and log in. Raises ImapFault, LoginFault for a wrong user or password."""
    lost: asyncio.Future[Any] = asyncio.get_running_loop().create_future()

    def on_loss(_: Exception | None) -> None:
        if not lost.done():
            lost.set_result(None)

    tls = None if server.security == "none" else ssl.create_default_context()
    client = _Client(server.host, server.port, timeout=CALL, conn_lost_cb=on_loss, ssl_context=tls)
    imap = Imap(client, lost)
    try:
        await imap.greet(server)
    except BaseException:
        imap.close()
        raise
    return imap


def body_of(uid: int, lines: Sequence[bytes]) -> tuple[bytes, datetime | None] | None:
    """Return the one mail in the lines of a fetch and its date, None when there is none. Raises BrokenMail.

    Other lines may come first, flags may follow, and a short body may be a quoted string or NIL.
    """
    for at, line in enumerate(lines):
        literal = _LITERAL.search(line)
        if literal is None and b"BODY[" not in line:
            continue
        rest = b" ".join(lines[at + 2 : at + 3]) if literal else b""
        told = _UID.search(line) or _UID.search(rest)
        if told is None or int(told[1]) != uid:
            continue
        body = lines[at + 1] if literal and at + 1 < len(lines) else _short_body(line)
        if literal and len(body) != int(literal[1]):
            raise BrokenMail(f"the mail has {len(body):,} bytes instead of {int(literal[1]):,}")
        return body, _date(line) or _date(rest)
    return None


def _short_body(line: bytes) -> bytes:
    found = re.search(rb'BODY\[[^\]]*\](?:<\d+>)? (?:"((?:[^"\\]|\\.)*)"|NIL)', line)
    if found is None:
        raise BrokenMail("the server gave no body")
    return re.sub(rb"\\(.)", rb"\1", found[1] or b"")


def _date(line: bytes) -> datetime | None:
    found = _DATE.search(line)
    with suppress(ValueError):
        return datetime.strptime(found[1].decode("ascii").strip(), "%d-%b-%Y %H:%M:%S %z") if found else None
    return None


def mailbox_name(name: str) -> str:
    """Return the name of a folder as IMAP writes it (RFC 3501, section 5.1.3).

    >>> mailbox_name("Gelesen & beantwortet"), mailbox_name("Nähmaschinen")
    ('Gelesen &- beantwortet', 'N&AOQ-hmaschinen')
    """
    pieces = re.findall(r"[\x20-\x7e]+|[^\x20-\x7e]+", name)
    return "".join(one.replace("&", "&-") if one.isascii() and one.isprintable() else _base64(one) for one in pieces)


def _base64(text: str) -> str:
    coded = base64.b64encode(text.encode("utf-16-be")).decode("ascii").rstrip("=").replace("/", ",")
    return f"&{coded}-"


def quoted(text: str) -> str:
    """Return a quoted string (RFC 3501, section 4.3); line breaks are left out."""
    clean = re.sub(r"[\r\n\0]", "", text)
    return '"' + clean.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _set(uids: Iterable[int]) -> str:
    return ",".join(map(str, uids))


def _shown(answer: Any) -> str:
    line = bytes(answer.lines[-1]).decode("ascii", "replace") if answer.lines else ""
    return f"{answer.result} {line}"[:200]
