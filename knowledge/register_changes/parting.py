"""What an expert wrote -> the single changes of lists in it, and the reason that goes with them.

A change begins a line and ends with its paragraph, or where the next one begins. What else stands there is the reason.
"""

from __future__ import annotations

from dataclasses import dataclass

from knowledge.base import Knowledge
from knowledge.register_changes.reading import Unclear, is_change, names_a_block, read_change

MOST = 20
"""Changes that are read in one message; whoever has more of them has a new list."""


@dataclass(frozen=True, slots=True)
class Parted:
    """The words of each change, and all other words; at most MOST changes, `left` tells how many more there are."""

    changes: tuple[str, ...]
    why: str
    left: int = 0


def parted(text: str) -> Parted:
    """Return the changes in a text.

    >>> parted("The ledger says so, p. 3.\\n\\nchange K 200001-225000\\ndate 1891\\nremove K 1-9")
    Parted(changes=('change K 200001-225000 date 1891', 'remove K 1-9'), why='The ledger says so, p. 3.', left=0)
    """
    changes: list[str] = []
    others: list[str] = []
    is_inside = False
    for line in (" ".join(one.split()) for one in text.splitlines()):
        if is_change(line):
            changes.append(line)
            is_inside = True
        elif not line:
            is_inside = False
        elif is_inside:
            changes[-1] += f" {line}"
        else:
            others.append(line)
    return Parted(tuple(changes[:MOST]), " ".join(others), max(0, len(changes) - MOST))


def is_for_a_list(text: str, knowledge: Knowledge, *, beside_a_case: bool = False) -> bool:
    """Tell whether a text wants lists changed, clearly or not.

    A block, told by two numbers, is for a list. A single number may be that of a machine: then the words have to be
    clear, or at least no question; where answers about machines are written (`beside_a_case`) they have to be clear,
    and to begin with the change.
    """
    found = parted(text)
    if not found.changes or (beside_a_case and not is_change(text)):
        return False
    first = found.changes[0]
    if names_a_block(first) or not isinstance(read_change(first, knowledge), Unclear):
        return True
    return not beside_a_case and "?" not in text
