"""How an answer was found, as an experienced member would explain it: one short sentence a step."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from knowledge import edtf, wording
from knowledge.candidates import FINDING, Candidate
from knowledge.tokens.nouns import SerialToken
from knowledge.view import LIKELY, View

MOST_SHOWN = 4


def working(view: View) -> tuple[str, ...]:
    """Return the sentences, number by number, then what was passed over."""
    sentences: list[str] = []
    for token, candidates in view.numbers():
        sentences.append(_what_was_read(token))
        sentences.extend(_what_was_searched(token, candidates, view))
        sentences.extend(_what_was_found(candidates, view))
    sentences.extend(
        f"{passed.text!r} was passed over: {wording.PASSED_OVER[passed.because]}." for passed in view.passed_over
    )
    sentences.extend(
        f"{one.serial} stands in {_register(one, view)}: {wording.date_words(one)}." for one in view.introduced
    )
    if not sentences:
        sentences.append("I found nothing in the text that could be a serial number.")
    return tuple(dict.fromkeys(sentences))


def _what_was_read(token: SerialToken) -> str:
    letters = token.prefix or "No letter"
    zero = ", the first a zero" if token.digits.startswith("0") and len(token.digits) > 1 else ""
    suffix = f", then {token.suffix}" if token.suffix else ""
    return f"{letters}, then {wording.digits_of(token.digit_count)}{zero}{suffix}: {token.serial}."


def _what_was_searched(token: SerialToken, candidates: tuple[Candidate, ...], view: View) -> Iterator[str]:
    widths = sorted(
        width
        for prefix, width, suffix in view.knowledge.shapes.series
        if (prefix, suffix) == (token.prefix, token.suffix)
    )
    name = f"letter {token.prefix}" if token.prefix else "numbers without a letter"
    if 0 in widths:
        yield f"The registers have {name}, of any length."
    elif widths:
        yield f"The registers have {name} with {wording.listed([wording.digits_of(width) for width in widths], 'and')}."
    else:
        yield f"No block list has {name} in this form."
    steps = Counter(one.steps for one in candidates)
    if steps:
        shown = ", ".join(f"{count} {wording.steps_in_words(step)}" for step, count in steps.most_common())
        yield f"Searched as typed and every reading one slip away. Found: {shown}."


def _what_was_found(candidates: tuple[Candidate, ...], view: View) -> Iterator[str]:
    for one in candidates[:MOST_SHOWN]:
        if one.likelihood >= LIKELY or one is candidates[0]:
            yield f"{one.serial}, {wording.steps_in_words(one.steps)}: {_entry(one, view)}."
            yield from _second_list(one, view)


def _entry(one: Candidate, view: View) -> str:
    dating = wording.dating(one, view.knowledge)
    if one.register:
        return f"{wording.block(one)}, in {_register(one, view)}: {dating}"
    how = "settled by" if one.kind == FINDING else "inferred:"
    return f"{dating}, {how} {wording.source_title(one, view.knowledge)}"


def _register(one: Candidate, view: View) -> str:
    register = view.knowledge.registers[one.register]
    source = wording.source_title(one, view.knowledge)
    return f"{register.title or register.id}" + (f" (source: {source})" if source else "")


def _second_list(one: Candidate, view: View) -> Iterator[str]:
    if one.kind == "prefix" or not one.register:
        return
    for entry in view.knowledge.prefixes.get(one.reading.prefix, ()):
        if one.reading.prefix and view.knowledge.maker_of(entry.register) == one.maker:
            works = view.knowledge.works.get(entry.works)
            where = f" at {works.name}" if works else ""
            when = f": {edtf.in_words(edtf.parse(entry.date))}" if entry.date else ""
            yield f"The second list has {entry.prefix}{where}{when}."
