"""Readings times registers: every dating a number can have, with the likelihood of each.

    weight of a candidate = P(typed | stamped)  x  machines the reading could be  x  fit to what the asker says
    likelihood            = weight / (sum of all weights of the token + weight of 'none of these')

Each number in a block is one machine. All factors stand in `knowledge/weights.py`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from knowledge import edtf
from knowledge.agreeing import agrees, of_one_maker
from knowledge.base import Knowledge
from knowledge.between import Follows
from knowledge.code_readings import code_readings, readings_among
from knowledge.doubts import speaks_against
from knowledge.edtf import DateSpan
from knowledge.findings import Finding
from knowledge.fitting import fit
from knowledge.readings import Reading, readings
from knowledge.registers import Block, Blocks, Register
from knowledge.registers.date_codes import CodeDating
from knowledge.registers.year_starts import OPEN_END
from knowledge.said import Said
from knowledge.shapes import is_zero_led
from knowledge.tokens.nouns import PassedOver, SerialToken
from knowledge.weights import (
    AGAINST_RECORDS,
    BETWEEN,
    BETWEEN_AGAIN,
    BY_PREFIX,
    CODE_FILL,
    GROUNDS,
    MISTAKES,
    NONE,
    OUTSIDE_FITS,
    PUT_RIGHT,
    SEEN_AGAIN,
    SLIP,
)

_NO_DATE = DateSpan("", date.min, date.max)
PUT_RIGHT_STEP = "put-right"
"""The step from a number that was typed just so before to the one that experts then found stamped."""
KINDS = {"allocations": "allocation", "year-starts": "year-start", "date-code": "date-code"}
FINDING, INFERRED = "finding", "inferred"


class Candidate(NamedTuple):
    """One dating of one token. `token` is None for a number that is no serial: `passed_over` tells which.

    `position` is the place in the block, 1 for its first number, None where there is no block or no single number.
    `likelihood` lies within 0 to 1; those of one token add up to at most 1. `rests_on` are the keys of the findings or
    sightings a dating of the kind `finding` or `inferred` rests on; such a dating has no register.
    """

    token: int | None
    passed_over: int | None
    reading: Reading
    kind: str
    maker: str
    register: str
    model: str
    works: str
    first: str | None
    last: str | None
    quantity: int | None
    position: int | None
    date: str
    object: str
    source: str
    note: str
    likelihood: float
    rests_on: tuple[str, ...] = ()

    @property
    def serial(self) -> str:
        """The number as it would be stamped."""
        return self.reading.serial

    @property
    def steps(self) -> tuple[str, ...]:
        """The named steps from the typed number to this one."""
        return self.reading.steps

    @property
    def span(self) -> DateSpan:
        """The days the date may mean; open at both ends where the register tells no date."""
        return edtf.parse(self.date) if self.date else _NO_DATE


def rank(token: SerialToken, place: int, knowledge: Knowledge, said: Said) -> list[Candidate]:
    """Return every candidate of a token, best first. Equal ones stand in the order of their registers' numbers."""
    made = readings(token, knowledge.all_shapes)
    found = list(_from_blocks(made, place, knowledge.blocks, knowledge))
    found.extend(_from_codes(token, place, knowledge))
    held = any(took_as_typed(one, token) for one in found)
    outside = _outside(token, knowledge, held)
    if not held:
        by_prefix = list(_from_prefix(token, place, knowledge, outside))
        outside -= sum(one.reading.chance for one in by_prefix)
        found.extend(by_prefix)
    if knowledge.findings:
        found.extend(_from_findings(made, token, place, knowledge, held))
    if knowledge.between.by_key:
        doubtful = _doubtful(found, knowledge)
        found.extend([*_from_between(made, [one for one in found if one not in doubtful], place, knowledge)])
    if any(one.kind == FINDING for one in found):
        found, doubted = _against_records(found, knowledge)
        outside += doubted
    return _with_likelihoods(found, outside, knowledge, said)


def took_as_typed(one: Candidate, token: SerialToken) -> bool:
    """Tell whether a candidate takes the number as it was typed, look-alike letters and unreadable places aside."""
    read = ("letter-for-digit",) if token.letters else ("as-typed",)
    return one.steps in (read, ("as-typed",), ("unreadable",))


