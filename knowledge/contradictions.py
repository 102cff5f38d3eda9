"""Where a finding and what else is known of the same number cannot both be true.

Lists agree as soon as one of their entries does: an expert may have settled which of several holds. Two makers can have
the same number, so lists and findings of another maker count only where those of the finding's maker do not have it;
where no list of the finding's maker is known, nothing can be said against it. The years of the model and the machines
around are looked at besides (`doubts.py`). Whoever judges asks here, so that all judge alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from knowledge import edtf, wording
from knowledge.agreeing import agrees, bounds_of, go_together, meet
from knowledge.base import Knowledge
from knowledge.between import Follows
from knowledge.candidates import FINDING, INFERRED, Candidate, of_finding, rank, took_as_typed
from knowledge.doubts import around, out_of_time
from knowledge.findings import Finding
from knowledge.nouns import Model
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
    """Yield what else is known against a finding; `settled` is its own dating, `same_number` those of the number."""
    listed = _that_count([one for one in same_number if one.register], settled.maker, knowledge)
    if not any(agrees(one, settled, finding) for one in listed):
        for one in listed:
            yield f"the list '{wording.register_title(one.register, knowledge)}' says {_told(one, settled, knowledge)}"
    yield from _other_findings(settled, finding, same_number, knowledge)
    model = out_of_time(finding, knowledge)
    if model:
        yield f"{model.name or model.id} was made {_years(model)}{_told_by(model.source, knowledge)}"
    yield from (in_words(follows, knowledge) for follows in around(finding, knowledge))


def _other_findings(
    settled: Candidate, finding: Finding, same_number: Sequence[Candidate], knowledge: Knowledge
) -> Iterator[str]:
    """Yield what other findings on the number say; those of another maker count as lists do (`_that_count`)."""
    others = [one for one in same_number if one.kind != INFERRED and one.rests_on != (finding.key,)]
    for one in _that_count(others, settled.maker, knowledge):
        if one.kind != FINDING:
            continue
        other = knowledge.findings.by_key[one.rests_on[0]]
        if not (go_together(settled, one) and meet(bounds_of(finding), bounds_of(other))):
            yield f"another finding, {wording.settled_by(other)}, says {_told(one, settled, knowledge)}"


def _that_count(known: list[Candidate], maker: str, knowledge: Knowledge) -> list[Candidate]:
    """Return those datings that can speak against a finding of a maker, which may be ''."""
    own = [one for one in known if maker in ("", one.maker) or not one.maker]
    has_lists = any(one.maker == maker and one.is_of_serials for one in knowledge.registers.values())
    return own or (known if has_lists else [])


def in_words(follows: Follows, knowledge: Knowledge) -> str:
    """Return 'machines before and after it say between 1904 and 1905: K204000 (1904, ledger) and K204200 (1905)'."""
    model = knowledge.models.get(follows.model)
    name = model.name if model and model.name else follows.model
    told = name or edtf.in_words(edtf.parse(follows.date))
    return f"machines before and after it say {told}: {knowledge.between.names(follows)}"


def _years(model: Model) -> str:
    begun = f"from {edtf.in_words(edtf.parse(model.introduced))}" if model.introduced else ""
    ended = f"until {edtf.in_words(edtf.parse(model.withdrawn))}" if model.withdrawn else "on"
    return f"{begun} {ended}".strip()


def _told_by(source: str, knowledge: Knowledge) -> str:
    titles = wording.titles(source, knowledge)
    return f", says {titles}" if titles else ", says the list of models"


def _told(one: Candidate, settled: Candidate, knowledge: Knowledge) -> str:
    maker = wording.maker_name(one, knowledge) if one.maker != settled.maker else ""
    dating = wording.dating(one, knowledge)
    return dating if dating.startswith(maker) else f"{maker} {dating}"
