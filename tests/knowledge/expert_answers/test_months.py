"""Words for months in sentences."""

import pytest

from knowledge.expert_answers.months import month_number


@pytest.mark.parametrize(("word", "month"), [("March", 3), ("Sept.", 9), ("mar", 3), ("août", 8), ("Dez", 12)])
def test_whole_names_and_common_short_forms_are_months(word, month):
    assert month_number(word) == month


@pytest.mark.parametrize("word", ["list", "lip", "set", "decem", "Stine"])
def test_words_that_a_month_only_begins_with_are_none(word):
    assert month_number(word) is None
