"""From an expert's words to a finding: shown first, stored at the press, and everybody who waits is told.

    propose: words -> what is understood, kept on disk; nothing is known yet
    settle:  finding stored + number settled in every case that waits for it + everybody told: one transaction
    amend, withdraw: the same afterwards; everybody who was told hears of the change
"""

from __future__ import annotations

import json
import uuid
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from difflib import get_close_matches

from bot.cases import OPEN, SETTLED, UNSETTLED, Case, Number
from bot.expert_desk.life import LONGEST_WORDS, Life, danger
from bot.expert_desk.nouns import DeskError, Done, Proposal
from bot.expert_desk.rows import may_be_one
from bot.expert_desk.times import HEARS_WITHIN, NO_END
from bot.journal import Reply
from bot.journal.rows import seconds
from bot.replies import cards
from knowledge.answer import answer_found
from knowledge.base import Knowledge
from knowledge.contradictions import contradictions
from knowledge.expert_answers import ASK_BACK, NO_ANSWER, NOT_OURS, SETTLES, About, Understood, understand
from knowledge.findings import OPINION, Finding
from knowledge.tokens import find

_NO_NUMBER = Number("", "", "")


@dataclass(frozen=True, slots=True)
class _Told:
    """What is kept beside what was understood.

    `number` is the one of the case that is meant, as it was typed; `found` the finding in words; `lacks` why nothing
    can be carried out; `against` what lists and other findings say against it; `caution` what an asker must be warned
    of before they do what the words speak of.
    """

    number: Number
    found: str
    lacks: str
    against: tuple[str, ...]
    caution: str

    def as_text(self) -> str:
        return json.dumps(asdict(self))

    @classmethod
    def from_text(cls, text: str) -> _Told:
        plain = json.loads(text)
        return cls(**{**plain, "number": Number(**plain["number"]), "against": tuple(plain["against"])})


@dataclass(frozen=True, slots=True)
class _Proposed:
    """A proposal as it lies in the file."""

    id: int
    case: int
    expert: str
    person: str
    understood: Understood
    told: _Told
    finding: str

    @property
    def number(self) -> Number:
        return self.told.number

    @property
    def found(self) -> str:
        return self.told.found


