"""What the group's experts settled, and what other groups shared of theirs: each with its evidence and its day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

DATED_DOCUMENT, LEDGER, FEATURE, OPINION = EVIDENCE = ("dated-document", "ledger", "feature", "opinion")
"""Kinds of evidence, the strongest first: a dated document, a ledger or list, a feature of the machine, an opinion."""


@dataclass(frozen=True, slots=True)
class Finding:
    """What is known of one machine since experts settled it.

    `key` is made once and stays the same in every group the finding is shared with. `prefix`, `digits` and `suffix`
    are the number as it is stamped, all '' where none can be read. `maker`, `model` and `works` are ids of the
    knowledge base and `date` is EDTF, '' where nothing was said. `kind` is one of EVIDENCE, `evidence` tells it in
    words. `author` names nobody: 'expert 3', or the group that shared it. `settled` is in UTC; `case` is the number
    of the case in this group, None for what others shared.
    """

    key: str
    prefix: str
    digits: str
    suffix: str
    maker: str
    model: str
    works: str
    date: str
    evidence: str
    kind: str
    note: str
    author: str
    settled: datetime
    case: int | None = None

    @property
    def serial(self) -> str:
        """The number as it is stamped."""
        return self.prefix + self.digits + self.suffix
