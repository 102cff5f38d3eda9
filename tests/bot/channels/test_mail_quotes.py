"""What the sender wrote now: quotes above, below and between, signatures, and what is passed on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.mail_quotes import words_of

ATTRIBUTIONS = [
    "On Mon, 3 Nov 2031 at 10:00, Orla <orla@x.example> wrote:",
    "On Mon, 3 Nov 2031\nat 10:00, Orla <orla@x.example>\nwrote:",
    "Am 03.11.2031 um 10:00 schrieb Orla <orla@x.example>:",
    "Le lun. 3 nov. 2031 à 10:00, Orla <orla@x.example> a écrit :",
    "El lun, 3 nov 2031 a las 10:00, Orla (<orla@x.example>) escribió:",
    "Il giorno lun 3 nov 2031 alle ore 10:00 Orla <orla@x.example> ha scritto:",
    "Op ma 3 nov. 2031 om 10:00 schreef Orla <orla@x.example>:",
    "pon., 3 lis 2031 o 10:00 Orla <orla@x.example> napisał(a):",
    "03.11.2031 10:00, Orla <orla@x.example> пишет:",
    "Den mån 3 nov. 2031 kl 10:00 skrev Orla <orla@x.example>:",
]
HEADS = [
    "-----Original Message-----\nFrom: Orla\nSent: Monday\nTo: Hattie\nSubject: x\n",
    "________________________________\nFrom: Orla <o@x.example>\nSent: Monday\nTo: Hattie\nSubject: x\n",
    "Von: Orla\nGesendet: Montag\nAn: Hattie\nBetreff: x\n",
    "De : Orla\nEnvoyé : lundi\nÀ : Hattie\nObjet : x\n",
    "*From:* Orla\n*Date:* Monday\n*To:* Hattie\n*Subject:* x\n",
]


@pytest.mark.parametrize("attribution", ATTRIBUTIONS)
def test_a_reply_above_its_quote(attribution):
    assert words_of(f"Seven digits.\n\n{attribution}\n> K204117\n> how old?\n").own == "Seven digits."


@pytest.mark.parametrize("attribution", ATTRIBUTIONS)
def test_a_reply_below_its_quote(attribution):
    assert words_of(f"{attribution}\n> K204117\n> how old?\n\nSeven digits.\n").own == "Seven digits."


@pytest.mark.parametrize("attribution", ATTRIBUTIONS)
def test_a_reply_above_a_quote_without_marks(attribution):
    assert words_of(f"Seven digits.\n\n{attribution}\n\nK204117\nhow old?\n").own == "Seven digits."


@pytest.mark.parametrize("head", HEADS)
def test_a_reply_above_the_head_of_the_old_mail(head):
    assert words_of(f"Seven digits.\n\n{head}\nK204117\nhow old?\n").own == "Seven digits."


def test_answers_between_the_quotes_all_count():
    text = "> How many digits?\nSeven.\n> And the maker?\nOttrel, I think.\n"
    assert words_of(text).own == "Seven.\nOttrel, I think."


def test_a_line_that_only_ends_with_a_colon_is_no_attribution():
    assert words_of("My number is:\nK204117\n").own == "My number is:\nK204117"


def test_the_line_before_an_attribution_is_kept():
    assert words_of("Hello\n02.04.2031 14:20 user Bob <bob@x.example> wrote:\n> Hi\n").own == "Hello"


@pytest.mark.parametrize("delimiter", ["-- ", "--"])
def test_what_stands_below_the_signature_mark_is_left_out(delimiter):
    assert words_of(f"K204117\n{delimiter}\nHattie\n01632 960123\n").own == "K204117"


@pytest.mark.parametrize("line", ["Sent from my telephone", "Von meinem Telefon gesendet", "Get Outlook for anything"])
def test_the_advertisement_of_a_program_is_left_out(line):
    assert words_of(f"K204117\n\n{line}\n").own == "K204117"


@pytest.mark.parametrize(
    "mark",
    [
        "---------- Forwarded message ---------",
        "Begin forwarded message:",
        "-------- Weitergeleitete Nachricht --------",
    ],
)
def test_a_passed_on_mail_is_told_apart_without_its_head(mark):
    found = words_of(f"What do you think?\n\n{mark}\nFrom: Orla\nDate: Monday\nSubject: x\nTo: y\n\nIt says K204117.\n")
    assert (found.own, found.forwarded) == ("What do you think?", "It says K204117.")


def test_a_passed_on_mail_may_be_marked_like_a_quote():
    found = words_of("Begin forwarded message:\n\n> From: Orla\n> Subject: x\n> Date: y\n>\n> It says K204117.\n")
    assert found.forwarded == "It says K204117."


def test_below_a_head_stands_a_passed_on_mail_when_the_subject_says_so():
    head = "From: Orla\nSent: Monday\nTo: Hattie\nSubject: x\n"
    assert words_of(f"See below.\n\n{head}\nIt says K204117.", passed_on=True).forwarded == "It says K204117."
    assert words_of(f"See below.\n\n{head}\nIt says K204117.", passed_on=False).forwarded == ""


MARKED_HEADS = [
    "> From: Orla\n> Sent: Monday\n> To: Hattie\n> Subject: x\n>\n> My number is K204117.",
    "> -----Original Message-----\n> From: Orla\n>\n> My number is K204117.",
    "> ---------- Forwarded message ---------\n> From: Orla\n> Date: Monday\n>\n> My number is K204117.",
]


@pytest.mark.parametrize("head", MARKED_HEADS)
def test_what_is_written_below_a_mail_that_is_marked_with_its_head_counts(head):
    assert words_of(f"Hi, see what my friend wrote to me.\n\n{head}\n\nMine is Y1112223.\nHow old?").own == (
        "Hi, see what my friend wrote to me.\n\nMine is Y1112223.\nHow old?"
    )


@pytest.mark.parametrize("head", MARKED_HEADS)
def test_a_mail_that_is_marked_with_its_head_stays_out_of_the_own_words(head):
    assert words_of(f"Hi, see what my friend wrote to me.\n\n{head}\n").own == "Hi, see what my friend wrote to me."


def test_where_nothing_would_be_left_everything_is_given_back():
    assert words_of("> K204117\n> how old?\n").quoted == "K204117\nhow old?"


@given(st.text(alphabet=st.sampled_from("> \n-_:FromSetTJ@1K."), max_size=400))
def test_no_letter_of_a_text_is_lost_without_a_trace(text):
    found = words_of(text)
    if any(character.isalnum() for character in text):
        assert found.own or found.forwarded or found.quoted
