"""What an expert of the group writes in answer to a case -> what is understood of it.

    letter.py      which words of a message are the expert's own
    clauses.py     those words clause by clause, each with its place
    acts.py        what a clause does: tells of the machine, asks, promises, speaks of another machine
    names.py       makers, models and works it names
    dates.py       when it says the machine was made
    numbers.py     how it says the number is stamped
    evidence.py    what the expert goes by
    vocabulary.py  the phrases of all these

Whatever cannot be read surely is handed back as unclear, so that it can be shown; nothing is guessed.
"""

from __future__ import annotations

from knowledge.expert_answers.nouns import (
    ASK_BACK,
    KINDS,
    NO_ANSWER,
    NOT_OURS,
    SETTLES,
    About,
    Understood,
    as_json,
)
from knowledge.expert_answers.understanding import understand

__all__ = [
    "ASK_BACK",
    "KINDS",
    "NOT_OURS",
    "NO_ANSWER",
    "SETTLES",
    "About",
    "Understood",
    "as_json",
    "understand",
]
