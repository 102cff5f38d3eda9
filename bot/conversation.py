"""The core: a message and the state of its conversation -> what to say, and the state after it.

    incoming -> which turn is it? (an ordered table of rules) -> answer -> outgoing

Nothing here waits, sends or stores, and no channel is known by name. The state (bot/state.py) holds the last text with
a number, what was said beside it, and the question that is open.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from string import ascii_letters
from typing import Literal

from bot.choices import place_pointed_at, understood
from bot.remembering import held, is_likely_count, together
from bot.replies.found import found_words
from bot.small_talk import is_unsure, kind_word
from bot.state import State
from knowledge.answer import Answer, answer_found
from knowledge.ask_back import AskBack
from knowledge.base import Knowledge
from knowledge.beside import said_beside
from knowledge.cases import SETTLED
from knowledge.hearing.stamping import digit_count
from knowledge.hearing.words import lower, plain_words, split
from knowledge.said import Said, hear, hear_facts, merged
from knowledge.search import SearchResult, search
from knowledge.tokens import find
from knowledge.tokens.nouns import Found, PassedOver, SerialToken
from knowledge.wording import digits_of, listed

Kind = Literal["answer", "places", "words"]

NEVER_MIND = (
    "Never mind. What I said stands: the likeliest dating comes first, and the others stay possible. A clear photo of "
    "the number, with light from the side, helps people to settle it."
)
NOT_UNDERSTOOD = (
    "I did not find anything in that which changes the answer. You can tell me how many digits there are, whether the "
    "first is a zero, the letter, the maker or the model; or type another number."
)
BY_ITS_WORDS = (
    "By what you say of it, it may be one of these. The number that is stamped on it tells more surely: type it with "
    "its letters and every zero."
)
KEPT = (
    "I took that to be about {names} and not about your machine, so what I know of it stays. If your machine is one, "
    "say so: 'it is a {first}'."
)
COUNT_UNCLEAR = (
    "I am not sure what you mean by {count}. If that many digits are stamped on the machine, type the whole number "
    "once more as it stands there, with every zero. If it is a model, say 'Model {count}'."
)
COUNT_UNLIKELY = (
    "You say {count}, but I read {serial}, and no list known here has numbers like it with {count}. Please "
    "count once more, every zero too, or type the whole number again as it stands on the machine."
)
_MACHINE = re.compile(
    r"\b(?:sewing|treadle|(?:n[aä]h)?maschin|(?:naai)?machine|macchin|maquina|maszyn|машинк|швейн|(?:sy)?maskin|serial|"
    "seriennummer|matricol|matricule|serienummer)"
)
_SEARCHING = re.compile(
    r"\s*(?:please\s+|bitte\s+)?(?:search|look\s*up|suche?n?|cherche[rz]?|busca[r]?|cerca(?:re)?|zoek(?:en)?|szukaj|sök|поиск|найди)"
    r"\b[\s:]*(?:for\b|nach\b|naar\b|efter\b)?[\s:]*(?P<words>.+)",
    re.IGNORECASE | re.DOTALL,
)
_DESCRIBED = 3
"""A question without a number is a search when one thing that is known has so many of its words."""
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
    `found` is what `words` tell of, when they answer a search.
    """

    kind: Kind
    words: str = ""
    answer: Answer | None = None
    again: bool = False
    told: frozenset[str] = frozenset()
    found: SearchResult | None = None


@dataclass(frozen=True, slots=True)
class _Turn:
    """One message, with what was found and heard in it, and the state before it.

    `said` is everything heard; `told` only what it tells of the machine spoken of before.
    """

    text: str
    found: Found
    said: Said
    told: Said
    state: State
    knowledge: Knowledge


Reply = tuple[State, list[Outgoing]]


def reply(incoming: Incoming, state: State, knowledge: Knowledge) -> Reply:
    """Return what to say to a message, and the state after it. Never raises on any text."""
    turn = _turn(incoming, state, knowledge)
    return next(done for done in (rule(turn) for rule in _RULES) if done is not None)


