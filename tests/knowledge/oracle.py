"""A second opinion on readings, found the other way round: from every stamped number back to what was typed.

`knowledge/readings.py` makes readings from the typed number. Here every number of every block is looked at, and the
definitions of the design decide which mistakes could have turned it into the typed one. Slow, and independent.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from knowledge.registers import BlockRow
from knowledge.weights import LETTERS_FOR_DIGITS, LOOK_ALIKES


class Stamped(NamedTuple):
    prefix: str
    digits: str
    suffix: str


def numbers_of(row: BlockRow) -> Iterator[Stamped]:
    """Yield every number a block holds, by the rule of the design."""
    same_width = len(row.first) == len(row.last)
    for number in range(int(row.first), int(row.last) + 1):
        digits = str(number).zfill(len(row.first)) if same_width else str(number)
        yield Stamped(row.prefix, digits, row.suffix)


def explains(typed: Stamped, stamped: Stamped) -> set[tuple[str, ...]]:
    """Return the steps by which `typed` could be `stamped`: one mistake, or the two that often come together."""
    found: set[tuple[str, ...]] = set()
    if (typed.prefix, typed.suffix) == (stamped.prefix, stamped.suffix):
        found |= {(step,) for step in _digits(typed.digits, stamped.digits)}
    if not typed.prefix and stamped.prefix and typed.suffix == stamped.suffix:
        if typed.digits == stamped.digits:
            found.add(("prefix-missing",))
        if stamped.digits.startswith("0") and stamped.digits.lstrip("0") == typed.digits:
            found.add(("prefix-missing", "zero-restored"))
    if not typed.prefix and typed.suffix and stamped == Stamped(typed.suffix, typed.digits, ""):
        found.add(("prefix-missing",))
    found |= {(step,) for step in _letters("".join(typed), "".join(stamped)) if typed.digits != stamped.digits}
    return found


def _digits(typed: str, stamped: str) -> Iterator[str]:
    if typed == stamped:
        yield "as-typed"
    elif (typed.lstrip("0") or "0") == (stamped.lstrip("0") or "0"):
        yield "zero-restored" if len(stamped) > len(typed) else "zero-removed"
    if len(typed) == len(stamped):
        differing = [place for place in range(len(typed)) if typed[place] != stamped[place]]
        if len(differing) == 1 and typed[differing[0]] in LOOK_ALIKES[stamped[differing[0]]]:
            yield "digit-misread"
        if len(differing) == 2 and differing[1] == differing[0] + 1:
            left, right = differing
            if (typed[left], typed[right]) == (stamped[right], stamped[left]):
                yield "digits-swapped"
    if len(stamped) == len(typed) + 1 and typed in _one_less(stamped):
        yield "digit-missed"
    if len(stamped) == len(typed) - 1 and stamped in _one_less(typed):
        yield "digit-extra"


def _one_less(digits: str) -> set[str]:
    return {digits[:place] + digits[place + 1 :] for place in range(len(digits))}


def _letters(typed: str, stamped: str) -> Iterator[str]:
    if len(typed) != len(stamped):
        return
    pairs = [(t, s) for t, s in zip(typed, stamped, strict=True) if t != s]
    if 1 <= len(pairs) <= 2:
        if all(LETTERS_FOR_DIGITS.get(t) == s for t, s in pairs):
            yield "letter-for-digit"
        if all(LETTERS_FOR_DIGITS.get(s) == t for t, s in pairs):
            yield "digit-for-letter"
