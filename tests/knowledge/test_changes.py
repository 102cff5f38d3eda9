"""Tests of knowledge/changes.py."""

from __future__ import annotations

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from knowledge.changes import EXAMPLES, compare

COLUMNS = ["prefix", "first", "date"]
rows = st.lists(st.tuples(st.sampled_from("AB"), st.sampled_from("12"), st.sampled_from("xyz")), max_size=12)


@given(rows, rows)
def test_the_counts_turn_the_old_rows_into_the_new_ones(old: list[tuple[str, ...]], new: list[tuple[str, ...]]) -> None:
    found = compare("t", COLUMNS, 2, iter(sorted(old)), iter(sorted(new)))
    assert len(old) + found.added - found.removed == len(new)
    gone, come = Counter(old) - Counter(new), Counter(new) - Counter(old)
    assert found.changed + found.removed == gone.total()
    assert found.changed + found.added == come.total()
    keys_gone, keys_come = (Counter(row[:2] for row in side.elements()) for side in (gone, come))
    assert found.changed == (keys_gone & keys_come).total()


def test_only_the_first_few_changes_are_told_in_words() -> None:
    found = compare("t", COLUMNS, 2, iter([]), iter([("A", str(number), "x") for number in range(9)]))
    assert found.added == 9
    assert len(found.examples) == EXAMPLES
    assert found.examples[0] == "added: prefix A, first 0"
