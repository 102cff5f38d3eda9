"""Checks of registers as a whole: that they have rows, in the right file, and an end where they need one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from knowledge.packs import numbers
from knowledge.packs.cells import date_span
from knowledge.packs.faults import Fault, at, counted, fault, quoted
from knowledge.packs.tables import FILE_OF_KIND, SCHEMAS, Pack, Table


def check_registers(pack: Pack) -> Iterator[Fault]:
    """Yield registers without rows, of the wrong kind, without an end or without a word on what their dates are."""
    yield from _without_rows(pack)
    registers = pack.tables["registers"]
    kinds = {register: kind for register, kind in registers.rows("register", "kind") if kind in FILE_OF_KIND}
    for kind, name in FILE_OF_KIND.items():
        yield from _of_other_kind(pack.tables[name], kind, kinds)
    for index, (register, kind, object_, to) in enumerate(registers.rows("register", "kind", "object", "to")):
        yield from _register(pack, index, register, kind, to)
        if kind in kinds.values() and not object_:
            text = "The cell is empty, so the dates are taken for dates of allocation. Say what they are dates of."
            yield at(registers, index, "object", "no-object", text)


def check_prefixes(table: Table) -> Iterator[Fault]:
    """Yield rows of the second list that say neither when nor where."""
    for index, (register, date, works) in enumerate(table.rows("register", "date", "works")):
        if register and not (date or works):
            text = "The row gives neither date nor works. Fill in one of them, or delete the row."
            yield at(table, index, None, "says-nothing", text)


def _without_rows(pack: Pack) -> Iterator[Fault]:
    if pack.shares and not len(pack.tables["registers"]):
        return
    for name, schema in SCHEMAS.items():
        table = pack.tables[name]
        if schema.required and table.complete and not len(table):
            yield fault("no-rows", "It has no rows below its head. Every pack needs at least one.", table.file)
    lists = [pack.tables[name] for name in FILE_OF_KIND.values()]
    if all(table.complete and not len(table) for table in lists):
        text = (
            "No register has rows: allocations.csv, year-starts.csv and date-codes.csv are missing or empty. Add one."
        )
        yield fault("no-rows", text, pack.tables["registers"].file)


def _of_other_kind(table: Table, kind: str, kinds: dict[str, str]) -> Iterator[Fault]:
    """Yield the first row of each register that must not have rows in this file; the same in every row helps nobody."""
    counts = Counter(table.columns["register"])
    wrong = {register: counts[register] for register in counts if kinds.get(register, kind) != kind}
    for index, register in enumerate(table.columns["register"] if wrong else ()):
        if register in wrong:
            rows = counted(wrong.pop(register), "row")
            text = f"{quoted(register)} is of the kind {kinds[register]}, but has {rows} here, which is for {kind}."
            yield at(table, index, "register", "other-kind", f"{text} Change the kind, or move the rows.")


def _register(pack: Pack, index: int, register: str, kind: str, to: str) -> Iterator[Fault]:
    registers = pack.tables["registers"]
    if kind in FILE_OF_KIND and register:
        table = pack.tables[FILE_OF_KIND[kind]]
        if table.complete and register not in table.columns["register"]:
            text = f"{quoted(register)} has no rows in {table.file}. Add them, or delete the register."
            yield at(registers, index, None, "empty-register", text)
    if kind == "year-starts" and not to:
        text = (
            "The cell is empty, so the last year of the list holds every later number. Write the last year or number."
        )
        yield at(registers, index, "to", "open-end", text)
    if kind != "year-starts" and numbers.is_number(to) and date_span(to) is None:
        text = f"{quoted(to)} is no date. Only a list by year may end at a number; write a year, such as 1912."
        yield at(registers, index, "to", "bad-date", text)
