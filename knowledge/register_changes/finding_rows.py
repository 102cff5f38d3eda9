"""From what is wanted to the row of a pack that it means, with the pack's own ids."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from knowledge.base import Knowledge
from knowledge.names import fold
from knowledge.packs.tables import FILE_OF_KIND, SCHEMAS
from knowledge.register_changes.nouns import ChangeError, RegisterChange, Row, as_cells, as_row
from knowledge.register_changes.reading import ADD, REMOVE, Wanted
from knowledge.registers import PackSource

_TABLES = {"model": "models", "works": "works", "source": "sources"}


def change_of(wanted: Wanted, knowledge: Knowledge, packs: Mapping[str, PackSource]) -> RegisterChange:
    """Return the change of a row that is wanted. Raises ChangeError when no row, or more than one, is meant."""
    pack, register = knowledge.homes[wanted.register]
    table = FILE_OF_KIND[knowledge.registers[wanted.register].kind]
    cells = {
        column: _own_id(column, cell, knowledge, packs[pack]) if column in _TABLES else cell
        for column, cell in wanted.cells.items()
    }
    key = {"register": register, "prefix": wanted.prefix, "first": wanted.first}
    if wanted.last:
        key |= {"last": wanted.last, "suffix": wanted.suffix}
    if wanted.verb == ADD:
        return RegisterChange(pack, table, None, as_row(table, key | cells))
    before = row_with(table, key, packs[pack])
    if wanted.verb == REMOVE:
        return RegisterChange(pack, table, before, None)
    return RegisterChange(pack, table, before, as_row(table, as_cells(table, before) | cells))


def row_with(table: str, key: Mapping[str, str], pack: PackSource) -> Row:
    """Return the only row of a table that has these cells. Raises ChangeError when there is none, or several."""
    as_row(table, key)
    columns = tuple(SCHEMAS[table].columns)
    places = {columns.index(name): cell for name, cell in key.items()}
    found = [row for row in pack.rows(table, *columns) if all(row[at] == cell for at, cell in places.items())]
    if len(found) != 1:
        told = ", ".join(f"{name} {cell or 'empty'}" for name, cell in key.items())
        how_many, advice = (f"{len(found)} rows say", "Tell more columns") if found else ("No row says", "See the pack")
        raise ChangeError(f"{how_many} {told} in {table} of {pack.name}. {advice}.")
    return found[0]


def _own_id(column: str, id_: str, knowledge: Knowledge, pack: PackSource) -> str:
    """Return the id by which a pack knows a thing of the knowledge base; a cell of sources may name several."""
    if not id_:
        return ""
    things: Mapping[str, Any] = getattr(knowledge, _TABLES[column])
    name = "title" if column == "source" else "name"
    called = {id_: text for id_, text in pack.rows(_TABLES[column], column, name)}  # noqa: C416
    own = id_.removeprefix(f"{pack.name}/")
    if own in called and (own != id_ or f"{pack.name}/{own}" not in things):
        return own
    wanted = fold(getattr(things[id_], name)) if id_ in things else ""
    same = [one for one, text in called.items() if wanted and fold(text) == wanted]
    if len(same) != 1:
        raise ChangeError(f"The pack {pack.name} does not know {column} {id_!r}. Add it to the pack first.")
    return same[0]
