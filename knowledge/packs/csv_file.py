"""One CSV file of a pack, read column by column. Every record is one row, as a spreadsheet shows it."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from pathlib import Path

from knowledge.names import fold
from knowledge.packs.decoding import decode
from knowledge.packs.descriptor import Resource
from knowledge.packs.faults import Fault, at, fault, quoted
from knowledge.packs.letters import plain_letters
from knowledge.packs.tables import SCHEMAS, Column, Table

_AT_ONCE = 512  # rows; few enough that they are gone before the garbage collector looks at them
_DAMAGE = ("nul-bytes", "half-written")
_DELIMITERS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "upright strokes"}


def read_file(folder: Path, resource: Resource) -> tuple[Table, list[Fault]]:
    """Read the file of a resource. Never raises for what it holds; the table is incomplete when rows are missing."""
    if resource.refused:
        return _nothing(resource)
    try:
        data = (folder / resource.path).read_bytes()
    except FileNotFoundError:
        text = "It is listed in datapackage.json, but not there. Add the file, or take it off the list."
        return _nothing(resource, fault("missing-file", text, resource.path))
    except OSError as error:
        text = f"It cannot be read: {error.strerror}. Check that it is a file, and who may read it."
        return _nothing(resource, fault("unreadable-file", text, resource.path))
    text, faults = decode(data, resource)
    return _Reading(resource, faults).read(text) if text else _nothing(resource, *faults)


def _nothing(resource: Resource, *faults: Fault) -> tuple[Table, list[Fault]]:
    return Table.of(resource.table, file=resource.path, complete=False), list(faults)


class _Reading:
    """The reading of one file: its records go in, columns and faults come out."""

    def __init__(self, resource: Resource, faults: list[Fault]) -> None:
        self._file = resource.path
        self._resource = resource
        self._schema = SCHEMAS[resource.table].columns
        self._faults = faults
        self._rows_read = 0
        self._short_row = 0
        self._broken = ""

    def read(self, text: str) -> tuple[Table, list[Fault]]:
        records, head = self._opened(text, self._resource.delimiter)
        delimiter = self._other_delimiter(head)
        if delimiter:
            records, head = self._opened(text, delimiter)
        if not head:
            if not self._broken:
                self._tell("empty-file", "It is empty: there is no head row with the names of the columns. Add it.")
            return _nothing(self._resource, *self._faults)
        head_row = self._rows_read
        self._check_head(head, head_row)
        cells = self._columns(records, len(head), whole_lines=text.endswith(("\n", "\r")))
        return self._table(head, head_row, cells), self._without_echoes()

    def _damaged(self) -> frozenset[int]:
        """Return the rows that have to be written anew, whatever else is wrong with them."""
        return frozenset(one.row for one in self._faults if one.row and one.code in _DAMAGE)

    def _without_echoes(self) -> list[Fault]:
        """Return the faults; of a damaged row only the first damage, for all else in it follows from that."""
        damaged = self._damaged()
        told: dict[int, Fault] = {}
        for one in self._faults:
            if one.row in damaged and one.code in _DAMAGE:
                told.setdefault(one.row, one)
        return [one for one in self._faults if one.row not in damaged or told[one.row] is one]

    def _tell(self, code: str, text: str, row: int | None = None, column: str | None = None) -> None:
        self._faults.append(fault(code, text, self._file, row, column))

    def _opened(self, text: str, delimiter: str) -> tuple[Iterator[list[str]], list[str]]:
        """Return the records of a text below its head, and the head: the first row that is not blank."""
        self._rows_read = 0
        records = self._records(text, delimiter)
        for record in records:
            self._rows_read += 1
            head = [cell.strip().strip("\ufeff") for cell in record]
            if any(head):
                return records, head
        return records, []

    def _records(self, text: str, delimiter: str) -> Iterator[list[str]]:
        # Encoded again, for a text held as lines in memory takes four bytes for every letter.
        lines = io.TextIOWrapper(io.BytesIO(text.encode()), "utf-8", newline="")
        rows = csv.reader(lines, delimiter=delimiter, quotechar=self._resource.quote, strict=True)
        try:
            yield from rows
        except csv.Error as error:
            self._broken = str(error)

    def _other_delimiter(self, head: Sequence[str]) -> str:
        """Return the delimiter of a file that was plainly made with another one, '' when all is well."""
        if len(head) != 1 or head[0] in self._schema:
            return ""
        for delimiter, name in _DELIMITERS.items():
            names = {cell.strip(' "') for cell in head[0].split(delimiter)}
            if len(names) > 1 and self._schema.keys() & names:
                self._tell_delimiter(name, delimiter)
                return delimiter
        return ""

    def _tell_delimiter(self, name: str, delimiter: str) -> None:
        declare = '"dialect": {"delimiter": "' + delimiter.replace("\t", "\\t") + '"}'
        wanted = _DELIMITERS.get(self._resource.delimiter, "the delimiter that is declared")
        text = (
            f"Its cells are separated by {name}. Save it with {wanted}, or write {declare} for it in datapackage.json."
        )
        self._tell("wrong-delimiter", text)

    def _check_head(self, head: Sequence[str], row: int) -> None:
        for name, count in Counter(filter(None, head)).items():
            if count > 1:
                text = f"{count} columns are called {quoted(name)}. Rename or delete all but one."
                self._tell("double-column", text, row, name)
            if name not in self._schema:
                text = f"The column {quoted(name)} is no part of the format; it is kept and ignored."
                self._tell("unknown-column", text + _meant(name, self._schema), row, name)
        for name, column in self._schema.items():
            if column.required and name not in head:
                self._tell(
                    "missing-column", f"The column {quoted(name)} is missing: {column.about}. Add it.", row, name
                )

    def _columns(self, records: Iterator[list[str]], width: int, whole_lines: bool) -> list[list[str]]:
        """Return the cells below the head, one list for each column, stripped."""
        columns: list[list[str]] = [[] for _ in range(width)]
        pool: dict[str, str] = {}
        while chunk := list(islice(records, _AT_ONCE)):
            if set(map(len, chunk)) != {width}:
                chunk = self._squared(chunk, width)
            self._rows_read += len(chunk)
            for column, cells in zip(columns, zip(*chunk, strict=True), strict=True):
                stripped = list(map(str.strip, cells))
                # One object for each text that comes again and again: a register of a million rows has few dates.
                if len(set(stripped)) * 2 < len(stripped):
                    stripped = list(map(pool.setdefault, stripped, stripped))
                column.extend(stripped)
        if self._broken:
            self._tell_broken()
        elif not whole_lines and self._short_row == self._rows_read:
            self._faults.pop()
            self._tell("half-written", "The file breaks off in this row. Copy it again, whole.", self._rows_read)
        return columns

    def _squared(self, chunk: list[list[str]], width: int) -> list[list[str]]:
        """Give every row `width` cells, and tell which had more or fewer. Blank lines become blank rows."""
        for place, record in enumerate(chunk):
            row = self._rows_read + place + 1
            if record and len(record) < width:
                self._short_row = row
                text = f"The row has only {len(record)} of {width} cells. Add what is missing, even commas."
                self._tell("too-few-cells", text, row)
            elif len(record) > width:
                text = f"The row has {len(record)} cells, the head {width}. Put a cell that holds a comma in quotes."
                self._tell("too-many-cells", text, row)
            chunk[place] = record[:width] + [""] * (width - len(record))
        return chunk

    def _tell_broken(self) -> None:
        mark = self._resource.quote
        text = (
            f"A quote mark in this row is in the wrong place or never closed ({self._broken}), and nothing after it "
            f"was read. Write {mark}{mark} for a quote mark inside a quoted cell. If the file breaks off, copy it anew."
        )
        self._tell("broken-quotes", text, self._rows_read + 1)

    def _table(self, head: Sequence[str], head_row: int, cells: list[list[str]]) -> Table:
        numbers: Sequence[int] = range(head_row + 1, head_row + 1 + len(cells[0]))
        blank = _blank_rows(cells)
        if blank:
            numbers = [number for place, number in enumerate(numbers) if place not in blank]
            cells = [[cell for place, cell in enumerate(column) if place not in blank] for column in cells]
        columns: dict[str, list[str]] = {}
        for name, column in zip(head, cells, strict=True):
            if name:
                columns.setdefault(name, column)
            elif any(column):
                self._tell_nameless(column, numbers)
        table = Table.of(
            self._resource.table,
            columns,
            row_numbers=numbers,
            file=self._file,
            absent=frozenset(self._schema.keys() - set(head)),
            complete=not self._broken,
            damaged=self._damaged(),
        )
        for name, spec in self._schema.items():
            if spec.holds == "letters":
                self._make_plain(table, name)
        return table

    def _tell_nameless(self, column: Sequence[str], numbers: Sequence[int]) -> None:
        row, cell = next((row, cell) for row, cell in zip(numbers, column, strict=True) if cell)
        text = f"{quoted(cell)} stands in a column without a name. Name the column in the head row, or empty the cell."
        self._tell("nameless-column", text, row)

    def _make_plain(self, table: Table, name: str) -> None:
        """Turn the letters of a prefix or suffix into those that typed numbers are compared with, and say so."""
        cells = table.columns[name]
        other = {cell: plain for cell in set(cells) if cell != (plain := plain_letters(cell))}
        if not other:
            return
        for index, cell in enumerate(cells):
            if cell in other:
                self._faults.append(at(table, index, name, *_taken_as(cell, other[cell])))
        cells[:] = [other.get(cell, cell) for cell in cells]


def _taken_as(cell: str, plain: str) -> tuple[str, str]:
    """Return code and text for letters that are taken as others."""
    if plain == cell.upper():
        return "lower-case", f"{quoted(cell)} is in small letters; it is taken as {quoted(plain)}. Write capitals."
    text = f"{quoted(cell)} has letters other than A to Z; it is taken as {quoted(plain)}, for so are numbers that"
    return "foreign-letters", f"{text} people type with such letters. Write {plain}."


def _blank_rows(cells: Sequence[Sequence[str]]) -> set[int]:
    if "" not in cells[0]:
        return set()
    empty = (place for place, cell in enumerate(cells[0]) if not cell)
    return {place for place in empty if not any(column[place] for column in cells)}


def _meant(name: str, schema: Mapping[str, Column]) -> str:
    """Say which column of the format a name that is written a little differently was meant for."""
    plain = fold(name).replace("_", "-").replace(" ", "-")
    return f" Did you mean {quoted(plain)}?" if plain in schema else ""
