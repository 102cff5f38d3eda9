"""The rows of a pack with changes laid over them. The pack stays as it was loaded; a change stays as it was agreed.

Changes that follow from each other (a row corrected twice, a correction taken back) make one chain. A chain takes hold
of the row of the pack that is any of its states, so that a pack which took a change over meanwhile is as good as the
one before. A chain whose row is gone from the pack changes nothing, and is told (`Standing`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from knowledge.inference import order_of_issue
from knowledge.packs.numbers import is_number
from knowledge.packs.tables import SCHEMAS
from knowledge.register_changes.nouns import RegisterChange, Row

LAID_OVER, IN_THE_PACK, ROW_GONE = "laid over the pack", "in the pack itself now", "the row it changes is gone"


@dataclass(slots=True)
class _Chain:
    """One row through all its states, None standing for no row; `numbers` are those of the changes."""

    states: list[Row | None]
    numbers: list[int] = field(default_factory=list)

    @property
    def last(self) -> Row | None:
        return self.states[-1]

    @property
    def earlier(self) -> list[Row]:
        """The rows that stand for this one in a pack."""
        return [row for row in self.states[:-1] if row is not None and row != self.last]


@dataclass(frozen=True, slots=True)
class Standing:
    """How a change in force stands towards its pack as it is loaded: LAID_OVER, IN_THE_PACK or ROW_GONE."""

    change: RegisterChange
    how: str


def laid_over(
    table: str, rows: Callable[[], Iterable[Row]], changes: Sequence[RegisterChange]
) -> Iterator[tuple[Row, int | None]]:
    """Yield the rows of a table with changes laid over, each with its place in the pack; None for a new row.

    `rows` gives the rows as they were loaded, each time anew; it is called twice. A new row stands behind the row of
    its register and letters that was issued before it (`order_of_issue`), as far as the numbers tell.
    """
    chains = _chains(changes)
    replaced, placed = _arranged(table, rows(), chains)
    for row in placed.pop(-1, ()):
        yield row, None
    for place, row in enumerate(rows()):
        now = replaced.get(place, row)
        if now is not None:
            yield now, place
        for new in placed.get(place, ()):
            yield new, None


def standing(table: str, rows: Iterable[Row], changes: Sequence[RegisterChange]) -> list[Standing]:
    """Return how each of the changes in force on a table stands towards the rows as they were loaded."""
    chains = _chains(changes)
    wanted = {row for chain in chains for row in (*chain.earlier, *filter(None, (chain.last,)))}
    there = {row for row in rows if row in wanted}
    by_number = {change.number: change for change in changes}
    return [
        Standing(by_number[number], _how(chain, there)) for chain in chains for number in chain.numbers
    ]  # fmt: skip


def in_force_on(
    table: str, rows: Iterable[Row], changes: Sequence[RegisterChange]
) -> Iterator[tuple[Row, RegisterChange, bool]]:
    """Yield the rows that stand laid over those of a pack: the change that made each what it is, and if it is new."""
    stands = {one.change.number for one in standing(table, rows, changes) if one.how == LAID_OVER}
    by_number = {change.number: change for change in changes}
    for chain in _chains(changes):
        if chain.last is not None and chain.numbers[-1] in stands:
            yield chain.last, by_number[chain.numbers[-1]], chain.states[0] is None


def _how(chain: _Chain, there: set[Row]) -> str:
    if any(row in there for row in chain.earlier):
        return LAID_OVER
    if chain.last is None or chain.last in there:
        return IN_THE_PACK
    return LAID_OVER if chain.states[0] is None else ROW_GONE


def _chains(changes: Sequence[RegisterChange]) -> list[_Chain]:
    """Return the chains that changes make, in the order in which they came into force."""
    chains: list[_Chain] = []
    for change in changes:
        chain = next((one for one in chains if change.before is not None and one.last == change.before), None)
        if chain is None:
            chain = _Chain([change.before])
            chains.append(chain)
        chain.states.append(change.after)
        chain.numbers.append(change.number)
    return chains


def _arranged(
    table: str, rows: Iterable[Row], chains: Sequence[_Chain]
) -> tuple[dict[int, Row | None], dict[int, list[Row]]]:
    """Return which places of the pack hold another row now, and behind which places new rows stand (-1: before all)."""
    by_row = {row: chain for chain in reversed(chains) for row in chain.earlier}
    done = {chain.last for chain in chains}
    replaced: dict[int, Row | None] = {}
    used: set[int] = set()
    new = [chain for chain in chains if chain.states[0] is None and chain.last is not None]
    order = _Order(table, [chain.last for chain in new if chain.last is not None])
    for place, row in enumerate(rows):
        chain = by_row.get(row)
        if chain is not None and id(chain) not in used:
            used.add(id(chain))
            replaced[place] = chain.last
        elif row in done:
            used.update(id(one) for one in new if one.last == row)
        if new:
            order.passes(place, row)
    left = [chain.last for chain in new if id(chain) not in used and chain.last is not None]
    return replaced, order.places(left)


class _Order:
    """Finds the places of new rows among those of the pack."""

    def __init__(self, table: str, new: Sequence[Row]) -> None:
        names = tuple(SCHEMAS[table].columns)
        self._line = [names.index(name) for name in ("register", "table", "prefix", "suffix") if name in names]
        self._first = names.index("first") if "first" in names else -1
        self._new = {row: (self._line_of(row), self._begin(row)) for row in new}
        self._registers = {row[0] for row in new}
        self._ends: dict[str, int] = {}
        self._below: dict[Row, tuple[int, int]] = {}
        self._above: dict[Row, int] = {}

    def passes(self, place: int, row: Row) -> None:
        """Take note of a row of the pack."""
        if row[0] not in self._registers:
            return
        self._ends[row[0]] = place
        line, begin = self._line_of(row), self._begin(row)
        for new, (its_line, its_begin) in self._new.items():
            if line == its_line and begin is not None and its_begin is not None:
                if begin <= its_begin:
                    self._below[new] = max(self._below.get(new, (begin, place)), (begin, place))
                else:
                    self._above.setdefault(new, place)

    def places(self, new: Sequence[Row]) -> dict[int, list[Row]]:
        """Return the new rows by the place behind which they stand: of their series, or else of their register."""
        found: dict[int, list[Row]] = {}
        for row in sorted(new, key=lambda row: (self._new[row][0], self._new[row][1] or 0)):
            place = self._above[row] - 1 if row in self._above else self._ends.get(row[0], -1)
            found.setdefault(self._below[row][1] if row in self._below else place, []).append(row)
        return found

    def _line_of(self, row: Row) -> Row:
        return tuple(row[place] for place in self._line)

    def _begin(self, row: Row) -> int | None:
        first = row[self._first] if self._first >= 0 else ""
        return order_of_issue(first) if is_number(first) else None
