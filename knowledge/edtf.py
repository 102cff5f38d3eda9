"""Dates as packs write them: EDTF (ISO 8601-2 and the Library of Congress specification), levels 0 and 1.

Left out are seasons, times of day, years outside 1000..9999 and what belongs to level 2 (`edtf_beyond` says what to
write instead). Every date is
read as the span of days it may mean:

>>> parse("1912-01").latest
datetime.date(1912, 1, 31)
>>> in_words(parse("1910/1912"))
'between 1910 and 1912'
>>> span(date(1910, 1, 1), date(1919, 12, 31)).text
'191X'

Source of the rules: https://www.loc.gov/standards/datetime/ (4 February 2019).
"""

from __future__ import annotations

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from knowledge.edtf_beyond import instead
from knowledge.errors import BedstampError

OPEN = ".."
HOW_TO_WRITE = (
    "Write 1912, 1912-01, 1912-01-08, 1912~ for 'about 1912', 1910/1912 for 'between 1910 and 1912', "
    "../1912 for 'up to 1912' or 1912/.. for 'from 1912 on'"
)
_DATE = re.compile(r"([0-9]{4}|[0-9]{3}X|[0-9]{2}XX)(?:-([0-9]{2}|XX)(?:-([0-9]{2}|XX))?)?([?~%]?)")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


class EdtfError(BedstampError, ValueError):
    """The text is no date of the subset that packs use; the message says how to write it."""


class UnusedEdtfError(EdtfError):
    """The text is EDTF, of a kind that packs do not use."""


@dataclass(frozen=True, slots=True)
class DateSpan:
    """The days a date may mean, first and last included.

    An open or unknown end is `date.min` or `date.max`. `approximate` is true when any part is marked `~`, `?`
    or `%`; the bounds stay those of the date as written.
    """

    text: str
    earliest: date
    latest: date
    approximate: bool = False


@lru_cache(maxsize=1 << 17)
def parse(text: str) -> DateSpan:
    """Read one EDTF date. Raises EdtfError, whose message says what to write instead; UnusedEdtfError for other EDTF.

    >>> parse("1912~").latest, parse("1912~").approximate
    (datetime.date(1912, 12, 31), True)
    """
    try:
        return _interval(text) if "/" in text else _single(text)
    except EdtfError:
        if kind := instead(text):
            raise UnusedEdtfError(f"'{_shown(text)}' is EDTF, but packs do not use this kind: {kind}.") from None
        raise


def span(earliest: date, latest: date, approximate: bool = False) -> DateSpan:
    """Return the span of these days with the shortest EDTF text; `date.min` and `date.max` are open ends.

    Raises EdtfError when `latest` is before `earliest` or a year lies before 1000.

    >>> span(date(1912, 5, 1), date.max).text
    '1912-05/..'
    """
    if latest < earliest:
        raise EdtfError(f"{latest} is before {earliest}. Give the earlier day first.")
    mark = "~" if approximate else ""
    text = _single_text(earliest, latest, approximate)
    if text is None:
        start = OPEN if earliest == date.min else _start_text(earliest) + mark
        end = OPEN if latest == date.max else _end_text(latest, earliest) + mark
        text = f"{start}/{end}"
    else:
        text += mark
    if text == f"{OPEN}/{OPEN}":
        return DateSpan(text, earliest, latest, approximate)
    return parse(text)


def in_words(when: DateSpan) -> str:
    """Say a span in plain English, as it stands inside a sentence.

    >>> [in_words(parse(text)) for text in ("1912-01-08", "1912~", "../1912", "1912/..")]
    ['8 January 1912', 'about 1912', 'before the end of 1912', 'from 1912 on']
    """
    about = "about " if when.approximate else ""
    if when.earliest == date.min and when.latest == date.max:
        return "at an unknown date"
    if when.earliest == date.min:
        return _until(when.latest, about)
    if when.latest == date.max:
        return f"from {about}{_worded(when.earliest, _start_text(when.earliest))} on"
    single = _single_text(when.earliest, when.latest, approximate=True)
    if single is not None:
        return about + _worded(when.earliest, single)
    return _between(when, about)


def _single(text: str) -> DateSpan:
    earliest, latest, qualifier = _one_date(text, text)
    return DateSpan(text, earliest, latest, bool(qualifier))


def _one_date(part: str, whole: str) -> tuple[date, date, str]:
    if _DAY.fullmatch(part):
        day = _day(int(part[:4]), int(part[5:7]), int(part[8:]), whole)
        return day, day, ""
    match = _DATE.fullmatch(part)
    if match is None:
        raise EdtfError(f"'{_shown(whole)}' is no date that packs use. {HOW_TO_WRITE}.")
    year, month, day_of_month, qualifier = match.groups()
    _refuse_what_level_one_lacks(year, month, day_of_month, qualifier, whole)
    if month in (None, "XX"):
        return (
            _day(int(year.replace("X", "0")), 1, 1, whole),
            _day(int(year.replace("X", "9")), 12, 31, whole),
            qualifier,
        )
    if day_of_month in (None, "XX"):
        first = _day(int(year), int(month), 1, whole)
        return first, first.replace(day=_last_day(first)), qualifier
    day = _day(int(year), int(month), int(day_of_month), whole)
    return day, day, qualifier


