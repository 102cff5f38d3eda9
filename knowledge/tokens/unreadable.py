"""Digits that are doubtful: 'x' for one that cannot be read, one in brackets for one that may be wrong.

`K20x117` becomes `K20?117`, `K20411[7]` and `K20411(7?)` become `K204117`.
"""

from __future__ import annotations

import re
from typing import Final

from knowledge.names import Names
from knowledge.tokens.fold import Change, Folded, fold_word

_WORN: Final = re.compile(
    "|".join(
        fold_word(words)
        for words in (
            "unread", "unclear", "illegible", "worn", "missing", "can't read", "cannot read", "can't make",
            "cannot make", "couldn't read", "can not read", "hard to read", "not sure", "not clear", "not readable",
            "last digit", "scratched", "rubbed", "filed", "damaged", "are gone", "is gone", "digit gone", "digits gone",
            "smudged", "rusted", "painted over", "unsure", "no idea which", "don't know which",
            "letzte ziffer", "unleserlich", "nicht lesbar", "unlesbar", "unklar", "verkratzt", "abgerieben", "fehlt",
            "nicht zu lesen", "illisible", "effac", "dernier chiffre", "est usé", "usée", "sont usé",
            "trop usé", "ilegible", "borrad", "no se lee",
            "illeggibil", "consumat", "non si legge", "onleesbaar", "versleten", "niet te lezen",
            "nieczyteln", "zatart",
            "неразборчив", "стёрт", "не читается", "не видно", "oläslig", "går inte att läsa", "sliten", "ulæselig",
            "uleselig", "ilegível", "nečiteln",
        )
    ),
    re.IGNORECASE,
)  # fmt: skip
_CROSSED: Final = re.compile(
    r"(?<![^\W_])(?P<prefix>[A-Z]{0,2})(?P<gap>[ .-]?)(?P<digits>[0-9?xX](?:[ .-]?[0-9?xX]){4,10})(?![^\W_])"
)
_SIZE: Final = re.compile(r"\d{1,4}[xX]\d{1,4}")
_BRACKETED: Final = re.compile(
    r"(?<![^\W_])(?P<prefix>[A-Za-z]{0,2}) ?(?P<digits>\d{0,7}(?:[\[(]\d{1,3} ?\??[\])]\d{0,7}){1,2})(?![^\W_]|[\[(])"
)
_INSIDE: Final = re.compile(r"[\[(](?P<digits>\d{1,3}) ?\??[\])]")


def speaks_of_wear(text: str, start: int, end: int) -> bool:
    """Say whether a stretch of text says that something cannot be read."""
    return _WORN.search(text, max(start, 0), end) is not None


def rewrite_doubtful(folded: Folded, names: Names) -> Folded:
    """Return the text with `?` for an unreadable digit written as x, and doubtful digits without their brackets."""
    plain = folded.plain
    changes: list[Change] = []
    if "x" in plain or "X" in plain:
        for match in _CROSSED.finditer(plain):
            if _stands_for_digits(match, names):
                changes += _marks(match)
    if "[" in plain or "(" in plain:
        for match in _BRACKETED.finditer(plain):
            if _is_one_number(match, names):
                changes += _without_brackets(match)
    return folded.rewritten(sorted(changes)) if changes else folded


def _stands_for_digits(match: re.Match[str], names: Names) -> bool:
    typed = re.sub("[ .-]", "", match["digits"])
    crosses = sum(character in "xX" for character in typed)
    if not crosses or sum(character.isdigit() for character in typed) < 3 or typed[0] in "xX":
        return False
    if speaks_of_wear(match.string, match.start() - 80, match.end() + 80):
        return True
    if not match["prefix"] or " " in match["digits"] or _SIZE.fullmatch(typed) or typed[-1] in "xX":
        known = (match["prefix"], len(typed), "") in names.shapes
        return bool(match["prefix"]) and known and " " not in match["digits"]
    return 5 <= len(typed) <= 8


def _marks(match: re.Match[str]) -> list[Change]:
    start = match.start("digits")
    return [
        Change(start + place, start + place + 1, "?", (start + place, start + place + 1))
        for place, character in enumerate(match["digits"])
        if character in "xX"
    ]


def _is_one_number(match: re.Match[str], names: Names) -> bool:
    """Say whether the brackets hold a digit of the number, not a note to it."""
    bare = re.sub(r"[^0-9]", "", _INSIDE.sub("", match["digits"]))
    whole = re.sub(r"[^0-9]", "", match["digits"])
    prefix = match["prefix"].upper()
    if (prefix, len(whole), "") in names.shapes and len(whole) > 4:
        return (prefix, len(bare), "") not in names.shapes or len(bare) < 6
    return 4 <= len(bare) < 6 and 5 <= len(whole) <= 8


def _without_brackets(match: re.Match[str]) -> list[Change]:
    start = match.start("digits")
    return [
        Change(
            start + inside.start(),
            start + inside.end(),
            inside["digits"],
            (start + inside.start(), start + inside.end()),
        )
        for inside in _INSIDE.finditer(match["digits"])
    ]
