"""How fast the platform lets a bot write: 30 messages a second in all, one a second and 20 a minute in a chat.

Source: https://core.telegram.org/bots/faq, "My bot is hitting limits, how do I avoid this?". What was told to wait
(429) waits in that chat alone. The times are kept by the journal, so that a restart does not begin with a burst.
"""

from __future__ import annotations

import json
from collections import deque
from dataclasses import dataclass, field

IN_ALL, IN_ALL_WITHIN = 28, 1.0  # a little under 30: the server's second is not ours
BETWEEN = 1.05  # seconds between the moments of two messages in one chat
AT_LEAST_BETWEEN = 1.0  # seconds that really pass between them
IN_A_GROUP, IN_A_GROUP_WITHIN = 19, 60.0


@dataclass(slots=True)
class Pace:
    """When which chat may be written to. All times are seconds since 1970."""

    _sent: dict[str, deque[float]] = field(default_factory=dict)
    _until: dict[str, float] = field(default_factory=dict)
    _last: dict[str, float] = field(default_factory=dict)
    _all: deque[float] = field(default_factory=deque)

    def slot(self, chat: str, now: float) -> float:
        """Return the first moment at which this chat may be written to, `now` when at once."""
        sent = self._sent.get(chat, ())
        at = self.not_before(chat, now)
        if sent:
            at = max(at, sent[-1] + BETWEEN)
        if is_group(chat) and len(sent) >= IN_A_GROUP:
            at = max(at, sent[-IN_A_GROUP] + IN_A_GROUP_WITHIN)
        return at

    def not_before(self, chat: str, now: float) -> float:
        """Return when something may really go to this chat, for a message that has its moment already."""
        return max(now, self._until.get(chat, 0.0), self._last.get(chat, 0.0) + AT_LEAST_BETWEEN)

    def room(self, now: float) -> int:
        """Return how many messages may go out at this moment, to whatever chats."""
        while self._all and self._all[0] <= now - IN_ALL_WITHIN:
            self._all.popleft()
        return IN_ALL - len(self._all)

    def take(self, chat: str, at: float) -> None:
        """Note that a chat is written to at a moment, now or later: the moment is taken."""
        self._sent.setdefault(chat, deque(maxlen=IN_A_GROUP)).append(at)

    def begins(self, now: float) -> None:
        """Note that a message, to whatever chat, is begun now."""
        self._all.append(now)

    def goes(self, chat: str, now: float) -> None:
        """Note that a message really goes to a chat now, maybe a little after its moment."""
        self._last[chat] = now

    def wait_until(self, chat: str, at: float) -> None:
        """Note that the server wants nothing for this chat before a moment."""
        self._until[chat] = max(at, self._until.get(chat, 0.0))

    def written(self, now: float) -> str:
        """Return what matters after a restart, as text; what is long past is dropped."""
        self._drop(now)
        sent = {chat: [round(at, 2) for at in times] for chat, times in self._sent.items()}
        return json.dumps({"sent": sent, "until": _rounded(self._until), "last": _rounded(self._last)})

    @classmethod
    def read(cls, text: str | None, now: float) -> Pace:
        """Return the pace that `written` told. Moments that were only taken are free again: who took them is gone."""
        pace = cls()
        plain = json.loads(text) if text else {"sent": {}, "until": {}, "last": {}}
        for chat, times in plain["sent"].items():
            pace._sent[chat] = deque((at for at in times if at <= now), maxlen=IN_A_GROUP)
        pace._until, pace._last = plain["until"], plain["last"]
        pace._drop(now)
        return pace

    def _drop(self, now: float) -> None:
        self._sent = {
            chat: times for chat, times in self._sent.items() if times and times[-1] > now - IN_A_GROUP_WITHIN
        }
        self._until = {chat: at for chat, at in self._until.items() if at > now}
        self._last = {chat: at for chat, at in self._last.items() if at > now - AT_LEAST_BETWEEN}


def _rounded(times: dict[str, float]) -> dict[str, float]:
    return {chat: round(at, 2) for chat, at in times.items()}


def is_group(chat: str) -> bool:
    """Whether a chat is a group: their ids are negative."""
    return chat.startswith("-")
