"""Numbers with unreadable places: how many numbers of such a pattern lie below a bound.

In a pattern a digit stands for itself and `?` for any digit.
"""

from __future__ import annotations

NOT_ZERO = "+"
"""In a pattern: any digit from 1 on."""


def bounds(pattern: str) -> tuple[int, int]:
    """Return the least and the greatest number of a pattern."""
    return int(pattern.replace("?", "0").replace(NOT_ZERO, "1")), int(pattern.replace("?", "9").replace(NOT_ZERO, "9"))


def count_up_to(pattern: str, bound: int) -> int:
    """Return how many numbers of a pattern are at most `bound`."""
    if bound < 0:
        return 0
    digits = str(bound).zfill(len(pattern))
    if len(digits) > len(pattern):
        digits = "9" * len(pattern)
    ways = [1]  # how many ways there are to fill the last 0, 1, 2, ... places
    for place in reversed(pattern):
        ways.append(ways[-1] * (10 if place == "?" else 9 if place == NOT_ZERO else 1))
    count = 0
    for at, (place, digit) in enumerate(zip(pattern, digits, strict=True)):
        count += _less(place, digit) * ways[len(pattern) - at - 1]
        if not (place == digit or place == "?" or (place == NOT_ZERO and digit != "0")):
            return count
    return count + 1


def _less(place: str, digit: str) -> int:
    """Return how many digits that a place of a pattern allows are less than `digit`."""
    if place == "?":
        return int(digit)
    return max(0, int(digit) - 1) if place == NOT_ZERO else int(place < digit)
