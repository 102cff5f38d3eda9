"""What loading a pack again changed, row by row, found by comparing two sorted streams with little memory."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import groupby

Row = tuple[str, ...]

EXAMPLES = 5  # changes told in words for each table


@dataclass(slots=True)
class TableChanges:
    """The changes of one table of a pack; `examples` tells the first few in words."""

    table: str
    added: int = 0
    removed: int = 0
    changed: int = 0
    examples: list[str] = field(default_factory=list)

    def __bool__(self) -> bool:
        return bool(self.added or self.removed or self.changed)


@dataclass(frozen=True, slots=True)
class Changes:
    """What saving a pack changed. `first_time` when no pack of that name was there before."""

    pack: str
    first_time: bool
    tables: tuple[TableChanges, ...]

    def __bool__(self) -> bool:
        return any(self.tables)

    def in_words(self) -> list[str]:
        """Return lines for people: one for each table that changed, the examples indented below it."""
        if not self:
            return [f"Nothing in {self.pack} changed."]
        lines = []
        for table in filter(None, self.tables):
            counts = (f"{table.added:,} added", f"{table.removed:,} removed", f"{table.changed:,} changed")
            lines.append(f"{table.table}: " + ", ".join(text for text in counts if not text.startswith("0 ")))
            lines += [f"  {example}" for example in table.examples]
        return lines


def compare(table: str, columns: Sequence[str], keys: int, old: Iterator[Row], new: Iterator[Row]) -> TableChanges:
    """Compare two streams of rows, each sorted by its first `keys` columns.

    Rows of one key that are equal in both are left out, as many as there are in both; of the others, one old
    and one new make a changed row, and what is over was added or removed.
    """
    found = TableChanges(table)
    for before, after in _side_by_side(old, new, keys):
        if before == after:
            continue
        kept = Counter(before) & Counter(after)
        gone, come = list((Counter(before) - kept).elements()), list((Counter(after) - kept).elements())
        both = min(len(gone), len(come))
        found.changed += both
        found.removed += len(gone) - both
        found.added += len(come) - both
        for one, other in zip(gone[:both], come[:both], strict=True):
            _tell(found, columns, keys, one, other)
        for row in gone[both:]:
            _tell(found, columns, keys, row, None)
        for row in come[both:]:
            _tell(found, columns, keys, None, row)
    return found


def _side_by_side(old: Iterator[Row], new: Iterator[Row], keys: int) -> Iterator[tuple[list[Row], list[Row]]]:
    """Yield the old and the new rows of each key, in the order of the keys."""
    olds = groupby(old, lambda row: row[:keys])
    news = groupby(new, lambda row: row[:keys])
    one, other = next(olds, None), next(news, None)
    while one or other:
        if other is None or (one is not None and one[0] < other[0]):
            yield list(one[1]) if one else [], []
            one = next(olds, None)
        elif one is None or other[0] < one[0]:
            yield [], list(other[1])
            other = next(news, None)
        else:
            yield list(one[1]), list(other[1])
            one, other = next(olds, None), next(news, None)


def _tell(found: TableChanges, columns: Sequence[str], keys: int, old: Row | None, new: Row | None) -> None:
    """Add one change in words, unless enough are told already."""
    if len(found.examples) >= EXAMPLES:
        return
    row = new or old or ()
    which = ", ".join(f"{column} {value}" for column, value in zip(columns[:keys], row, strict=False) if value)
    if old is None or new is None:
        found.examples.append(f"{'removed' if new is None else 'added'}: {which}")
        return
    cells = zip(columns[keys:], old[keys:], new[keys:], strict=True)
    differences = [f"{name} was {was or 'empty'}, now {now or 'empty'}" for name, was, now in cells if was != now]
    found.examples.append(f"changed: {which}: " + "; ".join(differences))
