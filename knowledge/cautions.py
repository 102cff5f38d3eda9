"""The warnings that go with an answer: an ordered table of small rules, each with its code.

A rule looks at the question and yields the warnings it has; most yield none or one, some one for each number.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from knowledge import edtf, wording
from knowledge.candidates import FINDING, INFERRED, Candidate, took_as_typed
from knowledge.contradictions import against, in_words
from knowledge.doubts import around_in_block
from knowledge.nouns import OtherMark, PrefixEntry
from knowledge.tokens.nouns import PassedOver
from knowledge.view import LIKELY, View, differs, is_as_typed, registered

MOST_SHOWN = 3
LIKELY_ENOUGH = 0.2
"""From here on a dating counts as what the asker may have before them."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One warning: a stable code, and words for people."""

    code: str
    text: str


Rule = Callable[[View], Iterator[str]]


def _count_the_digits(view: View) -> Iterator[str]:
    for token, candidates in view.of_the_maker():
        others = _best_of_other_counts(token.digit_count, candidates)
        if others:
            shown = "; ".join(f"with {count} it could be {_told(one, view)}" for count, one in sorted(others.items()))
            read = f"I read {wording.digits_of(token.digit_count)} in {token.serial}"
            yield f"Count the digits on the machine once more. {read}; {shown}."


def _best_of_other_counts(typed: int, candidates: tuple[Candidate, ...]) -> dict[int, Candidate]:
    """Return, for each other number of digits, the best candidate that would change the dating."""
    others: dict[int, Candidate] = {}
    for place, one in enumerate(candidates):
        count = one.reading.digit_count
        if count != typed and one.kind != "prefix" and (not place or differs(one, candidates[0])):
            others.setdefault(count, one)
    return others


def _told(one: Candidate, view: View) -> str:
    return f"{one.serial}: {wording.dating(one, view.knowledge)}"


def _leading_zero(view: View) -> Iterator[str]:
    for token, candidates in view.of_the_maker():
        zero_led = token.digits.startswith("0") and len(token.digits) > 1
        other = next((one for one in candidates if _is_zero_led(one) != zero_led and _about_zeros(one)), None)
        if other is not None:
            yield (
                "A zero in front is stamped on purpose and counts as a digit. "
                f"{'Without' if zero_led else 'With'} it, it could be {_told(other, view)}."
            )
        elif zero_led:
            yield f"The zero in front of {token.serial} counts as one of its {wording.digits_of(token.digit_count)}."


def _is_zero_led(one: Candidate) -> bool:
    return one.reading.digits.startswith("0") and len(one.reading.digits) > 1


def _about_zeros(one: Candidate) -> bool:
    return "zero-restored" in one.steps or "zero-removed" in one.steps


def _letter_or_digit(view: View) -> Iterator[str]:
    for token, candidates in view.numbers():
        other = next((one for one in candidates if {"letter-for-digit", "digit-for-letter"} & set(one.steps)), None)
        if token.letters:
            yield f"I took a letter in {token.text!r} for a digit, and read {token.serial}. Please compare."
        elif other is not None:
            yield (
                "Letters and digits look alike on worn plates (O and 0, I and 1, B and 8). "
                f"{token.serial} could also be {_told(other, view)}."
            )


def _missing_prefix(view: View) -> Iterator[str]:
    for token, candidates in view.of_the_maker():
        found: dict[str, Candidate] = {}
        for one in candidates:
            if "prefix-missing" in one.steps:
                found.setdefault(one.reading.prefix, one)
        if found and not token.prefix:
            shown = "; ".join(_told(one, view) for one in list(found.values())[:MOST_SHOWN])
            more = f", and {len(found) - MOST_SHOWN} more letters are possible" if len(found) > MOST_SHOWN else ""
            yield f"You gave no letter before the number. Is there one on the machine? It could be {shown}{more}."


def _several_makers(view: View) -> Iterator[str]:
    for token, candidates in view.numbers():
        likely = [one for one in candidates if one.likelihood >= LIKELY or is_as_typed(one, token)]
        makers = list(dict.fromkeys(wording.maker_name(one, view.knowledge) for one in likely if one.maker))
        if len(makers) > 1:
            yield (
                f"Machines of more than one maker can carry {token.serial}: {wording.listed(makers[:6])}. "
                "The name on the machine decides."
            )


def _several_registers(view: View) -> Iterator[str]:
    for _, candidates in view.numbers():
        seen: dict[tuple[str, str], set[tuple[str, str | None, str | None]]] = {}
        for one in registered(candidates):
            if one.likelihood >= LIKELY:
                entry = (one.register, one.first, one.last)
                seen.setdefault((one.serial, one.maker), set()).add(entry)
        for (serial, _), entries in seen.items():
            if len(entries) > 1:
                yield (
                    f"{serial} stands in {len(entries)} entries of the registers; all are shown. The works, the model "
                    "or the fittings of the machine decide."
                )


