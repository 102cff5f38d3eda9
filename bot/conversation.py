"""The core: a message and the state of its conversation -> what to say, and the state after it.

    incoming -> which turn is it? (an ordered table of rules) -> answer -> outgoing

Nothing here waits, sends or stores, and no channel is known by name. The state (bot/state.py) holds the last text with
a number, what was said beside it, and the question that is open.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from bot.choices import understood
from bot.small_talk import is_unsure, kind_word
from bot.state import State
from knowledge.answer import Answer, answer_found
from knowledge.ask_back import AskBack
from knowledge.base import Knowledge
from knowledge.cases import SETTLED
from knowledge.hearing.words import lower
from knowledge.said import Said, hear, merged
from knowledge.tokens import find
from knowledge.tokens.nouns import Found, SerialToken

Kind = Literal["answer", "places", "words"]

NEVER_MIND = (
    "Never mind. What I said stands: the likeliest dating comes first, and the others stay possible. A clear photo of "
    "the number, with light from the side, helps people to settle it."
)
NOT_UNDERSTOOD = (
    "I did not find anything in that which changes the answer. You can tell me how many digits there are, whether the "
    "first is a zero, the letter, the maker or the model; or type another number."
)
_MACHINE = re.compile(
    r"\b(?:sewing|treadle|(?:n[aä]h)?maschin|(?:naai)?machine|macchin|maquina|maszyn|машинк|швейн|(?:sy)?maskin|serial|"
    "seriennummer|matricol|matricule|serienummer)"
)
_CORRECTING = (
    "sorry correct meant mean actually typo misread oops entschuldig korrektur meinte pardon perdon perdón scusa "
    "errore przepraszam извини ошиб förlåt ursäkta"
).split()


@dataclass(frozen=True, slots=True)
class Incoming:
    """One message. `picture` tells that a photo came with it."""

    text: str
    picture: bool = False


@dataclass(frozen=True, slots=True)
class Outgoing:
    """What to say: a whole answer, only the places where the number is found, or just `words`.

    `again` tells that the same number is answered once more, and `told` are the cautions that were said before.
    """

    kind: Kind
    words: str = ""
    answer: Answer | None = None
    again: bool = False
    told: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class _Turn:
    """One message, with what was found and heard in it, and the state before it."""

    text: str
    found: Found
    said: Said
    state: State
    knowledge: Knowledge


Reply = tuple[State, list[Outgoing]]


def reply(incoming: Incoming, state: State, knowledge: Knowledge) -> Reply:
    """Return what to say to a message, and the state after it. Never raises on any text."""
    found = find(incoming.text, knowledge.names)
    if state.text and all(_is_small(token) for token in found.tokens):
        found = replace(found, tokens=())  # 'a no. 9' after a number is a model, '7' a count
    said = hear(incoming.text, knowledge.names, found)
    turn = _Turn(incoming.text, found, replace(said, picture=said.picture or incoming.picture), state, knowledge)
    return next(done for done in (rule(turn) for rule in _RULES) if done is not None)


def _is_small(token: SerialToken) -> bool:
    return len(token.digits) < 3 and not token.prefix and not token.suffix


def is_question(text: str, knowledge: Knowledge) -> bool:
    """Tell whether a message asks what is answered here, so that it may be answered in a group unasked.

    A number alone is a question; a number in a sentence is one when words call it a machine's number or something is
    asked; words without a number are one when they ask about a machine or a name that is known.
    """
    found = find(text, knowledge.names)
    said = hear(text, knowledge.names, found)
    if found.tokens:
        alone = sum(character.isalpha() for character in _without(text, found.tokens)) == 0
        return alone or "?" in text or bool(said.asks) or any(token.introduced for token in found.tokens)
    if any(passed.registers for passed in found.passed_over):
        return "?" in text or bool(said.asks)
    named = bool(said.makers or said.models)
    return bool(said.asks - {"value"} and (named or _MACHINE.search(lower(text)))) or "where" in said.asks


def _without(text: str, tokens: tuple[SerialToken, ...]) -> str:
    for token in reversed(tokens):
        text = text[: token.start] + text[token.end :]
    return text


def _small_talk(turn: _Turn) -> Reply | None:
    words = "" if turn.found.tokens else kind_word(turn.text)
    return (turn.state, [Outgoing("words", words)]) if words else None


def _new_number(turn: _Turn) -> Reply | None:
    """A number starts anew. What was said before still holds for a corrected number, and where none was given yet."""
    if not turn.found.tokens and not any(one.registers for one in turn.found.passed_over):
        return None
    before = find(turn.state.text, turn.knowledge.names).tokens
    if not before:
        return _answer(turn.text, turn.found, merged(turn.state.said, turn.said), turn.knowledge)
    if not _is_correction(turn, before[0]):
        return _answer(turn.text, turn.found, turn.said, turn.knowledge)
    kept = replace(turn.state.said, digit_count=None, leading_zero=None, prefix=None)
    if before[0].prefix and not turn.found.tokens[0].prefix:
        kept = replace(kept, prefix=before[0].prefix)
    return _answer(turn.text, turn.found, merged(kept, turn.said), turn.knowledge)


def _is_correction(turn: _Turn, before: SerialToken) -> bool:
    if len(turn.found.tokens) != 1:
        return False
    low = turn.text.lower()
    return any(word in low for word in _CORRECTING) or _are_alike(turn.found.tokens[0].digits, before.digits)


def _are_alike(one: str, other: str) -> bool:
    """Tell whether two numbers differ by a slip: the same end or beginning, or all but two places."""
    if len(one) == len(other):
        return sum(a != b for a, b in zip(one, other, strict=True)) <= 2
    short, long = sorted((one, other), key=len)
    return len(long) - len(short) <= 2 and (long.startswith(short) or long.endswith(short))


def _to_the_question(turn: _Turn) -> Reply | None:
    """An answer to the question that is open: one of its choices, yes, no, or 'I don't know'."""
    asked = turn.state.asked
    if asked is None:
        return None
    if is_unsure(turn.text):
        return replace(turn.state, asked=None), [Outgoing("words", NEVER_MIND)]
    told = understood(turn.text, asked, turn.knowledge)
    if isinstance(told, str):
        kept = replace(turn.state.said, digit_count=None, leading_zero=None, prefix=None)
        return _answer(told, find(told, turn.knowledge.names), kept, turn.knowledge)
    if told is None:
        return None
    return _again(turn, merged(turn.state.said, told), asked.token)


