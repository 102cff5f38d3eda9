"""`bedstamp cases read`: what is understood of experts' answers. It stores nothing."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from bot.commands import options
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.wiring import Library
    from knowledge.expert_answers import Understood

EXAMPLE = 'bedstamp cases read "Model 9, about 1911, by the shuttle; see ledger p. 40"'


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "read",
        help="show what is understood of an expert's answer; nothing is stored",
        description="Shows what is understood of an expert's answer to a case. Nothing is stored.",
        allow_abbrev=False,
    )
    parser.add_argument("text", nargs="*", metavar="TEXT", help="the answer; from standard input when left out")
    parser.add_argument("--json", action="store_true", help="print what is understood as JSON")
    parser.add_argument(
        "--lines", action="store_true", help="every line of standard input is an answer; one line of JSON each"
    )
    options.add_knowledge_options(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Read. Returns 0; raises UsageError when there is no answer to read, and what the knowledge raises."""
    from bot.channels import reading

    if arguments.lines and arguments.text:
        raise UsageError("With --lines the answers come from standard input, one a line; leave the text out.")
    library = options.opened_library(arguments)
    try:
        if arguments.lines:
            return _read_lines(library)
        text = reading.joined(arguments.text) if arguments.text else reading.whole(sys.stdin)
        if not text.strip():
            raise UsageError(f"There is no answer. Type it behind the command: {EXAMPLE}")
        _read_one(text, library, arguments.json)
    finally:
        library.close()
    return 0


def _read_one(text: str, library: Library, as_program: bool) -> None:
    from bot.replies.as_json import as_json_text
    from knowledge.expert_answers import as_json, understand

    knowledge = library.current()
    understood = understand(text, knowledge)
    if as_program:
        print(as_json_text(as_json(understood), indent=2))
    else:
        from bot.replies.cleaning import safe
        from bot.replies.understood import in_words

        print(safe("\n".join(in_words(understood, knowledge))))


def _read_lines(library: Library) -> int:
    """Read line by line. A line that brings out a fault of ours is told of and does not stop the others."""
    from bot.channels import reading
    from bot.replies.as_json import as_json_text
    from knowledge.expert_answers import NO_ANSWER, Understood, as_json, understand

    failed = 0
    for number, text in enumerate(reading.questions(sys.stdin), 1):
        understood: Understood
        try:
            understood = understand(text, library.current())
        except Exception as fault:  # noqa: BLE001 - whatever it is, the lines behind it want to be read
            failed += 1
            print(f"Line {number} could not be read, a fault of ours: {fault!r}", file=sys.stderr)
            understood = Understood(NO_ANSWER, unclear=("this answer could not be read",))
        print(as_json_text(as_json(understood)), flush=True)
    return 1 if failed else 0
