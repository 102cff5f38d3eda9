"""Checks of findings and sightings: numbers as they are stamped, lost zeros, authors and times, and personal data."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from knowledge import personal
from knowledge.packs import numbers
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.numbers import is_zero_led
from knowledge.packs.tables import LONGEST_NUMBER, SHARED, Pack, Table
from knowledge.shared import moment

_KEY = re.compile(r"[0-9a-f]{32}")
_STAMPED = re.compile(rf"(?=.*[0-9])[0-9A-Z]{{1,{LONGEST_NUMBER}}}", re.ASCII)
_NOBODY_TOLD = re.compile(r"expert [0-9]+|an expert of the group", re.IGNORECASE)


def check_machines(pack: Pack) -> Iterator[Fault]:
    """Yield the faults of `findings` and `sightings` that are no faults of single cells."""
    yield from _keys_and_authors(pack.tables["findings"])
    for name in SHARED:
        table = pack.tables[name]
        if len(table):
            yield from _numbers(table)
            yield from _lost_zeros(pack, table)
            yield from _says_nothing(table)
            yield from _other_makers(pack, table)
            yield from _names_somebody(table)


def _keys_and_authors(table: Table) -> Iterator[Fault]:
    for index, (key, author, settled) in enumerate(table.rows("finding", "author", "settled")):
        if key and not _KEY.fullmatch(key):
            text = f"{quoted(key)} is not 32 of the figures 0-9 and letters a-f. It is made once and never changed."
            yield at(table, index, "finding", "bad-key", f"{text} Copy it from the group that shared the finding.")
        if _NOBODY_TOLD.fullmatch(author):
            text = f"{quoted(author)} would be read as the reader's own group. Write which group settled it, such as"
            yield at(table, index, "author", "bad-author", f"{text} 'an expert of the Hallowmere circle'.")
        if settled and not _is_moment(settled):
            text = f"{quoted(settled)} is no time with its zone. Write it in UTC, such as 2026-11-25T14:03:00Z."
            yield at(table, index, "settled", "bad-time", text)


def _is_moment(text: str) -> bool:
    try:
        moment(text)
    except (ValueError, OverflowError):
        return False
    return True


def _numbers(table: Table) -> Iterator[Fault]:
    for index, (prefix, number, suffix, digits) in enumerate(table.rows("prefix", "number", "suffix", "digits")):
        if not number:
            if (prefix or suffix) and table.name == "findings":
                text = "There are letters of a number, and no number. Fill it in, or empty prefix and suffix."
                yield at(table, index, "number", "missing-cell", text)
        elif table.name == "findings" and not _STAMPED.fullmatch(number):
            yield at(table, index, "number", *_wrong(number))
        elif numbers.is_number(digits) and int(digits) != len(number):
            yield _miscounted(table, index, number, int(digits))


def _wrong(number: str) -> tuple[str, str]:
    if any(c.isalpha() for c in number) and number.isascii() and number.isalnum():
        return "bad-letters", f"{quoted(number)} must be in figures and capital letters. Write it as it is stamped."
    return numbers.what_is_wrong(number)


def _miscounted(table: Table, index: int, number: str, digits: int) -> Fault:
    text = f"{quoted(number)} has {len(number)} figures, and digits says {digits}."
    if len(number) < digits <= LONGEST_NUMBER and number.isdigit():
        return at(table, index, "number", "lost-zero", f"{text} A zero in front is lost: write {number.zfill(digits)}.")
    return at(table, index, "number", "digits-differ", f"{text} Count them in the source, and correct one of the two.")


def _lost_zeros(pack: Pack, table: Table) -> Iterator[Fault]:
    """Where `digits` is not told: numbers that no register of the pack holds, but does with zeros in front."""
    series = _Series(pack)
    for index, (prefix, number, suffix, digits) in enumerate(table.rows("prefix", "number", "suffix", "digits")):
        if digits or not numbers.is_number(number) or is_zero_led(number):
            continue
        width = series.zero_led(prefix, number, suffix)
        if width:
            text = f"{quoted(number)} is in no list of the pack, but {number.zfill(width)} is. If a zero is stamped in"
            yield at(table, index, "number", "perhaps-lost-zero", f"{text} front, write it, and say how many digits.")


class _Series:
    """The blocks of a pack's registers, asked for a number with and without zeros in front."""

    def __init__(self, pack: Pack) -> None:
        self._blocks: defaultdict[tuple[str, str], list[tuple[str, str]]] = defaultdict(list)
        for prefix, first, last, suffix in pack.rows("allocations", "prefix", "first", "last", "suffix"):
            if numbers.is_number(first) and numbers.is_number(last) and len(first) == len(last):
                self._blocks[prefix, suffix].append((first, last))

    def zero_led(self, prefix: str, number: str, suffix: str) -> int:
        """Return the number of digits with which a block holds the number, 0 when one does as it is or none does."""
        blocks = self._blocks.get((prefix, suffix), [])
        if any(len(first) == len(number) and first <= number <= last for first, last in blocks):
            return 0
        wider = ((len(first), first, last) for first, last in blocks if len(first) > len(number) and is_zero_led(first))
        return next((width for width, first, last in wider if first <= number.zfill(width) <= last), 0)


def _says_nothing(table: Table) -> Iterator[Fault]:
    told = ("date", "model") if table.name == "sightings" else ("maker", "model", "works", "date", "note")
    for index, cells in enumerate(table.rows(*told)):
        if not any(cells):
            text = f"The row tells none of {', '.join(told)}, so it is not used. Fill one in, or delete the row."
            yield at(table, index, None, "says-nothing", text)


def _other_makers(pack: Pack, table: Table) -> Iterator[Fault]:
    for name, column in (("models", "model"), ("works", "works")):
        makers = {id_: maker for id_, maker in pack.rows(name, column, "maker")}  # noqa: C416
        for index, (maker, id_) in enumerate(table.rows("maker", column)):
            theirs = makers.get(id_, "")
            if maker and theirs and maker != theirs:
                text = f"{quoted(id_)} is of {quoted(theirs)}, the machine of {quoted(maker)}. Check which is right."
                yield at(table, index, column, "other-maker", text)


def _names_somebody(table: Table) -> Iterator[Fault]:
    for column in ("evidence", "note", "author"):
        for index, cell in enumerate(table.columns.get(column, ())):
            if cell and personal.masked(cell) != cell:
                text = f"{quoted(cell)} seems to hold somebody's name, address or telephone number. Leave that out."
                yield at(table, index, column, "names-somebody", text)