def _refuse_what_level_one_lacks(
    year: str, month: str | None, day: str | None, mark: str, whole: str
) -> None:
    unspecified = "X" in f"{year}{month}{day}"
    wrong_place = ("X" in year and month is not None) or (month == "XX" and day not in (None, "XX"))
    if wrong_place or (unspecified and mark):
        raise EdtfError(
            f"'{_shown(whole)}': X may only stand at the end, as in 191X, 1912-XX or 1912-05-XX, with no "
            "mark after it. Write the two ends instead, such as 1910~/1919~."
        )


def _interval(text: str) -> DateSpan:
    start, _, end = text.partition("/")
    if "/" in end or not (start or end):
        raise EdtfError(f"'{_shown(text)}' is no date that packs use. {HOW_TO_WRITE}.")
    if "X" in text:
        raise EdtfError(
            f"'{_shown(text)}': X has no place beside '/'. Write the two ends, such as 1910/1919."
        )
    open_ends = ("", OPEN)
    earliest, _, start_mark = (date.min, date.min, "") if start in open_ends else _one_date(start, text)
    end_earliest, latest, end_mark = (date.max, date.max, "") if end in open_ends else _one_date(end, text)
    if earliest > end_earliest:
        raise EdtfError(
            f"'{_shown(text)}' ends before it begins. Put the earlier date first, and give both ends as "
            "exactly as each other."
        )
    return DateSpan(text, earliest, latest, bool(start_mark or end_mark))


def _day(year: int, month: int, day: int, whole: str) -> date:
    if year < 1000:
        raise EdtfError(
            f"'{_shown(whole)}': the year must lie in 1000 to 9999. Write all four digits of the year."
        )
    if 21 <= month <= 41:  # EDTF counts its seasons and quarters from 21
        raise EdtfError(
            f"'{_shown(whole)}' is a season. Write its months instead, such as {year}-03/{year}-05."
        )
    if not 1 <= month <= 12:
        raise EdtfError(f"'{_shown(whole)}': there is no month {month:02}. The order is year-month-day.")
    try:
        return date(year, month, day)
    except ValueError:
        raise EdtfError(
            f"'{_shown(whole)}': {_MONTHS[month - 1]} {year} has no day {day}. Check it or leave it out."
        ) from None


def _single_text(earliest: date, latest: date, approximate: bool) -> str | None:
    """The text without a '/', when there is one; a decade or century cannot carry a mark in level 1."""
    if earliest == latest:
        return earliest.isoformat()
    start = _start_text(earliest)
    if len(start) == 10 or latest in (date.max, date.min):
        return None
    if earliest.replace(day=_last_day(earliest)) == latest:
        return start[:4] + f"-{earliest.month:02}"
    if len(start) == 7 or (latest.month, latest.day) != (12, 31):
        return None
    years = latest.year - earliest.year
    if years == 0:
        return start
    if not approximate and years == 9 and earliest.year % 10 == 0:
        return start[:3] + "X"
    return start[:2] + "XX" if not approximate and years == 99 and earliest.year % 100 == 0 else None


def _start_text(day: date) -> str:
    return day.isoformat()[: 4 if (day.month, day.day) == (1, 1) else 7 if day.day == 1 else 10]


def _end_text(day: date, start: date) -> str:
    """The shortest text that ends on `day` and does not begin before `start`, as the standard asks."""
    if (day.month, day.day) == (12, 31) and start <= date(day.year, 1, 1):
        return day.isoformat()[:4]
    whole_month = day.day == _last_day(day) and start <= day.replace(day=1)
    return day.isoformat()[: 7 if whole_month else 10]


def _until(latest: date, about: str) -> str:
    shortest = _end_text(latest, date.min)
    when = about + _worded(latest, shortest)
    return f"up to {when}" if len(shortest) == 10 else f"before the end of {when}"


def _between(when: DateSpan, about: str) -> str:
    """Both ends are said as exactly as the more exact one: no year shall be read where a month is meant."""
    size = max(len(_start_text(when.earliest)), len(_end_text(when.latest, when.earliest)))
    start = _worded(when.earliest, when.earliest.isoformat()[:size])
    end = _worded(when.latest, when.latest.isoformat()[:size])
    if when.earliest.year == when.latest.year:
        start = start.removesuffix(f" {when.earliest.year}")
    return f"{about}{start} to {end}" if about else f"between {start} and {end}"


def _worded(day: date, text: str) -> str:
    """`day` to the exactness of `text`: a year (4 characters), a month (7) or a day (10)."""
    if len(text) == 4:
        return text
    month = f"{_MONTHS[day.month - 1]} {day.year}"
    return month if len(text) == 7 else f"{day.day} {month}"


def _last_day(day: date) -> int:
    return monthrange(day.year, day.month)[1]


def _shown(text: str) -> str:
    return text if len(text) <= 40 else text[:39] + "…"
