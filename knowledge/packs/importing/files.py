"""Read whatever file people have their list in."""

from __future__ import annotations

from pathlib import Path

from knowledge.packs.importing.delimited import read_delimited
from knowledge.packs.importing.sheet import LARGEST_FILE, Sheet, SheetError
from knowledge.packs.importing.workbook import OLD, ZIP, read_workbook

_OTHER = {
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"GIF8": "a picture",
    b"SQLite format 3": "a database",
    b"\x1f\x8b": "a compressed file; unpack it first",
    b"{\\rtf": "a text document",
    b"<!DOCTYPE": "a web page",
    b"<html": "a web page",
}
_HOW = "Save the list as .xlsx, .ods or CSV."


def read_sheet(path: Path, sheet: str | None = None) -> Sheet:
    """Read one sheet of a spreadsheet, or a text table, whatever the file's name ends in.

    `sheet` names the sheet; without it there must be one only that has something in it. Raises WhichSheetError when
    there are several, and SheetError for everything else that cannot be read.
    """
    data = _bytes(path)
    if data.startswith((ZIP, OLD)):
        return read_workbook(path, data, sheet)
    if what := next((what for start, what in _OTHER.items() if data[:20].startswith(start)), ""):
        raise SheetError(f"{path} is {what}, no table. {_HOW}")
    if sheet is not None:
        raise SheetError(f"{path} is a text table and has no sheets. Leave the sheet '{sheet}' out.")
    return read_delimited(path, data)


def _bytes(path: Path) -> bytes:
    if path.is_dir():
        raise SheetError(f"{path} is a folder. Name the file with the list.")
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            raise SheetError(f"{path} has {size >> 20} MB; the most is {LARGEST_FILE >> 20} MB. Split it.")
        data = path.read_bytes()
    except FileNotFoundError as fault:
        raise SheetError(f"There is no file {path}. Check the path.") from fault
    except OSError as fault:
        raise SheetError(f"{path} cannot be read ({fault.strerror}).") from fault
    if not data.strip():
        raise SheetError(f"{path} is empty.")
    return data
