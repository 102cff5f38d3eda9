"""Short words for datings, the same in cautions, working and questions. Replies for people are made in bot/replies."""

from __future__ import annotations

from collections.abc import Sequence

from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.candidates import FINDING, INFERRED, Candidate
from knowledge.findings import Finding
from knowledge.registers.register import cell_list

STEPS = {
    "as-typed": "as you typed it",
    "zero-restored": "with the leading zeros put back",
    "zero-removed": "without the leading zeros",
    "letter-for-digit": "taking a letter for the digit it looks like",
    "digit-for-letter": "taking a digit for the letter it looks like",
    "prefix-missing": "with a letter in front that you did not give",
    "digit-missed": "if one digit was left out",
    "digit-extra": "if there is one digit too many",
    "digit-misread": "if one digit was misread",
    "digits-swapped": "if two neighbouring digits were swapped",
    "put-right": "as experts put it right before",
    "unreadable": "with the unreadable places filled",
}

PASSED_OVER = {
    "telephone": "a telephone number",
    "price": "a price",
    "date": "a date",
    "year": "a year",
    "time": "a time of day",
    "measure": "a measure",
    "model-name": "the name of a model",
    "part-number": "the number of a part",
    "patent": "the number of a patent or a registered design",
    "postcode": "part of an address",
    "web-address": "part of a web address",
    "mail-address": "part of a mail address",
    "count": "a count",
    "order-number": "the number of an order or a parcel",
    "quoted": "in a quoted message",
    "taken-back": "taken back by you",
    "reference": "a number of another kind",
}
"""Why a piece of the text was passed over, for each reason of the design."""


def dating(one: Candidate, knowledge: Knowledge) -> str:
    """Return model, works and date: 'Model Ida, Lower Mill, 2 March 1921'."""
    parts = [model_name(one, knowledge), works_name(one, knowledge), date_words(one)]
    return ", ".join(part for part in parts if part)


def model_name(one: Candidate, knowledge: Knowledge) -> str:
    """Return the name of the model, or of the maker where the dating tells no model."""
    known = knowledge.models.get(one.model)
    return (known.name if known and known.name else one.model) or maker_name(one, knowledge)


def works_name(one: Candidate, knowledge: Knowledge) -> str:
    """Return the name of the works, empty where the dating tells none."""
    known = knowledge.works.get(one.works)
    return known.name if known and known.name else one.works


def maker_name(one: Candidate, knowledge: Knowledge) -> str:
    """Return the name of the maker."""
    known = knowledge.makers.get(one.maker)
    return known.name if known and known.name else one.maker


def source_title(one: Candidate, knowledge: Knowledge) -> str:
    """Return the titles of the sources a dating rests on, or who settled it and by what, or what it lies between."""
    if one.kind == FINDING:
        finding = knowledge.findings.by_key[one.rests_on[0]]
        return f"{settled_by(finding)}: {finding.grounds}"
    return one.source if one.kind == INFERRED else titles(one.source, knowledge)


def settled_by(finding: Finding) -> str:
    """Return who settled it and when: 'an expert of the group on 25 November 2026'."""
    day = finding.settled.date()
    return f"{finding.role} on {edtf.in_words(edtf.span(day, day))}"


def register_title(id_: str, knowledge: Knowledge) -> str:
    """Return the title of a register."""
    register = knowledge.registers.get(id_)
    return register.title if register and register.title else id_


def titles(cell: str, knowledge: Knowledge) -> str:
    """Return the titles of the sources that a cell names."""
    named = ((id_, knowledge.sources.get(id_)) for id_ in cell_list(cell))
    return "; ".join(source.title if source and source.title else id_ for id_, source in named)


def date_words(one: Candidate) -> str:
    """Return the date in words; for patents and designs it is the earliest one."""
    if not one.date:
        return "no date told"
    words = edtf.in_words(one.span)
    return f"{words} at the earliest" if one.object in ("grant", "registration") else words


def steps_in_words(steps: Sequence[str]) -> str:
    """Return how a reading came about."""
    return " and ".join(STEPS.get(step, step) for step in steps)


def digits_of(count: int) -> str:
    """Return '1 digit' or '7 digits'."""
    return f"{count} digit" if count == 1 else f"{count} digits"


def listed(parts: Sequence[str], last: str = "or") -> str:
    """Return 'a, b or c'."""
    return f" {last} ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:])))


_NO_BLOCK = {FINDING: "settled by experts", INFERRED: "inferred from its neighbours, no record"}


def block(one: Candidate) -> str:
    """Return the block of a dating and the place in it, or what stands for them where there is no block."""
    if one.first is not None and one.last is None:
        return f"{one.reading.prefix}{one.first}{one.reading.suffix} and later"
    if one.kind in _NO_BLOCK:
        return _NO_BLOCK[one.kind]
    if one.first is None:
        return "a code in the number itself" if one.kind == "date-code" else "by its letters alone"
    prefix, suffix = one.reading.prefix, one.reading.suffix
    place = f", no. {one.position:,} of {one.quantity:,}" if one.position and one.quantity else ""
    return f"{prefix}{one.first}{suffix} to {prefix}{one.last}{suffix}{place}"
