"""What an answer is to, and what is understood of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from knowledge.answer import Answer
from knowledge.candidates import Candidate
from knowledge.said import Said

SETTLES, ASK_BACK, NOT_OURS, NO_ANSWER = KINDS = ("settles", "ask-back", "not-ours", "no-answer")


@dataclass(frozen=True, slots=True)
class About:
    """The question an answer is to.

    `text` is what the asker wrote: where the expert repeats it, it is not the expert's word. `serials` are the numbers
    asked about, cleaned. `candidates` must be those that the expert was shown, in that order: "the second one".
    """

    text: str = ""
    serials: tuple[str, ...] = ()
    said: Said = field(default_factory=Said)
    candidates: tuple[Candidate, ...] = ()

    @classmethod
    def of(cls, answered: Answer, shown: Sequence[Candidate] | None = None) -> About:
        """Return the question of an answer that the bot gave; `shown` are the datings shown, else all of them."""
        serials = tuple(token.serial for token in answered.tokens)
        return cls(answered.text, serials, answered.said, tuple(answered.candidates if shown is None else shown))


@dataclass(frozen=True, slots=True)
class Understood:
    """What is understood of one answer. Every text is '' where nothing was said.

    `kind` is one of KINDS. `prefix`, `digits` and `suffix` are the number as the expert says it is stamped; `maker`,
    `model` and `works` are ids of the knowledge base; `date` is EDTF. `evidence` is told in the expert's own words,
    and `evidence_kind` is one of `findings.EVIDENCE`. `question` is what the asker is to be asked, `note` what the
    asker is to be told beside. `unclear` holds the pieces that could not be read surely, each with the reason.
    """

    kind: str
    prefix: str = ""
    digits: str = ""
    suffix: str = ""
    maker: str = ""
    model: str = ""
    works: str = ""
    date: str = ""
    evidence: str = ""
    evidence_kind: str = ""
    question: str = ""
    note: str = ""
    unclear: tuple[str, ...] = ()

    @property
    def serial(self) -> str:
        """The whole number, without separators."""
        return self.prefix + self.digits + self.suffix

    @property
    def tells(self) -> bool:
        """Whether anything was said of the machine itself."""
        return bool(self.serial or self.maker or self.model or self.works or self.date)


_PRINTED = ("serial", "maker", "model", "works", "date", "evidence")
_MORE = ("evidence_kind", "question", "note")


def as_json(understood: Understood) -> dict[str, Any]:
    """Return what `cases read --json` prints: null where nothing was said, ids as in the pack."""
    printed: dict[str, Any] = {"kind": understood.kind}
    printed.update({name: getattr(understood, name) or None for name in (*_PRINTED, *_MORE)})
    return {**printed, "unclear": list(understood.unclear)}
