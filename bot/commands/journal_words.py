"""How the journal is shown to its keeper: short lines that read well at 60 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from datetime import datetime

from bot.journal import Incoming, Outgoing
from bot.replies.cleaning import clean

INCOMING = {
    "waiting": "To be handled",
    "aside": "Set aside: could not be handled",
    "handled": "Handled",
}
OUTGOING = {
    "queued": "To be sent",
    "sending": "Being sent",
    "uncertain": "Uncertain: nobody knows whether they arrived",
    "failed": "Failed: could not be sent",
    "sent": "Sent",
}
_LINES_SHOWN = 40
_INDENT = " " * 9


def summary(counts: dict[str, int], width: int) -> list[str]:
    """Return the counts of all states, what asks for attention in words of its own."""
    names = {"aside": "set aside", "queued": "to be sent", "sending": "being sent"}
    told = ", ".join(
        f"{counts[state]:,} {names.get(state, state)}" for state in (*INCOMING, *OUTGOING) if counts.get(state)
    )
    return wrapped(f"{told}." if told else "The journal is empty.", width)


def listed(head: str, messages: Sequence[Incoming | Outgoing], next_tries: Sequence[str], width: int) -> Iterator[str]:
    """Yield the lines of the messages of one state: one for what each is, and below it what became of it."""
    if not messages:
        return
    yield ""
    yield head
    for message, next_try in zip(messages, next_tries, strict=True):
        yield clean(f"  {_line(message)}")
        told = ", ".join(filter(None, (*_told(message), next_try)))
        yield from wrapped(": ".join(filter(None, (told, message.reason))), width, _INDENT)


def _line(message: Incoming | Outgoing) -> str:
    if isinstance(message, Incoming):
        return f"in-{message.id:<5} {message.channel:<9}{as_time(message.received)}  {as_size(message.size):>7}"
    answers = f"  answers in-{message.answers}" if message.answers else ""
    return f"out-{message.id:<4} {message.channel:<9}{as_time(message.queued)}{answers}"


def _told(message: Incoming | Outgoing) -> Iterator[str]:
    tries = message.tries if isinstance(message, Incoming) else message.tries + message.unsure
    if tries:
        yield f"{tries} tries" if tries > 1 else "1 try"
    if isinstance(message, Incoming) and message.rule:
        yield f"not answered: {message.rule}"


def of_incoming(message: Incoming, replies: Sequence[Outgoing], width: int) -> Iterator[str]:
    """Yield what is known of a message that came in."""
    yield f"in-{message.id}: {INCOMING[message.state]}"
    yield from _facts(
        width,
        ("Channel", message.channel),
        ("Came in", as_time(message.received)),
        ("Size", as_size(message.size)),
        ("From", message.person),
        ("Talk", message.conversation),
        ("Rule", message.rule),
        ("Tries", str(message.tries or "")),
        ("Reason", message.reason),
        ("Key", message.key),
        ("Lies in", message.place),
        ("Replies", ", ".join(f"out-{one.id} ({one.state})" for one in replies)),
    )


def of_outgoing(message: Outgoing, width: int) -> Iterator[str]:
    """Yield what is known of a message that goes out."""
    yield f"out-{message.id}: {OUTGOING[message.state]}"
    yield from _facts(
        width,
        ("Channel", message.channel),
        ("Queued", as_time(message.queued)),
        ("To", message.recipient),
        ("Answers", f"in-{message.answers}" if message.answers else ""),
        ("Talk", message.conversation),
        ("Tries", str(message.tries or "")),
        ("Unsure", f"{message.unsure} times" if message.unsure else ""),
        ("Reason", message.reason),
        ("Key", message.key),
        ("There", message.remote),
    )


def content(raw: bytes, width: int) -> Iterator[str]:
    """Yield the beginning of what a message says, as text that is safe on a screen."""
    lines = raw.decode("utf-8", "replace").splitlines()
    yield ""
    for line in lines[:_LINES_SHOWN]:
        yield from wrapped(line, width, "  ") or [""]
    if len(lines) > _LINES_SHOWN:
        yield f"  ... and {len(lines) - _LINES_SHOWN:,} lines more; --raw prints all of it"


def wrapped(text: str, width: int, indent: str = "") -> list[str]:
    """Return a text in lines of at most `width` columns, each indented."""
    return textwrap.wrap(clean(text), width, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False)


def as_time(moment: datetime) -> str:
    """Return a time as the keeper's clock shows it: 4 May 2031 10:00."""
    local = moment.astimezone()
    return f"{local.day:>2} {local:%b %Y %H:%M}"


def as_size(size: int) -> str:
    """Return a number of bytes in words.

    >>> as_size(12), as_size(12_345), as_size(25_000_000)
    ('12 B', '12 kB', '25.0 MB')
    """
    if size < 1000:
        return f"{size} B"
    return f"{size / 1000:.0f} kB" if size < 1_000_000 else f"{size / 1_000_000:.1f} MB"


def _facts(width: int, *facts: tuple[str, str]) -> Iterator[str]:
    for name, value in facts:
        if value:
            first, *rest = wrapped(value, width, " " * 10) or [""]
            yield f"  {name:<8}{first.lstrip()}"
            yield from rest
