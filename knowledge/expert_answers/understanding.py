"""The whole of one answer: its clauses, what each states, and what they come to together."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import replace
from string import ascii_uppercase

from knowledge.base import Knowledge
from knowledge.expert_answers import acts, evidence
from knowledge.expert_answers.acts import Act
from knowledge.expert_answers.clauses import clauses
from knowledge.expert_answers.collecting import Heard, heard_in, shown
from knowledge.expert_answers.dates import DATE, SALE
from knowledge.expert_answers.described import as_token, described, says_leading_zero
from knowledge.expert_answers.letter import own_words
from knowledge.expert_answers.nouns import ASK_BACK, NO_ANSWER, NOT_OURS, SETTLES, About, Understood
from knowledge.expert_answers.numbers import SERIAL
from knowledge.expert_answers.plain import plain
from knowledge.expert_answers.resolving import one_of, one_time, standing
from knowledge.expert_answers.stated import MAKER, MODEL, WORKS, Stated
from knowledge.findings import DATED_DOCUMENT, OPINION

_NOTHING = About()
_SHORTEST = 5
"""Digits. A shorter number counts only where words call it one, or a time or model is told of it."""
_LONGEST = 10_000
_LONGEST_MAIL = 200_000
"""Signs of the expert's own, and with all that is quoted. Nobody answers a question at more length."""


def understand(text: str, knowledge: Knowledge, asked: About | None = None) -> Understood:
    """Return what an expert's answer is understood to say. `asked` is the question it is to.

    Never raises on any text. Of a text longer than `_LONGEST` signs, only the beginning is read.
    """
    about = asked or _NOTHING
    whole = own_words(unicodedata.normalize("NFC", text[:_LONGEST_MAIL]), about.text).strip()
    own = whole[:_LONGEST]
    told = acts.acts(clauses(own))
    heard = heard_in(told, own, knowledge, about)
    _hear_described(told, heard, about)
    if len(whole) > _LONGEST or len(text) > _LONGEST_MAIL:
        heard.unclear.append(f"what stands behind the first {_LONGEST:,} signs was not read")
    understood = _facts(heard, own, knowledge, about)
    return _of_kind(understood, told, heard, own, _every_maker_is_denied(heard, plain(own), knowledge))


def _hear_described(told: Sequence[Act], heard: Heard, about: About) -> None:
    """Take in the number that is told of and not written; where it is not sure which, its description is unclear."""
    telling = [act.clause for act in told if act.does == acts.TELLS]
    said = [clause for clause in telling if says_leading_zero(clause)]
    if not said or heard.of(SERIAL):
        return
    reading = described(telling, about)
    if reading is None:
        heard.unclear += [f"'{shown(clause)}': please write the whole number" for clause in said]
        return
    heard.tokens[reading.serial] = as_token(reading, said[0])
    heard.stated.append(Stated(SERIAL, (reading.serial,), said[0].start, said[0].end))


def _every_maker_is_denied(heard: Heard, low: str, knowledge: Knowledge) -> bool:
    """Tell whether the machine is said to be of none of the makers that are known."""
    left = {value for one in standing(heard.of(MAKER), low) for value in one.values}
    named = {value for one in heard.of(MAKER) for value in one.values}
    theirs = {register.maker for register in knowledge.registers.values() if register.is_of_serials}
    return not left and len(named) > 1 and theirs <= named


def _facts(heard: Heard, own: str, knowledge: Knowledge, about: About) -> Understood:
    """Return the facts that stand at the end, and the evidence; `kind` is still to be found."""
    low = plain(own)
    maker = _one(MAKER, heard, low, lambda _: True)
    makers = {maker} if maker else set(about.said.makers) | {one.maker for one in about.candidates}
    model = _one(MODEL, heard, low, lambda id_: knowledge.models[id_].maker in makers)
    works = _one(WORKS, heard, low, lambda id_: knowledge.works[id_].maker in makers)
    serial = heard.tokens.get(_serial(heard, low, about))
    date = _date(heard, low)
    if _tells_of_two(heard, low):
        heard.unclear.append("that may be said of two machines: one machine at a time, please")
    facts = Understood(NO_ANSWER, maker=maker, model=model, works=works, date=date)
    if serial is not None and (date or model or serial.introduced or serial.digit_count >= _SHORTEST):
        facts = replace(facts, prefix=serial.prefix, digits=serial.digits, suffix=serial.suffix)
    return _agreed(facts, heard)


