"""Measuring side by side: everything of one table is timed in one run, in turns, so that ratios mean something."""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROUNDS = 5


@dataclass(frozen=True, slots=True)
class Times:
    """Seconds of single calls."""

    seconds: tuple[float, ...]

    @property
    def median(self) -> float:
        """The middle one."""
        return statistics.median(self.seconds)

    def percentile(self, share: float) -> float:
        """The time that `share` (0 to 1) of the calls stay under."""
        return sorted(self.seconds)[min(len(self.seconds) - 1, int(share * len(self.seconds)))]


def each(call: Callable[[object], object], arguments: Sequence[object]) -> Times:
    """Time every call by itself, garbage collection left on as users have it."""
    for argument in arguments[: max(1, len(arguments) // 10)]:
        call(argument)
    found = []
    for argument in arguments:
        begun = time.perf_counter()
        call(argument)
        found.append(time.perf_counter() - begun)
    return Times(tuple(found))


def in_turns(
    calls: Mapping[str, Callable[[object], object]], arguments: Mapping[str, Sequence[object]]
) -> dict[str, float]:
    """Return seconds a call, the least of ROUNDS rounds in which all take turns, so that noise hits all alike."""
    best = dict.fromkeys(calls, float("inf"))
    gc.disable()
    try:
        for _ in range(ROUNDS):
            for name, call in calls.items():
                begun = time.perf_counter()
                for argument in arguments[name]:
                    call(argument)
                best[name] = min(best[name], (time.perf_counter() - begun) / len(arguments[name]))
    finally:
        gc.enable()
    return best


def resident() -> float:
    """Return the megabytes of memory this process holds now (Linux)."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def show(title: str, rows: Iterable[tuple[str, str, str, bool | None]]) -> bool:
    """Print rows of (what, measured, asked, met; None where nothing was asked); return whether all were met."""
    print(f"\n{title}")
    met = True
    for what, measured, asked, good in rows:
        mark = "" if good is None else ("met" if good else "NOT MET")
        print(f"  {what:<66} {measured:>14}   {asked:<22} {mark}")
        met = met and good is not False
    return met
