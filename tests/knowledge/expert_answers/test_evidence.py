"""What the expert goes by, in the expert's own words, and what kind of evidence it is."""

import pytest


@pytest.mark.parametrize(
    ("text", "evidence", "kind"),
    [
        ("Model 12 by the shuttle", "by the shuttle", "feature"),
        ("The shuttle is boat-shaped, so it's a Model 4", "The shuttle is boat-shaped", "feature"),
        ("According to the ledger it's a Model 4 of 1909", "According to the ledger", "ledger"),
        ("1909 (list of the Underhay mill, p. 51)", "list of the Underhay mill, p. 51", "ledger"),
        ("Page 40: Model 12", "Page 40", "ledger"),
        ("1909, bill of sale", "bill of sale", "dated-document"),
        ("Garantiekarte von 1926", "Garantiekarte von 1926", "dated-document"),
        ("1926, by the decals and the guarantee card", "by the decals and the guarantee card", "dated-document"),
        ("Model 12, d'après la navette", "d'après la navette", "feature"),
        ("Model 12, por la lanzadera", "por la lanzadera", "feature"),
        ("1911, volgens het boek", "volgens het boek", "ledger"),
        ("1911, going by the gizmo", "going by the gizmo", "feature"),
        ("1911, te zien aan de gizmo", "te zien aan de gizmo", "feature"),
        ("1911, according to the curator", "according to the curator", "opinion"),
        ("Model 12. The gizmo gives it away.", "The gizmo gives it away", "feature"),
        ("I have the same with a receipt from 1926. So 1926.", "I have the same with a receipt from 1926", "opinion"),
    ],
)
def test_evidence_is_told_word_for_word(understood, text, evidence, kind):
    one = understood(text)
    assert (one.evidence, one.evidence_kind) == (evidence, kind)


@pytest.mark.parametrize(
    "text",
    ["Model 12", "1907, I am sure", "Gut feeling: 1905", "1911 by the way", "Nobody can prove it, but 1911"],
)
def test_without_a_reason_it_is_an_opinion(understood, text):
    one = understood(text)
    assert (one.evidence, one.evidence_kind) == ("", "opinion")


def test_pieces_that_stand_apart_are_joined_by_a_semicolon(understood):
    one = understood("By the badge. Model 12. Ledger p. 3 has it too.")
    assert one.evidence == "By the badge; Ledger p. 3 has it too"


def test_the_works_of_a_ledger_are_not_said_of_the_machine(understood):
    assert understood("1911, register of the Fellbeck works").works == ""


@pytest.mark.parametrize(
    ("text", "evidence"),
    [("Fellbeck 1911 stamped on the motor", "stamped on the motor"), ("Lottke. Op de bon staat 3 juni 1926.",
     "Op de bon staat 3 juni 1926"), ("Lottke, 1926, volgens de rekening", "volgens de rekening"),
     ("Says the label: Dovelet, 1889", "Says the label"),
     ("It is a three-quarter one, so it's the 4B", "It is a three-quarter one")],
)  # fmt: skip
def test_evidence_is_kept_whole(understood, text, evidence):
    assert understood(text).evidence == evidence


@pytest.mark.parametrize("text", ["Model 12, 1911. Unlike what the list says.", "Against the list: Model 12, 1911"])
def test_a_book_that_says_otherwise_is_no_evidence(understood, text):
    one = understood(text)
    assert (one.model, one.date, one.evidence, one.evidence_kind) == ("br-12", "1911", "", "opinion")
