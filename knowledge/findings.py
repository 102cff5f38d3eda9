"""What the group's experts settled, and what other groups shared of theirs: each with its evidence and its day.

    Finding     one machine as experts settled it            kept in knowledge/stored_findings.py, with its history
    Change      one entry of that history
    Sighting    one machine whose date or model is known from evidence; datings between two of them are inferred
    Findings    all of them, arranged for look-up in memory
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime

from knowledge import edtf
from knowledge.errors import BedstampError
from knowledge.registers import LONGEST, SeriesKey

DATED_DOCUMENT, LEDGER, FEATURE, OPINION = EVIDENCE = ("dated-document", "ledger", "feature", "opinion")
"""Kinds of evidence, the strongest first: a dated document, a ledger or list, a feature of the machine, an opinion."""
KIND_WORDS = {
    DATED_DOCUMENT: "a dated document", LEDGER: "a ledger or list", FEATURE: "a feature of the machine",
    OPINION: "an opinion",
}  # fmt: skip
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
    of the case in this group, None for what others shared. `typed` is how people typed the number who were told of
    this finding, where that is not how it is stamped.
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
    typed: tuple[str, ...] = field(default=(), compare=False)

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
        return "an expert of the group" if self.is_own else self.author

    @property
    def is_own(self) -> bool:
        """Whether an expert of this group settled it."""
        return _OF_THIS_GROUP.fullmatch(self.author) is not None

    @property
    def source(self) -> str:
        """Who settled it, when, and on what evidence: 'an expert of the group, 2026-11-25: ledger p. 40'."""
        return f"{self.role}, {self.settled.date()}: {self.grounds}"

    @property
    def grounds(self) -> str:
        """The evidence in words, or its kind where there are none; an opinion is always called so."""
        told = " ".join(self.evidence.split())
        if self.kind == OPINION and told:
            return f"an opinion, {told}"
        return told or KIND_WORDS[self.kind]


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

    Texts are '' where nothing is known. `key` is that of the finding, or names the row of a pack; `kind` is one of
    EVIDENCE, `evidence` tells it in words and `source` who says so.
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
    source: str

    @property
    def serial(self) -> str:
        """The number as it is stamped."""
        return self.prefix + self.digits + self.suffix

    @property
    def grounds(self) -> str:
        """The evidence in words, or its kind where there are none."""
        return " ".join(self.evidence.split()) or KIND_WORDS[self.kind]


def sighted(finding: Finding) -> Sighting | None:
    """Return the sighting a finding tells of; None without a number, without date and model, or for an opinion.

    An opinion is drawn from what is known already; to date other machines by it would be to count that twice.
    """
    if finding.kind == OPINION or not finding.digits.isdecimal() or not (finding.date or finding.model):
        return None
    return Sighting(
        finding.key, finding.prefix, finding.digits, finding.suffix, finding.maker, finding.model, finding.works,
        finding.date, finding.evidence, finding.kind, f"{finding.role}, {finding.settled.date()}",
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Findings:
    """The findings in force, arranged for look-up by number."""

    by_key: Mapping[str, Finding] = field(default_factory=dict)
    by_serial: Mapping[str, tuple[Finding, ...]] = field(default_factory=dict)
    """Those of one number: the strongest evidence first, of one kind the group's own, then the latest."""
    shapes: frozenset[SeriesKey] = frozenset()
    """Prefix, number of digits and suffix of every number with a finding."""
    mixed: frozenset[str] = frozenset()
    """The numbers whose letters stand among the digits, as in a date code."""
    by_typed: Mapping[str, tuple[Finding, ...]] = field(default_factory=dict)
    """Those of machines whose number somebody typed just so, though it is stamped otherwise."""
    _by_shape: Mapping[SeriesKey, Sequence[str]] = field(default_factory=dict)

    @classmethod
    def of(cls, findings: Iterable[Finding]) -> Findings:
        """Arrange findings; of two with one key the first counts."""
        by_key: dict[str, Finding] = {}
        for one in findings:
            by_key.setdefault(one.key, one)
        by_serial: dict[str, list[Finding]] = {}
        for one in sorted(by_key.values(), key=_strongest_first):
            if one.digits:
                by_serial.setdefault(one.serial, []).append(one)
        by_shape: dict[SeriesKey, list[str]] = {}
        for serial, (one, *_) in by_serial.items():
            if one.digits.isdecimal():
                by_shape.setdefault((one.prefix, len(one.digits), one.suffix), []).append(serial)
        mixed = frozenset(serial for serial, (one, *_) in by_serial.items() if not one.digits.isdecimal())
        by_typed: dict[str, list[Finding]] = {}
        for one in sorted(by_key.values(), key=_strongest_first):
            for typed in set(one.typed) - {one.serial}:
                by_typed.setdefault(typed, []).append(one)
        return cls(by_key, _frozen(by_serial), frozenset(by_shape), mixed, _frozen(by_typed), by_shape)

    def __len__(self) -> int:
        return len(self.by_key)

    def matching(self, prefix: str, pattern: str, suffix: str) -> Iterator[Finding]:
        """Yield the findings on numbers of a pattern, in which `?` stands for any digit."""
        whole = re.compile(re.escape(prefix) + pattern.replace("?", "[0-9]") + re.escape(suffix))
        for serial in self._by_shape.get((prefix, len(pattern), suffix), ()):
            if whole.fullmatch(serial):
                yield from self.by_serial[serial]


def _frozen(shares: Mapping[str, Sequence[Finding]]) -> dict[str, tuple[Finding, ...]]:
    return {serial: tuple(share) for serial, share in shares.items()}


def _strongest_first(one: Finding) -> tuple[int, bool, float]:
    return EVIDENCE.index(one.kind), not one.is_own, -one.settled.timestamp()


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
