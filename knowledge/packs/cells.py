"""Checks of single cells: needed ones, numbers, letters, dates and words. Each distinct text is looked at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from knowledge import edtf
from knowledge.edtf import DateSpan, EdtfError, UnusedEdtfError
from knowledge.packs import numbers
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.tables import SCHEMAS, Column, Table

Wrong = tuple[str, str]
"""The code of a fault and its text."""
_SPANS = {"works": ("from", "to"), "registers": ("from", "to"), "code-tables": ("from", "to")}
_SPANS |= {"models": ("introduced", "withdrawn")}
_NAMED = ("makers", "works", "models")


def check_cells(table: Table) -> Iterator[Fault]:
    """Yield the faults that a cell has by itself, and spans that end before they begin."""
    for name, column in SCHEMAS[table.name].columns.items():
        if name not in table.absent:
            yield from _missing(table, name, column)
            yield from _wrong(table, name, column)
    if table.name in _NAMED:
        yield from _nameless(table)
    if table.name in _SPANS:
        yield from _backwards(table, *_SPANS[table.name])


def told(table: Table, name: str, wrong: Mapping[str, Wrong]) -> Iterator[Fault]:
    """Yield a fault for every row whose cell in a column is one of the wrong texts."""
    if wrong:
        for index, cell in enumerate(table.columns[name]):
            if cell in wrong:
                yield at(table, index, name, *wrong[cell])


def date_span(text: str) -> DateSpan | None:
    """Return the span of a date cell; None when it is empty or no date (a fault of its own)."""
    try:
        return edtf.parse(text) if text else None
    except EdtfError:
        return None


def _missing(table: Table, name: str, column: Column) -> Iterator[Fault]:
    if column.required and "" in table.columns[name]:
        yield from told(table, name, {"": ("missing-cell", f"The cell is empty. It must hold {column.about}.")})


def _wrong(table: Table, name: str, column: Column) -> Iterator[Fault]:
    cells = table.columns[name]
    if column.holds == "digits" and numbers.are_numbers(cells):
        return
    judge = _judge(table.name, name, column)
    if judge is None:
        return
    judged = {cell: judge(cell) for cell in set(cells) if cell}
    yield from told(table, name, {cell: wrong for cell, wrong in judged.items() if wrong})


def _judge(table: str, name: str, column: Column) -> Callable[[str], Wrong | None] | None:
    if column.words:
        return lambda text: _word(text, column.words)
    if (table, name) == ("registers", "to"):
        return lambda text: None if numbers.is_number(text) else _date(text)
    if (table, name) == ("sources", "year"):
        return _year
    judges: dict[str, Callable[[str], Wrong | None]] = {"digits": _digits, "letters": _letters, "date": _date}
    return judges.get(column.holds)


def _digits(text: str) -> Wrong | None:
    return None if numbers.is_number(text) else numbers.what_is_wrong(text)


def _letters(text: str) -> Wrong | None:
    if text.isalpha() and text == text.upper():
        if text.isascii():
            return None
        told = f"{quoted(text)} has letters other than A to Z, which are not read in front of numbers: it is only found"
        return "foreign-letters", f"{told} as if the letters had been left out. If there are others, write A to Z."
    if any(c.isdigit() for c in text):
        return "bad-letters", f"{quoted(text)} has digits in it; they belong into the number. Leave the letters only."
    if text.isalpha():
        return (
            "bad-letters",
            f"{quoted(text)} is in small letters, and numbers are compared in capitals. Write capitals.",
        )
    return (
        "bad-letters",
        f"{quoted(text)} has more than letters in it. Leave the letters only, without marks or spaces.",
    )


def _date(text: str) -> Wrong | None:
    try:
        edtf.parse(text)
    except EdtfError as error:
        return "unused-edtf" if isinstance(error, UnusedEdtfError) else "bad-date", str(error)
    return None


def _year(text: str) -> Wrong | None:
    wrong = _date(text)
    return wrong and ("odd-year", wrong[1])


def _word(text: str, words: tuple[str, ...]) -> Wrong | None:
    if text in words:
        return None
    return "unknown-word", f"{quoted(text)} is none of the words that may stand here: {', '.join(words)}."


def _nameless(table: Table) -> Iterator[Fault]:
    for index, (id_, name) in enumerate(table.rows(next(iter(table.columns)), "name")):
        if id_ and not name:
            yield at(table, index, "name", "no-name", f"{quoted(id_)} has no name, so people will see the id. Add one.")


def _backwards(table: Table, from_: str, to: str) -> Iterator[Fault]:
    for index, cells in enumerate(table.rows(from_, to)):
        begin, end = map(date_span, cells)
        if begin and end and begin.earliest > end.latest:
            text = f"{quoted(cells[0])} in {from_} is after {quoted(cells[1])} in {to}. Correct one of the two."
            yield at(table, index, from_, "from-after-to", text)
