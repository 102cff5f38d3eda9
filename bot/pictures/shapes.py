"""What a picture is made of. Layouts make these shapes, `png` and `svg` draw them; neither knows of the other.

Lengths are pixels of the finished picture, x to the right, y downward. Texts lie above everything else.
"""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]

PAPER = "#fbf9f4"
INK = "#2a2e35"
QUIET = "#5d6470"
GRID = "#dfd9cc"
TINTS = ("#f3eee1", "#fbf9f4")
ZERO_LED_TINT = "#e3ebef"
MARKED = "#b3261e"
STRUCK = "#8d939e"


@dataclass(frozen=True, slots=True)
class Style:
    """How one works is drawn: told apart by colour, by lightness, by shape, and by an open or closed stroke."""

    colour: str
    shape: str
    is_open: bool


STYLES = (
    Style("#1f4e79", "disc", False),
    Style("#c47a12", "square", True),
    Style("#3f8f83", "triangle", False),
    Style("#7a3b69", "diamond", True),
    Style("#6b7078", "cross", False),
)
"""The last one stands for all further works together."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle. Without `outline` it has no edge."""

    x: float
    y: float
    width: float
    height: float
    fill: str
    outline: str = ""
    stroke: float = 1.5


@dataclass(frozen=True, slots=True)
class Line:
    """A line through two or more points."""

    points: tuple[Point, ...]
    colour: str
    width: float
    is_dashed: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """A small sign around a point: `disc`, `square`, `triangle`, `diamond` or `cross`; `arrow-up` and the like."""

    shape: str
    x: float
    y: float
    radius: float
    fill: str
    outline: str = ""
    stroke: float = 2.0


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text on its base line. `anchor` is the end that stands at `x`: `start`, `middle` or `end`."""

    x: float
    y: float
    text: str
    size: int
    colour: str = INK
    is_bold: bool = False
    anchor: str = "start"


Shape = Box | Line | Mark | Text


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished layout. `title` and `description` say the same in words, for those who do not see it."""

    width: int
    height: int
    shapes: tuple[Shape, ...]
    title: str
    description: str

    def drawn_first(self) -> tuple[Shape, ...]:
        """Return everything but the texts."""
        return tuple(shape for shape in self.shapes if not isinstance(shape, Text))

    def texts(self) -> tuple[Text, ...]:
        """Return the texts, which lie above everything else."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))


def channels(colour: str) -> tuple[int, ...]:
    """Return red, green and blue of a colour, 0 to 255 each."""
    return tuple(int(colour[place : place + 2], 16) for place in (1, 3, 5))


def blend(colour: str, ground: str, part: float) -> str:
    """Return a colour mixed with so much of the ground, 0 to 1.

    >>> blend("#000000", "#ffffff", 0.2)
    '#333333'
    """
    pairs = zip(channels(colour), channels(ground), strict=True)
    return "#" + "".join(f"{round(own * (1 - part) + under * part):02x}" for own, under in pairs)


def colours_of(shape: Shape) -> tuple[str, ...]:
    """Return the colours a shape is drawn with."""
    match shape:
        case Box() | Mark():
            return (shape.fill, shape.outline) if shape.outline else (shape.fill,)
        case Line() | Text():
            return (shape.colour,)


def outline_of(mark: Mark) -> tuple[Point, ...]:
    """Return the corners of a mark; empty for a disc, which has none.

    >>> outline_of(Mark("diamond", 10, 10, 4, "#000000"))
    ((10, 6), (14, 10), (10, 14), (6, 10))
    """
    x, y, r = mark.x, mark.y, mark.radius
    return tuple((x + across * r, y + down * r) for across, down in _CORNERS.get(mark.shape, ()))


_CORNERS: dict[str, tuple[Point, ...]] = {
    "square": ((-0.85, -0.85), (0.85, -0.85), (0.85, 0.85), (-0.85, 0.85)),
    "triangle": ((0, -1), (1, 0.8), (-1, 0.8)),
    "diamond": ((0, -1), (1, 0), (0, 1), (-1, 0)),
    "cross": (
        (-0.3, -1), (0.3, -1), (0.3, -0.3), (1, -0.3), (1, 0.3), (0.3, 0.3),
        (0.3, 1), (-0.3, 1), (-0.3, 0.3), (-1, 0.3), (-1, -0.3), (-0.3, -0.3),
    ),
    "arrow-up": ((0, -1), (0.9, 0.7), (-0.9, 0.7)),
    "arrow-down": ((0, 1), (0.9, -0.7), (-0.9, -0.7)),
    "arrow-right": ((1, 0), (-0.7, 0.9), (-0.7, -0.9)),
    "arrow-left": ((-1, 0), (0.7, 0.9), (0.7, -0.9)),
}  # fmt: skip
