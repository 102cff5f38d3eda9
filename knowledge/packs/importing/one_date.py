"""One date as people write it: numbers in some order, the name of a month, a year, a decade, a quarter, a season."""

from __future__ import annotations

import re
from calendar import monthrange
from dataclasses import dataclass, replace
from datetime import date, timedelta

from knowledge.packs.importing.date_words import (
    FILLERS,
    SEASONS,
    WEEKDAYS,
    WINTER,
    longest_first,
    month_number,
)  # fmt: skip

YEARS = range(1500, 2101)  # years that a list of machines, patents or designs can hold
DAY_FIRST, MONTH_FIRST, YEAR_FIRST = "day first", "month first", "year first"
DAY_NUMBER, NO_DATE = "day number", "no date"


@dataclass(frozen=True, slots=True)
class Habits:
    """How one column writes its dates; '' and 0 mean 'not known yet'.

    `order` is that of 8/1/1912: DAY_FIRST, MONTH_FIRST or YEAR_FIRST. `pair` is what 1911-12 means: TWO_YEARS or
    YEAR_AND_MONTH (see dates.py). `serial` is what 4391 means: DAY_NUMBER (of a spreadsheet) or NO_DATE. `window`
    is the first of the hundred years that two-digit years mean.
    """

    order: str = ""
    pair: str = ""
    serial: str = ""
    window: int = 0


@dataclass(frozen=True, slots=True)
class Days:
    """The first and last day of a date, what was assumed, and what it proves about its column's habits."""

    first: date
    last: date
    about: bool = False
    note: str = ""
    shows: str = ""


class UnclearError(Exception):
    """The date cannot be read before `question` is answered: day-order, pair, serial, century; words: not at all."""

    def __init__(self, question: str) -> None:
        super().__init__(question)
        self.question = question


_DECADE = re.compile(r"(?:annees )?(\d{3})(?:0(?:s|'s|er|er jahre|-er|-х|-x)|x|-|_|\?)|annees (\d{3})0")
_QUARTER_NAME = "quarter|quartal|trimestre|kwartal|kvartal|q"
_QUARTER = re.compile(rf"(?:q([1-4])|([1-4])(?:st|nd|rd|th|\.|er|e)? ?(?:{_QUARTER_NAME}))[ ,/-]*(?:of )?(\d{{4}})")
_QUARTER_LAST = re.compile(r"(\d{4})[ ,/-]*q([1-4])")
_HALF = re.compile(r"(?:h([12])|(first|1st|1\.|second|2nd|2\.) (?:half|halbjahr))[ ,/-]*(?:of )?(\d{4})")
_SEASON_NAME = longest_first(frozenset(SEASONS) | WINTER)
_SEASON = re.compile(rf"({_SEASON_NAME})\s+(?:of\s+)?(\d{{4}})(?:[/-](\d{{2}}|\d{{4}}))?")
_DAY_NUMBER = re.compile(r"(\d{4,5})(?:\.0+)?")
_COMPACT = re.compile(r"(\d{4})(\d{2})(\d{2})")
_NUMBERS = re.compile(r"(\d{1,4})\s*(?:[./-]|\s)\s*(\d{1,2})\s*(?:[./-]|\s)\s*(\d{1,4})\.?")
_YEAR = re.compile(r"(\d{4})(?:\.0+)?\.?(?: ?г)?")
_SHORT_YEAR = re.compile(r"'?(\d{2})")
_MONTH_YEAR = re.compile(r"(\d{1,2})\s?[./-]\s?(\d{4})")
_YEAR_MONTH = re.compile(r"(\d{4})\.(\d{2})")


def one_date(text: str, habits: Habits) -> Days | None:
    """Read a folded text as one date; None when it is none. Raises UnclearError, and ValueError for 31 February."""
    if match := _DECADE.fullmatch(text):
        first = year_of((match[1] or match[2]) + "0")
        note = "years such as '1900s' were read as ten years, not a hundred" if first % 100 == 0 else ""
        return Days(date(first, 1, 1), date(first + 9, 12, 31), note=note)
    if match := _QUARTER.fullmatch(text):
        return months(year_of(match[3]), 3 * int(match[1] or match[2]) - 2, 3)
    if match := _QUARTER_LAST.fullmatch(text):
        return months(year_of(match[1]), 3 * int(match[2]) - 2, 3)
    if match := _HALF.fullmatch(text):
        second = (match[1] or match[2])[0] in "2s"
        return months(year_of(match[3]), 7 if second else 1, 6)
    if match := _SEASON.fullmatch(text):
        return _season(match[1], year_of(match[2]), match[3])
    return _numbers(text, habits) if text[-1:].isdigit() or "." in text[-2:] else _named(text, habits)


