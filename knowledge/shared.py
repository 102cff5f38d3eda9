"""Findings and sightings as packs carry them from group to group: rows of findings.csv and sightings.csv."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import UTC, datetime

from knowledge.findings import Finding, Sighting
from knowledge.registers import PackSource

FINDING = (
    "finding", "prefix", "number", "suffix", "digits", "maker", "model", "works", "date", "evidence", "kind", "note",
    "author", "settled",
)  # fmt: skip
SIGHTING = (
    "sighting", "prefix", "number", "suffix", "digits", "maker", "model", "works", "date", "evidence", "kind", "source",
)  # fmt: skip
Known = Callable[[str, str], str]
"""Kind of thing ('maker', 'model', 'works', 'source') and its id in the pack -> its id in the knowledge base."""


def shares(source: PackSource) -> bool:
    """Tell whether a pack has findings or sightings of single machines."""
    return any(True for table in ("findings", "sightings") for _ in source.rows(table, SIGHTING[1]))


def findings_of(source: PackSource, known: Known) -> Iterator[Finding]:
    """Yield the findings of a pack that was checked, with the ids of the knowledge base. Those that say nothing go."""
    for key, prefix, number, suffix, _, maker, model, works, *more in source.rows("findings", *FINDING):
        date, evidence, kind, note, author, settled = more
        things = (known("maker", maker), known("model", model), known("works", works))
        if any((*things, date, note)):
            yield Finding(
                key, prefix.upper(), number, suffix.upper(), *things, date, evidence, kind, note, author,
                moment(settled),
            )  # fmt: skip


def sightings_of(source: PackSource, known: Known) -> Iterator[Sighting]:
    """Yield the sightings of a pack that was checked, with the ids of the knowledge base."""
    for key, prefix, number, suffix, _, maker, model, works, date, *more in source.rows("sightings", *SIGHTING):
        evidence, kind, says_so = more
        things = (known("maker", maker), known("model", model), known("works", works))
        if date or model:
            yield Sighting(
                key, prefix.upper(), number, suffix.upper(), *things, date, evidence, kind, known("source", says_so)
            )


def row_of_finding(one: Finding) -> tuple[str, ...]:
    """Return a finding as a row of findings.csv."""
    return (
        one.key, one.prefix, one.digits, one.suffix, _how_many(one.digits), one.maker, one.model, one.works, one.date,
        one.evidence, one.kind, one.note, one.author, as_text(one.settled),
    )  # fmt: skip


def row_of_sighting(one: Sighting) -> tuple[str, ...]:
    """Return a sighting as a row of sightings.csv."""
    return (
        one.key, one.prefix, one.digits, one.suffix, _how_many(one.digits), one.maker, one.model, one.works, one.date,
        one.evidence, one.kind, one.source,
    )  # fmt: skip


def newest_first(findings: Iterable[Finding]) -> list[Finding]:
    """Return findings so that of several with one key the one settled last stands first."""
    return sorted(findings, key=lambda one: -one.settled.timestamp())


def moment(text: str) -> datetime:
    """Return a moment as packs write it. Raises ValueError for what is none, or tells no time zone.

    >>> moment("2026-11-25T14:03:00Z").hour
    14
    """
    found = datetime.fromisoformat(text)
    if found.tzinfo is None:
        raise ValueError(f"{text} tells no time zone")
    return found.astimezone(UTC)


def as_text(settled: datetime) -> str:
    """Return a moment as packs write it, to the second.

    >>> as_text(datetime(2026, 11, 25, 14, 3, 7, 999, UTC))
    '2026-11-25T14:03:07Z'
    """
    return settled.astimezone(UTC).replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def _how_many(digits: str) -> str:
    return str(len(digits)) if digits else ""
