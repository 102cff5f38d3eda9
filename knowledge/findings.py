"""What the group's experts settled, and what other groups shared of theirs: each with its evidence and its day.

    Finding     one machine as experts settled it            kept in knowledge/stored_findings.py, with its history
    Change      one entry of that history
    Sighting    one machine whose date or model is known from evidence; datings between two of them are inferred
    Findings    all of them, arranged for look-up in memory
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime

from knowledge import edtf
from knowledge.errors import BedstampError
from knowledge.registers import LONGEST, SeriesKey

DATED_DOCUMENT, LEDGER, FEATURE, OPINION = EVIDENCE = ("dated-document", "ledger", "feature", "opinion")
"""Kinds of evidence, the strongest first: a dated document, a ledger or list, a feature of the machine, an opinion."""
ADDED, AMENDED, WITHDRAWN = "added", "amended", "withdrawn"

_KEY = re.compile(r"[0-9a-f]{32}")
_OF_THIS_GROUP = re.compile(r"expert [0-9]+")

Number = tuple[str, str, str]
"""Prefix, digits, suffix."""


class FindingError(BedstampError):
    """A finding cannot be kept as it is; the text names it and says what to do."""


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
    def number(self) -> Number:
        """Prefix, digits and suffix."""
        return self.prefix, self.digits, self.suffix

    @property
    def serial(self) -> str:
        """The number as it is stamped."""
        return self.prefix + self.digits + self.suffix

    @property
    def role(self) -> str:
        """Who settled it, for people: 'an expert of the group', or the title of the group that shared it."""
        return "an expert of the group" if _OF_THIS_GROUP.fullmatch(self.author) else self.author


@dataclass(frozen=True, slots=True)
class Change:
    """One entry of a finding's history: who did what when, why if that was said, and the finding as it was then."""

    what: str
    author: str
    at: datetime
    why: str
    finding: Finding


@dataclass(frozen=True, slots=True)
class Sighting:
    """One real machine whose number and date or model are known from evidence.

    Texts are '' where nothing is known. `key` is that of the finding, or names the row of a pack; `source` tells in
    words where it is known from.
    """

    key: str
    prefix: str
    digits: str
    suffix: str
    maker: str
    model: str
    works: str
    date: str
    kind: str
    source: str

    @property
    def serial(self) -> str:
        """The number as it is stamped."""
        return self.prefix + self.digits + self.suffix


@dataclass(frozen=True, slots=True)
class Findings:
    """The findings in force, and the sightings, arranged for look-up."""

    by_key: Mapping[str, Finding] = field(default_factory=dict)
    by_number: Mapping[Number, tuple[Finding, ...]] = field(default_factory=dict)
    """Those of one number, the strongest evidence first, then the latest."""
    shapes: frozenset[SeriesKey] = frozenset()
    """Prefix, number of digits and suffix of every number with a finding."""

    @classmethod
    def of(cls, findings: Iterable[Finding]) -> Findings:
        """Arrange findings; of two with one key the first counts."""
        by_key: dict[str, Finding] = {}
        for one in findings:
            by_key.setdefault(one.key, one)
        by_number: dict[Number, list[Finding]] = {}
        for one in sorted(by_key.values(), key=_strongest_first):
            if one.digits:
                by_number.setdefault(one.number, []).append(one)
        shapes = frozenset((prefix, len(digits), suffix) for prefix, digits, suffix in by_number if digits.isdecimal())
        return cls(by_key, {number: tuple(share) for number, share in by_number.items()}, shapes)

    def __len__(self) -> int:
        return len(self.by_key)


def _strongest_first(one: Finding) -> tuple[int, float]:
    return EVIDENCE.index(one.kind), -one.settled.timestamp()


def check(finding: Finding) -> None:
    """Raise FindingError when a finding could not be answered from: what is wrong, and what to do."""
    for wrong, what in (
        (not _KEY.fullmatch(finding.key), "its key must be 32 hexadecimal digits"),
        (not _is_number(finding.number), "its number must be capital letters, digits and letters again, or empty"),
        (finding.kind not in EVIDENCE, f"its kind of evidence must be one of {', '.join(EVIDENCE)}"),
        (not finding.author, "it must tell its author, such as 'expert 3'"),
        (finding.settled.tzinfo is None, "its time must tell the time zone"),
        (not _says_something(finding), "it must tell a maker, a model, a works, a date or a note"),
    ):
        if wrong:
            machine = finding.serial or "a machine without a number"
            raise FindingError(f"The finding on {machine} cannot be kept: {what}.")
    if finding.date:
        edtf.parse(finding.date)


def _is_number(number: Number) -> bool:
    serial = "".join(number)
    digits = number[1]
    plain = serial.isascii() and (not serial or serial.isalnum()) and serial == serial.upper()
    return plain and len(digits) <= LONGEST and bool(digits) == bool(serial)


def _says_something(one: Finding) -> bool:
    return any((one.maker, one.model, one.works, one.date, one.note))


def in_utc(moment: datetime) -> datetime:
    """Return a moment in UTC."""
    return moment.astimezone(UTC)
