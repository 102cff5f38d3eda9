"""The plan of an import: the rows as far as they are clear, the questions, the repairs offered, the assumptions."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from knowledge.errors import UsageError
from knowledge.packs.importing.layout import lay_out
from knowledge.packs.importing.questions import Interview, Question
from knowledge.packs.importing.rows import Target, read_rows
from knowledge.packs.importing.sheet import Sheet
from knowledge.packs.importing.zeros import Block, Repair, propose
from knowledge.packs.tables import Table


@dataclass(frozen=True, slots=True)
class ImportPlan:
    """What an import would do. `rows` is empty while it is not known which column is which.

    `questions` holds the answered ones too. `repairs` are numbered from 1, and empty while a question is open.
    `names` gives, for 'model', 'works' and 'source', the name as written for each id that was made of one.
    """

    sheet: Sheet
    target: Target
    answers: Mapping[str, str]
    rows: Table
    questions: tuple[Question, ...] = ()
    repairs: tuple[Repair, ...] = ()
    notes: tuple[str, ...] = ()
    names: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @property
    def open_questions(self) -> tuple[Question, ...]:
        """The questions without an answer."""
        return tuple(question for question in self.questions if not question.answer)


def make_plan(sheet: Sheet, target: Target, answers: Mapping[str, str] | None = None) -> ImportPlan:
    """Work out what importing the sheet would do.

    `answers` are by the number or the key of a question; an answer may lead to further questions, numbered after
    those before. Raises SheetError for what must be set right in the file, UsageError for an answer that does not fit.
    """
    given = {name: answer for name, answer in (answers or {}).items() if answer.strip()}
    numbered: list[str] = []  # the keys of the questions, in the order in which they came up
    while True:
        known = {_key(name, numbered): answer for name, answer in given.items()}
        interview = Interview(known)
        plan = _planned(sheet, target, interview)
        numbered += [question.key for question in interview.questions if question.key not in numbered]
        if {_key(name, numbered) for name in given} == known.keys():
            break
    for name in given:
        if _key(name, numbered) not in numbered:
            raise UsageError(f"There is no question {name}. There are {len(numbered)}, numbered from 1.")
    asked = [replace(question, number=numbered.index(question.key) + 1) for question in interview.questions]
    asked.sort(key=lambda question: question.number)
    repairs = plan.repairs if all(question.answer for question in asked) else ()
    return replace(plan, questions=tuple(asked), answers=given, repairs=repairs)


def apply(
    plan: ImportPlan,
    answers: Mapping[str, str] | None = None,
    accepted_repairs: Collection[int] | Literal["all"] = (),
) -> Table:
    """Return the table to be written; its row numbers are those of the sheet.

    `accepted_repairs` are the numbers of repairs, from 1, or 'all'.
    The numbers are those of the plan with all its answers. Raises UsageError when a question is still open, or when a
    number is none of a repair.
    """
    plan = make_plan(plan.sheet, plan.target, {**plan.answers, **(answers or {})})
    if plan.open_questions:
        numbers = ", ".join(str(question.number) for question in plan.open_questions)
        first = plan.open_questions[0]
        raise UsageError(f"Still to be answered: question {numbers}. Question {first.number}: {first.text}")
    accepted = range(1, len(plan.repairs) + 1) if accepted_repairs == "all" else accepted_repairs
    for number in accepted:
        if not 1 <= int(number) <= len(plan.repairs):
            raise UsageError(f"There is no repair {number}. There are {len(plan.repairs)}, numbered from 1.")
    return _repaired(plan.rows, [plan.repairs[int(number) - 1] for number in accepted])


def _key(name: str, numbered: list[str]) -> str:
    """Return the key of the question with that number, if it has come up already."""
    place = int(name) if name.isdecimal() and len(name) < 9 else 0
    return numbered[place - 1] if 1 <= place <= len(numbered) else name


def _planned(sheet: Sheet, target: Target, interview: Interview) -> ImportPlan:
    layout = lay_out(sheet, interview)
    if layout is None:
        return ImportPlan(sheet, target, interview.answers, Table.of("allocations"), notes=sheet.notes)
    read = read_rows(layout, target, interview)
    repairs = propose(_blocks(read.table), target.digits)
    notes = (*sheet.notes, *read.notes)
    return ImportPlan(sheet, target, interview.answers, read.table, (), tuple(repairs), notes, read.names)


def _blocks(table: Table) -> list[Block]:
    years = [date[:4] if date[:4].isdigit() else "" for date in table.columns["date"]]
    cells = table.rows("prefix", "suffix", "first", "last")
    rows = zip(table.row_numbers, cells, years, strict=True)
    return [Block(row, prefix, suffix, first, last, year) for row, (prefix, suffix, first, last), year in rows]


def _repaired(table: Table, repairs: list[Repair]) -> Table:
    columns = {name: list(cells) for name, cells in table.columns.items()}
    places = {row: place for place, row in enumerate(table.row_numbers)}
    for repair in repairs:
        for column, new in repair.cells:
            columns[column][places[repair.row]] = new
    return Table.of(table.name, columns, row_numbers=table.row_numbers)
