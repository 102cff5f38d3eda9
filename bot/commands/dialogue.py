"""What a command says to the person at the terminal, what it asks them, and who they say they are."""

from __future__ import annotations

import os
import re
import shutil
import sys
import textwrap
import unicodedata
from collections.abc import Iterable, Iterator
from typing import TextIO

from bot.replies.cleaning import safe
from knowledge.errors import UsageError
from knowledge.tokens.fold import fold_word

WIDEST = 100
"""Lines are not made longer than this, however wide the terminal is."""
_NARROWEST = 20
_LISTED = re.compile(r" *(?:[-•|]|\d+[.)]) +")
_ALPHABETS = {"LATIN", "CYRILLIC", "GREEK", "ARMENIAN", "COPTIC", "CHEROKEE", "GEORGIAN"}


def show(lines: Iterable[str]) -> None:
    """Print lines on standard output, none wider than the terminal (80 columns in a pipe; COLUMNS is obeyed)."""
    for line in lines:
        print("\n".join(wrapped(safe(line), shutil.get_terminal_size().columns)))


def show_error(message: str) -> None:
    """Print a message on standard error, in a terminal no wider than it is; a log keeps it on one line."""
    columns = _columns_of(sys.stderr)
    print("\n".join(wrapped(safe(message), columns)) if columns else safe(message), file=sys.stderr)


def wrapped(text: str, columns: int) -> Iterator[str]:
    """Yield a text in lines of at most so many columns; what is indented, or in a list, goes on below its beginning.

    Words longer than a line, such as paths, stay whole.

    >>> list(wrapped("12. a list of several\\n  words", 20))
    ['12. a list of', '    several', '  words']
    """
    wide = max(columns, _NARROWEST)
    for line in text.split("\n"):
        yield from textwrap.wrap(
            line, min(wide, WIDEST), subsequent_indent=_behind(line), break_on_hyphens=False, break_long_words=False
        ) or [""]  # fmt: skip


def _behind(line: str) -> str:
    """Return how the lines are indented in which a line goes on."""
    listed = _LISTED.match(line)
    indent = len(line) - len(line.lstrip(" "))
    return " " * (listed.end() if listed else indent + 2 if indent else 0)


def says_yes(question: str, otherwise: str) -> bool:
    """Ask, and tell whether the person said yes. `otherwise` is said where nobody can answer."""
    print("\n".join(wrapped(safe(f"{question} [y/N]"), shutil.get_terminal_size().columns)), end=" ", flush=True)
    try:
        answer = input()
    except EOFError:
        print()
        show([otherwise])
        return False
    return answer.strip().casefold() in ("y", "yes")


def person_named(name: str) -> str:
    """Return the key of whoever gives this name at the terminal. Raises UsageError for none.

    Names that look alike are one: letters of other alphabets count as those they look like, as in numbers, and a name
    that mixes alphabets all the same is refused.

    >>> person_named(" Ada  B."), person_named("\\u0410da b.")
    ('terminal:ada b.', 'terminal:ada b.')
    """
    folded = " ".join(fold_word(name).split())
    if not any(map(str.isalnum, folded)):
        raise UsageError("Say who you are with --as NAME.")
    if _is_mixed(name) and _is_mixed(folded):
        raise UsageError(f"The name {name.strip()} mixes letters of several alphabets. Type it in one of them.")
    return f"terminal:{folded}"


def _is_mixed(name: str) -> bool:
    """Tell whether a word of a name has letters of two alphabets."""
    words = re.split(r"[\s-]+", name)
    return any(
        len({unicodedata.name(letter, "").partition(" ")[0] for letter in word} & _ALPHABETS) > 1 for word in words
    )


def _columns_of(stream: TextIO) -> int:
    """Return how wide a stream is; 0 when it is no terminal and COLUMNS does not say."""
    told = os.environ.get("COLUMNS", "")
    if told.isdecimal() and int(told):
        return int(told)
    try:
        return os.get_terminal_size(stream.fileno()).columns if stream.isatty() else 0
    except (OSError, ValueError):
        return 0
