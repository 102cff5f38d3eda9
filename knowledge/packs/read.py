"""Read a pack from its folder: `datapackage.json` and the CSV files it lists."""

from __future__ import annotations

from pathlib import Path

from knowledge.packs.csv_file import read_file
from knowledge.packs.descriptor import read_descriptor
from knowledge.packs.faults import Fault, fault
from knowledge.packs.tables import SCHEMAS, SHARED, Pack, Table


def read(folder: Path) -> tuple[Pack, list[Fault]]:
    """Return the pack in a folder as far as it could be read, and every fault of its files.

    Whether what the files say makes sense is another matter: see `check`. Never raises for what the folder holds.
    """
    if not folder.is_dir():
        what = "is a file; name the folder it lies in" if folder.exists() else "is not there; check the path"
        return Pack.of(folder.name), [fault("no-folder", f"The folder {folder} {what}.", str(folder))]
    descriptor = read_descriptor(folder)
    faults = list(descriptor.faults)
    tables: dict[str, Table] = {}
    for resource in descriptor.resources:
        tables[resource.table], found = read_file(folder, resource)
        faults += found
    needs_all = "registers" in tables or not any(name in tables for name in SHARED)
    for name, schema in SCHEMAS.items():
        if schema.required and name not in tables and needs_all:
            text = f"Every pack needs {name}.csv, with the columns {', '.join(_needed(name))}. Add it and list it."
            faults.append(fault("missing-file", text, f"{name}.csv"))
            tables[name] = Table.of(name, complete=False)
    pack = Pack.of(
        descriptor.name,
        *tables.values(),
        title=descriptor.title,
        version=descriptor.version,
        folder=folder,
        more=descriptor.more,
    )
    return pack, faults


def _needed(table: str) -> list[str]:
    return [name for name, column in SCHEMAS[table].columns.items() if column.required]
