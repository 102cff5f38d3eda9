"""How well a dating fits what the asker says of the machine: factors of the table of weights."""

from __future__ import annotations

import math
from typing import Protocol

from knowledge.agreeing import Dating, later
from knowledge.edtf import DateSpan
from knowledge.readings import Reading
from knowledge.said import Said
from knowledge.weights import FITS, YEARS_OFF


class Read(Dating, Protocol):
    """A dating with the reading it is of."""

    @property
    def reading(self) -> Reading: ...  # noqa: D102


def fit(one: Read, said: Said) -> float:
    """Return how well a candidate fits what the asker says: 1, times a factor of FITS for each thing amiss."""
    factor = 1.0
    if said.makers and one.maker not in said.makers:
        factor *= FITS["other-maker" if one.maker else "no-maker"].value
    if said.models and one.model not in said.models:
        factor *= FITS["other-model" if one.model else "no-model"].value
    if said.works and one.works and one.works not in said.works:
        factor *= FITS["other-works"].value
    if said.digit_count is not None and one.reading.digit_count != said.digit_count:
        factor *= FITS["other-count"].value
    if said.leading_zero is not None and one.reading.digits.startswith("0") != said.leading_zero:
        factor *= FITS["other-zero"].value
    if said.prefix is not None and one.reading.prefix != said.prefix:
        factor *= FITS["other-prefix"].value
    if said.dates:
        factor *= max(_date_fit(one.span, span) for span in said.dates)
    return factor


def _date_fit(dated: DateSpan, thought: DateSpan) -> float:
    """Fall off with the years between a dating and the time thought of; machines are sold some years later."""
    early = (dated.earliest - thought.latest).days / 365.25
    late = (thought.earliest - later(dated.latest)).days / 365.25
    off = max(0.0, early, late)
    if off == 0.0:
        return 1.0
    return max(FITS["far-date"].value, math.exp(-off / YEARS_OFF.value))
