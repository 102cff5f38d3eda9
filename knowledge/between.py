"""What follows from sightings for a number between two of them: its date, and a model seen on both sides.

A series is all numbers of one maker with the same letters. Its order is the register's own where the maker has one for
these letters, and common practice (`inference.order_of_issue`) for numbers outside its blocks and elsewhere.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.findings import DATED_DOCUMENT, Sighting
from knowledge.inference import Inferred, Point, Series, order_of_issue
from knowledge.registers import Blocks, Register, SeriesKey
from knowledge.shapes import is_zero_led

_STRETCH = 10**20
"""More than there are numbers in any block."""
_Line = tuple[str, str, str]
"""Maker, prefix, suffix."""


class Follows(NamedTuple):
    """What follows for one number.

    `date` is EDTF and `model` an id, '' where none follows; `source` names the sightings, `rests_on` has their keys.
    `agree` is false where sightings of the series contradict each other, so that the span is wider; `alike` tells that
    the named ones have as many digits as the number, and lead with a zero as it does.
    """

    date: str
    model: str
    source: str
    rests_on: tuple[str, ...]
    agree: bool
    alike: bool


@dataclass(slots=True)
class Between:
    """The sightings by series. Each series is arranged when it is first asked about."""

    by_key: Mapping[str, Sighting] = field(default_factory=dict)
    _lines: Mapping[_Line, Sequence[Sighting]] = field(default_factory=dict)
    _makers: Mapping[tuple[str, str], Sequence[str]] = field(default_factory=dict)
    _blocks: Blocks = field(default_factory=Blocks)
    _registers: Sequence[Register] = ()
    _arranged: dict[_Line, tuple[Series, IssueOrder]] = field(default_factory=dict)

    @classmethod
    def of(
        cls, sightings: Iterable[Sighting], maker_of: Callable[[Sighting], str], blocks: Blocks,
        registers: Iterable[Register],
    ) -> Between:  # fmt: skip
        """Arrange sightings beside the registers; of two with one key the first counts."""
        by_key: dict[str, Sighting] = {}
        for one in sightings:
            by_key.setdefault(one.key, one)
        lines: dict[_Line, list[Sighting]] = {}
        makers: dict[tuple[str, str], list[str]] = {}
        for one in by_key.values():
            line = (maker_of(one), one.prefix, one.suffix)
            if line not in lines:
                makers.setdefault(line[1:], []).append(line[0])
            lines.setdefault(line, []).append(one)
        return cls(by_key, lines, makers, blocks, tuple(one for one in registers if one.is_of_serials))

    def shapes(self) -> frozenset[SeriesKey]:
        """Return prefix, number of digits and suffix of every sighted number."""
        return frozenset((one.prefix, len(one.digits), one.suffix) for one in self.by_key.values())

    def prepare(self) -> None:
        """Arrange every series now; else each is arranged when it is first asked about."""
        for line in self._lines:
            self._series(line)

    def makers(self, prefix: str, suffix: str) -> Sequence[str]:
        """Return the makers of whose machines with these letters any was sighted."""
        return self._makers.get((prefix, suffix), ())

    def follows(
        self, maker: str, prefix: str, digits: str, suffix: str, *, date: bool = True, model: bool = True
    ) -> Follows | None:
        """Return what follows for a number; only the date or only the model where the other one is not wanted."""
        line = (maker, prefix, suffix)
        if line not in self._lines or not (date or model):
            return None
        series, order = self._series(line)
        found = series.infer(order.place(digits), with_date=date)
        return self._told(found, digits, date, model) if found else None

    def around(
        self, maker: str, prefix: str, digits: str, suffix: str, counts: Callable[[Sighting], bool] = lambda _: True
    ) -> tuple[Follows | None, Follows | None]:
        """Return the date and the model that the nearest machines on both sides tell, whatever is known of this one.

        Only sightings that `counts` is true of are looked at. None for what does not follow.
        """
        line = (maker, prefix, suffix)
        if line not in self._lines or not digits.isdecimal():
            return None, None
        series, order = self._series(line)
        found = series.around(order.place(digits), lambda point: counts(self.by_key[point.name]))
        if found is None:
            return None, None
        return self._told(found, digits, True, False), self._told(found, digits, False, True)

    def names(self, follows: Follows) -> str:
        """Return the machines that something rests on: 'K204000 (1904, ledger p. 4) and K204200 (1905, ledger)'."""
        return " and ".join(self._named_by(key) for key in follows.rests_on)

    def _told(self, found: Inferred, digits: str, date: bool, model: bool) -> Follows | None:
        pairs = {}
        if date and found.dated:
            pairs[found.before, found.after] = "between two machines the group knows"
        if model and found.showing:
            pairs.setdefault(found.showing, "between two machines of this model")
        if not pairs:
            return None
        span = edtf.span(found.earliest, found.latest).text if date and found.dated else ""
        named = {pair: " and ".join(self._named_by(point.name) for point in pair) for pair in pairs}
        source = ", and ".join(f"{how}: {named[pair]}" for pair, how in pairs.items())
        rests_on = tuple(dict.fromkeys(point.name for pair in pairs for point in pair))
        alike = all(_form(self.by_key[name].digits) == _form(digits) for name in rests_on)
        return Follows(span, found.model if model else "", source, rests_on, found.agree, alike)

    def _named_by(self, key: str) -> str:
        one = self.by_key[key]
        when = f"{edtf.in_words(edtf.parse(one.date))}, " if one.date else ""
        return f"{one.serial} ({when}{one.grounds})"

    def _series(self, line: _Line) -> tuple[Series, IssueOrder]:
        if line not in self._arranged:
            self._arranged[line] = self._arrange(*line)
        return self._arranged[line]

    def _arrange(self, maker: str, prefix: str, suffix: str) -> tuple[Series, IssueOrder]:
        own = (one.id for one in self._registers if one.maker == maker)
        lists = (self._blocks.firsts_in_issue_order(register, prefix, suffix) for register in own)
        order = IssueOrder(max(lists, key=len, default=[]))
        return Series(_point(one, order) for one in self._lines[maker, prefix, suffix]), order


class IssueOrder:
    """Places in the order of issue: blocks as the register has them, numbers outside behind the block before them.

    `firsts` are the first numbers of the blocks, as they were issued.
    """

    def __init__(self, firsts: Sequence[str]) -> None:
        self._stretches = sorted((order_of_issue(first), place) for place, first in enumerate(firsts))
        self._begins = [begin for begin, _ in self._stretches]

    def place(self, digits: str) -> int:
        """Return the place of a number; only the comparison of two places means anything."""
        number = order_of_issue(digits)
        if not self._stretches:
            return number
        begin, place = self._stretches[max(0, bisect_right(self._begins, number) - 1)]
        return place * _STRETCH + number - begin


def _form(digits: str) -> tuple[int, bool]:
    return len(digits), is_zero_led(digits)


def _point(one: Sighting, order: IssueOrder) -> Point:
    when = edtf.parse(one.date) if one.date else _NO_DATE
    return Point.of(order.place(one.digits), when, one.key, one.model, sold=one.kind == DATED_DOCUMENT)


_NO_DATE = DateSpan("", date.min, date.max)
