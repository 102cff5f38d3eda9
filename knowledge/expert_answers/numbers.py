"""How an answer says the number is stamped."""

from __future__ import annotations

import re
from collections.abc import Sequence

from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.names import Stated
from knowledge.tokens.nouns import Found, SerialToken

SERIAL = "serial"
_RANGE = re.compile(r"\s*(?:-|–|to|bis|through|until|till|a|à|al|tot|and|und|et|en|y|e)\s*")


def serials_in(clause: Clause, found: Found) -> list[tuple[Stated, SerialToken]]:
    """Return the numbers that one clause gives; the two ends of a block are none."""
    tokens = [token for token in found.tokens if clause.start <= token.start < clause.end]
    tokens = [token for token in tokens if not _is_an_end(token, tokens, clause)]
    return [(Stated(SERIAL, (token.serial,), token.start, token.end), token) for token in tokens]


def _is_an_end(token: SerialToken, tokens: Sequence[SerialToken], clause: Clause) -> bool:
    """Tell whether a number is one end of 'from K200001 to K225000'."""
    return any(
        _RANGE.fullmatch(clause.low, min(token.end, other.end), max(token.start, other.start))
        for other in tokens
        if other is not token
    )
