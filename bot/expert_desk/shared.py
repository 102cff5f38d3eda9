"""What another group shared and cannot be true together with what is known here becomes a case, once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from bot.expert_desk.errands import Errands
from bot.expert_desk.times import NO_END
from bot.journal import Reply
from knowledge.sharing import Comparison, Side

_NOTES = "contradictions shared"  # the 'channel' under which the journal notes the case of each
_DESK = "desk"


class SharedContradictions(Errands):
    """The part of the desk that takes up what a loaded pack says against us."""

    def take_up(self, comparison: Comparison, now: datetime) -> tuple[int, tuple[Reply, ...]]:
        """Make a case of every machine whose contradictions have none yet. Return how many, and what is to be sent.

        Nobody waits for such a case. Whoever settles it says what is right for this group; ours counts before theirs.
        """
        with self._writing():
            new: dict[tuple[str, ...], list[Side]] = {}
            for one in comparison.contradictory:
                if self._journal.noted(_NOTES, one.name) is None:
                    new.setdefault(_machine(one), []).append(one)
            return len(new), tuple(reply for sides in new.values() for reply in self._open(sides, now))

    def _open(self, sides: Sequence[Side], now: datetime) -> tuple[Reply, ...]:
        """Open a case about one machine, whatever is said of it."""
        machine = sides[0].machine
        lines = tuple(line for side in sides for line in _lines(side))
        makers = tuple(dict.fromkeys(side.machine.maker for side in sides if side.machine.maker))
        id_ = self._insert_case(("contradiction",), makers, lines, now, NO_END)
        self._add_numbers(id_, [machine] if machine.digits else [])
        for side in sides:
            self._journal.note(_NOTES, side.name, str(id_))
        self._change(id_, now, _DESK, "opened", "contradiction")
        return self._new_card(id_)


def _machine(side: Side) -> tuple[str, ...]:
    return side.machine.number if side.machine.digits else (side.machine.key,)


def _lines(side: Side) -> Iterator[str]:
    by = f", settled by {side.machine.author}" if side.what == "finding" else ""
    yield f"Another group's {side.what}{by}, says: {side.theirs}."
    yield from (f"But {against}." for against in side.ours)
