"""The ways of asking what a machine is, each a set of meanings in one clause, with its weight."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from itertools import dropwhile, takewhile

from bot.curiosity.clauses import INTERROGATIVES, Clause, Message

_MACHINE = frozenset({"it", "number", "machine", "name"})
_BESIDE_WHEN = frozenset(
    "when roughly filler verb particle article number it please anyone greeting name".split()
)  # fmt: skip
_BESIDE_QUALITY = frozenset("quality number name particle article machine thanks".split())
BESIDE_WHAT = frozenset(
    "what it number have machine name please anyone greeting tell verb article unsure filler opinion wish subject"
    .split()
)  # fmt: skip
_YEAR = re.compile(r"1[89]\d\d")
_BEHIND_MADE = frozenset(
    "it number machine name article particle filler plain please anyone roughly have thanks when label".split()
)
_BEHIND_FROM = frozenset("plain filler please number name it article machine thanks".split())
_BESIDE_LOOK_UP = frozenset(
    "look-up roughly number please anyone article it label particle person verb name greeting".split()
)
_BESIDE_ANYONE = frozenset({"anyone", "help", "please", "number", "article"})


@dataclass(frozen=True, slots=True)
class Way:
    """One way of asking and what it weighs.

    `unknown` is what each word takes off that is not known. `whole`: the words of the whole message count against it,
    not only those of the clause, because it does not say what it asks for.
    """

    name: str
    points: int
    test: Callable[[Clause, Message], bool]
    unknown: int = -1
    whole: bool = False


def _how_old(clause: Clause, _: Message) -> bool:
    in_one = any(term.means >= {"how", "old"} for term in clause.terms)
    return (in_one or clause.follows("how", "old", 2)) and clause.aloud


def _which_quality(clause: Clause, _: Message) -> bool:
    kind = clause.follows("what", "kind", 1) and not clause.unknown
    quality = kind or clause.follows("what", "quality", 3) or clause.follows("what", "old", 2)
    machine = clause.follows("what", "machine", 1) and bool(clause.means & {"number", "it"}) and not clause.unknown
    return (quality or (machine and "person" not in clause.means)) and clause.aloud


def _when_made(clause: Clause, _: Message) -> bool:
    since = (_ends_with_from(clause) or clause.follows("from", "when", 0)) and not clause.unknown
    if clause.follows("when", "number", 0) and not clause.queried:
        return False  # 'when K204117 was made they still used horses'
    return "when" in clause.means and ("made" in clause.means or since) and clause.aloud


def _just_when(clause: Clause, _: Message) -> bool:
    """'L104411, when was that?', not 'when is it'."""
    asks = "when" in clause.means and "present" not in clause.means
    return asks and clause.aloud and clause.only(_BESIDE_WHEN)


def _who_made(clause: Clause, message: Message) -> bool:
    means = clause.means
    who = "who" in means and bool(means & {"made", "maker"}) and "have" not in means
    since = _ends_with_from(clause) and bool(message.found.tokens)
    where = "where" in means and ("made" in means or since)
    return (who or where) and clause.aloud and _is_what_was_made(clause)


def _is_what_was_made(clause: Clause) -> bool:
    """Whether nothing but the machine is named behind 'made': not 'who made that stand for K204117'."""
    behind = list(dropwhile(lambda term: "made" not in term.means, clause.terms))
    return all(term.means & _BEHIND_MADE for term in behind[1:])


def _ends_with_from(clause: Clause) -> bool:
    """'Where is K204117 from?', not 'where is K204117 from the shed?'"""
    behind = list(takewhile(lambda term: "from" not in term.means, reversed(clause.terms)))
    return len(behind) < len(clause.terms) and all(term.means & _BEHIND_FROM for term in behind)


def _its_quality(clause: Clause, _: Message) -> bool:
    """'Need the year for K204117', 'K204117 age'; not 'year 4'."""
    if "quality" not in clause.means or clause.follows("quality", "digits", 0):
        return False
    beside = len(clause.terms) <= 5 and "number" in clause.means and clause.only(_BESIDE_QUALITY)
    return clause.aloud or beside


def _to_identify(clause: Clause, _: Message) -> bool:
    said = [term for term in clause.terms if not term.means & {"greeting", "please"}]
    return "identify" in clause.means and (clause.aloud or "identify" in said[0].means)


def _what_is_it(clause: Clause, _: Message) -> bool:
    """'What have I got here?': nothing else may stand in the clause."""
    asks = "what" in clause.means and bool(clause.means & {*_MACHINE, "have"})
    if "wish" in clause.means and "tell" not in clause.means:
        return False  # 'what does K204117 need'
    return asks and clause.aloud and clause.only(BESIDE_WHAT)


def _what_does_it_tell(clause: Clause, _: Message) -> bool:
    tells = clause.follows("what", "meaning", 4) or clause.follows("what", "tell", 3)
    of_it = clause.means & {"number", "label", "it", "machine"} and "others" not in clause.means
    return tells and bool(of_it) and not clause.unknown


def _is_it_so(clause: Clause, message: Message) -> bool:
    """A guess at age, model or maker, and the question whether it is right."""
    if clause.around & INTERROGATIVES or not (clause.queried or clause.inverted):
        return False
    supposed = "guess" in clause.means or _supposes(message) or ("old" in clause.means and clause.inverted)
    return supposed and bool(clause.means & {*_MACHINE, "confirm"})


def _supposes(message: Message) -> bool:
    said = message.said
    if said.models or said.works or said.dates or said.makers or message.means & {"guess", "old"}:
        return True
    return any("digits" in term.means and _YEAR.fullmatch(term.text) for term in message.terms)


def _was_it_made(clause: Clause, _: Message) -> bool:
    """'Was K204117 made in England?'"""
    asks = clause.queried and clause.inverted and not clause.around & INTERROGATIVES
    if not asks or any(not term.means and not term.capital for term in clause.terms):
        return False
    return "made" in clause.means and bool(clause.means & _MACHINE)


def _anything_about_it(clause: Clause, _: Message) -> bool:
    means = clause.means
    if means & {"unsure", "curious"}:
        return True
    if "vague" in means and (clause.aloud or clause.follows("any", "vague", 2) or _begins(clause, "vague")):
        return True
    if clause.unknown or _tells_something(clause):
        return False  # 'could you tell Marge', 'help me move K204117'
    if "help" in means and (clause.queried or "tell" in means):
        return True
    return bool(means & {"tell", "help"} and means & {"anyone", "wish", "please"})


def _tells_something(clause: Clause) -> bool:
    """'Tell me K204117 is fine.'"""
    told = clause.follows("tell", "number", 0) and clause.follows("number", "verb", 0)
    return told and not clause.means & INTERROGATIVES


def _only_anyone(clause: Clause, _: Message) -> bool:
    """'Anyone?'"""
    return clause.queried and bool(clause.means & {"anyone", "help"}) and clause.only(_BESIDE_ANYONE)


def _to_look_up(clause: Clause, _: Message) -> bool:
    """'Look up K204117', 'please check K204117 for me'."""
    asks = "look-up" in clause.means and clause.only(_BESIDE_LOOK_UP) and not _tells_something(clause)
    return asks and bool(clause.queried or clause.terms[0].means & {"look-up", "please"})


def _begins(clause: Clause, meaning: str) -> bool:
    """Whether a clause begins with a meaning, and the number follows: 'hello, anything on K204117'."""
    said = [term for term in clause.terms if "greeting" not in term.means]
    between = list(takewhile(lambda term: "number" not in term.means, said[1:]))
    only_small = all(term.means & {"particle", "article", "roughly"} for term in between)
    return len(between) + 1 < len(said) and meaning in said[0].means and only_small


def _shows_a_number(clause: Clause, message: Message) -> bool:
    """'Hello all, I inherited this from my aunt, serial number K204117.'"""
    newcomer = "greeting" in message.terms[0].means and "have" in message.means and "trade" not in message.means
    return newcomer and message.introduced and "number" in clause.means


WAYS = (
    Way("how old", 5, _how_old),
    Way("which year, model or maker", 5, _which_quality),
    Way("when was it made", 5, _when_made),
    Way("who made it, or where", 5, _who_made, unknown=-3),
    Way("when was that", 4, _just_when),
    Way("its age, its model", 4, _its_quality),
    Way("identify it", 4, _to_identify),
    Way("what is it", 4, _what_is_it),
    Way("what does it tell", 4, _what_does_it_tell),
    Way("was it made there", 4, _was_it_made),
    Way("is it so", 3, _is_it_so, unknown=-2),
    Way("anything about it", 3, _anything_about_it, whole=True),
    Way("anyone", 3, _only_anyone, whole=True),
    Way("look it up", 3, _to_look_up, whole=True),
    Way("a newcomer shows a number", 1, _shows_a_number, whole=True),
)
