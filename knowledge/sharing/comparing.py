"""What another group shared, beside what is known here: new, equal, contradictory. Nothing is changed by looking.

Their things are first given the ids of ours (knowledge/alike.py), so that two ids of one maker are no difference, and
one id of two makers is. Then each machine is judged as it will be when the pack is loaded, beside our findings, our
registers and what else the pack says (knowledge/contradictions.py), so that an answer disagrees where this does.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from knowledge import wording
from knowledge.base import Knowledge
from knowledge.candidates import of_finding
from knowledge.contradictions import contradictions
from knowledge.findings import Finding, Sighting
from knowledge.readings import Reading
from knowledge.registers import PackSource

NEW, EQUAL, CONTRADICTORY, OUTDATED, WITHDRAWN = "new", "equal", "contradictory", "outdated", "withdrawn"
KINDS = (NEW, EQUAL, CONTRADICTORY, OUTDATED, WITHDRAWN)
"""Outdated is a finding that is known here in a later state, withdrawn one that was withdrawn here: it stays so."""
FINDING, SIGHTING = "finding", "sighting"


@dataclass(frozen=True, slots=True)
class Side:
    """One machine that another group shared, beside what is known here.

    `what` is 'finding' or 'sighting', `kind` one of KINDS. `theirs` says in words what they say, `ours` what is said
    against it, here or in their own pack, a sentence each. `machine` is what they say with the ids of our knowledge.
    """

    what: str
    kind: str
    machine: Finding
    theirs: str
    ours: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """A short name for this very contradiction, the same as long as they say the same."""
        told = repr((self.what, self.machine.key, _statement(self.machine)))
        return hashlib.sha256(told.encode()).hexdigest()[:32]


@dataclass(frozen=True, slots=True)
class Comparison:
    """All machines of a pack beside ours, in the order of the pack. `knowledge` is ours and theirs together."""

    pack: str
    sides: tuple[Side, ...]
    knowledge: Knowledge

    def count(self, what: str, kind: str) -> int:
        """Return how many findings (or sightings) are of one of KINDS."""
        return sum(one.what == what and one.kind == kind for one in self.sides)

    @property
    def contradictory(self) -> tuple[Side, ...]:
        """Those that cannot be true together with what is known here."""
        return tuple(one for one in self.sides if one.kind == CONTRADICTORY)


def compare(
    theirs: PackSource, ours: Sequence[PackSource], findings: Iterable[Finding], withdrawn: Collection[str] = ()
) -> Comparison:
    """Put a pack beside our packs and findings. `ours` may hold an earlier state of the same pack, which is known then.

    `withdrawn` are keys of findings that were withdrawn here: they stay so, whoever shares them again.
    """
    own = list(findings)
    others = [source for source in ours if source.name != theirs.name]
    apart = Knowledge.of(others, own)
    known = apart if len(others) == len(ours) else Knowledge.of(ours, own)
    both = Knowledge.of([*others, theirs], own)
    return Comparison(theirs.name, tuple(_sides(theirs.name, apart, known, both, withdrawn)), both)


def _sides(
    pack: str, apart: Knowledge, known: Knowledge, both: Knowledge, withdrawn: Collection[str]
) -> Iterator[Side]:
    """`apart` is without the pack, `known` with what it said before, `both` with what it says now."""
    said = {_statement(one) for one in _machines(known)}
    shared = both.shared[pack]
    keys = {one.key for one in shared}
    of_pack = [(FINDING, one) for one in shared]
    of_pack += [(SIGHTING, _as_finding(one)) for one in _sightings_of(both, apart) if one.key not in keys]
    for what, one in of_pack:
        if one.key in withdrawn:
            yield Side(what, WITHDRAWN, one, _in_words(one, both))
        else:
            yield _side(what, one, apart, both, said)


def _side(what: str, one: Finding, apart: Knowledge, both: Knowledge, said: Collection[tuple[str, ...]]) -> Side:
    mine = apart.findings.by_key.get(one.key)
    words = _in_words(one, both)
    if mine is not None and _adds_nothing(one, mine):
        return Side(what, EQUAL, one, words)
    if mine is not None and mine.settled >= one.settled:
        return Side(what, OUTDATED, one, words)
    against = list(contradictions(one, both))
    if mine is not None and mine.is_own:
        against.insert(0, f"our own, settled by {wording.settled_by(mine)}, says {_in_words(mine, apart)}")
    kind = CONTRADICTORY if against else EQUAL if _statement(one) in said else NEW
    return Side(what, kind, one, words, tuple(against))


def _machines(knowledge: Knowledge) -> Iterator[Finding]:
    yield from knowledge.findings.by_key.values()
    yield from map(_as_finding, knowledge.sighted.values())


def _sightings_of(both: Knowledge, apart: Knowledge) -> Iterator[Sighting]:
    """Yield the sightings that came with the pack, and those that it says again."""
    return (one for key, one in both.sighted.items() if apart.sighted.get(key) != one)


def _adds_nothing(one: Finding, mine: Finding) -> bool:
    return all(theirs in ("", ours) for theirs, ours in zip(_statement(one), _statement(mine), strict=True))


def _statement(one: Finding) -> tuple[str, ...]:
    """What a finding says of which machine; a machine without a number is known by the key alone."""
    return ("" if one.digits else one.key, *one.number, one.maker, one.model, one.works, one.date)


def _as_finding(one: Sighting) -> Finding:
    key = one.key if len(one.key) == 32 else hashlib.sha256(one.key.encode()).hexdigest()[:32]
    return Finding(
        key, one.prefix, one.digits, one.suffix, one.maker, one.model, one.works, one.date, one.evidence, one.kind, "",
        one.source or SIGHTING, datetime(1, 1, 2, tzinfo=UTC),
    )  # fmt: skip


def _in_words(one: Finding, knowledge: Knowledge) -> str:
    """Return 'Model 9, Quay Works, 1911: by the shuttle'."""
    reading = Reading(*one.number, ("as-typed",), 1.0)
    dating = wording.dating(of_finding(one, reading, 0, knowledge), knowledge)
    return f"{dating or one.note}: {one.grounds}"
