"""The dates of one column: read together, so that each habit of the list is asked once."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, replace

from knowledge.names import fold
from knowledge.packs.faults import counted
from knowledge.packs.importing.date_words import WINTER, month_number
from knowledge.packs.importing.dates import TWO_YEARS, YEAR_AND_MONTH, DateRead, read_date
from knowledge.packs.importing.one_date import (
    DAY_FIRST,
    DAY_NUMBER,
    MONTH_FIRST,
    NO_DATE,
    YEAR_FIRST,
    Habits,
)
from knowledge.packs.importing.questions import Interview
from knowledge.packs.importing.sheet import LONGEST_TEXT

LEAVE_EMPTY = "leave empty"
MOST_ASKED = 20  # different texts asked about one by one


@dataclass(frozen=True, slots=True)
class Dates:
    """The EDTF dates, what could not be read beside each ('' mostly), and what was assumed."""

    edtf: list[str]
    unread: list[str]
    notes: list[str]


def read_dates(cells: list[str], rows: list[int], years: tuple[int, int] | None, interview: Interview) -> Dates:
    """Read a column of dates. `years` are the first and last year of the register, if known."""
    counts = Counter(cells)
    where = dict(zip(reversed(cells), reversed(rows), strict=True))  # the first row of each text
    habits = _habits(counts, where, years, interview)
    read = {text: read_date(text, habits) for text in counts}
    told = _Answers(interview, where, habits)
    unread = [text for text in counts if read[text].question == "words"]
    answers = told.one_by_one(unread) if len(unread) <= MOST_ASKED else told.all_at_once(unread, counts)
    edtf = [answers.get(text, read[text].edtf) for text in cells]
    left = {text for text in unread if not answers.get(text)}
    return Dates(edtf, [text if text in left else "" for text in cells], _notes(read, counts, where))


def combined(years: list[str], months: list[str], days: list[str]) -> list[str]:
    """Join the columns year, month and day into dates whose order cannot be mistaken.

    >>> combined(["1912", "1912", "1912"], ["1", "Feb", ""], ["8", "", ""])
    ['1912-01-08', '02/1912', '1912']
    """
    return [_joined(*parts) for parts in zip(years, months, days, strict=True)]


def _joined(year: str, month: str, day: str) -> str:
    number = int(month) if month.isdecimal() else month_number(month) if month else None
    if number is None or not re.fullmatch(r"\d{4}", year):
        return " ".join(part for part in (day, month, year) if part)
    return f"{year}-{number:02}-{day.zfill(2)}" if day else f"{number:02}/{year}"


def _habits(counts: Counter[str], where: dict[str, int], years: tuple[int, int] | None, interview: Interview) -> Habits:
    """Ask for each habit that the column makes one need."""
    habits = Habits()
    for question, ask in _HABITS.items():
        read = {text: read_date(text, habits) for text in counts}
        doubtful = [text for text in counts if read[text].question == question]
        if not doubtful and question == "century":  # a day order still open can hide it
            trial = replace(habits, order=habits.order or DAY_FIRST)
            doubtful = [text for text in counts if read_date(text, trial).question == question]
        if doubtful:
            shown = _Doubt(doubtful, read, where, sum(counts[text] for text in doubtful), years)
            habits = ask(habits, shown, interview)
    return habits


@dataclass(frozen=True, slots=True)
class _Doubt:
    texts: list[str]
    read: dict[str, DateRead]
    where: dict[str, int]
    count: int
    years: tuple[int, int] | None

    @property
    def row(self) -> int:
        return self.where[self.texts[0]]

    @property
    def example(self) -> str:
        more = f", and {self.count - 1} more" if self.count > 1 else ""
        return f"'{self.texts[0]}' in row {self.row}{more}"

    def proof(self, *habits: str) -> str:
        """Say which other cells of the column settle what the doubtful ones leave open."""
        told = []
        for habit in habits:
            proving = [text for text, read in self.read.items() if read.shows == habit]
            if proving:
                told.append(f"Row {self.where[proving[0]]}, '{proving[0]}', can only be {habit}.")
        return " " + " ".join(told) if told else ""


def _ask_order(habits: Habits, doubt: _Doubt, interview: Interview) -> Habits:
    short = any(re.fullmatch(r"\d{1,2}\D+\d{1,2}\D+\d{1,2}", text) for text in doubt.texts)
    text = f"Does the day or the month come first in dates such as {doubt.example}?"
    choices = (DAY_FIRST, MONTH_FIRST, YEAR_FIRST) if short else (DAY_FIRST, MONTH_FIRST)
    text += doubt.proof(DAY_FIRST, MONTH_FIRST)
    return replace(habits, order=interview.ask("day-order", text, choices, row=doubt.row, column="date"))


def _ask_pair(habits: Habits, doubt: _Doubt, interview: Interview) -> Habits:
    text = f"Is {doubt.example}, two years or a year and a month?{doubt.proof(TWO_YEARS, YEAR_AND_MONTH)}"
    answer = interview.ask("pair", text, (TWO_YEARS, YEAR_AND_MONTH), row=doubt.row, column="date")
    return replace(habits, pair=answer)


def _ask_serial(habits: Habits, doubt: _Doubt, interview: Interview) -> Habits:
    day = read_date(doubt.texts[0], Habits(serial=DAY_NUMBER)).edtf
    text = f"Is {doubt.example}, the day number of a spreadsheet? The first would be {day}."
    answer = interview.ask("serial", text, (DAY_NUMBER, NO_DATE), row=doubt.row, column="date")
    return replace(habits, serial=answer)


def _ask_century(habits: Habits, doubt: _Doubt, interview: Interview) -> Habits:
    starts = {1800, 1850, 1900} | ({doubt.years[0]} if doubt.years else set())
    choices = tuple(f"{start} to {start + 99}" for start in sorted(starts))
    text = f"Which hundred years are meant by years of two digits, such as {doubt.example}?"
    if doubt.years:
        text += f" The register runs from {doubt.years[0]} to {doubt.years[1]}."
    answer = interview.ask("century", text, choices, row=doubt.row, column="date", free=True)
    if not answer:
        return habits
    if not (match := re.fullmatch(r"(\d{4})(?: ?(?:to|-|–) ?\d{4})?", answer)):
        raise interview.reject("give the first of the hundred years, such as 1870.")
    return replace(habits, window=int(match[1]))


_HABITS = {"day-order": _ask_order, "pair": _ask_pair, "serial": _ask_serial, "century": _ask_century}


@dataclass(frozen=True, slots=True)
class _Answers:
    """Asks about texts that are no dates, and reads the answers."""

    interview: Interview
    where: dict[str, int]
    habits: Habits

    def one_by_one(self, texts: list[str]) -> dict[str, str]:
        found = {}
        for text in texts:
            question = (
                f"'{text[:LONGEST_TEXT]}' in row {self.where[text]} was not understood as a date. Which date is it?"
            )
            question += " (Such as 1912, 1912-01-08, c. 1912, 1910/1912.)"
            choices = (LEAVE_EMPTY, *_proposals(text))
            answer = self.interview.ask(
                f"date:{text}", question, choices, row=self.where[text], column="date", free=True
            )
            found[text] = self._read(answer)
        return {text: edtf for text, edtf in found.items() if edtf}

    def all_at_once(self, texts: list[str], counts: Counter[str]) -> dict[str, str]:
        shown = ", ".join(f"'{text[:40]}' (row {self.where[text]})" for text in texts[:5])
        cells = sum(counts[text] for text in texts)
        question = (
            f"Not understood as dates: {counted(cells, 'cell')}, such as {shown}. Leave them empty? Otherwise set "
        )
        question += "them right in the file and import it again."
        self.interview.ask("dates", question, (LEAVE_EMPTY,), row=self.where[texts[0]], column="date")
        return {}

    def _read(self, answer: str) -> str:
        if answer in ("", LEAVE_EMPTY):
            return ""
        read = read_date(answer, self.habits)
        if read.question or not read.edtf:
            raise self.interview.reject("that is no date either.")
        return read.edtf


def _proposals(text: str) -> tuple[str, ...]:
    """The winter of a year is its beginning or its end: propose both."""
    match = re.fullmatch(r"(\w+)\s+(\d{4})", text)
    if match is None or fold(match[1]) not in WINTER:
        return ()
    year = int(match[2])
    return f"{year - 1}-12/{year}-02", f"{year}-12/{year + 1}-02"


def _notes(read: dict[str, DateRead], counts: Counter[str], where: dict[str, int]) -> list[str]:
    """Say each assumption once, with how often it was made and an example."""
    notes: dict[str, list[str]] = {}
    for text, one in read.items():
        if one.note:
            notes.setdefault(one.note, []).append(text)
    told = []
    for note, texts in notes.items():
        times, first = sum(counts[text] for text in texts), texts[0]
        became = f", now {read[first].edtf}" if read[first].edtf else ""
        how_often = counted(times, "time")
        told.append(f"{note[0].upper()}{note[1:]}: {how_often}, such as '{first}' in row {where[first]}{became}.")
    return told
