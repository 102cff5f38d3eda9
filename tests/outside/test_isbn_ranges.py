"""The ranges of book numbers as a register: leading zeros that count, numbers of differing length.

Source: the ranges of the International ISBN Agency, as the package `python-stdnum` carries them
(`isbn.dat`). A row holds the registrants of one group; the number is group and registrant together. Judge:
how python-stdnum splits a whole book number into its parts.
"""

import random
import re
from collections import defaultdict
from importlib import resources

import pytest
from stdnum import isbn

MARK = {"978": "E", "979": "F"}


def published_ranges():
    """Yield prefix, first and last number of every range of registrants, zeros kept."""
    mark = group = ""
    for line in resources.files("stdnum").joinpath("isbn.dat").read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            continue
        if not line.startswith(" "):
            mark = MARK[line.strip()]
        elif found := re.match(r" (\d+) agency=", line):
            group = found[1]
        elif line.startswith("  "):
            for first, last in re.findall(r"(\d+)-(\d+)", line):
                yield mark, group + first, group + last


RANGES = list(published_ranges())


@pytest.fixture
def books(knowledge_of):
    head = ["register", "order", "prefix", "first", "last", "date", "quantity"]
    rows = [["books", str(order), *found, "1970/2026", ""] for order, found in enumerate(RANGES, start=1)]
    return knowledge_of(
        registers=[["register", "maker", "kind"], ["books", "m", "allocations"]], allocations=[head, *rows]
    )


def test_every_first_and_last_number_of_every_range_is_in_that_range_alone(books):
    for prefix, first, last in RANGES:
        for number in (first, last):
            found = [(block.first, block.last) for block in books.covering(prefix, number, "")]
            assert found == [(first, last)]


def test_one_digit_more_or_less_or_a_lost_zero_is_another_number(books):
    known = defaultdict(list)
    for prefix, first, last in RANGES:
        known[prefix, len(first)].append((first, last))
    for prefix, first, last in random.Random(1).sample(RANGES, 300):
        for number in (first + "0", last[:-1], first.lstrip("0"), "0" + last):
            wanted = [span for span in known[prefix, len(number)] if span[0] <= number <= span[1]]
            assert [(block.first, block.last) for block in books.covering(prefix, number, "")] == wanted


def test_a_whole_book_number_begins_with_the_one_registrant_that_python_stdnum_splits_off(books):
    chance = random.Random(2)
    for _ in range(2_000):
        prefix, first, last = chance.choice(RANGES)
        registrant = str(chance.randint(int(first), int(last))).zfill(len(first))
        body = (registrant + "".join(chance.choice("0123456789") for _ in range(9)))[:9]
        known = {mark: ean for ean, mark in MARK.items()}
        _, group, publisher, _, _ = isbn.split(f"{known[prefix]}{body}0")
        found = [body[:length] for length in range(1, 10) if books.covering(prefix, body[:length], "")]
        assert found == [group + publisher]


@pytest.mark.parametrize(("typed", "first", "last"), [("E 0 200", "0200", "0227"), ("E-02280", "02280", "02289")])
def test_a_number_out_of_a_sentence_finds_its_range_with_its_zero(typed, first, last, books, as_typed):
    found = as_typed(f"the serial number is {typed}", books)
    assert [(one["first"], one["last"]) for one in found][:1] == [(first, last)]