def rank_introduced(passed: PassedOver, place: int, knowledge: Knowledge, said: Said) -> list[Candidate]:
    """Return the candidates of a number that is no serial, from the registers whose words introduced it."""
    found: list[Candidate] = []
    reading = _as_it_stands(passed.number)
    for register in passed.registers:
        if register in knowledge.introduced:
            blocks = knowledge.introduced[register]
            hits = list(_from_blocks([reading], None, blocks, knowledge))
            bare = reading._replace(prefix="", suffix="")
            found.extend(hits or _from_blocks([bare], None, blocks, knowledge))
    introduced = set(passed.registers)
    for code in knowledge.codes:
        if code.register.id in introduced:
            found.extend(_of_code(code.covering(passed.number), reading, code.register, None))
    found = [one._replace(passed_over=place) for one in found]
    return _with_likelihoods(found, NONE["none"].value, knowledge, said)


_NUMBER = re.compile(r"([A-Z]*)([0-9]+)([A-Z]*)")


def _as_it_stands(number: str) -> Reading:
    """Return the reading of a number of an introduced register: as it was typed."""
    match = _NUMBER.fullmatch(number)
    prefix, digits, suffix = match.groups() if match else (number, "", "")
    return Reading(prefix, digits, suffix, ("as-typed",), 1.0)


def _from_blocks(
    made: Iterable[Reading], place: int | None, blocks: Blocks, knowledge: Knowledge
) -> Iterator[Candidate]:
    registers = knowledge.registers
    for reading in made:
        prefix, digits, suffix, _, chance = reading
        if "?" in digits:
            for row, count in blocks.matching(prefix, digits, suffix):
                yield _of_block(blocks.block(row), reading._replace(chance=chance * count), place, registers)
        else:
            for row in blocks.covering(prefix, digits, suffix):
                yield _of_block(blocks.block(row), reading, place, registers)


def _of_block(block: Block, reading: Reading, place: int | None, registers: dict[str, Register]) -> Candidate:
    register = registers[block.register]
    position = None if "?" in reading.digits else int(reading.digits) - int(block.first) + 1
    last, quantity = (block.last, block.quantity) if block.last != OPEN_END else (None, None)
    return Candidate(
        place, None, reading, KINDS[register.kind], register.maker, block.register, block.model, block.works,
        block.first, last, quantity, position, block.date, register.object,
        block.source or register.source, block.note, 0.0,
    )  # fmt: skip


def _from_codes(token: SerialToken, place: int, knowledge: Knowledge) -> Iterator[Candidate]:
    of_serials = [code for code in knowledge.codes if code.register.is_of_serials]
    if of_serials:
        for reading, code in code_readings(token, of_serials):
            yield from _of_code(code.covering(reading.serial), reading, code.register, place)


def _of_code(
    datings: Iterable[CodeDating], reading: Reading, register: Register, place: int | None
) -> Iterator[Candidate]:
    for span, model, works, changed in datings:
        source = f"{register.source}; {changed}" if changed else register.source
        yield Candidate(
            place, None, reading, KINDS[register.kind], register.maker, register.id, model, works,
            None, None, None, None, span.text, register.object, source, "", 0.0,
        )  # fmt: skip


def _from_findings(
    made: Iterable[Reading], token: SerialToken, place: int, knowledge: Knowledge, held: bool
) -> Iterator[Candidate]:
    """Yield what experts settled of each reading. `held`: some register has the number as it was typed.

    Then whoever typed it may well have that machine, and another one weighs no more for having been seen.
    """
    known = knowledge.findings
    put_right = known.by_typed.get(token.serial, ())
    found = []
    for finding in put_right:
        its_own = Reading(finding.prefix, finding.digits, finding.suffix, (PUT_RIGHT_STEP,), PUT_RIGHT.value)
        found.append(of_finding(finding, its_own, place, knowledge))
    keys = [(finding.key,) for finding in put_right]
    found += [one for one in _read_so(made, token, place, knowledge) if one.rests_on not in keys]
    for one in found:
        yield _less_likely(one, 1 / SEEN_AGAIN.value) if held and not took_as_typed(one, token) else one


