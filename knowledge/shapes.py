"""The shapes of all series of numbers: prefix, number of digits, suffix; arranged for the questions readings ask."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from knowledge.registers import SeriesKey


def is_zero_led(digits: str) -> bool:
    """Tell whether a number begins with a zero that counts: the number 0 itself does not."""
    return digits[0] == "0" and len(digits) > 1


@dataclass(frozen=True, slots=True)
class Shapes:
    """The shapes of all series, arranged for the questions that readings ask."""

    series: frozenset[SeriesKey]
    prefixes: dict[tuple[int, str], tuple[str, ...]]
    """All prefixes (without the empty one) by number of digits and suffix."""
    widest: dict[tuple[str, str], int]
    """The most digits of a series by prefix and suffix."""

    @classmethod
    def of(cls, series: Iterable[SeriesKey]) -> Shapes:
        """Arrange the shapes of series."""
        prefixes: dict[tuple[int, str], list[str]] = {}
        widest: dict[tuple[str, str], int] = {}
        shapes = frozenset(series)
        for prefix, width, suffix in sorted(shapes):
            if prefix:
                prefixes.setdefault((width, suffix), []).append(prefix)
            widest[prefix, suffix] = max(width, widest.get((prefix, suffix), 0))
        return cls(shapes, {key: tuple(found) for key, found in prefixes.items()}, widest)

    def holds(self, prefix: str, width: int, suffix: str, zero_led: bool) -> bool:
        """Tell whether some series has numbers of this shape; a plain count has none with a leading zero."""
        series = self.series
        return (prefix, width, suffix) in series or (not zero_led and (prefix, 0, suffix) in series)

    def missing_prefixes(self, width: int, suffix: str, zero_led: bool) -> tuple[str, ...]:
        """Return the prefixes that numbers of this shape can have."""
        found = self.prefixes.get((width, suffix), ())
        plain = () if zero_led else self.prefixes.get((0, suffix), ())
        return found if not plain else tuple(dict.fromkeys(found + plain))
