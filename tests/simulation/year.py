"""One year of a group: 3,000 questions over the demo pack, of which the program does not know a fifth of the blocks.

    owner types -> conversation -> answered at once, or a case -> an expert writes -> shown, pressed, stored -> known

Everything goes through the conversation, the desk and the knowledge base file, as in a running bot. Machines are asked
about again by others, as popular ones are; who knows what is drawn as people.py says.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.cases import Asker, Case
from bot.conversation import Incoming, reply
from bot.expert_desk import Desk, desk_for
from bot.expert_desk.hard import cannot_say
from bot.journal import Journal, open_journal
from bot.running.packs import Shelf
from bot.state import State
from knowledge import edtf
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.packs import load
from knowledge.packs.tables import Pack, Table
from knowledge.registers import BlockRow
from knowledge.shipped import folders
from tests.knowledge.calibration import Habits, demo
from tests.simulation import people
from tests.simulation.people import Machine

HIDDEN = 0.2
AGAIN = 0.35
"""Assumed: the share of questions about a machine that somebody asked about before."""
_ROUNDS = 3
_EXPERTS = ("chat:eva", "chat:finn", "chat:gro")
_BEGIN = datetime(2031, 1, 1, 8, 0, tzinfo=UTC)


@dataclass(slots=True)
class Month:
    """What happened to the questions of a month. `wide` adds up the years of the spans of right answers at once."""

    asked: int = 0
    at_once: int = 0
    right: int = 0
    inferred: int = 0
    wide: float = 0.0
    new_cases: int = 0
    joined: int = 0
    settled: int = 0
    settled_rightly: int = 0
    asked_again: int = 0
    known_by_finding: int = 0

    @property
    def needed(self) -> int:
        """Questions that needed an expert."""
        return self.new_cases + self.joined


@dataclass(slots=True)
class Year:
    """The group. `run` lets a year pass; `shown_wrongly` counts what was misunderstood and corrected before a press."""

    journal: Journal
    rows: list[BlockRow]
    truth: Knowledge
    rng: random.Random
    months: list[Month] = field(default_factory=lambda: [Month() for _ in range(12)])
    shown_wrongly: int = 0
    settled: set[str] = field(default_factory=set)
    repeated: list[str] = field(default_factory=list)
    _asked: list[Machine] = field(default_factory=list)
    _machines: dict[int, Machine] = field(default_factory=dict)
    _shelf: Shelf = field(default_factory=Shelf)

    def run(self, questions: int) -> None:
        """Let so many questions be asked, evenly over the year."""
        desk = Desk(self.journal, [])
        for number in range(questions):
            now = _BEGIN + timedelta(days=365 * number / questions)
            month = self.months[12 * number // questions]
            self._experts_work(desk, month, now)
            self._ask(desk, month, number, now)

    def _ask(self, desk: Desk, month: Month, number: int, now: datetime) -> None:
        one = self._machine()
        knowledge = self._shelf.current(self.journal)
        text, is_as_stamped = people.question(self.rng, one, self.truth, Habits())
        person = f"chat:asker{number}"
        state, answer, unable = self._talk(one, text, knowledge)
        month.asked += 1
        asker = Asker("chat", person, "{}")
        opening = desk_for(answer, state, asker, knowledge, text=text, unable=unable)
        if opening is None:
            self._answered_at_once(month, one, answer)
            return
        if one.serial in self.settled and is_as_stamped:
            month.asked_again += 1
            self.repeated.append(text)
        opened = desk.open(opening, knowledge, now)
        month.new_cases += opened.is_new
        month.joined += not opened.is_new
        self._machines.setdefault(opened.case.id, one)

    def _machine(self) -> Machine:
        """Return a machine asked about before, the popular ones more often, or a new one."""
        again = bool(self._asked) and self.rng.random() < AGAIN
        one = self.rng.choice(self._asked) if again else people.machine(self.rng, self.rows, self.truth)
        self._asked.append(one)
        return one

    def _talk(self, one: Machine, text: str, knowledge: Knowledge) -> tuple[State, Answer | None, bool]:
        """Let an owner ask, and answer what is asked back. Return the state, the answer, and whether they could not."""
        state, said = reply(Incoming(text), State(), knowledge)
        answer = next((each.answer for each in said if each.answer is not None), None)
        for _ in range(_ROUNDS):
            if state.asked is None:
                break
            words = people.answer_to(self.rng, one, state.asked.choices, state.asked.about, self.truth)
            before = state
            state, said = reply(Incoming(words), before, knowledge)
            if cannot_say(before, said):
                return before, answer, True
            answer = next((each.answer for each in said if each.answer is not None), answer)
        return state, answer, False

    def _answered_at_once(self, month: Month, one: Machine, answer: Answer | None) -> None:
        month.at_once += 1
        best = answer.candidates[0] if answer is not None and answer.candidates else None
        if best is None:
            return
        true = edtf.parse(one.block.date)
        is_right = best.maker == one.maker and best.span.earliest <= true.latest and true.earliest <= best.span.latest
        month.right += is_right
        month.inferred += best.kind == "inferred"
        month.known_by_finding += best.kind == "finding"
        if is_right:
            month.wide += (best.span.latest - best.span.earliest).days / 365.25

    def _experts_work(self, desk: Desk, month: Month, now: datetime) -> None:
        """Let experts look at what waits for a day or longer."""
        desk.due(now)
        for case in desk.cases("open", limit=50):
            if now - case.opened >= timedelta(days=1) and case.id in self._machines:
                self._settle(desk, month, case, now)

    def _settle(self, desk: Desk, month: Month, case: Case, now: datetime) -> None:
        one, expert = self._machines[case.id], self.rng.choice(_EXPERTS)
        words = people.settling(self.rng, one, self.truth)
        if words is None:
            desk.close(case.id, expert, now)
            return
        knowledge = self._shelf.current(self.journal)
        proposal = desk.propose(case.id, expert, words, knowledge, now)
        understood = proposal.understood
        if not proposal.can_settle or understood.date != one.block.date or understood.serial not in ("", one.serial):
            self.shown_wrongly += 1
            plainly = f"The number stamped on it is {one.serial}. Made {people.when(one)}."
            proposal = desk.propose(case.id, expert, plainly, knowledge, now)
        if not proposal.can_settle:  # twice not understood, and nothing is stored
            desk.close(case.id, expert, now)
            return
        done = desk.settle(proposal.id, expert, now)
        assert done.finding is not None, done.text
        month.settled += 1
        month.settled_rightly += done.finding.serial == one.serial and done.finding.date == one.block.date
        self.settled.add(one.serial)

    def lines(self) -> Iterator[str]:
        """Yield the table of the year, a line for each month and one for all."""
        yield (
            "month  asked  at once    %  right    %  by finding  inferred  years wide  expert    %  (new  joined)  "
            "settled  rightly  settled before, asked again"
        )
        for place, month in enumerate(self.months, 1):
            yield _line(f"{place:5}", month)
        yield _line("  all", _sum(self.months))
        yield f"experts' words understood otherwise than meant, shown, and written again: {self.shown_wrongly}"


def _line(name: str, month: Month) -> str:
    width = month.wide / month.right if month.right else 0.0
    return (
        f"{name}  {month.asked:5}  {month.at_once:7}  {_share(month.at_once, month.asked)}  {month.right:5}  "
        f"{_share(month.right, month.at_once)}  {month.known_by_finding:10}  {month.inferred:8}  {width:10.1f}  "
        f"{month.needed:6}  {_share(month.needed, month.asked)}  {month.new_cases:4}  {month.joined:7}  "
        f"{month.settled:7}  {month.settled_rightly:7}  {month.asked_again:28}"
    )


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole if whole else 0:3.0f}"


def _sum(months: list[Month]) -> Month:
    total = Month()
    for month in months:
        for name in Month.__slots__:
            setattr(total, name, getattr(total, name) + getattr(month, name))
    return total


def pass_a_year(folder: Path, questions: int = 3_000, seed: int = 1) -> Year:
    """Return a group after its year; its knowledge base lies in `folder`."""
    rng = random.Random(seed)
    truth, rows = demo()
    in_blocks = [row for row in rows if truth.registers[row.register].kind == "allocations"]
    with open_journal(folder / "group.sqlite", create=True) as journal:
        journal.store().save_pack(_with_gaps(rng))
        year = Year(journal, in_blocks, truth, rng)
        year.run(questions)
    return year


def _with_gaps(rng: random.Random) -> Pack:
    """Return the demo pack without a fifth of its blocks."""
    shipped = load(next(folder for folder in folders() if folder.name == "demo"))
    blocks = shipped.tables["allocations"]
    kept = [place for place in range(len(blocks)) if rng.random() >= HIDDEN]
    fewer = Table.of("allocations", {name: [cells[place] for place in kept] for name, cells in blocks.columns.items()})
    return Pack.of("demo", *(fewer if name == "allocations" else one for name, one in shipped.tables.items()))
