"""What experts do with a case until it is settled: take it, give it back, ask the asker, close it without an answer.

A step that does not fit the case any more (an old card, a second expert) changes nothing and says what became of it.
"""

from __future__ import annotations

import json
from collections.abc import Collection
from dataclasses import replace
from datetime import datetime

from bot.cases import ASKED_BACK, CLOSED, IN_PERSON, OPEN, TAKEN, UNSETTLED, Asker, Case, Picture
from bot.expert_desk.nouns import DeskError, Done, Opening
from bot.expert_desk.rows import ASKER
from bot.expert_desk.taking_up import TakingUp, answer_of
from bot.expert_desk.times import ASKER_ANSWERS_WITHIN, LEASE
from bot.journal import Reply
from bot.journal.rows import seconds
from bot.replies import card_reading, cards, outcomes
from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.said import Said
from knowledge.tokens import find

LONGEST_WORDS = 4_000  # characters of a question to an asker, or of their answer, that are kept


class Life(TakingUp):
    """The part of the desk that moves a case from one state to the next."""

    def take(self, id_: int, expert: str, now: datetime) -> Done:
        """Let a case belong to an expert for the time of the lease. Taking it again begins the lease anew."""
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            if (refused := self._refused(case, who, now)) is not None:
                return refused
            if case.state == ASKED_BACK:
                return Done(case, False, cards.ASKED_BACK_ALREADY)
            case = self._take(case, expert, now)
            return Done(case, True, cards.taken(case), self._changed_card(id_))

    def give_back(self, id_: int, expert: str, now: datetime) -> Done:
        """Let a case that this expert took be free for the others."""
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            if not case.is_unsettled:
                return Done(case, False, cards.became(self.card(id_)))
            if case.expert != who:
                return Done(case, False, cards.not_yours(case))
            state = OPEN if case.state == TAKEN else case.state
            case = self._change(id_, now, who, "given back", state=state, expert=None, lease=0.0)
            return Done(case, True, cards.GIVEN_BACK, self._changed_card(id_))

    def ask_asker(
        self, id_: int, expert: str, words: str, now: datetime, *, knowledge: Knowledge | None = None
    ) -> Done:
        """Ask whoever asked first, and still waits, something back. The case waits for the answer for some days.

        With `knowledge` the usual cautions go along where the question leads to an open machine or its wires. Raises
        DeskError when there is nothing to ask, or nobody to be asked any more.
        """
        return self._ask(id_, expert, words, danger(words, knowledge) if knowledge else "", now)

    def _ask(self, id_: int, expert: str, words: str, caution: str, now: datetime) -> Done:
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            if (refused := self._refused(case, who, now)) is not None:
                return refused
            words = words.strip()[:LONGEST_WORDS]
            if not words:
                raise DeskError("There is no question in that. Write what the asker is to be asked.")
            asker = self._whom_to_ask(id_)
            self._say(id_, expert, "asked", words, now)
            wait = seconds(now + ASKER_ANSWERS_WITHIN)
            number = int(who.rpartition(" ")[2])
            case = self._change(
                id_, now, who, "asked back", state=ASKED_BACK, expert=number, lease=seconds(now + LEASE), ask_until=wait
            )
            told = self._tell(self.card(id_), asker, "question", cards.question(words, caution))
            said = cards.ASKED_IN_PERSON if asker.channel == IN_PERSON else cards.ASKED
            return Done(case, True, said, (*told, *self._changed_card(id_)))

    def asked_back(self, person: str) -> tuple[Case, ...]:
        """Return the cases that wait for words of this person, the one asked last first."""
        ids = self._all(
            "SELECT one.case_ FROM desk_waiting AS one JOIN desk_cases ON desk_cases.id = one.case_ "
            "WHERE desk_cases.state = 'asked back' AND one.person = (SELECT id FROM people WHERE key = ?)",
            (person,),
        )
        return tuple(sorted(self._cases_by_id([id_ for (id_,) in ids]), key=lambda one: -one.changed.timestamp()))

    def open_case_of(self, person: str, serials: Collection[str] = ()) -> Case | None:
        """Return the unsettled case for which a person waits already: that of these numbers, or of some of them.

        Without numbers it is the one of their cases that was changed last; None when they wait for nothing. What they
        write more about it goes to `asker_said`.
        """
        ids = self._all(
            "SELECT one.case_ FROM desk_waiting AS one JOIN desk_cases ON desk_cases.id = one.case_ "
            f"WHERE desk_cases.state IN ({', '.join('?' * len(UNSETTLED))}) "
            "AND one.person = (SELECT id FROM people WHERE key = ?)",
            (*UNSETTLED, person),
        )
        found = sorted(self._cases_by_id([id_ for (id_,) in ids]), key=lambda one: (one.changed, one.id), reverse=True)
        if not serials:
            return next(iter(found), None)
        wanted = set(serials)
        return next((one for one in found if wanted <= set(one.serials)), None)

    def asker_said(
        self,
        id_: int,
        words: str,
        knowledge: Knowledge,
        now: datetime,
        *,
        person: str = "",
        pictures: tuple[Picture, ...] = (),
    ) -> tuple[Reply, ...]:
        """Keep what an asker says of a case, and show it to the experts. Nothing in their words is ever carried out.

        A case that was asked back goes back to its expert, for a new lease, or to all. `person` is who said it; '' for
        whoever asked first; `pictures` came with it. Somebody who does not wait for the case changes nothing, and so
        do words that stand on the card already.
        """
        with self._writing():
            case = self.case(id_)
            by = next((one for one in self.askers(id_) if person in ("", one.person)), None)
            words = words.strip()[:LONGEST_WORDS]
            is_known = case.state != ASKED_BACK and self._is_said(id_, words)
            if by is None or ((not words or is_known) and not pictures):
                return ()
            self._keep_pictures(by.id, pictures)
            self._say(id_, by.person, "said", words or "(a picture, without words)", now)
            columns: dict[str, object] = {}
            if case.state == ASKED_BACK:
                columns = {"state": TAKEN if case.expert else OPEN, "ask_until": 0.0}
                columns["lease"] = seconds(now + LEASE) if case.expert else 0.0
            self._learn_from(case, words, knowledge)
            self._change(id_, now, ASKER, "said more", **columns)
            return self._changed_card(id_, cards.ASKER_SAID)

    def says_more(self, id_: int, words: str, knowledge: Knowledge, now: datetime) -> bool:
        """Keep what an expert heard from whoever asked first. Return whether it was new, and somebody had asked."""
        with self._writing():
            before = len(self.words(id_))
            self.asker_said(id_, words, knowledge, now)
            return len(self.words(id_)) > before

    def not_ours(self, id_: int, expert: str, now: datetime) -> Done:
        """Close a case because it is none for this group; whoever waits is told so."""
        return self._closed(id_, expert, "not-ours", "not for us", now)

    def close(self, id_: int, expert: str, now: datetime) -> Done:
        """Close a case because nobody can answer it; whoever waits is told so before the stated day."""
        return self._closed(id_, expert, "closed", "closed", now)

    def _closed(self, id_: int, expert: str, kind: str, what: str, now: datetime) -> Done:
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            if (refused := self._refused(case, who, now)) is not None:
                return refused
            case = self._change(id_, now, who, what, state=CLOSED, expert=None, lease=0.0, ask_until=0.0)
            told = self._tell_all(id_, kind, cards.closing(kind, case))
            words = cards.NOT_OURS_NOW if kind == "not-ours" else cards.CLOSED_NOW
            words = f"{words}{outcomes.pass_on(self.in_person(id_))}"
            return Done(case, True, words, (*told, *self._changed_card(id_)))

    def _tell_all(self, id_: int, kind: str, text: str, *, ends: bool = True) -> tuple[Reply, ...]:
        """Tell something to everybody who waits for a case, or waited. `ends` says that they wait no more."""
        askers = self.askers(id_)
        if ends:
            self._execute("UPDATE desk_waiting SET told = ? WHERE case_ = ?", (kind, id_))
        card = self.card(id_)
        return tuple(reply for asker in askers for reply in self._tell(card, asker, kind, text))

    def _take(self, case: Case, expert: str, now: datetime) -> Case:
        number = self._expert(expert)
        state = TAKEN if case.state == OPEN else case.state
        return self._change(
            case.id, now, f"expert {number}", "taken", state=state, expert=number, lease=seconds(now + LEASE)
        )

    def _refused(self, case: Case, who: str, now: datetime) -> Done | None:
        """Return why an expert cannot do anything with a case: it is finished, or another expert has it."""
        if not case.is_unsettled:
            return Done(case, False, cards.became(self.card(case.id)))
        if case.expert not in ("", who) and case.lease is not None and case.lease > now:
            return Done(case, False, cards.is_anothers(case))
        return None

    def _whom_to_ask(self, id_: int) -> Asker:
        waiting = self.askers(id_, only_untold=True) or self.askers(id_)
        if not waiting:
            raise DeskError(f"Nobody who asked case {id_} is known any more, so nobody can be asked.")
        return waiting[0]

    def _learn_from(self, case: Case, words: str, knowledge: Knowledge) -> None:
        """Note the number or maker that an asker tells for a case that had none, with what the lists say then."""
        found = answer(words, knowledge, case.asked.said)
        if not case.makers and found.said.makers:
            self._execute("UPDATE desk_cases SET makers = ? WHERE id = ?", (json.dumps(found.said.makers), case.id))
            if case.numbers and case.asked.text:
                self._set_reading(case.id, self._read_again(case, found.said, knowledge))
        if not case.numbers and found.tokens:
            self._execute("DELETE FROM desk_numbers WHERE case_ = ? AND digits = ''", (case.id,))
            self._add_numbers(case.id, found.tokens)
            self._set_reading(case.id, card_reading.reading(found, knowledge))

    def _read_again(self, case: Case, said: Said, knowledge: Knowledge) -> tuple[str, ...]:
        state = replace(case.asked, said=said)
        tokens = tuple(one for one in find(state.text, knowledge.names).tokens if one.serial in case.serials)
        again = Opening(case.reasons, case.text, state, tokens, Asker("", "", "{}"))
        return card_reading.reading(answer_of(again, knowledge), knowledge)


def danger(words: str, knowledge: Knowledge) -> str:
    """Return the usual cautions for what words speak of (wires, opening a machine, its weight), '' for none."""
    return " ".join(one.text for one in answer(words, knowledge).cautions if one.code == "old-wiring")
