"""How the time of hearing a message grows with its length: ten times the text must not take the square of it."""

from __future__ import annotations

import time

from knowledge.base import Knowledge
from knowledge.names import Names
from knowledge.packs import load
from knowledge.said import hear
from knowledge.shipped import folders
from knowledge.tokens import find
from tests.bench.measure import show

SHORT, LONG = 10_000, 100_000
MOST = 30.0
"""Ten times is straight, a hundred is a square; the rest is room for noise and for caches."""
TEXTS = {
    "one long word": "x",
    "a name without end": "wendelohr",
    "a usual sentence": "my Otrell modell 9 has seven digits and was bought in 1930, not a Hedel. ",
    "names with slips": "Wendelhor Capinerra ",
    "models and no models": "model 9 or 23 model no. - ",
    "signs within a name": "model-",
    "years": "1930 '31 30s 1920-1930 ",
    "zeros and letters": "zero starts with k no letter ",
    "counts of digits": "seven or digits 7 digits ",
    "questions": "where is it? ",
    "letters with many marks": "a\u0301\u0302\u0303",
    "one sign that stands for a sentence": "\ufdfa",
}


def run() -> bool:
    """Print the table and return whether what was asked is met."""
    names = Knowledge.of([load(folder) for folder in folders()]).names
    rows: list[tuple[str, str, str, bool | None]] = []
    for what, unit in TEXTS.items():
        short, long = (_seconds(unit * (length // len(unit)), names) for length in (SHORT, LONG))
        ratio = long / short
        rows.append((f"{what} ({1e3 * long:.0f} ms)", f"{ratio:.1f}", f"at most {MOST:.0f}", ratio <= MOST))
    return show(f"Hearing: time at {LONG:,} characters by time at {SHORT:,}", rows)


def _seconds(text: str, names: Names) -> float:
    nothing = find("", names)
    best = float("inf")
    for _ in range(3):
        begun = time.perf_counter()
        hear(text, names, nothing)
        best = min(best, time.perf_counter() - begun)
    return best
