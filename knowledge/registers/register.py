"""What is said of a register as a whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol


class PackSource(Protocol):
    """Anything that yields the rows of a pack: one read from a folder, or one kept in a knowledge base."""

    @property
    def name(self) -> str:
        """The name of the pack."""
        ...

    def rows(self, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the cells of these columns for each row of a table, in the order of the file."""
        ...


@dataclass(frozen=True, slots=True)
class Register:
    """One maker's list that turns numbers into dates.

    `object` is what a date is the date of (`allocation`, `manufacture`, `grant`, `registration`); `introducers` are the
    words that must stand before the number, empty for serial numbers; `from_` and `to` bound the register (EDTF, or
    a last number in `to` of a register of year starts), empty when not stated.
    """

    id: str
    maker: str
    kind: str
    title: str
    object: str
    introducers: tuple[str, ...]
    from_: str
    to: str
    source: str

    @property
    def is_of_serials(self) -> bool:
        """Whether its numbers are serial numbers: no words must stand before them."""
        return not self.introducers

    @property
    def gives_earliest(self) -> bool:
        """Whether the date is the earliest one for the thing that carries the number (patents, designs)."""
        return self.object in ("grant", "registration")


def cell_list(cell: str) -> tuple[str, ...]:
    """Return the parts of a cell that holds a list, separated by `;`."""
    return tuple(part for part in (piece.strip() for piece in cell.split(";")) if part)
