"""What becomes due: leases, askers who do not answer, the stated day, and the experts' digest once a day."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bot.cases import ASKED_BACK, CLOSED, OPEN, TAKEN, Case
from bot.changes import ChangeCard
from bot.expert_desk.change_cards import ChangeCards
from bot.expert_desk.nouns import Digest
from bot.expert_desk.rows import DESK_ITSELF
from bot.expert_desk.settling import Settling
from bot.expert_desk.times import DIGEST_HOUR, REMINDERS
from bot.journal import Reply
from bot.journal.rows import seconds
from bot.replies import cards
from knowledge.register_changes.nouns import PROPOSED

_NOTES = "desk"  # the 'channel' under which the journal notes what the desk must remember
_MOST_IN_A_DIGEST = 20
PORTION = 100
"""So many cases of a kind are carried out at once, so that nobody waits long for the file; the rest follows soon."""
_AT_ONCE = f"LIMIT {PORTION}"


class Timers(Settling, ChangeCards):
    """The part of the desk that looks at the clock."""

    def due(self, now: datetime) -> list[Reply]:
        """Carry out what is due by now, each with an entry in the history, and return what is to be sent."""
        with self._writing():
            return [
                *self._leases_that_ran_out(now), *self._askers_who_say_nothing(now), *self._nobody_knew(now),
                *self._digest(now),
            ]  # fmt: skip

    def shift(self, by: timedelta) -> None:
        """Move every wait that runs by a jump of the clock, so that each stays as long as it was meant."""
        seconds_ = by.total_seconds()
        with self._writing():
            self._execute(
                "UPDATE desk_cases SET opened = opened + ?1, until = until + ?1, "
                "lease = CASE lease WHEN 0 THEN 0 ELSE lease + ?1 END, "
                "ask_until = CASE ask_until WHEN 0 THEN 0 ELSE ask_until + ?1 END "
                "WHERE state IN ('open', 'taken', 'asked back')",
                (seconds_,),
            )
            self._execute("UPDATE desk_waiting SET asked = asked + ?1, by = by + ?1 WHERE told = ''", (seconds_,))

    def _leases_that_ran_out(self, now: datetime) -> list[Reply]:
        replies: list[Reply] = []
        for case in self._cases_where(f"WHERE state = ? AND lease <= ? {_AT_ONCE}", (TAKEN, seconds(now))):
            self._enter(case.id, now, DESK_ITSELF, "lease ran out", case.expert, state=OPEN, expert=None, lease=0.0)
            replies += self._changed_card(case.id, cards.LEASE_RAN_OUT)
        return replies

    def _askers_who_say_nothing(self, now: datetime) -> list[Reply]:
        replies: list[Reply] = []
        for case in self._cases_where(f"WHERE state = ? AND ask_until <= ? {_AT_ONCE}", (ASKED_BACK, seconds(now))):
            self._enter(
                case.id, now, DESK_ITSELF, "no word from the asker", state=OPEN, expert=None, lease=0.0, ask_until=0.0,
                news=1,
            )  # fmt: skip
            replies += self._changed_card(case.id, cards.ASKER_SAYS_NOTHING)
        return replies

    def _nobody_knew(self, now: datetime) -> list[Reply]:
        """Tell those whose stated day is over; a case for which nobody is left to be told is closed."""
        late = self._all(
            "SELECT DISTINCT case_ FROM desk_waiting JOIN desk_cases ON desk_cases.id = case_ WHERE told = '' "
            f"AND by <= ? AND desk_cases.state IN ('open', 'taken', 'asked back') {_AT_ONCE}",
            (seconds(now),),
        )
        replies = [reply for (id_,) in late for reply in self._tell_late(id_, now)]
        over = self._cases_where(
            "WHERE state IN (?, ?) AND until <= ? AND NOT EXISTS "
            f"(SELECT 1 FROM desk_waiting WHERE case_ = one.id AND told = '') {_AT_ONCE}",
            (OPEN, ASKED_BACK, seconds(now)),
        )
        for case in over:
            self._enter(case.id, now, DESK_ITSELF, "nobody knew", state=CLOSED, expert=None, lease=0.0, ask_until=0.0)
            replies += self._changed_card(case.id)
        return replies

    def _tell_late(self, id_: int, now: datetime) -> list[Reply]:
        card, replies = self.card(id_), list[Reply]()
        for asker in self.askers(id_, only_untold=True):
            if asker.by is not None and asker.by <= now:
                self._execute("UPDATE desk_waiting SET told = 'nobody-knew' WHERE id = ?", (asker.id,))
                replies += self._tell(card, asker, "nobody-knew", cards.nobody_knew(card.case))
        return replies

    def _digest(self, now: datetime) -> list[Reply]:
        """Return the digest of the day when its hour has come and there is something to tell."""
        local = now.astimezone()
        today = local.date().isoformat()
        if not self._channels or local.hour < DIGEST_HOUR or today <= (self._journal.noted(_NOTES, "digest") or ""):
            return []
        new = self._cases_where("WHERE news = 1 AND state IN (?, ?) ORDER BY waiting DESC, opened, id", (OPEN, TAKEN))
        remind = self._to_be_reminded_of(now)
        changes = self._changes_that_wait(local.date())
        if not new and not remind and not changes:
            return []
        self._journal.note(_NOTES, "digest", today)
        self._mark_told(new, remind, now)
        counts = self.counts()
        oldest = self._cases_where("WHERE state IN (?, ?) ORDER BY opened, id LIMIT 1", (OPEN, TAKEN))
        digest = Digest(
            local.date(), tuple(new[:_MOST_IN_A_DIGEST]), tuple(remind[:_MOST_IN_A_DIGEST]),
            counts.get(OPEN, 0) + counts.get(TAKEN, 0) + counts.get(ASKED_BACK, 0), oldest[0] if oldest else None,
            changes,
        )  # fmt: skip
        return [reply for channel in self._channels for reply in channel.digest(digest)]

    def _changes_that_wait(self, today: date) -> tuple[ChangeCard, ...]:
        """Return the changes of lists of which the experts are reminded today."""
        ages = {age.days for age in REMINDERS}
        waiting = self._journal.store().register_changes(PROPOSED)
        due = (one for one in waiting if one.at and (today - one.at.astimezone().date()).days in ages)
        return tuple(self.change_card(one.number) for one in due)[:_MOST_IN_A_DIGEST]

    def _to_be_reminded_of(self, now: datetime) -> list[Case]:
        found: list[Case] = []
        for number, age in enumerate(REMINDERS):
            found += self._cases_where(
                "WHERE state IN (?, ?) AND news = 0 AND reminded = ? AND opened <= ? ORDER BY waiting DESC, opened, id",
                (OPEN, TAKEN, number, seconds(now - age)),
            )
        return sorted(found, key=lambda one: (-one.waiting, one.opened, one.id))

    def _mark_told(self, new: list[Case], remind: list[Case], now: datetime) -> None:
        """Note that experts heard of these cases; a reminder that was due meanwhile is not made up for."""
        for case in new:
            self._execute("UPDATE desk_cases SET news = 0 WHERE id = ?", (case.id,))
        for case in remind:
            due = sum(now - case.opened >= age for age in REMINDERS)
            self._enter(case.id, now, DESK_ITSELF, "reminded", reminded=due)
