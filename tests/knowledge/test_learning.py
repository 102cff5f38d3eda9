"""After learning from settled cases the stated likelihoods come true for owners of other habits, too.

How cases come about and the error is measured: tests/knowledge/learning.py.
"""

from __future__ import annotations

import random

import pytest

from knowledge.mistakes import fit
from tests.knowledge.calibration import Habits, demo, question
from tests.knowledge.learning import AS_ASSUMED, CAREFUL, OTHERS, errors, settled


@pytest.mark.parametrize("name", OTHERS)
def test_two_hundred_settled_cases_bring_likelihoods_near_to_other_habits(name: str) -> None:
    before, after = errors(OTHERS[name], (200,), 2_000)
    assert after < 0.75 * before


@pytest.mark.parametrize("name", AS_ASSUMED)
def test_learning_does_no_harm_where_habits_are_as_assumed(name: str) -> None:
    before, after = errors(AS_ASSUMED[name], (200,), 2_000)
    assert after < before + 0.008


def test_cases_are_no_fair_sample_and_mislead_nobody() -> None:
    """Far more of the cases show an untold letter than of all questions; what is learned stays near the truth."""
    knowledge, rows = demo()
    rng = random.Random(7)
    drawn = [question(rng, rows, Habits()) for _ in range(2_000)]
    of_all = sum(bool(number[0]) and not token.prefix for number, _, token in drawn) / len(drawn)
    seen = list(settled(knowledge, rows, 400, Habits(), seed=7))
    of_cases = sum(one.observed.startswith("prefix-missing") for one in seen) / len(seen)
    assert of_cases > 1.5 * of_all
    assert fit(seen).factor(("prefix-missing",)) == pytest.approx(1, abs=0.25)


@pytest.mark.long
@pytest.mark.parametrize("name", OTHERS)
def test_the_more_cases_are_settled_the_better_likelihoods_fit_other_habits(name: str) -> None:
    before, after_50, after_200, after_1000 = errors(OTHERS[name], (50, 200, 1_000), 8_000)
    assert after_50 < 0.95 * before
    assert after_200 < 0.75 * before
    assert after_1000 < 0.6 * before


@pytest.mark.long
@pytest.mark.parametrize("name", AS_ASSUMED)
def test_no_number_of_cases_does_harm_where_habits_are_as_assumed(name: str) -> None:
    before, *after = errors(AS_ASSUMED[name], (50, 200, 1_000), 8_000)
    assert max(after) < before + 0.008


@pytest.mark.long
def test_half_the_slips_are_learned_from_a_thousand_cases() -> None:
    before, after = errors(CAREFUL["half the slips"], (1_000,), 8_000)
    assert after < 0.85 * before
