"""Checks of date codes: the parts of a register's code, and the tables that turn parts into years, months and works."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from knowledge.packs import numbers
from knowledge.packs.cells import date_span
from knowledge.packs.faults import Fault, at, counted, quoted
from knowledge.packs.tables import MEANINGS, Pack, Table
from knowledge.packs.times import series_of

_LENGTH = re.compile(r"([1-9][0-9]?)(?:-([1-9][0-9]?))?")
_PATTERNS = {"digits": "[0-9]*", "letters": "[A-Za-z]*", "any": "[0-9A-Za-z]*"}
_MOST = {"month": 12, "week": 53, "day": 31, "day-of-year": 366}
_ONCE = frozenset(MEANINGS) - {"sequence", "constant"}
_LONGEST_YEAR = 4


class Part(NamedTuple):
    """One part of a code as a row of `date-codes` gives it, with that row (counted from 0)."""

    row: int
    register: str
    shortest: int
    longest: int
    characters: str
    means: str
    table: str
    constant: str

    def fits(self, code: str) -> bool:
        """Tell whether the characters of a code are those of the part."""
        return re.fullmatch(_PATTERNS.get(self.characters, _PATTERNS["any"]), code) is not None


def check_codes(pack: Pack) -> Iterator[Fault]:
    """Yield the faults of `date-codes`, of `code-tables`, and of the two together."""
    table = pack.tables["date-codes"]
    parts = []
    for index, (length, *_) in enumerate(table.rows("length")):
        match = _LENGTH.fullmatch(length)
        if match and int(match[2] or match[1]) >= int(match[1]):
            parts.append(_part(table, index, int(match[1]), int(match[2] or match[1])))
        elif length:
            text = f"{quoted(length)} is no number of characters. Write 2, or 1-2 where both occur."
            yield at(table, index, "length", "bad-length", text)
    yield from _numbering(table)
    yield from _meanings(pack, table)
    for part in parts:
        yield from _constant(table, part)
        yield from _reading(pack, table, part)
    yield from _tables(pack, parts)


def _part(table: Table, index: int, shortest: int, longest: int) -> Part:
    register, characters, means, name, constant = (
        table.columns[column][index] for column in ("register", "characters", "means", "table", "constant")
    )
    return Part(index, register, shortest, longest, characters, means, name, constant)


def _numbering(table: Table) -> Iterator[Fault]:
    places = numbers.values(table.columns["part"])
    for register, series in series_of(table, "register").items():
        expected = 1
        for index in sorted((index for index in series if places[index] != numbers.NONE), key=places.__getitem__):
            if places[index] > expected:
                text = (
                    f"Part {expected} of {quoted(register[0])} is missing before {places[index]}. Number them 1, 2, 3."
                )
                yield at(table, index, "part", "missing-part", text)
            expected = places[index] + 1


def _meanings(pack: Pack, table: Table) -> Iterator[Fault]:
    registers = pack.tables["registers"]
    dated = {
        id_: bool(date_span(from_) and date_span(to)) for id_, from_, to in registers.rows("register", "from", "to")
    }
    for (register,), series in series_of(table, "register").items():
        seen: dict[str, int] = {}
        for index in series:
            means = table.columns["means"][index]
            if means in seen and means in _ONCE:
                text = f"Row {table.row_numbers[seen[means]]} tells the {means} already. Change one of the two."
                yield at(table, index, "means", "means-twice", text)
            seen.setdefault(means, index)
        if "day" in seen and "month" not in seen:
            text = (
                "A day is the day of a month, and no part tells the month, so the day is not used. Add the month, or "
            )
            text += "write day-of-year where the days are counted through the year."
            yield at(table, seen["day"], "means", "day-without-month", text)
        if "year" not in seen:
            known = "only the years of the register are known" if dated.get(register) else "nothing can be dated"
            text = f"No part of {quoted(register)} tells the year, so {known}. Add the part."
            yield at(table, series[0], None, "no-year", text)


def _constant(table: Table, part: Part) -> Iterator[Fault]:
    if part.means != "constant":
        return
    shown = quoted(part.constant)
    if not part.constant:
        text = "The cell is empty. Write the characters that always stand in this part."
    elif not part.shortest <= len(part.constant) <= part.longest:
        text = f"{shown} has {len(part.constant)} characters, the part has {part.shortest}. Correct one of the two."
    elif not part.fits(part.constant):
        text = f"{shown} is not made of {part.characters or 'letters A to Z and digits'}. Correct one of the two."
    else:
        return
    yield at(table, part.row, "constant", "bad-constant", text)


def _reading(pack: Pack, table: Table, part: Part) -> Iterator[Fault]:
    """Yield parts that cannot be read as they stand and have no table."""
    if part.table or part.means not in {"year", *_MOST}:
        return
    digits = _LONGEST_YEAR if part.means == "year" else len(str(_MOST[part.means]))
    if part.characters == "letters":
        text = f"Letters can tell the {part.means} only through a table. Name one, and add its rows to code-tables.csv."
        yield at(table, part.row, "table", "missing-table", text)
    elif part.shortest > digits:
        text = f"A {part.means} has at most {digits} digits, the part has {part.shortest}. Correct the length."
        yield at(table, part.row, "length", "code-length", text)
    elif part.means != "year" and part.longest < digits:
        text = (
            f"Not every {part.means} fits into {counted(part.longest, 'digit')}. Correct the length, or name a table."
        )
        yield at(table, part.row, "length", "code-length", text)
    elif part.means == "year" and part.shortest < _LONGEST_YEAR:
        yield from _years(pack.tables["registers"], part)


def _years(registers: Table, part: Part) -> Iterator[Fault]:
    for index, (register, from_, to) in enumerate(registers.rows("register", "from", "to")):
        for name, cell in (("from", from_), ("to", to)):
            if register == part.register and not cell:
                digits = counted(part.shortest, "digit")
                text = f"A year of {digits} may be several, so the register needs from and to. Fill it in."
                yield at(registers, index, name, "no-years", text)


def _tables(pack: Pack, parts: list[Part]) -> Iterator[Fault]:
    codes, table = pack.tables["code-tables"], pack.tables["date-codes"]
    rows = {name: series for (name,), series in series_of(codes, "table").items() if name}
    using: defaultdict[str, list[Part]] = defaultdict(list)
    for part in parts:
        if part.table:
            using[part.table].append(part)
    named = set(table.columns["table"])
    for index, name in enumerate(table.columns["table"]):
        if name and name not in rows and codes.complete:
            text = f"{quoted(name)} has no rows in {codes.file}. Add them there, or correct it here."
            yield at(table, index, "table", "unknown-table", text)
    for name, series in rows.items():
        if name not in named and table.complete:
            text = f"{quoted(name)} is used by no part in {table.file}. Correct the name, or delete its rows."
            yield at(codes, series[0], "table", "unused-table", text)
        for part in using[name]:
            for index in series:
                yield from _code(codes, index, part)
                yield from _value(pack, codes, index, part)


def _code(codes: Table, index: int, part: Part) -> Iterator[Fault]:
    code = codes.columns["code"][index]
    if not code:
        return
    if not part.shortest <= len(code) <= part.longest:
        wanted = str(part.shortest) if part.shortest == part.longest else f"{part.shortest} to {part.longest}"
        text = f"{quoted(code)} has {counted(len(code), 'character')}, its part has {wanted}."
        if code.isdigit() and len(code) < part.shortest:
            text += f" A spreadsheet may have dropped a zero: write {code.zfill(part.shortest)}."
            yield at(codes, index, "code", "lost-zero", text)
        else:
            yield at(codes, index, "code", "code-length", f"{text} Correct the code, or the length of the part.")
    elif not part.fits(code):
        text = f"{quoted(code)} is not made of {part.characters or 'letters A to Z and digits'}, as its part is."
        yield at(codes, index, "code", "code-characters", f"{text} Correct the code, or the part.")


def _value(pack: Pack, codes: Table, index: int, part: Part) -> Iterator[Fault]:
    value = codes.columns["value"][index]
    if not value:
        return
    if part.means == "year":
        yield from _year(pack, codes, index, part, value)
    elif part.means in _MOST:
        if not (numbers.is_number(value) and 1 <= int(value) <= _MOST[part.means]):
            text = f"{quoted(value)} is no {part.means}. Write a number from 1 to {_MOST[part.means]}."
            yield at(codes, index, "value", "bad-value", text)
    elif part.means in ("works", "model"):
        target = pack.tables["works" if part.means == "works" else "models"]
        if target.complete and value not in target.columns[part.means]:
            text = f"{quoted(value)} is not in {target.file}. Add it there, or correct it here."
            yield at(codes, index, "value", f"unknown-{part.means}", text)


def _year(pack: Pack, codes: Table, index: int, part: Part, value: str) -> Iterator[Fault]:
    year = date_span(value)
    if year is None:
        text = f"{quoted(value)} is no year. Write all four digits, such as 1912, or a span, such as 1912/1914."
        yield at(codes, index, "value", "bad-value", text)
        return
    for register, from_, to in pack.rows("registers", "register", "from", "to"):
        begin, end = date_span(from_), date_span(to)
        early = begin is not None and year.latest < begin.earliest
        if register == part.register and (early or (end is not None and year.earliest > end.latest)):
            text = f"{value} lies outside the years of {quoted(register)}, {from_ or '..'} to {to or '..'}."
            yield at(codes, index, "value", "outside-register", f"{text} Check which is right.")
