"""Registers by a date code: the number itself tells the date.

A code is a run of parts of fixed length: a year by letter or by its last digits, a month, a week, a day, a works, a
model, a sequence number, a constant. One code can stand for several years; each is a dating of its own, and so is
each day that two rules for counting weeks would give.

Source: common practice. `%U`-like counting (week 1 is the first full week, from Sunday) is that of 49 CFR 574.5;
otherwise weeks are those of ISO 8601.
"""

from __future__ import annotations

import calendar
import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import product
from typing import NamedTuple

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.errors import BedstampError
from knowledge.registers.register import PackSource, Register

KIND = "date-code"
FULL_WEEKS = "first-full-week"
_CLASSES = {"digits": "[0-9]", "letters": "[A-Z]", "any": "[0-9A-Z]"}


class CodeValue(NamedTuple):
    """One meaning of a code: `value` as the table gives it, valid for dates within `from_`..`to` (EDTF or empty)."""

    value: str
    from_: str
    to: str


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a code. `values` is its table, None when the code is read as it stands."""

    shortest: int
    longest: int
    characters: str
    means: str
    constant: str
    rule: str
    values: Mapping[str, tuple[CodeValue, ...]] | None

    def pattern(self) -> str:
        """Return the part as a group of a regular expression."""
        if self.means == "constant":
            return f"({re.escape(self.constant.upper())})"
        return f"({_CLASSES.get(self.characters, _CLASSES['any'])}{{{self.shortest},{self.longest}}})"


class CodeDating(NamedTuple):
    """One dating of a code. `model` and `works` are ids of the pack, empty when the code does not tell."""

    span: DateSpan
    model: str
    works: str
    sequence: str


@dataclass(frozen=True, slots=True)
class DateCode:
    """The code of one register, asked by `covering`."""

    register: Register
    register_id: str
    parts: tuple[Part, ...]
    pattern: re.Pattern[str]

    @property
    def shortest(self) -> int:
        """The least number of letters and digits."""
        return sum(part.shortest for part in self.parts)

    @property
    def longest(self) -> int:
        """The greatest number of letters and digits."""
        return sum(part.longest for part in self.parts)

    @property
    def leading_letters(self) -> str:
        """The constant letters the code begins with, empty when it begins otherwise."""
        first = self.parts[0]
        return first.constant.upper() if first.means == "constant" and first.constant.isalpha() else ""

    def covering(self, serial: str) -> list[CodeDating]:
        """Return every dating of a cleaned serial (upper case, no separators); none when it is no such code."""
        match = self.pattern.fullmatch(serial)
        if match is None:
            return []
        meanings = [
            list(_meanings(part, code, self.register)) for part, code in zip(self.parts, match.groups(), strict=True)
        ]
        datings = (self._dating(choice) for choice in product(*meanings))
        return [dating for dating in datings if dating is not None]

    def _dating(self, choice: tuple[CodeValue, ...]) -> CodeDating | None:
        said = {part.means: value.value for part, value in zip(self.parts, choice, strict=True)}
        rule = next((part.rule for part in self.parts if part.means == "week"), "")
        span = _span(said, rule, self.register)
        if span is None or not all(_is_valid(value, span) for value in choice):
            return None
        return CodeDating(span, said.get("model", ""), said.get("works", ""), said.get("sequence", ""))


def codes(source: PackSource, registers: Mapping[str, Register]) -> list[DateCode]:
    """Return the date codes among `registers` (by the id the pack uses)."""
    tables: defaultdict[str, defaultdict[str, list[CodeValue]]] = defaultdict(lambda: defaultdict(list))
    for table, code, value, from_, to in source.rows("code-tables", "table", "code", "value", "from", "to"):
        tables[table][code.upper()].append(CodeValue(value, from_, to))
    parts: defaultdict[str, list[tuple[int, Part]]] = defaultdict(list)
    columns = ("register", "part", "length", "characters", "means", "table", "constant", "rule")
    for register, place, *cells in source.rows("date-codes", *columns):
        if register in registers:
            parts[register].append((int(place), _part(cells, tables)))
    return [_code(registers[register], register, found) for register, found in parts.items()]


def _code(register: Register, register_id: str, found: list[tuple[int, Part]]) -> DateCode:
    ordered = tuple(part for _, part in sorted(found, key=lambda one: one[0]))
    return DateCode(register, register_id, ordered, re.compile("".join(part.pattern() for part in ordered)))


def _part(cells: list[str], tables: Mapping[str, Mapping[str, list[CodeValue]]]) -> Part:
    length, characters, means, table, constant, rule = cells
    shortest, _, longest = length.partition("-")
    values = {code: tuple(found) for code, found in tables[table].items()} if table else None
    return Part(int(shortest), int(longest or shortest), characters, means, constant, rule, values)


def _meanings(part: Part, code: str, register: Register) -> Iterator[CodeValue]:
    """Yield what a code can stand for; nothing when its table does not have it."""
    if part.values is not None:
        yield from part.values.get(code, ())
    elif part.means == "year" and len(code) < 4:
        for year in _years_ending(code, register):
            yield CodeValue(str(year), "", "")
    else:
        yield CodeValue(code, "", "")


def _years_ending(code: str, register: Register) -> Iterator[int]:
    if not code.isdigit() or not (register.from_ and register.to):
        return
    from_, to = edtf.parse(register.from_).earliest.year, edtf.parse(register.to).latest.year
    cycle = 10 ** len(code)
    yield from range(from_ + (int(code) - from_) % cycle, to + 1, cycle)


def _span(said: Mapping[str, str], rule: str, register: Register) -> DateSpan | None:
    """Return the time that the parts name; None when there is no such day, week or month."""
    try:
        year = _year_span(said, register)
        if year is None or year.earliest.year != year.latest.year:
            return year
        return _within_year(year, said, rule)
    except (BedstampError, ValueError):
        return None


def _year_span(said: Mapping[str, str], register: Register) -> DateSpan | None:
    if "year" in said:
        return edtf.parse(said["year"])
    if register.from_ and register.to:
        return edtf.span(edtf.parse(register.from_).earliest, edtf.parse(register.to).latest)
    return None


def _within_year(span: DateSpan, said: Mapping[str, str], rule: str) -> DateSpan:
    """Narrow a year to the day, week or month said. ValueError when the year has none such."""
    year = span.earliest.year
    if "day-of-year" in said:
        first = last = date(year, 1, 1) + timedelta(days=_counted(said["day-of-year"], 366) - 1)
        if first.year != year:
            raise ValueError("no such day of the year")
    elif "week" in said:
        first, last = _week(year, _counted(said["week"], 53), rule)
    elif "month" in said:
        month = int(said["month"])
        day = int(said["day"]) if "day" in said else 0
        first = date(year, month, day or 1)
        last = first if day else date(year, month, calendar.monthrange(year, month)[1])
    else:
        return span
    return edtf.span(first, last)


def _counted(text: str, most: int) -> int:
    count = int(text)
    if not 1 <= count <= most:
        raise ValueError(f"{text} is not within 1 to {most}")
    return count


def _week(year: int, week: int, rule: str) -> tuple[date, date]:
    if rule == FULL_WEEKS:
        first_sunday = date(year, 1, 1) + timedelta(days=(6 - date(year, 1, 1).weekday()) % 7)
        first = first_sunday + timedelta(weeks=week - 1)
        if first.year != year:
            raise ValueError("no such week")
    else:
        first = date.fromisocalendar(year, week, 1)
    return first, first + timedelta(days=6)


def _is_valid(value: CodeValue, span: DateSpan) -> bool:
    """Tell whether a code's meaning was in use at some time of `span`."""
    try:
        begun = edtf.parse(value.from_).earliest if value.from_ else date.min
        ended = edtf.parse(value.to).latest if value.to else date.max
    except BedstampError:
        return True
    return begun <= span.latest and span.earliest <= ended
