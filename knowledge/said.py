"""What an asker says beside the number: maker, model, works, age, how the number is stamped, what is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from knowledge.edtf import DateSpan
from knowledge.hearing.named import Named, named
from knowledge.hearing.stamping import digit_count, leading_zero, prefix
from knowledge.hearing.telling import told
from knowledge.hearing.wishes import wishes
from knowledge.hearing.words import Word, plain_words, words_with_names
from knowledge.hearing.years import years
from knowledge.names import Names
from knowledge.tokens.nouns import Found

_ONCE = frozenset({"where", "value"})


@dataclass(frozen=True, slots=True)
class Said:
    """What was heard. Ids are those of the knowledge base; several ids mean 'one of these'.

    `dates` are the times the asker thinks of; `digit_count`, `leading_zero` and `prefix` are told apart from the
    number, mostly as an answer to the question back (`prefix` is '' when the asker says that there is no letter).
    `asks` holds what is wanted: `age`, `model`, `maker`, `works`, `where` (to find the number), `value`.
    `dangers` are subjects that need a warning: `wiring`, `opening`, `casting`, `paint`, `needle`.
    """

    makers: tuple[str, ...] = ()
    models: tuple[str, ...] = ()
    works: tuple[str, ...] = ()
    dates: tuple[DateSpan, ...] = ()
    digit_count: int | None = None
    leading_zero: bool | None = None
    prefix: str | None = None
    asks: frozenset[str] = frozenset()
    person: bool = False
    picture: bool = False
    dangers: frozenset[str] = frozenset()

    @property
    def bears_on_datings(self) -> bool:
        """Whether anything was said that a dating can fit or not fit."""
        told = (self.digit_count, self.leading_zero, self.prefix)
        return bool(self.makers or self.models or self.works or self.dates) or any(one is not None for one in told)


class Facts(NamedTuple):
    """What a message tells of the asker's machine: what it states, and what it only supposes, as 'is it a Model 9?'."""

    stated: Said
    supposed: Said


def hear(text: str, names: Names, found: Found) -> Said:
    """Return what a message says beside the numbers `found` in it. Never raises; time grows with its length."""
    words = plain_words(text, found)
    if not words:
        return Said()
    known = named(words_with_names(text, found) if found.passed_over else words, names)
    wanted = wishes(words, known.words)
    return replace(
        _facts(words, known, names, not found.tokens),
        asks=wanted.asks,
        person=wanted.person,
        picture=wanted.picture,
        dangers=wanted.dangers,
    )


def hear_facts(text: str, names: Names, found: Found) -> Facts:
    """Return what a message tells of a machine spoken of before, without what it asks or says of other machines."""
    words, with_names = plain_words(text, found), words_with_names(text, found)
    by = named(with_names, names).words
    stated, supposed = (
        _facts(part, named(part_with_names, names), names, not found.tokens)
        for part, part_with_names in zip(told(words, by), told(with_names, by), strict=True)
    )
    return Facts(stated, supposed)


def _facts(words: Sequence[Word], known: Named, names: Names, alone: bool) -> Said:
    return Said(
        makers=known.makers,
        models=known.models,
        works=known.works,
        dates=years(words),
        digit_count=digit_count(words, alone and not known.models),  # 'a no. 9' is a model
        leading_zero=leading_zero(words),
        prefix=prefix(words, {shape[0] for shape in names.shapes}, alone),
    )


def merged(earlier: Said, later: Said) -> Said:
    """Return what was said in all. What was said later takes the place of the same kind of thing said earlier.

    Where the number is found, or what the machine is worth, is not told again because it was asked once.
    """
    return Said(
        makers=later.makers or earlier.makers,
        models=later.models or earlier.models,
        works=later.works or earlier.works,
        dates=later.dates or earlier.dates,
        digit_count=earlier.digit_count if later.digit_count is None else later.digit_count,
        leading_zero=earlier.leading_zero if later.leading_zero is None else later.leading_zero,
        prefix=earlier.prefix if later.prefix is None else later.prefix,
        asks=later.asks | (earlier.asks - _ONCE),
        person=later.person,
        picture=earlier.picture or later.picture,
        dangers=later.dangers | earlier.dangers,
    )
