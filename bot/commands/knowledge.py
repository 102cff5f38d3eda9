"""`bedstamp knowledge`: what the group's experts know beyond the packs, shared with others and looked after."""

from __future__ import annotations

import argparse

from bot.commands import knowledge_changes, knowledge_mistakes, knowledge_sharing


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command and its own commands."""
    parser = commands.add_parser(
        "knowledge",
        help="share what experts settled, change registers, see what was learned",
        description="What the group's experts know beyond the packs: shared with others, changes of registers, and "
        "what settled cases taught about mistakes.",
        allow_abbrev=False,
    )
    inner = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=type(parser))
    knowledge_sharing.add(inner)
    knowledge_changes.add(inner)
    knowledge_mistakes.add(inner)
