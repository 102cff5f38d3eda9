"""Tests of importing/numbers.py and ditto.py."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.packs.importing.ditto import blanks_below, fill_blanks, fill_dittos, is_ditto
from knowledge.packs.importing.numbers import LOOK_ALIKES, LostDigitsError, completed, read_numbers

ONE = {
    "0204117": ("", "0204117", ""), "K0204117": ("K", "0204117", ""), "K 0 204 117": ("K", "0204117", ""),
    "k-204117": ("K", "204117", ""), "12345 B": ("", "12345", "B"), "1.234.567": ("", "1234567", ""),
    "1,234,567": ("", "1234567", ""), "1 234 567": ("", "1234567", ""), "1'234'567": ("", "1234567", ""),
    "1\u202f234\u00a0567": ("", "1234567", ""), "204117.0": ("", "204117", ""), "No. 55": ("", "55", ""),
    "№ 55": ("", "55", ""), "nº 55": ("", "55", ""), "#55": ("", "55", ""), "NO 55": ("NO", "55", ""),
    "１２３": ("", "123", ""), "К 204117": ("K", "204117", ""), "204117 Ä": ("", "204117", "A"),
}  # fmt: skip


@pytest.mark.parametrize(("text", "parts"), ONE.items())
def test_one_number_is_read(text: str, parts: tuple[str, str, str]) -> None:
    read = read_numbers(text)
    assert read is not None
    assert (read.prefix, read.first, read.suffix) == parts
    assert read.last == ""


def test_letters_that_only_look_latin_are_taken_as_latin_and_it_is_said() -> None:
    read = read_numbers("\u041a204117")
    assert read is not None
    assert read.notes == (LOOK_ALIKES,)


BLOCKS = [
    "K 200001-225000", "K200001 to K225000", "K 200001 – 225000", "K 200.001 bis 225.000", "K200001..225000",
    "K 200001 à 225000", "K 200,001 through 225,000", "K200001/225000", "from K200001 to 225000",
    "No. K200001 - 225000",
]  # fmt: skip


@pytest.mark.parametrize("text", BLOCKS)
def test_a_block_in_one_cell_is_read(text: str) -> None:
    read = read_numbers(text)
    assert read is not None
    assert (read.prefix, read.first, read.last, read.shortened) == ("K", "200001", "225000", False)


def test_a_shortened_last_number_is_marked_and_can_be_completed() -> None:
    read = read_numbers("200001-25000")
    assert read is not None
    assert read.shortened
    assert completed(read.first, read.last) == "225000"


@pytest.mark.parametrize(
    "text",
    ["", "K", "K200001-L225000", "200001 225000", "225000-200001", "12 34", "204117.5", "1912-01-08", "200001 -"],
)  # fmt: skip
def test_what_is_no_number_is_not_taken_for_one(text: str) -> None:
    assert read_numbers(text) is None


def test_a_number_longer_than_packs_allow_is_none() -> None:
    assert read_numbers("9" * 19) is None


@pytest.mark.parametrize("text", ["2.04E+05", "2,04E+05", "2e+05"])
def test_a_rounded_number_has_lost_its_digits(text: str) -> None:
    with pytest.raises(LostDigitsError):
        read_numbers(text)


@given(
    st.integers(0, 10**12), st.integers(0, 4), st.sampled_from([".", ",", " ", "'"]), st.sampled_from(["", "K", "AB"])
)
def test_thousands_marks_change_nothing(number: int, zeros: int, mark: str, prefix: str) -> None:
    digits = "0" * zeros + str(number)
    groups = [digits[max(0, end - 3) : end] for end in range(len(digits), 0, -3)][::-1]
    read = read_numbers(f"{prefix}{mark.join(groups)}")
    assert read is not None
    assert (read.prefix, read.first) == (prefix, digits)


@given(st.text(max_size=25))
def test_no_text_makes_the_reader_fail(text: str) -> None:
    try:
        read = read_numbers(text)
    except LostDigitsError:
        return
    assert read is None or read.first.isdigit()


@pytest.mark.parametrize("mark", ["do.", "do", "Ditto", '"', "''", "〃", "”", '-"-', "- ″ -", "idem", "dto.", "то же"])
def test_ditto_marks_are_known(mark: str) -> None:
    assert is_ditto(mark)


@pytest.mark.parametrize("text", ["", "1912", "Model 9", "dot", "-", "d", "0"])
def test_other_cells_are_no_ditto_marks(text: str) -> None:
    assert not is_ditto(text)


def test_marks_and_blanks_take_the_value_above() -> None:
    assert fill_dittos(["a", "do.", "", '"', "b"]) == (["a", "a", "", "a", "b"], 2, [])
    assert fill_dittos(["", '"', "a"]) == (["", '"', "a"], 0, [1])
    assert blanks_below(["", "a", "", "b", ""]) == 2
    assert fill_blanks(["", "a", "", "b", ""]) == ["", "a", "a", "b", "b"]
