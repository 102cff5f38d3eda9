"""Whether the stated likelihoods hold: owners copy numbers off machines with mistakes, and we see who was right.

A machine is drawn, from a register (each number alike) or from outside all registers; its owner types the number with
the mistakes people make; every candidate's likelihood is compared with the share of those that were the machine.

Source of the mistakes: Verhoeff, Error Detecting Decimal Codes (1969), as reported in later papers: of all errors 60 to
95 % are single digits (74 here), 10 to 20 % an omitted or added digit (8 + 8 here), 10 to 20 % swapped neighbours (10
here); twin, jump and phonetic errors, about 1 % each, are left out. How often a number is copied with an error at all,
zeros dropped and letters not told are assumptions: `Habits` has them, so that owners of other habits can be tried.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from knowledge.base import Knowledge
from knowledge.candidates import Candidate, rank
from knowledge.packs import load
from knowledge.packs.tables import Pack, Table
from knowledge.registers import BlockRow, Register, allocations, year_starts
from knowledge.said import Said
from knowledge.shipped import folders
from knowledge.tokens.nouns import SerialToken
from knowledge.weights import LOOK_ALIKES

Number = tuple[str, str, str]
"""Prefix, digits, suffix."""


@dataclass(frozen=True, slots=True)
class Habits:
    """How often owners make a mistake; shares of all numbers copied, except `kinds`: shares of the slips."""

    slip: float = 0.08
    zeros_dropped: float = 0.35
    letter_untold: float = 0.15
    look_alike: float = 0.8
    outside: float = 0.06
    kinds: tuple[tuple[str, float], ...] = (("single", 0.74), ("omitted", 0.08), ("added", 0.08), ("swapped", 0.10))


@dataclass(frozen=True, slots=True)
class Bin:
    """Candidates of like likelihood: how many there were, what was stated, what came true."""

    count: int
    stated: float
    true: float


Demo = tuple[Knowledge, list[BlockRow]]


def demo() -> Demo:
    """Return the demo pack without its date codes, for the machines drawn are those of blocks, and its blocks."""
    shipped = load(next(folder for folder in folders() if folder.name == "demo"))
    return _blocks_of(Pack.of("demo", *(table for name, table in shipped.tables.items() if name != "date-codes")))


def with_and_without_zeros() -> Demo:
    """Return a register of as many numbers that begin with a zero as of others, and its blocks.

    Without its zeros each of the former looks like one of the latter, so that all depends on how often zeros go lost.
    """
    firsts = [*(f"{first:07}" for first in range(1, 300_000, 25_000)), *map(str, range(200_001, 500_000, 25_000))]
    blocks = {
        "register": ["list"] * len(firsts),
        "first": firsts,
        "last": [str(int(first) + 24_999).zfill(len(first)) for first in firsts],
        "date": [str(1880 + year) for year in range(len(firsts))],
    }
    register = Table.of("registers", {"register": ["list"], "maker": ["we"], "kind": ["allocations"]})
    return _blocks_of(Pack.of("zeros", register, Table.of("allocations", blocks)))


def _blocks_of(pack: Pack) -> Demo:
    knowledge = Knowledge.of([pack])
    rows = [
        BlockRow(*row)
        for kind in (allocations, year_starts)
        for row in kind.blocks(pack, _of_kind(knowledge.registers, kind.KIND))
    ]
    return knowledge, rows


def _of_kind(registers: Mapping[str, Register], kind: str) -> dict[str, Register]:
    return {id_: register for id_, register in registers.items() if register.kind == kind}


def machine(rng: random.Random, rows: Sequence[BlockRow], habits: Habits) -> tuple[Number, BlockRow | None]:
    """Draw a machine: a number of a block, or (with None) one of a maker nobody listed, whose numbers look the same."""
    row = rng.choices(rows, weights=[int(one.last) - int(one.first) + 1 for one in rows])[0]
    same_width = len(row.first) == len(row.last)
    if rng.random() < habits.outside / (1 + habits.outside):
        number = str(rng.randrange(1, 10 ** len(row.last)))
        return (row.prefix, number.zfill(len(row.last)) if same_width else number, row.suffix), None
    number = str(rng.randint(int(row.first), int(row.last)))
    return (row.prefix, number.zfill(len(row.first)) if same_width else number, row.suffix), row


def typed(rng: random.Random, number: Number, habits: Habits) -> Number:
    """Return what an owner types for a stamped number."""
    prefix, digits, suffix = number
    if digits[0] == "0" and rng.random() < habits.zeros_dropped:
        digits = digits.lstrip("0") or "0"
    if prefix and rng.random() < habits.letter_untold:
        prefix = ""
    if rng.random() < habits.slip:
        kinds, shares = zip(*habits.kinds, strict=True)
        digits = slipped(rng, digits, rng.choices(kinds, weights=shares)[0], habits)
    return prefix, digits, suffix


def slipped(rng: random.Random, digits: str, kind: str, habits: Habits) -> str:
    """Return the digits with one slip."""
    place = rng.randrange(len(digits))
    if kind == "single":
        right = digits[place]
        near = rng.random() < habits.look_alike
        wrong = rng.choice([d for d in "0123456789" if d != right and (d in LOOK_ALIKES[right]) == near])
        return digits[:place] + wrong + digits[place + 1 :]
    if kind == "omitted" and len(digits) > 1:
        return digits[:place] + digits[place + 1 :]
    if kind == "added":
        extra = digits[place] if rng.random() < 0.7 else rng.choice("0123456789")
        return digits[:place] + extra + digits[place:]
    pair = digits[place : place + 2]
    return digits[:place] + pair[::-1] + digits[place + 2 :]


def stated_and_true(
    knowledge: Knowledge, rows: Sequence[BlockRow], runs: int, habits: Habits, seed: int = 1
) -> Iterator[tuple[float, bool]]:
    """Yield, for every candidate of `runs` questions and for 'none of these', its likelihood and whether it was so."""
    rng = random.Random(seed)
    for _ in range(runs):
        number, row, token = question(rng, rows, habits)
        candidates = rank(token, 0, knowledge, Said())
        was = [_is(one, number, row) for one in candidates]
        yield from ((one.likelihood, true) for one, true in zip(candidates, was, strict=True))
        yield max(0.0, 1 - sum(one.likelihood for one in candidates)), not any(was)


def question(
    rng: random.Random, rows: Sequence[BlockRow], habits: Habits
) -> tuple[Number, BlockRow | None, SerialToken]:
    """Draw a machine and what its owner types."""
    number, row = machine(rng, rows, habits)
    prefix, digits, suffix = typed(rng, number, habits)
    text = prefix + digits + suffix
    return number, row, SerialToken(text, 0, len(text), prefix, digits, suffix, True)


def _is(one: Candidate, number: Number, row: BlockRow | None) -> bool:
    """Tell whether a candidate is the machine. A dating by the second list is right for what no block has."""
    same = (one.reading.prefix, one.reading.digits, one.reading.suffix) == number
    if row is None or one.kind == "prefix":
        return same and row is None and one.kind == "prefix"
    return same and (one.first, one.last) == (row.first, row.last)


def bins(pairs: Sequence[tuple[float, bool]], count: int = 10) -> list[Bin]:
    """Sort stated likelihoods into `count` equal intervals of 0 to 1; empty ones are left out."""
    sorted_in: list[list[tuple[float, bool]]] = [[] for _ in range(count)]
    for stated, true in pairs:
        sorted_in[min(count - 1, int(stated * count))].append((stated, true))
    return [
        Bin(len(one), sum(stated for stated, _ in one) / len(one), sum(true for _, true in one) / len(one))
        for one in sorted_in
        if one
    ]


def expected_error(found: Sequence[Bin], from_: float = 0.0) -> float:
    """Return the expected calibration error: the mean of |stated - true| over candidates stated at least `from_`."""
    counted = [one for one in found if one.stated >= from_]
    return sum(one.count * abs(one.stated - one.true) for one in counted) / sum(one.count for one in counted)
