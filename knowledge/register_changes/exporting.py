"""The rows that changes made, as CSV for whoever keeps the pack: to be put into its file, where they belong."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence

from knowledge.packs.tables import SCHEMAS, Table
from knowledge.packs.write import as_csv
from knowledge.register_changes.nouns import RegisterChange, Row
from knowledge.register_changes.overlay import LAID_OVER, Standing

CHANGE = "change"
"""The first column: what is to be done with the row in the pack's file. A pack that keeps it is warned of, no more."""
INTO, OUT = "put in", "take out"


def changed_rows(table: str, standing: Sequence[Standing]) -> str:
    """Return the rows to be put into a table of a pack and those to be taken out, as CSV with a head."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow((CHANGE, *SCHEMAS[table].columns))
    for what, row in _net(one.change for one in standing if one.how == LAID_OVER and one.change.table == table):
        writer.writerow((what, *row))
    return text.getvalue()


def whole_table(table: str, rows: Iterable[Row]) -> str:
    """Return a table as it stands, as the file of the pack is to be."""
    made = list(rows)
    columns = {name: [row[at] for row in made] for at, name in enumerate(SCHEMAS[table].columns)}
    return as_csv(Table.of(table, columns))


def _net(changes: Iterable[RegisterChange]) -> Iterator[tuple[str, Row]]:
    """Yield what is left to be done of changes that follow from each other: of a row put in and taken out nothing."""
    out: list[Row] = []
    into: list[Row] = []
    for change in changes:
        if change.before is not None:
            if change.before in into:
                into.remove(change.before)
            else:
                out.append(change.before)
        if change.after is not None:
            if change.after in out:
                out.remove(change.after)
            else:
                into.append(change.after)
    yield from ((OUT, row) for row in out)
    yield from ((INTO, row) for row in into)
