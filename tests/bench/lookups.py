"""One look-up in a register of 1,000,000 blocks: ours, `bisect`, SQL, and the libraries for intervals."""

from __future__ import annotations

import random
import sqlite3
from bisect import bisect_right
from collections.abc import Callable
from typing import Any

from knowledge.registers import BlockRow, Blocks
from tests.bench.bases import COLUMNS, BigPack
from tests.bench.measure import in_turns, show

Query = tuple[str, str, int]
"""Prefix, digits, digits as a number."""
FEW = 20
"""Look-ups of the slow ones."""


def rows_of(size: int) -> list[BlockRow]:
    """Return the blocks of a big base."""
    return [BlockRow(*row) for row in BigPack(size).rows("allocations", *COLUMNS)]


def queries(rows: list[BlockRow], count: int) -> list[Query]:
    """Return numbers that lie in blocks, drawn from all of them."""
    rng = random.Random(3)
    drawn = (rng.choice(rows) for _ in range(count))
    inside = [(row, str(rng.randint(int(row.first), int(row.last))).zfill(len(row.first))) for row in drawn]
    return [(row.prefix, digits, int(digits)) for row, digits in inside]


def run(size: int) -> bool:
    """Print the table and return whether what was asked is met."""
    rows = rows_of(size)
    asked = queries(rows, 4_000)
    makers: dict[str, Callable[[list[BlockRow]], Callable[[Any], Any]]] = {
        "ours": _ours, "bisect on a list": _bisect, "SQL, nearest first number": _sql_nearest,
        "SQL BETWEEN with an index": _sql_between, "NCLS": _ncls, "pandas IntervalIndex": _pandas,
        "intervaltree": _intervaltree,
    }  # fmt: skip
    calls = {name: made for name, make in makers.items() if (made := _made(make, rows))}
    slow = {"SQL BETWEEN with an index", "pandas IntervalIndex"}
    arguments: dict[str, Any] = {name: asked[:FEW] if name in slow else asked for name in calls}
    seconds = in_turns(calls, arguments)
    ours, plain, between = seconds["ours"], seconds["bisect on a list"], seconds["SQL BETWEEN with an index"]
    met = show(
        f"One look-up among {size:,} blocks in 40 prefixes",
        [(name, f"{1e6 * one:,.2f} us", f"{one / plain:,.1f} times bisect", None) for name, one in seconds.items()],
    )
    return (
        show(
            "Asked of the look-up",
            [
                ("ours / bisect on a list in memory", f"{ours / plain:.1f}", "at most 6", ours / plain <= 6),
                (
                    "SQL BETWEEN with an index / ours",
                    f"{between / ours:,.0f}",
                    "at least 1,000",
                    between / ours >= 1_000,
                ),
            ],
        )
        and met
    )


def _made(make: Callable[[list[BlockRow]], Callable[[Any], Any]], rows: list[BlockRow]) -> Callable[[Any], Any] | None:
    try:
        return make(rows)
    except ImportError as missing:
        print(f"  left out: {missing}")
        return None


def _ours(rows: list[BlockRow]) -> Callable[[Query], Any]:
    blocks = Blocks()
    blocks.extend(rows)
    blocks.prepare()
    return lambda query: blocks.covering(query[0], query[1], "")


def _by_series(rows: list[BlockRow]) -> dict[tuple[str, int], list[tuple[int, int]]]:
    series: dict[tuple[str, int], list[tuple[int, int]]] = {}
    for row in rows:
        series.setdefault((row.prefix, len(row.first)), []).append((int(row.first), int(row.last)))
    return {key: sorted(found) for key, found in series.items()}


def _bisect(rows: list[BlockRow]) -> Callable[[Query], Any]:
    """The least there is: one list of first numbers for all, and no more than the place found."""
    firsts = sorted(int(row.first) for row in rows)
    return lambda query: bisect_right(firsts, query[2])


def _table(rows: list[BlockRow]) -> sqlite3.Connection:
    db = sqlite3.connect(":memory:")
    db.execute("CREATE TABLE block (prefix TEXT, width INTEGER, first INTEGER, last INTEGER)")
    cells = ((row.prefix, len(row.first), int(row.first), int(row.last)) for row in rows)
    db.executemany("INSERT INTO block VALUES (?, ?, ?, ?)", cells)
    return db


def _sql_between(rows: list[BlockRow]) -> Callable[[Query], Any]:
    db = _table(rows)
    db.execute("CREATE INDEX by_ends ON block (first, last)")
    db.execute("ANALYZE")
    text = "SELECT rowid FROM block WHERE ? BETWEEN first AND last AND prefix = ? AND width = ?"
    return lambda query: db.execute(text, (query[2], query[0], len(query[1]))).fetchall()


def _sql_nearest(rows: list[BlockRow]) -> Callable[[Query], Any]:
    db = _table(rows)
    db.execute("CREATE INDEX by_first ON block (prefix, width, first)")
    text = "SELECT rowid, last FROM block WHERE prefix = ? AND width = ? AND first <= ? ORDER BY first DESC LIMIT 1"
    return lambda query: db.execute(text, (query[0], len(query[1]), query[2])).fetchall()


def _ncls(rows: list[BlockRow]) -> Callable[[Query], Any]:
    import numpy as np
    from ncls import NCLS

    made = {}
    for key, ends in _by_series(rows).items():
        firsts, lasts = (np.array(column, dtype=np.int64) for column in zip(*ends, strict=True))
        made[key] = NCLS(firsts, lasts + 1, np.arange(len(firsts), dtype=np.int64))
    return lambda query: list(made[query[0], len(query[1])].find_overlap(query[2], query[2] + 1))


def _pandas(rows: list[BlockRow]) -> Callable[[Query], Any]:
    import pandas as pd

    made = {
        key: pd.IntervalIndex.from_tuples(ends, closed="both") for key, ends in _by_series(rows).items()
    }  # fmt: skip
    return lambda query: made[query[0], len(query[1])].contains(query[2]).nonzero()  # type: ignore[attr-defined]


def _intervaltree(rows: list[BlockRow]) -> Callable[[Query], Any]:
    from intervaltree import IntervalTree

    made = {
        key: IntervalTree.from_tuples((first, last + 1) for first, last in ends)
        for key, ends in _by_series(rows).items()
    }
    return lambda query: made[query[0], len(query[1])].at(query[2])
