"""What each clause of an answer does: tells of the machine, asks, promises, gives up, or speaks of something else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from knowledge.expert_answers import vocabulary as words
from knowledge.expert_answers.clauses import Clause

TELLS, ASKS, NOT_OURS, TAKES, GIVES_UP, QUESTION = "tells", "asks", "not-ours", "takes", "gives-up", "question"
THEIRS, OTHERS, IF, HISTORY = "theirs", "others", "if", "history"

_WHOLE_SENTENCE = frozenset({ASKS, IF})
"""What stays said of the rest of the sentence."""

_TABLE = (
    (NOT_OURS, words.NOT_OURS),
    (ASKS, words.ASKS),
    (IF, words.IF),
    (THEIRS, words.THEIRS),
    (TAKES, words.TAKES),
    (OTHERS, words.OTHERS),
    (HISTORY, words.HISTORY),
    (GIVES_UP, words.GIVES_UP),
)
"""The first whose words stand in a clause tells what it does."""


def acts(parts: Sequence[Clause]) -> list[tuple[str, Clause]]:
    """Return the clauses with what each does."""
    return [
        (act, clause)
        for _, sentence in groupby(parts, key=lambda clause: clause.sentence)
        for act, clause in _of_sentence(list(sentence))
    ]


def _of_sentence(sentence: list[Clause]) -> Iterator[tuple[str, Clause]]:
    lasting = ""
    for clause in sentence:
        act = _act(clause)
        if act in (TELLS, QUESTION) and lasting and not _is_back(lasting, clause):
            act = lasting
        elif act in _WHOLE_SENTENCE or act in (OTHERS,):
            lasting = act
        elif act == TELLS:
            lasting = ""
        yield act, clause


def _is_back(lasting: str, clause: Clause) -> bool:
    return lasting == OTHERS and words.THIS_ONE.search(clause.words) is not None


def _act(clause: Clause) -> str:
    for act, phrases in _TABLE:
        found = phrases.search(clause.low, clause.start, clause.end)
        if found:
            return act
    return QUESTION if clause.is_question else TELLS
