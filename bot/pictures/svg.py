"""Draw a picture as SVG: plain text, no scripts, nothing fetched, a title and a description for screen readers."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from bot.pictures.shapes import Box, Line, Mark, Picture, Shape, Text, outline_of

_ROLE = 'role="img" aria-labelledby="title description" font-family="sans-serif"'


def as_svg(picture: Picture) -> bytes:
    """Return the picture as an SVG file in UTF-8."""
    size = f'width="{picture.width}" height="{picture.height}"'
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {picture.width} {picture.height}" {_ROLE}>',
        f'<title id="title">{_words(picture.title)}</title>',
        f'<desc id="description">{_words(picture.description)}</desc>',
        *(_element(shape) for shape in (*picture.drawn_first(), *picture.texts())),
        "</svg>\n",
    ]
    return "\n".join(lines).encode()


def _element(shape: Shape) -> str:
    match shape:
        case Box():
            edge = _edge(shape.outline, shape.stroke)
            at = f'x="{_n(shape.x)}" y="{_n(shape.y)}" width="{_n(shape.width)}" height="{_n(shape.height)}"'
            return f'<rect {at} fill="{shape.fill}"{edge}/>'
        case Line():
            dash = f' stroke-dasharray="{_n(2 * shape.width + 2)}"' if shape.is_dashed else ""
            edge = _edge(shape.colour, shape.width)
            return f'<polyline points="{_points(shape.points)}" fill="none"{edge}{dash} stroke-linejoin="round"/>'
        case Mark():
            return _mark(shape)
        case Text():
            weight = ' font-weight="bold"' if shape.is_bold else ""
            anchor = "" if shape.anchor == "start" else f' text-anchor="{shape.anchor}"'
            at = f'x="{_n(shape.x)}" y="{_n(shape.y)}" font-size="{shape.size}"'
            return f'<text {at} fill="{shape.colour}"{weight}{anchor}>{_words(shape.text)}</text>'


def _mark(mark: Mark) -> str:
    edge = _edge(mark.outline, mark.stroke)
    corners = outline_of(mark)
    if corners:
        return f'<polygon points="{_points(corners)}" fill="{mark.fill}"{edge}/>'
    return f'<circle cx="{_n(mark.x)}" cy="{_n(mark.y)}" r="{_n(mark.radius)}" fill="{mark.fill}"{edge}/>'


def _edge(colour: str, width: float) -> str:
    return f' stroke={quoteattr(colour)} stroke-width="{_n(width)}"' if colour else ""


def _points(points: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(number: float) -> str:
    return f"{number:.1f}".removesuffix(".0")


def _words(text: str) -> str:
    return escape("".join(c if c.isprintable() else " " for c in text))
