"""`bedstamp chat`: the conversation in the terminal, with questions back and follow-ups."""

from __future__ import annotations

import argparse

from bot.commands import options


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "chat",
        help="the same as a conversation",
        description="A conversation in the terminal: ask, answer what is asked back, tell more, ask again.",
        allow_abbrev=False,
    )
    options.add_display_options(parser)
    options.add_knowledge_options(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Talk until the input ends. Returns 0; raises what the knowledge raises."""
    from bot.channels.terminal import Screen, talk

    library = options.opened_library(arguments)
    try:
        talk(library.current, options.manner(arguments, library.folders), Screen())
    finally:
        library.close()
    return 0
