"""What a search looks through: each thing that is known, with a title and a text in plain words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.findings import Finding
from knowledge.nouns import Maker, Model, OtherMark, Source, Works


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing that can be found. `kind` is `model`, `maker`, `works`, `register`, `source`, `mark` or `finding`.

    `text` is what is told of it; `also` are words by which it is found too, such as its other names.
    """

    kind: str
    id: str
    title: str
    text: str
    also: str = ""


def texts(knowledge: Knowledge) -> Iterator[Hit]:
    """Yield everything that can be found in words; registers and sources by what they are called."""
    for id_, model in knowledge.models.items():
        yield Hit("model", id_, model.name or id_, _of_model(model, knowledge), ", ".join(model.aliases))
    for id_, maker in knowledge.makers.items():
        yield Hit("maker", id_, maker.name or id_, _of_maker(maker), ", ".join(maker.aliases))
    for id_, works in knowledge.works.items():
        yield Hit("works", id_, works.name or id_, _of_works(works, knowledge))
    for id_, register in knowledge.registers.items():
        yield Hit("register", id_, register.title or id_, _maker(register.maker, knowledge))
    for id_, source in knowledge.sources.items():
        yield Hit("source", id_, source.title or id_, _of_source(source))
    for mark in knowledge.other_marks:
        yield Hit("mark", mark.what, mark.what, _of_mark(mark, knowledge))
    for finding in knowledge.findings.by_key.values():
        yield Hit("finding", finding.key, _title(finding, knowledge), _of_finding(finding))


def _of_model(model: Model, knowledge: Knowledge) -> str:
    years = _years(model.introduced, model.withdrawn)
    parts = {
        "shuttle": model.shuttle, "bobbin": model.bobbin, "needle": model.needle, "bed": model.bed,
        "drive": model.drive, "number": model.where,
    }  # fmt: skip
    made = "; ".join(f"{name}: {value}" for name, value in parts.items() if value)
    return _sentences(", ".join(filter(None, (_maker(model.maker, knowledge), years))), made, model.note)


def _of_maker(maker: Maker) -> str:
    return _sentences(maker.country, maker.where, maker.note)


def _of_works(works: Works, knowledge: Knowledge) -> str:
    return _sentences(_maker(works.maker, knowledge), works.place, _years(works.from_, works.to))


def _of_source(source: Source) -> str:
    return ", ".join(filter(None, (source.author, source.year.replace("/", " to "), source.locator)))


def _of_mark(mark: OtherMark, knowledge: Knowledge) -> str:
    return _sentences(_maker(mark.maker, knowledge), mark.where, mark.note)


def _title(finding: Finding, knowledge: Knowledge) -> str:
    model = knowledge.models[finding.model].name if finding.model in knowledge.models else finding.model
    date = edtf.in_words(edtf.parse(finding.date)) if finding.date else ""
    told = ", ".join(filter(None, (" ".join(filter(None, (_maker(finding.maker, knowledge), model))), date)))
    return f"{finding.serial or 'no readable number'}: {told}" if told else finding.serial


def _of_finding(finding: Finding) -> str:
    return _sentences(finding.evidence, finding.note, f"settled by {finding.role}")


def _maker(id_: str, knowledge: Knowledge) -> str:
    return knowledge.makers[id_].name if id_ in knowledge.makers else id_


def _years(first: str, last: str) -> str:
    return f"{first or '?'} to {last or '?'}" if first or last else ""


def _sentences(*parts: str) -> str:
    told = [part.strip().rstrip(".") for part in parts if part.strip()]
    return ". ".join(f"{part[:1].upper()}{part[1:]}" for part in told)
