"""Numbers as people write them in lists: with thousands marks, letters before and after, and two in one cell.

>>> read_numbers("K 200,001 - 225,000") == NumberRead("K", "200001", "225000", notes=(THOUSANDS,))
True
>>> read_numbers("200001-25000").shortened
True
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from knowledge.packs.importing.date_words import longest_first
from knowledge.packs.importing.sheet import LONGEST_TEXT
from knowledge.packs.letters import plain_letters
from knowledge.packs.tables import LONGEST_NUMBER


@dataclass(frozen=True, slots=True)
class NumberRead:
    """What a number cell says: one number, or the first and last of a block.

    `shortened`: the last number may have been written without its first digits, as in 200001-25000.
    """

    prefix: str
    first: str
    last: str = ""
    suffix: str = ""
    shortened: bool = False
    notes: tuple[str, ...] = ()


class LostDigitsError(ValueError):
    """A spreadsheet has replaced the number by a rounded one, such as 2.04E+05; its digits are gone."""


LOOK_ALIKES = "letters other than A to Z were taken as those they look like"
THOUSANDS = "thousands marks were taken out"
_FRACTION = "a point and zeros after a number ('.0') were taken off"
_WORD = "words such as 'No.' before a number were taken off"
_BETWEEN = longest_first(
    frozenset({"to", "through", "thru", "until", "till", "bis", "à", "a", "au", "hasta", "al", "fino a", "tot",
               "t/m", "tot en met", "do", "по", "до", "till och med", "t.o.m."})
)  # fmt: skip
_SPLIT = re.compile(rf"\s*(?:[-‐‑‒–—―−~→]|\.\.+|…|/|\s(?:{_BETWEEN})(?=[\s\W\d]))\s*", re.IGNORECASE)
_LEADING = re.compile(
    r"(?:(?:[Nn]os?\.|[Nn]rs?\.?|No\s|[Nn]um\.|[Nn]uméros?|[Nn][úu]mero|[Ss]erial|[Ss]/[Nn]|[nN][°º]|№|#)\s*"
    r"|(?:[Ff]rom|[Vv]on|[Dd]e|[Dd]u|[Dd]a|[Oo]d|[Vv]an(?:af)?|[Сс]|[Оо]т)\s+)+"
)
_PLAIN = re.compile(rf"([A-Z]{{0,4}})([0-9]{{1,{LONGEST_NUMBER}}})")
_ONE = re.compile(r"([^\W\d_]{0,4})[ .-]?(\d[\d., '\u2019]*)(?:[ -]?([^\W\d_]{1,4}))?")
_GROUPED = re.compile(r"\d{1,3}(?:([., '\u2019])\d{3})(?:\1\d{3})*")
_FLOAT = re.compile(r"(\d+)[.,]0{1,2}")
_ROUNDED = re.compile(r"\d+(?:[.,]\d+)?e\+\d+", re.IGNORECASE)


@lru_cache(maxsize=1 << 16)
def read_numbers(text: str) -> NumberRead | None:
    """Read one cell; None when it is no number. Raises LostDigitsError for 2.04E+05."""
    if len(text) > LONGEST_TEXT:
        return None
    if match := _PLAIN.fullmatch(text):
        return NumberRead(match[1], match[2])
    start = _LEADING.match(text.strip())  # before NFKC, which turns № into the letters No
    stripped = text.strip()[start.end() :] if start else text
    stripped = " ".join(unicodedata.normalize("NFKC", stripped).replace("\u200b", "").split())
    if _ROUNDED.fullmatch(stripped):
        raise LostDigitsError(text)
    notes = [_WORD] if start else []
    whole = _one(stripped, notes)
    if whole is not None:
        return NumberRead(whole[0], whole[1], "", whole[2], notes=tuple(notes))
    return _block(stripped, notes)


def _block(text: str, notes: list[str]) -> NumberRead | None:
    """Read two numbers with something between them; the letters must agree, or stand at the first only."""
    for split in _SPLIT.finditer(text):
        left = _one(text[: split.start()], notes)
        right = _one(_LEADING.sub("", text[split.end() :], count=1), notes)
        if left is None or right is None:
            continue
        if right[0] not in ("", left[0]) or (left[2] and right[2] and left[2] != right[2]):
            return None
        shortened = len(right[1]) < len(left[1]) and int(right[1]) < int(left[1])
        if not shortened and int(right[1]) < int(left[1]):
            return None
        return NumberRead(left[0], left[1], right[1], left[2] or right[2], shortened, tuple(dict.fromkeys(notes)))
    return None


def _one(text: str, notes: list[str]) -> tuple[str, str, str] | None:
    """Return (prefix, digits, suffix) of one number."""
    match = _ONE.fullmatch(text.strip())
    digits = _digits(match[2].strip(), notes) if match else None
    if match is None or digits is None or len(digits) > LONGEST_NUMBER:
        return None
    letters = plain_letters(match[1]), plain_letters(match[3] or "")
    if letters != (match[1].upper(), (match[3] or "").upper()):
        notes.append(LOOK_ALIKES)
    return letters[0], digits, letters[1]


def _digits(text: str, notes: list[str]) -> str | None:
    if re.fullmatch(r"[0-9]+", text):
        return text
    if _GROUPED.fullmatch(text):
        notes.append(THOUSANDS)
        return re.sub(r"\D", "", text)
    if match := _FLOAT.fullmatch(text):
        notes.append(_FRACTION)
        return match[1]
    return None


def completed(first: str, last: str) -> str:
    """Return a shortened last number with the digits that it shares with the first put back.

    >>> completed("200001", "25000")
    '225000'
    """
    return first[: len(first) - len(last)] + last
