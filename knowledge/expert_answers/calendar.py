"""Days, months and seasons in a clause: '3 March 1911', 'March 1911', '3.3.1911', 'spring 1911'."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from knowledge import edtf
from knowledge.edtf import EdtfError
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.months import month_number
from knowledge.packs.importing.date_words import SEASONS
from knowledge.tokens.number_words import DIGIT_WORDS, TEENS, TENS

_OF = r"(?:of |de |del |di |d'|vom )?"
_ORDINAL = r"(?:st|nd|rd|th|er|\.|o)?"
_NAMED = re.compile(
    rf"(?<![\w.])(?:(?P<day>\d{{1,2}}){_ORDINAL} ?{_OF})?(?P<word>[^\W\d_]{{3,}})\.?,? ?"
    rf"(?:(?P<late_day>\d{{1,2}}){_ORDINAL}(?:,? |, ?))?{_OF}(?P<year>1[789]\d\d)(?!\d)"
)
_ISO = re.compile(r"(?<![\w-])(1[789]\d\d)-(\d\d)(?:-(\d\d))?(?![\d-])")
_NUMBERS = re.compile(r"(?<![\w./-])(\d{1,2})([./-]) ?(\d{1,2})\2 ?(1[789]\d\d)(?!\d)")
_MONTHS = re.compile(
    r"(?<![^\W_])(?P<first>[^\W\d_]{3,})\.? ?(?:-|–|/|to|bis|a) ?(?P<last>[^\W\d_]{3,})\.? (?:of |de |del )?"
    r"(?P<year>1[789]\d\d)(?!\d)"
)
_SHORT_RANGE = re.compile(
    r"(?<![\w./-])(?P<first>1[789]\d\d)(?: ?[-–/] ?| (?:or|oder|ou|o|of|to|bis|a|al|tot) )'?(?P<last>\d{1,2})"
    r"(?![\d.]|(?: ?[-/.])\d)"
)
_MONTH_YEAR = re.compile(r"(?<![\w./-])(\d{1,2})/(1[789]\d\d)(?!\d)")


_TEN_TO_NINETEEN = {word: number for number, word in enumerate(TEENS["English"].split(), 10)}
_TWENTY_AND_ON = {word: 10 * number for number, word in enumerate(TENS["English"].split(), 2)}
_ONE_TO_NINE = {word: number for number, word in enumerate(DIGIT_WORDS["English"][1:], 1)}
_SPOKEN = re.compile(
    rf"(?<![^\W_])(?P<hundreds>eighteen|nineteen)[ -](?:(?P<teen>{'|'.join(_TEN_TO_NINETEEN)})|(?P<ten>"
    rf"{'|'.join(_TWENTY_AND_ON)})(?:[ -](?P<unit>{'|'.join(_ONE_TO_NINE)}))?|(?:oh?|hundred and)[ -]"
    rf"(?P<low>{'|'.join(_ONE_TO_NINE)})|hundred)(?![^\W_])"
)


def calendar_dates(clause: Clause) -> Iterator[tuple[int, int, str]]:
    """Yield where each date stands, and its EDTF text. Of 3/5/1911, which can mean two days, the year alone is read."""
    for pattern, read in _READERS:
        for match in pattern.finditer(clause.low, clause.start, clause.end):
            text = read(match)
            if text and _is_date(text):
                yield *match.span(), text


def _named(match: re.Match[str]) -> str:
    year, word = match["year"], match["word"]
    if word in SEASONS:
        first, last = SEASONS[word]
        return f"{year}-{first:02}/{year}-{last:02}"
    month = month_number(word)
    day = match["day"] or match["late_day"]
    if month is None:
        return ""
    return f"{year}-{month:02}" + (f"-{int(day):02}" if day else "")


def _iso(match: re.Match[str]) -> str:
    year, month, day = match.groups()
    if day is None and int(month) > int(year[2:]):
        return f"{year}/{year[:2]}{month}"  # 1908-12 is a span of years
    return f"{year}-{month}" + (f"-{day}" if day else "")


def _numbers(match: re.Match[str]) -> str:
    first, sign, second, year = match.groups()
    if sign != "." and int(first) <= 12 and int(second) <= 12 and first != second:
        return year
    day, month = (second, first) if int(second) > 12 else (first, second)
    return f"{year}-{int(month):02}-{int(day):02}"


def _month_year(match: re.Match[str]) -> str:
    return f"{match[2]}-{int(match[1]):02}"


def _spoken(match: re.Match[str]) -> str:
    """Read 'nineteen twelve', 'nineteen oh four' and 'eighteen ninety-five'."""
    year = 100 * _TEN_TO_NINETEEN[match["hundreds"]]
    year += _TEN_TO_NINETEEN.get(match["teen"], 0) + _TWENTY_AND_ON.get(match["ten"], 0)
    return str(year + _ONE_TO_NINE.get(match["unit"], 0) + _ONE_TO_NINE.get(match["low"], 0))


def _is_date(text: str) -> bool:
    try:
        return edtf.parse(text).earliest > date.min
    except EdtfError:
        return False


def _months(match: re.Match[str]) -> str:
    first, last = month_number(match["first"]), month_number(match["last"])
    if first is None or last is None or first >= last:
        return ""
    return f"{match['year']}-{first:02}/{match['year']}-{last:02}"


def _short_range(match: re.Match[str]) -> str:
    """Read '1936 or 37' and '1936-7'; 1911-03 may be a month and is left to `_iso`."""
    first, last = match["first"], match["last"]
    whole = first[: -len(last)] + last
    return f"{first}/{whole}" if whole > first else ""


_READERS = (
    (_SHORT_RANGE, _short_range), (_MONTHS, _months),
    (_NAMED, _named), (_ISO, _iso), (_NUMBERS, _numbers), (_MONTH_YEAR, _month_year), (_SPOKEN, _spoken),
)  # fmt: skip
