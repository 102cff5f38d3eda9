"""Packs: folders of knowledge in open formats, read, checked and written.

`load` is what answering needs; `read` and `check` also tell what is wrong, `write` makes a pack.
"""

from __future__ import annotations

from pathlib import Path

from knowledge.packs.check import check, in_order
from knowledge.packs.faults import Fault, PackFaults, counted
from knowledge.packs.read import read
from knowledge.packs.tables import SCHEMAS, Pack, Table
from knowledge.packs.write import write

__all__ = ["SCHEMAS", "Fault", "Pack", "PackFaults", "Table", "check", "counted", "faults_of", "load", "read", "write"]


def load(folder: Path) -> Pack:
    """Return the pack in a folder. Raises PackFaults, with all of them, when one would give wrong answers."""
    pack, faults = faults_of(folder)
    if any(fault.severity == "error" for fault in faults):
        raise PackFaults(pack.name, faults)
    return pack


def faults_of(folder: Path) -> tuple[Pack, list[Fault]]:
    """Return the pack in a folder as far as it can be read, and all faults of its files and of what they say."""
    pack, found = read(folder)
    if any(fault.code == "no-folder" for fault in found):
        return pack, found
    return pack, in_order(pack, [*found, *check(pack)])