class Settling(Life):
    """The part of the desk that turns what experts write into what is known."""

    def propose(self, id_: int, expert: str, text: str, knowledge: Knowledge, now: datetime) -> Proposal:
        """Understand what an expert writes about a case, and keep it to be pressed. An open case is theirs from now.

        Writing again takes the place of what was proposed before. Raises DeskError when there is no such case.
        """
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            about = self._about(case, knowledge)
            understood = _completed(understand(text[:LONGEST_WORDS], knowledge, about), case, knowledge)
            number = _number_meant(case, understood, text)
            lacks = _what_lacks(understood, case, number)
            told = self._told(case, understood, number or _NO_NUMBER, lacks, knowledge, now)
            new = self._keep_proposal(id_, expert, text, understood, told, now)
            shown = cards.proposal(understood, case, told.number.serial, told.found, lacks, told.against)
            amends = self._stored_for(case, told.number) is not None
            is_free = case.state == OPEN or (case.is_unsettled and case.expert == who)
            replies = self._taken_by_writing(case, expert, now) if is_free and not lacks else ()
            return Proposal(new, id_, who, text, understood, shown, not lacks, amends, replies)

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
            new = _finding(stored.key, one.understood, one.number, one.expert, case, now)
            if one.finding == stored.key:
                return Done(case, False, cards.STORED_ALREADY, (), stored)
            self._journal.store().amend_finding(stored.key, new)
            return self._store(case, one, new, "amended", now)

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
            replies = [reply for one in ids for reply in self._opened_anew(one, who, now)]
            return Done(self.case(id_), True, cards.WITHDRAWN, tuple(replies))

    def _cases_with(self, findings: tuple[str, ...]) -> list[int]:
        marks = ", ".join("?" * len(findings))
        sql = f"SELECT DISTINCT case_ FROM desk_numbers WHERE finding IN ({marks}) ORDER BY case_"
        return [int(id_) for (id_,) in self._all(sql, findings)]

    def _about(self, case: Case, knowledge: Knowledge) -> About:
        """Return the question for whoever reads the expert's words: what was asked, and the datings on the card."""
        state = case.asked
        text = state.text or " ".join(case.serials)
        found = answer_found(text, find(text, knowledge.names), state.said, knowledge)
        return About(case.text, case.serials, state.said, cards.shown_on_card(found))

    def _taken_by_writing(self, case: Case, expert: str, now: datetime) -> tuple[Reply, ...]:
        was_open = case.state == OPEN
        self._take(case, expert, now)
        return self._changed_card(case.id) if was_open else ()

    def _settle(self, case: Case, one: _Proposed, now: datetime) -> Done:
        finding = _finding(uuid.uuid4().hex, one.understood, one.number, one.expert, case, now)
        self._journal.store().add_finding(finding)
        self._note_mistake(one.number, finding)
        return self._store(case, one, finding, "settled", now)

    def _store(self, case: Case, one: _Proposed, finding: Finding, what: str, now: datetime) -> Done:
        """Write down what a stored finding means for the cases, and tell everybody. In a transaction."""
        self._execute("UPDATE desk_proposals SET finding = '' WHERE finding = ?", (finding.key,))
        self._execute("UPDATE desk_proposals SET finding = ? WHERE id = ?", (finding.key, one.id))
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
        return Done(self.case(case.id), True, cards.stored(finding, one.found, what, people), tuple(replies), finding)

    def _contradiction(self, finding: Finding, one: _Proposed, now: datetime) -> tuple[Reply, ...]:
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
        self, id_: int, places: list[int], one: _Proposed, finding: Finding, what: str, now: datetime
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
        text = cards.settled(case, typed, finding, one.found, what)
        told = self._tell_all(id_, kind, "\n\n".join(filter(None, (text, one.told.caution))), ends=left is None)
        return (*told, *self._changed_card(id_))

    def _opened_anew(self, id_: int, who: str, now: datetime) -> tuple[Reply, ...]:
        self._execute("UPDATE desk_numbers SET finding = '', found = '' WHERE case_ = ?", (id_,))
        by = now + HEARS_WITHIN
        case = self._change(
            id_, now, who, "withdrawn", state=OPEN, opened=seconds(now), until=seconds(by), reminded=0, news=1
        )
        told = self._tell_all(id_, "withdrawn", cards.withdrawn(case, by))
        self._execute("UPDATE desk_waiting SET told = '', by = ? WHERE case_ = ?", (seconds(by), id_))
        return (*told, *self._new_card(id_))

    def _told(
        self, case: Case, understood: Understood, number: Number, lacks: str, knowledge: Knowledge, now: datetime
    ) -> _Told:
        against: tuple[str, ...] = ()
        if understood.kind == SETTLES and not lacks:
            stored = self._stored_for(case, number)
            key = stored.key if stored else uuid.uuid4().hex
            against = contradictions(_finding(key, understood, number, "expert 0", case, now), knowledge)
        caution = danger(f"{understood.question} {understood.evidence} {understood.note}", knowledge)
        return _Told(number, cards.found_words(understood, knowledge), lacks, against, caution)

    def _stored_for(self, case: Case, number: Number) -> Finding | None:
        """Return what is stored, and in force, of one number of a case."""
        numbers = case.numbers or self._numberless_row(case.id)
        keys = [each.finding for each in numbers if each.serial == number.serial and each.finding]
        return next((each for each in self._journal.store().findings() if each.key in keys), None)

    def _numberless_row(self, id_: int) -> tuple[Number, ...]:
        rows = self._all("SELECT prefix, digits, suffix, finding FROM desk_numbers WHERE case_ = ?", (id_,))
        return tuple(Number(*row) for row in rows)

    def _note_mistake(self, typed: Number, finding: Finding) -> None:
        """Count how the number had been read wrongly, so that readings are weighed by what people really do."""

    def _keep_proposal(
        self, id_: int, expert: str, text: str, understood: Understood, told: _Told, now: datetime
    ) -> int:
        cursor = self._execute(
            "INSERT INTO desk_proposals (case_, person, expert, words, understood, told, at) "
            "VALUES (?, ?, ?, ?, ?, ?, ?)",
            (
                id_, self._person(expert), self._expert(expert), text[:LONGEST_WORDS],
                json.dumps(asdict(understood)), told.as_text(), seconds(now),
            ),
        )  # fmt: skip
        return int(cursor.lastrowid or 0)

    def _proposed(self, id_: int, expert: str) -> _Proposed:
        """Return a proposal that this expert may press. Raises DeskError."""
        found = self._one(_PROPOSED, (id_,))
        if found is None:
            raise DeskError("I do not have that any more. Please write again what you know about the machine.")
        case, number, person, understood, told, finding, latest = found
        if person != expert:
            raise DeskError(cards.SOMEBODY_ELSES)
        if latest != id_:
            raise DeskError(cards.WRITTEN_AGAIN)
        plain, kept = json.loads(understood), _Told.from_text(told)
        if kept.lacks:
            raise DeskError(kept.lacks)
        return _Proposed(
            id_, case, f"expert {number}", person, Understood(**{**plain, "unclear": tuple(plain["unclear"])}),
            kept, finding,
        )  # fmt: skip


