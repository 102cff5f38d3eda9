"""The server itself: a thread with its own event loop, so that tests write as they would talk."""

from __future__ import annotations

import asyncio
import contextlib
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any
from uuid import uuid4

from aiohttp import web

from tests.telegram_server import methods
from tests.telegram_server.faults import ApiError, Fault
from tests.telegram_server.model import parsed
from tests.telegram_server.world import Chat, Person

BOT_ID = 7000000001


@dataclass(frozen=True)
class Sent:
    """One accepted call: `at` is when (monotonic seconds), `params` are plain values, `result` what was answered."""

    method: str
    params: dict[str, Any]
    result: Any
    at: float


@dataclass
class BotServer:
    """One bot account and its chats. `misbehave` may return a Fault for a call, before it is looked at."""

    token: str = field(default_factory=lambda: f"{BOT_ID}:{uuid4().hex}")
    reads_all: bool = True
    username: str = "stampdesk_bot"
    name: str = "Stampdesk"
    misbehave: Callable[[str, dict[str, Any]], Fault | None] = lambda _method, _params: None
    chats: dict[int, Chat] = field(default_factory=dict)
    sent: list[Sent] = field(default_factory=list)
    refused: list[tuple[str, dict[str, Any], ApiError]] = field(default_factory=list)
    presses: dict[str, float] = field(default_factory=dict)
    photos: list[bytes] = field(default_factory=list)
    files: dict[str, bytes] = field(default_factory=dict)
    webhook: str = ""
    pending: list[dict[str, Any]] = field(default_factory=list)
    confirmed: int = 0
    polls: int = 0
    first_update: int = 1000
    port: int = 0
    _updates: int = 0
    _polling: asyncio.Task[Any] | None = None
    _lock: threading.RLock = field(default_factory=threading.RLock)

    # --- for tests

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}/bot"

    @contextlib.contextmanager
    def running(self, port: int = 0) -> Iterator[BotServer]:
        """Serve while the block runs."""
        self.start(port)
        try:
            yield self
        finally:
            self.stop()

    def start(self, port: int = 0) -> None:
        ready = threading.Event()
        self._thread = threading.Thread(target=self._serve, args=(ready, port), daemon=True)
        self._thread.start()
        assert ready.wait(20), "the server did not start"

    def stop(self) -> None:
        self._loop.call_soon_threadsafe(self._ended.set)
        self._thread.join(20)

    def group(self, id_: int = -1001234500001, title: str = "The Treadle Room", kind: str = "supergroup") -> Chat:
        return self.chats.setdefault(id_, Chat(self, id_, kind, title))

    def private(self, person: Person) -> Chat:
        return self.chats.setdefault(person.id, Chat(self, person.id, "private", person.name))

    def update(self, fields: dict[str, Any]) -> int:
        """Put something into the queue of updates."""
        with self._lock:
            id_ = self.first_update + self._updates
            self._updates += 1
            self.pending.append({"update_id": id_, **fields})
        self.wake()
        return id_

    def press(self, person: Person, message: dict[str, Any], label: str = "", data: str | None = None) -> str:
        """Somebody presses a button under a message of the bot; returns the id of the press."""
        buttons = [one for row in message.get("reply_markup", {}).get("inline_keyboard", []) for one in row]
        if data is None:
            data = next(one["callback_data"] for one in buttons if label.lower() in one["text"].lower())
        id_ = f"press{len(self.presses) + 1}"
        self.presses[id_] = time.monotonic()
        self.press_again(person, message, data, id_)
        return id_

    def press_again(self, person: Person, message: dict[str, Any], data: str, id_: str) -> None:
        """The same press delivered once more, under a new number."""
        self.update({"callback_query": {"id": id_, "from": person.as_json(), "message": dict(message),
                                        "chat_instance": "1", "data": data}})  # fmt: skip

    def messages(self, chat: Chat) -> list[dict[str, Any]]:
        """The messages of the bot in a chat, as they stand now, oldest first."""
        with self._lock:
            return [one for one in chat.messages.values() if one.get("from", {}).get("id") == BOT_ID]

    def calls(self, method: str) -> list[Sent]:
        with self._lock:
            return [one for one in self.sent if one.method == method]

    def wake(self) -> None:
        if hasattr(self, "_loop"):
            with contextlib.suppress(RuntimeError):
                self._loop.call_soon_threadsafe(self._news.set)

    def me(self) -> dict[str, Any]:
        return {
            "id": BOT_ID, "is_bot": True, "first_name": self.name, "username": self.username,
            "can_join_groups": True, "can_read_all_group_messages": self.reads_all, "supports_inline_queries": False,
        }  # fmt: skip

    # --- serving

    def _serve(self, ready: threading.Event, port: int) -> None:
        asyncio.run(self._carry(ready, port))

    async def _carry(self, ready: threading.Event, port: int) -> None:
        self._loop, self._ended, self._news = asyncio.get_running_loop(), asyncio.Event(), asyncio.Event()
        app = web.Application(client_max_size=20 * 1024 * 1024)
        app.router.add_route("*", "/bot{token}/{method}", self._call)
        app.router.add_get("/file/bot{token}/photos/{name}", self._file)
        runner = web.AppRunner(app, handler_cancellation=True, shutdown_timeout=0.1)
        await runner.setup()
        site = web.TCPSite(runner, "127.0.0.1", port or self.port, reuse_address=True)
        await site.start()
        self.port = runner.addresses[0][1]
        ready.set()
        await self._ended.wait()
        await runner.cleanup()

    async def _call(self, request: web.Request) -> web.StreamResponse:
        method = request.match_info["method"]
        if request.match_info["token"] != self.token:
            return web.json_response(ApiError(401, "Unauthorized").as_json(), status=401)
        form = {name: await _content(value) for name, value in (await request.post()).items()}
        params: dict[str, Any] = {}
        try:
            params = parsed(method, form)
            fault = self.misbehave(method, params)
            await self._before(fault, request)
            result = await self._polled(params) if method == "getUpdates" else self._done(method, params)
            await self._after(fault, request)
        except ApiError as error:
            self.refused.append((method, params, error))
            return web.json_response(error.as_json(), status=error.code)
        except ConnectionResetError:  # closed on purpose: nobody reads this
            return web.Response()
        return web.json_response({"ok": True, "result": result})

    async def _file(self, request: web.Request) -> web.StreamResponse:
        content = self.files.get(request.match_info["name"].removesuffix(".jpg"))
        if request.match_info["token"] != self.token or content is None:
            return web.json_response(ApiError(404, "Not Found").as_json(), status=404)
        return web.Response(body=content)

    async def _before(self, fault: Fault | None, request: web.Request) -> None:
        if fault is None:
            return
        if fault.kind == "429":
            raise ApiError(429, f"Too Many Requests: retry after {fault.seconds}", retry_after=fault.seconds)
        if fault.kind == "conflict":
            raise ApiError(409, "Conflict: terminated by other getUpdates request")
        if fault.kind == "500":
            raise ApiError(500, "Internal Server Error")
        if fault.kind == "refuse":
            raise ApiError(400, f"Bad Request: {fault.text}")
        if fault.kind == "forbid":
            raise ApiError(403, f"Forbidden: {fault.text}")
        if fault.kind == "hang-before":
            await asyncio.sleep(fault.seconds)
            _close(request)
        if fault.kind == "drop":
            _close(request)

    async def _after(self, fault: Fault | None, request: web.Request) -> None:
        if fault is not None and fault.kind == "hang":
            await asyncio.sleep(fault.seconds)
            _close(request)
        if fault is not None and fault.kind == "vanish":
            _close(request)

    def _done(self, method: str, params: dict[str, Any]) -> Any:
        with self._lock:
            result = methods.carry_out(self, method, params)
            self.sent.append(Sent(method, params, result, time.monotonic()))
        return result

    async def _polled(self, params: dict[str, Any]) -> list[dict[str, Any]]:
        """getUpdates: an offset confirms all before it; a second request at the same time ends the first with 409."""
        self.polls += 1
        if self.webhook:
            raise ApiError(409, "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook")
        if self._polling is not None and not self._polling.done():
            self._polling.cancel()
        mine = self._polling = asyncio.create_task(self._wait_for_updates(params))
        try:
            return await asyncio.shield(mine)
        except asyncio.CancelledError:
            if mine.cancelled():
                raise ApiError(
                    409, "Conflict: terminated by other getUpdates request; make sure that only one bot instance is "
                    "running") from None  # fmt: skip
            mine.cancel()
            raise

    async def _wait_for_updates(self, params: dict[str, Any]) -> list[dict[str, Any]]:
        offset, end = params.get("offset"), time.monotonic() + (params.get("timeout") or 0)
        while True:
            with self._lock:
                if offset:
                    self.confirmed += sum(one["update_id"] < offset for one in self.pending)
                    self.pending = [one for one in self.pending if one["update_id"] >= offset]
                found = self.pending[: params.get("limit") or 100]
            left = end - time.monotonic()
            if found or left <= 0:
                return found
            self._news.clear()
            with contextlib.suppress(TimeoutError):
                async with asyncio.timeout(left):
                    await self._news.wait()


async def _content(value: Any) -> Any:
    return value.file.read() if isinstance(value, web.FileField) else value


def _close(request: web.Request) -> None:
    assert request.transport is not None
    request.transport.abort()
    raise ConnectionResetError
