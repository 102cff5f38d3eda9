"""What is told of the asker's machine, what is only supposed, and what is of other machines."""

from __future__ import annotations

import pytest

from knowledge.names import Names
from knowledge.said import Facts, Said, hear_facts
from knowledge.tokens import find

NAMES = Names(
    shapes=frozenset({("K", 6, "")}),
    makers={"wendelohr": ("wendelohr",)},
    models={"model 9": ("m9",), "hedel": ("hedel",)},
)
WENDELOHR = Said(makers=("wendelohr",))


def facts(text: str) -> Facts:
    return hear_facts(text, NAMES, find(text, NAMES))


@pytest.mark.parametrize(
    "text",
    [
        "it is a Wendelohr",
        "a Wendelohr?",
        "Wendelohr",
        "sorry, an old Wendelohr",
        "It is a Wendelohr. Where is the number?",
        "my gran's machine is a Wendelohr",
        "it also says Wendelohr",
        "My friend says it is a Wendelohr",
        "what year is it? It's a Wendelohr",
        "it's a Wendelohr, isn't it?",
        "Es ist eine Wendelohr.",
        "c'est une Wendelohr",
        "es una Wendelohr",
        "è una Wendelohr",
        "het is een Wendelohr",
        "to jest Wendelohr",
        "это Wendelohr",
        "det är en Wendelohr",
    ],
)
def test_a_statement_tells_of_the_machine(text: str) -> None:
    assert facts(text) == (WENDELOHR, Said())


@pytest.mark.parametrize(
    "text",
    [
        "is it a Wendelohr?",
        "could this be a Wendelohr?",
        "how old is my Wendelohr?",
        "ist es eine Wendelohr?",
        "est-ce une Wendelohr ?",
        "¿es una Wendelohr?",
        "è una Wendelohr?",
        "is het een Wendelohr?",
        "czy to Wendelohr?",
        "är det en Wendelohr?",
    ],
)
def test_a_question_about_the_machine_supposes(text: str) -> None:
    found = facts(text)
    assert WENDELOHR in (found.supposed, found.stated)


@pytest.mark.parametrize(
    "text",
    [
        "where would I find it on a Wendelohr?",
        "on a Wendelohr, where would I find it?",
        "I can't find the serial number on the Wendelohr",
        "did Wendelohr make them too?",
        "how does a Wendelohr show it?",
        "what about a Wendelohr",
        "is it older than a Wendelohr?",
        "it's bigger than a Wendelohr",
        "my neighbour has a Wendelohr",
        "I also have a Wendelohr",
        "my other machine is a Wendelohr",
        "is the number in the same place on a Wendelohr?",
        "wo finde ich sie bei einer Wendelohr?",
        "meine Nachbarin hat eine Wendelohr",
        "où se trouve-t-il sur une Wendelohr ?",
        "ma voisine a une Wendelohr",
        "mi vecina tiene una Wendelohr",
        "la mia vicina ha una Wendelohr",
        "mijn buurvrouw heeft een Wendelohr",
        "moja sąsiadka ma Wendelohr",
        "у соседки Wendelohr",
        "min granne har en Wendelohr",
    ],
)
def test_of_other_machines_nothing_is_told(text: str) -> None:
    assert facts(text) == (Said(), Said())


@pytest.mark.parametrize("text", ["it's a Model 9, where do I find it?", "it is a Model 9 and where is the number?"])
def test_what_is_told_before_asking_where_is_told(text: str) -> None:
    assert facts(text) == (Said(models=("m9",)), Said())


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("seven digits", Said(digit_count=7)),
        ("seven digits?", Said(digit_count=7)),
        ("no, six digits", Said(digit_count=6)),
        ("it starts with zero", Said(leading_zero=True)),
        ("K", Said(prefix="K")),
        ("a no. 9", Said(models=("m9",))),
    ],
)
def test_how_the_number_is_stamped_is_told(text: str, said: Said) -> None:
    assert facts(text).stated == said
