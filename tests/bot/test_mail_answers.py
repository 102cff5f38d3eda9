"""What an expert wrote in a mail, apart from the manners of a letter; and what counts as a yes."""

from __future__ import annotations

import pytest

from bot.channels.mail_format import read
from bot.mail_answers import is_no, is_yes, own_words, wrote_by_itself

ANSWER = "Model 9, about 1911, by the shuttle; see ledger p. 40"


def words(body: str, sender: str = "Ada Byron <ada.b@example.org>") -> str:
    return own_words(read(f"From: {sender}\nSubject: Re: Case 12\n\n{body}".encode()))


@pytest.mark.parametrize(
    "letter",
    [
        "{}",
        "Dear desk,\n\n{}\n\nBest wishes,\nAda",
        "Hello!\n{}\nCheers, Ada",
        "{}\n\nAda",
        "{}\n\nAda B.\n",
        "{}\n\nKind regards\nAda Byron\nTel. 01632 960123",
        "Guten Tag,\n{}\n\nViele Grüße\nAda",
        "{}\n-- \nAda Byron, keeper of ledgers since 1911",
        "{}\n\nOn Monday, 5 May 2031 at 10:00, desk wrote:\n> Case 12\n> yes",
        "{}\n\nSent from my telephone",
    ],
)
def test_the_manners_of_a_letter_are_no_part_of_the_answer(letter):
    assert words(letter.format(ANSWER)) == ANSWER


@pytest.mark.parametrize("body", ["Model 9\n\nUpper Mill", "Thanks, it is a Model 9", "Best guess: Model 9\n1911"])
def test_what_may_be_part_of_the_answer_stays(body):
    assert words(body) == body


@pytest.mark.parametrize("body", ["> yes", "-- \nyes", "---------- Forwarded message ---------\nFrom: x\n\nyes", ""])
def test_what_was_not_written_now_is_no_answer(body):
    assert words(body) == ""


@pytest.mark.parametrize(
    "text", ["yes", "Yes.", "Yes please!", "ok", "That's right", "ja, stimmt", "oui", "Correct, store it", "sí", "да"]
)
def test_a_yes_is_a_yes(text):
    assert is_yes(text)
    assert not is_no(text)


@pytest.mark.parametrize(
    "text",
    [
        "yes?", "yes, but about 1912", "yes and no", "I am not sure, yes", "that is not right", "no", "", "1911",
        "yes 1911", "yesterday", "yes, ask him for a photo", "not for us", "right after the war",
    ],
)  # fmt: skip
def test_anything_more_than_a_yes_is_none(text):
    assert not is_yes(text)


@pytest.mark.parametrize(
    ("text", "is_one"), [("no", True), ("No, that's wrong!", True), ("nein", True), ("no, Model 9", False)]
)
def test_a_bare_no_says_nothing_of_how_it_is(text, is_one):
    assert is_no(text) is is_one


def test_what_a_program_wrote_is_known_by_its_phrases():
    mail = "From: ada@example.org\n\n{}"
    for text in ("I am out of the office until 12 January.", "Thank you for your message. We will come back to you."):
        assert wrote_by_itself(read(mail.format(text).encode()))
    assert not wrote_by_itself(read(mail.format(ANSWER).encode()))
