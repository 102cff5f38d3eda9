"""`bedstamp journal list`, `show` and `retry`: see what came in and went out, and try again what failed."""

from __future__ import annotations

import argparse
import re
import shutil
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from bot.commands.opening import add_file_options, journal_to_read, opened_journal
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.journal import Incoming, Journal, Outgoing

_ID = re.compile(r"(in|out)-([0-9]{1,18})")
_OPEN = (("aside", "waiting"), ("failed", "uncertain", "sending", "queued"))
_ALL = (("aside", "waiting", "handled"), ("failed", "uncertain", "sending", "queued", "sent"))
_WIDEST = 100


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command and its own commands."""
    parser = commands.add_parser("journal", help="see and retry what came in and went out", allow_abbrev=False)
    of_journal = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=type(parser))
    shown = _add(of_journal, "list", "list what is not finished, and what failed", list_messages)
    shown.add_argument("--all", action="store_true", help="also what was handled and sent")
    shown.add_argument("--most", metavar="N", type=_most, default=20, help="how many of each state (20)")
    shown.add_argument("--json", action="store_true", help="one line of JSON for each message")
    show = _add(of_journal, "show", "show one message and all that is known of it", show_message)
    show.add_argument("id", metavar="ID", help="as the list shows it: in-12 or out-7")
    show.add_argument("--raw", action="store_true", help="print the message as it came, and nothing else")
    retry = _add(of_journal, "retry", "handle again what was set aside, send again what failed", retry_messages)
    retry.add_argument("id", metavar="ID", nargs="+", help="as the list shows it: in-12 or out-7; or 'all'")


def _add(commands: Any, name: str, text: str, run: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name, help=text, description=f"{text[:1].upper()}{text[1:]}.", allow_abbrev=False
    )
    add_file_options(parser)
    parser.set_defaults(run=run)
    return parser


def list_messages(arguments: argparse.Namespace) -> int:
    """Print the messages by state, newest first."""
    incoming, outgoing = _ALL if arguments.all else _OPEN
    with _to_read(arguments) as journal:
        if arguments.json:
            _print_json(journal, incoming, outgoing, arguments.most)
        else:
            _print(_listing(journal, incoming, outgoing, arguments.most))
    return 0


def show_message(arguments: argparse.Namespace) -> int:
    """Print one message. Raises JournalError when it is not there."""
    from bot.commands import journal_words as words

    kind, id_ = _parsed(arguments.id)
    with _to_read(arguments) as journal:
        message = _found(journal, kind, id_)
        body = _body(journal, message)
        if arguments.raw:
            sys.stdout.buffer.write(body)
            return 0
        _print(_known_of(journal, message))
        _print(words.content(body, _width()) if body else iter(("", "  Its content is not kept any more.")))
    return 0


def _to_read(arguments: argparse.Namespace) -> Journal:
    """Return the journal for reading alone. Raises UsageError for a file in which no bot ever kept anything."""
    journal = journal_to_read(arguments)
    if journal is None:
        raise UsageError("No bot ever ran with this file: there is nothing of the kind in it.")
    return journal


def retry_messages(arguments: argparse.Namespace) -> int:
    """Let messages be tried again now; a running bot takes them within seconds. Raises JournalError."""
    with opened_journal(arguments) as journal:
        ids = _all_failed(journal) if arguments.id == ["all"] else [_parsed(one) for one in arguments.id]
        for kind, id_ in ids:
            if kind == "in":
                journal.handle_again(id_)
            else:
                journal.send_again(id_)
            print(f"{kind}-{id_} will be {'handled' if kind == 'in' else 'sent'} again.")
    if not ids:
        print("Nothing is set aside and nothing failed.")
    return 0


def _listing(journal: Journal, incoming: tuple[str, ...], outgoing: tuple[str, ...], most: int) -> Iterator[str]:
    from bot.commands import journal_words as words

    yield from words.summary(journal.counts(), _width())
    for state in incoming:
        arrived = journal.list_incoming(state, limit=most)
        waits = [_when(journal.next_try(one.id)) for one in arrived]
        yield from words.listed(words.INCOMING[state], arrived, waits, _width())
    for state in outgoing:
        going = journal.list_outgoing(state, limit=most)
        waits = [_when(journal.next_try(one.id, outgoing=True)) if state != "sent" else "" for one in going]
        yield from words.listed(words.OUTGOING[state], going, waits, _width())


def _when(next_try: float) -> str:
    """Return when a message is tried again, '' when that is now."""
    moment = datetime.fromtimestamp(next_try, UTC)
    from bot.commands.journal_words import as_time

    return f"again at {as_time(moment).strip()}" if moment > datetime.now(UTC) else ""


def _print_json(journal: Journal, incoming: tuple[str, ...], outgoing: tuple[str, ...], most: int) -> None:
    from bot.replies.as_json import as_json_text

    for came in journal.list_incoming(*incoming, limit=most):
        print(as_json_text({"id": f"in-{came.id}", **_facts(came, "channel state received size tries rule reason")}))
    for going in journal.list_outgoing(*outgoing, limit=most):
        answers = f"in-{going.answers}" if going.answers else None
        facts = _facts(going, "channel state queued tries unsure reason")
        print(as_json_text({"id": f"out-{going.id}", "answers": answers, **facts}))


def _facts(message: Incoming | Outgoing, names: str) -> dict[str, object]:
    facts = {name: getattr(message, name) for name in names.split()}
    return {name: value.isoformat() if isinstance(value, datetime) else value for name, value in facts.items()}


def _known_of(journal: Journal, message: Incoming | Outgoing) -> Iterator[str]:
    from bot.commands import journal_words as words
    from bot.journal import Incoming

    if isinstance(message, Incoming):
        return words.of_incoming(message, journal.replies_of(message.id), _width())
    return words.of_outgoing(message, _width())


def _found(journal: Journal, kind: str, id_: int) -> Incoming | Outgoing:
    from bot.journal import JournalError

    found = journal.incoming(id_) if kind == "in" else journal.outgoing(id_)
    if found is None:
        raise JournalError(f"There is no message {kind}-{id_}. `bedstamp journal list --all` shows which there are.")
    return found


def _body(journal: Journal, message: Incoming | Outgoing) -> bytes:
    from bot.journal import Incoming, JournalError

    if not isinstance(message, Incoming):
        return message.body
    try:
        return journal.raw(message.id)
    except JournalError:
        return b""


def _all_failed(journal: Journal) -> list[tuple[str, int]]:
    aside = [("in", one.id) for one in journal.list_incoming("aside", limit=-1)]
    return aside + [("out", one.id) for one in journal.list_outgoing("failed", limit=-1)]


def _parsed(text: str) -> tuple[str, int]:
    found = _ID.fullmatch(text)
    if not found:
        raise UsageError(f"{text!r} is no message. Write it as `bedstamp journal list` shows it: in-12 or out-7.")
    return found[1], int(found[2])


def _most(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,9}", text) or int(text) == 0:
        raise argparse.ArgumentTypeError("it must be a whole number of at least 1")
    return int(text)


def _width() -> int:
    return min(shutil.get_terminal_size().columns, _WIDEST)


def _print(lines: Iterator[str]) -> None:
    for line in lines:
        print(line)
