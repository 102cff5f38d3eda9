"""What was understood becomes a finding at the press, and everybody who waits is told.

    settle:  finding stored + number settled in every case that waits for it + everybody told: one transaction
    amend, withdraw: the same afterwards; everybody who was told hears of the change
"""

from __future__ import annotations

import json
import uuid
from datetime import datetime

from bot.cases import CLOSED, OPEN, SETTLED, UNSETTLED, Case, Number
from bot.expert_desk.life import LONGEST_WORDS
from bot.expert_desk.nouns import DeskError, Done
from bot.expert_desk.proposing import Proposed, Proposing, finding_of
from bot.expert_desk.rows import may_be_one
from bot.expert_desk.times import HEARS_WITHIN, NO_END
from bot.journal import Reply
from bot.journal.rows import seconds
from bot.replies import cards, outcomes
from knowledge.expert_answers import ASK_BACK, NOT_OURS, SETTLES
from knowledge.findings import Finding


class Settling(Proposing):
    """The part of the desk that turns what experts write into what is known."""

    def settle(self, proposal: int, expert: str, now: datetime) -> Done:
        """Carry out what was understood, as it was shown. Who comes second is told what was stored, and may amend it.

        Raises DeskError for a proposal of somebody else, or one that was written again since.
        """
        with self._writing():
            one = self._proposed(proposal, expert)
            if one.understood.kind == ASK_BACK:
                return self._ask(one.case, expert, one.understood.question, one.told.caution, now)
            if one.understood.kind == NOT_OURS:
                return self.not_ours(one.case, expert, now)
            case = self.case(one.case)
            stored = self._stored_for(case, one.number)
            if stored is not None:
                mine = stored.key == one.finding
                text = cards.STORED_ALREADY if mine else cards.settled_before(self.card(case.id), stored)
                return Done(case, False, text, (), stored, may_amend=not mine)
            return self._settle(case, one, now)

    def amend(self, proposal: int, expert: str, now: datetime) -> Done:
        """Put what was understood in the place of what is stored; everybody who was told hears of it.

        Where nothing is stored (any more), it is settled. Raises DeskError as `settle` does.
        """
        with self._writing():
            one = self._proposed(proposal, expert)
            case = self.case(one.case)
            stored = self._stored_for(case, one.number) if one.understood.kind == SETTLES else None
            if stored is None:
                return self.settle(proposal, expert, now)
            new = finding_of(stored.key, one.understood, one.number, one.expert, case, now)
            if one.finding == stored.key:
                return Done(case, False, cards.STORED_ALREADY, (), stored)
            before = self._found_words(stored.key)
            self._journal.store().amend_finding(stored.key, new)
            return self._store(case, one, new, "amended", now, before)

    def withdraw(self, id_: int, expert: str, why: str, now: datetime) -> Done:
        """Let what was found in a case count no more; the case is open again, and everybody who was told hears of it.

        Raises DeskError when nothing was found in it.
        """
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            if not case.findings:
                raise DeskError(f"Nothing is stored from case {id_}, so there is nothing to take back.")
            store = self._journal.store()
            in_force = {one.key for one in store.findings()}
            for key in dict.fromkeys(case.findings):
                if key in in_force:
                    store.withdraw_finding(key, who, now, why.strip()[:LONGEST_WORDS])
            ids = self._cases_with(case.findings)
            for one in ids:
                store.forget_mistakes(one)
            by_hand = sum(map(self.in_person, ids))
            people = sum(len(self.askers(one)) for one in ids) - by_hand
            replies = [reply for one in ids for reply in self._opened_anew(one, who, why.strip(), now)]
            return Done(self.case(id_), True, outcomes.taken_back(people, by_hand), tuple(replies))

    def _cases_with(self, findings: tuple[str, ...]) -> list[int]:
        marks = ", ".join("?" * len(findings))
        sql = f"SELECT DISTINCT case_ FROM desk_numbers WHERE finding IN ({marks}) ORDER BY case_"
        return [int(id_) for (id_,) in self._all(sql, findings)]

    def _settle(self, case: Case, one: Proposed, now: datetime) -> Done:
        finding = finding_of(uuid.uuid4().hex, one.understood, one.number, one.expert, case, now)
        self._journal.store().add_finding(finding)
        return self._store(case, one, finding, "settled", now)

    def _found_words(self, finding: str) -> str:
        row = self._one("SELECT found FROM desk_numbers WHERE finding = ? AND found != '' LIMIT 1", (finding,))
        return str(row[0]) if row else ""

    def _store(
        self, case: Case, one: Proposed, finding: Finding, what: str, now: datetime, before: str = ""
    ) -> Done:
        """Write down what a stored finding means for the cases, and tell everybody. In a transaction."""
        self._execute("UPDATE desk_proposals SET finding = '' WHERE finding = ?", (finding.key,))
        self._execute("UPDATE desk_proposals SET finding = ? WHERE id = ?", (finding.key, one.id))
        if case.waiting:
            self._journal.store().note_mistake(case.id, _place(case, one.number), one.told.seen, now.date())
        if finding.serial and one.number.serial not in ("", finding.serial):
            self._journal.store().note_spelling(one.number.serial, finding.key)
        places = self._places_of(case, one.number, finding)
        replies: list[Reply] = []
        people = 0
        for id_ in dict.fromkeys(case_ for case_, _ in places):
            numbers = [number for case_, number in places if case_ == id_]
            told = self._number_found(id_, numbers, one, finding, what, now)
            people += self.case(id_).waiting
            replies += told
        if one.told.against:
            replies += self._contradiction(finding, one, now)
        by_hand = sum(self.in_person(id_) for id_ in dict.fromkeys(case_ for case_, _ in places))
        text = outcomes.stored(finding, one.found, what, people - by_hand, before, by_hand)
        return Done(self.case(case.id), True, text, tuple(replies), finding)

    def _contradiction(self, finding: Finding, one: Proposed, now: datetime) -> tuple[Reply, ...]:
        """Make a case of its own of what lists or other findings say against a finding, once for the same.

        Nobody waits for it. Whoever answers it amends the finding; where the list is wrong, it is closed.
        """
        lines = (f"Settled: {one.found}. Case {one.case}.", *one.told.against)
        known = self._one(
            "SELECT 1 FROM desk_cases JOIN desk_numbers ON desk_numbers.case_ = desk_cases.id "
            "WHERE reasons = 'contradiction' AND finding = ?",
            (finding.key,),
        )
        if known:
            return ()
        id_ = self._insert_case(("contradiction",), (finding.maker,) if finding.maker else (), lines, now, NO_END)
        self._add_numbers(id_, [finding])
        self._execute(
            "UPDATE desk_numbers SET finding = ?, found = ? WHERE case_ = ?", (finding.key, one.found, id_)
        )
        self._change(id_, now, one.expert, "opened", "contradiction")
        return self._new_card(id_)

    def _places_of(self, case: Case, number: Number, finding: Finding) -> list[tuple[int, int]]:
        """Return case and row of the number itself, and of the stamped number in every other case that waits for it.

        For a finding stored before: every row that has it.
        """
        typed = (number.digits, number.prefix, number.suffix)
        sql = "SELECT case_, id FROM desk_numbers WHERE case_ = ? AND digits = ? AND prefix = ? AND suffix = ?"
        found = self._all(sql, (case.id, *typed))
        found += self._all("SELECT case_, id FROM desk_numbers WHERE finding = ?", (finding.key,))
        stamped = (finding.digits, finding.prefix, finding.suffix)
        others = self._all(_OTHERS_WAITING, stamped) if finding.digits else []
        makers = (finding.maker,) if finding.maker else ()
        found += [
            (id_, place) for id_, place, named in others if may_be_one(tuple(json.loads(named)), makers)
        ]  # fmt: skip
        return list(dict.fromkeys(found))

    def _number_found(
        self, id_: int, places: list[int], one: Proposed, finding: Finding, what: str, now: datetime
    ) -> tuple[Reply, ...]:
        for place in places:
            self._execute(
                "UPDATE desk_numbers SET finding = ?, found = ? WHERE id = ?", (finding.key, one.found, place)
            )
        left = self._one("SELECT 1 FROM desk_numbers WHERE case_ = ? AND finding = ''", (id_,))
        columns: dict[str, object] = {}
        if left is None:
            columns = {"state": SETTLED, "expert": None, "lease": 0.0, "ask_until": 0.0}
        case = self._change(id_, now, one.expert, what, f"{finding.serial}: {one.found}".strip(": "), **columns)
        typed = one.number.serial if id_ == one.case else finding.serial
        kind = "settled" if what == "settled" else "changed"
        text = cards.settled(case, typed, finding, one.found, what, one.told.against)
        told = self._tell_all(id_, kind, "\n\n".join(filter(None, (text, one.told.caution))), ends=left is None)
        return (*told, *self._changed_card(id_))

    def _opened_anew(self, id_: int, who: str, why: str, now: datetime) -> tuple[Reply, ...]:
        self._execute("UPDATE desk_numbers SET finding = '', found = '' WHERE case_ = ?", (id_,))
        if self.case(id_).reasons == ("contradiction",) and not self.askers(id_):
            self._change(id_, now, who, "withdrawn", why[:LONGEST_WORDS], state=CLOSED, expert=None, lease=0.0)
            return self._changed_card(id_)
        by = now + HEARS_WITHIN
        case = self._change(
            id_, now, who, "withdrawn", why[:LONGEST_WORDS], state=OPEN, opened=seconds(now), until=seconds(by),
            reminded=0, news=1,
        )  # fmt: skip
        told = self._tell_all(id_, "withdrawn", cards.withdrawn(case, by))
        self._execute("UPDATE desk_waiting SET told = '', by = ? WHERE case_ = ?", (seconds(by), id_))
        return (*told, *self._new_card(id_))

_OTHERS_WAITING = (
    "SELECT case_, desk_numbers.id, coalesce(desk_numbers.makers, desk_cases.makers) "
    "FROM desk_numbers JOIN desk_cases ON desk_cases.id = case_ "
    "WHERE digits = ? AND prefix = ? AND suffix = ? AND finding = '' "
    f"AND state IN ({', '.join(repr(state) for state in UNSETTLED)})"
)


def _place(case: Case, number: Number) -> int:
    return next((place for place, one in enumerate(case.numbers) if one.serial == number.serial), 0)
