"""Questions from arguments and standard input, whatever bytes they come in. Nothing is lost in silence."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator, Sequence
from typing import TextIO


def joined(arguments: Sequence[str]) -> str:
    """Return arguments as one text. What is no UTF-8 is replaced, and that is said."""
    return _decoded(os.fsencode(" ".join(arguments)), "The question")


def whole(stream: TextIO) -> str:
    """Return all of standard input, without the last line's end."""
    if stream.isatty():
        print("Type the question, then Ctrl-D on a line of its own:", file=sys.stderr, flush=True)
    text = _decoded(stream.buffer.read(), "Standard input")
    return text.removeprefix("\ufeff").removesuffix("\n").removesuffix("\r")


def lines(stream: TextIO) -> Iterator[str]:
    """Yield the lines of standard input as they come, without their ends."""
    for number, line in enumerate(stream.buffer, 1):
        text = _decoded(line, f"Line {number}").removesuffix("\n").removesuffix("\r")
        yield text.removeprefix("\ufeff") if number == 1 else text


def questions(stream: TextIO) -> Iterator[str]:
    """Yield the questions of standard input, one a line; a line that begins with a quote mark is a JSON string."""
    for number, text in enumerate(lines(stream), 1):
        yield _unquoted(text, number) if text.lstrip().startswith('"') else text


def _decoded(raw: bytes, what: str) -> str:
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        print(f"{what} is not all UTF-8; what could not be read stands as \ufffd.", file=sys.stderr)
        return raw.decode("utf-8", "replace")


def _unquoted(line: str, number: int) -> str:
    try:
        value = json.loads(line)
    except (ValueError, RecursionError):
        value = None
    if isinstance(value, str):
        return value
    print(f"Line {number} begins with a quote mark but is no JSON string; it is taken as it stands.", file=sys.stderr)
    return line
