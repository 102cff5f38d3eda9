"""The file of the bot, for a command that has --config or --db: naming it, and opening it."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlite_utils import Migrations

    from bot.journal import Journal


def add_file_options(parser: argparse.ArgumentParser) -> None:
    """Add --config and --db, of which one has to be named: where the file of the bot lies."""
    where = parser.add_mutually_exclusive_group(required=True)
    where.add_argument("--config", metavar="FILE", type=Path, help="the settings that the bot runs with")
    where.add_argument("--db", metavar="FILE", type=Path, help="or the file of the store itself")


def opened_journal(arguments: argparse.Namespace) -> Journal:
    """Return the journal in the file that --db names, or the settings that --config names. Raises what they raise."""
    from bot.journal import open_journal

    return open_journal(file_of(arguments))


def journal_to_read(arguments: argparse.Namespace, *parts: Migrations) -> Journal | None:
    """Return the journal for reading alone, with the tables of these parts; None when the file has none of them yet."""
    from bot.journal import open_to_read

    return open_to_read(file_of(arguments), *parts)


def file_of(arguments: argparse.Namespace) -> Path:
    """Return the file that --db names, or the settings that --config names. Raises what they raise."""
    if arguments.db is not None:
        path: Path = arguments.db
        return path
    from bot.settings import read

    return read(arguments.config).store.path
