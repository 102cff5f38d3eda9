"""Forgetting a person: their name, address and messages leave the file everywhere; what was found out stays.

person -> their own messages are read -> marks (traces.py: what tells of them, and words of theirs)
       -> the journal removes what is theirs -> sweep.py goes through every table for what others quoted of it
       -> the file is written anew, so that nothing is left in free space or in the log beside it
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.forgetting.readable import readable
from bot.forgetting.sweep import sweep
from bot.forgetting.traces import Traces, traces_of
from bot.journal import Journal

__all__ = ["Forgotten", "forget"]


@dataclass(frozen=True, slots=True)
class Forgotten:
    """What forgetting came to. `own` counts messages from and to the person, `others` places where others told of them.

    `was_known` tells whether the journal knew them. `traces` is what was looked for, and what was not because others
    may be called so. `in_hand` are messages of others that tell of the person and are not finished yet; they are kept
    whole, so that nobody's question is lost, and are found the next time.
    """

    was_known: bool
    own: int
    others: int
    traces: Traces
    in_hand: tuple[str, ...]

    @property
    def is_complete(self) -> bool:
        """Whether nothing of the person is left."""
        return not self.in_hand


def forget(journal: Journal, person: str, also: Sequence[str] = ()) -> Forgotten:
    """Forget a person, given as their key in the journal (`mail:ann@example.org`, `telegram:u12`).

    `also` are further names of theirs to look for. Doing it twice does no harm. Raises StoreError; then what was not
    reached yet stays, and doing it again goes on.
    """
    was_known = person in journal.people()
    raws = [(one.channel, journal.raw_or_nothing(one.id)) for one in journal.messages_of(person)]
    traces = traces_of(person, raws, also, journal.names_of_machines())
    own = journal.forget(person)
    others, in_hand = sweep(journal, traces, readable)
    journal.rewrite()
    return Forgotten(was_known, own, others, traces, tuple(in_hand))
