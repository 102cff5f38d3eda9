"""The people of the simulated group: owners who type numbers with mistakes, and experts who know most of the machines.

Whatever they say is put into sentences like those that people write; the program gets nothing but these sentences.
How often which mistake is made stands in tests/knowledge/calibration.py, with its source.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.registers import BlockRow
from tests.knowledge.calibration import Habits, Number, typed

KNOWS_THE_MAKER, KNOWS_THE_MODEL = 0.6, 0.25
"""Assumed: shares of the owners who name the maker, and the model (rightly), beside the number."""
LOOKS_AGAIN = 0.8
"""Assumed: the share of owners who go and look when they are asked something back; the others cannot say."""
EXPERTS_KNOW = 0.85
"""Assumed: the share of the machines about which an expert of the group finds something out."""

_QUESTIONS = (
    "{number}, how old is it?", "Hi all, the number is {number}. When was it made?", "What do I have here? {number}",
    "my gran's machine says {number}, can anybody date it?", "How old is a machine with serial number {number}?",
    "Bought this one on Saturday, {number} on the bed. Age?", "serial {number}, year please", "{number} ?",
)  # fmt: skip
_SETTLING = (
    "{number}: {model}, {date}, by the ledger", "{model}, {date}. The number is {number}, see the list of the works.",
    "It is {number}. {model}, {date}; there is a receipt in the drawer.", "{number} stamped, so {model}, {date}",
    "{number}, {date}, see ledger p. {page}",
)  # fmt: skip
_CANNOT = ("I don't know", "no idea, sorry", "I can't tell")


@dataclass(frozen=True, slots=True)
class Machine:
    """One machine as it is: its number, and the block it is of."""

    number: Number
    block: BlockRow
    maker: str

    @property
    def serial(self) -> str:
        return "".join(self.number)


def machine(rng: random.Random, rows: Sequence[BlockRow], knowledge: Knowledge) -> Machine:
    """Draw a machine: first its block, each alike, for what members own is no fair sample of what was made."""
    row = rng.choice(rows)
    number = str(rng.randint(int(row.first), int(row.last)))
    width = len(row.first) if len(row.first) == len(row.last) else 0
    return Machine((row.prefix, number.zfill(width), row.suffix), row, knowledge.maker_of(row.register))


def question(rng: random.Random, one: Machine, knowledge: Knowledge, habits: Habits) -> tuple[str, bool]:
    """Return what an owner writes, and whether the number in it is just as it is stamped."""
    told = typed(rng, one.number, habits)
    words = [rng.choice(_QUESTIONS).format(number=_written(rng, told))]
    if rng.random() < KNOWS_THE_MAKER:
        words.append(f"It is {_article(knowledge.makers[one.maker].name)}.")
    if one.block.model and rng.random() < KNOWS_THE_MODEL:
        words.append(f"I think it is {_article(knowledge.models[one.block.model].name)}.")
    return " ".join(words), told == one.number


def _written(rng: random.Random, number: Number) -> str:
    prefix, digits, suffix = number
    space = rng.choice(("", "", " ", "-"))
    return f"{prefix}{space if prefix else ''}{digits}{' ' if suffix and space else ''}{suffix}"


def _article(name: str) -> str:
    return f"{'an' if name[:1] in 'AEIOUaeiou' else 'a'} {name}"


def answer_to(rng: random.Random, one: Machine, choices: Sequence[str], about: str, knowledge: Knowledge) -> str:
    """Return what an owner says to a question back: what is true of the machine, or that they cannot say."""
    if rng.random() >= LOOKS_AGAIN:
        return rng.choice(_CANNOT)
    prefix, digits, suffix = one.number
    truth = {
        "digits": f"{len(digits)} digits",
        "zero": "yes, it starts with a zero" if digits.startswith("0") else "no zero in front",
        "letter": f"there is {_article(prefix)} in front" if prefix else "no letter in front",
        "maker": knowledge.makers[one.maker].name,
        "model": knowledge.models[one.block.model].name if one.block.model else "I can't tell",
        "serial": f"{prefix}{digits}{suffix}",
    }
    right = [choice for choice in choices if one.serial == choice.replace(" ", "").upper()]
    return right[0] if right else truth.get(about, f"It says {prefix} {digits} {suffix}".strip())


def settling(rng: random.Random, one: Machine, knowledge: Knowledge) -> str | None:
    """Return what an expert writes about a machine, None when nobody finds anything out."""
    if rng.random() >= EXPERTS_KNOW:
        return None
    model = knowledge.models[one.block.model].name if one.block.model else ""
    pattern = rng.choice([text for text in _SETTLING if model or "{model}" not in text])
    return pattern.format(number=one.serial, model=model, date=when(one), page=rng.randrange(1, 300))


def when(one: Machine) -> str:
    """Return the date of a machine as people say it."""
    return edtf.in_words(edtf.parse(one.block.date))
