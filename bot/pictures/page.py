"""The page every picture stands on: paper, title and subtitle above, source and small print below."""

from __future__ import annotations

from collections.abc import Sequence

from bot.pictures.fonts import fitted, width_of, wrapped
from bot.pictures.shapes import INK, PAPER, QUIET, Box, Shape, Text

WIDTH = 1000
MARGIN = 30
INNER = WIDTH - 2 * MARGIN
_TITLES = (31, 28, 25, 23)
_SUBTITLE, _SMALL = 20, 17


def head(title: str, subtitle: str) -> tuple[list[Shape], float]:
    """Return title and subtitle, and the height where the rest of the page begins."""
    size = next((size for size in _TITLES if width_of(title, size, True) <= INNER), _TITLES[-1])
    shapes: list[Shape] = []
    y = 18.0
    for line in wrapped(title, INNER, size, 2, is_bold=True):
        y += size + 6
        shapes.append(Text(MARGIN, y - 4, line, size, INK, True))
    for line in wrapped(subtitle, INNER, _SUBTITLE, 2):
        y += _SUBTITLE + 7
        shapes.append(Text(MARGIN, y, line, _SUBTITLE, QUIET))
    return shapes, y + 12


def foot(height: float, parts: Sequence[str]) -> tuple[list[Shape], float]:
    """Return the small lines at the foot of a page, and the height where they begin."""
    lines = [line for part in parts if part for line in wrapped(part, INNER, _SMALL, 2)]
    top = height - 16 - len(lines) * (_SMALL + 6)
    shapes: list[Shape] = [
        Text(MARGIN, top + (place + 1) * (_SMALL + 6) - 5, line, _SMALL, QUIET) for place, line in enumerate(lines)
    ]
    return shapes, top


def paper(height: float) -> Box:
    """Return the sheet itself."""
    return Box(0, 0, WIDTH, height, PAPER)


def text_in(x: float, y: float, text: str, size: int, width: float, colour: str = INK, bold: bool = False) -> Text:
    """Return a text cut to a width."""
    return Text(x, y, fitted(text, width, size, bold), size, colour, bold)
