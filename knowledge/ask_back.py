"""The one question back: the one whose answer settles most.

For each question that could be asked (how many digits, does it begin with a zero, which letter, which maker, model,
works) the candidates of a token fall into groups by the answer they would give. The gain is the mutual information,
in bits, between that answer and the dating (date, maker and model), with the likelihoods as probabilities:

    gain = H(dating) - sum over answers of P(answer) x H(dating | answer)

The question of the greatest gain is asked, the earlier of the table where two gain nearly the same; none when the best
gains less than LEAST_GAIN, for then no answer would change anything. To read the whole number out once more would
settle most of all, but it is a burden: it is asked only where no other question gains enough.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from knowledge import wording
from knowledge.base import Knowledge
from knowledge.candidates import FINDING, Candidate
from knowledge.said import Said

LEAST_GAIN = 0.12
"""Bits. A choice that is right in all but one or two of a hundred cases gains about this much."""
LEAST_SHARE = 0.02
"""Choices that are less likely than this, of all candidates, are not offered."""
MOST_CHOICES = 6
NEARLY = 0.95
"""Of two questions that gain nearly the same, by this factor, the easier one is asked."""


@dataclass(frozen=True, slots=True)
class AskBack:
    """One question with its choices; `token` is the number it is about, `about` names the kind of question."""

    text: str
    choices: tuple[str, ...]
    token: int
    about: str


class _Question(NamedTuple):
    about: str
    text: str
    answer: Callable[[Candidate, Knowledge], Hashable]
    choice: Callable[[Candidate, Knowledge], str]
    asked: Callable[[Said], bool]


def _digits(one: Candidate, _: Knowledge) -> int:
    return one.reading.digit_count


_QUESTIONS: tuple[_Question, ...] = (
    _Question(
        "digits", "How many digits are stamped on the machine, counting every zero?",
        _digits, lambda one, _: wording.digits_of(one.reading.digit_count), lambda said: said.digit_count is not None,
    ),
    _Question(
        "zero", "Is the first digit a zero?",
        lambda one, _: one.reading.digits.startswith("0"),
        lambda one, _: "it starts with zero" if one.reading.digits.startswith("0") else "no zero in front",
        lambda said: said.leading_zero is not None,
    ),
    _Question(
        "letter", "Is there a letter before the digits, and which?",
        lambda one, _: one.reading.prefix,
        lambda one, _: f"letter {one.reading.prefix}" if one.reading.prefix else "no letter",
        lambda said: said.prefix is not None,
    ),
    _Question(
        "maker", "Whose name is on the machine?",
        lambda one, _: one.maker, wording.maker_name, lambda said: bool(said.makers),
    ),
    _Question(
        "model", "Which model is it, if you know?",
        lambda one, _: one.model,
        lambda one, known: wording.model_name(one, known) if one.model else "",
        lambda said: bool(said.models),
    ),
    _Question(
        "works", "Does the machine say where it was made?",
        lambda one, _: one.works, wording.works_name, lambda said: bool(said.works),
    ),
)  # fmt: skip
"""The easiest to answer come first."""

_READ_AGAIN = _Question(
    "number", "Please read the number once more, digit by digit: which is it?",
    lambda one, _: one.serial, lambda one, _: one.serial, lambda said: False,
)  # fmt: skip


def ask_back(candidates: Sequence[Candidate], knowledge: Knowledge, said: Said) -> AskBack | None:
    """Return the question that settles most about the first number that needs one; None when nothing would change."""
    by_token: defaultdict[int, list[Candidate]] = defaultdict(list)
    for one in candidates:
        if one.token is not None:
            by_token[one.token].append(one)
    for token in sorted(by_token):
        asked = _best(_filled(by_token[token]), knowledge, said, token)
        if asked:
            return asked
    return None


def _filled(candidates: Sequence[Candidate]) -> Sequence[Candidate]:
    """Return candidates of one token, the gaps of findings filled by what lists say of their number.

    An expert who says nothing of a model or date leaves it to the list: no owner could tell the two apart.
    """
    if not any(one.kind == FINDING for one in candidates):
        return candidates
    listed = {(one.serial, one.maker): one for one in reversed(candidates) if one.register}
    filled = []
    for one in candidates:
        beside = listed.get((one.serial, one.maker), one) if one.kind == FINDING else one
        gaps = {name: getattr(one, name) or getattr(beside, name) for name in ("date", "model", "works")}
        filled.append(one._replace(**gaps))
    return filled


def _best(candidates: Sequence[Candidate], knowledge: Knowledge, said: Said, token: int) -> AskBack | None:
    gains = {
        question: gain(candidates, question.answer, knowledge)
        for question in _QUESTIONS
        if not question.asked(said) and len(_choices(candidates, question, knowledge)) > 1
    }
    most = max(gains.values(), default=0.0)
    best = next((question for question, bits in gains.items() if bits >= NEARLY * most), _READ_AGAIN)
    if most < LEAST_GAIN:
        best, most = _READ_AGAIN, gain(candidates, _READ_AGAIN.answer, knowledge)
    choices = _choices(candidates, best, knowledge)
    return AskBack(best.text, choices, token, best.about) if most >= LEAST_GAIN and len(choices) > 1 else None


def _choices(candidates: Sequence[Candidate], question: _Question, knowledge: Knowledge) -> tuple[str, ...]:
    shares: defaultdict[str, float] = defaultdict(float)
    for one in candidates:
        words = question.choice(one, knowledge)
        if words:
            shares[words] += one.likelihood
    total = sum(shares.values())
    likely = sorted(
        (words for words, share in shares.items() if share >= LEAST_SHARE * total), key=lambda w: -shares[w]
    )
    chosen = likely[:MOST_CHOICES]
    return tuple(sorted(chosen)) if question.about == "digits" else tuple(chosen)


def gain(
    candidates: Iterable[Candidate], answer: Callable[[Candidate, Knowledge], Hashable], knowledge: Knowledge
) -> float:
    """Return the bits that an answer tells about the dating."""
    joint: defaultdict[Hashable, defaultdict[Hashable, float]] = defaultdict(lambda: defaultdict(float))
    datings: defaultdict[Hashable, float] = defaultdict(float)
    for one in candidates:
        dating = (one.date, one.maker, one.model)
        joint[answer(one, knowledge)][dating] += one.likelihood
        datings[dating] += one.likelihood
    left = sum(sum(group.values()) * _entropy(group.values()) for group in joint.values())
    total = sum(datings.values())
    return _entropy(datings.values()) - left / total if total else 0.0


def _entropy(weights: Iterable[float]) -> float:
    known = [weight for weight in weights if weight > 0]
    total = sum(known)
    return -sum(weight / total * math.log2(weight / total) for weight in known) if total else 0.0
