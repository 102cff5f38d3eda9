"""`bedstamp pack import`: a list from a spreadsheet or text table becomes rows of a pack. Nothing is guessed."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from bot.replies.cleaning import safe
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from knowledge.packs import Fault, Table
    from knowledge.packs.importing import ImportPlan, Question

REPAIRS_SHOWN = 20
FAULTS_SHOWN = 20


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "import",
        help="make a pack of a spreadsheet or text table",
        description="Reads a list from .xlsx, .ods or CSV into a pack. What is unclear is asked: on a terminal one by "
        "one, else shown, to be answered with --answer. Nothing is written before all is answered.",
        allow_abbrev=False,
    )
    parser.add_argument("file", metavar="FILE", type=Path, help="the list")
    parser.add_argument("folder", metavar="DIR", type=Path, help="the pack; made when missing, else added to")
    parser.add_argument("--register", metavar="ID", default="", help="the register the numbers belong to")
    parser.add_argument("--maker", metavar="NAME", default="", help="whose register it is, when the pack does not tell")
    parser.add_argument("--sheet", metavar="NAME", help="which sheet of a spreadsheet")
    parser.add_argument("--digits", metavar="N", type=int, default=0, help="how many digits the numbers have")
    parser.add_argument("--answer", metavar="N=TEXT", action="append", default=[], help="the answer to question N")
    parser.add_argument("--repair", metavar="N,N", default="", help="which repairs to make: numbers, all, or none")
    parser.add_argument("--replace", action="store_true", help="in place of the rows the register has already")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Import. Returns 0 when the pack was written, 1 when something must be answered first."""
    from bot.new_rows import pack_at, target_in, with_rows
    from knowledge.packs import check, counted, write
    from knowledge.packs.importing import apply, make_plan, read_sheet

    pack = pack_at(arguments.folder)
    sheet = read_sheet(arguments.file, arguments.sheet)
    plan = make_plan(sheet, target_in(pack, arguments.register, arguments.digits), _answers(arguments.answer))
    plan = _interview(plan) if sys.stdin.isatty() else plan
    for note in plan.notes:
        print(safe(f"- {note}"))
    if plan.open_questions:
        return _show_questions(plan)
    accepted = _accepted(plan, arguments.repair)
    if accepted is None:
        return 1
    table = apply(plan, accepted_repairs=accepted)
    made = with_rows(pack, table, plan.names, arguments.maker, arguments.replace)
    faults = check(made)
    if any(fault.severity == "error" for fault in faults):
        return _show_faults(arguments, table, faults, len(plan.repairs) - len(accepted))
    write(made, arguments.folder)
    wrote, warnings = counted(len(table), "row"), counted(len(faults), "warning")
    print(safe(f"Wrote {wrote} of {table.name} into {arguments.folder}; {warnings}."))
    print(safe(f"Look it over with: bedstamp pack check {arguments.folder}"))
    return 0


def _answers(given: list[str]) -> Mapping[str, str]:
    answers: dict[str, str] = {}
    for one in given:
        name, equals, text = one.partition("=")
        if not equals or not name.strip():
            raise UsageError(f"'{one}' is no answer. Write the number of the question, '=', and the answer.")
        answers[name.strip()] = text
    return answers


def _interview(plan: ImportPlan) -> ImportPlan:
    """Ask the open questions on the terminal, one by one; an answer that does not fit is asked for again."""
    from knowledge.packs.importing import make_plan

    while plan.open_questions:
        question = plan.open_questions[0]
        print(safe(_in_words(question)))
        try:
            answer = input("> ")
        except EOFError:
            print()
            return plan
        try:
            plan = make_plan(plan.sheet, plan.target, {**plan.answers, question.key: answer})
        except UsageError as fault:
            print(safe(str(fault)))
    return plan


def _in_words(question: Question) -> str:
    where = f" (row {question.row})" if question.row is not None else ""
    choices = "".join(f"\n     - {choice}" for choice in question.choices)
    return f"{question.number}. {question.text}{where}{choices}"


def _show_questions(plan: ImportPlan) -> int:
    print("Only you can answer this; call the command again with --answer N=TEXT for each:")
    for question in plan.open_questions:
        print(safe(_in_words(question)))
    return 1


def _show_faults(arguments: argparse.Namespace, table: Table, faults: Sequence[Fault], declined: int) -> int:
    """Say which rows of the list would give wrong answers, and what to do. Nothing has been written."""
    errors = [fault for fault in faults if fault.severity == "error"]
    print(safe(f"Nothing was written, for these rows of {arguments.file.name} would give wrong answers:"))
    for fault in errors[:FAULTS_SHOWN]:
        print(safe(f"  {replace(fault, file=arguments.file.name) if fault.file == table.file else fault}"))
    if len(errors) > FAULTS_SHOWN:
        print(f"  ... and {len(errors) - FAULTS_SHOWN:,} more")
    print("Put them right in the list and import it again.")
    if any(fault.code == "lost-zero" for fault in errors):
        width = max(len(cell) for name in ("first", "last") for cell in table.columns.get(name, ()))
        made = " with --repair all" if declined else f", if all of them have {width} digits, with --digits {width}"
        print(f"Or have the zeros put back{made}.")
    return 1


def _accepted(plan: ImportPlan, given: str) -> list[int] | None:
    """Return the numbers of the repairs to make; None when they were only shown, for nobody has said yet."""
    if not plan.repairs:
        return []
    if not given:
        print("These numbers seem to have lost their zeros:")
        for number, repair in enumerate(plan.repairs[:REPAIRS_SHOWN], 1):
            print(safe(f"{number}. Row {repair.row}: {repair.old} -> {repair.new}. {repair.reason}"))
        if len(plan.repairs) > REPAIRS_SHOWN:
            print(f"... and {len(plan.repairs) - REPAIRS_SHOWN:,} more")
        given = _asked() if sys.stdin.isatty() else ""
    if not given:
        print("Say which to make: --repair all, --repair none, or --repair 1,3")
        return None
    return _numbers(given, len(plan.repairs))


def _asked() -> str:
    try:
        return input("Make which? all, none, or numbers such as 1,3 > ").strip()
    except EOFError:
        print()
        return ""


def _numbers(given: str, count: int) -> list[int]:
    if given.casefold() in ("all", "none"):
        return list(range(1, count + 1)) if given.casefold() == "all" else []
    parts = [part.strip() for part in given.split(",") if part.strip()]
    if not all(part.isascii() and part.isdecimal() and len(part) < 9 for part in parts):
        raise UsageError(f"'{given}' does not say which repairs to make. Write all, none, or numbers such as 1,3.")
    return [int(part) for part in parts]
