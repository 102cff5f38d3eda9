"""What the clauses of one answer state about the asker's machine, before it is put together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from knowledge.base import Knowledge
from knowledge.candidates import Candidate
from knowledge.expert_answers import acts, evidence
from knowledge.expert_answers.act_words import CONFIRMS, IT_IS, RHETORICAL, SO
from knowledge.expert_answers.acts import Act
from knowledge.expert_answers.agreeing import is_place_only, points_to
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.dates import DATE, SALE, dates_in
from knowledge.expert_answers.evidence import Piece, belongs_to_evidence
from knowledge.expert_answers.names import names_in
from knowledge.expert_answers.nouns import About
from knowledge.expert_answers.numbers import SERIAL, is_given, serials_in
from knowledge.expert_answers.stated import MAKER, MODEL, WORKS, Stated
from knowledge.expert_answers.unheard import unknown_names
from knowledge.expert_answers.vocabulary import DENIES, WOULD_BE
from knowledge.findings import FEATURE, OPINION
from knowledge.tokens import find
from knowledge.tokens.nouns import Found, SerialToken

_NOT_STATED = {
    acts.IF: "said under a condition",
    acts.HISTORY: "not said of this one machine",
}
"""Why a fact in a clause is not taken for one of this machine, where that should be shown."""


_LEAD = 24
"""Signs at the beginning of a clause, in which 'it's' stands."""


@dataclass(slots=True)
class Heard:
    """What was collected on the way through an answer. `asked` is what stands before a question mark.

    `guesses` are the sentences that ask 'a Model 9?'; `is_a_strangers`: the machine is said to be none of ours.
    """

    stated: list[Stated] = field(default_factory=list)
    tokens: dict[str, SerialToken] = field(default_factory=dict)
    pieces: list[Piece] = field(default_factory=list)
    agreed: list[Candidate] = field(default_factory=list)
    unclear: list[str] = field(default_factory=list)
    asked: list[tuple[Clause, list[Stated]]] = field(default_factory=list)
    guesses: set[int] = field(default_factory=set)
    is_a_strangers: bool = False

    def of(self, kind: str) -> list[Stated]:
        """Return what was stated of one kind."""
        return [one for one in self.stated if one.kind == kind]


def heard_in(told: Sequence[Act], own: str, knowledge: Knowledge, about: About) -> Heard:
    """Return what the clauses of an answer state, and what they go by; `own` is the text they stand in."""
    found = find(own, knowledge.names)
    heard = Heard()
    others: list[Stated] = []
    for place, act in enumerate(told):
        said = list(_said_in(told, place, knowledge, found, heard))
        if acts.speaks_to(told, place) and all(one.kind == MODEL for one in said):
            continue  # 'No idea, Stine'
        does = _does(act, said, others)
        if does == acts.THEIRS:
            others = others if act.lasting else said
        heard.is_a_strangers |= does in (acts.NOT_OURS, acts.REFERRED)
        _take_in(does, act.clause, said, about, heard)
        if does == acts.TELLS:
            if evidence.speaks_against(act.clause):
                heard.unclear.append(f"'{shown(act.clause)}': nothing to go by")
            heard.unclear += [f"'{name}': nothing of that name is known" for name in unknown_names(act.clause, said)]
        if does == acts.OTHERS:
            _compare(act.clause, any(SO.begins(later.clause.words) for later in told[place + 1 :]), heard)
    heard.unclear += [f"'{shown(clause)}': asked, not said" for clause, _ in heard.asked]
    return heard


def _does(act: Act, said: Sequence[Stated], others: Sequence[Stated]) -> str:
    """Return what a clause does, by what it says too; `others` is what somebody else is told to have said."""
    if act.does == acts.TELLS and any(one.as_such for one in said):
        return acts.HISTORY
    named = [one for one in said if one.kind in (MAKER, MODEL) and not one.denied and not one.weak]
    if act.does == acts.NOT_OURS and named:
        return acts.TELLS  # 'a Model 9 with the lid of another firm'
    if act.does == acts.REFERRED and said:
        return acts.TELLS  # 'it belongs to the batch of March 1912'
    puts_right = act.does == acts.THEIRS and act.lasting and _puts_right(act.clause, said, others)
    return acts.TELLS if puts_right else act.does


def _take_in(does: str, clause: Clause, said: list[Stated], about: About, heard: Heard) -> None:
    if does == acts.TELLS:
        if CONFIRMS.search(clause.words) and not DENIES.search(clause.words):
            _mean_it(clause, about, heard)
        _tell(clause, said, about, heard)
    elif does == acts.HISTORY and (piece := evidence.piece_in(clause, ())):
        heard.pieces.append(piece)
    elif does == acts.QUESTION and RHETORICAL.begins(clause.words):
        _tell(clause, [replace(one, denied=False) for one in said], about, heard)
    elif does == acts.QUESTION and said:
        heard.asked.append((clause, said))
        if any(one.kind != SERIAL for one in said):
            heard.guesses.add(clause.sentence)
    elif does in _NOT_STATED and said:
        heard.unclear.append(f"'{shown(clause)}': {_NOT_STATED[does]}")


