"""What adds to a way of asking and what takes off, with the weights."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from bot.curiosity.clauses import INTERROGATIVES, Clause, Message
from bot.curiosity.terms import Term

OTHER_TOPIC = -4
"""For each word of another subject: parts, repair, meetings."""
ANOTHER_QUESTION = -4
"""Where a vague wish stands beside another question: 'does anyone know who has K204117'."""
NAMES_SOMEBODY = -2
"""For each name that is not known, where a vague wish is meant for somebody: 'someone help Marge with K204117'."""
UNCLEAR_PICTURE = 3
"""How many times an unknown word counts where there is only a picture: 'anyone recognise this tool?'."""


def _names_the_machine(clause: Clause, message: Message) -> bool:
    told = clause.means & {"it", "machine", "name", "confirm"} or "number" in clause.around
    return bool(told) or message.picture_alone


def _is_directed(clause: Clause, _: Message) -> bool:
    """To one member: 'what year is yours?', not 'thanks for your help'."""
    return "yours" in clause.means and "room" not in clause.means


def _is_event(clause: Clause, _: Message) -> bool:
    """'What year did you buy it', not 'got this, what year' or 'when did it get built'."""
    if "made" in clause.means:
        return False
    return any(clause.follows(first, "have", 3) and not clause.follows("have", first, 9) for first in ("when", "year"))


def _is_of_people(clause: Clause, _: Message) -> bool:
    """'How old are you', 'how old is the cat'."""
    if "how" not in clause.means or "machine" in clause.means:
        return False
    of_somebody = clause.follows("old", "person", 1) and not clause.means & {"number", "name"}
    return of_somebody or clause.follows("old", "being", 3)


CLAUSE_SIGNS: Sequence[tuple[str, int, Callable[[Clause, Message], bool]]] = (
    ("put as a question", 1, lambda clause, _: clause.queried or clause.inverted),
    ("help is asked for", 1, lambda clause, _: bool(clause.around & {"anyone", "please", "help", "wish", "tell"})),
    ("the machine is named", 1, _names_the_machine),
    ("to one member", -4, _is_directed),
    ("told of elsewhere", -3, lambda clause, _: "report" in clause.around and not clause.queried),
    ("what somebody did in that year", -4, _is_event),
    ("the age of people", -4, _is_of_people),
    ("its price", -2, lambda clause, _: "trade" in clause.means),
    ("why or whether", -3, lambda clause, _: "other_asking" in clause.means),
)
"""Counted with the clause that asks."""

STORY_SIGNS: Sequence[tuple[str, int, Callable[[Message], bool]]] = (
    ("a number is given", 1, lambda message: bool(message.found.tokens)),
    ("it is called a serial number", 1, lambda message: message.introduced),
    ("a greeting", 1, lambda message: "greeting" in message.means),
    ("how one came by it", 1, lambda message: bool(message.means & {"have", "family", "place"})),
)
"""Counted with ways that look at the whole message."""


def _calls_a_member(message: Message) -> bool:
    """A name that is not known, before a comma or a verb at the beginning, or behind the last comma."""
    first, last, several = message.clauses[0].terms, message.clauses[-1].terms, len(message.clauses) > 1
    if _is_a_name(first[0]) and (several if len(first) == 1 else "verb" in first[1].means):
        return True
    return several and len(last) == 1 and _is_a_name(last[0])


def _is_a_name(term: Term) -> bool:
    return term.capital and not term.means


MESSAGE_SIGNS: Sequence[tuple[str, int, Callable[[Message], bool]]] = (
    ("buying and selling", -2, lambda message: "trade" in message.means),
    ("a quiz", -5, lambda message: "quiz" in message.means),
    ("in a talk with a member", -2, lambda message: message.to_member),
    ("a member is called", -4, _calls_a_member),
)
"""Counted with any way of asking."""


def asks_another_question(message: Message) -> bool:
    """Whether any clause asks for something that a number does not tell: where, who, why, how.

    'What' counts where something is asked that is not known: 'does anyone know what this attachment does'.
    """
    return any(_asks_another(clause) for clause in message.clauses)


def _asks_another(clause: Clause) -> bool:
    if "other_asking" in clause.means:
        return True
    asks = clause.means & (INTERROGATIVES - {"what"}) or ("what" in clause.means and clause.unknown)
    return bool(asks) and not clause.means & {"made", "quality", "old"}
