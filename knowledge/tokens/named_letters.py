"""Letters named apart from the number are put where they are stamped; the place in the text is that of the number.

`204117, with a K in front` and `letter K, digits 204117` become `K204117`; `204117, K at the end` becomes `204117 K`.

From a number the reading goes on, or comes back, over words that say nothing else to a letter that stands alone. The
letter is joined when one of the words, or one just before or behind, says what it is or where it stands.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from knowledge.tokens import letter_words as words
from knowledge.tokens.fold import Change, Folded, fold_word
from knowledge.tokens.letter_words import AS_IN, BACK, ENDS, FOLLOWED, FRONT, GLUE, LETTER, NO_SUCH, PRECEDED, STARTS

_FARTHEST: Final = 90  # characters between a number and its letter
_LEAD: Final = 40  # characters before a letter or a number in which the words about it stand


def _folded(phrases: str | Mapping[str, str]) -> set[str]:
    text = phrases if isinstance(phrases, str) else "|".join(phrases.values())
    return {fold_word(phrase) for phrase in text.split("|")}


def _any(phrases: set[str]) -> str:
    escaped = {re.escape(phrase).replace(r"\ ", " ") for phrase in phrases}
    return "(?:" + "|".join(sorted(escaped, key=lambda phrase: (-len(phrase), phrase))) + ")"


_TELLING: Final = {
    "preceded": _folded(PRECEDED),
    "followed": _folded(FOLLOWED),
    "starts": _folded(STARTS),
    "ends": _folded(ENDS),
    "front": _folded(FRONT),
    "back": _folded(BACK),
    "letter": _folded(LETTER),
}
_MEANING: Final = {phrase: kind for kind, phrases in reversed(_TELLING.items()) for phrase in phrases}
_NUMBERS: Final = _folded("number|nummer|numéro|número|numero|numer|номер|nr|numret|nummeret|číslo")
_PHRASES: Final = set(_MEANING) | _folded(GLUE)
_GAP: Final = r"[ ,;:.()\"'\n>=/-]{0,4}"
_PHRASE: Final = re.compile(
    rf"{_GAP}(?:(?P<phrase>{_any(_PHRASES)})(?:(?<=')|(?![^\W_]))|(?P<number>(?:no|nr|n|num)\b\.?(?= ?:? ?\d)|[#°])"
    rf"|\d (?={_any(_folded(words.NOT_A_NUMBER_OF_DIGITS))}))"
)
_LETTER_HERE: Final = re.compile(
    rf"{_GAP}(?!n[°.])(?P<letter>[a-z]{{1,3}})(?![^\W_])[\"')]{{0,2}}(?P<word>,? ?\(?{_any(_folded(AS_IN))} [\"']?"
    r"(?=(?P=letter))[^\W\d_]{3,12}[\"']?\)?)?"
)
_TOUCHING: Final = re.compile(r"[ .\-/:]{0,3}")
_OWN_DIGITS: Final = re.compile(r"[ /-]{0,2}\d")
_GAP_TO_NUMBER: Final = re.compile(rf"{_GAP}(?=\d)")
_NUMBER: Final = re.compile(r"(?<![\w.,/?*#-])\d(?:[ .,\-/]?[\d?*_]){2,11}(?![^\W_])")
_AFTER_DIGIT: Final = re.compile(r"\d ?\Z")  # the V of '110 V'
_LEADS: Final = re.compile(
    rf"(?<![^\W_])(?P<phrase>{_any(set(_MEANING))})(?:{_GAP}{_any(_folded(GLUE))}){{0,3}}{_GAP}\Z"
)
_NONE: Final = re.compile(
    rf"(?<![^\W_]){_any(_folded(NO_SUCH))}(?:{_GAP}{_any(_folded(GLUE) | _folded(LETTER))}){{0,3}}{_GAP}\Z"
)
_WORD_NEXT: Final = re.compile(r"(?: (?:first|then|had|have|also|just|only))? [^\W\d_]{3,}")
_LONE: Final = re.compile(r"(?<![^\W_])(?<!['&/.])[A-Za-z]{1,3}(?![^\W_]|['&]\w)")
_MAY_NAME: Final = re.compile(
    rf"(?<![^\W_])(?:{_any(set(_MEANING) | _folded(AS_IN) | _NUMBERS)})(?:(?<=')|(?![^\W_]))|(?<![^\W_])no?\b|#"
)
_LONE_CAPITAL: Final = re.compile(r"(?<![^\W_])[A-Za-z](?![^\W_])|(?<![^\W_])[A-Z]{2,3}(?![^\W_])")
_WORDS_OF_A_LETTER: Final = frozenset("aieoysuzwcvb")  # small, they are a letter only after a word for one
_NO_LETTERS: Final = frozenset(
    "a i uk us eu usa ok tv ps nb id no nr sn pn hi is it of to in on an at as by my me we so or if up do go be "
    "he the "
    "and not was but for has are its ser num max min der die das ist und von est une les des que der auf".split()
)


@dataclass(frozen=True, slots=True)
class _Named:
    letter: str
    front: bool
    start: int  # of what is rewritten: the letter, or the number's end
    end: int


def rewrite_named_letters(folded: Folded) -> Folded:
    """Return the text with letters named in words put before or after their number."""
    if not _LONE_CAPITAL.search(folded.plain):
        return folded
    low = folded.plain.lower()
    if not _MAY_NAME.search(low):
        return folded
    changes = list(_Reading(folded.plain, low).changes())
    return folded.rewritten(changes) if changes else folded


class _Reading:
    """Reads one message for numbers and the letters that belong to them."""

    def __init__(self, plain: str, low: str) -> None:
        self.plain = plain
        self.low = low
        self.letters = [match.start() for match in _LONE.finditer(plain)]
        self.done = 0  # nothing before is looked at again

    def changes(self) -> Iterator[Change]:
        """Give the changes of the text, in order."""
        for number in _NUMBER.finditer(self.low):
            if number.start() < self.done:
                continue
            named = self._before(number) or self._behind(number)
            if named is not None:
                yield from _changed(named, number.span())
                self.done = max(number.end(), named.end)
            else:
                self.done = number.end()

    def _before(self, number: re.Match[str]) -> _Named | None:
        first = bisect_left(self.letters, max(self.done, number.start() - _FARTHEST))
        last = bisect_left(self.letters, number.start())
        for place in self.letters[first:last][::-1]:
            letter = _LETTER_HERE.match(self.low, place)
            if (
                letter is None
                or letter.start("letter") != place
                or _AFTER_DIGIT.search(self.low, max(place - 2, 0), place)
            ):
                continue
            kinds, end = self._walk(letter.end(), number.start(), first_is_number=self._is_no_number_word(letter))
            gap = _GAP_TO_NUMBER.match(self.low, end)
            if gap is None or gap.end() != number.start() or self._is_none(place):
                continue
            lead = self._lead(place)
            touches = not letter["word"] and _TOUCHING.fullmatch(self.low, letter.end(), number.start())
            if touches and not {"back", "ends"}.intersection(lead):
                continue  # 'K 204117' is read as it stands
            front = _stands_in_front([*kinds, *lead, *(["letter"] if letter["word"] else [])], letter_first=True)
            if front is not None and self._is_letter(letter, lead):
                return _Named(letter["letter"].upper(), front, place, letter.end())
        return None

    def _behind(self, number: re.Match[str]) -> _Named | None:
        limit = min(number.end() + _FARTHEST, len(self.low))
        kinds, end = self._walk(number.end(), limit)
        letter = _LETTER_HERE.match(self.low, end)
        if letter is None or letter.end() == number.end() or self._is_none(letter.start("letter")):
            return None
        if not letter["word"] and _OWN_DIGITS.match(self.low, letter.end()):
            return None  # '1933. No de serie: D 0661402'
        lead = self._lead(letter.start("letter"))
        if letter["letter"] in "ia" and _WORD_NEXT.match(self.low, letter.end()):
            return None  # 'H 318771, I first wrote ...'
        after, last = self._walk(letter.end(), min(letter.end() + _LEAD, len(self.low)))
        if not (after and after[0] in ("front", "back", "letter")) or _GAP_TO_NUMBER.match(self.low, last):
            after, last = [], letter.end()
        before = self._lead(number.start())
        if self.low[number.end() : letter.start("letter")] == " ":  # '204117 K' is read as it stands
            before = [kind for kind in before if kind in ("back", "ends")]
        kinds = [*kinds, *after, *before, *(["letter"] if letter["word"] else [])]
        front = _stands_in_front(kinds, letter_first=False)
        if front is None or not self._is_letter(letter, lead):
            return None
        return _Named(letter["letter"].upper(), front, number.end(), last)

    def _walk(self, place: int, limit: int, *, first_is_number: bool = False) -> tuple[list[str], int]:
        """Walk over words that say nothing else; return what they tell, and where they end."""
        kinds: list[str] = []
        while place < limit:
            match = _PHRASE.match(self.low, place)
            if match is None or match.end() > limit or self._is_capital(match):
                break
            kind = _MEANING.get(match["phrase"] or "")
            if first_is_number and (match["number"] or match["phrase"] in _NUMBERS):
                kind = "letter"  # 'K no. 204117'
            first_is_number = False
            if kind:
                kinds.append(kind)
            place = match.end()
        return kinds, place

    def _is_capital(self, match: re.Match[str]) -> bool:
        """Say whether a phrase of one letter is a letter: a capital that no other letter follows."""
        place = match.start("phrase")
        return (
            len(match["phrase"] or "") == 1
            and self.plain[place].isupper()
            and re.match(r" [\"']?[A-Z]\b", self.plain[place + 1 : place + 5]) is None
        )

    def _lead(self, place: int) -> list[str]:
        match = _LEADS.search(self.low, max(self.done, place - _LEAD), place)
        return [_MEANING[match["phrase"]]] if match else []

    def _is_none(self, place: int) -> bool:
        return _NONE.search(self.low, max(self.done, place - _LEAD), place) is not None

    def _is_no_number_word(self, letter: re.Match[str]) -> bool:
        """Say whether one letter stands there that is not the 'N' of 'N° 204117' or the 'S' of 'S-nr'."""
        following = self.low[letter.end() : letter.end() + 1]
        return len(letter["letter"]) == 1 and letter["letter"] != "n" and following in " ,"

    def _is_letter(self, letter: re.Match[str], lead: list[str]) -> bool:
        typed = self.plain[letter.start("letter") : letter.end("letter")]
        if len(typed) > 1:
            return typed.isupper() and letter["letter"] not in _NO_LETTERS
        if typed.isupper() or letter["word"]:
            return True
        return typed not in _WORDS_OF_A_LETTER or "letter" in lead


def _stands_in_front(kinds: list[str], *, letter_first: bool) -> bool | None:
    """Say where the letter stands by what the words tell; None: they tell nothing of a letter."""
    told = set(kinds)
    if "preceded" in told and "followed" not in told:
        return not letter_first
    if "starts" in told or "ends" in told:
        return "starts" in told
    if "front" in told or "back" in told:
        return "front" in told
    if "followed" in told:
        return letter_first
    return True if "letter" in told else None


def _changed(named: _Named, number: tuple[int, int]) -> Iterator[Change]:
    start, end = number
    if named.start < start:
        yield Change(named.start, named.end, "", (start, start + 1))
    if named.front:
        yield Change(start, start, named.letter, (start, start + 1))
    if named.start >= end:
        yield Change(end, named.end, "" if named.front else f"/{named.letter}", (end - 1, end))
    elif not named.front:
        yield Change(end, end, f"/{named.letter}", (end - 1, end))
