"""Changes of registers at the desk: one expert proposes in their own words, another one agrees, and it is in force.

That they are two people must be known, not supposed. Within one channel two people are two. Across channels one person
may write both ways, so whoever runs the bot has to have said that these two experts are different people. A proposal of
somebody who was forgotten since can be turned down, but not agreed to.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from bot.expert_desk.change_cards import ChangeCards, channel_of
from bot.expert_desk.nouns import DeskError
from bot.journal import Reply
from bot.replies.changes import (
    AGREED,
    FORGOTTEN,
    PROPOSED_ALREADY,
    TAKEN_BACK_NOW,
    TURNED_DOWN_NOW,
    WHO,
    YOUR_OWN,
    may_be_one,
)
from knowledge.base import Knowledge
from knowledge.names import fold
from knowledge.register_changes.finding_rows import change_of
from knowledge.register_changes.judging import judge
from knowledge.register_changes.nouns import IN_FORCE, PROPOSED, TAKEN_BACK, TURNED_DOWN, RegisterChange
from knowledge.register_changes.reading import Unclear, read_change
from knowledge.register_changes.words import difference
from knowledge.registers import PackSource
from knowledge.tokens.fold import fold_word

LONGEST_WHY = 300  # characters
_NOTES = "experts who are two"
_UNNAMED = "terminal"
_ALIKE = str.maketrans("l1|0", "iiio")  # what looks like a capital I or O; names at the terminal are typed by anybody


@dataclass(frozen=True, slots=True)
class Proposed:
    """A change that is kept, with its difference in words, what the checks warn of among them. Nothing is in force.

    `already` says so where the same expert had proposed the same. `replies` put it before the experts of all channels.
    """

    change: RegisterChange
    text: str
    already: str = ""
    replies: tuple[Reply, ...] = ()


@dataclass(frozen=True, slots=True)
class Decided:
    """What came of a change: `text` for whoever decided it, and `replies` that show it to the experts."""

    text: str
    replies: tuple[Reply, ...] = ()


class RegisterDesk(ChangeCards):
    """The part of the desk that changes registers: `RegisterDesk(clerk.journal, channels)`."""

    def propose_words(self, person: str, words: str, knowledge: Knowledge, now: datetime, why: str = "") -> Proposed:
        """Keep the change that an expert's words mean. Raises DeskError for what is not clear, and ChangeError."""
        return self.propose(person, self.understood(words, knowledge), knowledge, now, why)

    def understood(self, words: str, knowledge: Knowledge) -> RegisterChange:
        """Return the change that words mean; nothing is kept. Raises DeskError for what is not clear, ChangeError."""
        wanted = read_change(words, knowledge)
        if isinstance(wanted, Unclear):
            raise DeskError(wanted.text)
        return change_of(wanted, knowledge, self._packs())

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
            if (known := next(same, None)) is not None:
                text = difference(replace(judged, change=known), knowledge)
                return Proposed(known, text, PROPOSED_ALREADY.format(number=known.number))
            kept = store.add_change(replace(change, proposer=who, at=now, why=why.strip()[:LONGEST_WHY]))
            text = difference(replace(judged, change=kept), knowledge)
            self._keep_shown(kept.number, text)
            return Proposed(kept, text, "", self._show_change(kept.number))

    def agree(self, number: int, person: str, now: datetime, why: str = "") -> Decided:
        """Put a change in force, and show that to all experts. Raises DeskError and ChangeError."""
        who = self.expert(person)  # kept also when the agreement is refused, so that the number told stays theirs
        with self._writing():
            store = self._journal.store()
            change = store.register_change(number)
            if change.state == PROPOSED:
                self._must_be_two(change, person, who)
                judge(change, store.pack(change.pack))
            store.decide_change(number, IN_FORCE, who, now, why.strip()[:LONGEST_WHY])
            return Decided(AGREED.format(number=number), self._show_change(number))

    def turn_down(self, number: int, person: str, now: datetime, why: str = "") -> Decided:
        """Turn a proposal down, and show that to all; whoever proposed it takes it back. Raises ChangeError."""
        with self._writing():
            store, who = self._journal.store(), self.expert(person)
            is_own = store.register_change(number).proposer == who
            what = TAKEN_BACK if is_own else TURNED_DOWN
            store.decide_change(number, what, who, now, why.strip()[:LONGEST_WHY])
            told = (TAKEN_BACK_NOW if is_own else TURNED_DOWN_NOW).format(number=number)
            return Decided(told, self._show_change(number))

    def difference(self, number: int, knowledge: Knowledge) -> str:
        """Return a change as it is shown to the second expert. Raises ChangeError when it does not fit any more."""
        store = self._journal.store()
        change = store.register_change(number)
        return difference(judge(change, store.pack(change.pack)), knowledge)

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
            raise DeskError(YOUR_OWN.format(number=change.number))
        one, two = (int(name.rpartition(" ")[2]) for name in (change.proposer, who))
        found = self._one(
            "SELECT people.key FROM desk_experts JOIN people ON people.id = desk_experts.person "
            "WHERE desk_experts.id = ?",
            (one,),
        )
        if found is None:
            raise DeskError(FORGOTTEN.format(number=change.number))
        if _is_one_name(found[0], person):
            raise DeskError(YOUR_OWN.format(number=change.number))
        why = _why_not_two(found[0], person)
        if why and self._journal.noted(_NOTES, _pair(one, two)) is None:
            raise DeskError(WHO.format(number=change.number, proposer=change.proposer, why=why, one=one, two=two))

    def _packs(self) -> dict[str, PackSource]:
        return {source.name: source for source in self._journal.store().sources()}


def _is_same(one: RegisterChange, other: RegisterChange) -> bool:
    return (one.pack, one.table, one.before, one.after) == (other.pack, other.table, other.before, other.after)


def _why_not_two(one: str, other: str) -> str:
    """Return why two keys of people may be one person; '' when they are two."""
    if channel_of(one) != channel_of(other):
        return may_be_one(channel_of(one), channel_of(other))
    if _UNNAMED in (one, other):
        return "one of you did not say a name at the terminal"
    return ""


def _is_one_name(one: str, other: str) -> bool:
    """Tell whether two keys are one name, however it was typed, or one mailbox."""
    return _bare(one) == _bare(other)


def _bare(key: str) -> tuple[str, str]:
    channel, _, name = key.partition(":")
    if channel == _UNNAMED:
        return channel, "".join(filter(str.isalnum, fold_word(name).translate(_ALIKE)))
    mailbox, at, domain = fold(name).partition("@")
    if at:
        return channel, f"{mailbox.partition('+')[0]}@{domain}"
    return channel, "".join(filter(str.isalnum, mailbox))


def _pair(one: int, other: int) -> str:
    return f"{min(one, other)} {max(one, other)}"
