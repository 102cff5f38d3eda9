"""Checks against time: blocks in order of issue, and dates outside the years of a model, works or register."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import pairwise
from operator import gt, lt
from typing import NamedTuple

from knowledge.packs import numbers
from knowledge.packs.cells import date_span
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.tables import Pack, Table


class Time(NamedTuple):
    """The first and the last day of something, and both as people read them."""

    begin: date = date.min
    end: date = date.max
    text: str = ""


_ALWAYS = Time()


def check_times(pack: Pack, name: str) -> Iterator[Fault]:
    """Yield rows of a table whose date lies outside the time of its model, its works or its register."""
    table = pack.tables[name]
    days = Days(table.columns["date"])
    if "model" in table.columns:
        models = _times(pack.rows("models", "model", "introduced", "withdrawn"))
        yield from _outside(table, "model", models, days, ("model-not-introduced", "model-withdrawn"))
    works = _times(pack.rows("works", "works", "from", "to"))
    yield from _outside(table, "works", works, days, ("works-closed", "works-closed"))
    registers = _times(pack.rows("registers", "register", "from", "to"))
    yield from _outside(table, "register", registers, days, ("outside-register", "outside-register"))


def check_issue_order(table: Table) -> Iterator[Fault]:
    """Yield blocks whose place or date does not fit the order of issue, for each register and prefix."""
    days = Days(table.columns["date"])
    orders = numbers.values(table.columns["order"])
    for series in series_of(table, "register", "prefix").values():
        stated = sum(bool(table.columns["order"][index]) for index in series)
        if 0 < stated < len(series):
            bare = next(index for index in series if not table.columns["order"][index])
            text = (
                f"{stated} of {len(series)} rows of this prefix have an order, this one has none. Fill in all or none."
            )
            yield at(table, bare, "order", "part-order", text)
        issued = in_issue_order(series, orders)
        for before, index in pairwise(issued):
            if orders[before] == orders[index] != numbers.NONE and not _same_block(table, before, index):
                text = f"{orders[index]} is the order of row {table.row_numbers[before]} too. Give each block its own."
                yield at(table, index, "order", "double-order", text)
            if days.latest[index] < days.earliest[before]:
                dates = table.columns["date"]
                text = (
                    f"{quoted(dates[index])} is before {quoted(dates[before])} in row {table.row_numbers[before]}, "
                    "which was issued before. Check the dates and the order."
                )
                yield at(table, index, "date", "dates-backwards", text)


def series_of(table: Table, *columns: str) -> dict[tuple[str, ...], list[int]]:
    """Return the rows (counted from 0) of each distinct run of cells in these columns, without damaged rows."""
    found: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
    for index, key in enumerate(table.rows(*columns)):
        found[key].append(index)
    if table.damaged:
        damaged = {index for index, row in enumerate(table.row_numbers) if row in table.damaged}
        sound = ((key, [index for index in series if index not in damaged]) for key, series in found.items())
        return {key: series for key, series in sound if series}
    return found


def in_issue_order(series: Sequence[int], orders: Sequence[int]) -> list[int]:
    """Return rows in order of issue. A row that does not state its order follows the row above it in the file."""
    places: dict[int, int] = {}
    place = numbers.NONE
    for index in series:
        place = orders[index] if orders[index] != numbers.NONE else place
        places[index] = place
    return sorted(series, key=places.__getitem__)


def _same_block(table: Table, one: int, other: int) -> bool:
    """Tell whether a row only repeats another, which is a fault of its own."""
    return all(table.columns[name][one] == table.columns[name][other] for name in ("first", "last", "date"))


class Days:
    """The first and the last day that each cell of a column may mean; all of time where it is no date."""

    def __init__(self, cells: Sequence[str]) -> None:
        spans = {cell: date_span(cell) for cell in set(cells)}
        first = {cell: span.earliest if span else date.min for cell, span in spans.items()}
        last = {cell: span.latest if span else date.max for cell, span in spans.items()}
        self.earliest = list(map(first.__getitem__, cells))
        self.latest = list(map(last.__getitem__, cells))


def _times(rows: Iterator[tuple[str, ...]]) -> dict[str, Time]:
    found: dict[str, Time] = {}
    for id_, from_, to in rows:
        begin, end = date_span(from_), date_span(to)
        time = Time(begin.earliest if begin else date.min, end.latest if end else date.max, f"{from_}..{to}")
        if time.begin <= time.end:  # else told already, and no date could be right
            found.setdefault(id_, time)
    return found


def _outside(table: Table, name: str, times: Mapping[str, Time], days: Days, codes: tuple[str, str]) -> Iterator[Fault]:
    """Yield dates outside the time of what a column names. A register is the whole list's, so its date is told."""
    cell = "date" if name == "register" else name
    cells = table.columns[name]
    known = {cell: times.get(cell, _ALWAYS) for cell in set(cells)}
    early = list(map(lt, days.latest, map({cell: time.begin for cell, time in known.items()}.__getitem__, cells)))
    late = list(map(gt, days.earliest, map({cell: time.end for cell, time in known.items()}.__getitem__, cells)))
    for code, hits in zip(codes, (early, late), strict=True):
        for index, hit in enumerate(hits if True in hits else ()):
            if hit:
                when, time = quoted(table.columns["date"][index]), known[cells[index]].text
                text = f"The row is dated {when}, but {name} {quoted(cells[index])} has the years {time}."
                yield at(table, index, cell, code, f"{text} Check which is right.")
