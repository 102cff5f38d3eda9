"""`bedstamp forget`: remove people, with their names, addresses and messages, from the file of the bot."""

from __future__ import annotations

import argparse
import re
import sys
from typing import TYPE_CHECKING

from bot.commands.opening import add_file_options
from bot.mail_signing import same_case
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.forgetting import Forgotten
    from bot.journal import Journal

_ADDRESS = re.compile(r"[^\s@:]+@[^\s@]+")
_ACCOUNT = re.compile(r"u?([0-9]{1,18})")
_KEY = re.compile(r"[a-z]+:\S+")


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "forget",
        help="remove people, with their names, addresses and messages",
        description="Removes people from the file of the bot: what they wrote, what was written to them, their address "
        "and names, and what others quoted of it. What was found out about machines stays, without them.",
        allow_abbrev=False,
    )
    parser.add_argument(
        "person", nargs="+", metavar="PERSON", help="a mail address, the number of a chat account, or terminal:NAME"
    )
    parser.add_argument(
        "--name", action="append", default=[], help="another name of theirs to look for; may be repeated"
    )
    parser.add_argument("--yes", action="store_true", help="do it without asking")
    add_file_options(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Forget. Returns 0 when nothing is left, 1 when messages of others are in hand that tell of somebody."""
    from bot.commands.opening import opened_journal
    from bot.forgetting import forget

    people = list(dict.fromkeys(map(person_of, arguments.person)))
    if not arguments.yes:
        _ask(people)
    with opened_journal(arguments) as journal:
        done = [_told(journal, person, forget(journal, person, arguments.name)) for person in people]
    return 0 if all(done) else 1


def person_of(typed: str) -> str:
    """Return who is meant, as the journal knows people. Raises UsageError.

    >>> person_of("Ann@Example.org"), person_of("u12"), person_of("telegram:u12")
    ('mail:ann@example.org', 'telegram:u12', 'telegram:u12')
    """
    typed = typed.strip()
    if _KEY.fullmatch(typed):
        return typed
    if _ADDRESS.fullmatch(typed):
        return f"mail:{same_case(typed)}"
    if account := _ACCOUNT.fullmatch(typed):
        return f"telegram:u{account[1]}"
    raise UsageError(
        f"{typed!r} is neither a mail address nor the number of an account. Names alone may belong to several people; "
        "`bedstamp journal show ID` tells from whom a message came."
    )


def _ask(people: list[str]) -> None:
    if not sys.stdin.isatty():
        raise UsageError("Forgetting cannot be undone, so it asks first. Without a terminal, add --yes.")
    typed = input(f"Forget {', '.join(people)} for good? Type yes: ")
    if typed.strip().lower() != "yes":
        raise UsageError("Nothing was changed.")


def _told(journal: Journal, person: str, done: Forgotten) -> bool:
    if not done.was_known:
        print(
            f"{person}: nobody is known here by that. Look at the spelling; `bedstamp journal show ID` tells senders."
        )
    print(f"{person}: {_counted(done.own, 'message')} removed, {_counted(done.others, 'other place')} cleared.")
    print(f"  Looked for: {', '.join((*done.traces.ids, *done.traces.names))}")
    if done.traces.left:
        print(
            f"  Not looked for, because others may be called so: {', '.join(done.traces.left)}. To clear such a name "
            "from what others wrote, add it with --name."
        )
    if not done.is_complete:
        print(
            f"  These messages of others tell of them and are not finished yet: {', '.join(done.in_hand)}. They are "
            "kept. Let the bot finish, or see to them (bedstamp journal list), then forget once more."
        )
    return done.is_complete


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
