"""Question marks that ask, and those that stand for digits nobody can read."""

import pytest

from bot.emphasis import without_emphasis
from knowledge.tokens import find


@pytest.mark.parametrize("text", ["number K 204 117??", "K204117???", "K204117?!?", "is it K204117 ??", "K204117？？"])
def test_marks_behind_a_whole_number_only_ask(knowledge, text):
    (token,) = find(without_emphasis(text, knowledge.names), knowledge.names).tokens
    assert token.serial == "K204117"


@pytest.mark.parametrize("text", ["K 2041??", "K204?17 how old?", "K 204 1?? I can't read", "how old? K204117", "??"])
def test_marks_that_a_number_needs_and_single_ones_stay(knowledge, text):
    assert without_emphasis(text, knowledge.names) == text


@pytest.mark.parametrize(("text", "serial"), [("45210??", "45210"), ("how old is 45210???", "45210")])
def test_marks_behind_a_short_number_of_a_known_shape_only_ask(knowledge, text, serial):
    """Without the shapes that are known they might be two digits of a number of seven."""
    (token,) = find(without_emphasis(text, knowledge.names), knowledge.names).tokens
    assert token.serial == serial
    assert find(text, knowledge.names).tokens[0].serial != serial
