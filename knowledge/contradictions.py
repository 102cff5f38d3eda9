"""Where a finding and what else is known of the same number cannot both be true.

Lists agree as soon as one of their entries does: an expert may have settled which of several holds. Two makers can have
the same number, so lists of another maker count only where those of the finding's maker do not have it; where no list
of the finding's maker is known, nothing can be said against it. Whoever judges asks here, so that all judge alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from knowledge import edtf, wording
from knowledge.base import Knowledge
from knowledge.candidates import FINDING, Candidate, later, of_finding, rank, took_as_typed
from knowledge.findings import DATED_DOCUMENT, Finding
from knowledge.inference import Point
from knowledge.readings import Reading
from knowledge.said import Said
from knowledge.tokens.nouns import SerialToken


def contradictions(finding: Finding, knowledge: Knowledge) -> tuple[str, ...]:
    """Return, a sentence each, what lists and other findings say against a finding; nothing when all goes together.

    The finding may be known already or not; a machine without a number contradicts nothing.
    """
    serial = finding.serial
    if not serial:
        return ()
    token = SerialToken(serial, 0, len(serial), finding.prefix, finding.digits, finding.suffix, introduced=True)
    same_number = [one for one in rank(token, 0, knowledge, Said()) if took_as_typed(one, token)]
    reading = Reading(finding.prefix, finding.digits, finding.suffix, ("as-typed",), 1.0)
    return tuple(against(of_finding(finding, reading, 0, knowledge), finding, same_number, knowledge))


def against(
    settled: Candidate, finding: Finding, same_number: Sequence[Candidate], knowledge: Knowledge
) -> Iterator[str]:
    """Yield what other datings of the very number say against a finding; `settled` is its own dating."""
    listed = _that_count([one for one in same_number if one.register], settled.maker, knowledge)
    if not any(agrees(one, settled, finding) for one in listed):
        for one in listed:
            yield f"the list '{wording.register_title(one.register, knowledge)}' says {_told(one, settled, knowledge)}"
    for one in same_number:
        other = knowledge.findings.by_key[one.rests_on[0]] if one.kind == FINDING else finding
        apart = not (_go_together(settled, one) and _meet(_bounds(finding), _bounds(other)))
        if other.key != finding.key and apart and _of_one_maker(one, settled):
            yield f"another finding, {wording.settled_by(other)}, says {_told(one, settled, knowledge)}"


def agrees(listed: Candidate, settled: Candidate, finding: Finding) -> bool:
    """Tell whether a list's dating and a finding on the same number can both be true; `settled` is its own dating."""
    return _go_together(settled, listed) and _dates_meet(finding, listed)


def _that_count(listed: list[Candidate], maker: str, knowledge: Knowledge) -> list[Candidate]:
    """Return those datings of lists that can speak against a finding of a maker, which may be ''."""
    own = [one for one in listed if maker in ("", one.maker) or not one.maker]
    has_lists = any(one.maker == maker and one.is_of_serials for one in knowledge.registers.values())
    return own or (listed if has_lists else [])


def _of_one_maker(one: Candidate, other: Candidate) -> bool:
    return not (one.maker and other.maker) or one.maker == other.maker


def _go_together(one: Candidate, other: Candidate) -> bool:
    both = ((one.maker, other.maker), (one.model, other.model), (one.works, other.works))
    return all(not (mine and theirs) or mine == theirs for mine, theirs in both)


def _dates_meet(finding: Finding, listed: Candidate) -> bool:
    """Tell whether a machine of the list can be that of the finding; it may have been finished some years later."""
    bounds = Point.of(0, listed.span, listed.serial)
    return _meet(_bounds(finding), Point(0, bounds.earliest, later(bounds.latest), bounds.name))


def _bounds(finding: Finding) -> Point:
    """Return the days a finding allows; 'about' reaches wider, and what was sold may be some years old."""
    if not finding.date:
        return Point(0, date.min, date.max, finding.key)
    return Point.of(0, edtf.parse(finding.date), finding.key, sold=finding.kind == DATED_DOCUMENT)


def _meet(one: Point, other: Point) -> bool:
    return one.earliest <= other.latest and other.earliest <= one.latest


def _told(one: Candidate, settled: Candidate, knowledge: Knowledge) -> str:
    maker = wording.maker_name(one, knowledge) if one.maker != settled.maker else ""
    dating = wording.dating(one, knowledge)
    return dating if dating.startswith(maker) else f"{maker} {dating}"
