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
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import product
from typing import NamedTuple

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.errors import BedstampError
from knowledge.registers.register import PackSource, Register, changed_rows

KIND = "date-code"
_FINER = frozenset({"month", "week", "day-of-year"})
_MOST_YEARS = 30
FULL_WEEKS = "first-full-week"
_CLASSES = {"digits": "0-9", "letters": "A-Z", "any": "0-9A-Z"}
_MOST_FILLED = 4
"""Unreadable places that are filled; a code with more of them in its date tells nothing."""

IdOf = Callable[[str, str], str]


class CodeValue(NamedTuple):
    """One meaning of a code: `value` as the table gives it, valid for dates within `from_`..`to` (EDTF or empty).

    `changed` tells of the group's change of this row, '' where there is none.
    """

    value: str
    from_: str
    to: str
    changed: str = ""


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
    unreadable: bool = False
    """Whether `?` may stand for a digit."""

    def pattern(self) -> str:
        """Return the part as a group of a regular expression."""
        if self.means == "constant":
            return f"({re.escape(self.constant.upper())})"
        signs = _CLASSES.get(self.characters, _CLASSES["any"])
        if self.characters != "letters" and (self.unreadable or self.means == "sequence"):
            signs += "?"
        return f"([{signs}]{{{self.shortest},{self.longest}}})"


class CodeDating(NamedTuple):
    """One dating of a code. `model` and `works` are ids, empty when the code does not tell.

    `changed` tells of changes that the group made in what it was read by, '' where there are none.
    """

    span: DateSpan
    model: str
    works: str
    changed: str = ""


@dataclass(frozen=True, slots=True)
class DateCode:
    """The code of one register, asked by `covering`. `id_of` turns an id of the pack into one of the knowledge base.

    `changed` tells of the group's changes of its parts, '' where there are none.
    """

    register: Register
    parts: tuple[Part, ...]
    pattern: re.Pattern[str]
    id_of: IdOf
    changed: str = ""

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
        """Return every dating of a cleaned serial (upper case, no separators); none when it is no such code.

        `?` may stand for digits of a sequence number, which dates nothing.
        """
        if self.pattern.fullmatch(serial) is None:
            return []
        datings = (dating for codes in _cuts(serial, self.parts) for dating in self._datings(codes))
        return list(dict.fromkeys(datings))

    def fillings(self, typed: str) -> Iterator[str]:
        """Yield `typed` with its unreadable places (`?`) filled, but for those of sequence numbers."""
        cuts = list(dict.fromkeys(_cuts(typed, tuple(replace(part, unreadable=True) for part in self.parts))))
        for codes in cuts:
            fixed = [code if part.means == "sequence" else "" for part, code in zip(self.parts, codes, strict=True)]
            open_places = sum(code.count("?") for code, kept in zip(codes, fixed, strict=True) if not kept)
            for digits in product("0123456789", repeat=min(open_places, _MOST_FILLED)):
                yield _filled(codes, fixed, digits)

    def _datings(self, codes: tuple[str, ...]) -> Iterator[CodeDating]:
        meanings = [list(_meanings(part, code, self.register)) for part, code in zip(self.parts, codes, strict=True)]
        rule = next((part.rule for part in self.parts if part.means == "week"), "")
        for choice in product(*meanings):
            said = {part.means: value.value for part, value in zip(self.parts, choice, strict=True)}
            for span in _spans(said, rule, self.register):
                if all(_is_valid(value, span) for value in choice):
                    model, works = (self.id_of(kind, said.get(kind, "")) for kind in ("model", "works"))
                    told = dict.fromkeys((self.changed, *(value.changed for value in choice)))
                    yield CodeDating(span, model, works, "; ".join(filter(None, told)))


