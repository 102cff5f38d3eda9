"""Whether a finding and what else is known of the same number can both be true: rules on plain datings."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Protocol

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.findings import DATED_DOCUMENT, Finding
from knowledge.inference import Point
from knowledge.nouns import Model
from knowledge.weights import SOLD_LATER

_SOLD_LATER = timedelta(days=365.25 * SOLD_LATER.value)


class Dating(Protocol):
    """What is looked at of a candidate."""

    @property
    def maker(self) -> str: ...  # noqa: D102
    @property
    def model(self) -> str: ...  # noqa: D102
    @property
    def works(self) -> str: ...  # noqa: D102
    @property
    def serial(self) -> str: ...  # noqa: D102
    @property
    def span(self) -> DateSpan: ...  # noqa: D102


def agrees(listed: Dating, settled: Dating, finding: Finding) -> bool:
    """Tell whether a list's dating and a finding on the same number can both be true; `settled` is its own dating."""
    return go_together(settled, listed) and meet(bounds_of(finding), made(listed.span, listed.serial))


def may_be_one(listed: Dating, settled: Dating) -> bool:
    """Tell the same of a finding whose evidence is not at hand: its date may be that of a sale."""
    sold = Point.of(0, settled.span, settled.serial, sold=True)
    return go_together(settled, listed) and meet(sold, made(listed.span, listed.serial))


def of_one_maker(one: Dating, other: Dating) -> bool:
    """Tell whether two datings may be of one maker's machine."""
    return not (one.maker and other.maker) or one.maker == other.maker


def go_together(one: Dating, other: Dating) -> bool:
    """Tell whether maker, model and works are the same, as far as both tell them."""
    both = ((one.maker, other.maker), (one.model, other.model), (one.works, other.works))
    return all(not (mine and theirs) or mine == theirs for mine, theirs in both)


def in_its_time(when: Point, model: Model) -> bool:
    """Tell whether a model was made at a time; the last ones may have been finished and sold some years later."""
    begun = Point.of(0, edtf.parse(model.introduced), model.id).earliest if model.introduced else date.min
    ended = Point.of(0, edtf.parse(model.withdrawn), model.id).latest if model.withdrawn else date.max
    return begun <= when.latest and when.earliest <= later(ended)


def bounds_of(finding: Finding) -> Point:
    """Return the days a finding allows; 'about' reaches wider, and what was sold may be some years old."""
    if not finding.date:
        return Point(0, date.min, date.max, finding.key)
    return Point.of(0, edtf.parse(finding.date), finding.key, sold=finding.kind == DATED_DOCUMENT)


def made(span: DateSpan, name: str) -> Point:
    """Return the days on which a machine may have been finished whose number was allocated within a span."""
    listed = Point.of(0, span, name)
    return Point(0, listed.earliest, later(listed.latest), name)


def about_then(span: DateSpan, name: str) -> Point:
    """Return the same for a span that is inferred: numbers were not used strictly one after the other."""
    inferred = made(span, name)
    return Point(0, earlier(inferred.earliest), inferred.latest, name)


def meet(one: Point, other: Point) -> bool:
    """Tell whether two times have a day in common."""
    return one.earliest <= other.latest and other.earliest <= one.latest


def later(day: date) -> date:
    """Return the day by which a machine was finished and sold whose number was allocated on a day."""
    return min(day, date.max - _SOLD_LATER) + _SOLD_LATER


def earlier(day: date) -> date:
    """Return the day as much earlier."""
    return max(day, date.min + _SOLD_LATER) - _SOLD_LATER
