"""What is looked at and set up when the chat is connected, and said plainly when something is amiss."""

from __future__ import annotations

import fcntl
import hashlib
import json
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import Any

from telegram.error import TelegramError

from bot.channels.telegram.api import Api
from bot.channels.telegram.bodies import CHANNEL
from bot.channels.telegram.deciding import COMMANDS
from bot.channels.telegram.surroundings import Me
from bot.clerk import Clerk
from bot.logs import Log
from bot.settings import Settings
from knowledge.errors import BedstampError

PRIVACY = (
    "The bot does not get to see what members write in groups, so it can only answer when it is spoken to. Write to "
    "@BotFather: /setprivacy, choose the bot, Disable. Then take the bot out of the group and add it again (or make it "
    'an admin). If it is to answer only when spoken to, set speak = "addressed" in [group], and this is well as it is.'
)
EXPERTS_ADMIN = (
    "Make the bot an admin there; it needs no rights. Only then does the platform surely tell it who belongs to that "
    "chat, and at once when somebody leaves. Until then those it cannot ask about count only when they are admins."
)
_IN_GROUP = ("member", "administrator", "creator")

_log = Log(CHANNEL)


class SecondPoller(BedstampError):  # noqa: N818
    """Another process on this computer asks for the updates of the same bot account."""


@contextmanager
def only_poller(token: str) -> Iterator[None]:
    """Hold the lock of a bot account while the block runs. Raises SecondPoller when another process holds it.

    It lies in the folder for temporary files, under a name that does not tell the token.
    """
    name = hashlib.sha256(token.encode()).hexdigest()[:16]
    path = Path(tempfile.gettempdir()) / f"bedstamp-chat-{name}.lock"
    try:
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o600)
    except OSError as fault:
        raise SecondPoller(
            f"{path} cannot be opened ({fault.strerror}): another user of this computer seems to run the same bot "
            "account. Only one process may; stop the other one, or make a new token."
        ) from fault
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        os.ftruncate(descriptor, 0)
        os.write(descriptor, f"{os.getpid()}\n".encode())
        yield
    except BlockingIOError as fault:
        process = os.pread(descriptor, 32, 0).decode("ascii", "replace").strip()
        raise SecondPoller(
            f"Another process ({process or 'unknown'}) asks for the updates of the same bot account, and each would "
            "get only some of them. Stop the other one, or make a new token for this one."
        ) from fault
    finally:
        os.close(descriptor)


async def look_around(api: Api, clerk: Clerk, settings: Settings) -> Me:
    """Ask who the bot is and what it may see, offer its commands, and note what later depends on it.

    Raises TelegramError when the server is not reached.
    """
    me = _me(await api.call("getMe", {}))
    await clerk.do(lambda journal: journal.note(CHANNEL, "me", json.dumps(asdict(me))))
    _log.info("the bot account", username=me.username, id=me.id, sees_all_group_messages=me.reads_all)
    if not me.reads_all and settings.group.speak != "addressed":
        for sentence in PRIVACY.split(". "):
            _log.warning("the group setting", what_to_do=sentence.rstrip(".") + ".")
    commands = [{"command": name, "description": text} for name, text in COMMANDS.items()]
    await _try(api, "setMyCommands", {"commands": commands})
    assert settings.telegram is not None
    for chat in settings.telegram.groups:
        await _look_into(api, chat, me)
    if settings.telegram.experts_chat is not None:
        await _look_into_experts_chat(api, settings.telegram.experts_chat, me)
    return me


def _me(told: dict[str, Any]) -> Me:
    return Me(
        int(told["id"]), str(told.get("username", "")), str(told.get("first_name", "")),
        bool(told.get("can_read_all_group_messages", False)),
    )  # fmt: skip


async def _look_into(api: Api, chat: int, me: Me) -> None:
    """Say whether the bot is in a group of the settings, so that an operator sees it."""
    found = await _try(api, "getChatMember", {"chat_id": chat, "user_id": me.id})
    status = str(found.get("status", "")) if isinstance(found, dict) else ""
    if status in _IN_GROUP or (status == "restricted" and found.get("can_send_messages")):
        _log.info("is in the group", chat=chat, status=status)
    else:
        _log.warning("is not in the group, or may not write there: add it", chat=chat, status=status or "unknown")


async def _look_into_experts_chat(api: Api, chat: int, me: Me) -> None:
    """Say whether the bot can find out there who is an expert: the platform tells that to admins for certain."""
    found = await _try(api, "getChatMember", {"chat_id": chat, "user_id": me.id})
    status = str(found.get("status", "")) if isinstance(found, dict) else ""
    if status in ("administrator", "creator"):
        _log.info("is in the experts' chat", chat=chat, status=status)
    elif status in _IN_GROUP:
        _log.warning("is no admin of the experts' chat", chat=chat, what_to_do=EXPERTS_ADMIN)
    else:
        _log.warning("is not in the experts' chat: add it, as an admin", chat=chat, status=status or "unknown")


async def _try(api: Api, method: str, params: dict[str, Any]) -> Any:
    """Call what the rest does not depend on; a failure is logged."""
    try:
        return await api.call(method, params)
    except TelegramError as fault:
        _log.warning("could not be asked", method=method, why=f"{type(fault).__name__}: {fault.message}")
        return None
