"""How soon the first answer is there: from a knowledge base of 100,000 allocations, and from the shipped packs."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.bench.measure import Times, show

FIRST_ANSWER = """
import sys, time
from pathlib import Path
from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.store import open_store
begun = time.perf_counter()
store = open_store(Path(sys.argv[1]), read_only=True)
knowledge = Knowledge.of([store.source(name) for name in store.pack_names()])
found = answer("serial A204117, how old is it?", knowledge)
assert found.candidates
print(time.perf_counter() - begun)
"""
RUNS = 7


def run(size: int) -> bool:
    """Print the table and return whether what was asked is met."""
    from knowledge.store import open_store
    from tests.bench.bases import written

    with tempfile.TemporaryDirectory() as folder:
        base = Path(folder, "big.sqlite")
        open_store(base, create=True).save_pack(written(size))
        first = Times(tuple(float(_output("-c", FIRST_ANSWER, str(base))) for _ in range(RUNS)))
    whole = Times(tuple(_seconds("-m", "bot", "ask", "K 0 204 117, how old?") for _ in range(RUNS)))
    json = Times(tuple(_seconds("-m", "bot", "ask", "--json", "K 0 204 117, how old?") for _ in range(RUNS)))
    bare = Times(tuple(_seconds("-c", "pass") for _ in range(RUNS)))
    return show(
        "The first answer",
        [
            (f"after the imports, {size:,} allocations", f"{first.median:.2f} s", "at most 0.5 s", first.median <= 0.5),
            (
                "bedstamp ask as a whole process, shipped packs",
                f"{whole.median:.2f} s",
                "at most 0.6 s",
                whole.median <= 0.6,
            ),
            ("the same with --json", f"{json.median:.2f} s", "at most 0.6 s", json.median <= 0.6),
            ("python alone", f"{bare.median:.2f} s", "", None),
        ],
    )


def _output(*arguments: str) -> str:
    return subprocess.run([sys.executable, *arguments], check=True, capture_output=True, text=True).stdout


def _seconds(*arguments: str) -> float:
    begun = time.perf_counter()
    _output(*arguments)
    return time.perf_counter() - begun
