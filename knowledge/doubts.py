"""What speaks against a finding beside lists and other findings: the years of its model, and the machines around it.

The machines around are those with the nearest numbers on both sides, of the same maker and letters. Numbers were not
used strictly one after the other, so a few years either way are allowed, as they are beside a list.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from knowledge.agreeing import Dating, about_then, bounds_of, in_its_time, made, meet
from knowledge.base import Knowledge
from knowledge.between import Follows
from knowledge.edtf import parse
from knowledge.findings import Finding, Sighting
from knowledge.nouns import Model
from knowledge.readings import Reading


class InBlock(Dating, Protocol):
    """What is looked at of a list's dating."""

    @property
    def first(self) -> str | None: ...  # noqa: D102
    @property
    def last(self) -> str | None: ...  # noqa: D102
    @property
    def date(self) -> str: ...  # noqa: D102
    @property
    def reading(self) -> Reading: ...  # noqa: D102


def speaks_against(finding: Finding, knowledge: Knowledge) -> bool:
    """Tell whether anything does that makes it less likely: models, unlike dates, may have been made by turns."""
    return out_of_time(finding, knowledge) is not None or any(follows.date for follows in around(finding, knowledge))


def out_of_time(finding: Finding, knowledge: Knowledge) -> Model | None:
    """Return the model that a finding tells, when it was not made at the time that the finding tells."""
    model = knowledge.models.get(finding.model)
    if model is None or not finding.date or in_its_time(bounds_of(finding), model):
        return None
    return model


def around(finding: Finding, knowledge: Knowledge) -> Iterator[Follows]:
    """Yield what the machines around would make of a finding's number, where it cannot be true beside the finding."""
    if not knowledge.between.by_key or not finding.digits:
        return
    maker = knowledge.maker_of_finding(finding)
    date, model = knowledge.between.around(maker, *finding.number)
    if date and finding.date and not meet(bounds_of(finding), about_then(parse(date.date), finding.serial)):
        yield date
    if model and finding.model and model.model != finding.model:
        yield model


def around_in_block(block: InBlock, knowledge: Knowledge) -> Iterator[Follows]:
    """Yield what machines on both sides of a number, within its block, tell where the list is far off that."""

    def counts(one: Sighting) -> bool:
        first, last = block.first or "", block.last or one.digits
        same_width = len(one.digits) == len(first) or len(first) != len(last)
        return same_width and int(first) <= int(one.digits) <= int(last)

    reading = block.reading
    if not (knowledge.between.by_key and block.first and reading.digits.isdecimal()):
        return
    date, model = knowledge.between.around(block.maker, reading.prefix, reading.digits, reading.suffix, counts)
    if date and block.date and not meet(made(block.span, block.serial), about_then(parse(date.date), block.serial)):
        yield date
    if model and block.model and model.model != block.model:
        yield model
