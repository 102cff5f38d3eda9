"""The words in and about a picture: titles, labels, small print, and the description for those who do not see it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bot.pictures.fonts import clean
from bot.pictures.issue_line import IssueLine
from bot.pictures.marks import Shown
from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.candidates import Candidate
from knowledge.wording import listed, maker_name, source_title, works_name

VERBS = {
    "allocation": "allocated",
    "manufacture": "made",
    "grant": "patent granted",
    "registration": "design registered",
}
_CAUTIONS = {
    "allocation": "Numbers were allocated on these dates. The machine was built and sold later, sometimes by years.",
    "manufacture": "These are dates of manufacture. The machine was sold later, sometimes by years.",
    "grant": "This is the earliest date: what carries the patent number was made later, even decades later.",
    "registration": "This is the earliest date: what carries the design number was made later, sometimes by years.",
}
_LIKELY = 0.5
_DATES = 3
PARTS = {
    "year": "year", "month": "month", "week": "week", "day": "day", "day-of-year": "day of the year",
    "works": "works", "model": "model", "sequence": "running number", "constant": "fixed sign",
}  # fmt: skip
"""What the parts of a date code are called under the picture of it."""


def title(best: Shown, dates: Sequence[str], likelihood: float) -> str:
    """Return the title: 'K0204117: allocated 2 March 1921', or 'perhaps made in 1921' where it is not likely.

    `dates` are those the number may have, `likelihood` is that of all of them together.
    """
    perhaps = "perhaps " if likelihood < _LIKELY else ""
    shown = [*_with_in(dates[:_DATES]), *["later or earlier"] * (len(dates) > _DATES)]
    return f"{best.serial}: {perhaps}{VERBS.get(best.one.object, 'dated')} {listed(shown)}"


def _with_in(dates: Sequence[str]) -> Iterator[str]:
    """Yield dates in words, with 'in' before a bare year or month, once for several of them: 'in 1890', '1902'."""
    bare = False
    for date in dates:
        words = date_words(date)
        was_bare, bare = bare, words.isdecimal() or words[:1].isupper()
        yield f"in {words}" if bare and not was_bare else words


def date_words(date: str) -> str:
    """Return an EDTF date in words."""
    return edtf.in_words(edtf.parse(date))


def line_name(one: Candidate, knowledge: Knowledge) -> str:
    """Return what the numbers of the picture are: the maker's, with which letters, in order of issue."""
    register = knowledge.registers[one.register]
    prefix, suffix = one.reading.prefix, one.reading.suffix
    if not register.is_of_serials:
        return f"{register.title or maker_name(one, knowledge)}, in the order of their issue"
    letters = [f"{prefix} in front"] * bool(prefix) + [f"{suffix} at the end"] * bool(suffix)
    lettered = f"with {listed(letters, 'and')}" if letters else "without a letter"
    return f"Numbers {lettered}, in the order of their issue: {maker_name(one, knowledge)}"


def model_and_works(one: Candidate, knowledge: Knowledge) -> str:
    """Return 'Model 9, Hallowmere Works', or as much of it as the dating tells."""
    model = knowledge.models.get(one.model)
    name = (model.name if model else "") or one.model
    return ", ".join(part for part in (name, works_name(one, knowledge)) if part)


def sources(one: Candidate, knowledge: Knowledge) -> str:
    """Return the line that names the sources of a dating."""
    titles = source_title(one, knowledge)
    return f"Source: {titles}" if titles else "The list names no source."


def caution(one: Candidate) -> str:
    """Return the small print: what the date is the date of."""
    return _CAUTIONS.get(one.object, "")


def other_reading(other: Shown, best: Shown) -> str:
    """Return the first line of a lighter label: 'if 6 digits: K204117'."""
    digits = len(other.one.reading.digits)
    if digits == len(best.one.reading.digits):
        return f"or: {other.serial}"
    return f"if {digits} digit{'s' if digits > 1 else ''}: {other.serial}"


def describe_line(heading: str, line: IssueLine, marked: tuple[Shown, ...], knowledge: Knowledge) -> str:
    """Return the picture of a line of numbers in words."""
    best = marked[0]
    one = best.one
    prefix, suffix = one.reading.prefix, one.reading.suffix
    bands = "; then ".join(
        f"{band.name} (from {prefix}{band.first}{suffix} {f'to {prefix}{band.last}{suffix}' if band.last else 'on'})"
        for band in line.bands[:8]
    )
    said = [
        f"A chart, with the date upward. From left to right: {line_name(one, knowledge)}. {bands}.",
        f"{heading}{_and(model_and_works(one, knowledge))}. {_in_block(best)}",
    ]
    said += [
        f"Marked more lightly, {other_reading(other, best)}, {date_words(other.date)}"
        f"{_and(model_and_works(other.one, knowledge))}."
        for other in marked[1:]
    ]
    return clean(" ".join((*said, caution(one), sources(one, knowledge))))


def describe_times(heading: str, best: Shown, rows: Sequence[Candidate], more: int, knowledge: Knowledge) -> str:
    """Return the picture of datings on an axis of years in words."""
    found = "; ".join(f"{one.serial}, {date_words(one.date)}{_and(model_and_works(one, knowledge))}" for one in rows)
    further = f" {more} more are less likely." if more else ""
    return clean(
        f"A chart of years with {len(rows)} dating{'s' if len(rows) != 1 else ''} of {best.serial}, "
        f"{maker_name(best.one, knowledge)}. {heading}. The likeliest first: {found}.{further} {caution(best.one)} "
        f"{sources(best.one, knowledge)}"
    )


def _and(words: str) -> str:
    return f", {words}" if words else ""


def _in_block(best: Shown) -> str:
    one = best.one
    prefix, suffix = one.reading.prefix, one.reading.suffix
    block = f"{prefix}{one.first}{suffix} {f'to {prefix}{one.last}{suffix}' if one.last else 'on'}"
    return f"It is number {one.position:,} of the block {block}." if one.position else f"It lies in the block {block}."
