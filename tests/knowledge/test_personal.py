"""What tells of a person is left out of a text, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.personal import masked


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
