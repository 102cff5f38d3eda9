"""Whether likelihoods come true after learning from settled cases, for owners whose habits are not as assumed.

Questions are drawn as in calibration.py. They become cases by the rules of the answer itself: when it gives a reason
for one, or asks back. Experts settle a share of them. They find the stamped number, and the maker: a machine in no
register is of a maker that nobody listed. The error is then measured over new questions of all kinds, easy ones too.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from knowledge.answer import answer_found
from knowledge.base import Knowledge
from knowledge.mistakes import Seen, fit
from knowledge.registers import BlockRow
from knowledge.said import Said
from knowledge.seen_mistakes import mistake_of
from knowledge.tokens.nouns import Found
from tests.knowledge.calibration import (
    Demo,
    Habits,
    bins,
    demo,
    expected_error,
    question,
    stated_and_true,
    with_and_without_zeros,
)

WORTH_SAYING = 0.1
"""Candidates below are so many and so unlikely that they would hide an error of the others."""
SETTLED = 0.6
"""The share of cases that experts can settle."""
DRAWS = 4
"""What a few cases teach is left to chance: of the cases up to so many small numbers are taken, and the mean told."""

Owners = tuple[Callable[[], Demo], Habits]
OTHERS: dict[str, Owners] = {
    "letters untold by 40 %": (demo, Habits(letter_untold=0.4)),
    "twice the slips": (demo, Habits(slip=0.16)),
    "all three more often": (demo, Habits(slip=0.16, zeros_dropped=0.6, letter_untold=0.4)),
    "zeros dropped by 60 %": (with_and_without_zeros, Habits(zeros_dropped=0.6)),
    "zeros dropped by 10 %": (with_and_without_zeros, Habits(zeros_dropped=0.1)),
}
CAREFUL: dict[str, Owners] = {"half the slips": (demo, Habits(slip=0.04))}
AS_ASSUMED: dict[str, Owners] = {
    "as assumed": (demo, Habits()),
    "as assumed, with and without zeros": (with_and_without_zeros, Habits()),
}


def settled(knowledge: Knowledge, rows: Sequence[BlockRow], cases: int, habits: Habits, seed: int) -> Iterator[Seen]:
    """Yield what so many settled cases show; those that show nothing are among the number."""
    rng = random.Random(seed)
    while cases:
        number, row, token = question(rng, rows, habits)
        answer = answer_found(token.text, Found((token,)), Said(), knowledge)
        if (answer.case or answer.ask_back) and rng.random() < SETTLED:
            cases -= 1
            maker = knowledge.maker_of(row.register) if row else "unlisted"
            seen = mistake_of(token, "".join(number), knowledge, maker=maker)
            if seen:
                yield seen


def errors(owners: Owners, counts: Sequence[int], runs: int, seed: int = 2) -> list[float]:
    """Return the expected calibration error with nothing learned, then after each number of settled cases.

    `runs` is the number of new questions they are asked.
    """
    made, habits = owners
    knowledge, rows = made()
    seen = list(settled(knowledge, rows, max(counts), habits, seed))
    found = [_error(knowledge, rows, habits, runs)]
    for count in counts:
        draws = [seen[start : start + count] for start in range(0, len(seen), count)][:DRAWS]
        whole = [draw for draw in draws if len(draw) == count] or draws[:1]
        known = [replace(knowledge, learned=fit(draw)) for draw in whole]
        found.append(sum(_error(one, rows, habits, runs) for one in known) / len(known))
    return found


def _error(knowledge: Knowledge, rows: Sequence[BlockRow], habits: Habits, runs: int) -> float:
    pairs = list(stated_and_true(knowledge, rows, runs, habits, seed=99))
    return expected_error(bins(pairs), from_=WORTH_SAYING)
