"""The terminal: a console for answers, and the conversation of `bedstamp chat`."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace

from rich.console import Console
from rich.text import Text

from bot.channels.reading import lines
from bot.conversation import Incoming, Outgoing, reply
from bot.replies.cleaning import clean
from bot.replies.page import Manner, show, show_places
from bot.state import State
from knowledge.base import Knowledge

WELCOME = (
    "Type the number stamped on the machine, with its letters and every zero, in any sentence. Answer what I ask back, "
    "or tell me more: 'seven digits', 'it starts with zero', the maker or model. An empty line or Ctrl-D ends the talk."
)
_PROMPT = "\nyou> "


def console() -> Console:
    """Return a console on standard output: colour only on a terminal, none where NO_COLOR is set; COLUMNS is obeyed."""
    return Console(markup=False, highlight=False, emoji=False)


def is_interactive() -> bool:
    """Tell whether a person types and reads."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def talk(knowledge: Callable[[], Knowledge], manner: Manner, screen: Console) -> None:
    """Hold one conversation until the input ends. `knowledge` gives what is known now, for each message anew."""
    state = State()
    if is_interactive():
        screen.print(Text(WELCOME))
    for text in _typed():
        known = knowledge()
        state, outgoing = reply(Incoming(text), state, known)
        for one in outgoing:
            say(one, known, screen, manner)


def say(outgoing: Outgoing, knowledge: Knowledge, screen: Console, manner: Manner) -> None:
    """Print one reply."""
    screen.print()
    if outgoing.words:
        screen.print(Text(clean(outgoing.words)))
    if outgoing.answer is not None and outgoing.kind == "places":
        show_places(outgoing.answer, knowledge, screen, manner)
    elif outgoing.answer is not None:
        show(outgoing.answer, knowledge, screen, _brief(manner, outgoing) if outgoing.again else manner)


def _brief(manner: Manner, outgoing: Outgoing) -> Manner:
    """Leave out what was said a moment ago: the cautions told, the fittings, how the search goes."""
    return replace(manner, sections=frozenset({"cautions", "next"}), told=outgoing.told)


def _typed() -> Iterator[str]:
    """Yield what a person types, until an empty line; of a pipe every line that is not empty."""
    if not is_interactive():
        yield from (text for text in lines(sys.stdin) if text.strip())
        return
    with contextlib.suppress(ImportError):
        import readline  # noqa: F401 - arrow keys and history while typing
    while True:
        try:
            text = input(_PROMPT)
        except EOFError:
            print()
            return
        if not text.strip():
            return
        yield text.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