def _more_about_it(turn: _Turn) -> Reply | None:
    """More about the machine that was asked about, or another question about it."""
    said = turn.said
    if not turn.state.text or not (said.bears_on_datings or said.asks or said.dangers or said.person or said.picture):
        return None
    together = merged(turn.state.said, said)
    if "where" in said.asks and not said.bears_on_datings:
        return turn.state, [_places(turn, together)]
    return _again(turn, together, None)


def _places(turn: _Turn, said: Said) -> Outgoing:
    """Tell where the number is on the machine that the number says it is, when nothing else was said."""
    found = find(turn.state.text, turn.knowledge.names)
    answered = answer_found(turn.state.text, found, said, turn.knowledge)
    best = answered.candidates[0] if answered.candidates else None
    if best and best.likelihood >= SETTLED and not said.makers and not said.models:
        its_own = replace(said, makers=() if best.model else (best.maker,), models=(best.model,) if best.model else ())
        answered = answer_found(turn.state.text, found, its_own, turn.knowledge)
    return Outgoing("places", answer=answered)


def _again(turn: _Turn, said: Said, token: int | None) -> Reply:
    """Answer the last number again, with what is known now; of several numbers only the one that was asked about."""
    text = turn.state.text
    found = find(text, turn.knowledge.names)
    if token is not None and len(found.tokens) > 1:
        text = found.tokens[token].text
        found = find(text, turn.knowledge.names)
    told = answer_found(text, found, turn.state.said, turn.knowledge).cautions
    state, (outgoing,) = _answer(text, found, said, turn.knowledge)
    return state, [replace(outgoing, again=True, told=frozenset(caution.text for caution in told))]


def _not_understood(turn: _Turn) -> Reply | None:
    """Nothing in it that we know of, though something is open: say so, and ask again."""
    if not turn.state.text or _is_new_topic(turn):
        return None
    asked = turn.state.asked
    return turn.state, [Outgoing("words", NOT_UNDERSTOOD if asked is None else asked_again(asked))]


def _is_new_topic(turn: _Turn) -> bool:
    return bool(turn.found.passed_over) and len(turn.text) > 60


def asked_again(asked: AskBack) -> str:
    """Return the open question with its choices, for a reply that did not answer it."""
    choices = "\n".join(f"{at}) {choice}" for at, choice in enumerate(asked.choices, 1))
    return f"That does not tell me which. {asked.text}\n{choices}\nOr say that you don't know."


def _afresh(turn: _Turn) -> Reply:
    said = merged(turn.state.said, turn.said) if not turn.state.text else turn.said
    return _answer(turn.text, turn.found, said, turn.knowledge)


_RULES: tuple[Callable[[_Turn], Reply | None], ...] = (
    _small_talk,
    _new_number,
    _to_the_question,
    _more_about_it,
    _not_understood,
    _afresh,
)
"""Which turn a message is: the first rule that fits."""


def _answer(text: str, found: Found, said: Said, knowledge: Knowledge) -> Reply:
    answered = answer_found(text, found, said, knowledge)
    has_number = bool(found.tokens or any(one.registers for one in found.passed_over))
    only_places = bool(answered.places) and not answered.candidates and not found.tokens
    state = State(text if has_number else "", said, answered.ask_back)
    return state, [Outgoing("places" if only_places else "answer", answer=answered)]
