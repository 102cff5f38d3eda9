"""Small packs for tests, written as people would read them aloud."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from knowledge.base import Knowledge
from knowledge.packs.tables import Pack, Table
from knowledge.tokens.nouns import SerialToken


def table(name: str, *rows: dict[str, str]) -> Table:
    """Make a table from rows that each name only the cells that matter."""
    columns = list(dict.fromkeys(column for row in rows for column in row))
    return Table.of(name, {column: [row.get(column, "") for row in rows] for column in columns})


def pack(*tables: Table, name: str = "small") -> Pack:
    return Pack.of(name, *tables)


def register(kind: str, id_: str = "list", **cells: str) -> dict[str, str]:
    return {"register": id_, "maker": "we", "kind": kind, **cells}


def block(numbers: str, date: str = "1912", **cells: str) -> dict[str, str]:
    """Make a row of allocations from 'K 200001-225000' or '1-999 B' (prefix before, suffix behind)."""
    words = numbers.split()
    ends = next(word for word in words if "-" in word)
    place = words.index(ends)
    first, last = ends.split("-")
    return {
        "register": "list", "prefix": "".join(words[:place]), "first": first, "last": last,
        "suffix": "".join(words[place + 1 :]), "date": date, **cells,
    }  # fmt: skip


def blocks(*rows: dict[str, str], more: Sequence[Table] = ()) -> Knowledge:
    """Return the knowledge of one allocation register with these blocks."""
    return Knowledge.of([pack(table("registers", register("allocations")), table("allocations", *rows), *more)])


def token(serial: str, **more: Any) -> SerialToken:
    """Make a token from 'K 204117', '204117' or 'K 204117 B'."""
    words = serial.split()
    place = next(place for place, word in enumerate(words) if not word.isalpha())
    parts = "".join(words[:place]), words[place], "".join(words[place + 1 :])
    text = "".join(words)
    return SerialToken(text, 0, len(text), *parts, introduced=True, **more)
