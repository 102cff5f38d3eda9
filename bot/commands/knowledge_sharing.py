"""`bedstamp knowledge export` and `compare`: what experts settled, for others, and what others share beside ours."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bot.commands.dialogue import show
from bot.commands.opening import add_file_options
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from knowledge.packs import Pack
    from knowledge.sharing import Left
    from knowledge.store import Store


def add(commands: Any) -> None:
    """Describe the commands."""
    export = _add(commands, "export", "write a pack of what experts settled, for other groups", export_pack)
    export.description = (
        "Writes a pack with all findings and sightings, and the makers, models, works and sources they name. No names "
        "of people, no addresses, no words of messages."
    )
    export.add_argument("--group", metavar="NAME", default="", help="how other groups know yours")
    export.add_argument("--name", metavar="NAME", default="", help="the name of the pack (made of the group's)")
    compare = _add(
        commands, "compare", "look what a pack of another group would bring; nothing is changed", compare_pack
    )
    compare.add_argument("--all", action="store_true", help="show every contradiction")


def _add(commands: Any, name: str, text: str, run: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name, help=text, description=f"{text[:1].upper()}{text[1:]}.", allow_abbrev=False
    )
    parser.add_argument("folder", metavar="DIR", type=Path, help="the folder of the pack")
    add_file_options(parser)
    parser.add_argument("--json", action="store_true", help="print what came of it as JSON")
    parser.set_defaults(run=run)
    return parser


def export_pack(arguments: argparse.Namespace) -> int:
    """Write the pack. Returns 0; raises StoreError, and UsageError when there is nothing to share."""
    from bot.replies.as_json import as_json_text
    from knowledge.packs import write
    from knowledge.sharing import exported

    database, group = _where(arguments)
    with _opened(database) as store:
        pack, left = exported(_knowledge(store), arguments.group or group, arguments.name)
    _must_be_free(arguments.folder, pack)
    if not pack.shares:
        raise UsageError(f"Experts settled nothing yet in {database}, so there is nothing to share.")
    write(pack, arguments.folder)
    if arguments.json:
        print(as_json_text(_export_json(pack, left), 2))
    else:
        show(_export_words(arguments.folder, pack, left))
    return 0


def compare_pack(arguments: argparse.Namespace) -> int:
    """Print what a pack would bring. Returns 0; raises PackFaults, StoreError, UsageError when it shares nothing."""
    from bot.merging import beside_ours
    from bot.replies import merging
    from bot.replies.as_json import as_json_text
    from knowledge.packs import load

    pack = load(arguments.folder)
    with _opened(_where(arguments)[0]) as store:
        comparison = beside_ours(pack, store)
    if comparison is None:
        raise UsageError(f"The pack {pack.name} has neither findings nor sightings, so there is nothing to compare.")
    if arguments.json:
        print(as_json_text(merging.as_json(comparison), 2))
    else:
        show([f"What {pack.name} says beside what is known here (nothing was changed):"])
        show(f"  {line}" for line in merging.words(comparison, everything=arguments.all))
    return 0


def _where(arguments: argparse.Namespace) -> tuple[Path, str]:
    """Return the file, and the name of the group where settings tell it."""
    if arguments.db is not None:
        return arguments.db, ""
    from bot.settings import read

    settings = read(arguments.config)
    return settings.store.path, settings.group.name


def _opened(database: Path) -> Store:
    from knowledge.store import open_store

    return open_store(database, read_only=True)


def _knowledge(store: Store) -> Any:
    from knowledge.base import Knowledge

    with store.unchanging():
        return Knowledge.of(store.sources(), store.findings())


def _must_be_free(folder: Path, pack: Pack) -> None:
    """Raise UsageError when the folder holds anything but an earlier export of the same name."""
    from knowledge.packs.descriptor import FILE, read_descriptor

    if not folder.exists() or (folder.is_dir() and not any(folder.iterdir())):
        return
    if folder.is_dir() and (folder / FILE).is_file() and read_descriptor(folder).name == pack.name:
        return
    raise UsageError(f"{folder} holds something else already. Name an empty folder, or one that is not there yet.")


def _export_words(folder: Path, pack: Pack, left: Left) -> list[str]:
    from knowledge.packs import counted

    findings, sightings = (len(pack.tables[name]) for name in ("findings", "sightings"))
    lines = [
        f"Wrote the pack {pack.name} into {folder}: {counted(findings, 'finding')}, {counted(sightings, 'sighting')}."
    ]
    if left.masked:
        lines.append(f"  In {counted(left.masked, 'text')} an address, a telephone number or a name was left out.")
    if left.notes:
        lines.append(f"  {counted(left.notes, 'note')} of your experts stayed here, for they are what somebody wrote.")
    if left.only_notes:
        lines.append(f"  {counted(left.only_notes, 'finding')} stayed here, being nothing but a note.")
    lines.append("  The evidence is in your experts' words: read findings.csv once before you hand it on.")
    if not pack.more.get("licenses"):
        lines.append("  Say in datapackage.json under which licence others may use it.")
    return lines


def _export_json(pack: Pack, left: Left) -> dict[str, Any]:
    counts = {name: len(table) for name, table in pack.tables.items() if len(table)}
    return {"pack": pack.name, "rows": counts, "masked": left.masked, "notes_left_out": left.notes,
            "findings_left_out": left.only_notes}  # fmt: skip
