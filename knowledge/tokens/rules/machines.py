"""Models and parts of machines, which carry numbers of their own."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens.rules.spot import Spot, any_of, attached, folded_set

_MODEL_LEAD: Final = folded_set(
    "model models modell modelle modèle modelo modello модель type typ class klasse mark mk classe clase"
)
_MODEL: Final = re.compile(r"(?:[A-Z]{1,3}[ -]?)?\d{1,4}(?:[-/]\d{1,3})?[A-Za-z]{0,2}(?!\w)")
_PIECE: Final = re.compile(r"\w+(?:[-/.]\w+){0,3}")
_HEAD: Final = re.compile(r"\w+")
_NEXT: Final = re.compile(r" \w{1,30}")
_PARTS: Final = any_of(
    "needles needle bobbins bobbin shuttle shuttles foot thread cotton nadeln nadel spulen garn aiguilles canettes "
    "agujas aghi "
    "naalden igły иглы nålar belt bulb"
)
_NUMBERED_PART: Final = re.compile(rf"\d{{1,6}}[a-z]? (?:[a-z]+ )?{_PARTS}(?![^\W_])")

needle_system = attached(
    r"(?:130|135|134|15)/(?:705|[57])(?: ?h)?(?:-?[a-z]{1,3})?\b|15 ?x ?1\b|\d{2,3}/\d{2}(?= "
    r"needle)"
)
"""The numbers of needle systems and sizes, as the whole trade uses them (common practice, no source)."""


def numbered_part(spot: Spot) -> int:
    """'No 15 needles'."""
    if not (spot.bare and spot.lead.kind == cues.NUMBER and spot.lead.near):
        return 0
    match = _NUMBERED_PART.match(spot.low, spot.digit)
    return match.end() if match else 0


def called_a_model(spot: Spot) -> int:
    """'Model 128', 'Modell 12': up to four digits after such a word, known or not."""
    telling = [word for word in spot.lead.words[-3:] if cues.kind_of(word) not in (cues.NUMBER, cues.FILLER)]
    if not telling or telling[-1] not in _MODEL_LEAD:
        return 0
    match = _MODEL.match(spot.plain, spot.start)
    return match.end() if match and match.end() > spot.digit else 0


def known_model(spot: Spot) -> int:
    """A name or alias from the knowledge base: up to three words before the piece and one after it."""
    if not spot.names.models:
        return 0
    words = spot.lead.words[-3:]
    fewest = 1 if spot.introduced else 0
    return max((end for end, name in _endings(spot) if _is_a_model(spot, words, name, fewest)), default=0)


def _endings(spot: Spot) -> Iterator[tuple[int, str]]:
    match = _PIECE.match(spot.low, spot.start, spot.start + 60)
    if match is None or match.end() <= spot.digit:
        return
    yield match.end(), match.group()
    head = _HEAD.match(spot.low, spot.start, match.end())
    if head and spot.digit < head.end() < match.end():
        yield head.end(), head.group()
    following = _NEXT.match(spot.low, match.end())
    if following:
        yield following.end(), match.group() + following.group()


def _is_a_model(spot: Spot, words: tuple[str, ...], name: str, fewest: int) -> bool:
    for before in range(fewest, len(words) + 1):
        if (before or len(name) > 1) and " ".join([*words[len(words) - before :], name]) in spot.names.models:
            return True
    return False
