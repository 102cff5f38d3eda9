"""The sentences of a reply."""

import pytest

from bot.replies.words import percent, short_answer
from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.packs import load
from knowledge.shipped import folders


@pytest.mark.parametrize(
    ("likelihood", "words"),
    [(0, "under 1%"), (0.004, "under 1%"), (0.01, "1%"), (0.5, "50%"), (0.99, "99%"), (0.995, "over 99%")],
)
def test_a_likelihood_is_never_nothing_and_never_certain(likelihood, words):
    assert percent(likelihood) == words


def short(knowledge, text):
    return " ".join(short_answer(answer(text, knowledge), knowledge))


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("K204117", "K204117 has 6 digits."),
        ("K0204117", "K0204117 has 7 digits, the first a zero."),
        ("45000 on the machine", "45000 has 5 digits."),
        ("serial K2041?7", "K2041?7 has 6 digits, not all of them readable."),
        ("serial X999999999", "X999999999 has 9 digits."),
        ("K204117, seven digits", "You typed 6 digits in K204117, and say that 7 are stamped."),
    ],
)
def test_the_digits_are_always_counted(knowledge, text, count):
    assert short(knowledge, text).startswith(count)


def test_every_digit_of_a_date_code_is_counted():
    knowledge = Knowledge.of([load(folder) for folder in folders()])
    assert short(knowledge, "R237V20123").startswith("R237V20123 has 8 digits.")


def test_a_second_likely_dating_is_named_with_its_reading(knowledge):
    assert "It could also be K0204117, with the leading zeros put back:" in short(knowledge, "K204117")


def test_an_allocation_is_not_called_a_date_of_manufacture(knowledge):
    assert "allocated 2 March 1890" in short(knowledge, "K204117")
    assert "made in 1890" in short(knowledge, "45000, an Ambersee")


def test_a_number_in_no_list_is_said_to_be_in_none(knowledge):
    assert "No list known here has it" in short(knowledge, "serial X999999999")


def test_patents_and_designs_give_only_the_earliest_date():
    knowledge = Knowledge.of([load(folder) for folder in folders()])
    patent = short(knowledge, "US patent 1,234,567")
    assert "not before 1917" in patent
    assert "no serial number" in patent
    assert "source:" in patent


def test_a_text_without_a_number_says_what_was_passed_over_and_what_to_type(knowledge):
    text = short(knowledge, "please call 01632 960123")
    assert "01632 960123 (a telephone number)" in text
    assert "every zero" in text


def test_no_price_is_ever_named_and_that_is_said(knowledge):
    assert "worth I do not tell" in short(knowledge, "K204117, what is it worth?")
    assert "worth" not in short(knowledge, "K204117, how old is it?")


def test_many_numbers_do_not_make_many_paragraphs(knowledge):
    numbers = ", ".join(f"K20{place:04}" for place in range(1000, 1030))
    assert len(short_answer(answer(numbers, knowledge), knowledge)) <= 6
