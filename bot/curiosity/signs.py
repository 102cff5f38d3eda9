"""What adds to a way of asking and what takes off, with the weights."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import dropwhile, islice, pairwise

from bot.curiosity.clauses import INTERROGATIVES, Clause, Message
from bot.curiosity.terms import Term
from bot.curiosity.ways import BESIDE_WHAT

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
    asked = tuple(dropwhile(lambda term: not term.means & {"when", "year"}, clause.terms))
    return any("have" in term.means and term.text not in _HAS for term in asked[1:5])


_HAS = frozenset({"have", "has", "ve"})
_ASKED = frozenset({"quality", "kind", "old", "identify", "vague"})
_OF = frozenset("of von de di del van".split())
_ITS_OWN = frozenset("it quality vague old made from when guess label verb".split())


def _is_of_a_day(clause: Clause, _: Message) -> bool:
    """'What date suits you', 'what date does it leave'."""
    return clause.follows("what", "date", 2) and bool(clause.unknown)


def _is_of_need(clause: Clause, _: Message) -> bool:
    """'What model do we need'."""
    return clause.follows("quality", "need", 4)


def _is_of_a_part(clause: Clause, _: Message) -> bool:
    """'K204117's belt', 'what year's calendar'."""
    owners = ("number", "quality", "machine")
    places = [at for at, term in enumerate(clause.terms[:-2]) if term.means & set(owners)]
    return any(clause.terms[at + 1].text == "s" and _is_a_thing(clause.terms[at + 2]) for at in places)


def _is_a_thing(term: Term) -> bool:
    return not term.means & _ITS_OWN


def _is_of_another_thing(clause: Clause, _: Message) -> bool:
    """'How old is the crack in K204117', 'which model of suitcase', 'which year did K204117 join'."""
    asked = tuple(dropwhile(lambda term: not term.means & _ASKED, clause.terms))
    return any(_is_another_thing(one, then) for one, then in pairwise(asked)) or _is_of_unknown(asked)


def _is_another_thing(one: Term, then: Term) -> bool:
    if not one.means:
        return "particle" in then.means
    return "number" in one.means and not then.means


def _is_of_unknown(asked: tuple[Term, ...]) -> bool:
    after_of = [asked[at + 1 : at + 3] for at, term in enumerate(asked) if term.text in _OF]
    return any(not term.means for some in after_of for term in some)


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
    ("a day, no year", -3, _is_of_a_day),
    ("what is needed", -4, _is_of_need),
    ("a part of it", -4, _is_of_a_part),
    ("something else", -3, _is_of_another_thing),
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
    asks = clause.means & (INTERROGATIVES - {"what"}) or _asks_what_else(clause)
    return bool(asks) and not clause.means & {"made", "quality", "old"}


def _asks_what_else(clause: Clause) -> bool:
    behind = dropwhile(lambda term: "what" not in term.means, clause.terms)
    return not clause.follows("what", "vague", 2) and any(not term.means & BESIDE_WHAT for term in islice(behind, 5))
