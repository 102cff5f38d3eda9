"""What another group shared, beside what is known here, in words and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from knowledge.packs import counted
from knowledge.sharing import Comparison, Side
from knowledge.sharing.comparing import (
    CONTRADICTORY,
    EQUAL,
    FINDING,
    KINDS,
    NEW,
    OUTDATED,
    SIGHTING,
    WITHDRAWN,
)

SHOWN = 20
"""Contradictions that are shown one by one, unless all are wanted."""
_MEANS = {
    NEW: "new", EQUAL: "equal to what is known here", CONTRADICTORY: "contradictory to what is known here",
    OUTDATED: "known here in a later state", WITHDRAWN: "withdrawn here, and left so",
}  # fmt: skip
_ALWAYS = (NEW, EQUAL, CONTRADICTORY)


def words(comparison: Comparison, *, everything: bool = False) -> Iterator[str]:
    """Yield lines: how many are new, equal and contradictory, then each contradiction with both sides."""
    for what in (FINDING, SIGHTING):
        counts = {kind: comparison.count(what, kind) for kind in KINDS}
        if what == FINDING or any(counts.values()):
            shown = [f"{counts[kind]:,} {_MEANS[kind]}" for kind in KINDS if counts[kind] or kind in _ALWAYS]
            yield f"{counted(sum(counts.values()), what)}: {', '.join(shown)}."
    sides = comparison.contradictory
    for side in sides if everything else sides[:SHOWN]:
        yield from _both_sides(side)
    if len(sides) > SHOWN and not everything:
        yield f"... and {len(sides) - SHOWN:,} more contradictions (--all shows them)"


def _both_sides(side: Side) -> Iterator[str]:
    machine = side.machine
    yield f"Contradiction about {machine.serial or 'a machine without a number'}:"
    yield f"  They say ({machine.author}): {side.theirs}"
    yield from (f"  But {ours}" for ours in side.ours)


def as_json(comparison: Comparison) -> dict[str, Any]:
    """Return the same as JSON: counts for findings and sightings, and every contradiction with both sides."""
    counts = {
        f"{what}s": {kind: comparison.count(what, kind) for kind in KINDS} for what in (FINDING, SIGHTING)
    }  # fmt: skip
    return {"pack": comparison.pack, **counts, "contradictions": list(map(_side, comparison.contradictory))}


def _side(side: Side) -> dict[str, str | Sequence[str]]:
    machine = side.machine
    return {
        "kind": side.what, "key": machine.key, "serial": machine.serial, "author": machine.author,
        "theirs": side.theirs, "ours": list(side.ours),
    }  # fmt: skip
