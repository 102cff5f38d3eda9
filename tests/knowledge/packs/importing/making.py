"""Spreadsheet files made by hand, so that the tests say to the letter what is in them."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import escape

_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_ODF = "urn:oasis:names:tc:opendocument:xmlns"


@dataclass(frozen=True)
class Number:
    """A number cell and the format it is shown with. Day 1 of a date is 1 January 1900."""

    value: float
    format: str = "General"


Cell = str | Number
Rows = Sequence[Sequence[Cell]]


def xlsx(path: Path, sheets: Mapping[str, Rows], merged: str = "", hidden: str = "") -> Path:
    """Write an .xlsx file. `merged` are ranges of the first sheet, such as 'A1:A3'."""
    formats = sorted({c.format for rows in sheets.values() for row in rows for c in row if isinstance(c, Number)})
    numbered = list(enumerate(sheets.items(), 1))
    states = {name: ' state="hidden"' if name == hidden else "" for name in sheets}
    entries = "".join(f'<sheet name="{name}" sheetId="{n}" r:id="r{n}"{states[name]}/>' for n, (name, _) in numbered)
    links = [("worksheet", f"worksheets/sheet{n}.xml") for n, _ in numbered]
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("[Content_Types].xml", _content_types(len(sheets)))
        file.writestr("_rels/.rels", _relations([("officeDocument", "xl/workbook.xml")]))
        file.writestr("xl/_rels/workbook.xml.rels", _relations([*links, ("styles", "styles.xml")]))
        book = f'<workbook xmlns="{_MAIN}" xmlns:r="{_LINKS}"><sheets>{entries}</sheets></workbook>'
        file.writestr("xl/workbook.xml", book)
        file.writestr("xl/styles.xml", _styles(formats))
        for n, (_, rows) in numbered:
            file.writestr(f"xl/worksheets/sheet{n}.xml", _sheet(rows, formats, merged.split() if n == 1 else []))
    return path


def _content_types(sheets: int) -> str:
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    parts = [("/xl/workbook.xml", "sheet.main"), ("/xl/styles.xml", "styles")]
    parts += [(f"/xl/worksheets/sheet{n}.xml", "worksheet") for n in range(1, sheets + 1)]
    overrides = "".join(f'<Override PartName="{name}" ContentType="{kind}.{what}+xml"/>' for name, what in parts)
    links = '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    return f'<Types xmlns="{_PACKAGE}/content-types">{links}{overrides}</Types>'


def _relations(targets: list[tuple[str, str]]) -> str:
    links = ""
    for n, (kind, target) in enumerate(targets, 1):
        links += f'<Relationship Id="r{n}" Type="{_LINKS}/{kind}" Target="{target}"/>'
    return f'<Relationships xmlns="{_PACKAGE}/relationships">{links}</Relationships>'


def _styles(formats: list[str]) -> str:
    quoted = [escape(code, {'"': "&quot;"}) for code in formats]
    codes = "".join(f'<numFmt numFmtId="{164 + n}" formatCode="{code}"/>' for n, code in enumerate(quoted))
    cells = "".join(f'<xf numFmtId="{164 + n}"/>' for n in range(len(formats)))
    inside = f'<numFmts>{codes}</numFmts><cellXfs><xf numFmtId="0"/>{cells}</cellXfs>'
    return f'<styleSheet xmlns="{_MAIN}">{inside}</styleSheet>'


def _sheet(rows: Rows, formats: list[str], merged: list[str]) -> str:
    lines = ""
    for number, row in enumerate(rows, 1):
        filled = [(f"{chr(65 + place)}{number}", cell) for place, cell in enumerate(row) if cell != ""]
        cells = "".join(_cell(reference, cell, formats) for reference, cell in filled)
        lines += f'<row r="{number}">{cells}</row>'
    ranges = "".join(f'<mergeCell ref="{cells}"/>' for cells in merged)
    merges = f"<mergeCells>{ranges}</mergeCells>" if merged else ""
    return f'<worksheet xmlns="{_MAIN}"><sheetData>{lines}</sheetData>{merges}</worksheet>'


def _cell(reference: str, cell: Cell, formats: list[str]) -> str:
    if isinstance(cell, Number):
        return f'<c r="{reference}" s="{formats.index(cell.format) + 1}"><v>{cell.value}</v></c>'
    return f'<c r="{reference}" t="inlineStr"><is><t>{escape(cell)}</t></is></c>'


def ods(path: Path, content: str) -> Path:
    """Write an .ods file with these tables (their XML)."""
    names = "".join(f' xmlns:{name}="{_ODF}:{name}:1.0"' for name in ("office", "table", "text"))
    body = f"<office:body><office:spreadsheet>{content}</office:spreadsheet></office:body>"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        file.writestr("META-INF/manifest.xml", "<manifest/>")
        file.writestr("content.xml", f"<office:document-content{names}>{body}</office:document-content>")
    return path
