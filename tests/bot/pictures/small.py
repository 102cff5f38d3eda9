"""Small packs of our own, and what the tests of pictures ask of a layout."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import combinations

from bot.pictures import can_draw, lay_out
from bot.pictures.fonts import width_of
from bot.pictures.issue_line import IssueLine, issue_line
from bot.pictures.labels import Area
from bot.pictures.marks import best_of
from bot.pictures.shapes import MARKED, Mark, Picture, Text
from knowledge.answer import Answer, answer
from knowledge.base import Knowledge
from knowledge.packs.tables import Pack, Table

ALLOCATIONS = ("prefix", "first", "last", "suffix", "date", "model", "works", "quantity")
Row = Sequence[str]


def table(name: str, columns: Sequence[str], rows: Sequence[Row]) -> Table:
    return Table.of(name, {column: [row[place] for row in rows] for place, column in enumerate(columns)})


def known(rows: Sequence[Row], *more: Table, maker: str = "Tillerby & Sons", model: str = "Model Ida") -> Knowledge:
    """A pack with one register, its allocations in the order given; `more` are further tables, or others for these."""
    placed = [("r", str(place), *row, *[""] * (8 - len(row))) for place, row in enumerate(rows, 1)]
    register = ("r", "m", "allocations", "allocation", "s")
    tables = [
        table("makers", ("maker", "name"), [("m", maker)]),
        table("models", ("model", "maker", "name"), [("ida", "m", model)]),
        table("works", ("works", "name"), [("a", "Lower Mill"), ("b", "Quayside Works"), ("c", "Upper Mill")]),
        table("sources", ("source", "title"), [("s", "The number book (invented)")]),
        table("registers", ("register", "maker", "kind", "object", "source"), [register]),
        table("allocations", ("register", "order", *ALLOCATIONS), placed),
        *more,
    ]
    return Knowledge.of([Pack.of("invented", *tables)])


def in_blocks(prefix: str, first: int, width: int, begun: str, count: int, works: Sequence[str] = ("a",)) -> list[Row]:
    """Blocks of 5,000 that follow each other, one every 30 days."""
    rows: list[Row] = []
    for place in range(count):
        start = first + place * 5_000
        day = date.fromisoformat(begun) + timedelta(days=30 * place)
        ends = (str(start).zfill(width), str(start + 4_999).zfill(width))
        rows.append((prefix, *ends, "", day.isoformat(), "ida", works[place % len(works)]))
    return rows


THREE_SERIES = [
    *in_blocks("Q", 200_001, 6, "1890-01-01", 40),
    *in_blocks("Q", 1_000_000, 7, "1893-06-01", 200),
    *in_blocks("Q", 1, 7, "1910-01-01", 60),
]
"""Six digits first, then seven from a million on, those led by a zero last: the order of issue of the trade."""


def asked(text: str, knowledge: Knowledge) -> Answer:
    found = answer(text, knowledge)
    assert can_draw(found), f"nothing to draw for {text!r}"
    return found


def picture_of(text: str, knowledge: Knowledge) -> Picture:
    return lay_out(asked(text, knowledge), knowledge)


def line_of(text: str, knowledge: Knowledge) -> IssueLine:
    best = best_of(asked(text, knowledge))
    assert best is not None
    line = issue_line(best, (), knowledge)
    assert line is not None
    return line


def place_marked(picture: Picture) -> float:
    """How far to the right the best dating is marked."""
    return next(shape.x for shape in picture.shapes if isinstance(shape, Mark) and shape.fill == MARKED)


def area_of(text: Text) -> Area:
    width = width_of(text.text, text.size, text.is_bold)
    left = text.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * width
    return Area(left, text.y - 0.75 * text.size, left + width, text.y + 0.2 * text.size)


def assert_words_can_be_read(picture: Picture) -> None:
    texts = [(text.text, area_of(text)) for text in picture.texts()]
    page = Area(0, 0, picture.width, picture.height)
    for words, area in texts:
        assert page.holds(area), f"{words!r} leaves the page"
    for (words, area), (others, other) in combinations(texts, 2):
        assert not area.overlaps(other), f"{words!r} lies on {others!r}"


def code_register() -> tuple[Table, Table]:
    """A letter T, the last figure of the year, five digits: each code stands for two or three years."""
    columns = ("register", "part", "length", "characters", "means", "table", "constant")
    parts = [
        ("r", "1", "1", "letters", "constant", "", "T"),
        ("r", "2", "1", "digits", "year", "", ""),
        ("r", "3", "5", "digits", "sequence", "", ""),
    ]
    title = "Tillerby: last figure of the year"
    register = ("r", "m", "date-code", title, "1925", "1949", "s")
    return (
        table("registers", ("register", "maker", "kind", "title", "from", "to", "source"), [register]),
        table("date-codes", columns, parts),
    )