def _less_likely(one: Candidate, factor: float) -> Candidate:
    return one._replace(reading=one.reading._replace(chance=one.reading.chance * factor))


def _read_so(made: Iterable[Reading], token: SerialToken, place: int, knowledge: Knowledge) -> Iterator[Candidate]:
    """Yield the findings on numbers that the typed one can be read as."""
    known = knowledge.findings
    for reading in made:
        prefix, digits, suffix, _, _ = reading
        if "?" in digits:
            for finding in known.matching(prefix, digits, suffix):
                its_own = reading._replace(prefix=finding.prefix, digits=finding.digits, suffix=finding.suffix)
                yield of_finding(finding, its_own, place, knowledge)
        else:
            for finding in known.by_serial.get(prefix + digits + suffix, ()):
                yield of_finding(finding, reading, place, knowledge)
    if known.mixed:
        for reading in readings_among(token, known.mixed):
            for finding in known.by_serial[reading.serial]:
                yield of_finding(finding, reading, place, knowledge)


def of_finding(finding: Finding, reading: Reading, place: int, knowledge: Knowledge) -> Candidate:
    """Return the dating that a finding gives to a reading of its number."""
    seen = SEEN_AGAIN.value * GROUNDS[finding.kind].value
    return Candidate(
        place, None, reading._replace(chance=reading.chance * seen), FINDING, knowledge.maker_of_finding(finding), "",
        finding.model, finding.works, None, None, None, None, finding.date, FINDING, finding.source, finding.note, 0.0,
        (finding.key,),
    )  # fmt: skip


def _doubtful(found: Sequence[Candidate], knowledge: Knowledge) -> list[Candidate]:
    """Return the findings that machines around, or the years of the model, speak against."""
    settled = (one for one in found if one.kind == FINDING)
    return [one for one in settled if speaks_against(knowledge.findings.by_key[one.rests_on[0]], knowledge)]


def _against_records(found: list[Candidate], knowledge: Knowledge) -> tuple[list[Candidate], float]:
    """Let findings that cannot be true beside what else is known weigh less: AGAINST_RECORDS instead of GROUNDS.

    What they lose goes to the lists that say otherwise of the very number, or to what is inferred for it. Where there
    is neither, it is returned: for 'none of these'.
    """
    weighed, doubted = list(found), 0.0
    for at, one in enumerate(found):
        if one.kind != FINDING:
            continue
        finding = knowledge.findings.by_key[one.rests_on[0]]
        others = [place for place, other in enumerate(found) if other.serial == one.serial and of_one_maker(other, one)]
        listed = [place for place in others if found[place].register]
        if any(agrees(found[place], one, finding) for place in listed):
            continue
        if listed or speaks_against(finding, knowledge):
            grounds, holds = GROUNDS[finding.kind].value, AGAINST_RECORDS[finding.kind].value
            weighed[at] = _less_likely(one, holds / grounds)
            lost = one.reading.chance * (1 - holds) / grounds
            gain = listed or [place for place in others if found[place].kind == INFERRED and found[place].date]
            doubted += 0.0 if gain else lost
            for place in gain:
                reading = weighed[place].reading
                more = reading.chance + lost / len(gain) / _fill(weighed[place])
                weighed[place] = weighed[place]._replace(reading=reading._replace(chance=more))
    return weighed, doubted


def _from_between(
    made: Iterable[Reading], found: Sequence[Candidate], place: int, knowledge: Knowledge
) -> Iterator[Candidate]:
    """Yield what machines on both sides tell of each reading without a slip, as far as nothing else tells it.

    Where a finding or a register of the same maker dates the number within DATED_WELL, no date is inferred; where one
    of them tells a model, no model is. With letters or zeros put right the machines must have numbers of the same form.
    """
    datings: dict[tuple[str, str], list[Candidate]] = {}
    for one in found:
        if _WHOLE.issuperset(one.reading.steps):
            datings.setdefault((one.maker, one.serial), []).append(one)
    for reading in made:
        if not _WHOLE.issuperset(reading.steps) or "?" in reading.digits:
            continue
        makers = knowledge.between.makers(reading.prefix, reading.suffix)
        told = False
        for maker in sorted(makers, key=lambda one: not one):  # machines of nobody known tell where no others do
            if told and not maker:
                continue
            known = datings.get((maker, reading.serial), [])
            follows = knowledge.between.follows(
                maker, reading.prefix, reading.digits, reading.suffix,
                date=not any(_is_dated_well(one) for one in known), model=not any(one.model for one in known),
            )  # fmt: skip
            if follows and (reading.steps == ("as-typed",) or follows.alike):
                told = True
                yield _of_neighbours(follows, reading, maker, place)


