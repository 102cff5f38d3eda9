"""Which words of a message are the expert's own."""

import pytest

from knowledge.expert_answers.letter import own_words


@pytest.mark.parametrize(
    "text",
    [
        "Hi Ada, Model 12",
        "Dear Ada,\nModel 12",
        "Model 12\n-- \nBo\nModel 4 collector",
        "Model 12\n\nBest wishes\nBo Model 4",
        "Model 12. Cheers, Bo",
        "Model 12\nMit freundlichen Grüßen\nBo",
        "> Model 4?\nModel 12",
        "Model 12\n\nOn Monday Ada wrote:\n> Model 4?",
        "Model 12\n-----Original Message-----\nFrom: Ada\nModel 4?",
        "Bonjour Ada, Model 12\nCordialement, Bo",
        "Model 12\nSent from my telephone",
    ],
)
def test_greetings_signatures_and_quotes_are_left_out(text):
    assert own_words(text).strip(" .\n") == "Model 12"


def test_everything_keeps_its_place():
    text = "Hi Ada, Model 12. Cheers, Bo"
    own = own_words(text)
    assert len(own) == len(text)
    assert own.index("Model 12") == text.index("Model 12")


def test_thanks_at_the_beginning_are_no_signature():
    assert "Model 12" in own_words("Thanks for the photo, it is a Model 12.")


def test_a_postscript_is_read():
    assert "Model 12" in own_words("No idea yet.\nCheers, Bo\nPS: it is a Model 12")


def test_what_the_asker_wrote_is_left_out_where_it_is_repeated():
    assert own_words("Is it a Model 4? No, Model 12.", "is it a model 4?").strip() == "No, Model 12."


@pytest.mark.parametrize(
    "address",
    ["Cyril Mott\n14 Harbour Row", "Cyril Mott\n14 Harbour Row\nBrackwater\nBW3 4XY", "14 Harbour Row, Brackwater",
     "Dieter Lang\nLindenstraße 7\n24105 Kielwang", "Piet Vos\nKerkstraat 12b", "Anne Bel\n12, rue des Lilas",
     "Luca Neri\nVia Roma 4"],
)  # fmt: skip
def test_an_address_at_the_end_and_the_name_above_it_are_left_out(address):
    assert own_words(f"Model: 12\nEvidence: letter from the works\n\n{address}").split("\n")[:2] == [
        "Model: 12", "Evidence: letter from the works",
    ]  # fmt: skip
    assert not own_words(f"Model: 12\n\n{address}").split("\n", 1)[1].strip()


@pytest.mark.parametrize(
    "text",
    ["Dovelet\n1889", "1911\nModel 12", "Model 12\n\nMade at 14 Mill Street, says the plate.", "12 Mill Lane",
     "Page 40\nA100213 Model 12\n1904", "14 Harbour Row\nThat is where the works were, so Underhay.",
     "Lottke\n1926 Niederau"],
)  # fmt: skip
def test_lines_that_are_no_address_are_kept(text):
    assert own_words(text).strip() == text
