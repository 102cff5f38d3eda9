"""Big invented bases for the benchmarks: allocations of a thousand numbers or so, prefix by prefix, seeded."""

from __future__ import annotations

import random
import string
from collections.abc import Iterator
from itertools import product

from knowledge.packs.tables import Pack, Table

PREFIXES = [*string.ascii_uppercase, *("".join(pair) for pair in product("ABCDEFGHIJKLMN", "S"))]
COLUMNS = (
    "register", "order", "prefix", "first", "last", "suffix", "date", "model", "works", "quantity", "source", "note",
)  # fmt: skip


class BigPack:
    """A pack source of `size` allocations in 40 prefixes, made row by row and never held as a whole.

    Each prefix runs six digits, then seven from 1000000, then the zero-led seven, as far as its share goes.
    """

    name = "big"

    def __init__(self, size: int, seed: int = 1) -> None:
        self._size = size
        self._seed = seed

    def rows(self, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the rows of a table; only makers, registers and allocations have any."""
        made = {"makers": self._makers, "registers": self._registers, "allocations": self._allocations}.get(table)
        for row in made() if made else ():
            yield tuple(row.get(column, "") for column in columns)

    def _makers(self) -> Iterator[dict[str, str]]:
        yield {"maker": "we", "name": "We Ourselves"}

    def _registers(self) -> Iterator[dict[str, str]]:
        yield {"register": "list", "maker": "we", "kind": "allocations", "object": "allocation", "from": "1870"}

    def _allocations(self) -> Iterator[dict[str, str]]:
        rng = random.Random(self._seed)
        share = self._size // len(PREFIXES)
        for prefix in PREFIXES:
            length = max(1, 10_900_000 // share)
            number, width, day = 1, 6, 0
            for order in range(1, share + 1):
                first, last = number, number + rng.randint(max(1, length * 3 // 4), length) - 1
                if last >= 10**width:
                    last = 10**width - 1
                day += rng.randint(0, max(1, 70 * 365 // share))
                yield {
                    "register": "list", "order": str(order), "prefix": prefix, "date": _date(day),
                    "first": str(first).zfill(width), "last": str(last).zfill(width),
                    "model": f"m{order % 37}", "works": f"w{order % 3}", "quantity": str(last - first + 1),
                }  # fmt: skip
                number = last + 1
                if number >= 10**width:
                    number, width = (1_000_000, 7) if width == 6 else (1, 7)


def _date(day: int) -> str:
    year, rest = divmod(day, 360)
    return f"{min(1870 + year, 1969)}-{rest // 30 + 1:02}-{rest % 28 + 1:02}"


def written(size: int) -> Pack:
    """Return a big base as a pack in memory, to be stored."""
    source = BigPack(size)
    columns = {
        "makers": ("maker", "name"),
        "registers": ("register", "maker", "kind", "object", "from"),
        "allocations": COLUMNS,
    }
    tables = []
    for name, wanted in columns.items():
        cells = zip(*source.rows(name, *wanted), strict=True)
        tables.append(Table.of(name, dict(zip(wanted, map(list, cells), strict=True))))
    return Pack.of(source.name, *tables)
