"""Dates as people write them in lists, turned into the EDTF of packs; what is ambiguous is asked, never guessed.

>>> read_date("c. 1912").edtf, read_date("before 1912").edtf, read_date("late 1912").edtf
('1912~', '../1911', '1912-09~/1912-12~')
>>> read_date("8.1.1912").question
'day-order'
>>> read_date("8.1.1912", Habits(order="day first")).edtf
'1912-01-08'
"""

from __future__ import annotations

import re
import unicodedata
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache

from knowledge import edtf
from knowledge.names import fold
from knowledge.packs.importing.date_words import (
    ABOUT,
    AFTER,
    BEFORE,
    EARLY,
    LATE,
    MIDDLE,
    SINCE,
    UNKNOWN,
    UNTIL,
    longest_first,
)  # fmt: skip
from knowledge.packs.importing.one_date import Days, Habits, UnclearError, months, one_date, year_of
from knowledge.packs.importing.sheet import LONGEST_TEXT

TWO_YEARS, YEAR_AND_MONTH = "two years", "year and month"
_NO_HABITS = Habits()


@dataclass(frozen=True, slots=True)
class DateRead:
    """One date cell as read. `question` is '' when settled, else day-order, pair, serial, century or words.

    `note` says what was assumed. `shows` is what this cell proves about its column, such as 'day first'.
    """

    edtf: str = ""
    note: str = ""
    question: str = ""
    shows: str = ""


@lru_cache(maxsize=1 << 16)
def read_date(text: str, habits: Habits = _NO_HABITS) -> DateRead:
    """Read one cell. Never raises: what cannot be read comes back with the question 'words'."""
    if len(text) > LONGEST_TEXT:
        return DateRead(question="words")
    plain = _plain(text)
    if plain in UNKNOWN:
        return DateRead(note="left empty: the date is not known" if plain else "")
    if not _NOT_YET_EDTF.fullmatch(plain):
        with suppress(edtf.EdtfError):
            return DateRead(edtf.parse(text.strip()).text)
    try:
        days = _days(plain, habits)
        return DateRead(edtf.span(days.first, days.last, days.about).text, days.note, shows=days.shows)
    except UnclearError as unclear:
        return DateRead(question=unclear.question)
    except (ValueError, OverflowError):  # such as 31 February; edtf's own error is a ValueError too
        return DateRead(question="words")


# 4391 and 1911-12 are EDTF as they stand, but what people mean by them is another matter.
_NOT_YET_EDTF = re.compile(r"\d+|\d{4}-\d{2}")
_MARKS = str.maketrans(dict.fromkeys("‐‑‒–—―−", "-") | dict.fromkeys("’‘`´", "'"))
_BRACKETS = re.compile(r"[\[(](.*)[\])]")
_RUSSIAN_YEAR = re.compile(r"\s*гг?\.?$")
_CLOCK = re.compile(r"[t ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?z?$")


def _plain(text: str) -> str:
    """Fold a cell: one kind of dash and apostrophe, no brackets around it, no time of day."""
    plain = fold(unicodedata.normalize("NFKC", text).translate(_MARKS))
    if match := _BRACKETS.fullmatch(plain):
        plain = match[1]
    return _RUSSIAN_YEAR.sub("", _CLOCK.sub("", plain)).strip(" ,;")


def _days(text: str, habits: Habits) -> Days:
    """Peel the words around a date off, from the outside in."""
    for reader in (_doubted, _about, _two_years, _between, _open, _open_end, _third, one_date):
        days = reader(text, habits)
        if days is not None:
            return days
    raise UnclearError("words")


_DOUBTED = re.compile(r"(.*\d{4}|.*\d\D+?)\s*(?:\(\?+\)|\?+)")
_ABOUT_BEFORE = re.compile(rf"(?:{longest_first(ABOUT)})(?:(?<=\W)|\s+|(?=\d))\s*(.+)")
_ABOUT_AFTER = re.compile(rf"(.*\d)\s*[(\[, ]\s*(?:{longest_first(ABOUT)})[)\]]?")


def _doubted(text: str, habits: Habits) -> Days | None:
    """'1912?' and '1912 (?)' are approximate; '191?' is a decade and left for later."""
    match = _DOUBTED.fullmatch(text)
    return replace(_days(match[1].strip(), habits), about=True) if match else None


def _about(text: str, habits: Habits) -> Days | None:
    match = _ABOUT_BEFORE.fullmatch(text) or _ABOUT_AFTER.fullmatch(text)
    return replace(_days(match[1], habits), about=True) if match else None


_TWO_YEARS = re.compile(r"(\d{4}) ?([-/]) ?(\d{2}|\d{4})")


