"""Through every table of the file, but for the packs, for what tells of a person; new tables are swept like old ones.

What somebody else wrote or was sent loses its content when it tells of the person; other texts lose just the name, or
the words that were theirs. Findings keep all that they say of the machine.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from bot.forgetting.traces import Traces
from bot.journal import Journal
from bot.journal.forgetting import Row
from knowledge.packs.tables import SCHEMAS

_PACKS = ("packs", *(name.replace("-", "_") for name in SCHEMAS))
_IN_HAND = {"incoming": ("waiting", "aside"), "outgoing": ("sending", "uncertain")}
"""Messages in these states are kept whole: they are somebody's question, or nobody knows yet whether they arrived."""
_GO_WHOLE = ("conversations", "channel_notes")
"""Rows of these tables go when they tell of the person: they only help to go on with a talk."""

Readable = Callable[[object], str]


class _Cell(NamedTuple):
    table: str
    column: str
    row: Row
    value: object


def sweep(journal: Journal, traces: Traces, readable: Readable) -> tuple[int, list[str]]:
    """Remove every trace, table by table; return how many places had one, and which messages are kept whole.

    The places look like `in-12` and `out-7`, as the journal names messages. Each table is one transaction.
    """
    swept, kept = 0, list[str]()
    if not traces.names and not traces.texts:
        return swept, kept
    for table, columns in journal.text_columns(_PACKS).items():
        with journal.one_transaction():
            told = [cell for cell in _cells(journal, table, columns) if traces.are_in(readable(cell.value))]
            for cell in told:
                if name := _is_in_hand(journal, cell):
                    kept.append(name)
                else:
                    _remove(journal, cell, traces)
                    swept += 1
    return swept, list(dict.fromkeys(kept))


def _cells(journal: Journal, table: str, columns: list[str]) -> Iterator[_Cell]:
    for column in columns:
        for row, value in journal.cells(table, column):
            yield _Cell(table, column, row, value)


def _is_in_hand(journal: Journal, cell: _Cell) -> str:
    """Return the name of the message that a cell belongs to when it is not finished, '' otherwise."""
    states = _IN_HAND.get(cell.table)
    if states is None or journal.state_of(cell.table, cell.row) not in states:
        return ""
    return f"{'in' if cell.table == 'incoming' else 'out'}-{cell.row[0]}"


def _remove(journal: Journal, cell: _Cell, traces: Traces) -> None:
    if cell.table in _GO_WHOLE:
        journal.delete_row(cell.table, cell.row)
    elif cell.table == "outgoing" and journal.state_of("outgoing", cell.row) == "queued":
        journal.delete_row(cell.table, cell.row)  # it was to tell somebody of a person who is to be forgotten
    elif isinstance(cell.value, bytes):
        journal.set_cell(cell.table, cell.column, cell.row, None)
    else:
        journal.set_cell(cell.table, cell.column, cell.row, traces.without(str(cell.value)))
