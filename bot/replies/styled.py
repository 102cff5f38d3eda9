"""Text with styles, measured as chats measure it (UTF-16 units), and cut where that does least harm.

Styles are given as spans beside the text, never as marks inside it: whatever a person wrote stays text.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from bot.replies.cleaning import clean

_BREAKS = ("\n\n", "\n", ". ", "; ", " ")
"""Where text may be cut, the best first."""
_LEAST = 0.5
"""A cut is made no earlier than at this share of the room, so that pieces do not become many and short."""
_JOINING = "\u200d\ufe0e\ufe0f\u20e3"
_SKIN = ("\U0001f3fb", "\U0001f3ff")
_LINKING = re.compile(r"(?<!\w)[@#$/](?=\w)|(?<=\w)@(?=\w)|(?<=\w)\.(?=[^\W\d_]{2})|:(?=//)")
_WORD_JOINER = "\u2060"


@dataclass(frozen=True, slots=True)
class Span:
    """A style from `start` to `end`, counted in characters: `bold`, `italic`, `code` or `blockquote`."""

    start: int
    end: int
    style: str


@dataclass(frozen=True, slots=True)
class Styled:
    """A text and the styles in it."""

    text: str = ""
    spans: tuple[Span, ...] = ()

    def __add__(self, other: Styled) -> Styled:
        by = len(self.text)
        moved = tuple(Span(one.start + by, one.end + by, one.style) for one in other.spans)
        return Styled(self.text + other.text, self.spans + moved)

    def __bool__(self) -> bool:
        return bool(self.text)

    def cut(self, start: int, end: int) -> Styled:
        """Return the piece between two characters."""
        kept = ((max(one.start, start), min(one.end, end), one.style) for one in self.spans)
        spans = tuple(Span(low - start, high - start, style) for low, high, style in kept if low < high)
        return Styled(self.text[start:end], spans)


def plain(text: str) -> Styled:
    """Return text without styles, harmless to show (see `harmless`)."""
    return Styled(harmless(text))


def styled(text: str, style: str) -> Styled:
    """Return text in one style, harmless to show."""
    shown = harmless(text)
    return Styled(shown, (Span(0, len(shown), style),) if shown else ())


def joined(parts: Iterable[Styled], between: str) -> Styled:
    """Return the parts that are not empty as one text."""
    whole = Styled()
    for part in filter(None, parts):
        whole = whole + Styled(between) + part if whole else part
    return whole


def units(text: str) -> int:
    """Return the length in UTF-16 units, as chats count it.

    >>> units("a"), units("😀")
    (1, 2)
    """
    return len(text) + sum(character > "\uffff" for character in text)


def harmless(text: str) -> str:
    """Return text that a chat shows as it stands: no control characters, and nothing that becomes a link or a call.

    >>> harmless("ask @ada at ada.example, /start") == "ask @\u2060ada at ada.\u2060example, /\u2060start"
    True
    """
    return _LINKING.sub(lambda found: found[0] + _WORD_JOINER, clean(text))


def split(whole: Styled, longest: int) -> list[Styled]:
    """Return the text in pieces of at most `longest` UTF-16 units, cut at paragraphs, lines, sentences or words."""
    pieces = []
    while units(whole.text) > longest:
        at = _cut_at(whole.text, longest)
        pieces.append(_trimmed(whole.cut(0, at)))
        whole = _trimmed(whole.cut(at, len(whole.text)))
    return [piece for piece in (*pieces, whole) if piece]


def shortened(whole: Styled, longest: int) -> Styled:
    """Return the beginning of a text that does not fit, with '…' at its end; else the text."""
    if units(whole.text) <= longest:
        return whole
    return split(whole, longest - 2)[0] + Styled("\n…")


def _cut_at(text: str, longest: int) -> int:
    most = _characters_in(text, longest)
    for mark in _BREAKS:
        at = text.rfind(mark, 0, most)
        if at >= most * _LEAST:
            return at + len(mark)
    at = most
    while at > 1 and _belongs_to_the_one_before(text[at], text[at - 1]):
        at -= 1
    return at if at > 1 else most


def _characters_in(text: str, longest: int) -> int:
    used = 0
    for place, character in enumerate(text):
        used += 2 if character > "\uffff" else 1
        if used > longest:
            return place
    return len(text)


def _belongs_to_the_one_before(character: str, before: str) -> bool:
    """Whether a cut between the two would tear apart what is seen as one sign."""
    return (
        character in _JOINING or before == "\u200d" or unicodedata.combining(character) > 0
        or _SKIN[0] <= character <= _SKIN[1]
    )  # fmt: skip


def _trimmed(piece: Styled) -> Styled:
    start = len(piece.text) - len(piece.text.lstrip("\n "))
    return piece.cut(start, max(start, len(piece.text.rstrip())))
