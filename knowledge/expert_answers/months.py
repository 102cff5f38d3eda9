"""Words for months in sentences, where fewer words can mean one than in the columns of lists."""

from __future__ import annotations

from knowledge.names import fold
from knowledge.packs.importing import date_words

_SHORT = frozenset(
    "jan janv ene gen feb febr fev fevr mar marz mrt apr avr abr mag mei jun giu jul juil lug aug ago aout sep sept "
    "oct okt ott nov dec dez dic".split()
)
"""Common practice, no source."""


def month_number(word: str) -> int | None:
    """Return the month that a word in a sentence means: a whole name, or a common short form of one.

    >>> month_number("Sept."), month_number("list")
    (9, None)
    """
    name = fold(word).rstrip(".")
    return date_words.month_number(name) if name in date_words.MONTHS or name in _SHORT else None
