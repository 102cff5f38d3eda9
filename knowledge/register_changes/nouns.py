"""What is kept of a change of a register."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from knowledge import edtf
from knowledge.errors import BedstampError
from knowledge.packs.tables import SCHEMAS

Row = tuple[str, ...]
"""The cells of a row, column by column as SCHEMAS has them."""
TABLES = ("allocations", "year-starts", "date-codes", "code-tables", "prefixes")
"""The tables that make registers."""
PROPOSED, IN_FORCE, TURNED_DOWN, TAKEN_BACK = STATES = ("proposed", "in force", "turned down", "taken back")
ADDED, CORRECTED, REMOVED = "a new row", "a correction", "a row taken out"


class ChangeError(BedstampError):
    """A change cannot be proposed or agreed to; the text says why and what to do."""


@dataclass(frozen=True, slots=True)
class RegisterChange:
    """A row of a register as it is and as it is to be. None stands for no row; both are never None.

    `number` is 0 while it is not kept. `pack` and `table` say where the row stands; `register` is the pack's own id of
    it (of a code table: of the table). `proposer` and `other` (who agreed, or turned it down) name nobody: 'expert 3'.
    `state` is one of STATES.
    """

    pack: str
    table: str
    before: Row | None
    after: Row | None
    number: int = 0
    proposer: str = ""
    at: datetime | None = None
    why: str = ""
    state: str = PROPOSED
    other: str = ""
    since: datetime | None = None

    @property
    def kind(self) -> str:
        """A new row, a correction or a row taken out."""
        return ADDED if self.before is None else REMOVED if self.after is None else CORRECTED

    @property
    def register(self) -> str:
        """The id of the register in its pack."""
        return self.row[0]

    @property
    def told(self) -> str:
        """What is told of a row that it changed: 'corrected by the group's experts on 25 November 2026 (change 3)'."""
        day = self.since.date() if self.since else None
        when = f" on {edtf.in_words(edtf.span(day, day))}" if day else ""
        verb = "added" if self.before is None else "corrected"
        return f"{verb} by the group's experts{when} (change {self.number})"

    @property
    def row(self) -> Row:
        """The row as it is to be; of a row taken out, as it is."""
        return self.after or self.before or ()

    @property
    def differences(self) -> tuple[tuple[str, str, str], ...]:
        """Column, cell before and cell after, where they differ; '' for no cell."""
        columns = tuple(SCHEMAS[self.table].columns)
        none = ("",) * len(columns)
        cells = zip(columns, self.before or none, self.after or none, strict=True)
        return tuple((name, was, is_) for name, was, is_ in cells if was != is_)


@dataclass(frozen=True, slots=True)
class Step:
    """One entry in the history of a change: what was done, by whom, when, and why if that was said."""

    what: str
    who: str
    at: datetime
    why: str


def as_row(table: str, cells: Mapping[str, str]) -> Row:
    """Return a row of a table from its cells by column, '' where none is given. Raises ChangeError for others."""
    columns = SCHEMAS[table].columns
    unknown = [name for name in cells if name not in columns]
    if unknown:
        raise ChangeError(f"{table} has no column {unknown[0]!r}. Its columns are: {', '.join(columns)}.")
    return tuple(cells.get(name, "").strip() for name in columns)


def as_cells(table: str, row: Row) -> dict[str, str]:
    """Return the cells of a row by column."""
    return dict(zip(SCHEMAS[table].columns, row, strict=True))
