"""An expert's words about a case -> what is understood of them, kept on disk to be pressed. Nothing is known yet."""

from __future__ import annotations

import json
import re
import uuid
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from difflib import get_close_matches

from bot.cases import OPEN, Case, Number
from bot.expert_desk.life import LONGEST_WORDS, Life, danger
from bot.expert_desk.nouns import DeskError, Proposal
from bot.journal import Reply
from bot.journal.rows import seconds
from bot.replies import card_reading, cards, outcomes
from bot.replies.understood import found_words, machine_words
from knowledge import personal
from knowledge.answer import answer_found
from knowledge.base import Knowledge
from knowledge.contradictions import contradictions
from knowledge.errors import BedstampError
from knowledge.expert_answers import ASK_BACK, NO_ANSWER, SETTLES, About, Understood, understand
from knowledge.findings import OPINION, Finding, check
from knowledge.mistakes import Seen
from knowledge.seen_mistakes import mistake_of
from knowledge.tokens import find
from knowledge.tokens.nouns import SerialToken

_NO_NUMBER = Number("", "", "")
_YEAR = re.compile(r"(?<![\w.,/-])2[0-9]{3}(?![\w/-])")


@dataclass(frozen=True, slots=True)
class Told:
    """What is kept beside what was understood.

    `number` is the one of the case that is meant, as it was typed; `found` the finding in words; `lacks` why nothing
    can be carried out; `against` what lists and other findings say against it; `caution` what an asker must be warned
    of before they do what the words speak of; `seen` which mistake of reading it shows, None for nothing.
    """

    number: Number
    found: str
    lacks: str
    against: tuple[str, ...]
    caution: str
    seen: Seen | None

    def as_text(self) -> str:
        """Return it as it is kept."""
        return json.dumps(asdict(self))

    @classmethod
    def from_text(cls, text: str) -> Told:
        """Return what `as_text` told."""
        plain = json.loads(text)
        seen = Seen(**plain["seen"]) if plain["seen"] else None
        return cls(**{**plain, "number": Number(**plain["number"]), "against": tuple(plain["against"]), "seen": seen})


@dataclass(frozen=True, slots=True)
class Proposed:
    """A proposal as it lies in the file."""

    id: int
    case: int
    expert: str
    person: str
    understood: Understood
    told: Told
    finding: str

    @property
    def number(self) -> Number:
        """The number that is meant, as it was typed."""
        return self.told.number

    @property
    def found(self) -> str:
        """The finding in words."""
        return self.told.found


