"""The errors of the project. Each says what is wrong, where, and what to do; none is shown with a traceback."""

from __future__ import annotations


class BedstampError(Exception):
    """Base of every error a person may read. `str(error)` is one or more whole sentences.

    `exit_code` is what the command line returns: 1 for faults found, 2 for misuse.
    """

    exit_code = 1


class UsageError(BedstampError):
    """The command was called in a way that cannot be carried out (exit code 2)."""

    exit_code = 2
