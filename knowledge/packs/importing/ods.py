"""Read an .ods sheet as people see it: the file keeps the text that is shown beside each value.

Readers of values alone lose the zeros that a number format shows, so this is our own (OpenDocument 1.3, part 3).
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from xml.etree import ElementTree as ET
from xml.etree.ElementTree import Element

from knowledge.packs.importing.sheet import MOST_CELLS, SheetError

_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


@dataclass(slots=True)
class OdsSheet:
    """One sheet. `merged` holds (row, column, rows) of cells that span several rows, from 0."""

    name: str
    rows: list[list[str]] = field(default_factory=list)
    merged: list[tuple[int, int, int]] = field(default_factory=list)


def read_ods(file: zipfile.ZipFile) -> list[OdsSheet]:
    """Read all sheets. Raises SheetError when there are too many cells, KeyError or ParseError for damage."""
    sheets: list[OdsSheet] = []
    blank_rows = cells_in_all = 0
    with file.open("content.xml") as stream:
        for event, element in ET.iterparse(stream, ("start", "end")):
            if event == "start":
                if element.tag == _TABLE + "table":
                    sheets.append(OdsSheet(element.get(_TABLE + "name", "")))
                    blank_rows = 0
                continue
            if element.tag != _TABLE + "table-row" or not sheets:
                continue
            count = _number(element, "number-rows-repeated")
            cells = _row(element, sheets[-1], len(sheets[-1].rows) + blank_rows)
            element.clear()
            if not cells:
                blank_rows += count  # put in only when something follows: sheets end in a million blank rows
                continue
            cells_in_all += (blank_rows + count) * max(1, len(cells))
            if cells_in_all > MOST_CELLS:
                raise SheetError(f"There are more than {MOST_CELLS:,} cells. Copy the list to a new file.")
            sheets[-1].rows += [[] for _ in range(blank_rows)] + [list(cells) for _ in range(count)]
            blank_rows = 0
    return sheets


def _row(row: Element, sheet: OdsSheet, number: int) -> list[str]:
    """Return the texts of a row without the blanks at its end, and note its merged cells."""
    cells: list[str] = []
    blanks = 0
    for cell in _cells(row):
        text, count = _shown(cell), _number(cell, "number-columns-repeated")
        if not text:
            blanks += count
            continue
        if len(cells) + blanks + count > MOST_CELLS:
            raise SheetError(f"There are more than {MOST_CELLS:,} cells. Copy the list to a new file.")
        cells += [""] * blanks
        blanks = 0
        if (rows := _number(cell, "number-rows-spanned")) > 1:
            sheet.merged.append((number, len(cells), rows))
        cells += [text] * count
    return cells


def _cells(row: Element) -> Iterator[Element]:
    return (cell for cell in row if cell.tag in (_TABLE + "table-cell", _TABLE + "covered-table-cell"))


def _shown(cell: Element) -> str:
    """Return the text that is shown; of a date, as much as is shown, in an order that cannot be mistaken."""
    lines = (" ".join("".join(line.itertext()).split()) for line in cell.iterfind(_TEXT + "p"))
    text = " ".join(line for line in lines if line)
    if cell.get(_OFFICE + "value-type") != "date":
        return text
    day = cell.get(_OFFICE + "date-value", "")[:10]
    try:
        date.fromisoformat(day)
    except ValueError:
        return text
    return _as_shown(day, text)


def _as_shown(day: str, text: str) -> str:
    """A date of which one or two parts are shown ('1912', 'Jan 12') is a year or a month."""
    parts = "".join(char if char.isalnum() else " " for char in text).split()
    if len(parts) == 1 and parts[0] == day[:4]:
        return day[:4]
    if len(parts) == 2 and parts[-1] in (day[:4], day[2:4]):
        return f"{day[5:7]}/{day[:4]}"
    return day


def _number(element: Element, name: str) -> int:
    value = element.get(_TABLE + name, "1")
    return int(value) if value.isdecimal() and len(value) < 9 else 1