def _filled(codes: Sequence[str], fixed: Sequence[str], digits: Sequence[str]) -> str:
    """Put digits into the unreadable places of the codes that are not `fixed`."""
    filling = iter(digits)
    filled = (
        kept or "".join(next(filling, sign) if sign == "?" else sign for sign in code)
        for code, kept in zip(codes, fixed, strict=True)
    )
    return "".join(filled)


def _cuts(serial: str, parts: tuple[Part, ...]) -> Iterator[tuple[str, ...]]:
    """Yield every way of cutting a serial into the parts of a code."""
    if not parts:
        if not serial:
            yield ()
        return
    part, others = parts[0], parts[1:]
    for length in range(part.shortest, min(part.longest, len(serial)) + 1):
        if re.fullmatch(part.pattern(), serial[:length]):
            for rest in _cuts(serial[length:], others):
                yield (serial[:length], *rest)


def codes(source: PackSource, registers: Mapping[str, Register], id_of: IdOf) -> list[DateCode]:
    """Return the date codes among `registers` (by the id the pack uses). `id_of` is told a kind and an id."""
    tables: defaultdict[str, defaultdict[str, list[CodeValue]]] = defaultdict(lambda: defaultdict(list))
    changed = changed_rows(source, "code-tables")
    for row in source.rows("code-tables", "table", "code", "value", "from", "to"):
        table, code, value, from_, to = row
        told_of = changed[row].words if row in changed else ""
        tables[table][code.upper()].append(CodeValue(value, from_, to, told_of))
    parts: defaultdict[str, list[tuple[int, Part]]] = defaultdict(list)
    told: defaultdict[str, list[str]] = defaultdict(list)
    changed = changed_rows(source, "date-codes")
    columns = ("register", "part", "length", "characters", "means", "table", "constant", "rule")
    for row in source.rows("date-codes", *columns):
        register, place, *cells = row
        if register in registers:
            parts[register].append((int(place), _part(cells, tables)))
            told[register] += [changed[row].words] if row in changed else []
    return [_code(registers[one], found, id_of, "; ".join(told[one])) for one, found in parts.items()]


def _code(register: Register, found: list[tuple[int, Part]], id_of: IdOf, changed: str) -> DateCode:
    ordered = tuple(part for _, part in sorted(found, key=lambda one: one[0]))
    return DateCode(register, ordered, re.compile("".join(part.pattern() for part in ordered)), id_of, changed)


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


def _spans(said: Mapping[str, str], rule: str, register: Register) -> Iterator[DateSpan]:
    """Yield the times that the parts name; nothing where there is no such day, week or month.

    A code that stands for several years gives each of them where a month, week or day narrows it.
    """
    try:
        span = _year_span(said, register)
    except (BedstampError, ValueError):
        return
    if span is None:
        return
    years = range(span.earliest.year, span.latest.year + 1)
    if not _FINER & said.keys() or len(years) > _MOST_YEARS:
        yield span
        return
    for year in years:
        try:
            yield _within_year(year, said, rule, span.approximate)
        except (BedstampError, ValueError):
            continue


def _year_span(said: Mapping[str, str], register: Register) -> DateSpan | None:
    if "year" in said:
        return edtf.parse(said["year"])
    if register.from_ and register.to:
        return edtf.span(edtf.parse(register.from_).earliest, edtf.parse(register.to).latest)
    return None


def _within_year(year: int, said: Mapping[str, str], rule: str, approximate: bool) -> DateSpan:
    """Narrow a year to the day, week or month said. ValueError when the year has none such."""
    if "day-of-year" in said:
        first = last = date(year, 1, 1) + timedelta(days=_counted(said["day-of-year"], 366) - 1)
        if first.year != year:
            raise ValueError("no such day of the year")
    elif "week" in said:
        first, last = _week(year, _counted(said["week"], 53), rule)
    else:
        month = int(said["month"])
        day = int(said["day"]) if "day" in said else 0
        first = date(year, month, day or 1)
        last = first if day else date(year, month, calendar.monthrange(year, month)[1])
    return edtf.span(first, last, approximate)


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
