"""When the bot speaks in a group: an ordered table of rules over what is known of one message.

    message -> Scene -> first rule that decides -> Verdict(speak, rule)

How much it says unasked is the group's choice (`speak` in the settings): `addressed`, only when it is spoken to;
`questions`, also when somebody gives a number and wants to know something of it; `any-serial`, at any number. An
answer to something that was no question is worse than silence.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from bot.choices import understood
from bot.curiosity import (
    Message,
    Weighed,
    gives_a_number,
    is_bare,
    is_elsewhere,
    is_keywords,
    is_shown_with_a_question_mark,
    listen,
    weigh,
)
from bot.lately import Line
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
TALKING = 180.0
"""Seconds in which a line that follows another member's may be an answer to it."""
_FEW_WORDS = 6
_LEAST_DIGITS = 3
_NOTHING = State()


@dataclass(frozen=True)
class Scene:
    """What is known of a message when it is decided. Times are seconds.

    `by_machine`: written by another bot, or posted by no person. `addressed`: the bot is named, answered or given a
    command. `to_member`: it answers another member, or calls one by name. `state` is where the writer's conversation
    with the bot stands, `since_reply` how long ago the bot last answered them, `since_unasked` the same for replies
    that nobody asked for; None for never. `answered` are the numbers that this person was answered lately. `recent`
    are the lines before it in the same talk, the newest last, as far as they are known.
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
    recent: tuple[Line, ...] = ()

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

    @cached_property
    def message(self) -> Message:
        """The text as its words are weighed."""
        found, names = replace(self.found, tokens=self.tokens), self.knowledge.names
        return listen(self.text, found, self.said, names, shown=self.picture, to_member=self.to_member)

    @cached_property
    def weighed(self) -> Weighed:
        """How much it asks."""
        return weigh(self.message)

    @cached_property
    def between_members(self) -> bool:
        """Whether the line before is another member's, and asks something or answers the writer of this one."""
        if not self.recent or self.recent[-1].mine or self.recent[-1].ago > TALKING:
            return False
        before = self.recent[:-1]
        return _is_question(self.recent[-1].text) or any(line.mine and line.ago <= 2 * TALKING for line in before)

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


def _is_question(text: str) -> bool:
    return any(mark in text for mark in "?？؟")


def _words_beside(scene: Scene) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W\d_]{2,}", lower(scene.around)))


def _asks_of_a_number(scene: Scene) -> bool:
    """A number, and the wish to know something of the machine that carries it."""
    return bool(scene.tokens) and (scene.weighed.is_question or _is_put_before_the_room(scene) or _asked_before(scene))


def _is_put_before_the_room(scene: Scene) -> bool:
    """A number without a sentence that asks, and no part of a talk of two members."""
    if scene.to_member:
        return False
    alone = is_bare(scene.message) or is_shown_with_a_question_mark(scene.message)
    return is_keywords(scene.message) or (alone and not scene.between_members)


def _asked_before(scene: Scene) -> bool:
    """The writer asked in a message before, without a number, and now gives it."""
    if scene.to_member or not gives_a_number(scene.message):
        return False
    own = (line.text for line in scene.recent if line.mine and line.ago <= OPEN_FOR)
    return any(_asks_without_a_number(text, scene.knowledge) for text in own)


def _asks_without_a_number(text: str, knowledge: Knowledge) -> bool:
    earlier = Scene(text, knowledge)
    of_a_machine = earlier.message.means & {"machine", "name", "have"}
    return bool(of_a_machine) and not earlier.tokens and earlier.weighed.is_question


def _shows_a_picture(scene: Scene) -> bool:
    """A picture without a number, and a question about the age, the model or the maker of what it shows."""
    return scene.picture and not scene.tokens and not scene.to_member and scene.weighed.is_question


def _looks_for_the_number(scene: Scene) -> bool:
    asked = "where" in scene.said.asks and _is_question(scene.text) and not scene.tokens
    return asked and not scene.to_member and not is_elsewhere(scene.message)


def _marked(scene: Scene) -> bool:
    """A number of a patent or a registered design, and a question about it."""
    has = any(one.registers for one in scene.found.passed_over)
    return has and not scene.to_member and scene.weighed.is_question


def _answered_already(scene: Scene) -> bool:
    return bool(scene.tokens) and all(token.serial in scene.answered for token in scene.tokens)


def _asks(scene: Scene) -> bool:
    return any(test(scene) for test in (_asks_of_a_number, _shows_a_picture, _looks_for_the_number, _marked))


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
