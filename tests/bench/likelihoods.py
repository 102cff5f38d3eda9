"""The table of likelihoods, stated and true, for owners of several habits: see tests/knowledge/calibration.py."""

from __future__ import annotations

from tests.bench.measure import show
from tests.knowledge.calibration import Habits, bins, demo, expected_error, stated_and_true

WORTH_SAYING = 0.1
"""Candidates below are so many and so unlikely that they would hide an error of the others."""
HABITS = {
    "published habits": Habits(),
    "half the slips": Habits(slip=0.04),
    "twice the slips": Habits(slip=0.16),
    "zeros dropped by a fifth": Habits(zeros_dropped=0.2),
    "zeros dropped by half": Habits(zeros_dropped=0.5),
    "letters untold by a third": Habits(letter_untold=0.3),
}


def run(runs: int = 6_000) -> bool:
    """Print the tables and return whether what was asked is met."""
    knowledge, rows = demo()
    found = bins(list(stated_and_true(knowledge, rows, runs, Habits())))
    print(f"\nLikelihoods, stated and true, of {runs:,} simulated questions (published habits)")
    print("   candidates     stated       true")
    for one in found:
        print(f"  {one.count:>11,} {one.stated:>10.3f} {one.true:>10.3f}")
    everything = expected_error(found)
    table: list[tuple[str, str, str, bool | None]] = [
        ("published habits, every candidate", f"{everything:.4f}", "at most 0.05", everything <= 0.05)
    ]
    for name, habits in HABITS.items():
        pairs = list(stated_and_true(knowledge, rows, runs, habits))
        error = expected_error(bins(pairs), WORTH_SAYING)
        met = error <= 0.05 if name == "published habits" else None
        table.append((f"{name}, from {WORTH_SAYING}", f"{error:.4f}", "at most 0.05" if met is not None else "", met))
    return show("Expected calibration error", table)
