"""Digits that cannot be read, or only guessed at."""

from __future__ import annotations

import pytest

from knowledge.tokens import find
from tests.knowledge.tokens.sample_names import MANY_SHAPES

DOUBTFUL = [
    ("K20x117, the x is where I can't read it", "K20?117"),
    ("K20X117 (X = illegible)", "K20?117"),
    ("K20x11x, x for unreadable digits", "K20?11?"),
    ("serial 31x842, the third is worn away", "31?842"),
    ("K2xxx17, three digits are gone", "K2???17"),
    ("K20411[7], the last one is a guess", "K204117"),
    ("K20411[7]", "K204117"),
    ("K20411(7)", "K204117"),
    ("K20411(7?)", "K204117"),
    ("K2041(1)7", "K204117"),
    ("K[2]04117", "K204117"),
    ("K20411? last digit 7 or 1", "K20411?"),
    ("K no. 204117", "K204117"),
    ("K 2???? 17", "K2????17"),
    ("K 2?? ??7", "K2????7"),
    ("K 20? ?17", "K20??17"),
    ("K ?04 117", "K?04117"),
    ("K 204 1??", "K2041??"),
    ("K 204-1_7", "K2041?7"),
    ("K20-?17", "K20?17"),
    ("K 2_4 1_7", "K2?41?7"),
    ("K204 ***", "K204???"),
    ("K204__7", "K204??7"),
    ("318?42", "318?42"),
    ("31884? is the number, the last digit is worn", "31884?"),
    ("3188?? on the bed, last two unreadable", "3188??"),
    ("??8842 the first two gone", "??8842"),
    ("K2O4?l7", "K204?17"),
    ("K204117??", "K204117"),
    ("is it K204117?", "K204117"),
    ("K204I17", "K204117"),
    ("G 50?82 16", "G50?8216"),
    ("F 85??61 - two are under chrome", "F85??61"),
    ("numéro 31?842, chiffre illisible", "31?842"),
    ("Nummer 31x842, x ist unleserlich", "31?842"),
    ("номер 31?842", "31?842"),
]


@pytest.mark.parametrize(("message", "serials"), DOUBTFUL)
def test_a_doubtful_digit_is_kept_as_one(message: str, serials: str) -> None:
    assert [token.serial for token in find(message, MANY_SHAPES).tokens] == serials.split()
