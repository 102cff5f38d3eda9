"""What was understood of an expert's answer, in words, to be looked over before anything is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.expert_answers import ASK_BACK, NO_ANSWER, NOT_OURS, SETTLES, Understood
from knowledge.findings import DATED_DOCUMENT, FEATURE, LEDGER, OPINION
from knowledge.nouns import Maker, Model, Works

_KINDS = {
    SETTLES: "This settles the case.",
    ASK_BACK: "The asker is to be asked something.",
    NOT_OURS: "This is not one for us.",
    NO_ANSWER: "This is no answer to the case.",
}
_EVIDENCE = {
    DATED_DOCUMENT: "a dated document", LEDGER: "a ledger or list", FEATURE: "a feature of the machine",
    OPINION: "the expert's own opinion",
}  # fmt: skip


def in_words(understood: Understood, knowledge: Knowledge) -> Iterator[str]:
    """Yield the lines that say what was understood, then what was not."""
    yield _KINDS[understood.kind]
    for what, value in _facts(understood, knowledge):
        if value:
            yield f"{what}: {value}"
    for piece in understood.unclear:
        yield f"Not clear: {piece}"


def _facts(understood: Understood, knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    yield "Number", understood.serial
    yield "Maker", _named(knowledge.makers, understood.maker)
    yield "Model", _named(knowledge.models, understood.model)
    yield "Works", _named(knowledge.works, understood.works)
    yield "Made", edtf.in_words(edtf.parse(understood.date)) if understood.date else ""
    if understood.kind == SETTLES:
        yield "Evidence", _evidence(understood)
    yield "To be asked", understood.question
    yield "To be told", understood.note


def _named(known: Mapping[str, Maker] | Mapping[str, Model] | Mapping[str, Works], id_: str) -> str:
    return known[id_].name if id_ in known else id_


def _evidence(understood: Understood) -> str:
    kind = _EVIDENCE.get(understood.evidence_kind, "")
    return f"{understood.evidence} ({kind})" if understood.evidence else kind
