"""The datings that are shown of an answer: which, in what words, and from which numbered source."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bot.replies import words
from knowledge import edtf, wording
from knowledge.agreeing import agrees
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import FINDING, Candidate

SHOWN_FROM = 0.01
"""Datings less likely than this are counted, not shown, unless all are wanted."""
MOST_SHOWN = 8
"""The most datings shown of one number, unless all are wanted."""
AGREES = "agrees"
"""Stands for the likelihood where a list says of a settled number what experts say."""
MOST_GROUPS = 20
"""The most numbers of one message whose datings are shown, unless all are wanted."""


@dataclass(frozen=True, slots=True)
class Row:
    """One dating in words; `source` is the number of its source in the list below the table."""

    likelihood: str
    serial: str
    model: str
    works: str
    date: str
    block: str
    source: str
    found: str


@dataclass(frozen=True, slots=True)
class Group:
    """The datings of one number: those shown, how many are left out, and the share of 'none of these'."""

    title: str
    rows: tuple[Row, ...]
    left_out: int
    none_of_these: str


@dataclass(frozen=True, slots=True)
class Datings:
    """All groups of an answer, and the sources by number."""

    groups: tuple[Group, ...]
    sources: tuple[str, ...]


def datings(answer: Answer, knowledge: Knowledge, everything: bool = False) -> Datings:
    """Return what is shown. With `everything` no dating is left out."""
    sources: dict[str, int] = {}
    shares = [(token.serial, answer.of_token(place)) for place, token in enumerate(answer.tokens)]
    marks = sorted({one.passed_over for one in answer.candidates if one.passed_over is not None})
    shares += [(answer.passed_over[at].text, _of_mark(answer, at)) for at in marks]
    shares = [(title, share if everything else tuple(words.as_one(share))) for title, share in shares]
    filled = [(title, share) for title, share in shares if share]
    groups = tuple(
        _group(title, share, knowledge, everything, sources)
        for title, share in (filled if everything else filled[:MOST_GROUPS])
    )
    return Datings(groups, tuple(sources))


def _of_mark(answer: Answer, place: int) -> tuple[Candidate, ...]:
    return tuple(one for one in answer.candidates if one.passed_over == place)


def _group(
    title: str, share: Sequence[Candidate], knowledge: Knowledge, everything: bool, sources: dict[str, int]
) -> Group:
    shown = share if everything else _worth_showing(share)
    rows = tuple(_row(one, _how_likely(one, share[0], knowledge), knowledge, sources) for one in shown)
    rest = 1 - sum(one.likelihood for one in share)
    return Group(title, rows, len(share) - len(rows), words.percent(max(rest, 0.0)))


def _worth_showing(share: Sequence[Candidate]) -> Sequence[Candidate]:
    """The likely ones, the best whatever its likelihood, and what the number means just as it was typed."""
    shown = [one for place, one in enumerate(share[:MOST_SHOWN]) if not place or one.likelihood >= SHOWN_FROM]
    typed = [one for one in share if one.steps == ("as-typed",) and one not in shown]
    return shown + typed[:1]


def _how_likely(one: Candidate, best: Candidate, knowledge: Knowledge) -> str:
    """Return the likelihood; a list's dating of the very number that was settled is no other machine, and may agree."""
    if one.register and best.kind == FINDING and one.serial == best.serial:
        finding = knowledge.findings.by_key[best.rests_on[0]]
        if agrees(one, best, finding):
            return AGREES
    return words.percent(one.likelihood)


def _row(one: Candidate, how_likely: str, knowledge: Knowledge, sources: dict[str, int]) -> Row:
    number = sources.setdefault(words.source_of(one, knowledge), len(sources) + 1)
    return Row(
        how_likely,
        one.serial,
        words.machine(one, knowledge),
        wording.works_name(one, knowledge),
        words.not_before(one) if one.object in words.EARLIEST else _date(one),
        wording.block(one),
        f"[{number}]",
        wording.steps_in_words(one.steps),
    )


def _date(one: Candidate) -> str:
    return edtf.in_words(one.span) if one.date else "not told"


def sources_needed(rows: Iterable[Row]) -> set[str]:
    """Return the marks of the sources that rows refer to."""
    return {row.source for row in rows if row.source}
