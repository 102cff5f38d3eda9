"""Numbers said in words are rewritten as they would be stamped, keeping their places in the text.

`kay, zero two oh four one one seven` becomes `K0204117`, `K twenty forty-one seventeen` becomes `K204117`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from knowledge.tokens import number_words as words
from knowledge.tokens.fold import Change, Folded, fold_word
from knowledge.tokens.number_reading import TOGETHER, WRITTEN, NumberReading, SaidWord
from knowledge.tokens.number_words import DIGIT_WORDS, LETTER_NAMES, MEANINGS, REPEATS, SPELLED

_FEWEST: Final = 4  # digits that are a number
_FEWEST_WITH_TENS: Final = 5  # 'nineteen twenty-one' is a year
_REPEATS: Final = {fold_word(word): times for word, times in REPEATS.items()}
_ZERO_WORDS: Final = frozenset(word for each in DIGIT_WORDS.values() for word in each[0].split()) - {"oh"}
_ZEROS: Final = _ZERO_WORDS | frozenset(map(fold_word, _ZERO_WORDS))
_AS_WRITTEN: Final = words.AS_WRITTEN | frozenset(REPEATS) | frozenset(_REPEATS)
_BESIDE_DIGITS: Final = _ZEROS | words.ONLY_LETTERS
_LONG: Final = 12  # letters of a word that may be several digits written together
_MOST: Final = 40  # words of one number
_TOKEN: Final = re.compile(r"[^\W\d_]+|\d+")
_THEN: Final = frozenset(map(fold_word, "and then und dann et puis y luego e poi en i potem и och sedan".split()))
_BETWEEN: Final = re.compile(r"[ ,.\-/\n]{1,4}")
_RUN_TOGETHER: Final = re.compile(rf"(?:{TOGETHER.pattern}){{4,9}}")


def says_digits(said: list[str], *, written: bool) -> bool:
    """Say whether a text, whose words in lower case are `said`, may hold numbers in words.

    Two such words in a row do, and a zero or the name of a letter where there are `written` digits too.
    """
    if written and not _BESIDE_DIGITS.isdisjoint(said):
        return True
    if sum(map(_AS_WRITTEN.__contains__, said)) > 1:
        letters = (word for word in said if not word.isdigit())
        if any(a in _AS_WRITTEN and b in _AS_WRITTEN for a, b in pairwise(letters)):
            return True
    if max(map(len, said), default=0) < _LONG:
        return False
    return any(
        len(word) >= _LONG and (word in _AS_WRITTEN or _RUN_TOGETHER.fullmatch(fold_word(word))) for word in said
    )


def rewrite_spoken(folded: Folded) -> Folded:
    """Return the text with runs of number words as digits."""
    text = folded.plain
    changes = [change for letter, run in _runs(text) if (change := _change(text, letter, run))]
    return folded.rewritten(changes) if changes else folded


def _runs(text: str) -> Iterator[tuple[re.Match[str] | None, list[SaidWord]]]:
    """Give the runs of number words, each with the word before it where that may be a letter."""
    run: list[SaidWord] = []
    before: re.Match[str] | None = None
    last: re.Match[str] | None = None
    for match in _TOKEN.finditer(text.lower()):
        word = _read(match, text)
        close = last is not None and _BETWEEN.fullmatch(text, last.end(), match.start())
        if run and (not close or len(run) == _MOST or _is_written(run, text[run[-1].end : match.start()])):
            yield before, run
            run, last = [], None
        if word is None:
            if run:
                yield before, run
            run = []
        else:
            if not run:
                before = last
            run.append(word)
        last = match
    if run:
        yield before, run


def _is_written(run: list[SaidWord], gap: str) -> bool:
    """'440 219, four hundred ...': the number in digits, and then in words."""
    return "," in gap and sum(len(word.text) if word.text.isdigit() else -99 for word in run) >= _FEWEST_WITH_TENS


def _read(match: re.Match[str], text: str) -> SaidWord | None:
    word = match.group()
    start, end = match.span()
    if word.isdigit():
        return SaidWord(start, end, word, {"": (WRITTEN, 0)}) if len(word) < 8 else None
    if word in _REPEATS:
        return SaidWord(start, end, word, {"": (words.REPEAT, _REPEATS[word])})
    if word == "o" and (text[start].isupper() or text[start - 1 : start] == "-"):
        return SaidWord(start, end, word, {"English": (words.UNIT, 0)})
    meanings = MEANINGS.get(word, {})
    if not meanings and len(word) >= _LONG and _RUN_TOGETHER.fullmatch(word):
        return SaidWord(start, end, word, {"": (WRITTEN, 1)})
    return SaidWord(start, end, word, meanings) if meanings or word in _THEN else None


def _change(text: str, letter: re.Match[str] | None, run: list[SaidWord]) -> Change | None:
    language, run = _in_one_language(run)
    read = NumberReading(text, language, run)
    digits = read.digits()
    name = _letter(letter, text, language) if letter and run else ""
    if letter and not (run and _BETWEEN.fullmatch(text, letter.end(), run[0].start)):
        name = ""
    if not run or not (_is_a_number(read, digits) or (name and _leads_or_names(letter, run, digits))):
        return None
    start = letter.start() if name and letter else run[0].start
    return Change(start, run[-1].end, name + digits, (start, run[-1].end))


def _in_one_language(run: list[SaidWord]) -> tuple[str, list[SaidWord]]:
    """Return the language that knows most of the words, and the longest stretch it knows all of."""
    best: tuple[str, list[SaidWord]] = ("", [])
    for language in DIGIT_WORDS:
        stretch: list[SaidWord] = []
        for word in [*run, None]:
            if word is not None and (word.in_language(language) or word.text in _THEN):
                stretch.append(word)
                continue
            stretch = _trimmed(stretch, language)
            if _known(stretch, language) > _known(best[1], best[0]):
                best = language, stretch
            stretch = []
    return best


def _known(stretch: list[SaidWord], language: str) -> int:
    return sum(2 if word.meanings.get(language) else 1 for word in stretch)


def _trimmed(stretch: list[SaidWord], language: str) -> list[SaidWord]:
    while stretch and not stretch[0].meanings:
        stretch = stretch[1:]
    while stretch and (not stretch[-1].meanings or stretch[-1].in_language(language) is None):
        stretch = stretch[:-1]
    return stretch


def _is_a_number(read: NumberReading, digits: str) -> bool:
    if read.plain:
        return len(digits) >= _FEWEST and (read.spoken > 1 or (read.spoken == 1 and _leads_with_zero(read, digits)))
    return len(digits) >= _FEWEST_WITH_TENS and (read.groups > 1 or read.with_rest)


def _leads_with_zero(read: NumberReading, digits: str) -> bool:
    """'K zero 204117': the zero that is so easily dropped, said in words before the digits."""
    first = read.run[0]
    if read.parts[0] == (WRITTEN, 1):
        return True
    return read.parts[0] == (words.UNIT, 0) and first.text != "oh" and not digits.startswith("00")


def _leads_or_names(letter: re.Match[str] | None, run: list[SaidWord], digits: str) -> bool:
    """'kay 204117': the name of a letter that is nothing else stands before written digits."""
    return bool(letter and letter.group() in words.ONLY_LETTERS and len(digits) >= _FEWEST)


def _letter(match: re.Match[str], text: str, language: str) -> str:
    word = match.group()
    if len(word) == 1:
        return word.upper() if text[match.start()].isupper() and word not in "ai" else ""
    if word in words.ONLY_ENGLISH and language != "English":
        return ""
    if word in LETTER_NAMES:
        return LETTER_NAMES[word]
    name = SPELLED.get(word, "")
    return name if name.isascii() and text[match.start()].isupper() else ""
