"""A text in plain small letters, sign for sign in the same places, and phrases looked for in it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from functools import lru_cache

_SIGNS = str.maketrans({"’": "'", "‘": "'", "ʼ": "'", "`": "'", "´": "'", "“": '"', "”": '"', "„": '"', "«": '"',
                        "»": '"', "\u00a0": " ", "\u202f": " ", "\t": " "})  # fmt: skip


@lru_cache(maxsize=1 << 12)
def _plain_sign(sign: str) -> str:
    base = unicodedata.normalize("NFKD", sign)[0]
    small = base.translate(_SIGNS).casefold()
    return small[0] if small else sign


def plain(text: str) -> str:
    """Return `text` in small letters without accents; every sign keeps its place.

    >>> plain("Größe: «Büste»")
    'grose: "buste"'
    """
    return text.lower().translate(_SIGNS) if text.isascii() else "".join(map(_plain_sign, text))


class Phrases:
    """A list of phrases, parted by '|'.

    `*` ends a word in any way, `.` stands for one word and `..` for up to three. Every phrase begins and ends with a
    word's edge. `behind` are phrases one of which must stand before, at most `apart` words away.

    >>> bool(Phrases("ask him | look* .. ledger").search("i'll be looking in the ledger"))
    True
    """

    def __init__(self, *lists: str, behind: str = "", apart: int = 3) -> None:
        lead = rf"(?:{_any(behind)})\s+(?:[^\s.,;!?]+ ){{0,{apart}}}?" if behind else ""
        self._any = f"{lead}(?:{_any(*lists)})"
        self._found = re.compile(rf"(?<![^\W_])(?:{self._any})(?![^\W_])")
        self._last = re.compile(rf"(?<![^\W_])(?:{self._any})(?![^\W_])\W*\Z")
        self._first = re.compile(rf"\W*(?:{self._any})(?![^\W_])")

    def search(self, low: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        """Return the first phrase in a plain text."""
        return self._found.search(low, start, len(low) if end is None else end)

    def all(self, low: str, start: int = 0, end: int | None = None) -> Iterator[re.Match[str]]:
        """Yield all phrases in a plain text."""
        return self._found.finditer(low, start, len(low) if end is None else end)

    def ends(self, low: str) -> bool:
        """Tell whether a plain text ends with one of the phrases, signs aside."""
        return self._last.search(low) is not None

    def without_last(self, low: str) -> str:
        """Return a plain text without the phrase it ends with; the text itself when it ends with none."""
        found = self._last.search(low)
        return low if found is None else low[: found.start()]

    def begins(self, low: str, start: int = 0) -> re.Match[str] | None:
        """Return the phrase that a plain text begins with, signs aside."""
        return self._first.match(low, start)

    def is_all_of(self, low: str) -> bool:
        """Tell whether a plain text is one of the phrases and nothing else but signs."""
        found = self._first.match(low)
        return found is not None and not any(sign.isalnum() for sign in low[found.end() :])


def _any(*lists: str) -> str:
    phrases = {" ".join(plain(phrase).split()) for one in lists for phrase in one.split("|")} - {""}
    return "|".join(map(_expression, sorted(phrases, key=lambda phrase: (-len(phrase), phrase))))


def _expression(phrase: str) -> str:
    words = []
    for word in phrase.split(" "):
        if word == "..":
            words.append(r"(?:[^\s.,;!?]+ ){0,3}?")
        elif word == ".":
            words.append(r"[^\s.,;!?]+ ")
        else:
            words.append(re.escape(word).replace(r"\*", r"\w*").replace("'", "'? ?") + r"\s+")
    joined = "".join(words)
    return joined.removesuffix(r"\s+")


def by_meaning(tables: Mapping[str, str]) -> dict[str, Phrases]:
    """Return the phrases of each meaning."""
    return {meaning: Phrases(phrases) for meaning, phrases in tables.items()}
