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
from knowledge.registers.year_starts import is_last_number


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
            yield from _end(pack.tables["registers"], register, table, sound[-1])


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


def _end(registers: Table, register: str, table: Table, last: int) -> Iterator[Fault]:
    """The register's `to` is its last number or its last year, and must reach the last row of each prefix."""
    first, date = table.columns["first"][last], table.columns["date"][last]
    row = f"row {table.row_numbers[last]} of {table.file}"
    for index, (id_, to) in enumerate(registers.rows("register", "to")):
        if id_ != register or is_last_number(to, first):
            continue
        begun, ended = date_span(date), date_span(to)
        if numbers.is_number(to) and (ended is None or is_last_number(to, "0")):
            text = f"{quoted(to)} is below {quoted(first)}, where the last year begins ({row}). Write the last number."
        elif begun and ended and ended.latest < begun.earliest:
            text = (
                f"{quoted(to)} is before {quoted(date)}, the last year of the list ({row}), so that it would have no "
            )
            text += "end. Write the last year or the last number."
        else:
            continue
        yield at(registers, index, "to", "to-before-last", text)
