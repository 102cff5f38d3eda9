"""EDTF beyond what packs use: recognised, so that it can be said what to write instead.

These are seasons and other groups of months, times of day, years outside 1000..9999, marks and X on single parts of a
date, and lists of dates. Source of the rules: https://www.loc.gov/standards/datetime/ (4 February 2019).
"""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Iterator

_MARK = "[?~%]?"
_YEAR = rf"{_MARK}-?[0-9X]{{4}}{_MARK}"
_MONTH = rf"{_MARK}(?:0[1-9]|1[0-2]|[01X]X|X[0-9]){_MARK}"
_MONTHS = rf"{_MARK}(?:2[1-9]|3[0-9]|4[01]){_MARK}"
_DAY = rf"{_MARK}(?:0[1-9]|[12][0-9]|3[01]|[0-3X]X|X[0-9]){_MARK}"
_LONG = r"(?:-?[0-9]{4}S[1-9][0-9]*|Y-?[1-9](?:[0-9]{4,}|[0-9]*E[1-9][0-9]*)(?:S[1-9][0-9]*)?)"
_DATE = rf"(?:{_YEAR}(?:-{_MONTHS}|-{_MONTH}(?:-{_DAY})?)?|{_LONG})"
_ZONE = r"(?:Z|[+-](?:0[0-9]|1[0-3])(?::[0-5][0-9])?|[+-]14:00)"
_TIME = rf"T(?:(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]|24:00:00){_ZONE}?"
_END = rf"(?:{_DATE}|\.\.)?"
_MEMBER = rf"(?:\.\.{_DATE}|{_DATE}(?:\.\.(?:{_DATE})?)?)"
_LIST = rf"[\[{{]{_MEMBER}(?:, ?{_MEMBER})*[\]}}]"
_SHAPE = re.compile(rf"{_DATE}|[0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}}{_TIME}|{_END}/{_END}|{_LIST}")
_DAYS = re.compile(r"([0-9]{4})[?~%]?-[?~%]?(0[1-9]|1[0-2])[?~%]?-[?~%]?([0-3][0-9])")
_GROUP = re.compile(r"(?<![0-9X])([0-9X]{4})[?~%]?-[?~%]?(2[1-9]|3[0-9]|4[01])(?![0-9X])")
_LONGEST = 80
"""Characters; what is longer was never meant as a date."""

_KINDS = (
    (_GROUP, "a season or another group of months", ""),
    (re.compile(r".*:.*"), "a time of day", "Leave the time off, such as 1912-01-08"),
    (re.compile(r"[\[{].*"), "a list of dates", "Write the first and the last, such as 1910/1912"),
    (re.compile(r".*S.*"), "a year known to some digits", "Write the two ends instead, such as 1910/1919"),
    (
        re.compile(r".*[YE].*|-.*|.*/-.*|[?~%]?0[0-9X]{3}(?![0-9]).*|.*/[?~%]?0[0-9X]{3}(?![0-9]).*"),
        "a year outside 1000 to 9999",
        "Write all four digits of the year, such as 1912",
    ),
    (
        re.compile(r".*X.*"),
        "an X that stands before the end or beside '/'",
        "Write the two ends instead, such as 1910/1919, 1910~/1919~ or 1912-05-01/1912-05-31",
    ),
    (
        re.compile(r".*[?~%].*"),
        "a mark on one part of a date",
        "Put one mark at the end of the whole date, such as 1912-05~",
    ),
)
_MONTHS_OF = {
    **dict.fromkeys((21, 25, 31), (3, 5)),
    **dict.fromkeys((22, 26, 32), (6, 8)),
    **dict.fromkeys((23, 27, 29), (9, 11)),
    **dict.fromkeys((24, 28, 30), (12, 2)),
    **{33 + place: (3 * place + 1, 3 * place + 3) for place in range(4)},
    **{37 + place: (4 * place + 1, 4 * place + 4) for place in range(3)},
    **{40 + place: (6 * place + 1, 6 * place + 6) for place in range(2)},
}
"""First and last month; those of the seasons 21 to 24 are the northern ones (common practice, no source)."""


def instead(text: str) -> str:
    """Say what kind of EDTF a text is that packs do not use, and what to write instead; '' when it is none.

    >>> instead("1912-21")
    'a season or another group of months. Write its months instead, such as 1912-03/1912-05'
    """
    if len(text) > _LONGEST or not _SHAPE.fullmatch(text) or not all(_exists(*day) for day in _DAYS.findall(text)):
        return ""
    for pattern, what, todo in _KINDS:
        if found := pattern.search(text) if pattern is _GROUP else pattern.fullmatch(text):
            return f"{what}. {todo or _months(*found.groups())}"
    return ""


def _exists(year: str, month: str, day: str) -> bool:
    return 1 <= int(day) <= (monthrange(int(year), int(month))[1] if int(year) else 31)


def _months(year: str, group: str) -> str:
    text = "Write its months instead, such as "
    if not year.isdigit() or not 1 <= int(year) < 9999:
        return f"{text}1912-03/1912-05"
    first, last = _MONTHS_OF[int(group)]
    spans = list(_spans(int(year), first, last))
    return text + " or ".join(spans)


def _spans(year: int, first: int, last: int) -> Iterator[str]:
    """Yield the months of a group; a winter is at the end of its year or at the beginning."""
    for start in (year, year - 1) if last < first else (year,):
        yield f"{start:04}-{first:02}/{start + (last < first):04}-{last:02}"
