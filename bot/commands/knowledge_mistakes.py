"""`bedstamp knowledge mistakes`: what settled cases taught about the mistakes people make."""

from __future__ import annotations

import argparse
from typing import Any

from bot.commands.opening import add_file_options, file_of


def add(commands: Any) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "mistakes",
        help="show how often people make which mistake, as settled cases tell",
        description="How often people make which mistake when they read a number: what was assumed, what the settled "
        "cases show, and what answers rest on now.",
        allow_abbrev=False,
    )
    add_file_options(parser)
    parser.add_argument("--json", action="store_true", help="print it as JSON")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the table. Returns 0; raises StoreError."""
    from bot.channels.terminal import Screen
    from bot.replies import mistakes
    from bot.replies.as_json import as_json_text
    from knowledge.mistakes import fit
    from knowledge.store import open_store

    with open_store(file_of(arguments), read_only=True) as store:
        learned = fit(store.mistakes())
    if arguments.json:
        print(as_json_text(mistakes.as_json(learned), 2))
    else:
        Screen().show(lambda console: mistakes.show(learned, console))
    return 0
