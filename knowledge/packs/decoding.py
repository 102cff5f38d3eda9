"""From the bytes of a CSV file to its text; what is no UTF-8 is told, and read as well as it can be."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator

from knowledge.packs.descriptor import Resource
from knowledge.packs.faults import Fault, fault

_OTHER_FILES = {
    b"PK\x03\x04": "a spreadsheet or zip file",
    b"\xd0\xcf\x11\xe0": "an old spreadsheet file",
    b"%PDF": "a PDF file",
    b"\x1f\x8b": "a compressed file",
}
_SAVE_AS_UTF8 = "Save it again as UTF-8: in a spreadsheet program choose 'CSV UTF-8', in an editor the encoding UTF-8."


def decode(data: bytes, resource: Resource) -> tuple[str, list[Fault]]:
    """Return the text of a file and its faults. The text is '' when the file is empty or no text at all.

    A file in another encoding is an error, but is read as far as that goes, so that its other faults show as well.
    """
    file = resource.path
    if not data.removeprefix(codecs.BOM_UTF8).strip():
        text = "It is empty: not even a head row. Copy it again, or take it off the list in datapackage.json."
        return "", [fault("empty-file", text, file)]
    for start, what in _OTHER_FILES.items():
        if data.startswith(start):
            return "", [fault("not-csv", f"It is {what}, no CSV. Open it and save the table as CSV UTF-8.", file)]
    text, faults = _decoded(data, resource)
    if "\0" in text:
        told = "The row holds NUL characters, so it is damaged, or no text. Save or copy the file again."
        damaged = (row for row, cells in enumerate(_rows(text, resource), 1) if "\0" in "".join(cells))
        faults += [fault("nul-bytes", told, file, row) for row in damaged]
        text = text.replace("\0", "")
    return text, faults


def _decoded(data: bytes, resource: Resource) -> tuple[str, list[Fault]]:
    file = resource.path
    sixteen_bits = _utf16(data)
    if sixteen_bits:
        return data.decode(sixteen_bits, "replace").lstrip("\ufeff"), [
            fault("wrong-encoding", f"It is in UTF-16. {_SAVE_AS_UTF8}", file)
        ]
    try:
        return data.decode("utf-8-sig"), []
    except UnicodeDecodeError as error:
        row = sum(1 for _ in _rows(data[: error.start].decode("utf-8-sig") + "?", resource))
        if error.end == len(data) and error.reason == "unexpected end of data":
            text = "It breaks off in the middle of a letter, so its end is missing. Copy it again, whole."
            return data.decode("utf-8-sig", "ignore"), [fault("half-written", text, file, row)]
        text = f"It is not in UTF-8: the first letter that is not stands in this row. {_SAVE_AS_UTF8}"
        return data.decode("cp1252", "replace"), [fault("wrong-encoding", text, file, row)]


def _rows(text: str, resource: Resource) -> Iterator[list[str]]:
    """Yield the rows of a text as a spreadsheet shows them, blank ones too, however damaged it is."""
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=resource.delimiter, quotechar=resource.quote)
    try:
        yield from rows
    except csv.Error:
        yield ["\0"]  # nothing can be read from here on


def _utf16(data: bytes) -> str:
    """Tell UTF-16 by its first two bytes or, without them, by every other byte being NUL."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    sample = data[:1000]
    for encoding, nuls in (("utf-16-le", sample[1::2]), ("utf-16-be", sample[0::2])):
        if len(nuls) > 1 and nuls.count(0) > len(nuls) * 0.8:
            return encoding
    return ""
