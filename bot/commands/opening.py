"""Opening the file of the bot for a command that has --config or --db."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bot.journal import Journal


def opened_journal(arguments: argparse.Namespace) -> Journal:
    """Return the journal in the file that --db names, or the settings that --config names. Raises what they raise."""
    from bot.journal import open_journal

    if arguments.db is not None:
        return open_journal(arguments.db)
    from bot.settings import read

    return open_journal(read(arguments.config).store.path)
