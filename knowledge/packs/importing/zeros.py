"""Numbers that lost their leading zeros to a spreadsheet: found, and offered for repair, never changed by itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Block:
    """One row of the list. `last` is '' where a row has a first number only; `since` is the date, '' if unknown."""

    row: int
    prefix: str
    suffix: str
    first: str
    last: str = ""
    since: str = ""

    @property
    def width(self) -> int:
        """The number of digits of its longer number."""
        return max(len(self.first), len(self.last))

    def __str__(self) -> str:
        return f"{self.first} to {self.last}" if self.last else self.first


@dataclass(frozen=True, slots=True)
class Repair:
    """A proposed change of one row, and why. `cells` are the new cells by column."""

    row: int
    old: str
    new: str
    reason: str
    cells: tuple[tuple[str, str], ...]


def propose(blocks: Iterable[Block], digits: int = 0) -> list[Repair]:
    """Return the repairs for rows that seem to have lost zeros, in the order of the rows.

    `digits` is how many the numbers of this register are known to have, 0 when that is not known.
    """
    groups: defaultdict[tuple[str, str], list[Block]] = defaultdict(list)
    for block in blocks:
        groups[block.prefix, block.suffix].append(block)
    found = [repair for group in groups.values() for repair in _in_group(group, digits)]
    return sorted(found, key=lambda repair: repair.row)


def _in_group(group: list[Block], digits: int) -> list[Repair]:
    """Look down the list and then up it, so that one good neighbour mends the whole run beside it."""
    mended, reasons = list(group), [""] * len(group)
    for place, block in enumerate(mended):
        above = mended[place - 1] if place else None
        width, reason = _alone(block, digits)
        if not width and above is not None:
            width, reason = _below(block, above, mended[place - 2] if place > 1 else None)
        if width > min(len(block.first), len(block.last or block.first)):
            mended[place], reasons[place] = _widened(block, width), reason
    for place in range(len(mended) - 2, -1, -1):
        width, reason = _above(mended[place], mended[place + 1])
        if width and not reasons[place]:
            mended[place], reasons[place] = _widened(mended[place], width), reason
    return [_repair(old, new, why) for old, new, why in zip(group, mended, reasons, strict=True) if why]


def _alone(block: Block, digits: int) -> tuple[int, str]:
    """What the row itself shows: a stated number of digits, or a zero on one of its two numbers only."""
    if digits > min(len(block.first), len(block.last or block.first)) and digits >= block.width:
        return digits, f"the numbers of this register have {digits} digits"
    if block.last and len(block.first) != len(block.last) and (_zero_led(block.first) or _zero_led(block.last)):
        return block.width, f"of {block} only one number has its leading zero"
    return 0, ""


def _below(block: Block, above: Block, before: Block | None) -> tuple[int, str]:
    """What the row above shows: a zero-led block that this one goes on from, or the end of a longer series."""
    goes_on = int(block.first) > int(above.last or above.first)
    if len(block.first) < above.width and block.width <= above.width and _zero_led(above.first) and goes_on:
        return above.width, f"it goes on from {above} in the row above, which has {above.width} digits"
    if block.width >= above.width:
        return 0, ""
    rising = before is None or int(before.first) < int(above.first)
    later = not (block.since and above.since) or block.since >= above.since
    if not goes_on and rising and later and not _zero_led(above.first):
        return above.width, f"it comes after {above}, and the numbers that start with zero are used last"
    return 0, ""


def _above(block: Block, below: Block) -> tuple[int, str]:
    """What the row below shows: a zero-led block that goes on from this one."""
    shorter = block.width < below.width and _zero_led(below.first)
    if shorter and int(block.last or block.first) < int(below.first):
        return below.width, f"{below} in the row below goes on from it and has {below.width} digits"
    return 0, ""


def _zero_led(number: str) -> bool:
    return len(number) > 1 and number.startswith("0")


def _widened(block: Block, width: int) -> Block:
    return replace(block, first=block.first.zfill(width), last=block.last and block.last.zfill(width))


def _repair(old: Block, new: Block, reason: str) -> Repair:
    cells = [("first", new.first)] + ([("last", new.last)] if new.last else [])
    return Repair(old.row, f"{old.prefix}{old}", f"{new.prefix}{new}", reason, tuple(cells))
