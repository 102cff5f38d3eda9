"""Numbers of patents, designs and marks are passed over as serials and handed to their own registers."""

from __future__ import annotations

import pytest

from knowledge.names import Names
from knowledge.tokens import find
from tests.knowledge.tokens.sample_names import NAMES, NOTHING_KNOWN

PUNCTUATED = Names(
    introducers={"u.s. pat. no": ("us",), "pat'd": ("us",), "brevet n°": ("us",), "r.d. no": ("designs",)}
)


@pytest.mark.parametrize(
    ("message", "number", "registers"),
    [
        ("Patent 1,647,123 is cast into it", "1647123", ("patents",)),
        ("Patent No. 2,000,000", "2000000", ("patents",)),
        ("US patent 2 000 000", "2000000", ("us-patents",)),
        ("US-Patent Nr. 2.000.000", "2000000", ("us-patents",)),
        ("pat. D204117 on the lid", "D204117", ("patents",)),
        ("Rd No 204117", "204117", ("designs",)),
        ("registered design number 204117", "204117", ("designs",)),
        ("registration diamond: R B 14", "RB14", ("diamond-1", "diamond-2")),
        ("it has a registration diamond with XC12", "XC12", ("diamond-1", "diamond-2")),
        ("registration diamond, letters R and B, day 14", "RB14", ("diamond-1", "diamond-2")),
    ],
)
def test_the_words_before_a_number_name_its_registers(message: str, number: str, registers: tuple[str, ...]) -> None:
    found = find(message, NAMES)
    assert found.tokens == ()
    assert [(piece.because, piece.number, piece.register, piece.registers) for piece in found.passed_over] == [
        ("patent", number, registers[0], registers)
    ]


@pytest.mark.parametrize(
    "message", ["U.S. Pat. No. 204117", "US pat no 204117", "Pat'd 204117", "patd. 204117", "RD No. 204117"]
)
def test_dots_and_apostrophes_of_an_introducer_may_be_left_out_or_put_in(message: str) -> None:
    assert [piece.number for piece in find(message, PUNCTUATED).passed_over] == ["204117"]


@pytest.mark.parametrize(
    ("message", "number"),
    [
        ("registration diamond, year letter R, month B, day 7", "RB7"),
        ("registration diamond: day 7, month H, year K", "KH7"),
        ("a registration diamond with month H, day 7, year K", "KH7"),
        ("registration diamond, day 21 month letter R year letter X", "XR21"),
        ("registration diamond: K (year), H (month), 7 (day)", "KH7"),
        ("registration diamond, Jahr K, Monat H, Tag 7", "KH7"),
        ("registration diamond: K top, H left, 7 right", "KH7"),
        ("registration diamond, 7 right, H left, K top", "KH7"),
        ("registration diamond: 7 at the top, K on the right, H at the bottom", "KH7"),
        ("registration diamond KH7", "KH7"),
        ("registration diamond K H 7", "KH7"),
        ("registration diamond K-H-7", "KH7"),
    ],
)
def test_the_letters_of_a_diamond_go_where_the_words_beside_them_say(message: str, number: str) -> None:
    """Corners: published guides to the mark. Before 1868 the year stands at the top, from 1868 on the day."""
    assert [piece.number for piece in find(message, NAMES).passed_over] == [number]


def test_every_number_of_a_list_has_the_registers_of_its_introducer() -> None:
    found = find("Patents 1,647,123; 1,700,204 and 2,000,000", Names(introducers={"patents": ("patents",)}))
    assert [piece.number for piece in found.passed_over] == ["1647123", "1700204", "2000000"]


def test_a_serial_beside_a_patent_is_still_found() -> None:
    found = find("Patent 1,647,123 on the plate, serial K204117", NAMES)
    assert [token.serial for token in found.tokens] == ["K204117"]


@pytest.mark.parametrize("message", ["patented in 1889", "Patent Jan. 8 1889", "pat. 8.1.1889"])
def test_the_date_of_a_patent_is_no_number_of_one(message: str) -> None:
    assert [piece.number for piece in find(message, NAMES).passed_over] == [""]


def test_without_such_a_register_the_number_is_only_passed_over() -> None:
    (piece,) = find("Patent No. 1,647,123 on the machine", NOTHING_KNOWN).passed_over
    assert (piece.because, piece.number, piece.register, piece.registers) == ("patent", "", "", ())
