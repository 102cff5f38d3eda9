"""Options that several commands share."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bot.replies.page import Manner


def add_knowledge_options(parser: argparse.ArgumentParser) -> None:
    """Add --pack and --db: where the answers come from."""
    group = parser.add_argument_group("where answers come from (the packs shipped, when neither is named)")
    group.add_argument("--pack", metavar="DIR", type=Path, action="append", default=[], help="a pack; may be repeated")
    group.add_argument("--db", metavar="FILE", type=Path, help="a knowledge base made by 'bedstamp pack load'")


def add_display_options(parser: argparse.ArgumentParser) -> None:
    """Add --all."""
    parser.add_argument("--all", action="store_true", help="show every dating, also the unlikely ones")


def manner(arguments: argparse.Namespace, folders: tuple[Path, ...], how_to_answer: str = "") -> Manner:
    """Return how answers are laid out, by the options given."""
    from bot.replies.page import Manner

    return Manner(arguments.all, folders=folders, how_to_see_all=" (--all shows them)", how_to_answer=how_to_answer)
