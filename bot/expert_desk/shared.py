"""What another group shared and cannot be true together with what is known here becomes a case, once."""

from __future__ import annotations

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
        """Make a case of every contradiction that has none yet. Return how many, and what is to be sent to experts.

        Nobody waits for such a case. Whoever settles it says what is right for this group; ours counts before theirs.
        """
        with self._writing():
            new = [one for one in comparison.contradictory if self._journal.noted(_NOTES, one.name) is None]
            return len(new), tuple(reply for one in new for reply in self._open(one, now))

    def _open(self, side: Side, now: datetime) -> tuple[Reply, ...]:
        machine = side.machine
        by = f", settled by {machine.author}" if side.what == "finding" else ""
        lines = (f"Another group's {side.what}{by}, says: {side.theirs}.", *(f"Here {ours}." for ours in side.ours))
        makers = (machine.maker,) if machine.maker else ()
        id_ = self._insert_case(("contradiction",), makers, lines, now, NO_END)
        self._add_numbers(id_, [machine] if machine.digits else [])
        self._journal.note(_NOTES, side.name, str(id_))
        self._change(id_, now, _DESK, "opened", "contradiction")
        return self._new_card(id_)
