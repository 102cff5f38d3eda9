"""What a word calls one number does not hold for the next one, where a new label or a new place is named."""

from __future__ import annotations

import pytest

from knowledge.tokens import find
from tests.knowledge.tokens.sample_names import MANY_SHAPES

MESSAGES = [
    ("Bottom plate: PATENT 986,441. Side: L 1 118 093. Top: a lion.", "L1118093", ("patent",)),
    ("Patented, says the plate, No. 1,402,118. On the bed: P 118 771.", "P118771", ("patent",)),
    ("Cast inside the base 55812, stamped on the bed H 204 771. Which one?", "H204771", ("part-number",)),
    (
        "1250 cast in big letters (casting number I assume) and the stamped number on top is Y 514 290.",
        "Y514290",
        ("part-number",),
    ),
    ("just a casting number, 8840, under the arm. No stamped one at all.", "", ("part-number",)),
    ("Pillar has 4-1187 cast inside. It's the mould number.", "", ("part-number",)),
    ("Record card: No K/204/552. Donated by the family.", "K204552", ()),
    ("Torvane long shuttle O 300 418 (about 1905)", "O300418", ("year",)),
    ("Vi har två i föreningen: S 226 330 och S 1 226 330.", "S226330 S1226330", ()),
    ("I have one in a wooden case. The number is D 704 118 and I wonder", "D704118", ()),
    ("which model is number K3001207", "K3001207", ()),
    ("Who was the maker of 45210?", "45210", ()),
    ("Kennt jemand die 45210", "45210", ()),
    ('the owner before wrote "771 118 W" on a card', "771118W", ()),
    ("the motor takes 100 W at 110 V", "", ("measure", "measure")),
    ("order number K 204 117", "", ("order-number",)),
]


@pytest.mark.parametrize(("message", "serials", "reasons"), MESSAGES)
def test_each_number_has_its_own_label(message: str, serials: str, reasons: tuple[str, ...]) -> None:
    found = find(message, MANY_SHAPES)
    assert [token.serial for token in found.tokens] == serials.split()
    assert tuple(piece.because for piece in found.passed_over) == reasons


FORWARDED = (
    "---------- Forwarded message ----------\nFrom: Iris\nSubject: old machine\nThe number is D 704 118, how old is it?"
)


def test_a_mail_passed_on_for_somebody_else_is_read() -> None:
    found = find(f"Can anybody help her?\n\n{FORWARDED}", MANY_SHAPES)
    assert [token.serial for token in found.tokens] == ["D704118"]


def test_a_mail_passed_on_below_a_number_of_ones_own_is_quoted() -> None:
    found = find(f"Mine is D 704 181.\n\n{FORWARDED}", MANY_SHAPES)
    assert [token.serial for token in found.tokens] == ["D704181"]


def test_lines_quoted_below_a_greeting_stay_quoted() -> None:
    found = find(
        "The number is R 0 448 213.\n\nYours sincerely\nE. M.\n\n> number R 448 231 that you sent", MANY_SHAPES
    )
    assert [token.serial for token in found.tokens] == ["R0448213"]


TAKEN_BACK = [
    ("H 318 771, I first wrote H 318 711 which was wrong", "H318771"),
    ("My machine is V 118 660. I looked again and it is not V 118 660 but V 118 668. Sorry.", "V118668"),
    ("Pomyliłam się, jest H 0 204 226, a nie H 204 226.", "H0204226"),
    ("i said M 409 551 yesterday, that was the drawer lock; the real one is M 1 409 515", "M1409515"),
    ("sorry i gave K 204 117, that was off the lid. it's M 118 402", "M118402"),
    ("Forget what I wrote, K 118 204 was off the drawer lock.", ""),
    ("F 733 140, nein Entschuldigung, F 733 410 muss es heißen", "F733410"),
]


@pytest.mark.parametrize(("message", "serials"), TAKEN_BACK)
def test_a_number_taken_back_is_gone_wherever_it_stands(message: str, serials: str) -> None:
    assert [token.serial for token in find(message, MANY_SHAPES).tokens] == serials.split()


NAMED_APART = [
    ("Цифры 118 402, перед ними буква M", "M118402"),
    ("there is a letter P, then a gap about as wide as a thumb, then 660418", "P660418"),
    ("På plåten står 226 551 med ett K efteråt", "226551K"),
]


@pytest.mark.parametrize(("message", "serials"), NAMED_APART)
def test_a_letter_told_apart_from_its_digits_is_joined_to_them(message: str, serials: str) -> None:
    assert [token.serial for token in find(message, MANY_SHAPES).tokens] == serials.split()