class Proposing(Life):
    """The part of the desk that reads what experts write, and keeps what it understood."""

    def propose(
        self, id_: int, expert: str, text: str, knowledge: Knowledge, now: datetime, *, takes: bool = True
    ) -> Proposal:
        """Understand what an expert writes about a case, and keep it to be pressed.

        An open case is theirs from now, and that is said; not so without `takes`, for who says yes at once or never.
        Writing again takes the place of what was proposed before. Raises DeskError when there is no such case.
        """
        with self._writing():
            case, who = self.case(id_), self.expert(expert)
            about = self._about(case, knowledge)
            understood = understand(text[:LONGEST_WORDS], knowledge, about)
            number = _number_meant(case, understood, text)
            understood = _completed(understood, self._makers_of(case, number or _NO_NUMBER), knowledge)
            lacks = _what_lacks(understood, case, number)
            told = self._told(case, understood, number or _NO_NUMBER, lacks, knowledge, now)
            lacks = told.lacks
            new = self._keep_proposal(id_, expert, text, understood, told, now)
            shown = cards.proposal(understood, case, told.number.serial, told.found, lacks, told.against)
            advice = () if lacks else _of_people(understood, knowledge)
            beside = () if lacks else self._known_beside(case, understood, told.number, knowledge, now)
            amends = self._stored_for(case, told.number) is not None
            is_free = case.state == OPEN or (case.is_unsettled and case.expert == who)
            replies = self._taken_by_writing(case, expert, now) if takes and is_free and not lacks else ()
            news = (cards.taken(self.case(id_)),) if replies else ()
            whole = "\n".join((shown, *advice, *_still_to_come(text, understood, now), *beside, *news))
            return Proposal(new, id_, who, text, understood, whole, not lacks, amends, replies)

    def _known_beside(
        self, case: Case, understood: Understood, number: Number, knowledge: Knowledge, now: datetime
    ) -> tuple[str, ...]:
        """Return what is stored already: of this case, whose place it would take, and of another machine's number."""
        if understood.kind != SETTLES:
            return ()
        stored = self._stored_for(case, number)
        kind = understood.evidence_kind or OPINION
        replaced = (cards.would_replace(stored, machine_words(stored, knowledge), kind),) if stored else ()
        new = finding_of("", understood, number, "expert 0", case, now)
        others = [
            one for one in knowledge.findings.by_serial.get(new.serial, ())
            if one.maker and new.maker and one.maker != new.maker and (stored is None or one.key != stored.key)
        ]  # fmt: skip
        return (*replaced, *(cards.same_number(one, machine_words(one, knowledge)) for one in others))

    def _about(self, case: Case, knowledge: Knowledge) -> About:
        """Return the question for whoever reads the expert's words: what was asked, and the datings on the card."""
        state = case.asked
        text = state.text or " ".join(case.serials)
        found = answer_found(text, find(text, knowledge.names), state.said, knowledge)
        return About(case.text, case.serials, state.said, card_reading.shown_on_card(found))

    def _taken_by_writing(self, case: Case, expert: str, now: datetime) -> tuple[Reply, ...]:
        was_open = case.state == OPEN
        self._take(case, expert, now)
        return self._changed_card(case.id) if was_open else ()

    def _told(
        self, case: Case, understood: Understood, number: Number, lacks: str, knowledge: Knowledge, now: datetime
    ) -> Told:
        against, seen = tuple[str, ...](), None
        if understood.kind == SETTLES and not lacks:
            stored = self._stored_for(case, number)
            key = stored.key if stored else uuid.uuid4().hex
            finding = finding_of(key, understood, number, "expert 0", case, now)
            lacks = _why_not(finding)
            against = contradictions(finding, knowledge)
            seen = _seen(case, number, finding, knowledge)
        caution = danger(f"{understood.question} {understood.evidence} {understood.note}", knowledge)
        return Told(number, found_words(understood, knowledge), lacks, against, caution, seen)

    def _stored_for(self, case: Case, number: Number) -> Finding | None:
        """Return what is stored, and in force, of one number of a case."""
        numbers = case.numbers or self._numberless_row(case.id)
        keys = [each.finding for each in numbers if each.serial == number.serial and each.finding]
        return next((each for each in self._journal.store().findings() if each.key in keys), None)

    def _makers_of(self, case: Case, number: Number) -> tuple[str, ...]:
        """Return the makers that the asker said of a number of a case; those of the case where none were told apart."""
        sql = "SELECT makers FROM desk_numbers WHERE case_ = ? AND prefix = ? AND digits = ? AND suffix = ?"
        found = self._one(sql, (case.id, number.prefix, number.digits, number.suffix))
        return tuple(json.loads(found[0])) if found and found[0] else case.makers

    def _numberless_row(self, id_: int) -> tuple[Number, ...]:
        rows = self._all("SELECT prefix, digits, suffix, finding FROM desk_numbers WHERE case_ = ?", (id_,))
        return tuple(Number(*row) for row in rows)

    def _keep_proposal(
        self, id_: int, expert: str, text: str, understood: Understood, told: Told, now: datetime
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

    def _proposed(self, id_: int, expert: str) -> Proposed:
        """Return a proposal that this expert may press. Raises DeskError."""
        found = self._one(_PROPOSED, (id_,))
        if found is None:
            raise DeskError("I do not have that any more. Please write again what you know about the machine.")
        case, number, person, understood, told, finding, latest = found
        if person != expert:
            raise DeskError(cards.SOMEBODY_ELSES)
        if latest != id_:
            raise DeskError(cards.WRITTEN_AGAIN)
        plain, kept = json.loads(understood), Told.from_text(told)
        if kept.lacks:
            raise DeskError(kept.lacks)
        return Proposed(
            id_, case, f"expert {number}", person, Understood(**{**plain, "unclear": tuple(plain["unclear"])}),
            kept, finding,
        )  # fmt: skip


_PROPOSED = (
    "SELECT one.case_, one.expert, people.key, one.understood, one.told, one.finding, "
    "(SELECT max(id) FROM desk_proposals AS other WHERE other.case_ = one.case_ AND other.person = one.person) "
    "FROM desk_proposals AS one JOIN people ON people.id = one.person WHERE one.id = ?"
)


def finding_of(key: str, said: Understood, typed: Number, author: str, case: Case, now: datetime) -> Finding:
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


def _why_not(finding: Finding) -> str:
    """Return why a finding could not be kept, '' when it can."""
    try:
        check(finding)
    except BedstampError as fault:
        return str(fault)
    return ""


def _seen(case: Case, typed: Number, finding: Finding, knowledge: Knowledge) -> Seen | None:
    """Return which mistake of reading a finding shows. An expert who says nothing of the number says it was right."""
    if not typed.digits or not finding.digits:
        return None
    tokens = find(case.asked.text, knowledge.names).tokens
    alone = SerialToken(typed.serial, 0, len(typed.serial), typed.prefix, typed.digits, typed.suffix, introduced=True)
    token = next((one for one in tokens if one.serial == typed.serial), alone)
    return mistake_of(token, finding.serial, knowledge, case.asked.said, finding.maker)


def _completed(understood: Understood, makers: tuple[str, ...], knowledge: Knowledge) -> Understood:
    """Return what was understood with the maker that follows: from the model, or the one that the asker named."""
    if understood.kind != SETTLES or understood.maker:
        return understood
    model = knowledge.models.get(understood.model)
    works = knowledge.works.get(understood.works)
    named = makers[0] if len(makers) == 1 else ""
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


def _still_to_come(text: str, understood: Understood, now: datetime) -> tuple[str, ...]:
    """Return that years ahead of now were not taken for the date of a machine."""
    if understood.date or understood.kind == ASK_BACK:
        return ()
    elsewhere = f"{understood.serial} {understood.evidence}"
    years = dict.fromkeys(_YEAR.findall(text))
    return tuple(outcomes.to_come(one) for one in years if int(one) > now.year and one not in elsewhere)


def _of_people(understood: Understood, knowledge: Knowledge) -> tuple[str, ...]:
    """Return the advice to leave out names and addresses, where what would be told seems to have some."""
    told = (understood.evidence, understood.note) if understood.kind == SETTLES else ()
    return tuple(filter(None, (personal.warning(told, knowledge),)))


def _what_lacks(understood: Understood, case: Case, number: Number | None) -> str:
    """Return why nothing can be carried out, '' when it can."""
    if understood.kind == NO_ANSWER or (understood.kind == ASK_BACK and not understood.question):
        return cards.UNCLEAR if understood.unclear else cards.NOTHING_TO_STORE
    if understood.kind == SETTLES and number is None:
        return cards.which_number(case)
    says = understood.maker or understood.model or understood.works or understood.date or understood.note
    if understood.kind == SETTLES and not says:
        return cards.NUMBER_ALONE if understood.digits else cards.NOTHING_TO_STORE
    return ""
