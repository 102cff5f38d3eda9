"""The pack of published marks: what is published and what is from memory are told apart. See tests/outside too."""

import pytest

from knowledge.packs import faults_of, load
from knowledge.shipped import folders

[FOLDER] = [folder for folder in folders() if folder.name == "marks"]


@pytest.fixture(scope="module")
def pack():
    return load(FOLDER)


def test_there_is_no_fault_in_it():
    _, faults = faults_of(FOLDER)
    assert faults == []


def test_every_register_needs_words_before_its_numbers_for_they_are_no_serial_numbers(pack):
    assert all(introducer for (introducer,) in pack.rows("registers", "introducer"))


def test_every_year_has_a_source_and_those_from_memory_have_one_of_their_own(pack):
    columns = ("register", "date", "source")
    remembered = {int(date) for _, date, source in pack.rows("year-starts", *columns) if source == "us-patents-memory"}
    assert remembered == {*range(1904, 1920), *range(1936, 1960)}
    reliability = dict(pack.rows("sources", "source", "reliability"))
    assert reliability["us-patents-memory"].startswith("from memory")


def test_what_a_source_adds_from_memory_is_said_in_its_reliability(pack):
    reliability = dict(pack.rows("sources", "source", "reliability"))
    for register, to, source in pack.rows("registers", "register", "to", "source"):
        if register in ("us-patents", "uk-designs"):
            assert f"({to}) is from memory" in reliability[source]


def test_no_year_is_left_out_and_first_numbers_rise_with_the_years(pack):
    for register in ("us-patents", "uk-designs"):
        rows = [row for row in pack.rows("year-starts", "register", "first", "date") if row[0] == register]
        years, firsts = [int(row[2].rstrip("~")[-4:]) for row in rows], [int(row[1]) for row in rows]
        assert sorted(set(years)) == list(range(years[0], years[-1] + 1))
        assert (years, firsts) == (sorted(years), sorted(set(firsts)))
