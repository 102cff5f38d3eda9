"""Changes of registers at the desk: one expert proposes in their own words, another one agrees, and it is in force.

That they are two people must be known, not supposed. Within one channel two people are two. Across channels one person
may write both ways, so whoever runs the bot has to have said that these two experts are different people. A proposal of
somebody who was forgotten since can be turned down, but not agreed to.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from bot.expert_desk.nouns import DeskError
from bot.expert_desk.rows import CaseRows
from knowledge.base import Knowledge
from knowledge.names import fold
from knowledge.register_changes.finding_rows import change_of
from knowledge.register_changes.judging import judge
from knowledge.register_changes.nouns import IN_FORCE, PROPOSED, TAKEN_BACK, TURNED_DOWN, RegisterChange
from knowledge.register_changes.reading import Unclear, read_change
from knowledge.register_changes.words import difference
from knowledge.registers import PackSource

LONGEST_WHY = 300  # characters
_NOTES = "experts who are two"
_UNNAMED = "terminal"

AGREED = "Agreed. Change {number} is in force now, for every answer from now on."
TURNED_DOWN_NOW = "Change {number} is turned down. Nothing was changed."
TAKEN_BACK_NOW = "Change {number} is taken back. Nothing was changed."
_YOUR_OWN = "You proposed change {number} yourself. A register changes only when another expert agrees."
_WHO = (
    "Change {number} was proposed by {proposer}, and it cannot be told that you are two people: {why}. Let an expert "
    "agree who writes in the same way, or whoever runs the bot say that you are two: "
    "bedstamp knowledge experts --different {one} {two}"
)
_FORGOTTEN = (
    "Whoever proposed change {number} is not known any more, so it cannot be told that you are two people. Turn it "
    "down, and propose it anew."
)


@dataclass(frozen=True, slots=True)
class Proposed:
    """A change that is kept, with its difference in words, what the checks warn of among them. Nothing is in force."""

    change: RegisterChange
    text: str


class RegisterDesk(CaseRows):
    """The part of the desk that changes registers: `RegisterDesk(clerk.journal)`."""

    def propose_words(self, person: str, words: str, knowledge: Knowledge, now: datetime, why: str = "") -> Proposed:
        """Keep the change that an expert's words mean. Raises DeskError for what is not clear, and ChangeError."""
        wanted = read_change(words, knowledge)
        if isinstance(wanted, Unclear):
            raise DeskError(wanted.text)
        return self.propose(person, change_of(wanted, knowledge, self._packs()), knowledge, now, why)

    def propose(
        self, person: str, change: RegisterChange, knowledge: Knowledge, now: datetime, why: str = ""
    ) -> Proposed:
        """Keep a change of a row as it was put together. Raises ChangeError when it does not fit or makes an error.

        The same proposed again by the same expert is the one that is there.
        """
        with self._writing():
            store = self._journal.store()
            judged = judge(change, store.pack(change.pack))
            who = self.expert(person)
            same = (one for one in store.register_changes(PROPOSED) if _is_same(one, change) and one.proposer == who)
            kept = next(same, None) or store.add_change(
                replace(change, proposer=who, at=now, why=why.strip()[:LONGEST_WHY])
            )
            return Proposed(kept, difference(replace(judged, change=kept), knowledge))

    def agree(self, number: int, person: str, now: datetime, why: str = "") -> str:
        """Put a change in force, and return words for the expert. Raises DeskError and ChangeError."""
        who = self.expert(person)  # kept also when the agreement is refused, so that the number told stays theirs
        with self._writing():
            store = self._journal.store()
            change = store.register_change(number)
            if change.state == PROPOSED:
                self._must_be_two(change, person, who)
                judge(change, store.pack(change.pack))
            store.decide_change(number, IN_FORCE, who, now, why.strip()[:LONGEST_WHY])
            return AGREED.format(number=number)

    def turn_down(self, number: int, person: str, now: datetime, why: str = "") -> str:
        """Turn a proposal down; whoever proposed it takes it back. Return words for the expert. Raises ChangeError."""
        with self._writing():
            store, who = self._journal.store(), self.expert(person)
            is_own = store.register_change(number).proposer == who
            what = TAKEN_BACK if is_own else TURNED_DOWN
            store.decide_change(number, what, who, now, why.strip()[:LONGEST_WHY])
            return (TAKEN_BACK_NOW if is_own else TURNED_DOWN_NOW).format(number=number)

    def difference(self, number: int, knowledge: Knowledge) -> str:
        """Return a change as it is shown to the second expert. Raises ChangeError when it does not fit any more."""
        store = self._journal.store()
        change = store.register_change(number)
        return difference(judge(change, store.pack(change.pack)), knowledge)

    def experts(self) -> Mapping[int, str]:
        """Return the experts by number, each with the channel they write in; '' for who was forgotten."""
        found = self._all(
            "SELECT one.id, people.key FROM desk_experts AS one LEFT JOIN people ON people.id = one.person"
        )
        return {int(number): _channel(key or "") for number, key in found}

    def are_different(self, one: int, other: int) -> None:
        """Note that two experts are two people. Only whoever runs the bot may say so. Raises DeskError."""
        known = self.experts()
        for number in (one, other):
            if number not in known:
                raise DeskError(f"There is no expert {number}. `bedstamp knowledge experts` shows which there are.")
        if one == other:
            raise DeskError("Name two different experts.")
        with self._writing():
            self._journal.note(_NOTES, _pair(one, other), "yes")

    def _must_be_two(self, change: RegisterChange, person: str, who: str) -> None:
        if who == change.proposer:
            raise DeskError(_YOUR_OWN.format(number=change.number))
        one, two = (int(name.rpartition(" ")[2]) for name in (change.proposer, who))
        found = self._one(
            "SELECT people.key FROM desk_experts JOIN people ON people.id = desk_experts.person "
            "WHERE desk_experts.id = ?",
            (one,),
        )
        if found is None:
            raise DeskError(_FORGOTTEN.format(number=change.number))
        if _is_one_name(found[0], person):
            raise DeskError(_YOUR_OWN.format(number=change.number))
        why = _why_not_two(found[0], person)
        if why and self._journal.noted(_NOTES, _pair(one, two)) is None:
            raise DeskError(_WHO.format(number=change.number, proposer=change.proposer, why=why, one=one, two=two))

    def _packs(self) -> dict[str, PackSource]:
        return {source.name: source for source in self._journal.store().sources()}


def _is_same(one: RegisterChange, other: RegisterChange) -> bool:
    return (one.pack, one.table, one.before, one.after) == (other.pack, other.table, other.before, other.after)


def _why_not_two(one: str, other: str) -> str:
    """Return why two keys of people may be one person; '' when they are two."""
    if _channel(one) != _channel(other):
        return f"one writes by {_channel(one)}, the other by {_channel(other)}"
    if _UNNAMED in (one, other):
        return "one of you did not say a name at the terminal"
    return ""


def _is_one_name(one: str, other: str) -> bool:
    """Tell whether two keys are one name, however it was typed, or one mailbox."""
    return _bare(one) == _bare(other)


def _bare(key: str) -> tuple[str, str]:
    channel, _, name = key.partition(":")
    mailbox, at, domain = fold(name).partition("@")
    if at:
        return channel, f"{mailbox.partition('+')[0]}@{domain}"
    return channel, "".join(filter(str.isalnum, mailbox))


def _channel(key: str) -> str:
    return key.partition(":")[0]


def _pair(one: int, other: int) -> str:
    return f"{min(one, other)} {max(one, other)}"
