"""From the words of one number, in one language, to its digits: 'twenty forty-one' to 2041."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from knowledge.tokens import number_words as words
from knowledge.tokens.fold import fold_word
from knowledge.tokens.number_words import DIGIT_WORDS, JOINING, MEANINGS, Meaning

WRITTEN: Final = "written"  # digits among the words
JOIN: Final = "join"  # and
TOGETHER: Final = re.compile(
    "|".join(
        sorted(
            {fold_word(w) for each in ("German", "Dutch") for w in " ".join(DIGIT_WORDS[each]).split() if len(w) > 2},
            key=lambda word: (-len(word), word),
        )
    )
)
"""One of the digit words that are written together: zweinullvier."""
_CLOSE: Final = re.compile(r"[ -]")
_SIMPLE: Final = frozenset({words.UNIT, words.REPEAT, WRITTEN, JOIN})


@dataclass(frozen=True, slots=True)
class SaidWord:
    """A word of a number, or digits among the words, where it stands in the folded text."""

    start: int
    end: int
    text: str
    meanings: dict[str, Meaning]  # by language; '' for every language

    def in_language(self, language: str) -> Meaning | None:
        """Return what the word means in a language."""
        if self.text in JOINING.get(language, ()):
            return JOIN, 0
        return self.meanings.get("") or self.meanings.get(language)


class NumberReading:
    """Reads a run of number words of one language, group after group, into digits."""

    def __init__(self, text: str, language: str, run: list[SaidWord]) -> None:
        self.text = text
        self.language = language
        self.run = run
        self.parts = [word.in_language(language) or (JOIN, 0) for word in run]
        self.place = 0
        self.groups = 0
        self.with_rest = False
        self.plain = all(kind in _SIMPLE for kind, _ in self.parts)
        self.spoken = sum(kind not in (WRITTEN, JOIN) or value == 1 for kind, value in self.parts)

    def digits(self) -> str:
        """Return all the digits."""
        made: list[str] = []
        while self.place < len(self.parts):
            kind, value = self.parts[self.place]
            if kind == JOIN:
                self.place += 1
                if not self.plain and made and self.run[self.place - 1].text in JOINING.get(self.language, ()):
                    return ""  # 'between nineteen twenty and nineteen thirty'
                continue
            if kind == words.REPEAT:
                self.place += 1
                made.append(self._group() * value if self.place < len(self.parts) else "")
            else:
                made.append(self._group())
        return "".join(made)

    def _group(self) -> str:
        kind, value = self.parts[self.place]
        self.groups += 1
        if kind == WRITTEN:
            word = self.run[self.place].text
            self.place += 1
            return word if word.isdigit() else "".join(_digit(part) for part in TOGETHER.findall(word))
        if kind in (JOIN, words.REPEAT):
            self.place += 1
            return ""
        if kind in (words.HUNDRED, words.THOUSAND):
            self.place += 1
            return str(value)
        return str(self._below_a_million())

    def _below_a_million(self) -> int:
        value = self._below_a_thousand()
        if self._next(words.THOUSAND):
            self.place += 1
            value *= 1000
            if self._has_number():
                self.with_rest = True
                value += self._below_a_thousand()
        return value

    def _below_a_thousand(self) -> int:
        kind, value = self.parts[self.place]
        if kind == words.HUNDREDS:
            self.place += 1
            return value + self._rest()
        value = self._below_a_hundred()
        if self._next(words.HUNDRED):
            self.place += 1
            return value * 100 + self._rest()
        return value

    def _rest(self) -> int:
        place = self.place
        if self._next(JOIN):
            self.place += 1
        if self._has_number():
            value = self._below_a_hundred()
            if not self._next(words.HUNDRED):
                return value
        self.place = place
        return 0

    def _below_a_hundred(self) -> int:
        kind, value = self.parts[self.place]
        self.place += 1
        if kind == words.UNIT and value == 4 and self._next(words.TEN, 20) and self.language == "French":
            self.place += 1
            return 80 + self._unit(words.WHOLE)
        if kind == words.TEN:
            return value + self._unit(words.WHOLE if self.language == "French" and value == 60 else "")
        return value + self._after_ten(value)

    def _after_ten(self, value: int) -> int:
        """'dix-sept': in French ten takes seven, eight or nine after a hyphen."""
        if self.language != "French" or value != 10 or self.place >= len(self.parts):
            return 0
        kind, unit = self.parts[self.place]
        if kind != words.UNIT or unit < 7 or not self._is_close():
            return 0
        self.place += 1
        return unit

    def _unit(self, also: str) -> int:
        """Take the digit of 'forty-one', also after a joiner where the language has one."""
        place = self.place
        if self._next(JOIN) and self.language != "English":
            self.place += 1
        if self.place < len(self.parts) and self._is_close():
            kind, value = self.parts[self.place]
            if (kind == words.UNIT and value) or kind == also:
                self.place += 1
                return value + self._after_ten(value)
        self.place = place
        return 0

    def _is_close(self) -> bool:
        return _CLOSE.fullmatch(self.text, self.run[self.place - 1].end, self.run[self.place].start) is not None

    def _has_number(self) -> bool:
        return self.place < len(self.parts) and self.parts[self.place][0] in (words.UNIT, words.WHOLE, words.TEN)

    def _next(self, kind: str, value: int | None = None) -> bool:
        if self.place >= len(self.parts):
            return False
        return self.parts[self.place][0] == kind and value in (None, self.parts[self.place][1])


def _digit(word: str) -> str:
    return next(str(value) for kind, value in MEANINGS[word].values() if kind == words.UNIT)
