"""When the bot speaks in a group: an ordered table of rules over what is known of one message.

    message -> Scene -> first rule that decides -> Verdict(speak, rule)

How much it says unasked is the group's choice (`speak` in the settings): `addressed`, only when it is spoken to;
`questions`, also when somebody gives a number and wants to know something of it; `any-serial`, at any number. An
answer to something that was no question is worse than silence.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from bot.choices import understood
from bot.curiosity import (
    asks_of_it,
    asks_to_confirm,
    is_about_it,
    is_about_people,
    is_about_something_else,
    is_aged,
    is_elsewhere,
    is_of_now,
    is_paperwork,
    is_vague,
    names_a_quality,
    only_reports,
)
from bot.small_talk import is_unsure, kind_word
from bot.state import State
from knowledge.base import Knowledge
from knowledge.hearing.words import lower
from knowledge.said import Said, hear
from knowledge.tokens import find
from knowledge.tokens.nouns import Found, SerialToken

UNASKED_EVERY = 600.0
"""Seconds in which one person gets at most one reply that nobody asked the bot for."""
OPEN_FOR = 900.0
"""Seconds for which words without a call are taken as an answer to the bot's question."""
IDENTITY = frozenset({"age", "model", "maker", "works"})
"""What can be asked of a machine by its number."""
_FEW_WORDS = 6
_LEAST_DIGITS = 3
_NOTHING = State()


