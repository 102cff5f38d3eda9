"""`bedstamp ask`: one question, or many lines of them, answered from the arguments or standard input."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from bot.commands import options
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.wiring import Library


HOW_TO_ANSWER = "Ask again with the answer in your sentence, or talk it over: bedstamp chat"
EXAMPLE = 'bedstamp ask "K 0 204 117, how old is it?"'


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "ask",
        help="answer one question",
        description="Finds the serial numbers in a sentence and lists every dating each can have.",
        allow_abbrev=False,
    )
    parser.add_argument("text", nargs="*", metavar="TEXT", help="the question; from standard input when left out")
    parser.add_argument("--json", action="store_true", help="print the whole answer as JSON")
    parser.add_argument(
        "--lines", action="store_true", help="every line of standard input is a question; one line of JSON each"
    )
    parser.add_argument("--picture", metavar="FILE", type=Path, help="also draw the answer, as PNG or SVG")
    options.add_display_options(parser)
    options.add_knowledge_options(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Answer. Returns 0; raises UsageError when there is no question, and what the knowledge raises."""
    from bot.channels import reading

    if arguments.lines:
        _refuse_with_lines(arguments)
        return _answer_lines(arguments)
    text = reading.joined(arguments.text) if arguments.text else reading.whole(sys.stdin)
    if not text.strip():
        raise UsageError(f"There is no question. Type it behind the command: {EXAMPLE}")
    library = _library(arguments)
    try:
        _answer_one(text, library, arguments)
    finally:
        library.close()
    return 0


def _library(arguments: argparse.Namespace) -> Library:
    return options.opened_library(arguments)


def _answer_one(text: str, library: Library, arguments: argparse.Namespace) -> None:
    from knowledge.answer import answer, as_json

    knowledge = library.current()
    answered = answer(text, knowledge)
    if arguments.json:
        from bot.replies.as_json import as_json_text

        print(as_json_text(as_json(answered), indent=2))
    else:
        from bot.channels.terminal import Screen
        from bot.replies.page import show

        manner = options.manner(arguments, library.folders, HOW_TO_ANSWER)
        Screen().show(lambda console: show(answered, knowledge, console, manner))
    sys.stdout.flush()
    if arguments.picture is not None:
        from bot.pictures import draw

        draw(answered, knowledge, arguments.picture)


def _refuse_with_lines(arguments: argparse.Namespace) -> None:
    if arguments.text:
        raise UsageError("With --lines the questions come from standard input, one a line; leave the text out.")
    if arguments.picture is not None:
        raise UsageError("With --lines no picture is drawn; ask for one question alone to get its picture.")


def _answer_lines(arguments: argparse.Namespace) -> int:
    """Answer line by line. A line that brings out a fault of ours is told of and does not stop the others."""
    from bot.channels import reading
    from bot.replies.as_json import as_json_text
    from knowledge.answer import answer, answer_found, as_json
    from knowledge.said import Said
    from knowledge.tokens import Found

    library = _library(arguments)
    failed = 0
    try:
        for number, text in enumerate(reading.questions(sys.stdin), 1):
            knowledge = library.current()
            try:
                answered = answer(text, knowledge)
            except Exception as fault:  # noqa: BLE001 - whatever it is, the lines behind it want their answers
                failed += 1
                print(f"Line {number} could not be answered, a fault of ours: {fault!r}", file=sys.stderr)
                answered = answer_found(text, Found(), Said(), knowledge)
            print(as_json_text(as_json(answered)), flush=True)
    finally:
        library.close()
    return 1 if failed else 0
