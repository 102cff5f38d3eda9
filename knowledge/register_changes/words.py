"""A change of a register in words: which list, which row, and what becomes of it."""

from __future__ import annotations

from collections.abc import Iterator

from knowledge.base import Knowledge
from knowledge.register_changes.judging import Judged
from knowledge.register_changes.nouns import ADDED, CORRECTED, PROPOSED, REMOVED, RegisterChange, as_cells

_NAMES = {"model": "models", "works": "works", "source": "sources", "maker": "makers"}
_COUNTED = ("register", "order", "prefix", "first", "last", "suffix")


def difference(judged: Judged, knowledge: Knowledge) -> str:
    """Return a change as a difference, with what the checks warn of, in lines."""
    return "\n".join((*lines(judged.change, knowledge), *(f"Look at this: {one.text}" for one in judged.warnings)))


def lines(change: RegisterChange, knowledge: Knowledge) -> Iterator[str]:
    """Yield the lines of a difference: the list, the row, then each cell that changes."""
    yield f"In the list '{title(change, knowledge)}', {row_named(change)}:"
    if change.kind == CORRECTED:
        for column, was, is_ in change.differences:
            yield f"  {column}: {_shown(column, was, knowledge)} becomes {_shown(column, is_, knowledge)}"
        return
    yield "  a new row:" if change.kind == ADDED else "  the row is taken out:"
    cells = as_cells(change.table, change.row)
    for column, cell in cells.items():
        if cell and column not in _COUNTED:
            yield f"    {column}: {_shown(column, cell, knowledge)}"


def title(change: RegisterChange, knowledge: Knowledge) -> str:
    """Return the name of the list that a change is about."""
    home = (change.pack, change.register)
    register = next((one for id_, one in knowledge.registers.items() if knowledge.homes.get(id_) == home), None)
    return register.title if register and register.title else change.register


def row_named(change: RegisterChange) -> str:
    """Return which row a change is about: 'K200001 to K225000', 'from 4409', or its key in words."""
    cells = as_cells(change.table, change.before or change.row)
    prefix, suffix = cells.get("prefix", ""), cells.get("suffix", "")
    if change.table == "allocations":
        return f"{prefix}{cells['first']}{suffix} to {prefix}{cells['last']}{suffix}"
    if change.table == "year-starts":
        return f"from {prefix}{cells['first']}"
    keys = {"date-codes": ("part",), "code-tables": ("code", "value"), "prefixes": ("prefix",)}[change.table]
    return ", ".join(f"{name} {cells[name]}" for name in keys if cells[name])


def short(change: RegisterChange, knowledge: Knowledge) -> str:
    """Return a change on one line."""
    if change.kind == CORRECTED:
        told = "; ".join(
            f"{column} {was or 'empty'} becomes {is_ or 'empty'}" for column, was, is_ in change.differences
        )
    else:
        told = {ADDED: "a new row", REMOVED: "to be taken out"}[change.kind]
        told = "taken out" if change.kind == REMOVED and change.state != PROPOSED else told
    return f"{row_named(change)} ({title(change, knowledge)}): {told}"


def _shown(column: str, cell: str, knowledge: Knowledge) -> str:
    """Return a cell for people, an id with the name it stands for."""
    if not cell:
        return "nothing"
    known = getattr(knowledge, _NAMES[column], {}) if column in _NAMES else {}
    noun = known.get(cell)
    name = getattr(noun, "name", "") or getattr(noun, "title", "")
    return f"{name} ({cell})" if name and name != cell else cell