_PROPOSED = (
    "SELECT one.case_, one.expert, people.key, one.understood, one.told, one.finding, "
    "(SELECT max(id) FROM desk_proposals AS other WHERE other.case_ = one.case_ AND other.person = one.person) "
    "FROM desk_proposals AS one JOIN people ON people.id = one.person WHERE one.id = ?"
)
_OTHERS_WAITING = (
    "SELECT case_, desk_numbers.id, makers FROM desk_numbers JOIN desk_cases ON desk_cases.id = case_ "
    "WHERE digits = ? AND prefix = ? AND suffix = ? AND finding = '' "
    f"AND state IN ({', '.join(repr(state) for state in UNSETTLED)})"
)


def _finding(key: str, said: Understood, typed: Number, author: str, case: Case, now: datetime) -> Finding:
    """Return the finding that an expert's words come to: the number as they say it is stamped, else as it was typed.

    A number that nobody could read whole is none.
    """
    stamped = (said.prefix, said.digits, said.suffix) if said.digits else (typed.prefix, typed.digits, typed.suffix)
    if "?" in stamped[1]:
        stamped = ("", "", "")
    return Finding(
        key, *stamped, said.maker, said.model, said.works, said.date, said.evidence, said.evidence_kind or OPINION,
        said.note, author, now, case.id,
    )  # fmt: skip


def _completed(understood: Understood, case: Case, knowledge: Knowledge) -> Understood:
    """Return what was understood with the maker that follows: from the model, or the one that the asker named."""
    if understood.kind != SETTLES or understood.maker:
        return understood
    model = knowledge.models.get(understood.model)
    works = knowledge.works.get(understood.works)
    named = case.makers[0] if len(case.makers) == 1 else ""
    maker = model.maker if model else works.maker if works else named
    return replace(understood, maker=maker)


def _number_meant(case: Case, understood: Understood, text: str) -> Number | None:
    """Return the number of the case that an answer is about; None when that cannot be told."""
    if len(case.numbers) <= 1:
        return case.numbers[0] if case.numbers else _NO_NUMBER
    by_serial = {one.serial: one for one in case.numbers}
    written = "".join(sign for sign in text.upper() if sign.isalnum())
    named = [serial for serial in by_serial if serial in written]
    if len(named) == 1:
        return by_serial[named[0]]
    if understood.digits:
        near = get_close_matches(understood.serial, by_serial, n=1)
        return by_serial[near[0]] if near else None
    left = [one for one in case.numbers if not one.finding]
    return left[0] if len(left) == 1 else None


def _what_lacks(understood: Understood, case: Case, number: Number | None) -> str:
    """Return why nothing can be carried out, '' when it can."""
    if understood.kind == NO_ANSWER or (understood.kind == ASK_BACK and not understood.question):
        return cards.NOTHING_TO_STORE
    if understood.kind == SETTLES and number is None:
        return cards.which_number(case)
    says = understood.maker or understood.model or understood.works or understood.date or understood.note
    if understood.kind == SETTLES and not says:
        return cards.NUMBER_ALONE if understood.digits else cards.NOTHING_TO_STORE
    return ""
