"""Cases as they lie in the file: read whole, changed with an entry in their history, shown and told to people."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from bot.cases import IN_PERSON, Asker, Card, Case, Event, Notice, Number, Picture, Words
from bot.expert_desk.nouns import DeskError, ExpertChannel
from bot.expert_desk.tables import DESK
from bot.journal import Journal, Reply
from bot.journal.rows import Rows, moment, seconds
from bot.state import State

DESK_ITSELF, ASKER = "desk", "asker"
"""Who stands in the history for the timers, and for whoever asked."""
_MOST_SIMILAR = 5
_NEAR = 25_000  # numbers apart; a usual batch is as large (the design, facts of the trade)

_CASE = (
    "SELECT id, state, reasons, makers, reading, waiting, expert, lease, opened, changed, until, version "
    "FROM desk_cases AS one"
)
_ASKER = (
    "SELECT one.channel, people.key, one.route, one.text, one.asked, one.by, one.id "
    "FROM desk_waiting AS one JOIN people ON people.id = one.person"
)
_WORDS = (
    "SELECT kind, text, at, kind = 'said' AND person != "
    "(SELECT first.person FROM desk_waiting AS first WHERE first.case_ = one.case_ ORDER BY first.id LIMIT 1) "
    "FROM desk_words AS one WHERE case_ = ? ORDER BY id"
)


class CaseRows(Rows):
    """The part of the desk that reads and writes single cases. `channels` are the ways to experts and askers."""

    def __init__(self, journal: Journal, channels: Sequence[ExpertChannel] = ()) -> None:
        super().__init__(journal.path, journal.beside(DESK))
        self._journal = journal
        self._channels = tuple(channels)

    def case(self, id_: int) -> Case:
        """Return one case. Raises DeskError when there is no such number."""
        found = self._cases_where("WHERE id = ?", (id_,))
        if not found:
            raise DeskError(f"There is no case {id_}. `bedstamp cases list` shows which there are.")
        return found[0]

    def card(self, id_: int, note: str = "") -> Card:
        """Return a case with everything that experts see of it. Raises DeskError when there is no such number."""
        case = self.case(id_)
        sql = "SELECT prefix || digits || suffix, found FROM desk_numbers WHERE case_ = ? AND found != '' ORDER BY id"
        of_several = len(case.numbers) > 1
        found = tuple(f"{typed}: {words}" if of_several else words for typed, words in self._all(sql, (id_,)))
        said = tuple(one for one in self.words(id_) if one.kind == "asked" or plain(one.text) != plain(case.text))
        return Card(
            case, self.pictures(id_), said, self.similar(case), found,
            self.history(id_), note,
        )  # fmt: skip

    def askers(self, id_: int, *, only_untold: bool = False) -> tuple[Asker, ...]:
        """Return who waits for the end of a case, or waited for it, the first first."""
        which = "AND one.told = ''" if only_untold else ""
        return self._askers_where(f"WHERE one.case_ = ? {which} ORDER BY one.id", (id_,))

    def in_person(self, id_: int) -> int:
        """Return how many of those who asked can only be told by an expert."""
        return sum(one.channel == IN_PERSON for one in self.askers(id_))

    def pictures(self, id_: int) -> tuple[Picture, ...]:
        """Return the pictures that came with a question."""
        sql = (
            "SELECT one.channel, ref, kind, content FROM desk_pictures AS one "
            "JOIN desk_waiting ON desk_waiting.id = one.waiting WHERE desk_waiting.case_ = ? ORDER BY one.id"
        )
        return tuple(Picture(*row) for row in self._all(sql, (id_,)))

    def words(self, id_: int) -> tuple[Words, ...]:
        """Return what experts asked back and askers said since, the first first."""
        found = self._all(_WORDS, (id_,))
        return tuple(Words(kind, text, moment(at), bool(is_another)) for kind, text, at, is_another in found)

    def history(self, id_: int) -> tuple[Event, ...]:
        """Return every change of a case, the first first."""
        found = self._all("SELECT at, who, what, more FROM desk_history WHERE case_ = ? ORDER BY id", (id_,))
        return tuple(Event(moment(at), who, what, more) for at, who, what, more in found)

    def similar(self, case: Case) -> tuple[Case, ...]:
        """Return the unsettled cases with the nearest numbers of one series, of makers that do not differ.

        With a prefix the series is known by that, however far apart; without one the numbers must be near.
        """
        near: dict[int, int] = {}
        for one in case.numbers:
            for id_, distance in self._neighbours(one, case.id):
                near[id_] = min(distance, near.get(id_, distance))
        ids = sorted(near, key=lambda id_: (near[id_], id_))
        found = {other.id: other for other in self._cases_by_id(ids)}
        fitting = [found[id_] for id_ in ids if may_be_one(case.makers, found[id_].makers)]
        return tuple(fitting[:_MOST_SIMILAR])

    def expert(self, person: str) -> str:
        """Return what an expert is called in findings and history, which names nobody: 'expert 3'."""
        return f"expert {self._expert(person)}"

    def _expert(self, person: str) -> int:
        with self._writing():
            who = self._person(person)
            found = self._execute("SELECT id FROM desk_experts WHERE person = ?", (who,)).fetchone()
            return int(found[0] if found else self._new_expert(who))

    def _new_expert(self, person: int | None) -> int:
        return int(self._execute("INSERT INTO desk_experts (person) VALUES (?)", (person,)).lastrowid or 0)

    def _change(self, id_: int, now: datetime, who: str, what: str, more: str = "", /, **columns: object) -> Case:
        """Change columns of a case, with an entry in its history. Return the case after it. In a transaction."""
        self._enter(id_, now, who, what, more, **columns)
        return self.case(id_)

    def _enter(self, id_: int, now: datetime, who: str, what: str, more: str = "", /, **columns: object) -> None:
        """The same for many cases, of which none is looked at afterwards."""
        changes = ", ".join(["version = version + 1", "changed = ?", *(f"{name} = ?" for name in columns)])
        self._execute(f"UPDATE desk_cases SET {changes} WHERE id = ?", (seconds(now), *columns.values(), id_))
        self._execute(
            "INSERT INTO desk_history (case_, at, who, what, more) VALUES (?, ?, ?, ?, ?)",
            (id_, seconds(now), who, what, more),
        )

    def _new_card(self, id_: int) -> tuple[Reply, ...]:
        """Put a case before the experts of every channel."""
        return self._to_experts(id_, "card", "")

    def _changed_card(self, id_: int, note: str = "") -> tuple[Reply, ...]:
        """Show the experts of every channel what became of a case."""
        return self._to_experts(id_, "changed", note)

    def _to_experts(self, id_: int, kind: str, note: str) -> tuple[Reply, ...]:
        if not self._channels:
            self._leave_errand(id_, None, kind, "", note)
            return ()
        card = self.card(id_, note)
        made = (channel.card(card) if kind == "card" else channel.changed(card) for channel in self._channels)
        return tuple(reply for replies in made for reply in replies)

    def _tell(self, card: Card, asker: Asker, kind: str, text: str) -> tuple[Reply, ...]:
        """Tell something to somebody who waits for the case of this card. In the transaction that changes the case."""
        id_ = card.case.id
        key = f"case{id_}-{kind}-{asker.id}-{card.case.version}"
        return self._carry(asker, Notice(key, kind, id_, text, beginning(asker.text)), card)

    def _carry(self, asker: Asker, notice: Notice, card: Card) -> tuple[Reply, ...]:
        if asker.channel == IN_PERSON:
            return ()
        for channel in self._channels:
            if channel.name == asker.channel:
                return tuple(channel.tell(asker, notice, card))
        what = json.dumps([notice.key, notice.kind, notice.text])
        self._leave_errand(notice.case, asker.id, "tell", asker.channel, what)
        return ()

    def _leave_errand(self, id_: int, waiting: int | None, kind: str, channel: str, what: str) -> None:
        self._execute(
            "INSERT INTO desk_errands (case_, waiting, kind, channel, what) VALUES (?, ?, ?, ?, ?)",
            (id_, waiting, kind, channel, what),
        )

    def _cases_where(self, where: str, values: Sequence[object] = ()) -> list[Case]:
        rows = self._all(f"{_CASE} {where}", values)
        ids = [int(row[0]) for row in rows]
        numbers, firsts = self._numbers_of(ids), self._firsts_of(ids)
        return [_case(row, numbers.get(row[0], ()), *firsts.get(row[0], ("", ""))) for row in rows]

    def _cases_by_id(self, ids: Sequence[int]) -> list[Case]:
        return self._cases_where(f"WHERE id IN ({_marks(ids)})", ids) if ids else []

    def _numbers_of(self, ids: Sequence[int]) -> dict[int, tuple[Number, ...]]:
        found: dict[int, tuple[Number, ...]] = {}
        for part in _portions(ids):
            sql = f"SELECT case_, prefix, digits, suffix, finding FROM desk_numbers WHERE case_ IN ({_marks(part)})"
            for case, *number in self._all(f"{sql} ORDER BY id", part):
                found[case] = (*found.get(case, ()), Number(*number))
        return found

    def _firsts_of(self, ids: Sequence[int]) -> dict[int, tuple[str, str]]:
        """Return text and state of who asked first and is still known, for each case."""
        found: dict[int, tuple[str, str]] = {}
        for part in _portions(ids):
            sql = f"SELECT case_, min(id), text, state FROM desk_waiting WHERE case_ IN ({_marks(part)}) GROUP BY case_"
            found.update({case: (text, state) for case, _, text, state in self._all(sql, part)})
        return found

    def _askers_where(self, where: str, values: Sequence[object]) -> tuple[Asker, ...]:
        return tuple(
            Asker(channel, person, route, text, moment(asked), moment(by), id_)
            for channel, person, route, text, asked, by, id_ in self._all(f"{_ASKER} {where}", values)
        )

    def _neighbours(self, number: Number, but: int) -> list[tuple[int, int]]:
        value = as_number(number.digits)
        if value is None:
            return []
        bound = "" if number.prefix else f"AND abs(number - {value}) <= {_NEAR}"
        return self._all(
            "SELECT case_, abs(number - ?) FROM desk_numbers AS one JOIN desk_cases ON desk_cases.id = one.case_ "
            "WHERE prefix = ? AND suffix = ? AND number IS NOT NULL AND length(digits) = ? AND case_ != ? "
            f"AND state IN ('open', 'taken', 'asked back') {bound} ORDER BY 2 LIMIT {4 * _MOST_SIMILAR}",
            (value, number.prefix, number.suffix, len(number.digits), but),
        )  # fmt: skip


def _case(row: Sequence[Any], rows: tuple[Number, ...], text: str, state: str) -> Case:
    id_, stands, reasons, makers, reading, waiting, expert, lease, opened, changed, until, version = row
    numbers = tuple(one for one in rows if one.digits)
    findings = tuple(one.finding for one in rows if one.finding)
    return Case(
        id_, stands, tuple(reasons.split()), numbers, tuple(json.loads(makers)), tuple(json.loads(reading)), text,
        State.from_json(json.loads(state)) if state else State(), findings, waiting,
        f"expert {expert}" if expert else "", moment(lease) if lease else None, moment(opened), moment(changed),
        moment(until), version,
    )  # fmt: skip


def as_number(digits: str) -> int | None:
    """Return digits as a number, None when there are other signs among them, or more than SQLite holds."""
    return int(digits) if digits.isdecimal() and digits.isascii() and len(digits) <= 18 else None


def may_be_one(makers: Sequence[str], others: Sequence[str]) -> bool:
    """Tell whether the makers that two people named may be the same one: where nobody is named, it may be any."""
    return not makers or not others or bool(set(makers) & set(others))


def beginning(text: str) -> str:
    """Return the beginning of what somebody wrote, on one line."""
    words = " ".join(text.split())
    return words if len(words) <= 80 else f"{words[:79]}…"


def plain(text: str) -> str:
    """Return words so that the same ones, written a little differently, are equal."""
    return " ".join(text.casefold().split())


def _marks(values: Sequence[object]) -> str:
    return ", ".join("?" * len(values))


def _portions(ids: Sequence[int]) -> Iterator[Sequence[int]]:
    for start in range(0, len(ids), 500):
        yield ids[start : start + 500]
