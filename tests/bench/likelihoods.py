"""The tables of likelihoods, stated and true, for owners of several habits, and what learning makes of them.

See tests/knowledge/calibration.py and tests/knowledge/learning.py.
"""

from __future__ import annotations

from tests.bench.measure import show
from tests.knowledge.calibration import Habits, bins, demo, expected_error, stated_and_true
from tests.knowledge.learning import AS_ASSUMED, CAREFUL, OTHERS, WORTH_SAYING, errors

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
    met = show("Expected calibration error", table)
    return learning() and met


LEARNED_FROM = (50, 200, 1_000)
HARMLESS = 0.008
"""By so much the error may differ where there was nothing to learn: it is not measured more closely."""


def learning(runs: int = 4_000) -> bool:
    """Print how the error falls with the number of settled cases, and return whether what was asked is met."""
    print(f"\nExpected calibration error from {WORTH_SAYING} after learning from settled cases")
    print(f"  {'owners':<36}{'before':>9}" + "".join(f"{count:>9,}" for count in LEARNED_FROM) + "   asked")
    met = True
    for name, owners in {**OTHERS, **CAREFUL, **AS_ASSUMED}.items():
        before, *after = errors(owners, LEARNED_FROM, runs)
        asked = f"at most {before + HARMLESS:.4f}" if name in AS_ASSUMED else f"the last below {0.85 * before:.4f}"
        good = max(after) <= before + HARMLESS if name in AS_ASSUMED else after[-1] < 0.85 * before
        figures = "".join(f"{error:>9.4f}" for error in (before, *after))
        print(f"  {name:<36}{figures}   {asked:<22} {'met' if good else 'NOT MET'}")
        met = met and good
    return met
