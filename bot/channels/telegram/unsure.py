"""Messages of which nobody knows whether they arrived: looked for, sent once more, then given to people to look at.

A bot cannot read what it wrote. But whoever presses a button under a message, or answers it, has it before them: then
it arrived, and is not sent again. Changes of a message and answers to presses do no harm when repeated.
"""

from __future__ import annotations

import json
from datetime import datetime

from bot.channels.telegram import bodies
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.updates import Event, Post, Press
from bot.clerk import Clerk
from bot.journal import Journal, Outgoing, Reply
from bot.logs import Log
from bot.replies.styled import plain
from bot.sending import Verdict

RESENT = 1
"""How often a message is sent again of which nobody knows whether it arrived: each time more may be one more double."""
LOOK_THERE = "Look there"
NOT_KNOWN = (
    "Twice the connection broke off while I answered somebody, so nobody knows whether my answer arrived, and I do not "
    "send it a third time. Please look whether it stands under the question (it is out-{id} in `bedstamp journal`)."
)
_HARMLESS = ("editMessageText", "editMessageReplyMarkup", "answerCallbackQuery", "getFile")
_SUPERGROUP = "-100"

_log = Log(CHANNEL)


class Unsure:
    """Says what becomes of them. `experts_chat` is who is asked to look, None for nobody."""

    def __init__(self, clerk: Clerk, experts_chat: int | None) -> None:
        self._clerk, self._experts_chat = clerk, experts_chat
        self._ids: frozenset[int] = frozenset()

    async def begin(self) -> None:
        """Find those that an earlier run left."""
        found = await self._clerk.do(lambda journal: journal.list_outgoing("uncertain", limit=10_000))
        self._ids = frozenset(one.id for one in found if one.channel == CHANNEL)

    def add(self, id_: int) -> None:
        """Look out for one more."""
        self._ids |= {id_}

    def came(self, journal: Journal, event: Event) -> None:
        """See whether something that came in shows that one of them arrived. Works in the clerk's thread."""
        if self._ids and isinstance(event, Post | Press):
            self._ids -= _note_seen(journal, self._ids, event, self._clerk.now())

    async def verdict(self, message: Outgoing) -> Verdict:
        """Return what is to be done with one whose turn has come: the policy of the sending."""
        if json.loads(message.body)["method"] in _HARMLESS or message.unsure <= RESENT:
            return Verdict.AGAIN
        if self._experts_chat is not None and message.recipient != str(self._experts_chat):
            notice, now = _notice(message, self._experts_chat), self._clerk.now()
            await self._clerk.do(lambda journal: journal.queue([notice], now=now))
        return Verdict.GIVE_UP


def _note_seen(journal: Journal, ids: frozenset[int], event: Post | Press, now: datetime) -> frozenset[int]:
    """Mark as sent what carries the buttons that somebody has before them. Return what need not be looked for."""
    data = (event.data,) if isinstance(event, Press) else event.to_buttons
    number = event.number if isinstance(event, Press) else event.to_number
    settled = set()
    for id_ in ids:
        one = journal.outgoing(id_)
        if one is None or one.state != "uncertain":
            settled.add(id_)
        elif one.recipient == str(event.chat) and any(_carries(one, each) for each in data):
            journal.sent(id_, str(number), now=now)
            _log.info("uncertain, but somebody has it before them", id=f"out-{id_}")
            settled.add(id_)
    return frozenset(settled)


def _carries(message: Outgoing, data: str) -> bool:
    """Whether a button with this data is under a message."""
    params = json.loads(message.body)["params"]
    rows = params.get("reply_markup", {}).get("inline_keyboard", [])
    return any(button.get("callback_data") == data for row in rows for button in row)


def _notice(message: Outgoing, experts_chat: int) -> Reply:
    """Ask the experts to look, with a way there where the chat has one."""
    params = json.loads(message.body)["params"]
    chat, number = str(params["chat_id"]), params.get("reply_parameters", {}).get("message_id")
    link = f"https://t.me/c/{chat.removeprefix(_SUPERGROUP)}/{number}" if chat.startswith(_SUPERGROUP) else ""
    keyboard = [[{"text": LOOK_THERE, "url": link}]] if link and number else None
    words = plain(NOT_KNOWN.format(id=message.id))
    return bodies.messages(f"unsure-{message.id}", Place(experts_chat), words, For("", ""), keyboard)[0]
