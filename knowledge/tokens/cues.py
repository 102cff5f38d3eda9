"""What a word says about the number beside it: the tables of `cue_words`, folded once."""

from __future__ import annotations

from typing import Final

from knowledge.tokens.cue_words import ASIDE, DIGITS, FILLER, MARKED, NUMBER, PAUSE, SERIAL, STAMPED, STOP, WORDS
from knowledge.tokens.fold import fold_word

__all__ = [
    "ASIDE",
    "DIGITS",
    "FILLER",
    "MARKED",
    "NUMBER",
    "PAUSE",
    "SERIAL",
    "STAMPED",
    "STOP",
    "WORDS",
    "is_unknown_compound",
    "kind_of",
]

_CODE_ENDS: Final = ("code", "codes", "kode")
_COMPOUND_ENDS: Final = ("nummern", "nummers", "nummer", "numret", "numbers", "number", "nr", "no", *_CODE_ENDS)
_STEMS: Final[dict[str, str]] = {
    "serie": SERIAL, "maschine": SERIAL, "machine": SERIAL, "fabrik": SERIAL, "fabrieks": SERIAL, "werk": SERIAL,
    "fertigung": SERIAL, "herstell": SERIAL, "maskin": SERIAL, "tillverknings": SERIAL, "produktions": SERIAL,
    "gerate": SERIAL, "rechnung": "order-number", "factuur": "order-number", "verfolgungs": "order-number",
    "haus": "reference", "flug": "reference", "vlucht": "reference", "steuer": "reference", "konto": "order-number",
    "rekening": "order-number", "ruf": "telephone", "lid": "order-number", "klant": "order-number",
    "guss": "part-number", "gu": "part-number", "form": "part-number", "onderdeel": "part-number",
    "fahrgestell": "reference", "ausgabe": "reference", "zimmer": "reference", "kamer": "reference",
    "post": "postcode", "telefoon": "telephone", "telefon": "telephone", "spar": "order-number",
}  # fmt: skip


def _folded_words(tables: dict[str, dict[str, str]]) -> dict[str, str]:
    kinds: dict[str, str] = {}
    for kind in (ASIDE, FILLER, PAUSE, STOP, *tables):
        for words in tables[kind].values():
            for word in words.split(" "):
                kinds.setdefault(fold_word(word), kind)
    return kinds


_KINDS: Final = _folded_words({**WORDS})
_KINDS["0"] = DIGITS


def kind_of(word: str) -> str | None:
    """Return what a folded word says about the number beside it; None: nothing."""
    kind = _KINDS.get(word)
    if kind is not None or len(word) < 6:
        return kind
    end = next(filter(word.endswith, _COMPOUND_ENDS), None)
    return _kind_of_compound(word[: -len(end)].rstrip("-"), end) if end else None


def _kind_of_compound(stem: str, end: str) -> str:
    if end in _CODE_ENDS:
        return "reference"
    for form in (stem, stem.rstrip("ns"), stem.rstrip("s")):
        kind = _STEMS.get(form) or _KINDS.get(form)
        if kind is not None:
            return kind
    return NUMBER


def is_unknown_compound(word: str) -> bool:
    """Say whether a word is the number of something that is not listed ('Treinnummer')."""
    return len(word) > 8 and word not in _KINDS and kind_of(word) is NUMBER
