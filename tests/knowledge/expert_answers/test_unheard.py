"""Names that nobody knows are shown, and letters that changed places are put right."""

import pytest


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("made by Jones & Sons of Guide Lane, 1900", "Jones & Sons"),
        ("Built by Arkle Brothers about 1911", "Arkle Brothers"),
        ("Halvorsen, about 1911", "Halvorsen"),
        ("Halvorsen & Co, 1911", "Halvorsen & Co"),
        ("Maker: Halvorsen", "Halvorsen"),
        ("It's a Halvorsen from 1911", "Halvorsen"),
        ("Brindlecote model ZZ, 1911", "model ZZ"),
        ("Brindlecote, Type QB", "Type QB"),
    ],
)
def test_a_name_that_nobody_knows_is_shown_and_replaced_by_none(understood, text, name):
    one = understood(text)
    assert f"'{name}': nothing of that name is known" in one.unclear
    assert one.model == ""
    assert one.maker == ("brindlecote" if "Brindlecote" in text else "")


@pytest.mark.parametrize(
    "text",
    ["Definitely, 1911", "Yes, 1911", "Circa 1911", "Model 12, 1911", "Made by Brindlecote, 1911",
     "A Dovelet from 1889", "Bill of sale: 4 June 1909, Model 12", "Model: 12\nYear: 1911",
     "Everything about it says Model 12"],
)  # fmt: skip
def test_other_words_in_capitals_are_no_names(understood, text):
    assert understood(text).unclear == ()


@pytest.mark.parametrize(("text", "model"), [("Brindlecote Dovelte", "br-dovelet"), ("A Lottek, 1926", "ha-lottke")])
def test_a_name_in_which_two_letters_changed_places_is_read(understood, text, model):
    assert understood(text).model == model
