"""Changes of registers as the experts of every channel are shown them, from wherever they were proposed or decided."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from bot.changes import ChangeCard
from bot.expert_desk.rows import CaseRows
from bot.journal import Reply
from knowledge.base import Knowledge
from knowledge.register_changes.nouns import PROPOSED, RegisterChange
from knowledge.register_changes.words import lines


class ChangeCards(CaseRows):
    """The part of the desk that shows changes. A process without channels leaves that to the one that has them."""

    def change_card(self, number: int) -> ChangeCard:
        """Return a change as it stands. Raises ChangeError when there is none of that number."""
        store = self._journal.store()
        change, steps = store.register_change(number), store.register_steps(number)
        shown = self._one("SELECT difference FROM desk_change_cards WHERE change = ?", (number,))
        difference = shown[0] if shown else "\n".join(lines(change, Knowledge()))
        decided = steps[-1].why if steps and steps[-1].what != PROPOSED else ""
        return ChangeCard(change, difference, self._channel_of(change), decided)

    def experts(self) -> Mapping[int, str]:
        """Return the experts by number, each with the channel they write in; '' for who was forgotten."""
        found = self._all(
            "SELECT one.id, people.key FROM desk_experts AS one LEFT JOIN people ON people.id = one.person"
        )
        return {int(number): channel_of(key or "") for number, key in found}

    def _channel_of(self, change: RegisterChange) -> str:
        number = change.proposer.rpartition(" ")[2]
        return self.experts().get(int(number), "") if number.isdigit() else ""

    def _keep_shown(self, number: int, difference: str) -> None:
        """Keep what whoever proposed a change saw of it, so that the others see the same, also when it is done."""
        sql = "INSERT OR IGNORE INTO desk_change_cards (change, difference) VALUES (?, ?)"
        self._execute(sql, (number, difference))

    def _show_change(self, number: int) -> tuple[Reply, ...]:
        """Put a change before the experts of every channel, or show them what became of it. In a transaction."""
        if not self._channels:
            self._execute("INSERT INTO desk_change_errands (change) VALUES (?)", (number,))
            return ()
        card = self.change_card(number)
        return tuple(reply for channel in self._channels for reply in channel.change(card))

    def _change_errands(self) -> Iterator[Reply]:
        """Yield what other processes left to be shown of changes, as they stand now. In a transaction."""
        if not self._channels:
            return
        for (number,) in self._all("SELECT DISTINCT change FROM desk_change_errands ORDER BY change"):
            self._execute("DELETE FROM desk_change_errands WHERE change = ?", (number,))
            yield from self._show_change(number)

    def _has_change_errands(self) -> bool:
        return bool(self._channels) and self._one("SELECT 1 FROM desk_change_errands LIMIT 1") is not None


def channel_of(person: str) -> str:
    """Return the channel in the key of a person."""
    return person.partition(":")[0]
