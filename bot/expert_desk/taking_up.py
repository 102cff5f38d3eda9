"""A hard question comes to the desk: it joins the case of the same question, or becomes one. And the list of cases."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import zip_longest

from bot.cases import CLOSED, OPEN, UNSETTLED, Case, Picture, Words
from bot.expert_desk.hard import WEAK
from bot.expert_desk.nouns import Expected, Opened, Opening
from bot.expert_desk.rows import ASKER, DESK_ITSELF, CaseRows, as_number, may_be_one, plain
from bot.expert_desk.times import ASKED_AGAIN_WITHIN, HEARS_WITHIN, MOST_CARDS, NO_END
from bot.journal import Reply
from bot.journal.rows import moment, seconds
from bot.replies import card_reading
from knowledge.answer import Answer, answer, answer_found
from knowledge.base import Knowledge
from knowledge.findings import Finding
from knowledge.tokens import find
from knowledge.tokens.nouns import SerialToken

_NUMBER_COMES_WITHIN = timedelta(hours=6)
"""So long after a question without a number, a number of the same person is taken to belong to it."""


class TakingUp(CaseRows):
    """The part of the desk that takes questions up."""

    def cases(self, *states: str, limit: int = 20, offset: int = 0) -> list[Case]:
        """Return cases in these states (all that are not settled, when none is named).

        Those for which most people wait come first, of these the oldest.
        """
        which = states or UNSETTLED
        marks = ", ".join("?" * len(which))
        where = f"WHERE state IN ({marks}) ORDER BY waiting DESC, opened, id LIMIT ? OFFSET ?"
        return self._cases_where(where, (*which, limit, offset))

    def counts(self) -> dict[str, int]:
        """Return how many cases stand in each state."""
        return dict(self._all("SELECT state, count(*) FROM desk_cases GROUP BY state"))

    def expected(self, opening: Opening, now: datetime) -> Expected:
        """Return what a question will come to, without taking it up: for the words that go with the answer."""
        case = self._same(opening, now)
        if case is None or case.state == CLOSED:
            return Expected(now + HEARS_WITHIN)
        mine = next((one for one in self.askers(case.id) if one.person == opening.asker.person), None)
        if mine is not None and mine.by is not None:
            return Expected(mine.by if mine.by > now else now + HEARS_WITHIN, again=True)
        return Expected(now + HEARS_WITHIN, others=bool(case.waiting))

    def open(self, opening: Opening, knowledge: Knowledge, now: datetime) -> Opened:
        """Take a question up: join the open case of the same question, or make a new one and show it to the experts."""
        with self._writing():
            case = self._same(opening, now)
            if case is None:
                return self._begin(opening, knowledge, now)
            return self._join(case, opening, knowledge, now)

    def open_unasked(self, reasons: Sequence[str], lines: Sequence[str], now: datetime) -> tuple[Reply, ...]:
        """Make a case for whose end nobody waits, and show it to the experts; `lines` say what is known."""
        with self._writing():
            id_ = self._insert_case(reasons, (), lines, now, NO_END)
            self._add_numbers(id_, ())
            self._change(id_, now, DESK_ITSELF, "opened", ", ".join(reasons))
            return self._new_card(id_)

    def got_an_answer(self, person: str, now: datetime) -> tuple[Reply, ...]:
        """Close the latest questions of a person without a number: they gave one since, and the lists know it.

        To be called when somebody was answered and no case came of it. What an expert works at stays, and so does the
        wish for a person.
        """
        with self._writing():
            found = [one for one in self._numberless(person, now) if one.state == OPEN]
            answered = [one for one in found if set(one.reasons) <= set(WEAK)]
            return tuple(reply for case in answered for reply in self._answered(case, now))

    def _answered(self, case: Case, now: datetime) -> tuple[Reply, ...]:
        self._execute("UPDATE desk_waiting SET told = 'answered' WHERE case_ = ?", (case.id,))
        self._change(case.id, now, ASKER, "closed", "a number was told, and the lists know it", state=CLOSED)
        return self._changed_card(case.id)

    def _begin(self, opening: Opening, knowledge: Knowledge, now: datetime) -> Opened:
        lines = _lines(opening, knowledge)
        id_ = self._insert_case(opening.reasons, opening.named, lines, now, HEARS_WITHIN)
        self._add_numbers(id_, opening.serials, opening.makers)
        self._wait(id_, opening, now)
        case = self._change(id_, now, ASKER, "opened", ", ".join(opening.reasons))
        shown = () if self._asks_very_much(opening.asker.person, now) else self._new_card(id_)
        return Opened(case, True, False, now + HEARS_WITHIN, shown)

    def _asks_very_much(self, person: str, now: datetime) -> bool:
        """Tell whether a person brought so many cases in a day that further ones are left for the digest."""
        found = self._one(
            "SELECT count(*) FROM desk_waiting WHERE asked > ? AND person = (SELECT id FROM people WHERE key = ?)",
            (seconds(now - timedelta(days=1)), person),
        )
        return found is not None and int(found[0]) > MOST_CARDS

    def _insert_case(
        self, reasons: Sequence[str], makers: Sequence[str], lines: Sequence[str], now: datetime, within: timedelta
    ) -> int:
        cursor = self._execute(
            "INSERT INTO desk_cases (reasons, makers, reading, opened, until, changed) VALUES (?, ?, ?, ?, ?, ?)",
            (
                " ".join(reasons), json.dumps(makers), json.dumps(lines), seconds(now), seconds(now + within),
                seconds(now),
            ),
        )  # fmt: skip
        return int(cursor.lastrowid or 0)

    def _join(self, case: Case, opening: Opening, knowledge: Knowledge, now: datetime) -> Opened:
        before = {one.person: one for one in self.askers(case.id)}.get(opening.asker.person)
        is_closed = case.state == CLOSED
        if not self._is_said(case.id, opening.text):
            self._say(case.id, opening.asker.person, "said", opening.text, now)
        by = self._wait(case.id, opening, now)
        self._learn(case, opening, knowledge)
        what = "asked again" if before else "one more person asks"
        columns: dict[str, object] = {"until": max(seconds(by), seconds(case.until))}
        if is_closed:
            columns |= {"state": OPEN, "reminded": 0, "news": 1, "opened": seconds(now)}
        case = self._change(case.id, now, ASKER, "opened again" if is_closed else what, "", **columns)
        replies = self._new_card(case.id) if is_closed else self._changed_card(case.id)
        return Opened(case, False, True, by, replies)

    def _wait(self, id_: int, opening: Opening, now: datetime) -> datetime:
        """Note who waits, where they wrote last and what; what they had written first stays, what is new is added.

        Return the day by which they hear: the one they were told, unless that is over.
        """
        asker = opening.asker
        person = self._person(asker.person)
        self._execute(
            "INSERT INTO desk_waiting (case_, person, channel, route, text, state, message, asked, by) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (case_, person) DO UPDATE SET channel = excluded.channel, "
            "route = excluded.route, message = excluded.message, state = excluded.state, "
            "by = CASE told WHEN '' THEN by ELSE excluded.by END, told = ''",
            (
                id_, person, asker.channel, asker.route, opening.text, json.dumps(opening.state.as_json()),
                opening.message, seconds(now), seconds(now + HEARS_WITHIN),
            ),
        )  # fmt: skip
        place, by = self._execute(
            "SELECT id, by FROM desk_waiting WHERE case_ = ? AND person = ?", (id_, person)
        ).fetchone()
        self._keep_pictures(place, opening.pictures)
        return moment(by)

    def _is_said(self, id_: int, text: str) -> bool:
        """Tell whether these words stand on the card of a case already."""
        said = (self.case(id_).text, *(one.text for one in self.words(id_) if one.kind == "said"))
        return plain(text) in ("", *map(plain, said))

    def _keep_pictures(self, waiting: int, pictures: Iterable[Picture]) -> None:
        for one in pictures:
            self._execute(
                "INSERT INTO desk_pictures (waiting, channel, ref, kind, content) VALUES (?, ?, ?, ?, ?) "
                "ON CONFLICT DO NOTHING",
                (waiting, one.channel, one.ref, one.kind, one.content),
            )

    def _learn(self, case: Case, opening: Opening, knowledge: Knowledge) -> None:
        """Add to a case what the new question tells more: its number, where there was none, and the maker."""
        if not case.numbers and opening.serials:
            self._execute("DELETE FROM desk_numbers WHERE case_ = ? AND digits = ''", (case.id,))
            self._add_numbers(case.id, opening.serials, opening.makers)
        tells_more = (opening.serials and not case.numbers) or (opening.named and not case.makers)
        reasons = dict.fromkeys((*(case.reasons if case.numbers or not opening.serials else ()), *opening.reasons))
        if tells_more:
            self._set_reading(case.id, _lines(opening, knowledge))
        elif opening.notice and opening.notice not in case.reading:
            self._set_reading(case.id, (*case.reading, opening.notice))
        makers = case.makers or opening.named
        self._execute(
            "UPDATE desk_cases SET reasons = ?, makers = ? WHERE id = ?",
            (" ".join(reasons), json.dumps(makers), case.id),
        )

    def _set_reading(self, id_: int, lines: tuple[str, ...]) -> None:
        self._execute("UPDATE desk_cases SET reading = ? WHERE id = ?", (json.dumps(lines), id_))

    def _say(self, id_: int, person: str, kind: str, text: str, now: datetime) -> Words:
        self._execute(
            "INSERT INTO desk_words (case_, person, kind, text, at) VALUES (?, ?, ?, ?, ?)",
            (id_, self._person(person), kind, text, seconds(now)),
        )
        return Words(kind, text, now)

    def _add_numbers(
        self, id_: int, serials: Iterable[SerialToken | Finding], makers: Sequence[tuple[str, ...]] = ()
    ) -> None:
        """Note the numbers of a case, with the makers said of each; without `makers` those of the case hold."""
        own = [json.dumps(one) for one in makers]
        rows = {
            (one.prefix, one.digits, one.suffix): said for one, said in zip_longest(serials, own)
        } or {("", "", ""): None}  # fmt: skip
        for (prefix, digits, suffix), said in rows.items():
            self._execute(
                "INSERT INTO desk_numbers (case_, prefix, digits, suffix, number, makers) VALUES (?, ?, ?, ?, ?, ?)",
                (id_, prefix, digits, suffix, as_number(digits), said),
            )

    def _same(self, opening: Opening, now: datetime) -> Case | None:
        """Return the case of the very same question: one that is not settled, or closed not long ago."""
        if not opening.serials:
            return self._same_words(opening, now)
        fitting = [one for one in self._of_numbers(opening.serials) if _is_open_to(one, opening, now)]
        makers = set(opening.named)
        fitting.sort(key=lambda one: (one.state == CLOSED, set(one.makers) != makers, -one.waiting, one.opened, one.id))
        if fitting:
            return fitting[0]
        if len(opening.serials) > 1:
            return None  # a question about one machine without a number is not about these
        return next(
            (one for one in self._numberless(opening.asker.person, now)
             if may_be_one(one.makers, opening.named)), None,
        )  # fmt: skip

    def _same_words(self, opening: Opening, now: datetime) -> Case | None:
        """Return the case without a number of the same person: the same words again, or more in the same talk.

        Two people who name no number ask about two machines, whatever they say.
        """
        found = self._numberless(opening.asker.person, None)
        recent = now - _NUMBER_COMES_WITHIN
        return next(
            (one for one in found if may_be_one(one.makers, opening.named)
             and (one.opened >= recent or plain(one.text) == plain(opening.text))), None,
        )  # fmt: skip

    def _of_numbers(self, serials: tuple[SerialToken, ...]) -> list[Case]:
        """Return the cases about exactly these numbers."""
        first = serials[0]
        ids = self._all(
            "SELECT case_ FROM desk_numbers WHERE digits = ? AND prefix = ? AND suffix = ?",
            (first.digits, first.prefix, first.suffix),
        )
        wanted = {one.serial for one in serials}
        return [one for one in self._cases_by_id([id_ for (id_,) in ids]) if set(one.serials) == wanted]

    def _numberless(self, person: str, now: datetime | None) -> list[Case]:
        """Return the unsettled cases without a number for which a person waits, the latest first.

        With `now` only those of the last hours.
        """
        since = 0.0 if now is None else seconds(now - _NUMBER_COMES_WITHIN)
        ids = self._all(
            "SELECT case_ FROM desk_waiting JOIN desk_cases ON desk_cases.id = case_ "
            "WHERE desk_waiting.person = (SELECT id FROM people WHERE key = ?) AND opened >= ? AND NOT EXISTS "
            "(SELECT 1 FROM desk_numbers WHERE desk_numbers.case_ = desk_cases.id AND digits != '')",
            (person, since),
        )
        found = [one for one in self._cases_by_id([id_ for (id_,) in ids]) if one.is_unsettled]
        return sorted(found, key=lambda one: -one.id)


def _is_open_to(case: Case, opening: Opening, now: datetime) -> bool:
    recent = case.state == CLOSED and now - case.changed <= ASKED_AGAIN_WITHIN
    return (case.is_unsettled or recent) and may_be_one(case.makers, opening.named)


def _lines(opening: Opening, knowledge: Knowledge) -> tuple[str, ...]:
    """Return what a card says of a question beside the asker's own words."""
    notice = (opening.notice,) if opening.notice else ()
    return (*notice, *card_reading.reading(answer_of(opening, knowledge), knowledge))


def answer_of(opening: Opening, knowledge: Knowledge) -> Answer:
    """Return the answer to a question as the knowledge stands, only about the numbers that are for the experts."""
    state = replace(opening.state, said=replace(opening.state.said, makers=opening.named))
    wanted = {one.serial for one in opening.serials}
    if not state.text:
        return answer(opening.text, knowledge, state.said)
    found = find(state.text, knowledge.names)
    if wanted:
        found = replace(found, tokens=tuple(one for one in found.tokens if one.serial in wanted) or found.tokens)
    return answer_found(state.text, found, state.said, knowledge)