def _turn(incoming: Incoming, state: State, knowledge: Knowledge) -> _Turn:
    found = find(incoming.text, knowledge.names)
    if state.text and all(_is_small(token) for token in found.tokens):
        found = replace(found, tokens=())  # 'a no. 9' after a number is a model, '7' a count
    said = hear(incoming.text, knowledge.names, found)
    said = replace(said, picture=said.picture or incoming.picture)
    told = held(state.said, hear_facts(incoming.text, knowledge.names, found), knowledge) if state.text else said
    wishes = replace(told, asks=said.asks, person=said.person, picture=said.picture, dangers=said.dangers)
    return _Turn(incoming.text, found, said, wishes, state, knowledge)


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


def search_words(text: str) -> str:
    """Return the words that somebody wants to be searched for, '' when a text does not begin by saying so.

    >>> search_words("Please search for a vibrating shuttle"), search_words("research in shuttles")
    ('a vibrating shuttle', '')
    """
    asked = _SEARCHING.match(text)
    return asked["words"].strip() if asked else ""


def is_search(text: str, knowledge: Knowledge) -> bool:
    """Tell whether a message that begins a talk is answered by a search: it says so, or it describes a machine."""
    return _search(_turn(Incoming(text), State(), knowledge)) is not None


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


def _search(turn: _Turn) -> Reply | None:
    """'Search three-quarter size with a vibrating shuttle', or a question without a number that describes a machine."""
    if turn.found.tokens or "where" in turn.said.asks:
        return None
    if words := search_words(turn.text):
        found = search(words, turn.knowledge)
        return turn.state, [Outgoing("words", found_words(found), found=found)]
    if turn.state.text or not turn.said.asks & {"model", "maker"} or turn.said.picture or turn.said.person:
        return None
    found = search(turn.text, turn.knowledge)
    if found.matched < _DESCRIBED or found.hits[0].kind not in ("model", "finding"):
        return None
    alike = replace(found, hits=tuple(hit for hit in found.hits if hit.kind in ("model", "finding")))
    words = f"{BY_ITS_WORDS}\n\n{found_words(replace(alike, taken=(), nowhere=()))}"
    return turn.state, [Outgoing("words", words, found=alike)]


def _where(turn: _Turn) -> Reply | None:
    """Where the number is found, on this machine or on another one, when nothing else is said."""
    if not turn.state.text or "where" not in turn.said.asks or turn.told.bears_on_datings:
        return None
    elsewhere = bool(turn.said.makers or turn.said.models)
    asked_of = replace(turn.said, dates=(), digit_count=None, leading_zero=None, prefix=None)
    return turn.state, [_places(turn, asked_of if elsewhere else merged(turn.state.said, turn.told))]


def _of_other_machines(turn: _Turn) -> Reply | None:
    """A question or a remark about other machines changes nothing of what is known of this one."""
    said, told = turn.said, turn.told
    if not turn.state.text or not (said.makers or said.models) or told.bears_on_datings:
        return None
    if said.asks or said.person or said.picture or said.dangers:
        return None
    known = turn.knowledge
    names = [*(known.models[id_].name or id_ for id_ in said.models if id_ in known.models)]
    names += [known.makers[id_].name or id_ for id_ in said.makers if id_ in known.makers]
    words = KEPT.format(names=listed(names, "and"), first=names[0]) if names else NOT_UNDERSTOOD
    return turn.state, [Outgoing("words", words)]


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
    return _again(turn, told, asked.token)


def _one_of_several(turn: _Turn) -> Reply | None:
    """'The second one', 'the last', 'the one with the K', after a message with several numbers: that number alone."""
    found = find(turn.state.text, turn.knowledge.names)
    doubtful = [one for one in found.passed_over if one.because == "reference" and len(one.text) > 3]
    numbers: list[SerialToken | PassedOver] = sorted([*found.tokens, *doubtful], key=lambda one: one.start)
    letters = {word.text.upper() for word in split(turn.text) if word.capital}
    lettered = [place for place, one in enumerate(numbers) if _letters_of(one) in letters]
    place = lettered[0] if len(lettered) == 1 else place_pointed_at(turn.text, len(numbers))
    if len(numbers) < 2 or place is None:
        return None
    told, chosen = replace(turn.told, digit_count=None, prefix=None), numbers[place]
    if isinstance(chosen, SerialToken):
        return _again(turn, told, found.tokens.index(chosen))
    return _answer(chosen.text, find(chosen.text, turn.knowledge.names), told, turn.knowledge)