def _date_of_allocation(view: View) -> Iterator[str]:
    objects = {one.object for one in view.likely()}
    if "allocation" in objects:
        which = "The date in the list" if FINDING in objects else "The date"
        yield (
            f"{which} is the day on which the block of numbers was allocated. The machine was built and sold later, "
            "sometimes by years."
        )
    if objects & {"grant", "registration"}:
        yield (
            "The date is the earliest one: the thing that carries this mark was made after it, often for many years."
        )


def _lists_disagree(view: View) -> Iterator[str]:
    for token, candidates in view.numbers():
        settled = next((one for one in candidates if one.kind == FINDING and is_as_typed(one, token)), None)
        if settled and (settled is candidates[0] or settled.likelihood >= LIKELY):
            yield from _settled_otherwise(settled, [one for one in candidates if took_as_typed(one, token)], view)
        elif settled is None and view.knowledge.between.by_key:
            for one in registered(candidates):
                if is_as_typed(one, token):
                    yield from _seen_otherwise(one, view)
    for one in registered(view.likely()):
        entries = _second_list(view, one)
        if any(_agree(one, entry) for entry in entries):
            continue
        for entry in entries:
            source = wording.titles(entry.source, view.knowledge)
            by_letters = f"the list of letters{f' ({source})' if source else ''}"
            yield (
                f"The lists disagree on {one.serial}: the list of blocks gives {_stated(view, one.works, one.date)}, "
                f"{by_letters} {_stated(view, entry.works, entry.date)}."
            )


def _settled_otherwise(settled: Candidate, same_number: list[Candidate], view: View) -> Iterator[str]:
    finding = view.knowledge.findings.by_key[settled.rests_on[0]]
    found = list(against(settled, finding, same_number, view.knowledge))
    if found:
        yield (
            f"What is known of {settled.serial} disagrees: {wording.settled_by(finding)} settled it as "
            f"{wording.dating(settled, view.knowledge)}; {'; '.join(found[:MOST_SHOWN])}."
        )


def _seen_otherwise(listed: Candidate, view: View) -> Iterator[str]:
    for follows in around_in_block(listed, view.knowledge):
        yield (
            f"The list '{wording.register_title(listed.register, view.knowledge)}' says of {listed.serial} "
            f"{wording.dating(listed, view.knowledge)}, but {in_words(follows, view.knowledge)}."
        )


def _second_list(view: View, one: Candidate) -> list[PrefixEntry]:
    """Return the rows of the second list on a candidate's prefix: those of its register, else those of its maker."""
    rows = view.knowledge.prefixes.get(one.reading.prefix, []) if one.kind != "prefix" else []
    own = [entry for entry in rows if entry.register == one.register]
    return own or [entry for entry in rows if view.knowledge.maker_of(entry.register) == one.maker]


def _agree(one: Candidate, entry: PrefixEntry) -> bool:
    """Tell whether a row of the second list can be true together with a dating."""
    span = edtf.parse(entry.date) if entry.date else one.span
    same_works = not (one.works and entry.works) or one.works == entry.works
    return same_works and span.earliest <= one.span.latest and one.span.earliest <= span.latest


def _stated(view: View, works: str, date: str) -> str:
    parts = (_works(view, works), edtf.in_words(edtf.parse(date)) if date else "")
    return ", ".join(part for part in parts if part) or "nothing"


def _works(view: View, id_: str) -> str:
    known = view.knowledge.works.get(id_)
    return known.name if known and known.name else id_


def _other_model(view: View) -> Iterator[str]:
    for (_, candidates), said in zip(view.numbers(), view.beside, strict=True):
        named = [one for one in candidates if one.model and one.kind != INFERRED]
        if not said.models or not named:
            continue
        by_number = max(named, key=lambda one: one.reading.chance)
        if by_number.model in said.models:
            continue
        known = wording.listed([_model(view, model) for model in said.models[:MOST_SHOWN]])
        belongs = f"{by_number.serial} belongs to {wording.model_name(by_number, view.knowledge)}"
        fitting = next((one for one in candidates if one.model in said.models), None)
        hint = f" It could be {_told(fitting, view)} ({wording.steps_in_words(fitting.steps)})." if fitting else ""
        yield (
            f"You say {known}, but {belongs}. That often means that the number was misread: "
            f"please look at it again.{hint}"
        )


def _model(view: View, id_: str) -> str:
    known = view.knowledge.models.get(id_)
    return known.name if known and known.name else id_


def _not_a_serial(view: View) -> Iterator[str]:
    for place, passed in enumerate(view.passed_over):
        found = next((one for one in view.introduced if one.passed_over == place), None)
        if found:
            what = "; it dates the design, not the machine" if found.object in ("grant", "registration") else ""
            yield f"{passed.text} is not the serial number of the machine{what}."
        elif not view.tokens:
            yield from _other_number(passed, view)
    for (token, candidates), said in zip(view.numbers(), view.beside, strict=True):
        held = any(is_as_typed(one, token) for one in candidates)
        mark = _mark(token.prefix, len(token.digits), said.makers, view) if not held else None
        if mark:
            yield f"{token.serial} may be the {_what(mark)}, which is no serial number."


