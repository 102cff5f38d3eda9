"""Draw a picture as PNG with Pillow, which is loaded only when a picture is drawn.

Shapes are drawn at twice the size and reduced, so their edges are smooth; texts are drawn at their size, their edges
are smooth by themselves.
"""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from bot.pictures.fonts import font_for
from bot.pictures.shapes import (
    PAPER,
    TINTS,
    ZERO_LED_TINT,
    Box,
    Line,
    Mark,
    Picture,
    Point,
    Shape,
    blend,
    channels,
    colours_of,
    outline_of,
)

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw

_FINER = 2
_MOST_COLOURS = 256
_NEARLY = 9
_BLENDS = (0.2, 0.4, 0.6, 0.8)
"""The steps by which a colour fades into the ground at a smooth edge."""
_PACKED = 6
_ANCHORS = {"start": "ls", "middle": "ms", "end": "rs"}


def as_png(picture: Picture) -> bytes:
    """Return the picture as a PNG file; the same picture always gives the same bytes."""
    from PIL import Image, ImageDraw

    fine = Image.new("RGB", (picture.width * _FINER, picture.height * _FINER), PAPER)
    pen = ImageDraw.Draw(fine)
    for shape in picture.drawn_first():
        _draw(pen, shape)
    image = fine.reduce(_FINER)
    pen = ImageDraw.Draw(image)
    for text in picture.texts():
        font = font_for(text.text, text.size, text.is_bold)
        at = (round(text.x), round(text.y))
        pen.text(at, text.text, font=font, fill=text.colour, anchor=_ANCHORS[text.anchor])
    few = Image.new("P", (1, 1))
    few.putpalette(_palette(picture))
    small = image.quantize(palette=few, dither=Image.Dither.NONE)
    file = BytesIO()
    small.save(file, "PNG", compress_level=_PACKED)
    return file.getvalue()


def _palette(picture: Picture) -> list[int]:
    """Return the picture's own colours and their blends into its grounds: few colours make a small file.

    Blends that nearly are another colour are left out: Pillow tells colours apart by their leading bits only, and
    would take one for the other.
    """
    own = dict.fromkeys(colour for shape in picture.shapes for colour in colours_of(shape))
    kept = [channels(colour) for colour in own]
    for part in _BLENDS:
        for ground in (PAPER, *TINTS, ZERO_LED_TINT):
            for colour in own if ground in own else ():
                made = channels(blend(colour, ground, part))
                if all(_apart(made, known) for known in kept):
                    kept.append(made)
    return [channel for colour in kept[:_MOST_COLOURS] for channel in colour]


def _apart(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return any(abs(a - b) > _NEARLY for a, b in zip(one, other, strict=True))


def _draw(pen: ImageDraw, shape: Shape) -> None:
    match shape:
        case Box():
            x, y = shape.x * _FINER, shape.y * _FINER
            right, foot = x + shape.width * _FINER - 1, y + shape.height * _FINER - 1
            edge = round(shape.stroke * _FINER) if shape.outline else 0
            pen.rectangle((x, y, max(x, right), max(y, foot)), shape.fill, shape.outline or None, edge)
        case Line():
            width = max(1, round(shape.width * _FINER))
            points = [(x * _FINER, y * _FINER) for x, y in shape.points]
            for run in _dashes(points, 2 * width + 2 * _FINER) if shape.is_dashed else (points,):
                pen.line(run, shape.colour, width, joint="curve" if _is_slanted(run) else None)
        case Mark():
            _draw_mark(pen, shape)


def _draw_mark(pen: ImageDraw, mark: Mark) -> None:
    edge = round(mark.stroke * _FINER) if mark.outline else 0
    corners = [(x * _FINER, y * _FINER) for x, y in outline_of(mark)]
    if corners:
        pen.polygon(corners, mark.fill, mark.outline or None, edge)
    else:
        x, y, r = mark.x * _FINER, mark.y * _FINER, mark.radius * _FINER
        pen.ellipse((x - r, y - r, x + r, y + r), mark.fill, mark.outline or None, edge)


def _is_slanted(points: list[Point]) -> bool:
    """Tell whether any piece is neither level nor upright: only such corners need rounding."""
    return any(a[0] != b[0] and a[1] != b[1] for a, b in pairwise(points))


def _dashes(points: list[Point], length: float) -> list[list[Point]]:
    """Return the drawn pieces of a dashed line, each piece and each gap of this length."""
    pieces: list[list[Point]] = []
    for (x, y), (right, foot) in pairwise(points):
        whole = hypot(right - x, foot - y)
        for start in range(0, int(whole) + 1, int(2 * length)):
            ends = (start / whole, min(1.0, (start + length) / whole)) if whole else (0.0, 0.0)
            pieces.append([(x + (right - x) * part, y + (foot - y) * part) for part in ends])
    return pieces
