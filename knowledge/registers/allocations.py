"""Registers by allocated blocks: each row gives a first and a last number, and the date of the allocation.

Source: common practice. Makers kept a ledger of the blocks of numbers handed to a works, with date and model.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from knowledge.registers.blocks import BlockRow
from knowledge.registers.register import PackSource, Register, changed_rows

KIND = "allocations"


def blocks(source: PackSource, registers: Mapping[str, Register]) -> Iterator[tuple[str, ...]]:
    """Return the blocks of the allocation registers among `registers` (ids as in the pack), as cells of a BlockRow."""
    rows = (row for row in source.rows("allocations", *BlockRow._fields) if row[0] in registers)
    changed = changed_rows(source, "allocations")
    if not changed:
        return rows
    told = ((BlockRow(*row), changed.get(row)) for row in rows)
    return (
        row._replace(source=change.beside(row.source, registers[row.register].source)) if change else row
        for row, change in told
    )
