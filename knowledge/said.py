"""What an asker says beside the number: maker, model, works, age, how the number is stamped, what is wanted."""

from __future__ import annotations

from dataclasses import dataclass

from knowledge.edtf import DateSpan
from knowledge.hearing.named import named
from knowledge.hearing.stamping import digit_count, leading_zero, prefix
from knowledge.hearing.wishes import wishes
from knowledge.hearing.words import plain_words, words_with_names
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


def hear(text: str, names: Names, found: Found) -> Said:
    """Return what a message says beside the numbers `found` in it. Never raises; time grows with its length."""
    words = plain_words(text, found)
    if not words:
        return Said()
    known = named(words_with_names(text, found) if found.passed_over else words, names)
    wanted = wishes(words)
    alone = not found.tokens
    return Said(
        makers=known.makers,
        models=known.models,
        works=known.works,
        dates=years(words),
        digit_count=digit_count(words, alone),
        leading_zero=leading_zero(words),
        prefix=prefix(words, {shape[0] for shape in names.shapes}, alone),
        asks=wanted.asks,
        person=wanted.person,
        picture=wanted.picture,
        dangers=wanted.dangers,
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
