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
from bot.replies.page import Manner, as_plain, show, show_places
from bot.state import State
from knowledge.base import Knowledge

WELCOME = (
    "Type the number stamped on the machine, with its letters and every zero, in any sentence. Answer what I ask back, "
    "or tell me more: 'seven digits', 'it starts with zero', the maker or model. An empty line or Ctrl-D ends the talk."
)
_PROMPT = "\nyou> "


class Screen:
    """Standard output: colour only on a terminal, none where NO_COLOR is set; COLUMNS is obeyed; plain in a pipe."""

    def __init__(self) -> None:
        self._console = Console(markup=False, highlight=False, emoji=False)

    def show(self, printing: Callable[[Console], None]) -> None:
        """Print one page."""
        if self._console.is_terminal:
            printing(self._console)
        else:
            sys.stdout.write(as_plain(printing, self._console.width))
        sys.stdout.flush()

    def say(self, words: str) -> None:
        """Print a paragraph."""
        self.show(lambda console: console.print(Text(clean(words))))


def is_interactive() -> bool:
    """Tell whether a person types and reads."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def talk(knowledge: Callable[[], Knowledge], manner: Manner, screen: Screen) -> None:
    """Hold one conversation until the input ends. `knowledge` gives what is known now, for each message anew."""
    state = State()
    if is_interactive():
        screen.say(WELCOME)
    for text in _typed():
        known = knowledge()
        state, outgoing = reply(Incoming(text), state, known)
        for one in outgoing:
            screen.say("")
            say(one, known, screen, manner)


def say(outgoing: Outgoing, knowledge: Knowledge, screen: Screen, manner: Manner) -> None:
    """Print one reply."""
    answer = outgoing.answer
    if outgoing.words:
        screen.say(outgoing.words)
    if answer is not None and outgoing.kind == "places":
        screen.show(lambda console: show_places(answer, knowledge, console, manner))
    elif answer is not None:
        how = _brief(manner, outgoing) if outgoing.again else manner
        screen.show(lambda console: show(answer, knowledge, console, how))


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