@dataclass(frozen=True)
class Scene:
    """What is known of a message when it is decided. Times are seconds.

    `by_machine`: written by another bot, or posted by no person. `addressed`: the bot is named, answered or given a
    command. `to_member`: it answers another member, or calls one by name. `state` is where the writer's conversation
    with the bot stands, `since_reply` how long ago the bot last answered them, `since_unasked` the same for replies
    that nobody asked for; None for never. `answered` are the numbers that this person was answered lately.
    """

    text: str
    knowledge: Knowledge
    speak: str = "questions"
    is_private: bool = False
    by_machine: bool = False
    addressed: bool = False
    to_member: bool = False
    forwarded: bool = False
    picture: bool = False
    state: State = _NOTHING
    since_reply: float | None = None
    since_unasked: float | None = None
    answered: frozenset[str] = frozenset()

    @cached_property
    def found(self) -> Found:
        """The numbers in the text."""
        return find(self.text, self.knowledge.names)

    @cached_property
    def said(self) -> Said:
        """What is said beside them."""
        return hear(self.text, self.knowledge.names, self.found)

    @cached_property
    def around(self) -> str:
        """The text with `#` in the place of each number."""
        text = self.text
        for token in reversed(self.found.tokens):
            text = f"{text[: token.start]}#{text[token.end :]}"
        return text

    @property
    def tokens(self) -> tuple[SerialToken, ...]:
        """The numbers that may be meant: those of a digit or two count only where words call them a serial number."""
        return tuple(one for one in self.found.tokens if one.introduced or len(one.digits) >= _LEAST_DIGITS)


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether to speak, and the rule that decided; `unasked` when nobody spoke to the bot."""

    speak: bool
    rule: str
    unasked: bool = False


_SILENT, _SPEAK, _UNASKED = (False, False), (True, False), (True, True)
_Test = Callable[[Scene], bool]


def judge(scene: Scene) -> Verdict:
    """Decide about one message. Never raises on any text."""
    for rule, (speak, unasked), test in RULES:
        if test(scene):
            return Verdict(speak, rule, unasked)
    return Verdict(False, "no-question")


def _goes_on(scene: Scene) -> bool:
    """The writer goes on with the bot: answers its question, or puts the number right."""
    is_late = scene.since_reply is None or scene.since_reply > OPEN_FOR
    if is_late or scene.to_member or scene.forwarded or not scene.state.text:
        return False
    return _answers_back(scene) or _puts_right(scene)


def _answers_back(scene: Scene) -> bool:
    """A few words that answer the open question, and nothing else."""
    asked = scene.state.asked
    if asked is None or len(scene.text.split()) > 2 * _FEW_WORDS or (scene.tokens and asked.about != "number"):
        return False
    if kind_word(scene.text) or _is_question(scene.text):
        return False
    told = understood(scene.text, asked, scene.knowledge)
    return told is not None or (is_unsure(scene.text) and len(scene.text.split()) <= _FEW_WORDS)


def _puts_right(scene: Scene) -> bool:
    """A number much like the one that was answered, alone or with words of correction."""
    before = find(scene.state.text, scene.knowledge.names).tokens
    if len(scene.tokens) != 1 or not before or scene.tokens[0].serial in scene.answered:
        return False
    return is_slip(scene.tokens[0], before[0]) and len(_words_beside(scene)) <= 2 * _FEW_WORDS


def is_slip(one: SerialToken, other: SerialToken) -> bool:
    """Tell whether two numbers differ by a slip of typing: a digit or two, a zero in front, a letter."""
    if one.digits.lstrip("0") == other.digits.lstrip("0"):
        return True
    if len(one.digits) == len(other.digits):
        return sum(a != b for a, b in zip(one.digits, other.digits, strict=True)) <= 2
    short, long = sorted((one.digits, other.digits), key=len)
    return len(long) - len(short) <= 2 and (long.startswith(short) or long.endswith(short))


def _wants_to_know(scene: Scene) -> bool:
    """A number, and the wish to know something of the machine that carries it."""
    if not scene.tokens or is_of_now(scene.around) or "value" in scene.said.asks:
        return False
    if _is_asked_of(scene):
        return True
    if scene.to_member:
        return False
    if scene.said.asks & IDENTITY and _asks_aloud(scene) and not is_about_something_else(scene.around):
        return True
    if is_elsewhere(scene.around) or (only_reports(scene.around) and not _is_question(scene.text)):
        return False
    return any(test(scene) for test in _WAYS_OF_ASKING)


def _asks_aloud(scene: Scene) -> bool:
    """Whether the message asks: a question mark, or words of asking; what was asked elsewhere is no question."""
    if _is_question(scene.text):
        return True
    return (asks_of_it(scene.around) or is_vague(scene.around)) and not only_reports(scene.around)


def _is_question(text: str) -> bool:
    return any(mark in text for mark in "?？؟")


def _is_asked_of(scene: Scene) -> bool:
    """Asked in so many words; in an answer to a member only with a question mark as well."""
    if scene.to_member and not _is_question(scene.text):
        return False
    return asks_of_it(scene.around) and not only_reports(scene.around) and not is_paperwork(scene.around)


def _is_vague_about_it(scene: Scene) -> bool:
    """'Any ideas?' beside a number that is called one, or 'anything about' the number itself."""
    if not is_vague(scene.around) or is_about_something_else(scene.around):
        return False
    named = bool(scene.said.makers) and len(_words_beside(scene) - _LABELS) <= _FEW_WORDS
    return named or any(token.introduced for token in scene.tokens) or is_about_it(scene.around)


def _is_to_be_confirmed(scene: Scene) -> bool:
    """A guess at model, maker, works or year, and the question whether it is right."""
    guessed = bool(scene.said.models or scene.said.works or scene.said.dates)
    if not (guessed or is_aged(scene.around)):
        return False
    return asks_to_confirm(scene.around) and (_is_question(scene.text) or is_aged(scene.around))


def _is_of_a_quality(scene: Scene) -> bool:
    """A question that names year, age or model beside the number: 'can the year be told from # ?'."""
    wants = _is_question(scene.text) and names_a_quality(scene.around)
    return wants and not is_about_something_else(scene.around) and not is_paperwork(scene.around)


def _is_bare(scene: Scene) -> bool:
    """Nothing but the number, and perhaps the name of its maker; mere digits must be called a number as well."""
    if scene.text.lstrip().startswith("*"):
        return False  # how people put right what they wrote before
    beside = _words_beside(scene) - _LABELS
    known = bool(scene.said.makers or scene.said.models)
    sure = known or all(token.prefix or token.suffix or token.introduced for token in scene.tokens)
    return len(scene.tokens) == 1 and sure and (not beside or (known and len(beside) <= 3))


def _is_shown_with_a_question_mark(scene: Scene) -> bool:
    """A question mark right behind a number that is called one: 'found this in the attic, number #??'."""
    last = scene.tokens[-1]
    behind = scene.text[last.end : last.end + 4].lstrip()
    called = last.introduced or len(_words_beside(scene) - _LABELS) <= 1
    return behind.startswith(("?", "？")) and called and not scene.said.asks - IDENTITY


def _words_beside(scene: Scene) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W\d_]{2,}", lower(scene.around)))


def _shows_a_picture(scene: Scene) -> bool:
    """A picture without a number, and a question about the age, the model or the maker of what it shows."""
    if not scene.picture or scene.tokens or scene.to_member:
        return False
    if is_elsewhere(scene.text) or is_about_people(scene.text):
        return False
    return bool(scene.said.asks & (IDENTITY | {"where"})) and _asks_aloud(scene)


def _looks_for_the_number(scene: Scene) -> bool:
    return not scene.to_member and "where" in scene.said.asks and _is_question(scene.text) and not scene.tokens


def _marked(scene: Scene) -> bool:
    """A number of a patent or a registered design, and a question about it."""
    has = any(one.registers for one in scene.found.passed_over)
    return has and not scene.to_member and bool(scene.said.asks & IDENTITY) and _asks_aloud(scene)


def _answered_already(scene: Scene) -> bool:
    return bool(scene.tokens) and all(token.serial in scene.answered for token in scene.tokens)


def _asks(scene: Scene) -> bool:
    return any(test(scene) for test in (_wants_to_know, _shows_a_picture, _looks_for_the_number, _marked))


_WAYS_OF_ASKING: Sequence[_Test] = (
    _is_vague_about_it, _is_of_a_quality, _is_to_be_confirmed, _is_bare, _is_shown_with_a_question_mark,
)  # fmt: skip

RULES: Sequence[tuple[str, tuple[bool, bool], _Test]] = (
    ("another-bot", _SILENT, lambda scene: scene.by_machine and not scene.addressed),
    ("private", _SPEAK, lambda scene: scene.is_private),
    ("addressed", _SPEAK, lambda scene: scene.addressed),
    ("goes-on", _SPEAK, _goes_on),
    ("not-addressed", _SILENT, lambda scene: scene.speak == "addressed"),
    ("answered-already", _SILENT, _answered_already),
    ("spoke-lately", _SILENT,
     lambda scene: scene.since_unasked is not None and scene.since_unasked < UNASKED_EVERY),
    ("question", _UNASKED, _asks),
    ("serial", _UNASKED,
     lambda scene: scene.speak == "any-serial" and bool(scene.tokens) and not scene.to_member),
    ("members-talk", _SILENT, lambda scene: scene.to_member),
)  # fmt: skip
"""The first that holds decides; none: silence."""

_LABELS = frozenset(
    "serial number serialnumber no nr num sn reads says seriennummer fabriknummer numero serie matricola matricule "
    "serienummer numer seryjny номер серийный tillverkningsnummer the my machine hi hello hallo hey bonjour hola ciao "
    "hej привет it is stamped and".split()
)
"""Words that only introduce a number."""
