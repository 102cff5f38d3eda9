"""`bedstamp search`: find makers, models, works, lists, sources and what experts settled, by words."""

from __future__ import annotations

import argparse
import json
import sys

from bot.commands import options
from knowledge.errors import UsageError


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "search",
        help="find models and whatever else is known, by words",
        description="Looks for words in everything that is known. Endings and slips of the keyboard are forgiven.",
        allow_abbrev=False,
    )
    parser.add_argument("words", nargs="+", metavar="WORD", help="such as: three-quarter size with a vibrating shuttle")
    parser.add_argument("--json", action="store_true", help="print the hits as JSON")
    options.add_knowledge_options(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Search. Returns 0 when something was found, 1 when nothing was; raises what the knowledge raises."""
    from bot.channels import reading
    from knowledge.search import search

    words = reading.joined(arguments.words)
    if not words.strip():
        raise UsageError('There are no words to look for. Type some: bedstamp search "vibrating shuttle"')
    library = options.opened_library(arguments)
    try:
        result = search(words, library.current())
    finally:
        library.close()
    if arguments.json:
        hits = [{"kind": hit.kind, "id": hit.id, "title": hit.title, "text": hit.text} for hit in result.hits]
        taken = [{"typed": typed, "taken_for": known} for typed, known in result.taken]
        print(json.dumps({"hits": hits, "taken": taken, "nowhere": list(result.nowhere)}, ensure_ascii=False, indent=2))
    else:
        from bot.channels.terminal import Screen
        from bot.replies.found import found_words

        Screen().say(found_words(result))
    sys.stdout.flush()
    return 0 if result.hits else 1
