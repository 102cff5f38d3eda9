"""What a reply to the question back says."""

import pytest

from bot.choices import said_by, understood
from knowledge.answer import answer
from knowledge.ask_back import AskBack
from knowledge.said import Said

DIGITS = AskBack("How many digits?", ("6 digits", "7 digits"), 0, "digits")
ZERO = AskBack("Is the first digit a zero?", ("it starts with zero", "no zero in front"), 0, "zero")
LETTER = AskBack("Which letter?", ("letter K", "letter L", "no letter"), 0, "letter")
MODEL = AskBack("Which model?", ("Model 6", "Model 9", "Model 23"), 0, "model")
MAKER = AskBack("Whose name?", ("Tollgate & Sons", "Ambersee"), 0, "maker")
NUMBER = AskBack("Which is it?", ("K204117", "K0204117"), 0, "number")


@pytest.mark.parametrize(
    ("text", "asked", "said"),
    [
        ("7", DIGITS, Said(digit_count=7)),
        ("7 digits", DIGITS, Said(digit_count=7)),
        ("2", DIGITS, Said(digit_count=7)),
        ("2 digits", DIGITS, Said(digit_count=2)),
        ("8", DIGITS, Said(digit_count=8)),
        ("the first", DIGITS, Said(digit_count=6)),
        ("die zweite", DIGITS, Said(digit_count=7)),
        ("la deuxième", DIGITS, Said(digit_count=7)),
        ("yes", ZERO, Said(leading_zero=True)),
        ("ja", ZERO, Said(leading_zero=True)),
        ("no", ZERO, Said(leading_zero=False)),
        ("нет", ZERO, Said(leading_zero=False)),
        ("no zero in front", ZERO, Said(leading_zero=False)),
        ("it starts with zero", ZERO, Said(leading_zero=True)),
        ("1", ZERO, Said(leading_zero=True)),
        ("K", LETTER, Said(prefix="K")),
        ("it's an L", LETTER, Said(prefix="L")),
        ("no", LETTER, Said(prefix="")),
        ("no letter", LETTER, Said(prefix="")),
        ("the 9", MODEL, Said(models=("t9",))),
        ("Model 23", MODEL, Said(models=("t23",))),
        ("the third one", MODEL, Said(models=("t23",))),
        ("Tollgate", MAKER, Said(makers=("tollgate",))),
        ("it says Ambersee", MAKER, Said(makers=("ambersee",))),
    ],
)
def test_a_reply_is_understood(knowledge, text, asked, said):
    assert understood(text, asked, knowledge) == said


def test_the_number_chosen_is_given_back(knowledge):
    assert understood("the second one", NUMBER, knowledge) == "K0204117"


@pytest.mark.parametrize(
    ("text", "asked"),
    [("yes", DIGITS), ("hmm", DIGITS), ("the seventh", DIGITS), ("maybe", ZERO), ("not the 9", MODEL)],
)
def test_what_answers_nothing_is_not_guessed(knowledge, text, asked):
    assert understood(text, asked, knowledge) is None


def test_every_choice_that_is_offered_can_be_taken_word_for_word(knowledge):
    for text in ("K204117", "204117", "45000", "K20411?", "K3000117"):
        asked = answer(text, knowledge).ask_back
        if asked is None:
            continue
        for choice in asked.choices:
            told = understood(choice, asked, knowledge)
            assert told == choice if asked.about == "number" else told == said_by(choice, asked.about, knowledge)
