"""The points of a message: the way of asking that weighs most, with all that speaks for and against it."""

from __future__ import annotations

from dataclasses import dataclass

from bot.curiosity.clauses import Clause, Message
from bot.curiosity.signs import (
    ANOTHER_QUESTION,
    CLAUSE_SIGNS,
    MESSAGE_SIGNS,
    NAMES_SOMEBODY,
    OTHER_TOPIC,
    STORY_SIGNS,
    UNCLEAR_PICTURE,
    asks_another_question,
)
from bot.curiosity.ways import WAYS, Way

ENOUGH = 5
"""Points from which a message is taken for a question."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """The points of a message, and the way of asking that weighed most ('' for none)."""

    points: int = 0
    way: str = ""

    @property
    def is_question(self) -> bool:
        """Whether that is enough."""
        return self.points >= ENOUGH


def weigh(message: Message) -> Weighed:
    """Weigh a message. One without a word, or without any way of asking, weighs nothing."""
    found = ((clause, way) for clause in message.clauses for way in WAYS if way.test(clause, message))
    vague = _vague_points(message)
    ways = [(_points(clause, way, message) + (vague if way.whole else 0), way) for clause, way in found]
    if not ways:
        return Weighed()
    points, way = max(ways, key=lambda weighed: weighed[0])
    return Weighed(points + sum(more for _, more, test in MESSAGE_SIGNS if test(message)), way.name)


def _vague_points(message: Message) -> int:
    """What the whole message adds to a way that does not say what it asks for."""
    points = sum(more for _, more, test in STORY_SIGNS if test(message))
    return points + ANOTHER_QUESTION * asks_another_question(message) + OTHER_TOPIC * message.topics


def _points(clause: Clause, way: Way, message: Message) -> int:
    points = way.points + sum(more for _, more, test in CLAUSE_SIGNS if test(clause, message))
    if way.whole:
        return points + way.unknown * _unknown(clause, message) + NAMES_SOMEBODY * _somebody(clause)
    times = UNCLEAR_PICTURE if message.picture_alone else 1
    return points + way.unknown * times * clause.unknown + OTHER_TOPIC * clause.topics


def _unknown(clause: Clause, message: Message) -> int:
    """Unknown words of other sentences count half: a long story has many."""
    return clause.unknown_around + (message.unknown - clause.unknown_around) // 2


def _somebody(clause: Clause) -> int:
    return sum(not term.means and term.capital for term in clause.terms[1:])
