"""Dating a number by its neighbours: what the sightings of one series tell about a number between two of them.

Numbers were issued in a known order, so dates never run backwards along it. Each sighting has own bounds: the days
that its date may mean. The method:

1. The rising curve that disagrees least with all own bounds is fitted by pooling adjacent violators (`isotonic`). Its
   cost is a distance, so its values are medians, and one wrong receipt is outvoted by its neighbours.
2. A sighting that lies GROSS_DAYS or more off that curve is set aside, unless many do; then the curve is fitted anew.
3. Where the sightings agree, the span of a number is what they leave: from the latest beginning before it to the
   earliest end after it.
4. Where they disagree, the span reaches over the dates of the sightings that were pooled around the number, but for
   the outer ones of many (5 % on each side), and on either side of the curve at least by the series' `reach`: the
   days by which at most 10 % of its sightings lie off a curve made without them (tenfold cross-validation).
5. The span is cut to the *bracket*, the days between two sightings on both sides of the number, which are named
   (`before`, `after`): the last to begin that begins no later than the span, and the first to end that ends no earlier.
   Where sightings agree these are the enclosing ones, and the span is the bracket. Where they disagree they are further
   out, so that the bracket widens just as far as the disagreement reaches. Where none lies so far out, the bracket ends
   at the outermost day that any sighting of the series tells.

Own bounds are the days of the date as written, wider for 'about' and for sales (`Point.of`, `ALLOWANCES`). The span is
stated to hold the truth for 90 of 100 numbers if own bounds do but for a few gross errors, or if they are off either
way and there are at least seven sightings to show it. It is not stated for sales that are taken for the day of issue:
all are late, and no disagreement shows that. `python -m tests.bench.inference` prints how often it came true.

>>> from datetime import date
>>> a = Point(1, date(1911, 1, 1), date(1911, 12, 31), "A", "9")
>>> b = Point(900, date(1913, 5, 1), date(1913, 5, 1), "B", "9")
>>> found = infer(500, [a, b])
>>> print(found.earliest, found.latest, found.before.name, found.after.name, found.model)
1911-01-01 1913-05-01 A B 9
"""

from __future__ import annotations

from collections.abc import Sequence

from knowledge.inference.constants import ALLOWANCES, COVERAGE
from knowledge.inference.points import InferenceError, Point, order_of_issue
from knowledge.inference.series import Inferred, Series

__all__ = ["ALLOWANCES", "COVERAGE", "InferenceError", "Inferred", "Point", "Series", "infer", "order_of_issue"]


def infer(order: int, points: Sequence[Point]) -> Inferred | None:
    """Infer one number from the sightings of its series, in any order; for several numbers make a `Series` once."""
    return Series(points).infer(order)
