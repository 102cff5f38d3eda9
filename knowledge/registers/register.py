"""What is said of a register as a whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple, Protocol, runtime_checkable


class PackSource(Protocol):
    """Anything that yields the rows of a pack: one read from a folder, or one kept in a knowledge base."""

    @property
    def name(self) -> str:
        """The name of the pack."""
        ...

    def rows(self, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the cells of these columns for each row of a table, in the order of the file."""
        ...


class RowChange(NamedTuple):
    """What is told of a row that the group's experts changed: in words, with the day, and whether the row is new."""

    words: str
    is_new: bool

    def beside(self, source: str, of_register: str) -> str:
        """Return the sources of the row: its own, else (for no new row) those of its register, and the change."""
        return "; ".join(filter(None, (source or ("" if self.is_new else of_register), self.words)))


@runtime_checkable
class Changeable(Protocol):
    """A pack of which rows may have been changed by the group."""

    def changed_rows(self, table: str) -> Mapping[tuple[str, ...], RowChange]:
        """Return the rows of a table, whole, that say what they say only by a change that is in force."""
        ...


def changed_rows(source: PackSource, table: str) -> Mapping[tuple[str, ...], RowChange]:
    """Return the rows of a table that the group changed; none for a pack that is read as its folder has it."""
    return source.changed_rows(table) if isinstance(source, Changeable) else {}


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
