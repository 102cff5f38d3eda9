"""The command line: `bedstamp ask`, `chat` and `pack`. Every error ends here, as a plain message."""

from __future__ import annotations

import argparse
import os
import sys
import traceback
from collections.abc import Sequence
from typing import Any, NoReturn

from knowledge.errors import BedstampError, UsageError

INTERRUPTED = 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0 done, 1 faults found, 2 wrongly called."""
    try:
        arguments = _parsed(argv)
        done: int = arguments.run(arguments)
        sys.stdout.flush()
        return done
    except BedstampError as fault:
        return _told(str(fault), fault.exit_code)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        _let_go_of_stdout()
        return 0
    except OSError as fault:
        name = f"{fault.filename}: " if fault.filename else ""
        return _told(f"{name}{fault.strerror or fault}. Check the path, the rights and the space on the disk.", 1)
    except Exception as fault:  # noqa: BLE001 - the last resort: no person sees a traceback
        return _told(_unexpected(fault), 1)


def _parsed(argv: Sequence[str] | None) -> argparse.Namespace:
    """Return what was typed. Raises UsageError, which names the help of the very command."""
    arguments, left = _parser().parse_known_args(argv)
    if left:
        raise UsageError(f"I do not know what {' '.join(left)} means here. See: {arguments.prog} --help")
    return arguments


class _Parser(argparse.ArgumentParser):
    """Takes words before and behind its options, and raises UsageError where the standard one leaves the program."""

    _mixes = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """Parse; a command without commands of its own lets options stand anywhere among its words."""
        if self._mixes or any(action.nargs == argparse.PARSER for action in self._actions):
            return super().parse_known_args(args, namespace)
        self._mixes = True
        self.set_defaults(prog=self.prog)
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self._mixes = False

    def error(self, message: str) -> NoReturn:
        raise UsageError(f"{message[:1].upper()}{message[1:]}. See: {self.prog} --help")


def _parser() -> argparse.ArgumentParser:
    from bot.commands import ask, cases, chat, forget, journal, knowledge, mail, pack, run, search

    parser = _Parser(
        prog="bedstamp",
        description="How old is my sewing machine? Reads serial numbers out of plain sentences and dates them.",
        allow_abbrev=False,
    )
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", parser_class=_Parser)
    for command in (ask, chat, search, cases, knowledge, mail, pack, run, journal, forget):
        command.add(commands)
    return parser


def _told(message: str, code: int) -> int:
    from bot.commands.dialogue import show_error

    show_error(message)
    return code


def _unexpected(fault: Exception) -> str:
    *_, last = traceback.extract_tb(fault.__traceback__)
    where = f"{os.path.basename(last.filename)}, line {last.lineno}"
    return (
        f"That should not have happened: {type(fault).__name__} in {where}. Nothing was changed. Please report it, "
        "with this line and what you typed."
    )


def _let_go_of_stdout() -> None:
    """Point standard output nowhere, so that nothing is said about the closed pipe when Python ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


if __name__ == "__main__":
    sys.exit(main())
