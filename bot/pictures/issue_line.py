"""The numbers of one register and prefix laid out in the order of their issue, which is not the order of the numbers.

Each block gets a stretch of the line, as long as its quantity: the six-digit numbers first, then the seven-digit ones
from 1000000, those led by a zero last.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, pairwise
from statistics import median
from typing import NamedTuple

from bot.pictures.scales import Moment, moment_of
from knowledge.base import Knowledge
from knowledge.candidates import Candidate
from knowledge.registers import Block
from knowledge.registers.year_starts import OPEN_END

_TICKS = 50
"""The most round numbers looked for in one block: one with a wrong last number may span a million of them."""
_ROOM = 1.15
"""How far beyond a number a block without an end is drawn."""


class Stretch(NamedTuple):
    """One block on the line: where it begins, in machines from the first, how many it has, and when."""

    block: Block
    start: float
    size: float
    when: Moment | None

    @property
    def is_open(self) -> bool:
        """Whether nobody knows where the block ends."""
        return self.block.last == OPEN_END

    @property
    def ends(self) -> tuple[str, str]:
        """First and last number; the first twice where nobody knows the last."""
        return self.block.first, self.block.first if self.is_open else self.block.last


@dataclass(slots=True)
class Band:
    """A run of blocks that are counted alike. `widths` are their numbers of digits, fewest and most.

    `last` is empty where nobody knows the last number.
    """

    start: float
    end: float
    first: str
    last: str
    widths: tuple[int, int]
    begins_zero_led: bool
    is_zero_led: bool
    is_plain_count: bool

    @property
    def name(self) -> str:
        """What tells the series from others, in words."""
        fewest, most = self.widths
        digits = f"{most} digit{'s' if most > 1 else ''}" if fewest == most else f"{fewest} to {most} digits"
        if self.is_zero_led:
            return f"{digits}, first a zero"
        return f"plain count, {digits}" if self.is_plain_count else digits


@dataclass(frozen=True, slots=True)
class IssueLine:
    """All stretches in order of issue, and the bands they form."""

    stretches: tuple[Stretch, ...]
    bands: tuple[Band, ...]
    length: float

    @property
    def turns_back(self) -> bool:
        """Whether a later number is ever smaller than an earlier one: whether order and size differ."""
        firsts = [int(stretch.block.first) for stretch in self.stretches]
        return any(later < earlier for earlier, later in pairwise(firsts))

    def stretch_of(self, one: Candidate) -> Stretch | None:
        """Return the stretch of the block a candidate was found in."""
        wanted = (one.first, one.last, one.date, one.model, one.works)
        for stretch in self.stretches:
            block = stretch.block
            last = None if stretch.is_open else block.last
            if (block.first, last, block.date, block.model, block.works) == wanted:
                return stretch
        return None

    def place_of(self, one: Candidate) -> float | None:
        """Return where a candidate's number lies, in machines from the first; None for one of no block here."""
        stretch = self.stretch_of(one)
        if stretch is None:
            return None
        if one.position is None or stretch.is_open:
            return stretch.start + (stretch.size / 2 if one.position is None else one.position)
        count = int(stretch.block.last) - int(stretch.block.first) + 1
        return stretch.start + stretch.size * (one.position - 0.5) / count

    def serial_ticks(self, step: int) -> Iterator[tuple[float, str]]:
        """Yield place and digits of every round number, at its first issue."""
        seen: set[tuple[int, str]] = set()
        for stretch in self.stretches:
            first, last = int(stretch.block.first), int(stretch.block.last)
            count = stretch.size if stretch.is_open else last - first + 1
            rounded = range(-(-first // step) * step, first + int(count), step)
            for number in islice(rounded, _TICKS):
                digits = str(number).zfill(len(stretch.block.first))
                if number and (len(digits), digits) not in seen:
                    seen.add((len(digits), digits))
                    yield stretch.start + stretch.size * (number - first) / count, digits


def issue_line(one: Candidate, others: Sequence[Candidate], knowledge: Knowledge) -> IssueLine | None:
    """Return the line a candidate's number lies on; None when its block is not found there.

    `others` are further candidates on the same line, for which a block without an end must leave room.
    """
    blocks = knowledge.introduced.get(one.register, knowledge.blocks)
    in_order = blocks.in_issue_order(one.register, one.reading.prefix, one.reading.suffix)
    stretches = tuple(_stretches(in_order, (one, *others)))
    if not stretches:
        return None
    line = IssueLine(stretches, tuple(_told_apart(_bands(stretches))), stretches[-1].start + stretches[-1].size)
    return line if line.stretch_of(one) else None


def _stretches(blocks: Iterable[Block], candidates: Sequence[Candidate]) -> Iterator[Stretch]:
    start = 0.0
    sizes: list[float] = []
    for block in blocks:
        if block.last == OPEN_END:
            asked = [one.position or 1 for one in candidates if one.last is None and one.first == block.first]
            size = max(float(median(sizes[-5:] or [1])), _ROOM * max(asked, default=1))
        else:
            # A stated quantity beyond the numbers of the block is a mistake in the list.
            size = float(max(1, min(block.quantity, int(block.last) - int(block.first) + 1)))
        sizes.append(size)
        yield Stretch(block, start, size, moment_of(block.date))
        start += size


def _bands(stretches: Iterable[Stretch]) -> Iterator[Band]:
    band: Band | None = None
    for stretch in stretches:
        if band is None or _begins_anew(band, stretch):
            if band is not None:
                yield band
            band = _band(stretch)
        else:
            _lengthen(band, stretch)
    if band is not None:
        yield band


def _told_apart(bands: Iterable[Band]) -> Iterator[Band]:
    """Yield the bands; one that begins with a zero after others of as many digits is the zero-led series.

    A list by first numbers does not say where that series ends, so its last number tells nothing.
    """
    widths: set[int] = set()
    for band in bands:
        band.is_zero_led = band.is_zero_led or (band.begins_zero_led and band.widths[0] in widths)
        widths.add(band.widths[1])
        yield band


def _is_zero_led(number: str) -> bool:
    return len(number) > 1 and number[0] == "0"


def _begins_anew(band: Band, stretch: Stretch) -> bool:
    first, last = stretch.ends
    if _is_zero_led(first) and not band.begins_zero_led:
        return True
    if len(first) != len(last) or band.is_plain_count:
        return False
    return len(first) != band.widths[1]


def _band(stretch: Stretch) -> Band:
    first, last = stretch.ends
    end = stretch.start + stretch.size
    widths = (len(first), len(last))
    shown = "" if stretch.is_open else last
    zero_led = _is_zero_led(first)
    return Band(stretch.start, end, first, shown, widths, zero_led, _is_zero_led(last), len(first) != len(last))


def _lengthen(band: Band, stretch: Stretch) -> None:
    first, last = stretch.ends
    band.end = stretch.start + stretch.size
    band.last = "" if stretch.is_open else last
    band.is_zero_led = band.is_zero_led and _is_zero_led(last)
    band.is_plain_count = band.is_plain_count or len(first) != len(last)
    band.widths = (min(band.widths[0], len(first)), max(band.widths[1], len(last)))
