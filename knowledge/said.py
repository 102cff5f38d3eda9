"""What an asker says beside the number: maker, model, works, age, how the number is stamped, what is wanted."""

from __future__ import annotations

from dataclasses import dataclass

from knowledge.edtf import DateSpan


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
