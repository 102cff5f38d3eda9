"""The answers of tests/corpus_experts are understood."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from tests.corpus_experts.measure import COMPLETELY, FACTS, FOLDER, WRONGLY, Verdict, knowledge, lines, verdicts

SETS = sorted(FOLDER.glob("*.jsonl"))
NEEDED = 190 / 200


@pytest.fixture(scope="module", params=SETS, ids=lambda path: path.stem)
def judged(request: pytest.FixtureRequest) -> list[Verdict]:
    path: Path = request.param
    return verdicts(lines(path))


def test_of_200_answers_at_least_190_are_understood_completely(judged):
    understood = [one for one in judged if one.name == COMPLETELY]
    assert len(understood) / len(judged) >= NEEDED, [one.text for one in judged if one.name != COMPLETELY]


def test_hardly_any_is_taken_for_something_else_than_it_says(judged):
    wrong = [one for one in judged if one.name == WRONGLY]
    assert len(wrong) / len(judged) <= 0.02, [(one.text, one.wrong) for one in wrong]


def test_there_are_more_than_200_answers_of_every_kind():
    rows = [row for path in SETS for row in lines(path)]
    kinds = Counter(kind for row in rows if isinstance(kind := row.get("kind", "settles"), str))
    assert len(rows) > 500
    assert all(kinds[kind] >= 20 for kind in ("settles", "ask-back", "not-ours", "no-answer"))


def test_every_label_is_an_id_that_its_pack_has():
    for row in (row for path in SETS for row in lines(path)):
        known = knowledge(row.get("pack", "demo"))
        for name, ids in (("maker", known.makers), ("model", known.models), ("works", known.works)):
            allowed = row.get(name, "")
            assert {*([allowed] if isinstance(allowed, str) else allowed)} <= {"", "any", *ids}, row["text"]
        assert set(row) <= {"text", "kind", "pack", "question", "about", "evidence", "evidence_kind", *FACTS}
