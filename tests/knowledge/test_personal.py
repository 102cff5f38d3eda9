"""What tells of a person is left out of a text, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.base import Knowledge
from knowledge.personal import WRITE_IT_WITHOUT, known_words, masked, warning
from tests.bot.conftest import PACK


@pytest.mark.parametrize(
    ("text", "hidden"),
    [
        ("from ada@example.org, 1911", "ada"),
        ("mail ada.byron+machines@mail.example.co.uk", "byron"),
        ("ada [at] example [dot] org", "example"),
        ("ada(at)example.org", "example"),
        ("mailto:ada@example.org", "ada"),
        ("call +44 1632 960123", "960123"),
        ("tel. 01632 960123", "960123"),
        ("Tel: 555 0123 44", "0123"),
        ("phone me on 01632/960 123", "960"),
        ("0049 30 1234567", "1234567"),
        ("ask @ada_b about it", "ada_b"),
        ("see https://t.me/ada_b", "ada_b"),
        ("tg://user?id=12345", "12345"),
        ("told by Mrs. Ada Byron", "Byron"),
        ("the receipt of Dr Müller-Lüdenscheidt", "Müller"),
        ("Frau Öztürk's machine", "Öztürk"),
        ("Mr. van der Berg sold it", "Berg"),
        ("my Aunt Mary's", "Mary"),
        ("according to Ethel Pym's ledger", "Pym"),
        ("According to Pym, 1911", "Pym"),
        ("Pym's ledger, p. 40", "Pym"),
        ("Pyms Lieferbuch, Seite 4", "Pym"),
        ("Seen in the Pym ledger", "Pym"),
        ("J. R. Pym's notebook", "R. Pym"),
        ("in the hands of E. Pym", "Pym"),
        ("now in the possession of Agnes van der Moor", "Moor"),
        ("receipt made out to Tom O'Hara", "Hara"),
        ("bill of sale to Marie-Louise Dubois, 1911", "Louise"),
        ("ETHEL PYM'S LEDGER", "PYM"),
        ("my cousin Ethel has it still", "Ethel"),
        ("Neighbour Ethel's receipt", "Ethel"),
        ("Dear Ann, it is a Model 9", "Ann"),
        ("told by Maria", "Maria"),
        ("laut Ethel Pym", "Pym"),
        ("selon Ethel", "Ethel"),
        ("según Dolores", "Dolores"),
        ("secondo Rosa", "Rosa"),
        ("volgens Jan", "Jan"),
        ("według Zofii", "Zofii"),
        ("по словам Анны", "Анны"),
        ("enligt Anna", "Anna"),
        ("kept at 12 Mill Lane", "Mill"),
        ("14b, Old Church Road", "Church"),
        ("7 Hallow Close", "Hallow"),
        ("SW1A 1AA", "1AA"),
        ("Hauptstr. 117", "117"),
        ("Lange Straße 3", "Lange"),
        ("50667 Oberdorf", "50667"),
        ("12 rue des Lilas", "Lilas"),
        ("Calle Mayor 12", "Mayor"),
        ("Via Garibaldi, 3", "Garibaldi"),
        ("Kerkstraat 12", "Kerk"),
        ("Storgatan 5", "Storgatan"),
        ("ul. Długa 12/4", "Długa"),
        ("ул. Ленина, д. 5", "Ленина"),
        ("PO Box 123", "123"),
        ("Postfach 1234", "1234"),
    ],
)
def test_what_tells_of_a_person_is_left_out(text: str, hidden: str) -> None:
    assert hidden not in masked(text)
    assert "left out" in masked(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "by the shuttle; ledger p. 40",
        "ledger 4, page 204, K 200001-225000, 12.3.1911",
        "bill of sale of 1911-05-02, no. 123/45",
        "https://museum.example/ledgers/40",
        "Model 9; needle 15x1; 0204117 has a leading zero",
        "ring bobbin, telephone table, lady's cabinet",
        "Upper Mill, 1890 to 1892",
        "Works ledger of March 1911",
        "the Museum's ledger, 12 machines in place",
        "Handwritten receipt of August 1911",
        "Grandmother's receipt, dated 1911",
        "Quittung vom Händler, 1911",
        "laut Lieferbuch Seite 40",
        "Schiffchen und Greifer, Lieferbuch 12",
        "d'après le registre; según el libro; volgens het boek",
        "from the Record Office, vol. 3",
        "in the Hallow Museum, no. 12",
        "The plate says 1911; the ledger's page 4",
        "No. 40 in Book 3, 1911 by the road",
        "the box 123, place 12 in the list",
        "Sales ledger, page 12; seen 12 on the way",
    ],
)
def test_what_tells_of_nobody_stays_as_it_is(text: str) -> None:
    assert masked(text) == text


@given(st.text(max_size=60))
def test_a_second_time_nothing_is_left_to_leave_out(text: str) -> None:
    once = masked(text)
    assert masked(once) == once


@given(
    st.lists(
        st.sampled_from(["@", "ada", " ", "+44", "1632", "960123", ".", "org", "Mrs. ", "Byron", "tel", ":", "\n"])
    )
)
def test_pieces_of_persons_in_any_order_are_left_out_at_once(pieces: list[str]) -> None:
    once = masked("".join(pieces))
    assert masked(once) == once


def test_names_that_the_lists_know_stay() -> None:
    known = known_words(Knowledge.of([PACK]))
    for text in ("by Tollgate", "according to the Tollgate ledger", "Ambersee's book", "made by Upper Mill"):
        assert masked(text, known) == text
    assert masked("according to Ethel Tollgate's book", known) == "according to (name left out)'s book"


def test_whoever_writes_of_somebody_is_advised_to_leave_it_out() -> None:
    knowledge = Knowledge.of([PACK])
    for text in ("according to Ethel Pym's ledger", "receipt, 12 Mill Lane", "call 01632 960123"):
        assert warning(["by the shuttle", text], knowledge) == WRITE_IT_WITHOUT
    assert warning(["by the shuttle; Tollgate ledger p. 40", ""], knowledge) == ""
