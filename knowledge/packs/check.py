"""Check what a pack says: every fault at once, each with file, row and column.

The checks stand in modules of their own; this one knows which there are and puts what they find in order.
"""

from __future__ import annotations

from collections.abc import Iterator

from knowledge.packs.blocks import check_blocks
from knowledge.packs.cells import check_cells
from knowledge.packs.codes import check_codes
from knowledge.packs.drawings import check_drawings
from knowledge.packs.faults import Fault
from knowledge.packs.machines import check_machines
from knowledge.packs.references import check_keys, check_makers, check_references
from knowledge.packs.registers import check_prefixes, check_registers
from knowledge.packs.tables import Pack
from knowledge.packs.times import check_issue_order, check_times
from knowledge.packs.year_starts import check_year_starts


def check(pack: Pack) -> list[Fault]:
    """Return every fault of what a pack says, by file and row. Takes about as long as reading it; never raises.

    Rows that are damaged are left out: they have to be written anew, and that has been told.
    """
    damaged = {(table.file, row) for table in pack.tables.values() for row in table.damaged}
    return in_order(pack, [fault for fault in _faults(pack) if (fault.file, fault.row) not in damaged])


def in_order(pack: Pack, faults: Iterator[Fault] | list[Fault]) -> list[Fault]:
    """Return faults by file, as the format lists the tables, and row; those of the pack as a whole come first."""
    places = {table.file: place for place, table in enumerate(pack.tables.values())}
    return sorted(faults, key=lambda fault: (places.get(fault.file, -1), fault.file, fault.row or 0))


def _faults(pack: Pack) -> Iterator[Fault]:
    for table in pack.tables.values():
        yield from check_cells(table)
        yield from check_keys(table)
    yield from check_references(pack)
    yield from check_makers(pack)
    yield from check_drawings(pack)
    yield from check_registers(pack)
    yield from check_blocks(pack)
    yield from check_issue_order(pack.tables["allocations"])
    for name in ("allocations", "year-starts", "prefixes"):
        yield from check_times(pack, name)
    yield from check_year_starts(pack)
    yield from check_codes(pack)
    yield from check_prefixes(pack.tables["prefixes"])
    yield from check_machines(pack)
