"""`bedstamp pack check` and `pack load`: look a pack over, and put it into a knowledge base."""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bot.commands import pack_import
from bot.commands.dialogue import show

if TYPE_CHECKING:
    from knowledge.changes import Changes
    from knowledge.packs import Fault, Pack
    from knowledge.register_changes.overlay import Standing
    from knowledge.sharing import Comparison

SHOWN_OF_A_KIND = 10
"""Faults of one kind that are shown one by one, unless all are wanted."""


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command and its own commands."""
    parser = commands.add_parser("pack", help="check, load and make packs of knowledge", allow_abbrev=False)
    of_pack = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=type(parser))
    _add_check(of_pack)
    _add_load(of_pack)
    pack_import.add(of_pack)


def _add_check(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser(
        "check",
        help="show every fault of a pack",
        description="Shows all faults of a pack at once, with file, row and column. Exit code 1 for errors.",
        allow_abbrev=False,
    )
    parser.add_argument("folder", metavar="DIR", type=Path, help="the folder of the pack")
    parser.add_argument("--json", action="store_true", help="print all faults as JSON")
    parser.add_argument("--all", action="store_true", help="print every fault, not only the first of each kind")
    parser.set_defaults(run=check)


def _add_load(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser(
        "load",
        help="put a pack into a knowledge base",
        description="Puts a pack into a knowledge base, whole or not at all, and says what that changed.",
        allow_abbrev=False,
    )
    parser.add_argument("folder", metavar="DIR", type=Path, help="the folder of the pack")
    parser.add_argument("--db", metavar="FILE", type=Path, required=True, help="the knowledge base; made when missing")
    parser.add_argument("--json", action="store_true", help="print what that changed as JSON")
    parser.set_defaults(run=load)


def check(arguments: argparse.Namespace) -> int:
    """Print the faults. Returns 1 when there are errors, else 0."""
    from knowledge.packs import faults_of

    pack, faults = faults_of(arguments.folder)
    errors = [fault for fault in faults if fault.severity == "error"]
    warnings = [fault for fault in faults if fault.severity != "error"]
    if arguments.json:
        from bot.replies.as_json import as_json_text

        print(as_json_text({kind: [fault.as_json() for fault in found] for kind, found in _kinds(errors, warnings)}, 2))
        return 1 if errors else 0
    for kind, found in _kinds(errors, warnings):
        _print_faults(kind, found, arguments.all)
    show([_verdict(pack.name, len(errors), len(warnings))])
    return 1 if errors else 0


def load(arguments: argparse.Namespace) -> int:
    """Load the pack. Returns 0; raises PackFaults when it has errors, and StoreError."""
    from bot import merging
    from bot.replies.as_json import as_json_text
    from knowledge.packs import counted
    from knowledge.packs import load as load_pack
    from knowledge.register_changes.overlay import ROW_GONE
    from knowledge.store import open_store

    pack = load_pack(arguments.folder)
    with open_store(arguments.db, create=True) as store:
        merging.refuse_loss(pack, store)
        comparison = merging.beside_ours(pack, store)
        changes = store.save_pack(pack, _Progress())
        astray = [one for one in store.standing(pack.name) if one.how == ROW_GONE]
    cases = merging.take_up_in(comparison, arguments.db, datetime.now(UTC)) if comparison else 0
    if arguments.json:
        print(as_json_text(_loaded_json(pack, changes, comparison, astray, cases), 2))
        return 0
    rows = sum(len(table) for table in pack.tables.values())
    show([f"Loaded the pack {pack.name} into {arguments.db}: {counted(rows, 'row')}."])
    show(f"  {line}" for line in (*changes.in_words(), *_loaded_words(comparison, astray, cases)))
    return 0


def _loaded_words(comparison: Comparison | None, astray: Sequence[Standing], cases: int) -> Iterator[str]:
    from bot.replies import merging
    from knowledge.packs import counted
    from knowledge.register_changes.words import row_named

    if comparison:
        yield from merging.words(comparison)
    if cases:
        yield f"{counted(cases, 'contradiction')} became {'a case' if cases == 1 else 'cases'} for your experts."
    for one in astray:
        yield (
            f"Change {one.change.number} of {row_named(one.change)} does not count any more: the row it changes is "
            "gone from the pack, or says something else now. Look at it: bedstamp knowledge changes"
        )


def _loaded_json(
    pack: Pack, changes: Changes, comparison: Comparison | None, astray: Sequence[Standing], cases: int
) -> dict[str, Any]:
    from bot.replies import merging

    tables = {
        one.table: {"added": one.added, "removed": one.removed, "changed": one.changed} for one in changes.tables if one
    }
    shared = merging.as_json(comparison) if comparison else None
    numbers = [one.change.number for one in astray]
    return {"pack": pack.name, "changes": tables, "shared": shared, "cases": cases, "changes_without_a_row": numbers}


def _kinds(errors: Sequence[Fault], warnings: Sequence[Fault]) -> Iterator[tuple[str, Sequence[Fault]]]:
    yield "errors", errors
    yield "warnings", warnings


def _print_faults(kind: str, faults: Sequence[Fault], everything: bool) -> None:
    if faults:
        print(f"{kind.capitalize()}:")
    seen: Counter[str] = Counter()
    for fault in faults:
        seen[fault.code] += 1
        if everything or seen[fault.code] <= SHOWN_OF_A_KIND:
            show([f"  {fault}"])
    for code, count in seen.items():
        if not everything and count > SHOWN_OF_A_KIND:
            show([f"  ... and {count - SHOWN_OF_A_KIND:,} more '{code}' (--all shows them)"])


def _verdict(name: str, errors: int, warnings: int) -> str:
    from knowledge.packs import counted

    told = f"{counted(errors, 'error')}, {counted(warnings, 'warning')}"
    if errors:
        return f"{name}: {told}. Errors would give wrong answers: the pack is not loaded before they are put right."
    return f"{name}: {told}. The pack can be loaded."


class _Progress:
    """Tells on a terminal how far a long load has come."""

    def __init__(self) -> None:
        self._told = time.monotonic()

    def __call__(self, done: int, total: int) -> None:
        if not sys.stderr.isatty():
            return
        now = time.monotonic()
        if now - self._told > 0.5:
            print(f"\r{done:,} of {total:,} rows ", end="", file=sys.stderr, flush=True)
            self._told = now
        if done == total:
            print("\r" + " " * 40 + "\r", end="", file=sys.stderr, flush=True)