_NEAR = 12
_LETTERS_BEFORE = re.compile(r"([A-Za-z]{1,4})[ .-]?$")


def _other_number(passed: PassedOver, view: View) -> Iterator[str]:
    before = _LETTERS_BEFORE.search(view.text[max(0, passed.start - _NEAR) : passed.start])
    text = passed.text if passed.text[:1].isalpha() or not before else before[0] + passed.text
    number = "".join(sign for sign in text.upper() if sign.isalnum())
    letters = number.rstrip("0123456789")
    mark = _mark(letters, len(number) - len(letters), view.said.makers, view) if number[len(letters) :] else None
    if mark and (mark.prefix or passed.because == "part-number"):
        yield f"{text} may be the {_what(mark)}, which is no serial number."
    elif passed.because == "part-number":
        yield f"{passed.text} is the number of a part, not the serial number of the machine."


def _mark(prefix: str, digits: int, makers: tuple[str, ...], view: View) -> OtherMark | None:
    """Return the other mark of a machine that a number has the form of."""
    for mark in view.knowledge.other_marks:
        of_maker = not makers or not mark.maker or mark.maker in makers
        if of_maker and prefix == mark.prefix.upper() and mark.digits in (0, digits):
            return mark
    return None


def _what(mark: OtherMark) -> str:
    what = re.sub(r"^(?:an?|the) ", "", mark.what)
    return f"{what} ({mark.where})" if mark.where else what


def _unreadable_digit(view: View) -> Iterator[str]:
    for token, _ in view.numbers():
        if "?" in token.digits:
            yield (
                f"Some of {token.serial} could not be read; every digit was tried there. "
                "Chalk rubbed over the stamping, or light from the side, often brings it out."
            )


def _outside_registers(view: View) -> Iterator[str]:
    for token, candidates in view.numbers():
        if any(is_as_typed(one, token) for one in candidates):
            continue
        if any(one.kind == "prefix" for one in candidates):
            yield f"No block known here holds {token.serial}. Its letters alone are dated, by the second list."
        elif any(one.kind == INFERRED and took_as_typed(one, token) for one in candidates):
            yield f"No register known here has {token.serial}; machines before and after it are known."
        else:
            tail = " What follows are readings one slip away." if candidates else ""
            yield f"No register known here has {token.serial} just as you typed it.{tail}"
    for passed in view.unlisted():
        titles = [wording.register_title(id_, view.knowledge) for id_ in passed.registers]
        yield f"{passed.text} is not in the list known here ({wording.listed(titles)}): it may be later than its end."


def _inferred(view: View) -> Iterator[str]:
    told: set[tuple[str, ...]] = set()
    for one in view.likely():
        if one.kind != INFERRED or one.rests_on in told:
            continue
        told.add(one.rests_on)
        serial = view.tokens[one.token].serial if one.token is not None and "unreadable" in one.steps else one.serial
        what = "date and model are" if one.date and one.model else "date is" if one.date else "model is"
        known = wording.listed([view.knowledge.between.by_key[key].serial for key in one.rests_on], "and")
        follows = f"{serial}: its {what} in no record, but inferred from {known}, in the order of issue."
        yield f"{follows} {one.note}".rstrip()


def _old_wiring(view: View) -> Iterator[str]:
    models = [view.knowledge.models.get(one.model) for one in view.likely() if one.likelihood >= LIKELY_ENOUGH]
    drives = [model.drive.lower() for model in models if model]
    electric = any("electric" in drive or "motor" in drive for drive in drives)
    if electric or view.said.dangers & {"wiring", "opening"}:
        yield (
            "Old mains wiring and unearthed motors can kill: pull the plug before you touch or open anything, and "
            "have a qualified person check it by your local rules before it is switched on."
        )
    if view.said.dangers & {"opening", "casting", "paint", "needle"}:
        yield (
            "Before you open or move a machine: the casting is heavy (two people, a firm table), take the needle out, "
            "and treat old paint and grease as if they held lead: gloves, no sanding, wash your hands. Keep to your "
            "local rules, and ask a qualified person when in doubt."
        )


RULES: tuple[tuple[str, Rule], ...] = (
    ("outside-registers", _outside_registers),
    ("count-the-digits", _count_the_digits),
    ("leading-zero", _leading_zero),
    ("other-model", _other_model),
    ("missing-prefix", _missing_prefix),
    ("letter-or-digit", _letter_or_digit),
    ("unreadable-digit", _unreadable_digit),
    ("several-makers", _several_makers),
    ("several-registers", _several_registers),
    ("lists-disagree", _lists_disagree),
    ("not-a-serial", _not_a_serial),
    ("inferred", _inferred),
    ("date-of-allocation", _date_of_allocation),
    ("old-wiring", _old_wiring),
)
"""In the order in which they are shown: first what can make the dating wrong, then what it means."""


def cautions(view: View) -> tuple[Caution, ...]:
    """Return the warnings of a question, in the order of the table, each said once."""
    found = (Caution(code, text) for code, rule in RULES for text in rule(view))
    return tuple(dict.fromkeys(found))
