"""What was understood of an expert's answer, in words, to be looked over before anything is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.expert_answers import ASK_BACK, NO_ANSWER, NOT_OURS, SETTLES, Understood
from knowledge.findings import DATED_DOCUMENT, FEATURE, LEDGER, OPINION, Finding
from knowledge.nouns import Maker, Model, Works

_KINDS = {
    SETTLES: "This settles the case.",
    ASK_BACK: "The asker is to be asked something.",
    NOT_OURS: "This is not one for us.",
    NO_ANSWER: "This is no answer to the case.",
}
EVIDENCE_IN_WORDS: Mapping[str, str] = {
    DATED_DOCUMENT: "a dated document", LEDGER: "a ledger or list", FEATURE: "a feature of the machine",
    OPINION: "an opinion",
}  # fmt: skip


def in_words(understood: Understood, knowledge: Knowledge) -> Iterator[str]:
    """Yield the lines that say what was understood, then what was not."""
    yield _KINDS[understood.kind]
    if understood.serial:
        yield f"Number: {understood.serial}"
    if understood.kind == SETTLES:
        yield from machine_and_evidence(understood, found_words(understood, knowledge))
    if understood.question:
        yield f"To be asked: {understood.question}"
    yield from not_understood(understood)


def machine_and_evidence(understood: Understood, found: str) -> Iterator[str]:
    """Yield what was said of the machine (`found`, in words), by what evidence, and what was told beside."""
    kind = EVIDENCE_IN_WORDS.get(understood.evidence_kind, EVIDENCE_IN_WORDS[OPINION])
    yield f"Machine: {found or 'nothing said'}"
    yield f"Evidence: {understood.evidence or 'none told'} (kept as {kind})"
    if understood.note:
        yield f"Beside: {understood.note}"


def not_understood(understood: Understood) -> list[str]:
    """Return a line for every piece that could not be read surely."""
    return [f"Not understood: {piece}" for piece in understood.unclear]


def found_words(understood: Understood, knowledge: Knowledge) -> str:
    """Return machine, works and date that an expert told: 'Ottrel & Vane Model 9, Hallowmere Works, about 1911'."""
    return machine_words(understood, knowledge) if understood.kind == SETTLES else ""


def machine_words(said: Understood | Finding, knowledge: Knowledge) -> str:
    """Return machine, works and date of an answer or a finding in words, '' for nothing."""
    maker, model = _named(knowledge.makers, said.maker), _named(knowledge.models, said.model)
    machine = model if model and model.startswith(maker) else f"{maker} {model}".strip()
    date = edtf.in_words(edtf.parse(said.date)) if said.date else ""
    return ", ".join(part for part in (machine, _named(knowledge.works, said.works), date) if part)


def _named(known: Mapping[str, Maker] | Mapping[str, Model] | Mapping[str, Works], id_: str) -> str:
    return known[id_].name or id_ if id_ in known else id_
