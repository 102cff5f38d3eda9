"""The age of Unicode characters as a register: some 1,900 ranges with gaps and single numbers between.

Source: DerivedAge of the Unicode Character Database, as the package `unicode-age` carries it. A code point
is written in seven decimal digits; the version is given as the model, for the days of the versions are not
in the table.
"""

import random

import pytest
import unicode_age

SPANS = list(unicode_age.iter_spans())


def version(major, minor):
    return f"v{major}-{minor}"


@pytest.fixture
def characters(knowledge_of):
    versions = sorted({version(major, minor) for _, _, major, minor in SPANS})
    rows = [
        ["unicode", str(order), "U", f"{first:07d}", f"{last:07d}", "1991/2026", version(major, minor)]
        for order, (first, last, major, minor) in enumerate(SPANS, start=1)
    ]
    return knowledge_of(
        models=[["model", "maker", "name"], *([one, "m", one] for one in versions)],
        registers=[["register", "maker", "kind"], ["unicode", "m", "allocations"]],
        allocations=[["register", "order", "prefix", "first", "last", "date", "model"], *rows],
    )


def judged(point):
    """Return the version of a code point by a scan of the table, as a list of none or one."""
    return [version(major, minor) for first, last, major, minor in SPANS if first <= point <= last]


def test_the_edges_of_every_range_and_their_neighbours_have_the_age_the_table_gives(characters):
    edges = {edge for first, last, *_ in SPANS for edge in (first, last)}
    points = sorted({edge + step for edge in edges for step in (-1, 0, 1) if edge + step >= 0})
    for point in random.Random(3).sample(points, 2_500):
        assert [block.model for block in characters.covering("U", f"{point:07d}", "")] == judged(point)


@pytest.mark.parametrize("seed", range(20))
def test_a_code_point_out_of_a_sentence_has_the_age_the_package_gives(seed, characters, as_typed):
    point = random.Random(seed).choice(SPANS)[0]
    found = as_typed(f"serial number U{point:07d}", characters)
    assert [one["model"] for one in found] == [version(*unicode_age.version(point))]


def test_a_code_point_in_a_gap_has_no_age(characters, as_typed):
    [gap] = [last + 1 for first, last, *_ in SPANS if last == 0x0377]
    with pytest.raises(ValueError, match="not allocated"):
        unicode_age.version(gap)
    assert as_typed(f"serial number U{gap:07d}", characters) == []
