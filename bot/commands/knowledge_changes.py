"""`bedstamp knowledge propose`, `changes`, `agree` and so on: registers change only when two experts agree."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from bot.commands.dialogue import person_named, says_yes, show
from bot.commands.opening import add_file_options, file_of, journal_to_read, opened_journal
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.expert_desk.register_changes import RegisterDesk
    from bot.journal import Journal
    from knowledge.base import Knowledge
    from knowledge.register_changes.nouns import RegisterChange
    from knowledge.store import Store

_TABLES = ("allocations", "year-starts", "date-codes", "code-tables", "prefixes")  # as in register_changes/nouns.py
_WHICH_TABLE = f"the file of the pack: {', '.join(_TABLES)} (allocations, when left out)"
_EXAMPLE = "change K 200001-225000 date 1891"


def add(commands: Any) -> None:
    """Describe the commands."""
    _add_propose(_add(commands, "propose", "propose a change of a register, for another expert to agree to", propose))
    listed = _add(
        commands, "changes", "list the changes that wait for a second expert, and those in force", list_changes
    )
    listed.add_argument("--all", action="store_true", help="also those turned down or taken back")
    listed.add_argument("--json", action="store_true", help="one line of JSON for each change")
    shown = _one(commands, "change", "show one change as a difference, with its history", show_change)
    shown.add_argument("--json", action="store_true", help="print it as JSON")
    agreed = _one(commands, "agree", "agree to a change that another expert proposed; it is shown first", agree)
    _expert(agreed)
    agreed.add_argument("--yes", action="store_true", help="agree without being asked, for scripts")
    _expert(_one(commands, "turn-down", "turn a proposal down, or take back your own", turn_down))
    _add(commands, "history", "show who proposed, agreed to and turned down what, and when", show_history)
    rows = _add(commands, "rows", "print the changed rows as CSV, for the file of the pack", print_rows)
    rows.add_argument("--pack", metavar="NAME", default="", help="the pack (needed when several have changes)")
    rows.add_argument("--table", metavar="TABLE", choices=_TABLES, default="allocations", help=_WHICH_TABLE)
    rows.add_argument("--whole", action="store_true", help="print the whole table as it stands, not only what changed")
    experts = _add(commands, "experts", "list the experts by number, and say which two are two people", show_experts)
    experts.add_argument("--different", metavar="N", type=int, nargs=2, help="these two experts are two people")


def _add(commands: Any, name: str, text: str, run: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name, help=text, description=f"{text[:1].upper()}{text[1:]}.", allow_abbrev=False
    )
    add_file_options(parser)
    parser.set_defaults(run=run)
    return parser


def _one(commands: Any, name: str, text: str, run: Any) -> argparse.ArgumentParser:
    parser = _add(commands, name, text, run)
    parser.add_argument("number", metavar="N", type=int, help="the number of the change")
    return parser


def _expert(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    parser.add_argument(
        "--as", metavar="NAME", dest="name", required=True, help="who you are; it is never shown to anybody"
    )
    parser.add_argument("--why", metavar="WORDS", default="", help="why; kept with the change, and shown")
    return parser


def _add_propose(parser: argparse.ArgumentParser) -> None:
    _expert(parser)
    parser.add_argument("words", nargs="*", metavar="WORDS", help=f"what is to change, as in: {_EXAMPLE}")
    columns = parser.add_argument_group("or by the columns of the pack, for any row of a register")
    columns.add_argument("--pack", metavar="NAME", default="", help="the pack (needed when there are several)")
    columns.add_argument("--table", metavar="TABLE", choices=_TABLES, default="allocations", help=_WHICH_TABLE)
    columns.add_argument(
        "--row", metavar="COLUMN=CELL", action="append", default=[], help="cells that tell the row; none for a new row"
    )
    columns.add_argument("--set", metavar="COLUMN=CELL", action="append", default=[], help="a cell as it is to be")
    columns.add_argument("--remove", action="store_true", help="take the row out")


def propose(arguments: argparse.Namespace) -> int:
    """Keep a proposal and show it as a difference. Returns 0; raises DeskError, ChangeError, UsageError."""
    from bot.channels import reading

    by_columns = bool(arguments.row or arguments.set)
    if by_columns == bool(arguments.words):
        raise UsageError(f'Say what is to change, in words, such as "{_EXAMPLE}", or by columns with --row and --set.')
    with opened_journal(arguments) as journal:
        desk, store = _desk(journal), journal.store()
        knowledge, now = _knowledge(store), datetime.now(UTC)
        if by_columns:
            change = _by_columns(arguments, store)
            made = desk.propose(person_named(arguments.name), change, knowledge, now, arguments.why)
        else:
            words = reading.joined(arguments.words)
            made = desk.propose_words(person_named(arguments.name), words, knowledge, now, arguments.why)
    number = made.change.number
    how = f"bedstamp knowledge agree {number} --as NAME"
    show([made.text, f"This is change {number}. Nothing is changed before another expert agrees: {how}"])
    return 0


def _to_read(arguments: argparse.Namespace) -> Store:
    from knowledge.store import open_store

    return open_store(file_of(arguments), read_only=True)


def _desk_to_read(arguments: argparse.Namespace) -> Journal:
    """Return the file for reading alone. Raises DeskError for one in which nothing was ever proposed."""
    from bot.expert_desk import DeskError
    from bot.expert_desk.tables import DESK
    from knowledge.migrations import KNOWLEDGE

    journal = journal_to_read(arguments, DESK, KNOWLEDGE)
    if journal is None:
        raise DeskError(f"There is no change {arguments.number}: nothing was ever proposed in this file.")
    return journal


def list_changes(arguments: argparse.Namespace) -> int:
    """Print the changes, those that wait first."""
    from bot.replies.as_json import as_json_text
    from knowledge.register_changes.nouns import IN_FORCE, PROPOSED

    with _to_read(arguments) as store:
        found = store.register_changes(*(() if arguments.all else (PROPOSED, IN_FORCE)))
        knowledge, how = _knowledge(store), _standing(store)
    if arguments.json:
        for one in found:
            print(as_json_text(_as_json(one, how)))
    else:
        show(_listed(found, knowledge, how))
    return 0


def show_change(arguments: argparse.Namespace) -> int:
    """Print one change as a difference, what the checks warn of, and its history. Raises ChangeError."""
    from bot.replies.as_json import as_json_text
    from knowledge.register_changes import words
    from knowledge.register_changes.nouns import PROPOSED

    with _desk_to_read(arguments) as journal:
        store = journal.store()
        change, steps = store.register_change(arguments.number), store.register_steps(arguments.number)
        knowledge, how = _knowledge(store), _standing(store)
        if arguments.json:
            history = [{"what": one.what, "who": one.who, "at": one.at.isoformat(), "why": one.why} for one in steps]
            print(as_json_text({**_as_json(change, how), "history": history}, 2))
            return 0
        waits = change.state == PROPOSED
        text = (
            _desk(journal).difference(change.number, knowledge) if waits else "\n".join(words.lines(change, knowledge))
        )
    show([text, *(_step(one) for one in steps), *_where_it_stands(change, how)])
    return 0


def agree(arguments: argparse.Namespace) -> int:
    """Show a change, and put it in force when the expert says yes. Returns 1 when they do not.

    Raises DeskError and ChangeError when it must not be.
    """
    person = person_named(arguments.name)
    with opened_journal(arguments) as journal:
        if not _is_agreed(arguments, journal):
            show(["Nothing was changed."])
            return 1
        show([_desk(journal).agree(arguments.number, person, datetime.now(UTC), arguments.why).text])
    return 0


def _is_agreed(arguments: argparse.Namespace, journal: Journal) -> bool:
    """Show a change that waits, and ask. Of one that does not wait the desk says what became of it."""
    from knowledge.register_changes.nouns import PROPOSED

    store = journal.store()
    if store.register_change(arguments.number).state != PROPOSED:
        return True
    show([_desk(journal).difference(arguments.number, _knowledge(store))])
    return arguments.yes or says_yes("Agree to this?", "Nobody is there to say yes; --yes agrees without asking.")


def turn_down(arguments: argparse.Namespace) -> int:
    """Turn a proposal down. Returns 0; raises ChangeError."""
    person, now = person_named(arguments.name), datetime.now(UTC)
    with opened_journal(arguments) as journal:
        show([_desk(journal).turn_down(arguments.number, person, now, arguments.why).text])
    return 0


def show_history(arguments: argparse.Namespace) -> int:
    """Print everything that was done, the earliest first."""
    with _to_read(arguments) as store:
        steps = [(step, one) for one in store.register_changes() for step in store.register_steps(one.number)]
        knowledge = _knowledge(store)
    from knowledge.register_changes.words import short

    steps.sort(key=lambda pair: pair[0].at)
    show([f"{_step(step)}: change {one.number}, {short(one, knowledge)}" for step, one in steps] or ["Nothing yet."])
    return 0


def print_rows(arguments: argparse.Namespace) -> int:
    """Print rows as CSV on standard output, and nothing else. Raises UsageError when no pack, or several, are meant."""
    from knowledge.packs.tables import SCHEMAS
    from knowledge.register_changes.exporting import changed_rows, whole_table

    with _to_read(arguments) as store:
        packs = {one.pack for one in store.register_changes("in force")}
        pack = _pack(arguments.pack, sorted(packs) or list(store.pack_names()))
        if arguments.whole:
            text = whole_table(arguments.table, store.rows(pack, arguments.table, *SCHEMAS[arguments.table].columns))
        else:
            text = changed_rows(arguments.table, store.standing(pack))
    sys.stdout.write(text)
    return 0


def show_experts(arguments: argparse.Namespace) -> int:
    """Print the experts, or note that two of them are two people. Raises DeskError."""
    with opened_journal(arguments) as journal:
        desk = _desk(journal)
        if arguments.different:
            desk.are_different(*arguments.different)
            show(["Noted: expert {} and expert {} are two people.".format(*arguments.different)])
            return 0
        known = desk.experts()
    lines = [
        f"expert {number}: writes by {channel}" if channel else f"expert {number}: forgotten"
        for number, channel in known.items()
    ]
    show(lines or ["No expert has done anything yet."])
    return 0


def _by_columns(arguments: argparse.Namespace, store: Store) -> RegisterChange:
    from knowledge.register_changes.finding_rows import row_with
    from knowledge.register_changes.nouns import RegisterChange, as_cells, as_row

    pack, table = _pack(arguments.pack, list(store.pack_names())), arguments.table
    key, cells = _cells(arguments.row), _cells(arguments.set)
    if not key:
        return RegisterChange(pack, table, None, as_row(table, cells))
    before = row_with(table, key, store.source(pack))
    if arguments.remove == bool(cells):
        raise UsageError("Say what is to become of the row: --set COLUMN=CELL, or --remove.")
    after = None if arguments.remove else as_row(table, as_cells(table, before) | cells)
    return RegisterChange(pack, table, before, after)


def _cells(given: list[str]) -> dict[str, str]:
    cells: dict[str, str] = {}
    for one in given:
        column, equals, cell = one.partition("=")
        if not equals:
            raise UsageError(f"'{one}' is not COLUMN=CELL, as in: date=1891")
        cells[column.strip()] = cell.strip()
    return cells


def _pack(named: str, packs: list[str]) -> str:
    if named or len(packs) == 1:
        return named or packs[0]
    names = ", ".join(packs)
    raise UsageError(f"Which pack? Name it with --pack: {names}" if names else "There is no pack here yet.")


def _standing(store: Store) -> dict[int, str]:
    return {one.change.number: one.how for pack in store.pack_names() for one in store.standing(pack)}


def _listed(found: tuple[RegisterChange, ...], knowledge: Knowledge, how: dict[int, str]) -> Iterator[str]:
    from knowledge.register_changes.words import short

    if not found:
        yield f'No changes. Propose one: bedstamp knowledge propose "{_EXAMPLE}" --as NAME --db FILE'
    for one in sorted(found, key=lambda one: (one.state != "proposed", one.number)):
        by = f", agreed by {one.other}" if one.state == "in force" else ""
        yield f"{one.number}. {one.state}: {short(one, knowledge)} (by {one.proposer}{by})"
        yield from (f"   {line}" for line in _where_it_stands(one, how))


def _where_it_stands(one: RegisterChange, how: dict[int, str]) -> Iterator[str]:
    from knowledge.register_changes.overlay import LAID_OVER

    if one.state == "in force" and how.get(one.number, "") != LAID_OVER:
        yield f"It does nothing now: {how.get(one.number, 'its pack is not loaded')}."


def _step(one: Any) -> str:
    why = f" ({one.why})" if one.why else ""
    return f"{one.at.astimezone():%Y-%m-%d %H:%M} {one.what} by {one.who}{why}"


def _as_json(one: RegisterChange, how: dict[int, str]) -> dict[str, Any]:
    from knowledge.register_changes.nouns import as_cells

    return {
        "number": one.number, "state": one.state, "pack": one.pack, "table": one.table,
        "before": as_cells(one.table, one.before) if one.before else None,
        "after": as_cells(one.table, one.after) if one.after else None,
        "proposer": one.proposer, "at": one.at.isoformat() if one.at else None, "why": one.why,
        "decided_by": one.other or None, "since": one.since.isoformat() if one.since else None,
        "stands": how.get(one.number),
    }  # fmt: skip


def _knowledge(store: Store) -> Knowledge:
    from knowledge.base import Knowledge

    with store.unchanging():
        return Knowledge.of(store.sources(), store.findings())


def _desk(journal: Any) -> RegisterDesk:
    from bot.expert_desk.register_changes import RegisterDesk

    return RegisterDesk(journal)
