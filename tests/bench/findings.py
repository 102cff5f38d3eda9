"""What ten thousand findings cost: a whole answer on a big base, and reading all knowledge anew after a change."""

from __future__ import annotations

import random
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from knowledge.base import Knowledge
from knowledge.database import open_database, transaction
from knowledge.findings import EVIDENCE, Finding
from knowledge.migrations import KNOWLEDGE
from knowledge.store import Store
from tests.bench.answers import ranked, texts
from tests.bench.bases import BigPack, written
from tests.bench.measure import each, in_turns, show

COUNT = 10_000


def made(knowledge: Knowledge, count: int = COUNT) -> list[Finding]:
    """Return findings on numbers of the base, with a date, a model or both."""
    rng = random.Random(7)
    settled = datetime(2026, 11, 25, tzinfo=UTC)
    found = []
    for at in range(count):
        block = knowledge.blocks.block(rng.randrange(len(knowledge.blocks)))
        digits = str(rng.randint(int(block.first), int(block.last))).zfill(len(block.first))
        date, model = rng.choice(((block.date[:4], block.model), (block.date[:4], ""), ("", block.model)))
        found.append(
            Finding(f"{at:032x}", block.prefix, digits, "", "we", model, "", date, "", rng.choice(EVIDENCE), "",
                    "expert 1", settled, at)
        )  # fmt: skip
    return found


def run(size: int, stored: int = 100_000) -> bool:
    """Print the table and return whether what was asked is met."""
    plain = Knowledge.of([BigPack(size)])
    findings = made(plain)
    knowing = Knowledge.of([BigPack(size)], findings)
    for knowledge in (plain, knowing):
        knowledge.prepare()
    asked = texts(plain, 2_000)
    settled: list[object] = [f"My aunt left me this machine, serial number {one.serial}" for one in findings[:2_000]]
    bare = in_turns(
        {"without": lambda text: ranked(text, plain), "with": lambda text: ranked(text, knowing)},
        {"without": asked[:500], "with": asked[:500]},
    )
    others, known = each(lambda text: ranked(text, knowing), asked), each(lambda text: ranked(text, knowing), settled)
    ratio, again = bare["with"] / bare["without"], _read_anew(stored)
    return show(
        f"{COUNT:,} findings beside {size:,} blocks",
        [
            ("any number: median", f"{1e3 * others.median:.3f} ms", "at most 1 ms", others.median <= 1e-3),
            ("a number with a finding: median", f"{1e3 * known.median:.3f} ms", "at most 1 ms", known.median <= 1e-3),
            ("time of an answer / without findings", f"{ratio:.2f}", "at most 1.3", ratio <= 1.3),
            (f"reading all anew / without findings, {stored:,} blocks", f"{again:.2f}", "at most 2", again <= 2),
        ],
    )


def _read_anew(size: int) -> float:
    """Return the time to read a stored base with findings beside that without; the better of three each."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "base.sqlite")
        database = open_database(path, KNOWLEDGE, create=True)
        with Store(path, database, 5) as store:
            store.save_pack(written(size))
            with transaction(database):
                for one in made(Knowledge.of(store.sources())):
                    store.add_finding(one)
            without, with_ = [], []
            for _ in range(3):
                begun = time.perf_counter()
                Knowledge.of(store.sources())
                without.append(time.perf_counter() - begun)
                begun = time.perf_counter()
                Knowledge.of(store.sources(), store.findings())
                with_.append(time.perf_counter() - begun)
    return min(with_) / min(without)
