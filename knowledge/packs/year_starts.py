"""Checks of lists by year: first numbers and years must rise together, row by row."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from knowledge.packs import numbers
from knowledge.packs.cells import date_span
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.numbers import NONE, is_zero_led
from knowledge.packs.tables import Pack, Table
from knowledge.packs.times import Days, series_of


def check_year_starts(pack: Pack) -> Iterator[Fault]:
    """Yield rows out of order, years that run backwards, lost zeros, and registers that end before their last row."""
    table = pack.tables["year-starts"]
    written = table.columns["first"]
    values = numbers.values(written)
    days = Days(table.columns["date"])
    for (register, _), series in series_of(table, "register", "prefix").items():
        sound = [index for index in series if values[index] != NONE]
        lost = _lost(table, sound, values)
        for index, text in lost.items():
            yield at(table, index, "first", "lost-zero", text)
        for before, index in pairwise(sound):
            if before not in lost and index not in lost:
                yield from _numbers(table, before, index, values)
            yield from _years(table, before, index, days)
        if sound:
            yield from _end(pack.tables["registers"], register, written[sound[-1]], values[sound[-1]])


def _lost(table: Table, series: list[int], values: list[int]) -> dict[int, str]:
    """Return rows with fewer digits than the zero-led row beside them, though the count rises between the two."""
    written = table.columns["first"]
    widths = {index: len(written[index]) for index in series if is_zero_led(written[index])}
    lost: dict[int, str] = {}
    for order, sign in ((series, 1), (series[::-1], -1)):
        for known, index in pairwise(order):
            width = widths.get(known, 0)
            rising = (values[index] - values[known]) * sign > 0
            if index not in widths and len(written[index]) < width and rising:
                widths[index] = width
                text = f"{quoted(written[index])} has fewer digits than row {table.row_numbers[known]} with {width}: "
                text += f"the zero in front is lost. Write {written[index].zfill(width)}, after a look at the source."
                lost[index] = text
    return lost


def _numbers(table: Table, before: int, index: int, values: list[int]) -> Iterator[Fault]:
    earlier, first = table.columns["first"][before], table.columns["first"][index]
    row = f"{quoted(earlier)} in row {table.row_numbers[before]}"
    if is_zero_led(earlier) and not is_zero_led(first) and len(first) != len(earlier):
        text = f"{quoted(first)} has {len(first)} digits, but {row} begins with zero and has {len(earlier)}."
        yield at(table, index, "first", "unequal-digits", f"{text} Give both the digits they are stamped with.")
    elif values[index] < values[before] and not (is_zero_led(first) and not is_zero_led(earlier)):
        text = f"{quoted(first)} is below {row}. Put the rows in order; where numbers begin with zero, write the zero."
        yield at(table, index, "first", "numbers-backwards", text)


def _years(table: Table, before: int, index: int, days: Days) -> Iterator[Fault]:
    if days.latest[index] < days.earliest[before]:
        dates = table.columns["date"]
        text = (
            f"{quoted(dates[index])} is before {quoted(dates[before])} in row {table.row_numbers[before]}. Numbers "
            "and years must rise together. Where they do not, list blocks with first and last in allocations.csv."
        )
        yield at(table, index, "date", "years-backwards", text)


def _end(registers: Table, register: str, written: str, value: int) -> Iterator[Fault]:
    """The register's `to` may be its last number, unless it is a year: then it must reach the last row."""
    for index, (id_, to) in enumerate(registers.rows("register", "to")):
        if id_ == register and numbers.is_number(to) and date_span(to) is None and int(to) < value:
            text = f"{quoted(to)} is below {quoted(written)}, where the last year begins. Write its last number."
            yield at(registers, index, "to", "to-before-last", text)
