"""A whole answer, from text to ranked candidates, on big bases; messages that hold no serial; memory."""

from __future__ import annotations

import gc
import random
from typing import Any

from knowledge.base import Knowledge
from knowledge.candidates import rank
from knowledge.said import hear
from knowledge.tokens import find
from tests.bench.bases import BigPack
from tests.bench.measure import Times, each, resident, show

NO_DIGITS = (
    "Lovely machine, and what a fine condition the decals are in! I would take it to someone who knows about the "
    "motor before plugging it in, and then enjoy it for years, as my mother did with hers, sewing curtains."
)[:200]
THREE_NUMBERS = "Sold it for 120 euro at the fair on 8.1.2021, call me on 01632 960123 if you want the other one"


def texts(knowledge: Knowledge, count: int) -> list[object]:
    """Return questions about numbers that lie in blocks, a third of them typed with a slip or a dropped zero."""
    rng = random.Random(5)
    found: list[object] = []
    for _ in range(count):
        block = knowledge.blocks.block(rng.randrange(len(knowledge.blocks)))
        digits = block.first
        if rng.random() < 1 / 3:
            digits = digits.lstrip("0") if digits[0] == "0" else digits[:2] + digits[3] + digits[2] + digits[4:]
        found.append(f"My aunt left me this machine, serial number {block.prefix}{digits}, how old is it please?")
    return found


def ranked(text: object, knowledge: Knowledge) -> list[Any]:
    """Do what an answer does from its text to the ranked candidates."""
    found = find(str(text), knowledge.names)
    said = hear(str(text), knowledge.names, found)
    return [rank(token, place, knowledge, said) for place, token in enumerate(found.tokens)]


def run(size: int, small: int) -> bool:
    """Print the table and return whether what was asked is met."""
    empty = Knowledge.of([])
    ranked("serial K204117", empty)
    gc.collect()
    before = resident()
    big = Knowledge.of([BigPack(size)])
    big.prepare()
    gc.collect()
    memory = resident() - before
    little = Knowledge.of([BigPack(small)])
    little.prepare()
    at_big = each(lambda text: ranked(text, big), texts(big, 2_000))
    at_small = each(lambda text: ranked(text, little), texts(little, 2_000))
    asked = texts(big, 300)
    parts = (
        each(lambda text: find(str(text), big.names), asked),
        each(lambda text: hear(str(text), big.names, find(str(text), big.names)), asked),
    )
    silent = each(lambda text: find(str(text), big.names), [NO_DIGITS] * 2_000)
    others = each(lambda text: find(str(text), big.names), [THREE_NUMBERS] * 1_000)
    ratio = at_big.median / at_small.median
    return show(
        f"A whole answer, from text to ranked candidates, at {size:,} blocks",
        [
            ("median", _ms(at_big.median), "at most 1 ms", at_big.median <= 1e-3),
            ("99th percentile", _ms(at_big.percentile(0.99)), "at most 3 ms", at_big.percentile(0.99) <= 3e-3),
            (f"median / median at {small:,} blocks", f"{ratio:.2f}", "at most 1.5", ratio <= 1.5),
            ("of this: finding the tokens", _ms(parts[0].median), "", None),
            ("of this: hearing what else is said", _ms(parts[1].median - parts[0].median), "", None),
            *_passing(silent, others),
            ("memory above an empty base", f"{memory:.0f} MB", "at most 150 MB", memory <= 150),
        ],
    )


def _passing(silent: Times, others: Times) -> list[tuple[str, str, str, bool | None]]:
    return [
        ("200 characters without digits passed over", _us(silent.median), "at most 10 us", silent.median <= 10e-6),
        (
            "three numbers that are no serials passed over",
            _us(others.median),
            "at most 300 us",
            others.median <= 300e-6,
        ),
    ]


def _ms(seconds: float) -> str:
    return f"{1e3 * seconds:.3f} ms"


def _us(seconds: float) -> str:
    return f"{1e6 * seconds:.1f} us"
