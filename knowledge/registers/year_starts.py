"""Registers by the first number of each year: a row runs to the next row's first number less one.

Rows stand in order of issue. Where the next row begins another series (a lower number, or a leading zero that the
row before has not), the row runs to the end of its own series: after K999999 comes K1000000, after K9999999 comes
K0000001, which ends at K0999999. The last row of a prefix runs to the register's `to`: to that number, if it is one,
or to the end of the year `to`, whatever number that was.

Source: common practice. Patent offices publish such tables, as do makers' service books.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from knowledge import edtf
from knowledge.errors import BedstampError
from knowledge.registers.blocks import LONGEST, BlockRow
from knowledge.registers.register import PackSource, Register, changed_rows

KIND = "year-starts"
_LAST_YEAR = 2100
OPEN_END = "9" * LONGEST
"""The last number of a row that nothing bounds."""


class _Start(NamedTuple):
    prefix: str
    first: str
    date: str
    works: str
    source: str


def blocks(source: PackSource, registers: Mapping[str, Register]) -> Iterator[BlockRow]:
    """Yield the year blocks of the year-start registers among `registers` (by the id the pack uses)."""
    series: defaultdict[tuple[str, str], list[_Start]] = defaultdict(list)
    changed = changed_rows(source, "year-starts")
    for row in source.rows("year-starts", "register", *_Start._fields):
        register, start = row[0], _Start(*row[1:])
        if register in registers:
            if row in changed:
                start = start._replace(source=changed[row].beside(start.source, registers[register].source))
            series[register, start.prefix].append(start)
    for (register, _), starts in series.items():
        yield from _runs(registers[register], register, starts)


def _runs(register: Register, register_id: str, starts: list[_Start]) -> Iterator[BlockRow]:
    for place, start in enumerate(starts):
        if place + 1 < len(starts):
            last, date = _last_before(start.first, starts[place + 1].first), start.date
        else:
            last, date = _end(start, register.to)
        yield BlockRow(
            register_id,
            str(place),
            start.prefix,
            start.first,
            last,
            "",
            date,
            "",
            start.works,
            "",
            start.source,
            "",
        )


def _last_before(first: str, following: str) -> str:
    """Return the last number of a row that begins at `first` when the next row begins at `following`."""
    goes_on = int(following) > int(first)
    same_width = len(following) == len(first)
    if goes_on and (same_width or not (_is_zero_led(first) or _is_zero_led(following))):
        return str(int(following) - 1).zfill(len(first))
    return _end_of_series(first)


def _end_of_series(first: str) -> str:
    """Return the last number of a series of fixed width: the zero-led ones end before 1 followed by zeros."""
    return "0" + "9" * (len(first) - 1) if _is_zero_led(first) else "9" * len(first)


def _is_zero_led(number: str) -> bool:
    return number.startswith("0") and len(number) > 1


def _end(start: _Start, to: str) -> tuple[str, str]:
    """Return the last number and the date of the last row."""
    if is_last_number(to, start.first):
        return to, start.date
    open_end = _end_of_series(start.first) if _is_zero_led(start.first) else OPEN_END
    return open_end, _until(start.date, to)


def is_last_number(to: str, first: str) -> bool:
    """Tell whether a register's `to` is its last number, not a year: a plain number from `first` on, no usual year."""
    if not (to.isascii() and to.isdigit() and int(to) >= int(first)):
        return False
    return len(to) != 4 or int(to) > _LAST_YEAR


def _until(date: str, to: str) -> str:
    """Return the span from the start of `date` to the end of `to`; `date` alone when `to` adds nothing."""
    if not to:
        return f"{date.split('/')[0]}/.."
    try:
        begun, ended = edtf.parse(date), edtf.parse(to)
    except BedstampError:
        return date
    return edtf.span(begun.earliest, ended.latest).text if ended.latest > begun.latest else date
