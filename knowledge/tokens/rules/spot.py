"""What a rule is given: a place in the text with a digit, and what stands around it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from knowledge.names import Names
from knowledge.tokens import cues
from knowledge.tokens.context import Lead
from knowledge.tokens.fold import fold_word


@dataclass(frozen=True, slots=True)
class Spot:
    """A place with a digit, in folded text (`plain`; `low` the same in lower case).

    `start` and `end` are those of the unbroken piece, `digit` is its first digit, and `begin` its start with a letter
    that stands apart (`K 204117`). `lead` is what the words before say. Nothing before `floor` belongs to the piece.
    """

    plain: str
    low: str
    begin: int
    start: int
    digit: int
    end: int
    lead: Lead
    names: Names
    floor: int

    @property
    def typed(self) -> str:
        """The unbroken piece."""
        return self.plain[self.start : self.end]

    @property
    def bare(self) -> bool:
        """Whether no letters stand before the digits, attached or apart."""
        return self.begin == self.digit

    @property
    def word_before(self) -> str:
        """The word, or punctuation, just before the piece."""
        return self.lead.words[-1] if self.lead.words else ""

    @property
    def introduced(self) -> bool:
        """Whether a word for a number, or for a serial number, stands just before."""
        return self.lead.near and self.lead.kind in (cues.SERIAL, cues.NUMBER)

    def before(self, characters: int) -> str:
        """Return so many characters before the first digit, in lower case."""
        return self.low[max(self.digit - characters, self.floor) : self.digit]


Rule = Callable[[Spot], int]
"""Returns where the piece that is passed over ends, or 0 when the rule does not fit."""


def attached(pattern: str) -> Rule:
    """Return a rule for digits without attached letters: `pattern` matches from the first digit on, in lower case."""
    compiled = re.compile(pattern)

    def rule(spot: Spot) -> int:
        match = compiled.match(spot.low, spot.digit) if spot.start == spot.digit else None
        return match.end() if match else 0

    return rule


def bare(pattern: str) -> Rule:
    """Return a rule for digits without letters, attached or apart: `pattern` matches from the first digit on."""
    compiled = re.compile(pattern)

    def rule(spot: Spot) -> int:
        match = compiled.match(spot.low, spot.digit) if spot.begin == spot.digit else None
        return match.end() if match else 0

    return rule


def any_of(words: str) -> str:
    """Return a pattern for one of these words, as they stand in folded text, the longest first."""
    folded = {re.escape(fold_word(word)) for word in words.split()}
    return "(?:" + "|".join(sorted(folded, key=lambda word: (-len(word), word))) + ")"


def folded_set(words: str) -> frozenset[str]:
    """Return these words as they stand in folded text."""
    return frozenset(map(fold_word, words.split()))