def _two_years(text: str, habits: Habits) -> Days | None:
    """'1911-1912', '1911/12' and '1911-12'. The last may be a month too; then it is asked."""
    match = _TWO_YEARS.fullmatch(text)
    if match is None:
        return None
    first, end = year_of(match[1]), match[3]
    last = _completed(first, end)
    may_be_month = len(end) == 2 and 1 <= int(end) <= 12
    if may_be_month and (last is None or (match[2] == "-" and habits.pair == YEAR_AND_MONTH)):
        return replace(months(first, int(end), 1), shows=YEAR_AND_MONTH if last is None else "")
    if may_be_month and match[2] == "-" and not habits.pair:
        raise UnclearError("pair")
    if last is None:
        raise UnclearError("words")
    note = "a year, a slash and two digits were read as two years" if may_be_month and match[2] == "/" else ""
    shows = TWO_YEARS if len(end) == 2 and not may_be_month else ""
    return Days(date(first, 1, 1), date(last, 12, 31), note=note, shows=shows)


def _completed(first: int, end: str) -> int | None:
    """Return the last year of '1899-00' or '1911-12'; None when it would not come after the first."""
    last = int(end) if len(end) == 4 else first // 100 * 100 + int(end)
    if len(end) == 2 and last < first and first % 100 >= 90 and int(end) <= 10:
        last += 100
    return year_of(str(last)) if last > first else None


_BETWEEN = re.compile(
    r"(?:(?:between|zwischen|entre|tra|tussen|miedzy|mellan|from|von|de|od|dal|van|с)\s+)?(.+?)\s*"
    r"(?:\s(?:and|und|et|y|e|en|i|och|or|oder|ou|to|bis|a|au|al|tot|do|till|по|through|until|&|-)\s|\.\.+)\s*(.+)"
)
_BETWEEN_NAMED = re.compile(r"(.*[^\W\d_].*\d{4}) ?[-/] ?(.*[^\W\d_].*\d{4})")


def _between(text: str, habits: Habits) -> Days | None:
    match = _BETWEEN.fullmatch(text) or _BETWEEN_NAMED.fullmatch(text)
    if match is None:
        return None
    try:
        first, last = _days(match[1], habits), _days(match[2], habits)
    except UnclearError as unclear:
        if unclear.question == "words":
            return None  # the word between them joins something else
        raise
    if last.last < first.first:
        raise UnclearError("words")
    return Days(first.first, last.last, first.about or last.about, first.note or last.note)


_OPEN = re.compile(rf"({longest_first(BEFORE | AFTER | UNTIL | SINCE)})(?:(?<=\W)|\s+)\s*(.+)")
_OPEN_END = re.compile(r"(.*\d{4})\s*(\+|-|ff\.?|and later|or later|onwards?|on|or earlier|and earlier)")


def _open(text: str, habits: Habits) -> Days | None:
    """'before 1912' leaves 1912 out, 'until 1912' takes it in; so with 'after' and 'from'."""
    match = _OPEN.fullmatch(text)
    if match is None:
        return None
    word, days = match[1], _days(match[2], habits)
    if word in BEFORE:
        note = "'before' was read as leaving the date itself out"
        return replace(days, first=date.min, last=days.first - timedelta(1), note=note)
    if word in AFTER:
        note = "'after' was read as leaving the date itself out"
        return replace(days, first=days.last + timedelta(1), last=date.max, note=note)
    return replace(days, first=date.min) if word in UNTIL else replace(days, last=date.max)


def _open_end(text: str, habits: Habits) -> Days | None:
    match = _OPEN_END.fullmatch(text)
    if match is None:
        return None
    days = _days(match[1], habits)
    if match[2] == "-":
        days = replace(days, note="a year with a dash after it was read as 'from that year on'")
    return replace(days, first=date.min) if match[2].endswith("earlier") else replace(days, last=date.max)


_THIRD = re.compile(rf"({longest_first(EARLY | MIDDLE | LATE)})(?:(?<=-)|\s+|-)(.+)")


def _third(text: str, habits: Habits) -> Days | None:
    """The early, middle or late third of a year (four months), of a decade or of a month."""
    match = _THIRD.fullmatch(text)
    if match is None:
        return None
    part = 0 if match[1] in EARLY else 1 if match[1] in MIDDLE else 2
    whole = _days(match[2].strip(), habits)
    first, last = _part(whole, part)
    note = "early, mid and late were read as a third of the time (four months of a year), approximate"
    return Days(first, last, about=True, note=note)


def _part(whole: Days, part: int) -> tuple[date, date]:
    length = (whole.last - whole.first).days + 1
    if length > 3_000:  # a decade: four, three and three years
        year = whole.first.year + (0, 4, 7)[part]
        return date(year, 1, 1), date(year + (3, 2, 2)[part], 12, 31)
    if length > 360:
        days = months(whole.first.year, 4 * part + 1, 4)
        return days.first, days.last
    if length < 28:
        raise UnclearError("words")
    first = whole.first + timedelta(10 * part)
    return first, whole.last if part == 2 else first + timedelta(9)
