"""From columns of known meaning to the rows of allocations.csv or year-starts.csv."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from knowledge.names import fold
from knowledge.packs.faults import counted
from knowledge.packs.importing.date_column import combined, read_dates
from knowledge.packs.importing.headings import DAY, MONTH
from knowledge.packs.importing.layout import Layout
from knowledge.packs.importing.number_columns import Numbers, read_number_columns
from knowledge.packs.importing.numbers import LostDigitsError, read_numbers
from knowledge.packs.importing.questions import Interview
from knowledge.packs.tables import SCHEMAS, Table

Kind = Literal["allocations", "year-starts"]
BLOCKS_BY_QUANTITY = "blocks: the last number is first + quantity - 1"
FIRST_OF_YEAR = "first number of each year"
ONE_NUMBER, LEAVE_OUT_ROWS = "one number alone", "leave these rows out"


@dataclass(frozen=True, slots=True)
class Target:
    """Where the rows are to go, as far as the caller knows.

    `register` is its id, '' when a column says it. `digits` is how many digits its numbers have, 0 when that varies
    or is unknown. `years` are its first and last year. `ids` gives, for 'model', 'works' and 'source', the ids of
    names that the pack knows already; the names are folded.
    """

    register: str = ""
    digits: int = 0
    years: tuple[int, int] | None = None
    ids: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


@dataclass(slots=True)
class Rows:
    """The rows as far as they are clear; `names` holds what was written for each id that was made, by column."""

    table: Table
    names: dict[str, dict[str, str]]
    notes: list[str]


def read_rows(layout: Layout, target: Target, interview: Interview) -> Rows:
    """Read all columns of a layout. Row numbers stay those of the sheet."""
    return _Reader(layout, target, interview).read()


@dataclass(slots=True)
class _Reader:
    layout: Layout
    target: Target
    interview: Interview
    names: dict[str, dict[str, str]] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)

    def read(self) -> Rows:
        numbers = read_number_columns(self.layout, self.interview)
        quantities = self._quantities()
        kind, lasts = self._kind(numbers, quantities)
        columns = self._columns(numbers, lasts, quantities)
        known = SCHEMAS[kind].columns
        homeless = [name for name, cells in columns.items() if name not in known and any(cells)]
        if homeless:
            self.notes.append(f"{kind}.csv has no column for {', '.join(homeless)}: kept as further columns.")
        wanted = {name: cells for name, cells in columns.items() if name in known or name in homeless}
        wanted |= self.layout.kept
        keep = [place for place, read in enumerate(numbers.read) if read and (lasts[place] or kind == "year-starts")]
        table = Table.of(
            kind,
            {name: [cells[place] for place in keep] for name, cells in wanted.items()},
            row_numbers=[self.layout.rows[place] for place in keep],
        )
        return Rows(table, self.names, [*self.layout.notes, *numbers.notes, *self.notes])

    def _kind(self, numbers: Numbers, quantities: list[str]) -> tuple[Kind, list[str]]:
        """Tell blocks from first numbers of years, and return the last numbers."""
        lasts = [read.last if read else "" for read in numbers.read]
        if any(lasts):
            return "allocations", self._with_lasts(numbers, lasts)
        if not any(quantities):
            self.notes.append("There are no last numbers, so each row was read as the first number of its year.")
            return "year-starts", lasts
        text = "The list has first numbers and quantities, but no last numbers. What is a row?"
        answer = self.interview.ask("kind", text, (BLOCKS_BY_QUANTITY, FIRST_OF_YEAR), column="last")
        if answer != BLOCKS_BY_QUANTITY:
            return "year-starts", lasts
        self.notes.append("The last numbers were worked out from the quantities.")
        both = zip(numbers.read, quantities, strict=True)
        lasts = [_last_by_quantity(read.first, quantity) if read else "" for read, quantity in both]
        return "allocations", self._with_lasts(numbers, lasts)

    def _with_lasts(self, numbers: Numbers, lasts: list[str]) -> list[str]:
        """Ask what rows without a last number mean, when others have one."""
        without = {place for place, read in enumerate(numbers.read) if read and not lasts[place]}
        if not without:
            return lasts
        row = self.layout.rows[min(without)]
        text = f"Without a last number: {counted(len(without), 'row')}, the first of them row {row}. What do they mean?"
        answer = self.interview.ask("no-last", text, (ONE_NUMBER, LEAVE_OUT_ROWS), row=row, column="last")
        if answer != ONE_NUMBER:
            return lasts
        both = enumerate(zip(numbers.read, lasts, strict=True))
        return [read.first if read and place in without else last for place, (read, last) in both]

    def _columns(self, numbers: Numbers, lasts: list[str], quantities: list[str]) -> dict[str, list[str]]:
        notes = list(self.layout.get("note"))
        return {
            "register": self._registers(),
            "order": self.layout.get("order"),
            "prefix": [read.prefix if read else "" for read in numbers.read],
            "first": [read.first if read else "" for read in numbers.read],
            "last": lasts,
            "suffix": [read.suffix if read else "" for read in numbers.read],
            "date": self._dates(numbers, notes),
            "model": self._ids("model"),
            "works": self._ids("works"),
            "quantity": quantities,
            "source": self._ids("source"),
            "note": notes,
        }

    def _registers(self) -> list[str]:
        if "register" in self.layout.columns:
            return self.layout.get("register")
        register = self.target.register or self.interview.ask(
            "register", "Which register do the numbers belong to? Give its id.", (), column="register", free=True
        )
        return [register] * len(self.layout.rows)

    def _dates(self, numbers: Numbers, notes: list[str]) -> list[str]:
        """Read the dates of the rows that are not left out; what stays unread goes into the notes."""
        cells = self.layout.get("date")
        if MONTH in self.layout.columns:
            cells = combined(cells, self.layout.get(MONTH), self.layout.get(DAY))
        cells = [cell if read else "" for cell, read in zip(cells, numbers.read, strict=True)]
        dates = read_dates(cells, self.layout.rows, self.target.years, self.interview)
        self.notes += dates.notes
        for place, text in enumerate(dates.unread):
            if text:
                notes[place] = "; ".join(filter(None, (notes[place], f"date as written: {text}")))
        return dates.edtf

    def _quantities(self) -> list[str]:
        cells = self.layout.get("quantity")
        read = [_quantity(cell) for cell in cells]
        wrong = [place for place, cell in enumerate(cells) if cell and not read[place]]
        if wrong:
            row, cell = self.layout.rows[wrong[0]], cells[wrong[0]]
            what = "that is no number was" if len(wrong) == 1 else "that are no numbers were"
            how_many = counted(len(wrong), "quantity", "quantities")
            self.notes.append(f"{how_many} {what} left empty, such as '{cell}' in row {row}.")
        return read

    def _ids(self, column: str) -> list[str]:
        """Turn names into ids: those the pack knows, else small letters, digits and hyphens."""
        known = self.target.ids.get(column, {})
        names = self.names.setdefault(column, {})
        cells = self.layout.get(column)
        made = {cell: _id(cell, known, names) for cell in dict.fromkeys(cells)}
        changed = [(cell, id_) for cell, id_ in made.items() if cell != id_]
        if changed:
            cell, id_ = changed[0]
            self.notes.append(f"Names in '{column}' were turned into ids, such as '{cell}' into '{id_}'.")
        return [made[cell] for cell in cells]


def _last_by_quantity(first: str, quantity: str) -> str:
    return str(int(first) + int(quantity) - 1).zfill(len(first)) if quantity and int(quantity) else ""


def _quantity(cell: str) -> str:
    try:
        read = read_numbers(cell) if cell else None
    except LostDigitsError:
        return ""
    return read.first if read and not (read.prefix or read.last or read.suffix) else ""


def _id(cell: str, known: Mapping[str, str], names: dict[str, str]) -> str:
    ids = []
    for name in filter(None, map(str.strip, cell.split(";"))):
        id_ = known.get(fold(name)) or re.sub(r"\W+", "-", fold(name)).strip("-") or name
        if fold(name) not in known:
            names.setdefault(id_, name)
        ids.append(id_)
    return "; ".join(ids)
