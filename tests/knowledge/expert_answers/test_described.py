"""Numbers that are told of and not written, and what else would be lost in silence."""

import pytest

from knowledge.answer import answer
from knowledge.expert_answers import NO_ANSWER, About, Understood, understand
from tests.corpus_experts.measure import knowledge

ASKED = "Ottrel K204117, how old is it?"


@pytest.fixture(scope="module")
def of_the_demo():
    """Understand an answer to the question how old K204117 is; K0204117 is another machine."""
    known = knowledge("demo")
    about = About.of(answer(ASKED, known))

    def call(text: str) -> Understood:
        return understand(text, known, about)

    return call


@pytest.mark.parametrize(
    "text",
    ["There is a zero in front", "seven digits, first a zero", "it has a leading zero", "It begins with a zero.",
     "Da steht eine Null davor", "Il y a un zéro devant"],
)  # fmt: skip
def test_a_zero_before_the_number_asked_about_makes_it_the_one_that_has_it(of_the_demo, text):
    assert of_the_demo(text).serial == "K0204117"


@pytest.mark.parametrize("text", ["There is no zero in front", "Is there a zero in front?", "eight digits, zero first"])
def test_a_zero_that_is_denied_or_asked_or_does_not_fit_makes_it_none(of_the_demo, text):
    assert of_the_demo(text).serial == ""


@pytest.mark.parametrize(
    ("text", "shown"),
    [("seven digits, first a zero", "'first a zero'"), ("the list is right", "'the list is right'"),
     ("it is the casting number", "'it is the casting number'"), ("There is a zero in front", "'There is a zero")],
)  # fmt: skip
def test_what_tells_of_the_number_or_a_list_and_is_not_understood_is_shown(understood, text, shown):
    one = understood(text)
    assert one.kind == NO_ANSWER
    assert any(piece.startswith(shown) for piece in one.unclear)


def test_a_book_that_says_otherwise_is_shown(understood):
    assert understood("Model 12, 1911. Unlike what the list says.").unclear == (
        "'Unlike what the list says': nothing to go by",
    )


@pytest.mark.parametrize("text", ["My copy of the book is at home", "I'll be at the archive on Thursday", "page 40"])
def test_talk_about_books_is_not_shown(understood, text):
    assert understood(text).unclear == ()


@pytest.mark.parametrize(
    "text",
    ["One is a Model 12 from 1904, the other is a Lottke from 1926",
     "A100213 is a Model 12 from 1904, B100333 is a 4B from 1911"],
)  # fmt: skip
def test_of_two_machines_in_one_answer_none_is_taken(understood, text):
    one = understood(text)
    assert not one.tells
    assert any("one machine at a time" in piece for piece in one.unclear)
