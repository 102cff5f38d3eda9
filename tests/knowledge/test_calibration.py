"""The stated likelihoods come true. How machines and their owners are drawn: tests/knowledge/calibration.py."""

from __future__ import annotations

import pytest

from knowledge.base import Knowledge
from knowledge.packs.tables import Pack, Table
from tests.knowledge.calibration import Demo, Habits, bins, demo, expected_error, stated_and_true

WORTH_SAYING = 0.1
"""Candidates below are so many and so unlikely that they would hide an error of the others."""


@pytest.fixture(scope="module")
def blocks_of_the_demo() -> Demo:
    return demo()


def test_likelihoods_come_true_for_owners_with_the_published_habits(blocks_of_the_demo: Demo) -> None:
    found = bins(list(stated_and_true(*blocks_of_the_demo, 3_000, Habits())))
    assert expected_error(found) <= 0.05
    assert expected_error(found, from_=WORTH_SAYING) <= 0.05


@pytest.mark.parametrize(
    "habits",
    [
        Habits(slip=0.04),
        Habits(slip=0.16),
        Habits(zeros_dropped=0.2),
        Habits(zeros_dropped=0.5),
        Habits(letter_untold=0.3),
    ],
    ids=["careful owners", "careless owners", "zeros kept", "zeros dropped", "letters untold"],
)
def test_owners_of_other_habits_do_not_make_the_likelihoods_useless(blocks_of_the_demo: Demo, habits: Habits) -> None:
    found = bins(list(stated_and_true(*blocks_of_the_demo, 1_500, habits)))
    assert expected_error(found, from_=WORTH_SAYING) <= 0.10


def test_the_error_is_seen_when_owners_are_quite_different(blocks_of_the_demo: Demo) -> None:
    found = bins(list(stated_and_true(*blocks_of_the_demo, 1_500, Habits(slip=0.9))))
    assert expected_error(found, from_=WORTH_SAYING) > 0.2


def test_an_empty_table_has_no_likelihoods_to_compare() -> None:
    assert Knowledge.of([Pack.of("empty", Table.of("makers"))]).shapes.series == frozenset()
