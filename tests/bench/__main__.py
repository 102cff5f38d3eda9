"""All ratios of speed and memory, measured side by side in one run: `python -m tests.bench` (about five minutes).

Exit code 1 when something asked for is not met. `--size N` sets the number of allocations of the big base.
"""

from __future__ import annotations

import argparse
import sys

from tests.bench import answers, findings, hearing, inference, likelihoods, lookups, pictures, starts


def main() -> int:
    """Run every table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--size", type=int, default=1_000_000, help="allocations of the big base")
    size = parser.parse_args().size
    met = [
        answers.run(size, small=10_000),
        findings.run(size),
        hearing.run(),
        starts.run(100_000),
        pictures.run(),
        likelihoods.run(),
        inference.run(),
        lookups.run(size),
    ]
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
