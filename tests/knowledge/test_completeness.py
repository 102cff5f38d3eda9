"""Every candidate is found and none is made up: against brute force over every number of every block."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knowledge.base import Knowledge
from knowledge.candidates import rank
from knowledge.packs.tables import Pack, Table
from knowledge.registers import BlockRow
from knowledge.said import Said
from knowledge.tokens.nouns import SerialToken
from tests.knowledge.oracle import Stamped, explains, numbers_of

PREFIXES = ("", "K", "B", "O", "KO", "VI", "S")
SUFFIXES = ("", "", "B", "Z")


@st.composite
def block(draw: st.DrawFn) -> BlockRow:
    width = draw(st.integers(1, 5))
    first = draw(st.integers(0, 10**width - 1))
    length = draw(st.integers(0, 60))
    if draw(st.booleans()):
        ends = str(first).zfill(width), str(min(first + length, 10**width - 1)).zfill(width)
    else:
        ends = str(first), str(first + length)
    prefix, suffix = draw(st.sampled_from(PREFIXES)), draw(st.sampled_from(SUFFIXES))
    return BlockRow("list", "", prefix, *ends, suffix, "1912", "", "", "", "", "")


packs = st.lists(block(), min_size=1, max_size=12)
NEAR = st.sampled_from(("same", "zeros", "bare", "drop", "double", "swap", "change", "letters", "none"))


@st.composite
def pack_and_number(draw: st.DrawFn) -> tuple[list[BlockRow], Stamped]:
    """Draw a pack and a typed number, mostly near to one of its numbers."""
    rows = draw(packs)
    row = draw(st.sampled_from(rows))
    number = draw(st.integers(int(row.first), int(row.last)))
    digits = str(number).zfill(len(row.first) if len(row.first) == len(row.last) else 1)
    place = draw(st.integers(0, len(digits) - 1))
    other = draw(st.sampled_from("0123456789"))
    kind = draw(NEAR)
    prefix = row.prefix
    if kind == "zeros":
        digits = "0" + digits
    elif kind == "bare":
        digits = digits.lstrip("0") or "0"
    elif kind == "drop" and len(digits) > 1:
        digits = digits[:place] + digits[place + 1 :]
    elif kind == "double":
        digits = digits[:place] + other + digits[place:]
    elif kind == "swap":
        digits = digits[:place] + digits[place : place + 2][::-1] + digits[place + 2 :]
    elif kind == "change":
        digits = digits[:place] + other + digits[place + 1 :]
    elif kind == "letters":
        prefix = draw(st.sampled_from(("", "O", "D", "KI", "KO", "L", "OO", "8", "V")))
        prefix, digits = (prefix, digits) if not prefix.isdigit() else ("", prefix + digits)
    elif kind == "none":
        prefix = ""
    return rows, Stamped(prefix, digits, row.suffix if draw(st.booleans()) else draw(st.sampled_from(SUFFIXES)))


def knowledge_of(rows: list[BlockRow]) -> Knowledge:
    columns = {name: [getattr(row, name) for row in rows] for name in BlockRow._fields}
    registers = {"register": ["list"], "maker": ["we"], "kind": ["allocations"]}
    return Knowledge.of([Pack.of("p", Table.of("registers", registers), Table.of("allocations", columns))])


def found_by_us(rows: list[BlockRow], typed: Stamped) -> set[tuple[str, str, str]]:
    text = "".join(typed)
    token = SerialToken(text, 0, len(text), *typed, True)
    candidates = rank(token, 0, knowledge_of(rows), Said())
    return {(one.serial, one.reading.prefix + str(one.first), str(one.last) + one.reading.suffix) for one in candidates}


def found_by_brute_force(rows: list[BlockRow], typed: Stamped) -> set[tuple[str, str, str]]:
    return {
        ("".join(stamped), row.prefix + row.first, row.last + row.suffix)
        for row in rows
        for stamped in numbers_of(row)
        if explains(typed, stamped)
    }


@given(pack_and_number())
@settings(max_examples=1_000)
def test_the_candidates_are_those_of_brute_force(drawn: tuple[list[BlockRow], Stamped]) -> None:
    rows, typed = drawn
    assert found_by_us(rows, typed) == found_by_brute_force(rows, typed)


@pytest.mark.long
@given(pack_and_number())
@settings(max_examples=20_000)
def test_the_candidates_are_those_of_brute_force_on_20_000_packs(
    drawn: tuple[list[BlockRow], Stamped],
) -> None:
    rows, typed = drawn
    assert found_by_us(rows, typed) == found_by_brute_force(rows, typed)


@given(pack_and_number(), st.data())
@settings(max_examples=300)
def test_unreadable_places_are_searched_in_full(drawn: tuple[list[BlockRow], Stamped], data: st.DataObject) -> None:
    rows, typed = drawn
    places = data.draw(st.sets(st.integers(0, len(typed.digits) - 1), min_size=1, max_size=3))
    pattern = "".join("?" if place in places else digit for place, digit in enumerate(typed.digits))
    expected = {
        ("".join(stamped), row.prefix + row.first, row.last + row.suffix)
        for row in rows
        for stamped in numbers_of(row)
        if (stamped.prefix, stamped.suffix) == (typed.prefix, typed.suffix) and _matches(pattern, stamped.digits)
    }
    assert expected <= found_by_us(rows, typed._replace(digits=pattern))


def _matches(pattern: str, digits: str) -> bool:
    return len(pattern) == len(digits) and all(p in ("?", d) for p, d in zip(pattern, digits, strict=True))
