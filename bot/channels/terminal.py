"""The terminal: a console for answers, and the conversation of `bedstamp chat`."""

from __future__ import annotations

import sys

from rich.console import Console


def console() -> Console:
    """Return a console on standard output: colour only on a terminal, none where NO_COLOR is set; COLUMNS is obeyed."""
    return Console(markup=False, highlight=False, emoji=False)


def is_interactive() -> bool:
    """Tell whether a person types and reads."""
    return sys.stdin.isatty() and sys.stdout.isatty()
