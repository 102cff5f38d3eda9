"""What an expert's words would change, shown to them and kept until they say yes: only then it is proposed.

For channels whose senders can be forged: the yes has to come from where the expert alone was shown it.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.expert_desk.nouns import DeskError
from bot.expert_desk.register_changes import Proposed, RegisterDesk
from bot.journal.rows import seconds
from bot.replies.changes import OFFER_GONE, OFFER_USED
from knowledge.base import Knowledge
from knowledge.register_changes.judging import judge
from knowledge.register_changes.nouns import RegisterChange
from knowledge.register_changes.words import difference

_KEPT = timedelta(days=60)


@dataclass(frozen=True, slots=True)
class Offer:
    """A change as it was understood, with its difference in words, which its expert alone is shown."""

    id: int
    text: str


class ListDesk(RegisterDesk):
    """The whole of the desk for changes of registers: `ListDesk(journal, channels)`."""

    def offer_words(self, person: str, words: str, knowledge: Knowledge, now: datetime, why: str = "") -> Offer:
        """Keep what an expert's words would change, for `accept`. Raises DeskError for unclear words, ChangeError."""
        with self._writing():
            change = self.understood(words, knowledge)
            judged = judge(change, self._journal.store().pack(change.pack))
            self._execute("DELETE FROM desk_change_offers WHERE at < ?", (seconds(now - _KEPT),))
            row = json.dumps([change.pack, change.table, change.before, change.after, why], ensure_ascii=False)
            sql = "INSERT INTO desk_change_offers (person, row, at) VALUES (?, ?, ?)"
            id_ = self._execute(sql, (self._person(person), row, seconds(now))).lastrowid
            return Offer(int(id_ or 0), difference(judged, knowledge))

    def accept(self, offer: int, person: str, knowledge: Knowledge, now: datetime) -> Proposed:
        """Propose what was offered, once. Raises DeskError for what is not this expert's to accept, ChangeError."""
        with self._writing():
            sql = "SELECT row, change FROM desk_change_offers WHERE id = ? AND person = ?"
            found = self._one(sql, (offer, self._person(person)))
            if found is None:
                raise DeskError(OFFER_GONE)
            if found[1]:
                before = self._journal.store().register_change(found[1])
                raise DeskError(OFFER_USED.format(number=before.number, state=before.state))
            change, why = _read(found[0])
            made = self.propose(person, change, knowledge, now, why)
            self._execute("UPDATE desk_change_offers SET change = ? WHERE id = ?", (made.change.number, offer))
            return made


def _read(row: str) -> tuple[RegisterChange, str]:
    """Return the change of an offer, and why."""
    pack, table, before, after, why = json.loads(row)
    return RegisterChange(pack, table, before and tuple(before), after and tuple(after)), why
