"""What the checks of packs say of a change: what is amiss with it in force, and was not before.

An error refuses the change, as it would refuse the pack. Warnings are shown with the difference. Rows keep the numbers
they have in the pack as it stands; a new row comes behind all of them.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from knowledge.packs.check import check
from knowledge.packs.faults import Fault
from knowledge.packs.tables import SCHEMAS, Pack, Table
from knowledge.register_changes.nouns import ChangeError, RegisterChange, Row, as_cells
from knowledge.register_changes.overlay import laid_over


@dataclass(frozen=True, slots=True)
class Judged:
    """A change that can be made, with what the checks warn of."""

    change: RegisterChange
    warnings: tuple[Fault, ...]


def judge(change: RegisterChange, pack: Pack) -> Judged:
    """Check a change against the pack as it stands. Raises ChangeError when it does not fit, or makes an error.

    Takes as long as checking the pack twice: about a second for 100,000 blocks.
    """
    rows = list(pack.rows(change.table, *SCHEMAS[change.table].columns))
    _must_fit(change, rows)
    before = Counter(map(_fault, check(pack)))
    tables = {**pack.tables, change.table: _changed(pack.tables[change.table], rows, change)}
    new_row = re.compile(rf"\brow {_new_number(pack.tables[change.table])}\b")
    faults = (one for one in check(replace(pack, tables=tables)) if not before[_fault(one)])
    new = [replace(one, text=new_row.sub("the new row", one.text)) for one in faults]
    errors = [one for one in new if one.severity == "error"]
    if errors:
        told = " ".join(f"{_where(one)}{one.text}" for one in errors[:3])
        raise ChangeError(f"That would make the list wrong, so it cannot be proposed. {told}")
    return Judged(change, tuple(new))


def _must_fit(change: RegisterChange, rows: Sequence[Row]) -> None:
    if change.before is not None and change.before not in rows:
        shown = told(change.table, change.before)
        raise ChangeError(f"The list has no row any more that says {shown}. See what it says now, and propose anew.")
    if change.before == change.after:
        raise ChangeError("The list says so already: nothing would change.")
    if change.after is not None and change.after in rows:
        raise ChangeError(f"The list says so already: {told(change.table, change.after)}.")


def told(table: str, row: Row) -> str:
    """Return the cells of a row that are not empty: 'register list, prefix K, first 200001'."""
    return ", ".join(f"{name} {cell}" for name, cell in as_cells(table, row).items() if cell)


def _changed(table: Table, rows: Sequence[Row], change: RegisterChange) -> Table:
    made = list(laid_over(change.table, lambda: rows, [change]))
    columns = SCHEMAS[change.table].columns
    cells = {name: [row[place] for row, _ in made] for place, name in enumerate(columns)}
    numbers = [_new_number(table) if place is None else table.row_numbers[place] for _, place in made]
    return Table.of(change.table, cells, row_numbers=numbers)


def _new_number(table: Table) -> int:
    return max(table.row_numbers, default=1) + 1


def _fault(one: Fault) -> tuple[object, ...]:
    return one.file, one.row, one.column, one.code, one.text


def _where(one: Fault) -> str:
    return f"{one.column}: " if one.column else ""
