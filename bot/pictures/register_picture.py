"""The picture of a register: its numbers in order of issue from left to right, the date upward, the number marked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from bot.pictures.fonts import fitted, width_of, wrapped
from bot.pictures.issue_line import Band, IssueLine
from bot.pictures.labels import Area, Wanted, in_rows, place_all, shared
from bot.pictures.marks import Shown
from bot.pictures.page import INNER, MARGIN, WIDTH, foot, head, paper
from bot.pictures.scales import Scale, date_ticks, days_around, moment_of, round_step
from bot.pictures.shapes import (
    GRID,
    INK,
    MARKED,
    PAPER,
    QUIET,
    STRUCK,
    STYLES,
    TINTS,
    ZERO_LED_TINT,
    Box,
    Line,
    Mark,
    Picture,
    Point,
    Shape,
    Style,
    Text,
)
from bot.pictures.strokes import lanes, steps_of, strokes, undated, under_strokes, works_of
from bot.pictures.words import (
    caution,
    date_words,
    describe_line,
    line_name,
    model_and_works,
    other_reading,
    sources,
)
from knowledge.base import Knowledge

HEIGHT = 640
_LABEL, _TICK = 18, 18
_ROW = 25
_WIDEST = 330.0
"""How wide the words beside a mark may run, in pixels."""
_NARROWEST = 5.0
"""A band narrower than this gets no label of its own."""


class _Plot(NamedTuple):
    area: Area
    across: Scale
    upward: Scale


def register_picture(heading: str, line: IssueLine, marked: Sequence[Shown], knowledge: Knowledge) -> Picture:
    """Lay the picture out: `marked` are the datings to mark, the best first, all of this line."""
    best = marked[0]
    above, top = head(heading, line_name(best.one, knowledge))
    legend, top = _legend(line, knowledge, top)
    below, foot_top = foot(HEIGHT, (caution(best.one), sources(best.one, knowledge), _about_grey(line)))
    days = days_around([*(s.when for s in line.stretches if s.when), *(shown.when for shown in marked)])
    ticks = date_ticks(*days, most=8)
    left = MARGIN + max((width_of(label, _TICK) for _, label in ticks), default=40) + 12
    across = Scale(0, line.length, left, WIDTH - MARGIN - 8)
    names, top = _band_names(line, across, top)
    numbers, axis_height = _numbers(line, best, across)
    strip, strip_height = lanes(line, across, 0)
    bottom = foot_top - 8 - axis_height - strip_height
    plot = _Plot(Area(left, top, WIDTH - MARGIN, bottom), across, Scale(*days, bottom, top))
    shapes: list[Shape] = [paper(HEIGHT), *above, *legend, *_bands(line, plot), *names]
    shapes += _dates(ticks, plot)
    shapes += undated(line, across, top, bottom)
    steps = steps_of(line, across, plot.upward)
    shapes += strokes(steps)
    shapes += lanes(line, across, bottom)[0] if strip else []
    shapes += [_lower(shape, bottom + strip_height) for shape in numbers]
    shapes += _marks(line, marked, plot, under_strokes(steps), knowledge)
    return Picture(WIDTH, HEIGHT, (*shapes, *below), heading, describe_line(heading, line, tuple(marked), knowledge))


def _about_grey(line: IssueLine) -> str:
    count = sum(1 for stretch in line.stretches if stretch.when is None)
    return f"Grey: {count} block{'s' if count > 1 else ''} without a date." if count else ""


def _legend(line: IssueLine, knowledge: Knowledge, top: float) -> tuple[list[Shape], float]:
    """Return the names of the works beside their signs, when there are several."""
    ids = works_of(line)
    if len(ids) < 2:
        return [], top
    count = min(len(ids), len(STYLES))
    names = [_works_name(id_, knowledge) for id_ in ids]
    if len(ids) > count:
        names[count - 1 :] = [f"{len(ids) - count + 1} further works"]
    widths = [width_of(name, _LABEL) for name in names]
    rows = 1 if sum(widths) + count * 60 - 26 <= INNER else 2
    shapes: list[Shape] = []
    for row in range(rows):
        own = range(row * count // rows, (row + 1) * count // rows)
        rooms = shared([widths[place] for place in own], INNER - len(own) * 60 + 26)
        shapes += _named_signs([names[place] for place in own], rooms, STYLES[own.start : own.stop], top + row * 27)
    return shapes, top + rows * 27


def _named_signs(names: Sequence[str], rooms: Sequence[float], styles: Sequence[Style], top: float) -> Iterator[Shape]:
    x = float(MARGIN)
    for name, room, style in zip(names, rooms, styles, strict=True):
        fill = PAPER if style.is_open else style.colour
        yield Line(((x, top + 8), (x + 26, top + 8)), style.colour, 6.5 if style.is_open else 4.5)
        if style.is_open:
            yield Line(((x, top + 8), (x + 26, top + 8)), PAPER, 2.5)
        yield Mark(style.shape, x + 13, top + 8, 8, fill, style.colour)
        yield Text(x + 34, top + 14, fitted(name, room, _LABEL), _LABEL, INK)
        x += 60 + room


def _works_name(id_: str, knowledge: Knowledge) -> str:
    known = knowledge.works.get(id_)
    return (known.name if known else "") or id_ or "works not told"


def _bands(line: IssueLine, plot: _Plot) -> Iterator[Shape]:
    for place, band in enumerate(line.bands):
        left, right = plot.across(band.start), plot.across(band.end)
        if place == len(line.bands) - 1:
            right = plot.area.right
        tint = ZERO_LED_TINT if band.is_zero_led and len(line.bands) > 1 else TINTS[place % 2]
        yield Box(left, plot.area.top, right - left, plot.area.foot - plot.area.top, tint)
        if place:
            yield Line(((left, plot.area.top - 4), (left, plot.area.foot)), STRUCK, 1.5, is_dashed=True)


def _band_names(line: IssueLine, across: Scale, top: float) -> tuple[list[Shape], float]:
    """Return the names of the series above the plot, and the height where the plot begins."""
    bands = sorted(line.bands, key=lambda band: band.start - band.end)[:9]
    bands = [band for band in bands if across(band.end) - across(band.start) >= _NARROWEST or len(bands) < 4]
    middles = [(across(band.start) + across(band.end)) / 2 for band in bands]
    wanted = [(middle, width_of(band.name, _LABEL, True)) for middle, band in zip(middles, bands, strict=True)]
    placed = in_rows(wanted, (MARGIN, WIDTH - MARGIN), 3, 22)
    rows = max((place[0] for place in placed if place), default=0) + 1
    bottom = top + rows * _ROW + 6
    shapes: list[Shape] = []
    areas = [
        Area(place[1], bottom - 6 - (place[0] + 1) * _ROW, place[1] + width, bottom - 6 - place[0] * _ROW)
        for place, (_, width) in zip(placed, wanted, strict=True)
        if place
    ]
    for place, band, (middle, width) in zip(placed, bands, wanted, strict=True):
        if place:
            row, left = place
            base = bottom - 12 - row * _ROW
            shapes.append(Text(left + width / 2, base, band.name, _LABEL, QUIET, True, "middle"))
            shapes += _leader(band, middle, base, bottom, areas, across)
    return shapes, bottom


def _leader(
    band: Band, middle: float, base: float, bottom: float, areas: Sequence[Area], across: Scale
) -> Iterator[Shape]:
    """Yield a small line from a name to its band, where the name is wider than the band and nothing is between."""
    line = Area(middle - 2, base + 6, middle + 2, bottom)
    is_wider = across(band.end) - across(band.start) < width_of(band.name, _LABEL, True)
    if is_wider and not any(line.overlaps(area) for area in areas):
        yield Line(((middle, base + 5), (middle, bottom)), STRUCK, 1.5)


def _dates(ticks: Sequence[tuple[float, str]], plot: _Plot) -> Iterator[Shape]:
    for day, label in ticks:
        y = int(plot.upward(day)) + 0.5  # on a row of pixels, so that it stays a thin line
        yield Line(((plot.area.left, y), (plot.area.right, y)), GRID, 1)
        yield Text(plot.area.left - 9, y + 6, label, _TICK, QUIET, anchor="end")
    yield Line(((plot.area.left, plot.area.top), (plot.area.left, plot.area.foot)), STRUCK, 1.5)
    yield Line(((plot.area.left, plot.area.foot), (plot.area.right, plot.area.foot)), STRUCK, 1.5)


def _numbers(line: IssueLine, best: Shown, across: Scale) -> tuple[list[Shape], float]:
    """Return the numbers below the plot, from height 0 on, and how high they are together."""
    prefix, suffix = best.one.reading.prefix, best.one.reading.suffix
    bands = sorted(line.bands, key=lambda band: band.start - band.end)[:12]
    ticks = [(band.start, band.first) for band in bands]
    first_inner = len(ticks)
    ticks += line.serial_ticks(round_step(line.length, 7))
    labels = [prefix + digits + suffix for _, digits in ticks]
    wanted = [(across(place), width_of(label, _TICK)) for (place, _), label in zip(ticks, labels, strict=True)]
    placed = in_rows(wanted, (MARGIN, WIDTH - MARGIN), 2, 8)
    kept = [place if place and (not place[0] or i < first_inner) else None for i, place in enumerate(placed)]
    rows = max((place[0] for place in kept if place), default=0) + 1
    shapes: list[Shape] = []
    for place, label, (x, width) in zip(kept, labels, wanted, strict=True):
        if place:
            row, left = place
            shapes.append(Line(((x, 0), (x, 7)), STRUCK, 1.5))
            shapes.append(Text(left + width / 2, 25 + row * 22, label, _TICK, QUIET, anchor="middle"))
    height = 28 + rows * 22
    size = ", which is not the order of their size" if line.turns_back else ""
    words = f"numbers in the order they were issued{size} \N{RIGHTWARDS ARROW}"
    shapes.append(Text(WIDTH - MARGIN, height, words, 17, QUIET, anchor="end"))
    return shapes, height + 10


def _lower(shape: Shape, by: float) -> Shape:
    match shape:
        case Text(x, y, text, size, colour, is_bold, anchor):
            return Text(x, y + by, text, size, colour, is_bold, anchor)
        case Line(points, colour, width, is_dashed):
            return Line(tuple((x, y + by) for x, y in points), colour, width, is_dashed)
    return shape


def _marks(
    line: IssueLine, marked: Sequence[Shown], plot: _Plot, under: Sequence[Point], knowledge: Knowledge
) -> Iterator[Shape]:
    """Yield the marks with their labels; the best one last, so that it lies on top."""
    points = [_point(line, shown, plot) for shown in marked]
    taken = [Area(x - 12, y - 12, x + 12, y + 12) for x, y in points]
    labels: list[Shape] = []
    words = [_label(shown, marked[0], knowledge) for shown in marked]
    wanted = [Wanted(point, *_size(lines)) for point, lines in zip(points, words, strict=True)]
    places = place_all(wanted, plot.area, taken, under)
    for shown, point, lines, area in zip(marked, points, words, places, strict=True):
        if area is not None:
            labels += _labelled(area, point, lines, shown.is_best)
    for shown, point in reversed(list(zip(marked, points, strict=True))):
        yield from _dropped(shown, point, plot)
    yield from (shape for shape in labels if isinstance(shape, Line))
    for shown, point in reversed(list(zip(marked, points, strict=True))):
        yield from _mark(line, shown, point, plot)
    yield from (shape for shape in labels if not isinstance(shape, Line))


def _point(line: IssueLine, shown: Shown, plot: _Plot) -> Point:
    return plot.across(line.place_of(shown.one) or 0.0), plot.upward(shown.when.day)


def _label(shown: Shown, best: Shown, knowledge: Knowledge) -> list[tuple[str, int, bool]]:
    made = model_and_works(shown.one, knowledge)
    if shown.is_best:
        lines = [(shown.serial, 25, True), (date_words(shown.date), 21, False), (made, 18, False)]
    else:
        lines = [(other_reading(shown, best), 19, False), (date_words(shown.date), 18, False), (made, 16, False)]
    return [
        (line, size, bold)
        for text, size, bold in lines
        if text
        for line in wrapped(text, _WIDEST, size, 2, is_bold=bold)
    ]


def _size(lines: Sequence[tuple[str, int, bool]]) -> tuple[float, float]:
    width = max(width_of(text, size, bold) for text, size, bold in lines) + 22
    return width, sum(size + 7 for _, size, _ in lines) + 13.0


def _labelled(area: Area, point: Point, lines: Sequence[tuple[str, int, bool]], is_best: bool) -> Iterator[Shape]:
    colour = MARKED if is_best else STRUCK
    yield Line((point, area.nearest(point)), colour, 1.5)
    yield Box(area.left, area.top, area.right - area.left, area.foot - area.top, PAPER, colour, 2 if is_best else 1)
    y = area.top + 5
    for text, size, bold in lines:
        y += size + 7
        yield Text(area.left + 11, y - 4, text, size, INK if is_best else QUIET, bold)


def _dropped(shown: Shown, point: Point, plot: _Plot) -> Iterator[Shape]:
    x, y = point
    colour, width = (MARKED, 2.0) if shown.is_best else (STRUCK, 1.2)
    yield Line(((plot.area.left, y), (x, y)), colour, width, is_dashed=True)
    yield Line(((x, y), (x, plot.area.foot)), colour, width, is_dashed=True)


def _mark(line: IssueLine, shown: Shown, point: Point, plot: _Plot) -> Iterator[Shape]:
    x, y = point
    colour = MARKED if shown.is_best else QUIET
    for other in shown.spread[:60]:
        place = line.place_of(other)
        when = moment_of(other.date)
        if place is not None and when is not None:
            yield Mark("disc", plot.across(place), plot.upward(when.day), 5, PAPER, colour, 2)
    if shown.is_best:
        yield Mark("disc", x, y, 12, PAPER)
        yield Mark("disc", x, y, 10, MARKED)
        yield Mark("disc", x, y, 3.5, PAPER)
    else:
        yield Mark("disc", x, y, 8, PAPER, QUIET, 3)
