"""What a settled case shows of a mistake: the number as it was typed beside the one that is really stamped."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from difflib import SequenceMatcher

from knowledge.base import Knowledge
from knowledge.between import Between
from knowledge.candidates import Candidate, none_of_these, rank
from knowledge.findings import Findings
from knowledge.mistakes import Learned, Seen
from knowledge.readings import readings
from knowledge.said import Said
from knowledge.tokens.nouns import SerialToken
from knowledge.view import is_as_typed

LIKE = 0.6
"""Numbers at least so like each other (0 to 1, as difflib counts) are the same one, however badly typed."""


def mistake_of(
    token: SerialToken, stamped: str, knowledge: Knowledge, said: Said | None = None, maker: str = ""
) -> Seen | None:
    """Return what is seen when the machine of `token` turns out to have the number `stamped`.

    `said` is what the asker told beside the number, and `maker` the id of the machine's maker, '' where nobody said.
    The shares are those of the registers alone: a finding must not bear witness to itself, nor what was learned.

    None when `stamped` is no reading of what was typed. It is then another machine, or two mistakes at once, which are
    not followed; to count them as 'none of these' would make easily read numbers, where that cannot be, look unsure.
    """
    known = _registers_alone(knowledge)
    candidates = rank(token, 0, known, said or Said())
    held = any(is_as_typed(one, token) for one in candidates)
    none = none_of_these(token, known, held)
    alike = [one for one in candidates if one.kind != "prefix" and _is(one.serial, stamped)]
    its = [one for one in alike if not (maker and one.maker) or one.maker == maker]
    if not its and not (alike or _is_none(token, stamped, known, held)):
        return None
    observed = _class(max(its, key=lambda one: one.likelihood), none) if its else none
    return Seen(observed, _shares(candidates, none))


def _registers_alone(knowledge: Knowledge) -> Knowledge:
    """Return the same knowledge without findings, without what follows from them and what was learned."""
    return replace(knowledge, findings=Findings(), between=Between(), all_shapes=knowledge.shapes, learned=Learned())


def _class(one: Candidate, none: str) -> str:
    """Return the class of a candidate; what is dated by its letters alone is in no register."""
    return none if one.kind == "prefix" else "+".join(one.steps)


def _shares(candidates: Sequence[Candidate], none: str) -> dict[str, float]:
    shares: defaultdict[str, float] = defaultdict(float)
    for one in candidates:
        shares[_class(one, none)] += one.likelihood
    shares[none] += max(0.0, 1 - sum(one.likelihood for one in candidates))
    return dict(shares)


def _is_none(token: SerialToken, stamped: str, knowledge: Knowledge, held: bool) -> bool:
    """Tell whether it is the asker's machine, and just none of the candidates.

    Its number was typed rightly; or it is one mistake away, which may be a digit taken for one that is no look-alike.
    Where no register holds what was typed, two mistakes count too: all numbers of that kind become cases.
    """
    typed = token.serial
    if typed == stamped or any(_is(one.serial, stamped) for one in readings(token, knowledge.shapes)):
        return True
    if len(typed) == len(stamped) and sum(one != other for one, other in zip(typed, stamped, strict=True)) == 1:
        return True
    return not held and SequenceMatcher(None, typed, stamped, autojunk=False).ratio() >= LIKE


def _is(read: str, stamped: str) -> bool:
    """Tell whether a number is the one stamped, unreadable places aside."""
    return len(read) == len(stamped) and all(one in ("?", other) for one, other in zip(read, stamped, strict=True))
