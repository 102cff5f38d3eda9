"""What is kept of what was said before when more is told."""

import pytest

from bot.remembering import held, is_likely_count, together
from knowledge.said import Facts, Said
from knowledge.tokens import find


@pytest.fixture
def tokens(knowledge):
    return find("K204117", knowledge.names).tokens


@pytest.mark.parametrize(
    ("earlier", "later", "both"),
    [
        (Said(digit_count=7), Said(leading_zero=True), Said(digit_count=7, leading_zero=True)),
        (Said(digit_count=7), Said(leading_zero=False), Said(digit_count=7, leading_zero=False)),
        (Said(digit_count=7, leading_zero=True), Said(digit_count=6), Said(digit_count=6)),
        (Said(digit_count=7, leading_zero=True), Said(leading_zero=False), Said(leading_zero=False)),
        (Said(leading_zero=True), Said(digit_count=6), Said(digit_count=6)),
        (Said(digit_count=6), Said(leading_zero=True), Said(leading_zero=True)),
        (Said(digit_count=7, leading_zero=True), Said(digit_count=7), Said(digit_count=7, leading_zero=True)),
        (Said(makers=("tollgate",)), Said(models=("t9",)), Said(makers=("tollgate",), models=("t9",))),
        (Said(makers=("ambersee",)), Said(models=("t9",)), Said(models=("t9",))),
        (Said(models=("t9",)), Said(makers=("ambersee",)), Said(makers=("ambersee",))),
        (Said(works=("quay",)), Said(makers=("ambersee",)), Said(makers=("ambersee",))),
        (Said(makers=("ambersee",)), Said(works=("quay",)), Said(works=("quay",))),
        (Said(models=("t6",)), Said(prefix="K"), Said(models=("t6",), prefix="K")),
    ],
)
def test_of_two_things_that_cannot_both_be_true_the_later_holds(knowledge, tokens, earlier, later, both):
    assert together(earlier, later, tokens, knowledge) == both


def test_a_supposition_never_replaces_what_was_told(knowledge):
    facts = Facts(Said(prefix="K"), Said(makers=("ambersee",)))
    assert held(Said(makers=("tollgate",)), facts, knowledge) == Said(prefix="K")
    assert held(Said(), facts, knowledge) == Said(makers=("ambersee",), prefix="K")


def test_a_model_of_another_maker_is_not_supposed(knowledge):
    facts = Facts(Said(), Said(models=("t9",)))
    assert held(Said(makers=("ambersee",)), facts, knowledge) == Said()
    assert held(Said(makers=("tollgate",)), facts, knowledge) == Said(models=("t9",))


@pytest.mark.parametrize(("count", "bare", "told"), [(6, 1, 1), (7, 1, 1), (8, 0, 1), (5, 0, 1), (4, 0, 0), (2, 0, 0)])
def test_a_count_is_believed_near_the_lists_and_a_bare_one_in_them(knowledge, tokens, count, bare, told):
    assert is_likely_count(count, True, tokens, knowledge) == bool(bare)
    assert is_likely_count(count, False, tokens, knowledge) == bool(told)
