"""What the knowledge base lends to the reading of text: the shapes of known numbers and the names of known things."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field

_SPACES = re.compile(r"\s+")


def fold(text: str) -> str:
    """Return `text` as names are compared: case-folded, without accents, white space collapsed.

    >>> fold("  Köhl  & Søn ")
    'kohl & søn'
    """
    decomposed = unicodedata.normalize("NFKD", text)
    plain = "".join(c for c in decomposed if not unicodedata.combining(c))
    return _SPACES.sub(" ", plain.casefold()).strip()


@dataclass(frozen=True, slots=True)
class Names:
    """Shapes and names of one knowledge base; keys of the mappings are folded, values are ids.

    `shapes` holds (prefix, number of digits, suffix) of every serial register; 0 digits means a plain count of any
    length. `codes` are the date codes, as expressions over a cleaned serial (upper case, no separators).
    `introducers` are the words that must stand before numbers that are no serial numbers, such as patents.
    """

    shapes: frozenset[tuple[str, int, str]] = frozenset()
    codes: tuple[re.Pattern[str], ...] = ()
    models: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    makers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    works: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    introducers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
