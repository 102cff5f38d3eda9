"""Digits said in words are rewritten as they would be stamped, keeping their places in the text.

`kay, zero two oh four one one seven` becomes `K0204117`.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Final

from knowledge.tokens.fold import Change, Folded, fold_word

DIGIT_WORDS: Final[dict[str, tuple[str, ...]]] = {  # zero to nine
    "English": ("zero oh nought naught nil", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    "German": ("null", "eins", "zwei zwo", "drei", "vier", "fünf fuenf", "sechs", "sieben", "acht", "neun"),
    "French": ("zéro", "un une", "deux", "trois", "quatre", "cinq", "six", "sept", "huit", "neuf"),
    "Spanish": ("cero", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve"),
    "Italian": ("zero", "uno", "due", "tre", "quattro", "cinque", "sei", "sette", "otto", "nove"),
    "Dutch": ("nul", "een één", "twee", "drie", "vier", "vijf", "zes", "zeven", "acht", "negen"),
    "Polish": ("zero", "jeden", "dwa", "trzy", "cztery", "pięć", "sześć", "siedem", "osiem", "dziewięć"),
    "Russian": ("ноль нуль", "один", "два", "три", "четыре", "пять", "шесть", "семь", "восемь", "девять"),
    "Swedish": ("noll", "ett", "två", "tre", "fyra", "fem", "sex", "sju", "åtta", "nio"),
    "Danish, Norwegian": ("nul null", "en én", "to", "tre", "fire", "fem", "seks", "syv sju", "otte åtte", "ni"),
    "Portuguese": ("zero", "um", "dois", "três", "quatro", "cinco", "seis", "sete", "oito", "nove"),
    "Czech": ("nula", "jedna", "dva", "tři", "čtyři", "pět", "šest", "sedm", "osm", "devět"),
}
LETTER_NAMES: Final[dict[str, str]] = {  # in English, by radio, and German 'ka'
    "alpha": "A", "bee": "B", "bravo": "B", "cee": "C", "charlie": "C", "dee": "D", "delta": "D", "echo": "E",
    "ef": "F",
    "eff": "F", "foxtrot": "F", "gee": "G", "golf": "G", "aitch": "H", "haitch": "H", "hotel": "H", "jay": "J",
    "juliet": "J", "kay": "K", "ka": "K", "kah": "K", "kilo": "K", "el": "L", "ell": "L", "lima": "L", "em": "M",
    "mike": "M", "en": "N", "november": "N", "oscar": "O", "pee": "P", "papa": "P", "cue": "Q", "kew": "Q",
    "quebec": "Q", "ar": "R", "romeo": "R", "ess": "S", "sierra": "S", "tee": "T", "tango": "T", "uniform": "U",
    "vee": "V", "victor": "V", "double-u": "W", "whiskey": "W", "ex": "X", "xray": "X", "wye": "Y", "yankee": "Y",
    "zed": "Z", "zee": "Z", "zulu": "Z",
}  # fmt: skip
REPEATS: Final = {"double": 2, "triple": 3, "treble": 3, "doppel": 2, "doppelt": 2}


def _digits() -> dict[str, str]:
    table: dict[str, str] = {}
    for language in DIGIT_WORDS.values():
        for digit, words in enumerate(language):
            for word in words.split():
                table.setdefault(fold_word(word), str(digit))
    return table


_DIGITS: Final = _digits()
_ZERO_WORDS: Final = frozenset(word for words in DIGIT_WORDS.values() for word in words[0].split()) - {"oh"}
_ZEROS: Final = _ZERO_WORDS | frozenset(map(fold_word, _ZERO_WORDS))
_AS_WRITTEN: Final = frozenset(
    form
    for language in DIGIT_WORDS.values()
    for words in language
    for word in words.split()
    for form in (word, fold_word(word))
) | frozenset(REPEATS)
_WORD: Final = re.compile(r"[^\W\d_]+")
_ONE_WORD: Final = re.compile(
    "|".join(
        sorted(map(fold_word, " ".join((*DIGIT_WORDS["German"], *DIGIT_WORDS["Dutch"])).split()), key=len, reverse=True)
    )
)
_RUN_TOGETHER: Final = re.compile(
    "(?:"
    + "|".join(
        {
            form
            for language in ("German", "Dutch")
            for w in " ".join(DIGIT_WORDS[language]).split()
            for form in (w, fold_word(w))
            if len(w) > 2
        }
    )
    + "){4,9}"
)
_FEWEST: Final = 4  # digit words in a row that are a number
_TOKEN: Final = re.compile(r"[^\W\d_]+|\d+")
_THEN: Final = frozenset("and then und dann et y e en".split())
_BETWEEN: Final = re.compile(r"[ ,.\-/\n]{1,4}|,? (?:" + "|".join(sorted(_THEN)) + ") ")


def says_digits(text: str, words: list[str]) -> bool:
    """Say whether a text, whose `words` in lower case these are, may hold digits in words.

    Two such words in a row do, and a zero beside written digits.
    """
    if _AS_WRITTEN.isdisjoint(words):
        return any(len(word) > 11 and _RUN_TOGETHER.fullmatch(word) for word in words)
    if any(a in _AS_WRITTEN and b in _AS_WRITTEN for a, b in pairwise(words)):
        return True
    return not _ZEROS.isdisjoint(words) and any(character.isdigit() for character in text)


def rewrite_spoken(folded: Folded) -> Folded:
    """Return the text with runs of digit words as digits."""
    changes: list[Change] = []
    run: list[tuple[int, int, str, bool]] = []
    repeat = 1
    text = folded.plain
    for match in _TOKEN.finditer(text.lower()):
        word = match.group()
        if run and word in _THEN:
            continue
        if run and not _BETWEEN.fullmatch(text, run[-1][1], match.start()):
            changes += _change(run, text)
            run, repeat = [], 1
        if word in REPEATS:
            run.append((match.start(), match.end(), "", True))
            repeat = REPEATS[word]
        elif len(word) > 11 and _RUN_TOGETHER.fullmatch(word):
            digit = "".join(_DIGITS[part] for part in _ONE_WORD.findall(word))
            run += [(match.start(), match.end(), digit, True), (match.end(), match.end(), "", True)]
        elif word in _DIGITS or (word.isdigit() and len(word) < 8):
            digit = _DIGITS.get(word, word)
            run.append((match.start(), match.end(), digit * repeat, not word.isdigit()))
            repeat = 1
        else:
            changes += _change(run, text)
            run, repeat = _letter(match, text), 1
    return folded.rewritten(changes + _change(run, text)) if changes or _change(run, text) else folded


def _letter(match: re.Match[str], text: str) -> list[tuple[int, int, str, bool]]:
    word = match.group()
    letter = LETTER_NAMES.get(word, "")
    if not letter and len(word) == 1 and text[match.start()].isupper() and word not in "ai":
        letter = word.upper()
    return [(match.start(), match.end(), letter, False)] if letter else []


def _change(run: list[tuple[int, int, str, bool]], text: str) -> list[Change]:
    spoken = sum(part[3] for part in run)
    new = "".join(part[2] for part in run)
    digits = new.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    if len(digits) < _FEWEST or not (spoken > 1 or (spoken and _leads_with_zero(run, text))):
        return []
    return [Change(run[0][0], run[-1][1], new, (run[0][0], run[-1][1]))]


def _leads_with_zero(run: list[tuple[int, int, str, bool]], text: str) -> bool:
    """'K zero 204117': the zero that is so easily dropped, said in words before the digits."""
    place = 0 if run[0][2].isdigit() else 1
    start, end, digit, spoken = run[place]
    follows = "".join(part[2] for part in run[place + 1 :])
    return digit == "0" and spoken and not follows.startswith("0") and text[start:end].lower() != "oh"
