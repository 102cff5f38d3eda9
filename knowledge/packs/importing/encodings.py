"""Guess the encoding of a text, and say what was guessed.

A guess is judged by its letters: read rightly, the letters outside ASCII are those of one language, stand inside
words, and no capital follows a small letter. Ready-made detectors need more text than a list of numbers has: the one
we tried took short lists in French and Swedish for Czech.
"""

from __future__ import annotations

import codecs
import re

_NAMES = {
    "cp1252": "Western European (Windows)",
    "cp1250": "Central European (Windows)",
    "cp1251": "Cyrillic (Windows)",
    "mac_roman": "Western European (old Macintosh)",
    "koi8_r": "Cyrillic (KOI8-R)",
    "cp850": "Western European (DOS)",
    "latin_1": "Latin-1",
}
# Letters outside ASCII, small: the frequent ones of each language, then after a space the others (from memory).
_CENTRAL = ("ąęłóśż ćńź", "áíéěčřšž ýůúďťňó", "áéöóőí üúű", "áíčéšžľť ýúňôďäĺŕó", "čšž ćđ")
_WESTERN = ("äöüß é", "éèàç êëâîïôûùüœæÿ", "áéíóñú ü", "àèéìòù", "ãáçéóõê íúâàô", "åäöé", "åæøé", "éëïèüö")
_CYRILLIC = ("абвгдеёжзийклмнопрстуфхцчшщъыьэюяіїєґ",)
_CANDIDATES = {  # in order of preference where two are equally good
    "cp1252": _WESTERN,
    "cp1250": _CENTRAL,
    "mac_roman": _WESTERN,
    "cp1251": _CYRILLIC,
    "koi8_r": _CYRILLIC,
    "cp850": _WESTERN,
}
_SAMPLE = 50_000  # bytes of lines that are not all ASCII, looked at to guess
_SIGNS = frozenset("–—‘’‚“”„…•°£€§«»·×±½¼¾©®º¡¿№\xa0")


def decode(data: bytes) -> tuple[str, str]:
    """Return the text, and a note that says what was guessed; '' when nothing had to be."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return data.decode("utf-16", "replace"), ""
    if unmarked := _unmarked_utf16(data):
        return data.decode(unmarked, "replace"), "The text was read as UTF-16, which it does not say itself."
    try:
        return data.decode("utf-8-sig"), ""
    except UnicodeDecodeError:
        return _guessed(data)


def _unmarked_utf16(data: bytes) -> str:
    """Tell UTF-16 without a mark at its start by its many NULs, which no other text has."""
    even, odd = data[:2000:2].count(0), data[1:2000:2].count(0)
    if even + odd < 0.1 * len(data[:2000]):
        return ""
    return "utf-16-le" if odd > even else "utf-16-be"


def _guessed(data: bytes) -> tuple[str, str]:
    telling = b"\n".join(line for line in data.splitlines() if not line.isascii())[:_SAMPLE]
    scores = {}
    for encoding, languages in _CANDIDATES.items():
        try:
            scores[encoding] = _score(telling.decode(encoding), languages)
        except UnicodeDecodeError:
            continue
    encoding = max(scores, key=lambda name: scores[name], default="latin_1")
    text = data.decode(encoding, "replace")
    word = next((word for word in re.split(r"[\s;,|]+", telling.decode(encoding, "replace")) if not word.isascii()), "")
    return text, (
        f"The text is not UTF-8. Its encoding was guessed as {_NAMES[encoding]}, so that one word in it reads "
        f"'{word[:40]}'. If that is wrong, save the file again as UTF-8."
    )


def _score(text: str, languages: tuple[str, ...]) -> float:
    """Return how well the letters outside ASCII fit one of the languages: at most 1."""
    places = [place for place, char in enumerate(text) if not char.isascii() and not _is_sign(text, place)][:2000]
    if not places:
        return 0.5
    return max(sum(_fit(text, place, language) for place in places) for language in languages) / len(places)


def _is_sign(text: str, place: int) -> bool:
    """Tell a sign that may stand beside words; one inside a word, such as the ° of 'Ilo°F', is no sign."""
    inside = text[place - 1 : place].isalpha() and text[place + 1 : place + 2].isalpha()
    return text[place] in _SIGNS and (text[place] == "’" or not inside)


def _fit(text: str, place: int, language: str) -> float:
    """Return 1 for a frequent letter of the language, 0.7 for another of it, 0 for a foreign one, -1 for nonsense."""
    char = text[place]
    before, after = text[place - 1 : place], text[place + 1 : place + 2]
    if not char.isalpha():
        return -1 if before.isalpha() or after.isalpha() else -0.2
    if char.isupper() and before.islower():
        return -1
    if language in _CYRILLIC and ((before.isascii() and before.isalpha()) or (after.isascii() and after.isalpha())):
        return -1
    frequent, _, other = language.partition(" ")
    return 1 if char.lower() in frequent else 0.7 if char.lower() in other else 0
