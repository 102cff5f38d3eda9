"""The strokes of a line of numbers: a step for each block, thinned where many blocks share a pixel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from bot.pictures.issue_line import IssueLine, Stretch
from bot.pictures.scales import Scale
from bot.pictures.shapes import GRID, PAPER, STYLES, Box, Line, Mark, Point, Shape, Style, blend

_WIDTH = 4.5
_TALL = 5.0
"""A date that spans more pixels than this is shown as a pale box behind its stroke."""
_PALE = 0.8
_SIGN_EVERY = 100
_LANE = 13.0
UNDATED = "#d5cfc1"


class Step(NamedTuple):
    """One block on the page: from x to x at height y, its date between top and foot; `works` counts the styles."""

    left: float
    right: float
    y: float
    top: float
    foot: float
    works: int
    stretch: Stretch


def works_of(line: IssueLine) -> list[str]:
    """Return the ids of the works on a line, the first to have numbers first; at most as many as there are styles."""
    return list(dict.fromkeys(stretch.block.works for stretch in line.stretches))


def steps_of(line: IssueLine, across: Scale, upward: Scale) -> list[Step]:
    """Return the steps of all dated blocks in order of issue."""
    styles = {works: min(place, len(STYLES) - 1) for place, works in enumerate(works_of(line))}
    steps = []
    for stretch in line.stretches:
        if stretch.when is not None:
            earliest, latest = stretch.when
            y = upward(stretch.when.day)
            top = y if latest is None else upward(latest)
            foot = y if earliest is None else upward(earliest)
            left, right = across(stretch.start), across(stretch.start + stretch.size)
            steps.append(Step(left, right, y, top, foot, styles[stretch.block.works], stretch))
    return steps


def strokes(steps: Sequence[Step]) -> Iterator[Shape]:
    """Yield the shapes of the steps: pale boxes for long dates, then the strokes of each works, then open ends."""
    yield from _spans(steps)
    for style, points in _runs(steps):
        yield Line(points, style.colour, _WIDTH + (2 if style.is_open else 0))
        if style.is_open:
            yield Line(points, PAPER, _WIDTH - 2)
    yield from _open_ends(steps)
    if len({step.works for step in steps}) > 1:
        yield from _signs(steps)


def undated(line: IssueLine, across: Scale, top: float, foot: float) -> Iterator[Shape]:
    """Yield a grey column for each run of blocks without a date."""
    for left, right in _joined((s.start, s.start + s.size) for s in line.stretches if s.when is None):
        yield Box(across(left), top, max(1.0, across(right) - across(left)), foot - top, UNDATED)


def lanes(line: IssueLine, across: Scale, top: float) -> tuple[list[Shape], float]:
    """Return one lane for each works, marking which numbers it had, and the height where they end."""
    names = works_of(line)
    if len(names) < 2:
        return [], top
    shapes: list[Shape] = []
    count = min(len(names), len(STYLES))
    for place in range(count):
        style = STYLES[place]
        y = top + 4 + place * _LANE
        own = names[place:] if place == count - 1 else [names[place]]
        shapes.append(Line(((across(0), y + _LANE / 2), (across(line.length), y + _LANE / 2)), GRID, 1))
        fill = PAPER if style.is_open else style.colour
        shapes.append(Mark(style.shape, across(0) - 14, y + _LANE / 2, 5.5, fill, style.colour, 1.5))
        held = ((s.start, s.start + s.size) for s in line.stretches if s.block.works in own)
        for left, right in _joined(held, nearer=abs(1 / (across(1) - across(0)))):
            width = max(1.0, across(right) - across(left))
            shapes.append(Box(across(left), y + 2, width, _LANE - 4, fill, style.colour))
    return shapes, top + 4 + count * _LANE


def under_strokes(steps: Sequence[Step], every: float = 9.0) -> list[Point]:
    """Return points along the strokes, for labels to keep clear of."""
    points: list[Point] = []
    before = 0.0
    for step in steps:
        x = max(step.left, before)
        while x <= step.right:
            points.append((x, step.y))
            x += every
        before = x
    return points


def _spans(steps: Sequence[Step]) -> Iterator[Shape]:
    columns: dict[tuple[int, int, int], Step] = {}
    for step in steps:
        if step.foot - step.top > _TALL:
            key = (step.works, round(step.left), round(step.right))
            known = columns.get(key, step)
            columns[key] = known._replace(top=min(known.top, step.top), foot=max(known.foot, step.foot))
    for step in columns.values():
        colour = blend(STYLES[step.works].colour, PAPER, _PALE)
        yield Box(step.left, step.top, max(1.0, step.right - step.left), step.foot - step.top, colour)


def _runs(steps: Sequence[Step]) -> Iterator[tuple[Style, tuple[Point, ...]]]:
    """Yield the stroke of each run of steps of one works that follow each other without a gap."""
    run: list[Point] = []
    works = -1
    drawn: dict[int, Point] = {}
    for step in steps:
        follows = bool(run) and step.works == works and abs(run[-1][0] - step.left) < 0.01
        if not follows:
            yield from _run(works, run, drawn)
            run, works = [], step.works
        run += ((step.left, step.y), (step.right, step.y))
    yield from _run(works, run, drawn)


def _run(works: int, run: Sequence[Point], drawn: dict[int, Point]) -> Iterator[tuple[Style, tuple[Point, ...]]]:
    """Yield one stroke, at least a pixel long, unless it would lie on the one drawn before."""
    if not run:
        return
    points = _thinned(run)
    (left, y), (right, _) = points[0], points[-1]
    if right - left < 1:
        known = drawn.get(works, (-9.0, 0.0))
        if abs(known[0] - left) < 1 and abs(known[1] - y) < 1:
            return
        points = [*points[:-1], (left + 1, points[-1][1])]
    drawn[works] = points[-1]
    yield STYLES[works], tuple(points)


def _thinned(points: Sequence[Point]) -> list[Point]:
    """Keep of all points within one pixel column the first, the highest, the lowest and the last."""
    kept: list[Point] = []
    column: list[Point] = []
    for point in points:
        if column and int(point[0]) != int(column[0][0]):
            kept += _outermost(column)
            column = []
        column.append(point)
    return kept + _outermost(column)


def _outermost(column: Sequence[Point]) -> list[Point]:
    if len(column) <= 4:
        return list(column)
    low, high = min(column, key=lambda point: point[1]), max(column, key=lambda point: point[1])
    return list(dict.fromkeys((column[0], low, high, column[-1])))


def _open_ends(steps: Sequence[Step]) -> Iterator[Shape]:
    for step in steps:
        colour = STYLES[step.works].colour
        if step.stretch.is_open:
            yield Mark("arrow-right", step.right, step.y, 8, colour)
        if step.stretch.when is not None and step.right - step.left >= 12:
            earliest, latest = step.stretch.when
            middle = (step.left + step.right) / 2
            if latest is None:
                yield Mark("arrow-up", middle, step.y - 10, 7, colour)
            if earliest is None:
                yield Mark("arrow-down", middle, step.y + 10, 7, colour)


def _signs(steps: Sequence[Step]) -> Iterator[Shape]:
    """Yield the sign of its works here and there on each stroke, so that black and white tells them apart too."""
    last: dict[int, float] = {}
    count = len({step.works for step in steps})
    begun = steps[0].left - _SIGN_EVERY
    for step in steps:
        middle = (step.left + step.right) / 2
        if middle - last.get(step.works, begun + step.works * _SIGN_EVERY / count) >= _SIGN_EVERY:
            last[step.works] = middle
            style = STYLES[step.works]
            yield Mark(style.shape, middle, step.y, 8, PAPER if style.is_open else style.colour, style.colour)


def _joined(spans: Iterable[tuple[float, float]], nearer: float = 0.01) -> Iterator[tuple[float, float]]:
    """Yield spans in order, those that touch, or nearly so, made one."""
    current: tuple[float, float] | None = None
    for left, right in spans:
        if current is not None and left - current[1] <= nearer:
            current = (current[0], right)
        else:
            if current is not None:
                yield current
            current = (left, right)
    if current is not None:
        yield current
