"""Several machines in one message: which maker, model, works and age was said of which number.

The text is cut between two numbers at the strongest pause: a new line, the end of a sentence, an 'and', a comma. What
is said in a number's own piece goes with it. A maker or works said once holds for all numbers, but a maker named just
before a later number (X 123, an Ottrel K 456, Y 789) for that one alone; a model or an age holds for all only where the
message says 'both' or 'all'.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from knowledge.names import Names
from knowledge.said import Said, hear
from knowledge.tokens.nouns import Found, PassedOver, SerialToken

_PAUSES = (
    re.compile(r"\n"),
    re.compile(r"[;!?]|(?<=\w{4})\.(?=\s)"),
    re.compile(r"\b(?:and|und|et|y|e|en|и|och|og|or|oder|ou|o|lub|oraz|или|eller)\b"),
    re.compile(r","),
)
"""The strongest first. A full stop after a short word may end a shortened word, such as 'No.'."""
_ALL = re.compile(
    r"\b(?:both|all|each|beide|alle|les deux|tous|toutes|ambos|ambas|todos|todas|entrambe|entrambi|tutte|tutti|allebei|"
    r"obie|oba|wszystkie|обе|оба|все|båda|alla|begge)\b",
    re.IGNORECASE,
)
_IN_BRACKETS = re.compile(r"\s*[(\[][^()\[\]\n]*[)\]]")
MOST = 20
"""Messages with more numbers than this are lists; what they say is said of all."""


def said_beside(text: str, found: Found, said: Said, names: Names) -> tuple[Said, ...]:
    """Return what is said of each number; `said` is what the whole message says."""
    if not 1 < len(found.tokens) <= MOST:
        return (said,) * len(found.tokens)
    ends = [_cut(text, one.end, other.start) for one, other in zip(found.tokens, found.tokens[1:], strict=False)]
    pieces = zip([0, *ends], [*ends, len(text)], strict=True)
    heard = [hear(text[start:end], names, _within(found, start, end)) for start, end in pieces]
    said = replace(said, makers=_of_all(text, found, said, ends, names))
    return tuple(_own(said, one, for_all=bool(_ALL.search(text))) for one in heard)


def _of_all(text: str, found: Found, said: Said, ends: Sequence[int], names: Names) -> tuple[str, ...]:
    """Return the makers that are said of all numbers: not those just before a later one, or in brackets behind one."""
    before = [text[start : one.start] for start, one in zip(ends, found.tokens[1:], strict=True)]
    brackets = [match for one in found.tokens[:-1] if (match := _IN_BRACKETS.match(text, one.end))]
    own = (*before, *(one[0] for one in brackets))
    alone = {maker for words in own for maker in hear(words, names, Found()).makers}
    first = text[: ends[0]]
    if brackets and brackets[0].end() <= ends[0]:
        first = first[: brackets[0].start()] + first[brackets[0].end() :]
    at_first = hear(first, names, Found()).makers
    return tuple(one for one in said.makers if one not in alone or one in at_first)


def _cut(text: str, start: int, end: int) -> int:
    for pause in _PAUSES:
        pauses = list(pause.finditer(text, start, end))
        if pauses:
            return pauses[-1].end()
    return end


def _within(found: Found, start: int, end: int) -> Found:
    """Return what was found in a piece of the text, counted from its start."""
    return Found(
        tuple(_moved(one, start) for one in found.tokens if start <= one.start and one.end <= end),
        tuple(_moved(one, start) for one in found.passed_over if start <= one.start and one.end <= end),
    )


Piece = TypeVar("Piece", SerialToken, PassedOver)


def _moved(one: Piece, start: int) -> Piece:
    return replace(one, start=one.start - start, end=one.end - start)


def _own(said: Said, piece: Said, for_all: bool) -> Said:
    """Return what is said of one number: a maker named once is that of all, a model or date only where that is said."""
    return replace(
        said,
        makers=piece.makers or said.makers,
        models=piece.models or (said.models if for_all else ()),
        works=piece.works or said.works,
        dates=piece.dates or (said.dates if for_all else ()),
    )
