"""Likelihoods come true beside findings: what experts have seen is asked about again, others for the first time.

A machine is drawn by the weights of knowledge/weights.py (each number of a block one machine, some of no register that
look just like them, and those that experts have seen SEEN_AGAIN times as often), its owner types the number with the
mistakes of tests/knowledge/calibration.py, and each candidate's likelihood is compared with the share that it was.
As SEEN_AGAIN says, owners of a machine that was seen do not type another listed one's number more often than others.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from knowledge.base import Knowledge
from knowledge.candidates import Candidate, rank
from knowledge.findings import EVIDENCE, Finding
from knowledge.said import Said
from knowledge.tokens.nouns import SerialToken
from knowledge.weights import GROUNDS, NONE, SEEN_AGAIN
from tests.knowledge.calibration import Habits, Number, bins, expected_error, typed
from tests.knowledge.small import block, blocks
from tests.knowledge.test_findings import on

NUMBERS = ("K 203001-206000", "K 0203001-0205000", "203001-205000", "L 203001-204000")
Machine = tuple[Number, str]
"""Its number, and the key of the finding on it, 'list' or 'outside'."""


def drawn(rng: random.Random, findings: list[Finding], seen_again: float, count: int) -> list[Machine]:
    """Draw machines: of the blocks, of no register among their numbers, and of the findings."""
    listed = [(number, "list") for row in NUMBERS for number in _numbers(row)]
    machines = listed + [(number, "outside") for number, _ in listed] + [(one.number, one.key) for one in findings]
    weights = [1.0] * len(listed) + [NONE["none"].value] * len(listed)
    weights += [seen_again * GROUNDS[one.kind].value for one in findings]
    return rng.choices(machines, weights=weights, k=count)


def _numbers(row: str) -> Iterator[Number]:
    *prefix, ends = row.split()
    first, last = ends.split("-")
    for number in range(int(first), int(last) + 1):
        yield "".join(prefix), str(number).zfill(len(first)), ""


def knowing(rng: random.Random, count: int) -> tuple[Knowledge, list[Finding]]:
    listed = [number for row in NUMBERS for number in _numbers(row)]
    findings = [
        on("1", key, prefix=prefix, digits=digits, maker="we", kind=rng.choice(EVIDENCE), date="", model="m")
        for key, (prefix, digits, _) in enumerate(rng.sample(listed, count), 1)
    ]
    lists = blocks(*(block(row) for row in NUMBERS))
    lists._learn(findings, ())
    lists.between = Knowledge().between  # what is inferred for other machines is another matter
    return lists, findings


def stated_and_true(share: int, seen_again: float, runs: int = 4_000) -> Iterator[tuple[float, bool]]:
    """Yield each likelihood with whether it came true, where one number of `share` has a finding."""
    rng = random.Random(5)
    knowledge, findings = knowing(rng, 8_000 // share)
    for number, which in drawn(rng, findings, seen_again, runs):
        prefix, digits, suffix = typed(rng, number, Habits())
        text = prefix + digits + suffix
        is_anothers = (prefix, digits, suffix) != number and bool(knowledge.covering(prefix, digits, suffix))
        if is_anothers and which not in ("list", "outside") and rng.random() >= 1 / seen_again:
            continue
        candidates = rank(SerialToken(text, 0, len(text), prefix, digits, suffix, True), 0, knowledge, Said())
        was = [_is(one, number, which) for one in candidates]
        yield from zip((one.likelihood for one in candidates), was, strict=True)
        yield max(0.0, 1 - sum(one.likelihood for one in candidates)), not any(was)


def _is(one: Candidate, number: Number, which: str) -> bool:
    same = (one.reading.prefix, one.reading.digits, one.reading.suffix) == number
    return same and which == (one.rests_on[0] if one.rests_on else "list")


@pytest.mark.parametrize("share", [10, 100, 1_000])
def test_likelihoods_come_true_beside_findings(share: int) -> None:
    found = bins(list(stated_and_true(share, SEEN_AGAIN.value)))
    assert expected_error(found) <= 0.05
    assert expected_error(found, from_=0.1) <= 0.05


@pytest.mark.parametrize("seen_again", [5.0, 100.0])
def test_machines_asked_about_more_or_less_often_do_not_make_them_useless(seen_again: float) -> None:
    found = bins(list(stated_and_true(100, seen_again)))
    assert expected_error(found, from_=0.1) <= 0.10
