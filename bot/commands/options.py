"""Options that several commands share."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.replies.page import Manner
    from bot.wiring import Library


def add_knowledge_options(parser: argparse.ArgumentParser, *, settings: bool = True) -> None:
    """Add --pack, --db and, with `settings`, --config: where the answers come from."""
    group = parser.add_argument_group("where answers come from (the packs shipped, when neither is named)")
    group.add_argument("--pack", metavar="DIR", type=Path, action="append", default=[], help="a pack; may be repeated")
    group.add_argument("--db", metavar="FILE", type=Path, help="a knowledge base made by 'bedstamp pack load'")
    if settings:
        group.add_argument("--config", metavar="FILE", type=Path, help="the settings of a bot: its knowledge base")


def opened_library(arguments: argparse.Namespace) -> Library:
    """Return where the answers come from, by --pack, --db and --config. Raises UsageError, and what opening raises."""
    from bot.commands.opening import file_of
    from bot.wiring import open_library

    if arguments.config is None:
        return open_library(arguments.pack, arguments.db)
    if arguments.db is not None or arguments.pack:
        raise UsageError("--config names the knowledge base already; leave out --db and --pack.")
    return open_library((), file_of(arguments))


def to_experts(arguments: argparse.Namespace) -> str:
    """Return how a question of the terminal is put to the experts of a group, '' where the knowledge is no group's."""
    option = "--config" if arguments.config else "--db" if arguments.db else ""
    how = f'To put it to the experts of your group: bedstamp cases add "your question", with the same {option}.'
    return how if option else ""


def add_display_options(parser: argparse.ArgumentParser) -> None:
    """Add --all."""
    parser.add_argument("--all", action="store_true", help="show every dating, also the unlikely ones")


def manner(arguments: argparse.Namespace, folders: tuple[Path, ...], how_to_answer: str = "") -> Manner:
    """Return how answers are laid out, by the options given."""
    from bot.replies.page import Manner

    return Manner(
        arguments.all, folders=folders, how_to_see_all=" (--all shows them)", how_to_answer=how_to_answer,
        to_experts=to_experts(arguments),
    )  # fmt: skip
