"""`bedstamp cases`: the whole desk of the experts in the terminal, beside a running bot or without one.

What is to be told to people is left for the running bot, which sends it within seconds.
"""

from __future__ import annotations

import argparse
import getpass
import json
import re
import shutil
import sys
import uuid
from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bot.commands import cases_read
from bot.commands.dialogue import person_named, says_yes
from bot.commands.opening import add_file_options, journal_to_read, opened_journal
from knowledge.errors import UsageError

if TYPE_CHECKING:
    from bot.cases import Asker, Case
    from bot.expert_desk import Desk, Done, Opening, Proposal
    from bot.journal import Journal
    from knowledge.base import Knowledge

_WIDEST = 100
_STATES = {
    "open": ("open",), "taken": ("taken",), "asked-back": ("asked back",), "settled": ("settled",),
    "closed": ("closed without an answer",), "waiting": (),
}  # fmt: skip
_EXAMPLE = '"Model 9, about 1911, by the shuttle; see ledger p. 40"'
_NOTHING_STORED = "Nothing was stored."


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command and its own commands."""
    parser = commands.add_parser(
        "cases",
        help="what waits for the group's experts, and what they know",
        description="The questions that wait for the group's experts: see them, and answer in your own words.",
        allow_abbrev=False,
    )
    inner = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=type(parser))
    listed = _add(inner, "list", "list the cases, those for which most people wait first", list_cases)
    listed.add_argument("--state", choices=_STATES, default="waiting", help="only these (all that wait)")
    listed.add_argument("--most", metavar="N", type=_number, default=20, help="how many (20)")
    listed.add_argument("--from", metavar="N", type=_number, default=1, dest="first", help="begin with this one (1)")
    listed.add_argument("--json", action="store_true", help="one line of JSON for each case")
    added = _add(inner, "add", "put a question to the experts that you heard, by telephone for example", add_case)
    added.add_argument("text", nargs="*", metavar="WORDS", help="the question; from standard input when left out")
    added.add_argument("--asker", metavar="NAME", default="", help="who asked, for whoever passes the answer on")
    added.add_argument("--case", metavar="ID", type=_case_number, help="the words say more about this case")
    shown = _one(inner, "show", "show one case and all that is known of it", show_case)
    shown.add_argument("--json", action="store_true", help="print it as JSON")
    shown.add_argument("--pictures", metavar="DIR", type=Path, help="save its pictures in this folder")
    _expert(_one(inner, "take", "take a case for a day, so that nobody else works at it", take_case))
    _expert(_one(inner, "give-back", "let others have a case that you took", give_back_case))
    settle = _expert(_one(inner, "settle", "say what you know; it is shown before it is stored", settle_case))
    settle.add_argument("text", nargs="*", metavar="WORDS", help=f"what you know: {_EXAMPLE}; or from standard input")
    settle.add_argument("--yes", action="store_true", help="store it without asking, as it is understood")
    settle.add_argument("--replace", action="store_true", help="with --yes: also in place of what is stored")
    asked = _expert(_one(inner, "ask", "ask the person who asked something back", ask_back))
    asked.add_argument("text", nargs="*", metavar="WORDS", help="your question; from standard input when left out")
    _expert(_one(inner, "not-for-us", "close a case that is none for this group", not_ours, "not-ours"))
    _expert(_one(inner, "close", "close a case that nobody can answer; it can be settled later", close_case))
    back = _expert(_one(inner, "take-back", "take back what was settled; who waited for it hears", take_back))
    back.add_argument("text", nargs="*", metavar="WORDS", help="why it does not hold")
    cases_read.add(inner)


def _add(commands: Any, name: str, text: str, run: Any, *also: str) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name, help=text, description=f"{text[:1].upper()}{text[1:]}.", allow_abbrev=False, aliases=also
    )
    add_file_options(parser)
    parser.set_defaults(run=run)
    return parser


def _one(commands: Any, name: str, text: str, run: Any, *also: str) -> argparse.ArgumentParser:
    parser = _add(commands, name, text, run, *also)
    parser.add_argument("id", metavar="ID", type=_case_number, help="the number of the case, as the list shows it: 12")
    return parser


def _expert(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    parser.add_argument(
        "--as", metavar="NAME", dest="name", default="",
        help="who you are, where several experts use one account (the account's name); it is never shown to anybody",
    )  # fmt: skip
    return parser


def list_cases(arguments: argparse.Namespace) -> int:
    """Print the cases, those first for which most people wait."""
    from bot.commands import cases_words as words
    from bot.replies.as_json import as_json_text

    states = _STATES[arguments.state]
    counts, found, told = dict[str, int](), list["Case"](), dict[int, tuple[str, ...]]()
    journal = _to_read(arguments)
    if journal is not None:
        with journal:
            desk = _desk(journal)
            counts, found = desk.counts(), desk.cases(*states, limit=arguments.most, offset=arguments.first - 1)
            told = {one.id: desk.card(one.id).found for one in found if one.findings}
    if arguments.json:
        for one in found:
            print(as_json_text(words.case_json(one)))
    else:
        _print(words.listed(found, counts, states, arguments.first, _width(), told))
    return 0


def show_case(arguments: argparse.Namespace) -> int:
    """Print one case. Raises DeskError when it is not there."""
    from bot.commands import cases_words as words
    from bot.expert_desk import DeskError
    from bot.replies.as_json import as_json_text

    opened = _to_read(arguments)
    if opened is None:
        raise DeskError(f"There is no case {arguments.id}: nothing was ever put to the experts in this file.")
    with opened as journal:
        desk = _desk(journal)
        card = desk.card(arguments.id)
        found = [one for one in journal.store().findings() if one.key in card.case.findings]
        names = _names_of(desk.askers(arguments.id))
    if arguments.json:
        print(as_json_text(words.card_json(card, found), indent=2))
    else:
        _print(words.shown(card, _width(), found, names))
    if arguments.pictures is not None:
        _print(words.saved(card, arguments.pictures), file=sys.stderr if arguments.json else sys.stdout)
    return 0


def _names_of(askers: Iterable[Asker]) -> list[str]:
    from bot.cases import IN_PERSON

    return [json.loads(one.route).get("name", "") for one in askers if one.channel == IN_PERSON]


def add_case(arguments: argparse.Namespace) -> int:
    """Make a case of a question that was heard, or add words to one. Returns 1 when there is nothing new in them."""
    from bot.commands import cases_words as words

    text = _words(arguments, 'Type the question behind the command: bedstamp cases add "K 999999, how old is it?"')
    with opened_journal(arguments) as journal:
        desk, knowledge = _desk(journal), _knowledge(journal)
        if arguments.case is not None:
            desk.case(arguments.case)
            is_new = bool(desk.says_more(arguments.case, text, knowledge, _now()))
            _print_text(words.said_more(arguments.case, is_new))
            return 0 if is_new else 1
        opened = desk.open(_heard(text, arguments.asker, knowledge), knowledge, _now())
    _print_text(words.added(opened))
    return 0


def _heard(text: str, name: str, knowledge: Knowledge) -> Opening:
    from bot.cases import IN_PERSON, Asker
    from bot.expert_desk import heard

    name = " ".join(name.split())
    person = f"{IN_PERSON}:{name.casefold() or uuid.uuid4().hex[:12]}"
    return heard(text, Asker(IN_PERSON, person, json.dumps({"name": name})), knowledge)


def take_case(arguments: argparse.Namespace) -> int:
    """Take a case. Returns 1 when somebody else has it."""
    return _done(arguments, lambda desk, expert, now: desk.take(arguments.id, expert, now))


def give_back_case(arguments: argparse.Namespace) -> int:
    """Give a case back. Returns 1 when it was not taken."""
    return _done(arguments, lambda desk, expert, now: desk.give_back(arguments.id, expert, now))


def not_ours(arguments: argparse.Namespace) -> int:
    """Close a case that is none for the group. Returns 1 when it is finished, or somebody else has it."""
    return _done(arguments, lambda desk, expert, now: desk.not_ours(arguments.id, expert, now))


def close_case(arguments: argparse.Namespace) -> int:
    """Close a case without an answer. Returns 1 when it is finished, or somebody else has it."""
    return _done(arguments, lambda desk, expert, now: desk.close(arguments.id, expert, now))


def take_back(arguments: argparse.Namespace) -> int:
    """Take back what was found. Raises DeskError when nothing was."""
    why = _words(arguments, "Say why it does not hold, for those who look at the history later.")
    return _done(arguments, lambda desk, expert, now: desk.withdraw(arguments.id, expert, why, now))


def ask_back(arguments: argparse.Namespace) -> int:
    """Ask the asker something. Returns 1 when the case is finished, or somebody else has it."""
    words = _words(arguments, 'Type your question behind the number: bedstamp cases ask 12 "Is the shuttle long?"')
    with opened_journal(arguments) as journal:
        knowledge = _knowledge(journal)
        done = _desk(journal).ask_asker(arguments.id, _person(arguments), words, _now(), knowledge=knowledge)
    _print_text(done.text)
    return 0 if done.is_done else 1


def settle_case(arguments: argparse.Namespace) -> int:
    """Show what is understood, and store it when the expert says so. Returns 1 when nothing was stored."""
    text = _words(arguments, f"Type what you know behind the number: bedstamp cases settle 12 {_EXAMPLE}")
    with opened_journal(arguments) as journal:
        desk, expert = _desk(journal), _person(arguments)
        proposal = desk.propose(arguments.id, expert, text, _knowledge(journal), _now(), takes=False)
        _print_text(proposal.text)
        if not proposal.can_settle:
            print(_NOTHING_STORED)
            return 1
        if proposal.amends and arguments.yes and not arguments.replace:
            _print_text(f"{_NOTHING_STORED} To put yours in the place of what is stored, add --replace.")
            return 1
        if not arguments.yes and not says_yes(_question(proposal), "Nobody is there to say yes; --yes stores it."):
            _print_text(f"{_NOTHING_STORED} Say it in other words, and that takes the place of this.")
            return 1
        done = _pressed(desk, proposal, expert)
    _print_text(done.text)
    if done.may_amend:
        print("To put yours in its place, run the same command again with --replace.")
    return 0 if done.is_done else 1


def _question(proposal: Proposal) -> str:
    if proposal.amends:
        return "This case is settled already. Put this in the place of what is stored?"
    return {"settles": "Store this?", "ask-back": "Ask this?", "not-ours": "Close it so?"}[proposal.understood.kind]


def _pressed(desk: Desk, proposal: Proposal, expert: str) -> Done:
    if proposal.amends:
        return desk.amend(proposal.id, expert, _now())
    return desk.settle(proposal.id, expert, _now())


def _done(arguments: argparse.Namespace, change: Callable[[Desk, str, datetime], Done]) -> int:
    with opened_journal(arguments) as journal:
        done = change(_desk(journal), _person(arguments), _now())
    _print_text(done.text)
    return 0 if done.is_done else 1


def _words(arguments: argparse.Namespace, otherwise: str) -> str:
    """Return the words of the command, or of standard input when they are piped in. Raises UsageError for none."""
    from bot.channels import reading

    if arguments.text:
        text = reading.joined(arguments.text)
    else:
        text = "" if sys.stdin.isatty() else reading.whole(sys.stdin)
    if not text.strip():
        raise UsageError(f"There are no words. {otherwise}")
    return text


def _person(arguments: argparse.Namespace) -> str:
    """Return who acts, as the journal knows people."""
    name = arguments.name.strip()
    if not name:
        try:
            name = getpass.getuser()
        except (OSError, KeyError, ImportError) as fault:
            raise UsageError("This account has no name. Say who you are with --as NAME.") from fault
    return person_named(name)


def _desk(journal: Journal) -> Desk:
    from bot.expert_desk import Desk

    return Desk(journal)


def _knowledge(journal: Journal) -> Knowledge:
    from bot.running.packs import Shelf

    return Shelf().current(journal)


def _to_read(arguments: argparse.Namespace) -> Journal | None:
    from bot.expert_desk.tables import DESK
    from knowledge.migrations import KNOWLEDGE

    return journal_to_read(arguments, DESK, KNOWLEDGE)


def _case_number(text: str) -> int:
    found = re.fullmatch(r"(?:case[ -]?)?([0-9]{1,15})", text.strip().lower())
    if not found:
        raise argparse.ArgumentTypeError(f"{text!r} is no case. Write its number as the list shows it, such as 12")
    return int(found[1])


def _number(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,9}", text) or int(text) == 0:
        raise argparse.ArgumentTypeError("it must be a whole number of at least 1")
    return int(text)


def _now() -> datetime:
    return datetime.now(UTC)


def _width() -> int:
    return min(shutil.get_terminal_size().columns, _WIDEST)


def _print(lines: Iterable[str], file: Any = None) -> None:
    for line in lines:
        print(line, file=file)


def _print_text(text: str) -> None:
    from bot.commands.cases_words import wrapped

    for line in text.split("\n"):
        _print(wrapped(line, _width()) or [""])
