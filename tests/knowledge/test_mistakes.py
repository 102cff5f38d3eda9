"""Learning from settled cases: factors on the weights of mistakes, from counts and the shares that were expected."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from math import prod

import pytest

from knowledge.mistakes import Learned, Seen, fit, names
from knowledge.weights import LEAST_FACTOR, MISTAKES, MOST_FACTOR, MOST_OFTEN, PRIOR

CLASSES = ("as-typed", "zero-restored", "prefix-missing", "prefix-missing+zero-restored", "digit-misread", "none")


def questions(rng: random.Random, truth: Mapping[str, float], count: int) -> Iterator[Seen]:
    """Draw what could have been, some of it, and what it really was: the factors of `truth` hold."""
    for _ in range(count):
        classes = ["as-typed", *rng.sample(CLASSES[1:], 3)]
        weights = [rng.expovariate(1) * (4 if class_ == "as-typed" else 1) for class_ in classes]
        shares = {class_: weight / sum(weights) for class_, weight in zip(classes, weights, strict=True)}
        true = [share * prod(truth.get(name, 1.0) for name in names(class_)) for class_, share in shares.items()]
        yield Seen(rng.choices(classes, weights=true)[0], shares)


def is_hard(one: Seen) -> bool:
    return one.shares["as-typed"] < 0.6


TRUTH = {"zero-restored": 2.0, "prefix-missing": 0.5, "digit-misread": 3.0}


def test_nothing_is_learned_from_no_cases() -> None:
    assert not fit([])
    assert fit([]) == Learned()
    assert Learned().factor(("zero-restored", "none")) == 1.0


def test_the_true_factors_are_found_from_many_cases() -> None:
    learned = fit(questions(random.Random(1), TRUTH, 4_000))
    for name in ("zero-restored", "prefix-missing", "digit-misread", "none"):
        assert learned.factor((name,)) == pytest.approx(TRUTH.get(name, 1.0), rel=0.12)


def test_that_easy_questions_never_become_cases_does_not_mislead() -> None:
    everything = list(questions(random.Random(2), TRUTH, 8_000))
    cases = [one for one in everything if is_hard(one)]
    learned = fit(cases)

    def rate(seen: list[Seen]) -> float:
        return sum("zero-restored" in names(one.observed) for one in seen) / len(seen)

    assert rate(cases) > 1.2 * rate(everything)
    for name in ("zero-restored", "prefix-missing", "digit-misread", "none"):
        assert learned.factor((name,)) == pytest.approx(TRUTH.get(name, 1.0), rel=0.12)


def test_to_choose_cases_by_what_is_stamped_would_mislead_so_desks_must_not() -> None:
    everything = list(questions(random.Random(3), {}, 4_000))
    learned = fit(one for one in everything if one.observed != "as-typed")
    assert learned.factor(("zero-restored",)) > 2


def test_seen_and_expected_agree_after_learning_but_for_the_prior() -> None:
    cases = list(questions(random.Random(4), TRUTH, 500))
    learned = fit(cases)
    for name, belief in learned.beliefs.items():
        expected = 0.0
        for one in cases:
            weights = {class_: share * learned.factor(names(class_)) for class_, share in one.shares.items()}
            mine = sum(weight for class_, weight in weights.items() if name in names(class_))
            expected += mine / sum(weights.values())
        assert belief.seen + PRIOR.value == pytest.approx(expected + PRIOR.value * belief.factor, rel=0.01)


def test_one_case_hardly_moves_what_is_believed() -> None:
    learned = fit([Seen("zero-restored", {"as-typed": 0.7, "zero-restored": 0.3})])
    assert 1.0 < learned.factor(("zero-restored",)) < 1.1
    assert learned.cases == 1


def test_the_factors_of_two_mistakes_at_once_are_multiplied() -> None:
    learned = fit(questions(random.Random(1), TRUTH, 1_000))
    both = learned.factor(("prefix-missing", "zero-restored"))
    assert both == learned.factor(("prefix-missing",)) * learned.factor(("zero-restored",))


def test_a_case_that_could_be_nothing_else_teaches_nothing() -> None:
    assert not fit([Seen("none-letters", {"none-letters": 1.0})] * 50)


def test_two_mistakes_that_only_appear_side_by_side_stay_near_the_prior_together() -> None:
    """Their ratio is all that such cases tell; the prior holds the rest."""
    shares = {"zero-restored": 0.5, "none": 0.5}
    learned = fit([Seen("zero-restored", shares)] * 60 + [Seen("none", shares)] * 40)
    zero, none = learned.factor(("zero-restored",)), learned.factor(("none",))
    assert 1.3 < zero / none < 1.5
    assert 0.9 < (zero + none) / 2 < 1.1


def test_factors_stay_within_their_bounds_however_onesided_the_cases() -> None:
    shares = {"as-typed": 0.98, "zero-restored": 0.01, "digit-missed": 0.01}
    always = fit([Seen("digit-missed", shares)] * 500)
    assert always.factor(("digit-missed",)) == MOST_FACTOR.value
    assert fit([Seen("zero-restored", shares)] * 500).factor(("zero-restored",)) == pytest.approx(
        MOST_OFTEN.value / MISTAKES["zero-restored"].value
    )
    never = fit([Seen("as-typed", {"as-typed": 0.1, "zero-restored": 0.9})] * 5_000)
    assert never.factor(("zero-restored",)) == LEAST_FACTOR.value


def test_the_counts_are_told_beside_what_is_believed() -> None:
    shares = {"as-typed": 0.7, "zero-restored": 0.2, "prefix-missing+zero-restored": 0.1}
    learned = fit([Seen("prefix-missing+zero-restored", shares), Seen("as-typed", shares)])
    assert learned.cases == 2
    assert learned.beliefs["zero-restored"].seen == learned.beliefs["prefix-missing"].seen == 1
    assert learned.beliefs["zero-restored"].expected == pytest.approx(0.6)
    assert learned.beliefs["prefix-missing"].expected == pytest.approx(0.2)
    assert "as-typed" not in learned.beliefs
