"""The knowledge base in memory: everything some packs say, arranged for answering.

Ids are those of the packs. Where two packs use one id for different things, the later one's is `pack/id`. What a pack
of findings calls by the name of a thing that the others know is that thing, under the id they know it by (alike.py).
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from knowledge.alike import Thing, filled, same_things
from knowledge.between import Between
from knowledge.errors import UsageError
from knowledge.findings import Finding, Findings, Sighting, sighted
from knowledge.mistakes import Learned
from knowledge.names import Names, fold
from knowledge.nouns import Maker, Model, OtherMark, PrefixEntry, Source, Works
from knowledge.registers import (
    Block,
    BlockRow,
    Blocks,
    PackSource,
    Register,
    allocations,
    date_codes,
    year_starts,
)
from knowledge.registers.date_codes import DateCode
from knowledge.registers.register import cell_list, changed_rows
from knowledge.shapes import Shapes
from knowledge.shared import findings_of, newest_first, shares, sightings_of

_MAKER = ("maker", "name", "aliases", "country", "where", "drawing", "note")
_MODEL = (
    "model", "maker", "name", "aliases", "introduced", "withdrawn", "shuttle", "bobbin", "needle", "bed", "drive",
    "where", "drawing", "note", "source",
)  # fmt: skip
_REGISTER = ("register", "maker", "kind", "title", "object", "introducer", "from", "to", "source")


@dataclass(slots=True)
class Knowledge:
    """Everything known. Built once by `of`, then only read; a change of packs makes a new one."""

    makers: dict[str, Maker] = field(default_factory=dict)
    models: dict[str, Model] = field(default_factory=dict)
    works: dict[str, Works] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    registers: dict[str, Register] = field(default_factory=dict)
    homes: dict[str, tuple[str, str]] = field(default_factory=dict)
    """For each register the name of its pack, and its id there."""
    prefixes: dict[str, list[PrefixEntry]] = field(default_factory=dict)
    other_marks: list[OtherMark] = field(default_factory=list)
    blocks: Blocks = field(default_factory=Blocks)
    introduced: dict[str, Blocks] = field(default_factory=dict)
    codes: list[DateCode] = field(default_factory=list)
    names: Names = field(default_factory=Names)
    shapes: Shapes = field(default_factory=lambda: Shapes.of(()))
    findings: Findings = field(default_factory=Findings)
    all_shapes: Shapes = field(default_factory=lambda: Shapes.of(()))
    """Those of the registers, and those of the numbers with a finding or sighting."""
    between: Between = field(default_factory=Between)
    shared: dict[str, tuple[Finding, ...]] = field(default_factory=dict)
    """The findings that came with each pack, by its name."""
    sighted: dict[str, Sighting] = field(default_factory=dict)
    """The sightings that came with packs, by their ids; those that are a finding are left to that."""
    learned: Learned = field(default_factory=Learned)

    @classmethod
    def of(
        cls, sources: Sequence[PackSource], findings: Iterable[Finding] = (), sightings: Iterable[Sighting] = (),
        learned: Learned | None = None,
    ) -> Knowledge:  # fmt: skip
        """Return what packs, findings and further sightings know together. They must have been checked before.

        `learned` is what settled cases taught about the mistakes people make. Raises UsageError when two packs have
        the same name.
        """
        names = [source.name for source in sources]
        for name in names:
            if names.count(name) > 1:
                raise UsageError(f"Two of the packs are called {name}. Name each pack once, or rename one of them.")
        knowledge = cls()
        for source in sorted(sources, key=shares):
            _Reader(knowledge, source).read()
        knowledge.shapes = knowledge.all_shapes = Shapes.of(knowledge.blocks.shapes())
        knowledge._learn(findings, sightings)
        knowledge.learned = learned or Learned()
        knowledge.names = _names(knowledge)
        return knowledge

    def _learn(self, findings: Iterable[Finding], sightings: Iterable[Sighting]) -> None:
        of_packs = newest_first(one for share in self.shared.values() for one in share)
        self.findings = Findings.of([*findings, *of_packs])
        more_seen = (one for key, one in self.sighted.items() if key not in self.findings.by_key)
        seen = [*filter(None, map(sighted, self.findings.by_key.values())), *sightings, *more_seen]
        self.between = Between.of(seen, self.maker_of_finding, self.blocks, self.registers.values())
        more = self.findings.shapes | self.between.shapes()
        if more:
            self.all_shapes = Shapes.of(self.shapes.series | more)

    def covering(self, prefix: str, digits: str, suffix: str) -> list[Block]:
        """Return the blocks of every serial register that hold this number."""
        return [self.blocks.block(row) for row in self.blocks.covering(prefix, digits, suffix)]

    def prepare(self) -> None:
        """Sort every series now, where a long-running process would else sort each at its first question."""
        for blocks in (self.blocks, *self.introduced.values()):
            blocks.prepare()
        self.between.prepare()

    def maker_of(self, register: str) -> str:
        """Return the maker of a register, empty when the register is not known."""
        known = self.registers.get(register)
        return known.maker if known else ""

    def maker_of_finding(self, one: Finding | Sighting) -> str:
        """Return the maker of a machine, that of its model where only the model is told; empty when not known."""
        model = self.models.get(one.model)
        return one.maker or (model.maker if model else "")


class _Reader:
    """Takes one pack in: gives its ids their names in the knowledge base, then its rows."""

    def __init__(self, knowledge: Knowledge, source: PackSource) -> None:
        self._knowledge = knowledge
        self._source = source
        self._ids: dict[str, dict[str, str]] = {
            kind: {"": ""} for kind in ("maker", "model", "works", "source", "register")
        }

    def read(self) -> None:
        known = self._knowledge
        for cells in self._source.rows("sources", "source", "title", "author", "year", "locator", "reliability"):
            self._keep("source", known.sources, Source(*cells))
        rows = self._source.rows("makers", *_MAKER)
        self._keep_named("maker", known.makers, (Maker(id_, name, cell_list(o), *more) for id_, name, o, *more in rows))
        rows = self._source.rows("works", "works", "maker", "name", "place", "from", "to")
        self._keep_named("works", known.works, (Works(id_, self._id("maker", of), *more) for id_, of, *more in rows))
        rows = self._source.rows("models", *_MODEL)
        self._keep_named("model", known.models, (self._model(dict(zip(_MODEL, row, strict=True))) for row in rows))
        self._registers()
        self._second_list()
        self._machines()

    def _model(self, cells: dict[str, str]) -> Model:
        told: dict[str, Any] = dict(cells)
        told["id"] = told.pop("model")
        told["maker"], told["source"] = self._id("maker", cells["maker"]), self._id("source", cells["source"])
        told["aliases"] = cell_list(cells["aliases"])
        return Model(**told)

    def _id(self, kind: str, id_: str) -> str:
        """Return the id in the knowledge base; a cell may name several sources."""
        if kind == "source" and ";" in id_:
            return "; ".join(self._id(kind, one) for one in cell_list(id_))
        return self._ids[kind].get(id_, id_)

    def _keep_named(self, kind: str, known: dict[str, Thing], given: Iterable[Thing]) -> None:
        """Keep nouns. What a pack of findings calls by a name that is known is kept under the id it has already."""
        nouns = list(given)
        same = same_things(known, nouns) if shares(self._source) else {}
        self._ids[kind].update(same)
        for noun in nouns:
            if noun.id in same:
                known[same[noun.id]] = filled(known[same[noun.id]], noun)
            else:
                self._keep(kind, known, noun)

    def _keep(self, kind: str, known: dict[str, Any], noun: Any) -> None:
        """Keep a noun under its id, or under `pack/id` when another pack uses that for something else."""
        id_ = noun.id
        if known.get(id_, noun) != noun:
            id_ = f"{self._source.name}/{noun.id}"
            self._ids[kind][noun.id] = id_
        known[id_] = noun

    def _registers(self) -> None:
        known = self._knowledge
        of_pack: dict[str, Register] = {}
        for id_, maker, kind, title, object_, introducer, from_, to, source in self._source.rows(
            "registers", *_REGISTER
        ):
            key = id_ if id_ not in known.registers else f"{self._source.name}/{id_}"
            register = Register(
                key, self._id("maker", maker), kind, title, object_ or "allocation", cell_list(introducer), from_, to,
                self._id("source", source),
            )  # fmt: skip
            known.registers[key] = of_pack[id_] = register
            known.homes[key] = (self._source.name, id_)
            self._ids["register"][id_] = key
        for module in (allocations, year_starts):
            registers = {id_: register for id_, register in of_pack.items() if register.kind == module.KIND}
            self._blocks(module.blocks(self._source, registers), registers)
        coded = {id_: register for id_, register in of_pack.items() if register.kind == date_codes.KIND}
        known.codes.extend(date_codes.codes(self._source, coded, self._id))

    def _blocks(self, rows: Iterable[tuple[str, ...]], registers: Mapping[str, Register]) -> None:
        """Share rows out: one set of blocks for all serial registers, one for each register with an introducer."""
        known = self._knowledge
        if not any(register.introducers for register in registers.values()):
            known.blocks.extend(self._renamed(rows))
            return
        shares: defaultdict[str, list[tuple[str, ...]]] = defaultdict(list)
        for row in self._renamed(rows):
            shares[row[0]].append(row)
        for register, share in shares.items():
            apart = known.registers[register].introducers
            blocks = known.introduced.setdefault(register, Blocks()) if apart else known.blocks
            blocks.extend(share)

    def _renamed(self, rows: Iterable[tuple[str, ...]]) -> Iterable[tuple[str, ...]]:
        """Return rows with the ids of the knowledge base: the pack's own, but where another pack had them first."""
        kinds = ("register", "model", "works", "source")
        if not any(id_ != own for kind in kinds for own, id_ in self._ids[kind].items()):
            return rows
        return (
            row._replace(**{kind: self._id(kind, getattr(row, kind)) for kind in kinds})
            for row in (BlockRow(*cells) for cells in rows)
        )

    def _second_list(self) -> None:
        known = self._knowledge
        changed = changed_rows(self._source, "prefixes")
        for row in self._source.rows("prefixes", "register", "prefix", "date", "works", "source"):
            own, prefix, date, works, cell = row
            register, source = self._id("register", own), self._id("source", cell)
            if row in changed:
                listed = known.registers.get(register)
                source = changed[row].beside(source, listed.source if listed else "")
            entry = PrefixEntry(register, prefix, date, self._id("works", works), source)
            known.prefixes.setdefault(prefix, []).append(entry)
        for maker, prefix, digits, *rest in self._source.rows(
            "other-marks", "maker", "prefix", "digits", "what", "where", "note"
        ):
            known.other_marks.append(OtherMark(self._id("maker", maker), prefix, int(digits or 0), *rest))

    def _machines(self) -> None:
        """Take in what other groups found out of single machines."""
        known, pack = self._knowledge, self._source.name
        known.shared[pack] = tuple(findings_of(self._source, self._id))
        for one in sightings_of(self._source, self._id):
            key = one.key if known.sighted.get(one.key, one) == one else f"{pack}/{one.key}"
            known.sighted[key] = replace(one, key=key)


