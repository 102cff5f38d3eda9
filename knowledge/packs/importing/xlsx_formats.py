"""The number formats of the cells of an .xlsx sheet, which the reader of values does not give.

They lie in two parts of the file: styles.xml holds the codes, the sheet says which cell has which (ECMA-376 part 1,
18.3 and 18.8; section numbers from memory).
"""

from __future__ import annotations

import posixpath
import re
import zipfile
from collections.abc import Iterator
from xml.etree import ElementTree as ET

from knowledge.packs.importing.number_formats import BUILT_IN
from knowledge.packs.importing.sheet import MOST_CELLS, SheetError

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
Place = tuple[int, int]  # row and column, from 0


def formats(file: zipfile.ZipFile, sheet: str) -> dict[Place, str]:
    """Return the format codes of the cells of a sheet, for those whose format says something.

    Raises SheetError when the sheet spreads over more than MOST_CELLS cells, and KeyError or ParseError for damage.
    """
    codes = _codes(file)
    found, height, width = {}, 0, 0
    for reference, style in _cells(file, _part_of(file, sheet)):
        row, column = _place(reference)
        height, width = max(height, row + 1), max(width, column + 1)
        if height * width > MOST_CELLS:
            raise SheetError(
                f"Sheet '{sheet}' spreads over more than {MOST_CELLS:,} cells. Copy the list to a new file."
            )
        if style in codes:
            found[row, column] = codes[style]
    return found


def _codes(file: zipfile.ZipFile) -> dict[str, str]:
    """Return the codes by the number that cells name them with."""
    if "xl/styles.xml" not in file.namelist():
        return {}
    root = ET.fromstring(file.read("xl/styles.xml"))
    own = {entry.get("numFmtId", ""): entry.get("formatCode", "") for entry in root.iterfind("{*}numFmts/{*}numFmt")}
    own |= {str(number): code for number, code in BUILT_IN.items() if str(number) not in own}
    styles = (entry.get("numFmtId", "") for entry in root.iterfind("{*}cellXfs/{*}xf"))
    return {str(place): own[number] for place, number in enumerate(styles) if number in own}


def _part_of(file: zipfile.ZipFile, sheet: str) -> str:
    """Return the name of the part that holds the sheet of that name."""
    book = ET.fromstring(file.read("xl/workbook.xml"))
    links = ET.fromstring(file.read("xl/_rels/workbook.xml.rels"))
    targets = {link.get("Id"): link.get("Target", "") for link in links}
    for entry in book.iterfind("{*}sheets/{*}sheet"):
        if entry.get("name") == sheet:
            key = next((value for name, value in entry.items() if name.endswith("}id")), None)
            return posixpath.normpath(posixpath.join("/xl", targets[key])).lstrip("/")
    raise KeyError(sheet)


def _cells(file: zipfile.ZipFile, part: str) -> Iterator[tuple[str, str]]:
    """Yield the reference ('B7') and the style of each cell."""
    with file.open(part) as stream:
        for _, element in ET.iterparse(stream):
            if element.tag.endswith("}c"):
                yield element.get("r", ""), element.get("s", "")
            elif element.tag.endswith("}row"):
                element.clear()


def _place(reference: str) -> Place:
    match = _REFERENCE.fullmatch(reference)
    if match is None:
        return 0, 0
    column = 0
    for letter in match[1]:
        column = column * 26 + ord(letter) - 64
    return int(match[2]) - 1, column - 1