_WHOLE = frozenset("as-typed zero-restored zero-removed prefix-missing letter-for-digit unreadable".split())
DATED_WELL = timedelta(days=3653)
"""A dating to within ten years: what lies between two machines would add nothing to it."""


def _is_dated_well(one: Candidate) -> bool:
    return one.kind != "prefix" and one.span.latest - one.span.earliest <= DATED_WELL


def _of_neighbours(follows: Follows, reading: Reading, maker: str, place: int) -> Candidate:
    share = BETWEEN if follows.date else BETWEEN_AGAIN
    note = "" if follows.agree else "Machines known in this series contradict each other, so the span is wide."
    return Candidate(
        place, None, reading._replace(chance=reading.chance * share.value), INFERRED, maker, "", follows.model, "",
        None, None, None, None, follows.date, "inference", follows.source, note, 0.0, follows.rests_on,
    )  # fmt: skip


def _from_prefix(token: SerialToken, place: int, knowledge: Knowledge, outside: float) -> Iterator[Candidate]:
    """Yield what the second list says of a prefix, for a number that no block holds as it was typed."""
    entries = [
        entry
        for entry in knowledge.prefixes.get(token.prefix, ())
        if token.prefix and knowledge.registers[entry.register].is_of_serials
    ]
    for entry in entries:
        register = knowledge.registers[entry.register]
        chance = outside * BY_PREFIX.value / len(entries)
        steps = ("unreadable",) if "?" in token.digits else ("as-typed",)
        reading = Reading(token.prefix, token.digits, token.suffix, steps, chance)
        yield Candidate(
            place, None, reading, "prefix", register.maker, register.id, "", entry.works,
            None, None, None, None, entry.date, register.object, entry.source or register.source, "", 0.0,
        )  # fmt: skip


def none_of_these(token: SerialToken, knowledge: Knowledge, held: bool) -> str:
    """Return which of the weights NONE 'none of these' has for a token. `held`: some register has it as typed."""
    if held:
        return "none"
    shapes = knowledge.shapes
    digits = token.digits or "0"
    if shapes.holds(token.prefix, len(digits), token.suffix, is_zero_led(digits)):
        return "none-between"
    return "none-count" if (token.prefix, token.suffix) in shapes.widest else "none-letters"


def _outside(token: SerialToken, knowledge: Knowledge, held: bool) -> float:
    """Return the weight of 'none of these': a machine of no register, typed rightly. `held`: some register has it."""
    name = none_of_these(token, knowledge, held)
    return NONE[name].value * (1 - SLIP) * (1 - MISTAKES["letter-for-digit"].value) * knowledge.learned.factor((name,))


def _with_likelihoods(found: list[Candidate], outside: float, knowledge: Knowledge, said: Said) -> list[Candidate]:
    weights = [_weight(one) for one in found]
    if knowledge.learned:
        weights = [weight * _learned(one, knowledge) for weight, one in zip(weights, found, strict=True)]
    if said.bears_on_datings:
        outside *= OUTSIDE_FITS.value
        weights = [weight * fit(one, said) for weight, one in zip(weights, found, strict=True)]
    total = math.fsum(weights) + outside
    order = sorted(range(len(found)), key=lambda place: -weights[place])
    return [found[place]._replace(likelihood=weights[place] / total) for place in order]


def _weight(one: Candidate) -> float:
    return one.reading.chance * _fill(one)


def _fill(one: Candidate) -> float:
    return CODE_FILL.value if one.kind == "date-code" else 1.0


def _learned(one: Candidate, knowledge: Knowledge) -> float:
    """Return the factor of what was learned; the chance of a dating by letters alone has that of 'none of these'."""
    return 1.0 if one.kind == "prefix" else knowledge.learned.factor(one.steps)
