"""`python -m tests.simulation`: a year of a group, printed by month. Takes a minute or two."""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from tests.simulation.year import pass_a_year


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.simulation", description=__doc__)
    parser.add_argument("--questions", type=int, default=3_000)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        year = pass_a_year(Path(folder), arguments.questions, arguments.seed)
    print("\n".join(year.lines()))
    for text in year.repeated[:10]:
        print(f"asked again though settled: {text}")


main()
