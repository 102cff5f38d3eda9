"""A small SMTP server that records what it is given and can be told to misbehave, one fault for each connection.

Faults: `451` or `550` at the recipient, `452-data` and `554-data` after the content, `421` as greeting, `hang` after
the final dot (the mail counts as taken), `drop` in the middle of the content, `drop-after` the final dot (taken).
"""

from __future__ import annotations

import asyncio
import contextlib
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from email import message_from_bytes


@dataclass
class FaultySmtp:
    """`faults` are used up one by one, in order; then everything goes well. `taken` holds what was accepted."""

    faults: list[str] = field(default_factory=list)
    taken: list[bytes] = field(default_factory=list)
    recipients: list[str] = field(default_factory=list)
    connections: int = 0
    port: int = 0

    def message_ids(self) -> list[str]:
        return [str(message_from_bytes(one)["Message-ID"]) for one in self.taken]

    async def serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self.connections += 1
        fault = self.faults.pop(0) if self.faults else ""
        try:
            with contextlib.suppress(ConnectionError, asyncio.IncompleteReadError):
                await self._talk(reader, writer, fault)
        finally:
            writer.transport.abort()

    async def _talk(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, fault: str) -> None:
        def say(line: str) -> None:
            writer.write(f"{line}\r\n".encode())

        say("421 busy" if fault == "421" else "220 ready")
        while line := (await reader.readline()).decode("utf-8", "replace").strip():
            verb = line[:4].upper()
            if verb == "RCPT":
                self.recipients.append(line)
                say({"451": "451 later", "550": "550 no such person"}.get(fault, "250 ok"))
            elif verb == "DATA":
                say("354 go on")
                if await self._content(reader, writer, fault):
                    return
                say({"452-data": "452 full", "554-data": "554 unwanted"}.get(fault, "250 ok queued as T1"))
            elif verb == "QUIT":
                say("221 bye")
                await writer.drain()
                return
            else:
                say("250 ok")
            await writer.drain()

    async def _content(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, fault: str) -> bool:
        """Read the content; return whether the connection is over."""
        await writer.drain()
        if fault == "drop":
            await reader.read(100)
            return True
        content = await reader.readuntil(b"\r\n.\r\n")
        if fault not in ("452-data", "554-data"):
            self.taken.append(content[:-3])
        if fault == "hang":
            await asyncio.sleep(3600)
        return fault == "drop-after"


@contextlib.contextmanager
def faulty_smtp(*faults: str) -> Iterator[FaultySmtp]:
    """Run the server in a thread of its own, on a free port of loopback."""
    server = FaultySmtp(list(faults))
    loop = asyncio.new_event_loop()
    listening = loop.run_until_complete(asyncio.start_server(server.serve, "127.0.0.1", 0))
    server.port = listening.sockets[0].getsockname()[1]
    thread = threading.Thread(target=loop.run_forever)
    thread.start()
    try:
        yield server
    finally:
        loop.call_soon_threadsafe(loop.stop)
        thread.join()
        listening.close()
        loop.run_until_complete(_end_all())
        loop.close()


async def _end_all() -> None:
    tasks = asyncio.all_tasks() - {asyncio.current_task()}
    for task in tasks:
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)
    await asyncio.sleep(0.01)  # transports close in the next round