def _tells_of_two(heard: Heard, low: str) -> bool:
    """Tell whether two models or two numbers stand, each with a time of its own: 'a 9 of 1911 and a 6 of 1889'."""
    models, serials, times = (
        {one.values for one in standing(heard.of(kind), low)} for kind in (MODEL, SERIAL, DATE)
    )
    return max(len(models), len(serials)) > 1 and len(times) > 1


def _one(kind: str, heard: Heard, low: str, fits: Callable[[str], bool]) -> str:
    still = standing(heard.of(kind), low)
    unknown = [one for one in still if not one.values]
    values = one_of(still, fits) if not unknown else ()
    if unknown:
        named = low[unknown[0].start : unknown[0].end]
        heard.unclear.append(f"'{named}': nothing of that name is known")
    elif len(values) > 1:
        heard.unclear.append(f"{_named(kind)} could be {' or '.join(values)}")
    return values[0] if len(values) == 1 else ""


def _named(kind: str) -> str:
    return f"the {kind.removesuffix('s') if kind != WORKS else kind}"


def _serial(heard: Heard, low: str, about: About) -> str:
    still = standing(heard.of(SERIAL), low)
    values = list(dict.fromkeys(one.values[0] for one in still))
    if len(values) > 1:
        values = [value for value in values if value not in about.serials] or values
        values = [value for value in values if not any(_is_part_of(value, other) for other in values)]
    if len(values) > 1:
        heard.unclear.append(f"the number could be {' or '.join(values)}")
    return values[0] if len(values) == 1 else ""


def _is_part_of(number: str, other: str) -> bool:
    """Tell whether another number is this one with a letter more: 204117 and K204117."""
    return number != other and other.strip(ascii_uppercase) == number


def _date(heard: Heard, low: str) -> str:
    still = standing(heard.of(DATE), low)
    told = still or [one for piece in heard.pieces for one in piece.dated]
    if not told and evidence.kind_of(heard.pieces) == DATED_DOCUMENT:
        told = [replace(one, kind=DATE) for one in heard.of(SALE)]  # 'guarantee card: sold 6 June 1962'
    date = one_time(told, low)
    if told and not date:
        heard.unclear.append("several times are named: " + ", ".join(dict.fromkeys(one.values[0] for one in told)))
    if not told and (sales := heard.of(SALE)):
        heard.unclear.append(f"{sales[0].values[0]} is when it was sold or worked on; when was it made?")
    return date


def _agreed(facts: Understood, heard: Heard) -> Understood:
    """Fill in what the dating says that the expert agrees with; what the expert says counts more."""
    if not heard.agreed:
        return facts
    if len({(one.serial, one.date, one.model) for one in heard.agreed}) > 1:
        heard.unclear.append("more than one of the datings is agreed with")
        return facts
    one = heard.agreed[0]
    reading = one.reading
    if not facts.serial:
        facts = replace(facts, prefix=reading.prefix, digits=reading.digits, suffix=reading.suffix)
    return replace(
        facts, maker=facts.maker or one.maker, model=facts.model or one.model, works=facts.works or one.works,
        date=facts.date or one.date,
    )  # fmt: skip


def _of_kind(facts: Understood, told: Sequence[Act], heard: Heard, own: str, all_denied: bool) -> Understood:
    asked = acts.for_the_asker(told, heard.guesses)
    if not asked and not facts.tells:
        asked = acts.straight_questions(told, heard.guesses)
    if (heard.is_a_strangers and not facts.model) or (all_denied and not facts.tells):
        facts, kind = Understood(NOT_OURS), NOT_OURS
    elif asked:
        kind = ASK_BACK
    else:
        kind = SETTLES if facts.tells else NO_ANSWER
    if kind == NO_ANSWER and not heard.unclear:
        heard.unclear += [f"'{shown(clause)}': nothing could be read out of this" for clause in acts.of_records(told)]
    question = acts.question_of(told, asked) if kind == ASK_BACK else ""
    goes_by = evidence.told(own, heard.pieces, heard.stated) if kind == SETTLES else ""
    strongest = (evidence.kind_of(heard.pieces) or OPINION) if kind == SETTLES else ""
    return replace(
        facts, kind=kind, evidence=goes_by, evidence_kind=strongest, question=question,
        unclear=tuple(dict.fromkeys(heard.unclear)),
    )  # fmt: skip
