"""Numbers said in words are rewritten as they would be stamped, keeping their places in the text.

`kay, zero two oh four one one seven` becomes `K0204117`; `204117, with a K in front` and `letter K, digits 204117` become
`K204117`.
"""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens.fold import Folded, fold_word

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
LETTER_NAMES: Final[dict[str, str]] = {  # English names of letters that are not words of their own
    "kay": "K", "jay": "J", "bee": "B", "cee": "C", "dee": "D", "ef": "F", "eff": "F", "gee": "G", "aitch": "H", "haitch": "H",
    "ell": "L", "el": "L", "em": "M", "en": "N", "pee": "P", "cue": "Q", "kew": "Q", "ar": "R", "ess": "S", "tee": "T",
    "vee": "V", "double-u": "W", "ex": "X", "wye": "Y", "zed": "Z", "zee": "Z", "ka": "K", "kah": "K", "alpha": "A",
    "bravo": "B", "charlie": "C", "delta": "D", "echo": "E", "foxtrot": "F", "golf": "G", "hotel": "H", "juliet": "J",
    "kilo": "K", "lima": "L", "mike": "M", "november": "N", "oscar": "O", "papa": "P", "quebec": "Q", "romeo": "R",
    "sierra": "S", "tango": "T", "uniform": "U", "victor": "V", "whiskey": "W", "xray": "X", "yankee": "Y", "zulu": "Z",
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
NUMBER_WORDS: Final = frozenset(_DIGITS) | frozenset(REPEATS)
_FEWEST: Final = 4  # digit words in a row that are a number
_TOKEN: Final = re.compile(r"[^\W\d_]+|\d+")
_BETWEEN: Final = re.compile(r"[ ,.\-/\n]{1,4}|,? (?:and|then|und|dann|et|y|e|en) ")


def says_digits(words: list[str]) -> bool:
    """Say whether folded words hold enough digit words to be a number."""
    return sum(word in _DIGITS for word in words) >= 2


def rewrite_spoken(folded: Folded) -> Folded:
    """Return the text with runs of digit words as digits."""
    changes: list[tuple[int, int, str]] = []
    run: list[tuple[int, int, str, bool]] = []
    repeat = 1
    text = folded.plain
    for match in _TOKEN.finditer(text.lower()):
        word = match.group()
        if run and not _BETWEEN.fullmatch(text, run[-1][1], match.start()):
            changes += _change(run, text)
            run, repeat = [], 1
        if word in REPEATS:
            run.append((match.start(), match.end(), "", True))
            repeat = REPEATS[word]
        elif word in _DIGITS or (word.isdigit() and len(word) < 4):
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


def _change(run: list[tuple[int, int, str, bool]], text: str) -> list[tuple[int, int, str]]:
    spoken = sum(part[3] for part in run)
    new = "".join(part[2] for part in run)
    if not spoken or sum(c.isdigit() for c in new) < _FEWEST or spoken < 2:
        return []
    return [(run[0][0], run[-1][1], new)]


# --- the letter named apart from the number --------------------------------------------------------------------------

_A: Final = r"(?:an?|the|ein(?:em|en|er)?|der|dem|den|une?|la|le|una?|el|il|een|de|ett?|en|um|uma)"
_LETTER_WORD: Final = r"(?:(?:capital |upper[- ]?case |big |gross(?:em|es|en) )?(?:letter|buchstaben?|lettre|letra|lettera|litera|liter[ay]|bukva|bokstav(?:en)?|bogstav|pismeno|prefix|initial) )"
_NUMBER: Final = r"(?P<number>\d(?:[ .,\-/]?[0-9?*_OIl]){1,11}\d?)"
_LETTERS: Final = r"(?P<letter>[A-Z]{1,2}|[a-z])"
_WITH: Final = r"(?:with|has|and|plus|having|mit|und|avec|et|con|y|e|met|en|z|ze|s|c|i|med|och|com|but)"
_FRONT: Final = (
    r"(?:(?:right |just )?(?:in front|before|ahead|first|at the (?:front|start|beginning)|as (?:a )?prefix|prefix|davor|vorne?|vorweg|"
    r"am anfang|vorangestellt|devant|avant|au debut|delante|antes|al principio|davanti|prima|all'inizio|ervoor|vooraan|voorop|"
    r"z przodu|na poczatku|przed|framfor|fore|i borjan|foran|na frente|a frente|vpredu|pred|bhepedи|cпepedи|bhauaлe|пeped))"
)
_BACK: Final = (
    r"(?:(?:right )?(?:at the end|behind|after|at the back|on the end|as (?:a )?suffix|suffix|dahinter|hinten|am ende|danach|derriere|apres|"
    r"a la fin|detras|despues|al final|dietro|dopo|alla fine|erachter|achteraan|na koncu|z tylu|efter|i slutet|bagefter|no fim|na konci|"
    r"b kohцe|пocлe|cзadи))"
)
_AFTERWARDS: Final = re.compile(
    rf"{_NUMBER}[,;(]? ?(?:{_WITH} )?(?:{_A} )?{_LETTER_WORD}?['\"]?{_LETTERS}['\"]? (?:(?P<front>{_FRONT})|(?P<back>{_BACK}))(?![^\W_])",
    re.IGNORECASE,
)
_PRECEDED: Final = re.compile(
    rf"{_NUMBER},? ?(?:which is |is |and |and is )?(?:preceded by|prefixed (?:by|with)|precede d'|precede de|preceduto da|precedido (?:de|por)|"
    rf"voorafgegaan door|poprzedzon[ya] )(?: ?{_A}\b)? ?{_LETTER_WORD}?['\"]?{_LETTERS}(?![^\W_])",
    re.IGNORECASE,
)
_LETTER_FIRST: Final = re.compile(
    rf"(?<![^\W_])(?:{_LETTER_WORD}['\"]?{_LETTERS}['\"]?|(?:starts?|begins?|starting|beginning) (?:with|by) (?:{_A} )?{_LETTER_WORD}?['\"]?(?P<other>[A-Z])['\"]?"
    rf"|(?<=[Aa] )(?P<plain>[A-Z])(?= then| and then| followed)|(?P<bare>[B-Z])(?= followed by|, then| and then))"
    r"(?:,|;|:)? ?(?:(?:and |und |then |et |y |e |en |i |followed by |followed |gefolgt von |dann |suivie? de |seguit[ao] da |seguid[ao] de )"
    r"{0,2}(?:(?:the )?(?:digits?|numbers?|no\.?|ziffern?|nummer|zahl(?:en)?|chiffres?|numero|cifras?|cifre|cijfers?|cyfry|siffror(?:na)?|цифры|"
    rf"then|are|is):? ?){{0,2}}){_NUMBER}(?![\w])"
)
_MAY_NAME: Final = re.compile(
    r"letter|buchstab|lettre|letra|litera|bukva|bokstav|bogstav|pismen|prefix|suffix|front|before|preced|behind|after|at the|davor|vorn|anfang|"
    r"devant|avant|delante|davanti|ervoor|przod|framfor|foran|dahinter|hinten|ende|starts|begins|starting|beginning|then|followed|"
    r"voora|bhep|cпep|бykb|ahead|first|prima|antes|debut|dietro|detras|derriere|fin|koncu|slutet|przed|vpredu"
)


def rewrite_named_letters(folded: Folded) -> Folded:
    """Return the text with letters named in words put where they are stamped."""
    low = folded.plain.lower()
    if not _MAY_NAME.search(low):
        return folded
    for pattern in (_AFTERWARDS, _PRECEDED, _LETTER_FIRST):
        changes = [(m.start(), m.end(), _joined(m)) for m in pattern.finditer(folded.plain)]
        folded = folded.rewritten(changes) if changes else folded
    return folded


def _joined(match: re.Match[str]) -> str:
    parts = match.groupdict()
    letter = next(filter(None, (parts.get(name) for name in ("letter", "other", "plain", "bare"))), "").upper()
    return parts["number"] + " " + letter if parts.get("back") else letter + parts["number"]
