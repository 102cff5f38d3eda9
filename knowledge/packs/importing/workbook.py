"""Spreadsheet files: .xlsx, .xlsm, .xls and .ods, each cell as people see it."""

from __future__ import annotations

import io
import lzma
import struct
import zipfile
import zlib
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime, time, timedelta
from pathlib import Path
from xml.etree.ElementTree import ParseError

import python_calamine as calamine

from knowledge.packs.importing import xlsx_formats
from knowledge.packs.importing.number_formats import shown_date, shown_number
from knowledge.packs.importing.ods import read_ods
from knowledge.packs.importing.sheet import LARGEST_UNPACKED, MOST_CELLS, Sheet, SheetError, WhichSheetError

ZIP, OLD = b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")  # the name of a stream in a protected .xlsx
_DAMAGED = "{path} is damaged and cannot be read as a spreadsheet. Open it in a spreadsheet program and save it again."
_LOCKED = "{path} is protected by a password. Open it in a spreadsheet program and save it without one."
_MERGED = "Merged cells were read as having the same value in each of their rows."
_OLD_FORMAT = "In the old .xls format, zeros that only the number format shows cannot be seen. .xlsx keeps them."

_BROKEN = (  # what damaged files make the readers raise
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    EOFError,
    ParseError,
    calamine.CalamineError,
    LookupError,
    NotImplementedError,
    RuntimeError,
    ValueError,
    OSError,
)

Merge = tuple[int, int, int]  # row, column and number of rows, from 0


def read_workbook(path: Path, data: bytes, sheet: str | None) -> Sheet:
    """Read one sheet: the one named, or the only one with something in it. Raises SheetError."""
    try:
        if data.startswith(OLD) and _ENCRYPTED in data:
            raise SheetError(_LOCKED.format(path=path))
        if data.startswith(OLD):
            return _read_values(path, data, sheet, None)
        with zipfile.ZipFile(io.BytesIO(data)) as file:
            return _read_zip(path, data, sheet, file)
    except _BROKEN as fault:
        raise SheetError(_DAMAGED.format(path=path)) from fault


def _read_zip(path: Path, data: bytes, sheet: str | None, file: zipfile.ZipFile) -> Sheet:
    if sum(part.file_size for part in file.infolist()) > LARGEST_UNPACKED:
        raise SheetError(f"{path} would unpack to more than {LARGEST_UNPACKED >> 20} MB. Copy the list to a new file.")
    names = set(file.namelist())
    if "content.xml" in names and "mimetype" in names:
        return _read_ods(path, sheet, file)
    if "xl/workbook.xml" in names:
        return _read_values(path, data, sheet, file)
    raise SheetError(f"{path} is no spreadsheet. Save the list as .xlsx, .ods or CSV.")


def _read_ods(path: Path, wanted: str | None, file: zipfile.ZipFile) -> Sheet:
    with suppress(KeyError):
        if b"encryption-data" in file.read("META-INF/manifest.xml"):
            raise SheetError(_LOCKED.format(path=path))
    if b"spreadsheet" not in file.read("mimetype"):
        raise SheetError(f"{path} is no spreadsheet. Save the list as .xlsx, .ods or CSV.")
    sheets = {sheet.name: sheet for sheet in read_ods(file)}
    chosen = sheets[_choose(path, wanted, list(sheets), lambda name: bool(sheets[name].rows))]
    return _filled(chosen.name, chosen.rows, chosen.merged, [])


def _read_values(path: Path, data: bytes, wanted: str | None, file: zipfile.ZipFile | None) -> Sheet:
    """Read an .xlsx or, when it is no zip file, an .xls."""
    book = _opened(path, data)
    visible = [entry.name for entry in book.sheets_metadata if entry.visible == calamine.SheetVisibleEnum.Visible]
    names = visible if wanted is None else list(book.sheet_names)
    # The formats are read first: they find a sheet that is too large before it is unfolded.
    codes = {name: xlsx_formats.formats(file, name) for name in names if file and name in (wanted or name)}
    name = _choose(path, wanted, names, lambda name: book.get_sheet_by_name(name).height > 0)
    found = book.get_sheet_by_name(name)
    if found.total_height * found.total_width > MOST_CELLS:
        raise SheetError(f"{path} has more than {MOST_CELLS:,} cells. Copy the list to a new file.")
    rows = [
        [_shown(value, codes.get(name, {}).get((row, column), "")) for column, value in enumerate(values)]
        for row, values in enumerate(found.to_python(skip_empty_area=False))
    ]
    spans = [(top, left, bottom - top + 1) for (top, left), (bottom, _) in found.merged_cell_ranges or ()]
    return _filled(name, rows, spans, [] if file else [_OLD_FORMAT])


def _opened(path: Path, data: bytes) -> calamine.CalamineWorkbook:
    try:
        return calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    except calamine.PasswordError as fault:
        raise SheetError(_LOCKED.format(path=path)) from fault


def _choose(path: Path, wanted: str | None, names: list[str], has_content: Callable[[str], bool]) -> str:
    if wanted is not None:
        if wanted not in names:
            raise SheetError(f"{path} has no sheet '{wanted}'. It has: {', '.join(names)}.")
        return wanted
    filled = [name for name in names if has_content(name)]
    if len(filled) > 1:
        raise WhichSheetError(path, filled)
    if not filled:
        raise SheetError(f"{path} is empty: no sheet has anything in it.")
    return filled[0]


def _filled(name: str, rows: list[list[str]], merged: list[Merge], notes: list[str]) -> Sheet:
    """Give every row of a merged cell the cell's value."""
    for top, left, count in merged:
        for row in range(top + 1, min(top + count, len(rows))) if top < len(rows) else ():
            rows[row] += [""] * (left + 1 - len(rows[row]))
            if left < len(rows[top]):
                rows[row][left] = rows[row][left] or rows[top][left]
    if any(count > 1 for _, _, count in merged):
        notes = [*notes, _MERGED]
    return Sheet(rows, name, tuple(notes))


def _shown(value: object, code: str) -> str:
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, float) and value.is_integer():
        return shown_number(int(value), code)
    if isinstance(value, int):
        return shown_number(value, code)
    if isinstance(value, (datetime, date)):
        return shown_date(value, code)
    if isinstance(value, (time, timedelta)):
        return str(value)
    return " ".join(str(value).split())
