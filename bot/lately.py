"""The last lines of each group's talk, kept in memory: enough to see that two members are talking to each other.

Nothing of it is stored. After a restart it is empty, and the talk is judged line by line until it has filled again.
"""

from __future__ import annotations

from collections import OrderedDict, deque
from dataclasses import dataclass

KEPT = 6
"""Lines kept of one talk."""
_MOST_TALKS = 500
_MOST_CHARACTERS = 400


@dataclass(frozen=True, slots=True)
class Line:
    """A line written before. `mine`: by the writer of the message that is judged; `ago`: seconds before it."""

    text: str
    mine: bool
    ago: float


class Lately:
    """What was said lately, by talk (a group, or a topic in one). Not for several threads at once."""

    def __init__(self) -> None:
        self._talks: OrderedDict[str, deque[tuple[str, float, str]]] = OrderedDict()

    def hear(self, talk: str, writer: str, at: float, text: str) -> tuple[Line, ...]:
        """Keep a line, and return those before it, the newest last. `at` is in seconds."""
        lines = self._talks.setdefault(talk, deque(maxlen=KEPT))
        self._talks.move_to_end(talk)
        if len(self._talks) > _MOST_TALKS:
            self._talks.popitem(last=False)
        before = tuple(Line(said, who == writer, at - when) for who, when, said in lines)
        lines.append((writer, at, text[:_MOST_CHARACTERS]))
        return before
