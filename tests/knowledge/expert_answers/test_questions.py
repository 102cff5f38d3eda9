"""Questions for the asker, and others."""

import pytest

from knowledge.expert_answers import ASK_BACK, NO_ANSWER


@pytest.mark.parametrize(
    "text",
    [
        "letter before the no?",
        "Is that a 3 or an 8 in the fourth place?",
        "Do you have the papers that came with it?",
        "Can you see a plate on the front of the pillar?",
        "Where did your grandmother buy it?",
        "What is stamped on the left side?",
        "Has the badge been replaced?",
        "Merci de demander une photo du numéro.",
        "Frag bitte, ob eine Null davor steht",
        "Wie sieht die Rückseite aus?",
        "Hat die Maschine einen Rückwärtsgang?",
        "Pourriez-vous compter les chiffres ?",
        "D'où vient la machine ?",
        "Heeft u nog papieren?",
        "Waar staat het nummer precies?",
        "Avete una ricevuta?",
        "Da dove viene la macchina?",
        "¿Sabe usted cuándo la compraron?",
        "¿De dónde es la máquina?",
    ],
)
def test_a_direct_question_goes_to_the_asker(understood, text):
    one = understood(text)
    assert one.kind == ASK_BACK
    assert one.question


@pytest.mark.parametrize(
    "text",
    ["Hm, what do the others think?", "Anyone?", "Can somebody else look?", "Who has the day book?", "Any ideas?",
     "Why is it always me?", "Has anybody seen this badge before?", "Do we have a list for these?", "Was meint ihr?",
     "Qu'en pensez-vous ?", "Kan iemand anders kijken?", "Is it a Model 12?", "Do you agree?", "Really?"],
)  # fmt: skip
def test_what_is_put_to_the_group_or_only_guessed_does_not(understood, text):
    assert understood(text).kind == NO_ANSWER


def test_a_question_beside_an_answer_settles_all_the_same(understood):
    one = understood("Have you looked at the arm? It is a long one, so it's the 4B. About 1911.")
    assert (one.kind, one.model, one.date) == ("settles", "br-4b", "1911~")