def _numbers(text: str, habits: Habits) -> Days | None:
    if (match := _DAY_NUMBER.fullmatch(text)) and int(match[1]) not in YEARS:
        return _day_number(int(match[1]), habits)
    if match := _COMPACT.fullmatch(text):
        return _day(year_of(match[1]), int(match[2]), int(match[3]))
    if match := _NUMBERS.fullmatch(text):
        return _three(match[1], match[2], match[3], habits)
    if match := _YEAR.fullmatch(text):
        return months(year_of(match[1]), 1, 12)
    if match := _MONTH_YEAR.fullmatch(text):
        return months(year_of(match[2]), int(match[1]), 1)
    if match := _YEAR_MONTH.fullmatch(text):
        return months(year_of(match[1]), int(match[2]), 1)
    if match := _SHORT_YEAR.fullmatch(text):
        return months(_full_year(match[1], habits), 1, 12)
    return _named(text, habits)


def _season(name: str, year: int, next_year: str | None) -> Days:
    """A season of the northern half of the world. A winter of one year alone may be its beginning or its end."""
    if name in WINTER:
        if next_year is None or int(next_year) % 100 != (year + 1) % 100:
            raise UnclearError("words")
        note = "winter was read as December to February"
        return Days(date(year, 12, 1), _month_end(year + 1, 2), note=note)
    first, last = SEASONS[name]
    note = "seasons were read as those of the northern half of the world"
    return replace(months(year, first, last - first + 1), note=note)


def _day_number(number: int, habits: Habits) -> Days:
    """A day counted from 1 January 1900, as spreadsheets do; they count a 29 February 1900 that never was."""
    if not habits.serial:
        raise UnclearError("serial")
    if habits.serial != DAY_NUMBER:
        raise UnclearError("words")
    day = date(1899, 12, 31 if number < 60 else 30) + timedelta(number)
    return Days(day, day, note="day numbers of a spreadsheet were turned into dates")


def _three(a: str, b: str, c: str, habits: Habits) -> Days:
    """Day, month and year as numbers. The order is taken from the numbers alone only when one of them is over 12."""
    if len(a) >= 3:
        return _day(year_of(a), int(b), int(c))
    if habits.order == YEAR_FIRST and len(c) <= 2:
        return _day(_full_year(a, habits), int(b), int(c))
    order, shows = habits.order, ""
    if int(a) > 12 or int(b) > 12:
        shows = order = DAY_FIRST if int(a) > 12 else MONTH_FIRST
    if not order and int(a) != int(b):
        raise UnclearError("day-order")
    day, month = (int(b), int(a)) if order == MONTH_FIRST else (int(a), int(b))
    return replace(_day(_full_year(c, habits), month, day), shows=shows)


_WORD = re.compile(r"'?\d+[^\W\d_]*\.?|[^\W\d_]+\.?(?:'[^\W\d_]+)?|[^\s\w]")
_DAY_OF_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th|er|ere|e|re|o|º|°|го)?\.?")
_LONG_YEAR = re.compile(r"(\d{4})\.?|'(\d{2})")


def _named(text: str, habits: Habits) -> Days | None:
    """A date with a month's name: '8 January 1912', 'Jan. 8, 1912', '8-Jan-12', 'le 1er janvier 1912'."""
    words = _WORD.findall(text)
    named = [number for word in words if (number := month_number(word)) is not None]
    numbers = [word for word in words if _DAY_OF_MONTH.fullmatch(word) or _LONG_YEAR.fullmatch(word)]
    others = [word for word in words if word not in numbers and month_number(word) is None]
    if any(word.strip(".,-/") not in FILLERS | WEEKDAYS | {""} for word in others):
        return None
    if not named and len(numbers) == 1 and len(numbers[0]) >= 4:  # 'year 1912'
        return months(year_of(numbers[0].rstrip(".")), 1, 12)
    return _in_month(named[0], numbers, habits) if len(named) == 1 else None


def _in_month(month: int, numbers: list[str], habits: Habits) -> Days | None:
    years = [number for number in numbers if _LONG_YEAR.fullmatch(number)]
    if not years and len(numbers) == 2 and re.fullmatch(r"\d{2}", numbers[1]):
        years = [numbers[1]]  # 8-Jan-12: of two short numbers the year stands last
    if len(years) != 1 or len(numbers) > 2:
        return None
    year = _full_year(years[0].strip(".'"), habits)
    day = next((_DAY_OF_MONTH.fullmatch(number) for number in numbers if number is not years[0]), None)
    return _day(year, month, int(day[1])) if day else months(year, month, 1)


def year_of(text: str) -> int:
    """Return the year. Raises UnclearError for one that no list can hold."""
    if int(text) not in YEARS:
        raise UnclearError("words")
    return int(text)


def _full_year(text: str, habits: Habits) -> int:
    """Complete a two-digit year to the one among the hundred years that its column means."""
    if len(text) == 4:
        return year_of(text)
    if len(text) != 2:
        raise UnclearError("words")
    if not habits.window:
        raise UnclearError("century")
    return habits.window + (int(text) - habits.window) % 100


def months(year: int, month: int, count: int) -> Days:
    """Return `count` whole months. Raises ValueError when there is no such month."""
    return Days(date(year, month, 1), _month_end(year, month + count - 1))


def _day(year: int, month: int, day: int) -> Days:
    return Days(date(year, month, day), date(year, month, day))


def _month_end(year: int, month: int) -> date:
    if not 1 <= month <= 12:
        raise ValueError(f"There is no month {month}.")
    return date(year, month, monthrange(year, month)[1])
