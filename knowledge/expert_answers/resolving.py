"""What several statements of one kind come to: corrections, denials, alternatives, narrower and wider times."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.expert_answers.stated import Stated
from knowledge.expert_answers.vocabulary import CORRECTS, MORE_EXACTLY

_CRIES_NO = re.compile(r"(?:^|[,.;:!(\s–—-])(?:no|nein|non|nee|nope|nah)\s*(?=[,.;:!–—-])")
_ALTERNATIVE = (
    "or|oder|ou|o|of|possibly|perhaps|maybe|vielleicht|peut-etre|forse|misschien|quizas|alternatively"
)
_OR = re.compile(
    rf"(?:\W|(?<![^\W_])(?:{_ALTERNATIVE}|even|at a pinch|and|und|et|y|e|en|the|early|late|mid|in|von|de|del|il|le|"
    r"c|ca)(?![^\W_]))*"
)
_LONGEST = timedelta(days=110 * 365)
"""A longer time is that of a firm, not of one machine; a century is still a dating."""
_NEIGHBOURS = 5
"""Years. Two times further apart than that are two datings, not one with a span."""
_IS_OR = re.compile(rf"(?<![^\W_])(?:{_ALTERNATIVE})(?![^\W_])|/")
"""Words between two times that may both be right."""


def standing(said: Sequence[Stated], low: str) -> list[Stated]:
    """Return the statements of one kind that still stand at the end: not denied, not taken back."""
    kept: list[Stated] = []
    last: Stated | None = None
    for one in _denied_together(sorted(said, key=lambda one: one.start), low):
        if last is not None and not one.denied and _is_corrected(low, last, one):
            kept = []
        last = one
        if one.denied:
            kept = [other for other in kept if other.values != one.values]
        else:
            kept.append(one)
    kept = [one for one in kept if not one.weak] or kept
    chosen = len(kept) > 2 and any(one.values == kept[-1].values for one in kept[:-1])
    return [kept[-1]] if chosen else kept  # '1904 or 1914; the decals say 1914'


def _denied_together(said: Sequence[Stated], low: str) -> list[Stated]:
    """Return the statements with all of 'not an A, B, C or D' denied; 'not an A, a B' tells what it is instead."""
    found: list[Stated] = []
    for place, one in enumerate(said):
        listed = found and found[-1].denied and _LISTED.fullmatch(low, found[-1].end, one.start)
        pairs = zip(said[place - 1 :], said[place:], strict=False)
        if listed and any(_NOR.match(low, before.end, behind.start) for before, behind in pairs):
            one = replace(one, denied=True)
        found.append(one)
    return found


_LISTED = re.compile(r"\s*(?:,\s*)?(?:(?:or|nor|oder|noch|ni|ou|o|of|und|and)\s+)?(?:an?\s+|the\s+|works\s+|a\s+)?")
_NOR = re.compile(r"(?:\s|,)*(?:or|nor|oder|noch|ni|ou|o|of)\s")


def _is_corrected(low: str, before: Stated, behind: Stated) -> bool:
    """Tell whether the second of two statements is said instead of the first."""
    between = low[before.end : behind.start]
    if CORRECTS.search(between) or _CRIES_NO.search(between) or MORE_EXACTLY.search(between):
        return True
    are_bounds = all(".." in "".join(one.values) for one in (before, behind))
    return not are_bounds and _BUT_OR_SO.search(between) is not None


_BUT_OR_SO = re.compile(
    r"(?<![^\W_])(?:(?<!or )so|therefore|hence|thus|donc|quindi|dus|but|aber|mais|pero|ma|maar)(?![^\W_])"
    r"(?!\W+(?:\w+\W+)?(?:could|might|may|possibly|perhaps|equally|also|konnte|peut|podria|potrebbe|kan)(?![^\W_]))"
)
"""'1911 but the ledger has 1912' and 'a Hedel with zigzag, so a Hedel Z'; not '1911 but it could be 1912'."""


def one_of(said: Sequence[Stated], fits: Callable[[str], bool]) -> tuple[str, ...]:
    """Return the one value that all statements can mean; several, or none, when that is not sure."""
    if not said:
        return ()
    common = set(said[0].values)
    for one in said[1:]:
        common = common & set(one.values) or common | set(one.values)
    fitting = {value for value in common if fits(value)}
    return tuple(sorted(fitting or common))


def one_time(said: Sequence[Stated], low: str) -> str:
    """Return the EDTF text that all times come to; '' when they contradict each other."""
    spans = [edtf.parse(one.values[0]) for one in said]
    places = [(one.start, one.end) for one in said]
    joined = spans[:1]
    for before, here, span in zip(places, places[1:], spans[1:], strict=False):
        between = low[before[1] : here[0]]
        is_or = len(between) < 30 and _OR.fullmatch(between) and _IS_OR.search(between)
        if _AND.search(between) and _BETWEEN.search(low[max(0, before[0] - 12) : before[0]]):
            joined[-1] = _hull(joined[-1], span)  # 'between 1898, when the 9 came out, and 1905'
        elif is_or and abs(span.earliest.year - joined[-1].earliest.year) <= _NEIGHBOURS:
            joined[-1] = _hull(joined[-1], span)
        else:
            joined.append(span)
    return _narrowest(joined) if joined else ""


_BETWEEN = re.compile(r"(?<![^\W_])(?:between|zwischen|entre|tra il|fra il|tussen) \Z")
_AND = re.compile(r"[,)] (?:and|und|et|y|e il|en) \Z")


def _hull(one: DateSpan, other: DateSpan) -> DateSpan:
    first, last = sorted((one, other), key=lambda span: span.earliest)
    years = [span.text.rstrip("~") for span in (first, last)]
    if all(re.fullmatch(r"\d{4}", year) for year in years):
        return edtf.parse(f"{years[0]}/{years[1]}")
    return edtf.span(min(one.earliest, other.earliest), max(one.latest, other.latest))


def _narrowest(spans: Iterable[DateSpan]) -> str:
    """Return the time inside all others: 'the 1920s, probably 1923'; two open ends make one span."""
    whole, *rest = spans
    for span in rest:
        if _is_inside(span, whole):
            whole = span if not (span.approximate and _is_inside(whole, span)) else whole
        elif not _is_inside(whole, span):
            if not _meet(whole, span):
                return ""
            whole = _common(whole, span)
    is_no_dating = date.min < whole.earliest and whole.latest < date.max and whole.latest - whole.earliest > _LONGEST
    return "" if is_no_dating else whole.text


def _common(one: DateSpan, other: DateSpan) -> DateSpan:
    """Return the time that both have; whole years as the two years, for nobody said that it is a decade."""
    common = edtf.span(max(one.earliest, other.earliest), min(one.latest, other.latest))
    return edtf.parse(f"{common.earliest.year}/{common.latest.year}") if "X" in common.text else common


def _is_inside(one: DateSpan, other: DateSpan) -> bool:
    return other.earliest <= one.earliest and one.latest <= other.latest


def _meet(one: DateSpan, other: DateSpan) -> bool:
    """Tell whether one is open to the past, the other to the future, and they overlap."""
    open_ends = {date.min, date.max} & {one.earliest, one.latest, other.earliest, other.latest}
    return bool(open_ends) and max(one.earliest, other.earliest) <= min(one.latest, other.latest)
