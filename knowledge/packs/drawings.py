"""Checks of the drawings that makers and models name: inside the pack, and there."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from knowledge.packs.cells import told
from knowledge.packs.faults import Fault, quoted
from knowledge.packs.paths import find_drawing, leads_out
from knowledge.packs.tables import SCHEMAS, Pack
from knowledge.shipped import folders


def check_drawings(pack: Pack) -> Iterator[Fault]:
    """Yield drawings that lead out of the pack or, where the pack lies in a folder, that are not there."""
    for table in pack.tables.values():
        if "drawing" in SCHEMAS[table.name].columns:
            wrong = {cell: _wrong(cell, pack.folder) for cell in set(table.columns["drawing"]) - {""}}
            yield from told(table, "drawing", {cell: found for cell, found in wrong.items() if found})


def _wrong(drawing: str, folder: Path | None) -> tuple[str, str] | None:
    if leads_out(folder or Path(), drawing):
        text = f"{quoted(drawing)} leads out of the pack's folder. Put the drawing into the folder and name it so."
        return "unsafe-path", text
    if folder is None or find_drawing(drawing, [folder, *folders()]):
        return None
    text = (
        f"The drawing {quoted(drawing)} is not in the pack, nor among those shipped. Add the file, or correct the name."
    )
    return "missing-drawing", text
