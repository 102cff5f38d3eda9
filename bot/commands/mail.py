"""`bedstamp mail read`: what the bot makes of raw mails, without answering or storing anything."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bot.commands import options
from knowledge.errors import BedstampError, UsageError

if TYPE_CHECKING:
    from bot.mail_account import Account
    from bot.settings import Settings
    from bot.wiring import Library

MOST_BYTES = 100_000_000


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command and its own commands."""
    parser = commands.add_parser("mail", help="see what the bot makes of a mail", allow_abbrev=False)
    of_mail = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=type(parser))
    reading = of_mail.add_parser(
        "read",
        help="show whether a mail is answered, and why",
        description="Reads raw mails (.eml) and shows what was read in them, every rule that was asked, and what "
        "would be done. Nothing is answered and nothing is stored.",
        allow_abbrev=False,
    )
    reading.add_argument("files", nargs="+", metavar="FILE", help="a raw mail; - for standard input")
    reading.add_argument("--json", action="store_true", help="print one line of JSON for each file")
    reading.add_argument("--config", metavar="FILE", type=Path, help="the settings: own address, own lists, packs")
    options.add_knowledge_options(reading, settings=False)
    reading.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Read the mails. Returns 0, 1 when a file could not be read; raises UsageError and what the knowledge raises."""
    from bot.mail_account import account

    settings = _settings(arguments.config)
    library = _library(arguments, settings)
    failed = False
    try:
        for name, raw in _files(arguments.files):
            if isinstance(raw, BedstampError):
                failed = True
                print(raw, file=sys.stderr, flush=True)
                continue
            _print(account(name, raw, library.current(), settings.mail if settings else None), arguments.json)
    finally:
        library.close()
    return 1 if failed else 0


def _print(account: Account, as_json: bool) -> None:
    from bot.replies.as_json import as_json_text
    from bot.replies.cleaning import clean

    if as_json:
        print(as_json_text(account.as_json()), flush=True)
    else:
        print(clean("\n".join(account.in_words())), end="\n\n", flush=True)


def _settings(path: Path | None) -> Settings | None:
    if path is None:
        return None
    from bot.settings import read

    return read(path)


def _library(arguments: argparse.Namespace, settings: Settings | None) -> Library:
    """Return the knowledge named on the command line, else what the settings name, else the packs shipped."""
    from bot.wiring import open_library

    if settings is None or arguments.pack or arguments.db is not None:
        return open_library(arguments.pack, arguments.db)
    return open_library(settings.knowledge.packs)


def _files(names: list[str]) -> Iterator[tuple[str, Any]]:
    for name in names:
        try:
            yield name, _content(name)
        except OSError as fault:
            text = f"{name} cannot be read ({fault.strerror or fault}). Check the path and your rights to it."
            yield name, UsageError(text)
        except UsageError as fault:
            yield name, fault


def _content(name: str) -> bytes:
    if name == "-":
        content = sys.stdin.buffer.read(MOST_BYTES + 1)
    else:
        with Path(name).open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    if len(content) > MOST_BYTES:
        raise UsageError(f"{name} is larger than {MOST_BYTES:,} bytes, so it is no mail. Check the path.")
    return content
