"""A table as people have it: rows of text cells, before anything is made of them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from knowledge.errors import UsageError

LARGEST_FILE = 50 * 1024 * 1024  # bytes on disk
LARGEST_UNPACKED = 400 * 1024 * 1024  # bytes of a spreadsheet once unpacked
LONGEST_TEXT = 100  # characters of a cell that may still be a number, a date or a heading
MOST_CELLS = 8_000_000  # 1,000,000 rows of eight columns


class SheetError(UsageError):
    """The file cannot be read as a table; the text says why and what to do."""


class WhichSheetError(SheetError):
    """The file has several sheets with something in them; `names` are theirs."""

    def __init__(self, path: Path, names: list[str]) -> None:
        self.names = names
        listed = ", ".join(f"'{name}'" for name in names)
        super().__init__(f"{path} has {len(names)} sheets with something in them: {listed}. Say which one is meant.")


@dataclass(frozen=True, slots=True)
class Sheet:
    """The cells of one sheet as text, as people see them. Row 1 of the spreadsheet is `rows[0]`.

    Rows may differ in length. `notes` say how the file was read and what was assumed.
    """

    rows: list[list[str]]
    name: str = ""
    notes: tuple[str, ...] = ()

    def cell(self, row: int, column: int) -> str:
        """Return a cell, counted from 0; '' outside."""
        cells = self.rows[row]
        return cells[column] if column < len(cells) else ""
