"""Thanks, greetings and 'I don't know'."""

import pytest

from bot.small_talk import GOODBYE, HELLO, WELCOME, is_unsure, kind_word


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("Thank you very much!", WELCOME),
        ("ok thanks", WELCOME),
        ("Danke schön", WELCOME),
        ("gracias", WELCOME),
        ("grazie mille", WELCOME),
        ("bedankt voor de hulp", WELCOME),
        ("bye", GOODBYE),
        ("tschüss", GOODBYE),
        ("до свидания", GOODBYE),
        ("Hi there", HELLO),
        ("bonjour", HELLO),
        ("cześć", HELLO),
        ("thanks, and how old is a Model 9?", ""),
        ("K", ""),
        ("ok", ""),
        ("", ""),
    ],
)
def test_a_kind_word_for_messages_that_ask_nothing(text, answer):
    assert kind_word(text) == answer


@pytest.mark.parametrize(
    "text",
    ["I don't know", "no idea", "not sure, sorry", "weiß ich nicht", "keine Ahnung", "je ne sais pas", "no sé",
     "non so", "weet ik niet", "nie wiem", "не знаю", "vet inte", "can't tell", "dunno"],
)  # fmt: skip
def test_not_knowing_is_understood(text):
    assert is_unsure(text)


@pytest.mark.parametrize("text", ["seven", "not a Model 9", "no", "yes", "it is no zero"])
def test_other_answers_are_not_taken_for_not_knowing(text):
    assert not is_unsure(text)