def _names(knowledge: Knowledge) -> Names:
    introducers: defaultdict[str, list[str]] = defaultdict(list)
    for register in knowledge.registers.values():
        for words in register.introducers:
            introducers[fold(words)].append(register.id)
    works: defaultdict[str, list[str]] = defaultdict(list)
    for id_, one in knowledge.works.items():
        for name in (one.name, one.place):
            if name and id_ not in works[fold(name)]:
                works[fold(name)].append(id_)
    return Names(
        shapes=knowledge.shapes.series | {shape for shape in knowledge.all_shapes.series if shape[0] or shape[2]},
        codes=(*(code.pattern for code in knowledge.codes if code.register.is_of_serials), *_mixed(knowledge)),
        models=_by_name(knowledge.models),
        makers=_by_name(knowledge.makers),
        works={name: tuple(ids) for name, ids in works.items()},
        introducers={words: tuple(ids) for words, ids in introducers.items()},
    )


def _mixed(knowledge: Knowledge) -> Iterator[re.Pattern[str]]:
    """Yield one expression for all findings whose letters stand among the digits: no shape tells of them."""
    if knowledge.findings.mixed:
        yield re.compile("|".join(sorted(map(re.escape, knowledge.findings.mixed))))


def _by_name(nouns: Mapping[str, Maker] | Mapping[str, Model]) -> dict[str, tuple[str, ...]]:
    found: defaultdict[str, list[str]] = defaultdict(list)
    for id_, noun in nouns.items():
        for name in filter(None, (noun.name, *noun.aliases)):
            if id_ not in found[fold(name)]:
                found[fold(name)].append(id_)
    return {name: tuple(ids) for name, ids in found.items()}
