"""When a clause says the machine was made."""

from __future__ import annotations

from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.names import Stated
from knowledge.hearing.years import years


def dates_in(clause: Clause) -> list[Stated]:
    """Return the times that one clause states."""
    said = years([one.word for one in clause.placed()])
    return [Stated("date", (one.text,), clause.start, clause.end) for one in said]
