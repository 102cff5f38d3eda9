"""Through every table of the file, but for the packs, for what tells of a person; new tables are swept like old ones.

What somebody else wrote or was sent loses its content when it tells of the person; other texts lose just the name, or
the words that were theirs. Findings keep all that they say of the machine. Names are looked for in what people wrote
alone: keys, routes and states are not texts, and nobody else's address is ever changed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from bot.forgetting.traces import Traces
from bot.journal import Journal
from bot.journal.forgetting import Row
from knowledge.packs.tables import SCHEMAS

_NO_TEXT = frozenset(
    "key person channel recipient conversation place rule state kind remote name author who changed_by proposer route "
    "what in_table pack prefix digits suffix maker model works makers date day at settled typed finding observed "
    "shares reasons ref".split()
)
"""Columns that hold no words: there only the ids of the person are looked for."""
_LEFT = ("people",)
"""Tables of which the person's own row went already, and the others are others'."""
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
    for table, columns in journal.text_columns((*_PACKS, *_LEFT)).items():
        with journal.one_transaction():
            for cell in [cell for cell in _cells(journal, table, columns) if _tells(cell, traces, readable)]:
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


def _tells(cell: _Cell, traces: Traces, readable: Readable) -> bool:
    return traces.are_in(readable(cell.value), only_ids=cell.column in _NO_TEXT)


def _is_in_hand(journal: Journal, cell: _Cell) -> str:
    """Return the name of the message that a cell belongs to when it is not finished, '' otherwise."""
    states = _IN_HAND.get(cell.table)
    state = journal.state_of(cell.table, cell.row) if states else ""
    if states is None or (state not in states and not (state == "queued" and not _is_json(cell.value))):
        return ""
    return f"{'in' if cell.table == 'incoming' else 'out'}-{cell.row[0]}"


def _remove(journal: Journal, cell: _Cell, traces: Traces) -> None:
    if cell.table in _GO_WHOLE:
        journal.delete_row(cell.table, cell.row)
    elif cell.table == "outgoing" and isinstance(cell.value, bytes) and _is_queued(journal, cell):
        without = traces.without(cell.value.decode("utf-8", "replace"))
        journal.set_cell(cell.table, cell.column, cell.row, without.encode())  # it is others', and is sent without them
    elif isinstance(cell.value, bytes):
        journal.set_cell(cell.table, cell.column, cell.row, None)
    else:
        journal.set_cell(cell.table, cell.column, cell.row, traces.without(str(cell.value)))


def _is_queued(journal: Journal, cell: _Cell) -> bool:
    return journal.state_of("outgoing", cell.row) == "queued"


def _is_json(value: object) -> bool:
    return isinstance(value, bytes) and value[:1] in (b"{", b"[")