def _letters_of(number: SerialToken | PassedOver) -> str:
    return number.text[: len(number.text) - len(number.text.lstrip(ascii_letters))].upper()


def _more_about_it(turn: _Turn) -> Reply | None:
    """More about the machine that was asked about, or another question about it."""
    told = turn.told
    if not turn.state.text or not (told.bears_on_datings or told.asks or told.dangers or told.person or told.picture):
        return None
    return _again(turn, told, None)


def _places(turn: _Turn, said: Said) -> Outgoing:
    """Tell where the number is on the machine that the number says it is, when nothing else was said."""
    found = find(turn.state.text, turn.knowledge.names)
    answered = answer_found(turn.state.text, found, said, turn.knowledge)
    best = answered.candidates[0] if answered.candidates else None
    if best and best.likelihood >= SETTLED and not said.makers and not said.models:
        its_own = replace(said, makers=() if best.model else (best.maker,), models=(best.model,) if best.model else ())
        answered = answer_found(turn.state.text, found, its_own, turn.knowledge)
    return Outgoing("places", answer=answered)


def _again(turn: _Turn, told: Said, place: int | None) -> Reply:
    """Answer the last number again, with what is told now; of several numbers only the one at `place`."""
    text, known = turn.state.text, turn.knowledge
    found, before = find(text, known.names), turn.state.said
    if place is not None and len(found.tokens) > 1:
        before = said_beside(text, found, before, known.names)[place]
        text = found.tokens[place].text
        found = find(text, known.names)
    unlikely = _unlikely_count(turn, told, found)
    if unlikely:
        return turn.state, [Outgoing("words", unlikely)]
    earlier = answer_found(text, found, turn.state.said, known).cautions
    state, (outgoing,) = _answer(text, found, together(before, told, found.tokens, known), known)
    return state, [replace(outgoing, again=True, told=frozenset(caution.text for caution in earlier))]


def _unlikely_count(turn: _Turn, told: Said, found: Found) -> str:
    """Return what to say to a count of digits that this number can hardly have; '' when it may well be."""
    count, asked = told.digit_count, turn.state.asked
    if count is None or not found.tokens:
        return ""
    said_of_digits = digit_count(plain_words(turn.text, turn.found), alone=False) is not None
    is_bare = not said_of_digits and (asked is None or asked.about != "digits")
    if is_likely_count(count, is_bare, found.tokens, turn.knowledge):
        return ""
    if is_bare:
        return COUNT_UNCLEAR.format(count=count)
    again = f"\n{_with_choices(asked)}" if asked is not None and asked.about == "digits" else ""
    return COUNT_UNLIKELY.format(count=digits_of(count), serial=found.tokens[0].serial) + again


def _not_understood(turn: _Turn) -> Reply | None:
    """Nothing in it that we know of, though something is open: say so, and ask again."""
    if not turn.state.text or _is_new_topic(turn):
        return None
    asked, text = turn.state.asked, turn.text.strip(" .!")
    if asked is not None:
        return turn.state, [Outgoing("words", asked_again(asked))]
    unclear = COUNT_UNCLEAR.format(count=text) if text.isdecimal() and len(text) < 3 else NOT_UNDERSTOOD
    return turn.state, [Outgoing("words", unclear)]


def _is_new_topic(turn: _Turn) -> bool:
    return bool(turn.found.passed_over) and len(turn.text) > 60


def asked_again(asked: AskBack) -> str:
    """Return the open question with its choices, for a reply that did not answer it."""
    return f"That does not tell me which. {_with_choices(asked)}"


def _with_choices(asked: AskBack) -> str:
    choices = "\n".join(f"{at}) {choice}" for at, choice in enumerate(asked.choices, 1))
    return f"{asked.text}\n{choices}\nOr say that you don't know."


def _afresh(turn: _Turn) -> Reply:
    said = merged(turn.state.said, turn.said) if not turn.state.text else turn.said
    return _answer(turn.text, turn.found, said, turn.knowledge)


_RULES: tuple[Callable[[_Turn], Reply | None], ...] = (
    _small_talk,
    _new_number,
    _search,
    _where,
    _of_other_machines,
    _to_the_question,
    _one_of_several,
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