def _puts_right(clause: Clause, said: Sequence[Stated], others: Sequence[Stated]) -> bool:
    """Tell whether a clause says something else than what somebody else is told to have said just before it."""
    differs = any(one.kind == other.kind and one.values != other.values for one in said for other in others)
    return differs and IT_IS.search(clause.words[:_LEAD]) is not None


def _compare(clause: Clause, something_follows: bool, heard: Heard) -> None:
    """Keep what is known of another machine: 'Mine has a receipt', 'I have the same with a round foot. So 1926.'"""
    piece = evidence.piece_in(clause, ())
    if piece is not None and (something_follows or piece.kind != FEATURE):
        heard.pieces.append(replace(piece, kind=OPINION))


def _mean_it(clause: Clause, about: About, heard: Heard) -> None:
    """Take in what was guessed just before, where this clause speaks for it: 'Model 9? 1911? That would fit.'"""
    for one in [one for one in heard.asked if clause.sentence - 2 <= one[0].sentence < clause.sentence]:
        heard.asked.remove(one)
        _tell(*one, about, heard)


def _said_in(
    told: Sequence[Act], place: int, knowledge: Knowledge, found: Found, heard: Heard
) -> Iterator[Stated]:
    """Yield everything that one clause names, whatever it does."""
    clause = told[place].clause
    before, after = (_neighbour(told, place, other) for other in (place - 1, place + 1))
    named = names_in(clause, knowledge.names, before)
    yield from named
    for stated, token in serials_in(clause, found):
        if not any(one.kind == MODEL and one.start < stated.end and stated.start < one.end for one in named):
            heard.tokens[token.serial] = token
            yield stated
    yield from dates_in(clause, before, after)


def _neighbour(told: Sequence[Act], place: int, other: int) -> Clause | None:
    """Return another clause of the same sentence."""
    if not 0 <= other < len(told) or told[other].clause.sentence != told[place].clause.sentence:
        return None
    return told[other].clause


def _tell(clause: Clause, said: list[Stated], about: About, heard: Heard) -> None:
    """Take in what a clause tells of the asker's machine: evidence, a dating agreed with, facts."""
    if any(one.kind == SERIAL and WOULD_BE.begins(clause.low, one.end) for one in said):
        return  # 'A110000 would be 1904' is said of another machine
    said = _without_evidence(clause, said, heard)
    said = _without_agreed(clause, said, about, heard)
    for one in said:
        if one.kind != SERIAL or is_given(clause, one, said):
            heard.stated.append(one)
        elif about.serials and one.values[0] not in about.serials:
            heard.unclear.append(f"{one.values[0]} is named: is it the number that is stamped?")


def _without_evidence(clause: Clause, said: list[Stated], heard: Heard) -> list[Stated]:
    """Keep the evidence of a clause; return what it states beside: no names or years of books, no place of sale."""
    said = [one for one in said if not belongs_to_evidence(clause, one)]
    if any(one.kind == SALE for one in said):
        said = [one for one in said if one.kind != WORKS]  # 'sold in Hallowmere'
    last = heard.pieces[-1] if heard.pieces and _is_next_to(clause, heard.pieces[-1]) else None
    piece = evidence.piece_in(clause, said, last)
    if piece is None:
        return said
    heard.pieces.append(piece)
    return [one for one in said if not piece.is_its_own_time(one)]


def _without_agreed(clause: Clause, said: list[Stated], about: About, heard: Heard) -> list[Stated]:
    """Keep the dating that a clause agrees with, and return what it states beside."""
    if any(one.kind in (MODEL, SERIAL) for one in said) and not is_place_only(clause):
        return said
    agreed = points_to(clause, about.candidates)
    if agreed is None:
        return said
    if isinstance(agreed, str):
        heard.unclear.append(f"'{shown(clause)}': which of the datings is meant?")
        return said
    heard.agreed.append(agreed)
    return [one for one in said if one.kind not in (DATE, MODEL)]


def _is_next_to(clause: Clause, piece: Piece) -> bool:
    """Tell whether only signs stand between a piece of evidence and the clause behind it."""
    between = clause.low[piece.end : clause.start]
    return len(between) < 6 and not any(sign.isalnum() or sign == "." for sign in between)


def shown(clause: Clause) -> str:
    """Return a clause in the expert's words, on one line."""
    return " ".join(clause.text[clause.start : clause.end].split())
