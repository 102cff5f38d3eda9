"""The picture for datings without a block: an axis of years with each dating on it.

For a date code it also shows which part of the number tells what.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from bot.pictures.fonts import fitted, width_of
from bot.pictures.marks import AS_LIKELY, Shown
from bot.pictures.page import INNER, MARGIN, WIDTH, foot, head, paper
from bot.pictures.scales import Moment, Scale, date_ticks, days_around, moment_of
from bot.pictures.shapes import (
    GRID,
    INK,
    MARKED,
    PAPER,
    QUIET,
    STRUCK,
    TINTS,
    Box,
    Line,
    Mark,
    Picture,
    Shape,
    Text,
)
from bot.pictures.words import PARTS, caution, date_words, describe_times, model_and_works, sources
from knowledge.base import Knowledge
from knowledge.candidates import Candidate
from knowledge.wording import maker_name

MOST_ROWS = 6
_ROW = 62.0
_AXIS = 40.0
_SIGNS, _MEANS, _WORDS, _DETAIL = 38, 17, 20, 16
_WIDE = 60.0
_SHORTEST = 7.0
"""A time span shorter than this many pixels is drawn as a point."""


class _Row(NamedTuple):
    one: Candidate
    when: Moment
    y: float
    is_best: bool


def times_picture(heading: str, best: Shown, rows: Sequence[Candidate], more: int, knowledge: Knowledge) -> Picture:
    """Lay the picture out: `rows` are the datings to show, the likeliest first, `more` how many are left out."""
    above, top = head(heading, _subtitle(best.one, rows, knowledge))
    parts, top = _parts(best, knowledge, top)
    further = f"Not shown, as less likely: {more} more." if more else ""
    small = (caution(best.one), sources(best.one, knowledge), further)
    ordered = sorted(((moment_of(one.date) or best.when, one) for one in rows), key=lambda row: row[0].day)
    in_use = _in_use(rows, knowledge)
    bottom = top + 34 + len(ordered) * _ROW + 12
    height = round(bottom + _AXIS + 8 - foot(0, small)[1])
    below, _ = foot(height, small)
    days = days_around([when for when, _ in ordered] + ([in_use] if in_use else []))
    across = Scale(*days, MARGIN, WIDTH - MARGIN)
    shapes: list[Shape] = [paper(height), *above, *parts, *_axis(across, days, top, bottom)]
    shapes += _used(in_use, across, top, bottom)
    for place, (when, one) in enumerate(ordered):
        is_best = one.serial == best.serial and one.likelihood >= AS_LIKELY * best.likelihood
        row = _Row(one, when, top + 34 + (place + 0.5) * _ROW, is_best)
        shapes += _row(row, best, across, bottom, knowledge)
    words = describe_times(heading, best, rows, more, knowledge)
    return Picture(WIDTH, height, (*shapes, *below), heading, words)


def _subtitle(one: Candidate, rows: Sequence[Candidate], knowledge: Knowledge) -> str:
    register = knowledge.registers[one.register]
    if one.kind == "prefix":
        return f"{maker_name(one, knowledge)}: when {one.reading.prefix} was used. No block holds this very number."
    lists = len({row.register for row in rows})
    if lists > 1:
        return f"{maker_name(one, knowledge)}: {lists} lists date this number"
    return register.title or maker_name(one, knowledge)


def _in_use(rows: Sequence[Candidate], knowledge: Knowledge) -> Moment | None:
    """Return the years that the registers of these datings cover together; None where one does not say."""
    registers = [knowledge.registers[id_] for id_ in dict.fromkeys(one.register for one in rows)]
    spans = [(moment_of(register.from_), moment_of(register.to)) for register in registers]
    begun = [start.earliest for start, _ in spans if start and start.earliest]
    ended = [end.latest for _, end in spans if end and end.latest]
    if len(begun) < len(spans) or len(ended) < len(spans) or any(one.kind == "year-starts" for one in registers):
        return None
    return Moment(min(begun), max(ended))


def _axis(across: Scale, days: tuple[float, float], top: float, bottom: float) -> Iterator[Shape]:
    yield Box(MARGIN, top, INNER, bottom - top, TINTS[1])
    for day, label in date_ticks(*days, most=9):
        x = across(day)
        yield Line(((x, top), (x, bottom + 6)), GRID, 1)
        half = width_of(label, 18) / 2
        yield Text(min(max(x, MARGIN + half), WIDTH - MARGIN - half), bottom + 27, label, 18, QUIET, anchor="middle")
    yield Line(((MARGIN, bottom), (WIDTH - MARGIN, bottom)), STRUCK, 1.5)


def _used(in_use: Moment | None, across: Scale, top: float, bottom: float) -> Iterator[Shape]:
    """Yield the band of years in which the register was used, named at its head."""
    if in_use is None or in_use.earliest is None or in_use.latest is None:
        return
    left, right = across(in_use.earliest), across(in_use.latest)
    yield Box(left, top, right - left, bottom - top, TINTS[0])
    for x in (left, right):
        yield Line(((x, top), (x, bottom)), STRUCK, 1.2, is_dashed=True)
    yield Text((left + right) / 2, top + 23, "the years covered", 17, QUIET, anchor="middle")


def _row(row: _Row, best: Shown, across: Scale, bottom: float, knowledge: Knowledge) -> Iterator[Shape]:
    left = MARGIN if row.when.earliest is None else across(row.when.earliest)
    right = WIDTH - MARGIN if row.when.latest is None else across(row.when.latest)
    colour = MARKED if row.is_best else QUIET
    x = (left + right) / 2
    if right - left < _WIDE:
        yield Line(((x, row.y), (x, bottom)), colour, 2 if row.is_best else 1.2, is_dashed=True)
    if right - left >= _SHORTEST:
        yield Box(left, row.y - 7, right - left, 14, colour if row.is_best else PAPER, colour, 2.5)
        if row.when.earliest is None:
            yield Mark("arrow-left", left + 6, row.y, 10, colour)
        if row.when.latest is None:
            yield Mark("arrow-right", right - 6, row.y, 10, colour)
    elif row.is_best:
        yield Mark("disc", x, row.y, 10, MARKED)
        yield Mark("disc", x, row.y, 3.5, PAPER)
    else:
        yield Mark("disc", x, row.y, 8, PAPER, QUIET, 3)
    yield from _row_words(row, best, (left - 18, right + 18), knowledge)


def _row_words(row: _Row, best: Shown, beside: tuple[float, float], knowledge: Knowledge) -> Iterator[Shape]:
    """Yield the words of a row on the side of its mark that has more room, on a patch of paper."""
    leftward, rightward = beside[0] - MARGIN, WIDTH - MARGIN - beside[1]
    above, room = (False, max(leftward, rightward) - 8) if max(leftward, rightward) >= 220 else (True, INNER - 20)
    words = date_words(row.one.date)
    if row.one.serial != best.serial:
        words = f"{row.one.serial}: {words}"
    lines = [(words, _WORDS, row.is_best), (model_and_works(row.one, knowledge), _DETAIL, False)]
    fit = [(fitted(text, room, size, bold), size, bold) for text, size, bold in lines if text]
    width = max(width_of(text, size, bold) for text, size, bold in fit)
    if above:
        left = min(max((sum(beside) - width) / 2, MARGIN + 6), WIDTH - MARGIN - width - 6)
    else:
        left = beside[1] if rightward >= leftward else beside[0] - width
    tall = sum(size + 5 for _, size, _ in fit)
    y = row.y - tall / 2
    if above:
        fit, y = [(fitted(" · ".join(text for text, _, _ in fit), room, _DETAIL), _DETAIL, row.is_best)], row.y - 28
        width = width_of(*fit[0])
        left = min(max((sum(beside) - width) / 2, MARGIN + 6), WIDTH - MARGIN - width - 6)
        tall = _DETAIL + 3
    yield Box(left - 5, y - 1, width + 10, tall + 2, PAPER if not above else TINTS[0])
    for text, size, bold in fit:
        y += size + 5
        yield Text(left, y - 5, text, size, INK if row.is_best else QUIET, bold)


def _parts(best: Shown, knowledge: Knowledge, top: float) -> tuple[list[Shape], float]:
    """Return the number in its parts, the meaning of each below it, for a number read by a date code."""
    code = next((code for code in knowledge.codes if code.register.id == best.one.register), None)
    match = code.pattern.fullmatch(best.one.serial) if code and best.one.kind == "date-code" else None
    if code is None or match is None:
        return [], top + 2
    cells = [(text, PARTS.get(part.means, part.means)) for text, part in zip(match.groups(), code.parts, strict=True)]
    widths = [max(width_of(text, _SIGNS, True) + 26, width_of(means, _MEANS) + 8) for text, means in cells]
    shrink = min(1.0, (INNER - 10 * (len(cells) - 1)) / sum(widths))
    shapes: list[Shape] = []
    x, top = float(MARGIN), top + 10
    for (text, means), wide in zip(cells, widths, strict=True):
        width = wide * shrink
        shapes.append(Box(x, top, width, 56, TINTS[0], STRUCK, 1.5))
        shapes.append(Text(x + width / 2, top + 42, fitted(text, width - 6, _SIGNS, True), _SIGNS, INK, True, "middle"))
        shapes.append(Text(x + width / 2, top + 78, fitted(means, width, _MEANS), _MEANS, QUIET, anchor="middle"))
        x += width + 10
    return shapes, top + 100
