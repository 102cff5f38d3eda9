"""What experts settled, as a pack for other groups: no names of people, no addresses, no words of a message.

Goes along: the number, maker, model, works, date, the evidence (masked, see knowledge/personal.py), its kind, the group
and the moment. Stays here: the note of an expert of ours, for it is what they wrote; the number of the case; everything
that was withdrawn. A note that came in a pack was written for others, and goes along masked.

What other groups shared goes along with their name, so that a finding reaches groups that do not know each other. The
same knowledge makes the same bytes: everything stands in a fixed order, and nothing tells when the pack was made.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import TypeVar

from knowledge.base import Knowledge
from knowledge.findings import Finding, Sighting, sighted
from knowledge.names import fold
from knowledge.nouns import Maker, Model, Source, Works
from knowledge.packs.tables import SCHEMAS, Pack, Table
from knowledge.personal import known_words, masked
from knowledge.registers.register import cell_list
from knowledge.shared import FINDING, SIGHTING, row_of_finding, row_of_sighting

SOME_GROUP = "another collectors' group"
"""What a group is called that gives itself no name."""
_ABOUT = (
    "Single machines as experts settled them, each with its evidence. Put it beside your own knowledge with: "
    "bedstamp knowledge compare, then bedstamp pack load."
)
_Noun = Maker | Model | Works | Source
_Thing = TypeVar("_Thing", Maker, Model, Works)


@dataclass(frozen=True, slots=True)
class Left:
    """What an export leaves out, counted: notes of our experts, findings that were nothing but a note, masked texts."""

    notes: int
    only_notes: int
    masked: int


def exported(knowledge: Knowledge, group: str = "", name: str = "") -> tuple[Pack, Left]:
    """Return a pack of all findings and sightings, and what was left out. `group` is how others know this group.

    `name` is the name of the pack. Without one it is made of the group's, or else of the first finding's key, so that
    a later export takes the place of an earlier one.
    """
    known = sorted(knowledge.findings.by_key.values(), key=_in_order)
    words = known_words(knowledge)
    shown = [_for_others(one, group or SOME_GROUP, words) for one in known]
    findings = [one for one in shown if any((one.maker, one.model, one.works, one.date, one.note))]
    sightings = sorted(_sightings(findings, knowledge, words), key=_in_order)
    pack = Pack.of(
        name or _name(group, findings, sightings),
        *_tables(findings, sightings, knowledge),
        title=f"Findings of {group}" if group else "Findings of a collectors' group",
        more={"description": _ABOUT},
    )
    own_notes = sum(bool(one.note) for one in known if one.is_own)
    hidden = sum(one.evidence != other.evidence for one, other in zip(known, shown, strict=True))
    return pack, Left(own_notes, len(shown) - len(findings), hidden)


def _for_others(one: Finding, group: str, words: Collection[str]) -> Finding:
    note = "" if one.is_own else masked(one.note, words)
    author = f"an expert of {group}" if one.is_own else one.author
    evidence = masked(one.evidence, words)
    return replace(one, note=_plain(note), evidence=_plain(evidence), author=_plain(author), case=None)


def _plain(text: str) -> str:
    """Return a text on one line, as a cell of a spreadsheet holds it."""
    return " ".join(text.split())


def _sightings(findings: Iterable[Finding], knowledge: Knowledge, words: Collection[str]) -> Iterator[Sighting]:
    """Yield the machines that findings tell of, and those that packs brought, each once."""
    for finding in findings:
        seen = sighted(finding)
        if seen is not None:
            yield replace(seen, source="")
    for one in knowledge.sighted.values():
        if one.key not in knowledge.findings.by_key:
            yield replace(one, evidence=_plain(masked(one.evidence, words)))


def _in_order(one: Finding | Sighting) -> tuple[str, int, str, str, str]:
    return one.prefix, len(one.digits), one.digits, one.suffix, one.key


def _tables(findings: Sequence[Finding], sightings: Sequence[Sighting], knowledge: Knowledge) -> Iterator[Table]:
    yield _table("findings", FINDING, map(row_of_finding, findings))
    yield _table("sightings", SIGHTING, map(row_of_sighting, sightings))
    machines: list[Finding | Sighting] = [*findings, *sightings]
    models = _named({one.model for one in machines}, knowledge.models, _bare_model)
    works = _named({one.works for one in machines}, knowledge.works, lambda id_: Works(id_, "", "", "", "", ""))
    makers = {one.maker for one in machines} | {one.maker for one in models} | {one.maker for one in works}
    cells = (*(one.source for one in sightings), *(model.source for model in models))
    sources = {id_ for cell in cells for id_ in cell_list(cell) if id_ in knowledge.sources}
    yield _of_nouns("models", models)
    yield _of_nouns("works", works)
    yield _of_nouns("makers", _named(makers, knowledge.makers, lambda id_: Maker(id_, "", (), "", "", "", "")))
    yield _of_nouns("sources", [knowledge.sources[id_] for id_ in sorted(sources)])


def _bare_model(id_: str) -> Model:
    return Model(id_, "", "", (), "", "", "", "", "", "", "", "", "", "", "")


def _named(ids: set[str], known: Mapping[str, _Thing], bare: Callable[[str], _Thing]) -> list[_Thing]:
    """Return things by their ids; of one that is known by its id alone there is nothing more to tell."""
    return [replace(known[id_], id=id_) if id_ in known else bare(id_) for id_ in sorted(ids - {""})]


def _of_nouns(table: str, nouns: Iterable[_Noun]) -> Table:
    """Return things as rows. Drawings stay here: they are files of the pack that they came with."""
    columns = tuple(SCHEMAS[table].columns)
    rows = (tuple("" if name == "drawing" else _cell(one, name) for name in columns) for one in nouns)
    return _table(table, columns, rows)


def _cell(noun: _Noun, column: str) -> str:
    """Return what a noun says for a column; the first field of every noun is its id."""
    told = {field.name.rstrip("_"): getattr(noun, field.name) for field in fields(noun)}
    found = told.get(column, noun.id)
    return found if isinstance(found, str) else "; ".join(found)


def _table(name: str, columns: Sequence[str], rows: Iterable[tuple[str, ...]]) -> Table:
    made = list(rows)
    return Table.of(name, {column: [row[place] for row in made] for place, column in enumerate(columns)})


def _name(group: str, findings: Sequence[Finding], sightings: Sequence[Sighting]) -> str:
    of_group = re.sub(r"[^a-z0-9]+", "-", fold(group)).strip("-")
    if of_group:
        return f"findings-{of_group}"
    first = min(findings, key=lambda one: (one.settled, one.key), default=None)
    key = first.key if first else min((one.key for one in sightings), default="none")
    return f"findings-{re.sub('[^a-z0-9]+', '-', fold(key))[:12].strip('-')}"
