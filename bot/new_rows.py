"""Imported rows become part of a pack: the register, the maker and what the rows name are added where they are new."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from knowledge.errors import UsageError
from knowledge.names import fold
from knowledge.packs import Pack, PackFaults, Table, read
from knowledge.packs.importing import Target

_NAMED = {
    "model": ("models", "model", "name"),
    "works": ("works", "works", "name"),
    "source": ("sources", "source", "title"),
}


def pack_at(folder: Path) -> Pack:
    """Return the pack in a folder, or a new one when there is none. Raises PackFaults when it cannot be read."""
    if not (folder / "datapackage.json").exists():
        if folder.is_dir() and any(folder.glob("*.csv")):
            raise UsageError(f"{folder} has CSV files but no datapackage.json. Name a new folder, or a whole pack.")
        return Pack.of(re.sub(r"[^a-z0-9._-]+", "-", folder.resolve().name.lower()).strip("-") or "pack")
    pack, faults = read(folder)
    if any(fault.severity == "error" for fault in faults):
        raise PackFaults(pack.name, faults)
    return pack


def target_in(pack: Pack, register: str, digits: int) -> Target:
    """Return where rows are to go, with the ids of all names that the pack knows."""
    ids = {column: _ids(pack, *where) for column, where in _NAMED.items()}
    return Target(register=register, digits=max(digits, 0), ids=ids)


def _ids(pack: Pack, table: str, key: str, name: str) -> Mapping[str, str]:
    return {fold(text): id_ for id_, *texts in pack.rows(table, key, name, key) for text in texts if text}


def with_rows(
    pack: Pack, rows: Table, names: Mapping[str, Mapping[str, str]], maker: str = "", replace: bool = False
) -> Pack:
    """Return the pack with the rows added. `names` are those written for ids the rows use; `maker` is a name or an id.

    The rows keep their row numbers, so that a check names them as the list they come from does.
    Raises UsageError when a new register has no maker, or when the register has rows and they are not to be replaced.
    """
    registers = sorted(set(rows.columns["register"]))
    tables = dict(pack.tables)
    for register in registers:
        if register not in tables["registers"].columns["register"]:
            tables["makers"], id_ = _with_maker(tables["makers"], maker, register)
            new = {"register": register, "maker": id_, "kind": rows.name, "title": register}
            tables["registers"] = _added(tables["registers"], [new])
    tables[rows.name] = _together(tables[rows.name], rows, registers, replace)
    owners = tables["registers"].rows("register", "maker")
    owner = next((its_maker for id_, its_maker in owners if id_ in registers), "")
    for column, (table, key, name) in _NAMED.items():
        known = set(tables[table].columns[key])
        missing = [(id_, text) for id_, text in names.get(column, {}).items() if id_ not in known]
        of_maker = {"maker": owner} if "maker" in tables[table].columns else {}
        tables[table] = _added(tables[table], [{key: id_, name: text, **of_maker} for id_, text in missing])
    return Pack.of(
        pack.name, *tables.values(), title=pack.title, version=pack.version, folder=pack.folder, more=pack.more
    )


def _with_maker(makers: Table, maker: str, register: str) -> tuple[Table, str]:
    known = list(makers.rows("maker", "name"))
    for id_, name in known:
        if maker and fold(maker) in (fold(id_), fold(name)):
            return makers, id_
    if not maker:
        if len(known) == 1:
            return makers, known[0][0]
        raise UsageError(f"The pack does not tell whose register '{register}' is. Say it with --maker NAME.")
    id_ = re.sub(r"[^\w]+", "-", fold(maker)).strip("-") or "maker"
    return _added(makers, [{"maker": id_, "name": maker}]), id_


def _together(old: Table, new: Table, registers: Sequence[str], replace: bool) -> Table:
    kept = [row for row, register in enumerate(old.columns["register"]) if register not in registers]
    if len(kept) < len(old) and not replace:
        raise UsageError(
            f"The pack has rows of {', '.join(registers)} already. Say --replace to put the new ones in their place, "
            "or name another register with --register."
        )
    columns = dict.fromkeys([*old.columns, *new.columns])
    return Table.of(
        old.name,
        {name: [*_cells(old, name, kept), *_cells(new, name, range(len(new)))] for name in columns},
        row_numbers=[*(old.row_numbers[row] for row in kept), *new.row_numbers],
    )


def _cells(table: Table, column: str, rows: Sequence[int]) -> list[str]:
    cells = table.columns.get(column)
    return [cells[row] for row in rows] if cells else [""] * len(rows)


def _added(table: Table, rows: Sequence[Mapping[str, str]]) -> Table:
    if not rows:
        return table
    return Table.of(
        table.name, {name: [*cells, *(row.get(name, "") for row in rows)] for name, cells in table.columns.items()}
    )
