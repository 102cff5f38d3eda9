"""Names that are also first names or everyday words: heard where the words beside them make them machines.

The models and makers are invented.
"""

from __future__ import annotations

import pytest

from knowledge.names import Names
from knowledge.said import Said, hear
from knowledge.tokens import find

NAMES = Names(
    shapes=frozenset({("K", 6, "")}),
    makers={"standard": ("standard",), "rapid": ("rapid",), "wendelohr": ("wendelohr",)},
    models={"marthe": ("marthe",), "model ida": ("ida",), "hedel": ("hedel",)},
)


def heard(text: str) -> Said:
    return hear(text, NAMES, find(text, NAMES))


@pytest.mark.parametrize(
    "text",
    [
        "my Marthe K204117",
        "Marthe, K204117",
        "eine Marthe",
        "an old Marhte",
        "it's a Martha",
        "Martha K204117",
        "the model is Marthe",
        "Marthe",
        "ma vieille Marthe",
    ],
)
def test_a_model_is_heard_where_a_machine_is_spoken_of(text: str) -> None:
    assert heard(text).models == ("marthe",)


@pytest.mark.parametrize(
    "text",
    [
        "my aunt Martha left it to me, K204117",
        "Martha's machine says K204117",
        "K204117, thanks, Martha",
        "Hi Martha, how old is K204117?",
        "Martha gave me this, K204117",
        "Marthe gave me this, K204117",
        "K204117. Regards, Martha",
        "Mrs. Marthe has one",
        "meine Oma Marthe hatte K204117",
        "I am asking for Martha",
        "Martha and I found K204117 in the attic",
    ],
)
def test_a_first_name_is_no_model(text: str) -> None:
    assert heard(text).models == ()


@pytest.mark.parametrize("text", ["my Ida, K204117", "a Model Ida", "an old black Ida", "Ida K204117"])
def test_a_model_may_be_named_without_the_word_model(text: str) -> None:
    assert heard(text).models == ("ida",)


@pytest.mark.parametrize("text", ["Ida had it before me, K204117", "K204117\nIda", "my gran Ida's machine, K204117"])
def test_without_it_a_first_name_stays_one(text: str) -> None:
    assert heard(text).models == ()


@pytest.mark.parametrize(
    ("text", "maker"),
    [
        ("a Standard, K204117", "standard"),
        ("my Standard K204117", "standard"),
        ("K204117, it was made by Standard", "standard"),
        ("the brand is standard, K204117", "standard"),
        ("standard K204117", "standard"),
        ("it says Standard on the arm, K204117", "standard"),
        ("Standard", "standard"),
        ("K204117, a Rapid", "rapid"),
        ("meine Nähmaschine heißt Standard", "standard"),
    ],
)
def test_a_maker_called_by_an_everyday_word_is_heard_where_a_name_is_told(text: str, maker: str) -> None:
    assert heard(text).makers == (maker,)


@pytest.mark.parametrize(
    "text",
    [
        "is K204117 the standard shuttle?",
        "does a standard needle fit K204117?",
        "standard, I think, K204117",
        "Das ist der Standard, K204117",
        "That is standard.",
        "it makes a rapid stitch, K204117",
        "Standard needles fit it, K204117",
        "THE STANDARD NEEDLE FITS K204117",
        "a standard machine with K204117 on it",
    ],
)
def test_an_everyday_word_is_no_maker(text: str) -> None:
    assert heard(text).makers == ()


@pytest.mark.parametrize("text", ["Wendelohr", "my wendelohr", "wendelohr again", "is there a manual for Wendelohr?"])
def test_other_names_are_heard_wherever_they_stand(text: str) -> None:
    assert heard(text).makers == ("wendelohr",)
