"""Write a pack: `datapackage.json` with a full Table Schema, and CSV files in UTF-8 with LF.

What was read is written again, unknown columns included: `read(write(pack))` gives the same pack. Files, columns and
rules that do not hold are left out, so that any reader of Data Packages finds the result valid.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from knowledge.packs.descriptor import FILE, PROFILE
from knowledge.packs.tables import LONGEST_NUMBER, SCHEMAS, Column, Pack, Table

_PATTERNS = {"digits": f"[0-9]{{1,{LONGEST_NUMBER}}}"}


def write(pack: Pack, folder: Path) -> None:
    """Write a pack into a folder, which is made if need be, in place of the pack that is there. Raises OSError.

    Files of tables the pack does not have are removed, files of other names stay. The descriptor goes first and comes
    last: a folder that was left half written is no pack, and says so.
    """
    folder.mkdir(parents=True, exist_ok=True)
    (folder / FILE).unlink(missing_ok=True)
    written = [table for table in pack.tables.values() if len(table) or _is_needed(table, pack) or table.extra]
    for name in SCHEMAS.keys() - {table.name for table in written}:
        (folder / f"{name}.csv").unlink(missing_ok=True)
    for table in written:
        (folder / f"{table.name}.csv").write_text(as_csv(table), encoding="utf-8", newline="")
    (folder / FILE).write_text(json.dumps(_descriptor(pack, written), ensure_ascii=False, indent=2) + "\n", "utf-8")


def _is_needed(table: Table, pack: Pack) -> bool:
    registers = pack.tables["registers"]
    return SCHEMAS[table.name].required and not (pack.shares and not registers.extra and not len(registers))


def as_csv(table: Table) -> str:
    """Return a table as CSV: a head row, then its rows, without the columns that are empty and not needed."""
    columns = _columns(table)
    text = io.StringIO(newline="")
    # The writer leaves a bare carriage return unquoted, and every reader takes it for the end of the row.
    returns = any("\r" in cell for name in columns for cell in table.columns[name])
    writer = csv.writer(text, lineterminator="\n", quoting=csv.QUOTE_ALL if returns else csv.QUOTE_MINIMAL)
    writer.writerow(columns)
    writer.writerows(table.rows(*columns))
    return text.getvalue()


def _columns(table: Table) -> list[str]:
    schema = SCHEMAS[table.name].columns
    wanted = (name for name in schema if schema[name].required or any(table.columns[name]))
    return [*wanted, *table.extra]


def _descriptor(pack: Pack, written: list[Table]) -> dict[str, Any]:
    said = {"name": pack.name, "title": pack.title, "version": pack.version}
    return {
        "$schema": PROFILE,
        **{key: value for key, value in said.items() if value},
        **pack.more,
        "resources": [_resource(pack, table, {one.name for one in written}) for table in written],
    }


def _resource(pack: Pack, table: Table, written: set[str]) -> dict[str, Any]:
    schema = SCHEMAS[table.name]
    return {
        "name": table.name,
        "type": "table",
        "title": schema.about,
        "path": f"{table.name}.csv",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "schema": {
            "fields": [_field(table, name, schema.columns.get(name)) for name in _columns(table)],
            **_primary_key(table),
            **_foreign_keys(pack, table, written),
        },
    }


def _field(table: Table, name: str, column: Column | None) -> dict[str, Any]:
    """Describe a column. A rule is given only where all its cells keep it."""
    if column is None:
        return {"name": name, "type": "string"}
    rules: dict[str, Any] = {}
    cells = set(table.columns[name])
    if column.required and "" not in cells:
        rules["required"] = True
    if column.words and cells <= {"", *column.words}:
        rules["enum"] = list(column.words)
    if column.holds in _PATTERNS and all(not cell or (cell.isascii() and cell.isdigit()) for cell in cells):
        rules["pattern"] = _PATTERNS[column.holds]
    described = {"name": name, "type": "string", "description": column.about}
    return {**described, "constraints": rules} if rules else described


def _primary_key(table: Table) -> Mapping[str, Any]:
    """Give the primary key where it holds: no cell of it empty, no two rows alike."""
    schema = SCHEMAS[table.name]
    key = [name for name in schema.key if name in _columns(table)]
    rows = list(table.rows(*key))
    holds = schema.unique and len(set(rows)) == len(rows) and all(all(row) for row in rows)
    return {"primaryKey": key} if holds and rows else {}


def _foreign_keys(pack: Pack, table: Table, written: set[str]) -> Mapping[str, Any]:
    keys = list(_references(pack, table, written))
    return {"foreignKeys": keys} if keys else {}


def _references(pack: Pack, table: Table, written: set[str]) -> Iterator[dict[str, Any]]:
    for name in _columns(table):
        column = SCHEMAS[table.name].columns.get(name)
        if column is None or column.refers not in written:
            continue
        key = SCHEMAS[column.refers].key[0]
        if set(table.columns[name]) - {""} <= set(pack.tables[column.refers].columns[key]):
            yield {"fields": [name], "reference": {"resource": column.refers, "fields": [key]}}
