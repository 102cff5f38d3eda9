"""`bedstamp cases`: the cases that wait for experts, and what is understood of answers to them."""

from __future__ import annotations

import argparse

from bot.commands import cases_read


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser("cases", help="cases for the experts", allow_abbrev=False)
    inner = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    cases_read.add(inner)
