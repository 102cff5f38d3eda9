"""Which datings of an answer a picture shows: the best one, and where the number would fall if read otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from bot.pictures.scales import Moment, moment_of
from knowledge import edtf
from knowledge.agreeing import may_be_one
from knowledge.answer import Answer
from knowledge.candidates import Candidate
from knowledge.errors import BedstampError

_SLIPS = frozenset(("digit-missed", "digit-extra", "digit-misread", "digits-swapped"))
"""Readings by these are too many to be worth a mark each."""
_OTHER_COUNTS = 3
_OTHER_BLOCKS = 2
AS_LIKELY = 0.5
"""A dating with this share of the best one's likelihood stands beside it in the title."""


class Shown(NamedTuple):
    """One dating to be marked.

    `serial` has a `?` where a digit could not be read; `spread` are then the places it may mean, `date` covers all of
    them, and `likelihood` is that of all together.
    """

    one: Candidate
    serial: str
    when: Moment
    date: str
    likelihood: float
    is_best: bool
    spread: tuple[Candidate, ...] = ()


def of_registers(answer: Answer) -> Answer:
    """Return the answer as registers alone give it: what experts settled lies on no line of numbers.

    A number of which the answer says first what no list can go with is left out: the picture would say otherwise.
    """
    if all(one.register for one in answer.candidates):
        return answer
    left = {one.token: 1.0 for one in answer.candidates}
    for one in answer.candidates:
        left[one.token] -= 0.0 if one.register else one.likelihood
    numbers = (answer.of_token(place) for place in range(len(answer.tokens)))
    told_by_lists = {None, *(share[0].token for share in numbers if share and _leads_alike(share))}
    kept = [one for one in answer.candidates if one.register and one.token in told_by_lists]
    shares = tuple(one._replace(likelihood=min(1.0, one.likelihood / max(left[one.token], 1e-9))) for one in kept)
    return replace(answer, candidates=tuple(sorted(shares, key=lambda one: -one.likelihood)))


def _leads_alike(share: Sequence[Candidate]) -> bool:
    """Tell whether what an answer says first of a number can be true together with what a picture would mark."""
    lead, drawn = share[0], next((one for one in share if one.register and moment_of(one.date)), None)
    if lead.register or drawn is None:
        return True
    same = [one for one in share if one.register and one.serial == lead.serial and may_be_one(one, lead)]
    is_it = drawn.serial == lead.serial or "unreadable" in {*drawn.steps} & {*lead.steps}
    return is_it and bool(same)


def best_of(answer: Answer) -> Candidate | None:
    """Return the best dating that can be drawn: the first with a date that is known at one end at least.

    Where the best only tells the time of a prefix, and the number itself may stand in a block, that comes first.
    """
    dated = [one for one in answer.candidates if moment_of(one.date)]
    if dated and dated[0].kind == "prefix":
        own = (dated[0].token, dated[0].register)
        within = (one for one in dated if (one.token, one.register) == own and one.kind != "prefix" and _is_whole(one))
        return next(within, dated[0])
    return dated[0] if dated else None


def shown(answer: Answer) -> tuple[Shown, ...]:
    """Return what to mark on the best dating's line of numbers, the best first. Empty when nothing has a date."""
    best = best_of(answer)
    if best is None:
        return ()
    alike = tuple(one for one in answer.candidates if _on_one_line(one, best) and moment_of(one.date))
    whole = [one for one in alike if _is_whole(one)]
    counts = [one for one in whole if len(one.reading.digits) != len(best.reading.digits)]
    blocks = [one for one in whole if one.serial == best.serial and _block(one) != _block(best)]
    marked = [_shown(best, alike, is_best=True)]
    marked += [_shown(one, alike, is_best=False) for one in _first_of_each(counts, _OTHER_COUNTS)]
    marked += [_shown(one, alike, is_best=False) for one in blocks[:_OTHER_BLOCKS]]
    return tuple(marked)


def of_one_list(answer: Answer, most: int) -> tuple[list[Candidate], int]:
    """Return the best datings of the best one's list, each date once, and how many more there are."""
    best = best_of(answer)
    found: dict[tuple[str, str, str, str], Candidate] = {}
    for one in answer.candidates:
        if best is not None and _of_one_list(one, best) and moment_of(one.date) and _is_as_whole(one, best):
            found.setdefault((one.serial, one.date, one.model, one.works), one)
    kept = list(found.values())
    return kept[:most], max(0, len(kept) - most)


def dates_of(answer: Answer, best: Shown) -> tuple[list[str], float]:
    """Return the dates one register gives the best number, about as likely all, and their likelihood together."""
    if best.spread:
        return [best.date], best.likelihood
    same = [one for one in answer.candidates if _of_one_list(one, best.one) and one.serial == best.serial]
    good = [one for one in same if one.likelihood >= AS_LIKELY * best.likelihood and moment_of(one.date)]
    dates = list(dict.fromkeys(one.date for one in good))
    return dates, sum(one.likelihood for one in good)


def _is_whole(one: Candidate) -> bool:
    return not _SLIPS.intersection(one.steps)


def _is_as_whole(one: Candidate, best: Candidate) -> bool:
    """Tell whether a dating is no slip, or the same number as the best one, which may be one."""
    return one.serial == best.serial or _is_whole(one)


def _of_one_list(one: Candidate, best: Candidate) -> bool:
    """Tell whether two datings of a number come from one list; all date codes of a maker are one."""
    if (one.token, one.passed_over, one.kind) != (best.token, best.passed_over, best.kind):
        return False
    return one.register == best.register or (one.kind == "date-code" and one.maker == best.maker)


def _on_one_line(one: Candidate, best: Candidate) -> bool:
    affixes = (one.reading.prefix, one.reading.suffix)
    return _of_one_list(one, best) and affixes == (best.reading.prefix, best.reading.suffix)


def _block(one: Candidate) -> tuple[str | None, str | None, str, str, str]:
    return one.first, one.last, one.date, one.model, one.works


def _first_of_each(candidates: Iterable[Candidate], most: int) -> Iterator[Candidate]:
    """Yield the likeliest candidate of each number of digits, two where two blocks hold the number."""
    known: dict[int, str] = {}
    for one in candidates:
        if known.setdefault(len(one.reading.digits), one.serial) == one.serial and most > 0:
            most -= 1
            yield one


def _shown(one: Candidate, alike: Sequence[Candidate], *, is_best: bool) -> Shown:
    when = moment_of(one.date)
    assert when is not None  # only candidates with a date come here
    if "unreadable" not in one.steps:
        return Shown(one, one.serial, when, one.date, one.likelihood, is_best)
    family = [other for other in alike if other.steps == one.steps and len(other.serial) == len(one.serial)]
    columns = zip(*(other.reading.digits for other in family), strict=True)
    digits = "".join(column[0] if len(set(column)) == 1 else "?" for column in columns)
    serial = one.reading.prefix + digits + one.reading.suffix
    blocks = {_block(other): other for other in family}
    likelihood = sum(other.likelihood for other in family)
    return Shown(one, serial, when, _over_all(family, one.date), likelihood, is_best, tuple(blocks.values()))


def _over_all(family: Sequence[Candidate], otherwise: str) -> str:
    """Return the date from the first to the last day that any of the family may mean."""
    spans = [other.span for other in family]
    try:
        return edtf.span(min(s.earliest for s in spans), max(s.latest for s in spans)).text
    except BedstampError:
        return otherwise
