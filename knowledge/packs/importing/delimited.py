"""Text tables: fields between semicolons, commas, tabs or bars; the mark and the encoding are found out."""

from __future__ import annotations

import csv
import re
from collections import Counter
from pathlib import Path

from knowledge.packs.importing.encodings import decode
from knowledge.packs.importing.sheet import MOST_CELLS, Sheet, SheetError

_MARKS = {"\t": "tabs", ";": "semicolons", "|": "bars", ",": "commas"}  # in order of preference
_SAMPLE = 500  # rows looked at to find the mark
_LONE_QUOTE = '(?<=[{mark}\\n])[ ]*"[ ]*(?=[{mark}\\r\\n])'


def read_delimited(path: Path, data: bytes) -> Sheet:
    """Read a text table. Raises SheetError."""
    text, guess = decode(data)
    if text.count("\0") > 3 or not text.strip():
        raise SheetError(f"{path} holds no text that can be read as a table. Save the list as .xlsx, .ods or CSV.")
    mark, text = _mark(text.replace("\0", ""))
    rows, ditto = _rows(path, text, mark)
    notes = [guess, ditto, f"The columns were split at {_MARKS.get(mark, repr(mark))}."]
    return Sheet(rows, notes=tuple(note for note in notes if note))


def _mark(text: str) -> tuple[str, str]:
    """Return the mark between the columns, and the text without a first line such as 'sep=;'."""
    if match := re.match(r'"?sep=(.)"?\r?\n', text, re.IGNORECASE):
        return match[1], text[match.end() :]
    return max(_MARKS, key=lambda mark: _evenness(text, mark)), text


def _evenness(text: str, mark: str) -> float:
    """Return the share of rows that have the usual number of columns, 0 when that is one."""
    lines = text.splitlines()[:_SAMPLE]
    try:
        sizes = Counter(len(row) for row in csv.reader(lines, delimiter=mark) if any(row))
    except csv.Error:
        return 0
    several = {size: count for size, count in sizes.items() if size > 1}
    return max(several.values()) / sizes.total() if several else 0


def _rows(path: Path, text: str, mark: str) -> tuple[list[list[str]], str]:
    """Split the text into cells. A quote mark alone in a cell is a ditto mark, not the start of quoted text."""
    lone = re.compile(_LONE_QUOTE.format(mark=re.escape(mark)))
    rows = _parsed(path, text, mark)
    note = ""
    if lone.search(text):
        unquoted = _parsed(path, lone.sub("〃", text), mark)
        if sum(map(len, unquoted)) > sum(map(len, rows)):
            rows, note = unquoted, "Quote marks that stand alone in a cell were read as ditto marks."
    if sum(map(len, rows)) > MOST_CELLS:
        raise SheetError(f"{path} has more than {MOST_CELLS:,} cells. Split it, and import the parts one by one.")
    return rows, note


def _parsed(path: Path, text: str, mark: str) -> list[list[str]]:
    try:
        lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        rows = csv.reader((line + "\n" for line in lines), delimiter=mark, skipinitialspace=True)
        return [[" ".join(cell.split()) for cell in row] for row in rows]
    except csv.Error as fault:
        raise SheetError(
            f"{path} cannot be split into columns ({fault}). See whether a quote mark is left open in it."
        ) from fault
