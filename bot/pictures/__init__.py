"""Pictures that go with an answer: where a number stands among all others, in order of issue, against the date.

    answer -> what to mark (marks) -> where it lies (issue_line) -> shapes on a page (register_picture or
    times_picture, with labels, scales, strokes and words) -> a file (png or svg)

Layouts know nothing of files, files nothing of registers: both speak in the shapes of `shapes`.
"""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path
from typing import Literal

from bot.pictures.issue_line import issue_line
from bot.pictures.marks import best_of, dates_of, of_one_list, of_registers, shown
from bot.pictures.png import as_png
from bot.pictures.register_picture import register_picture
from bot.pictures.shapes import Picture
from bot.pictures.svg import as_svg
from bot.pictures.times_picture import MOST_ROWS, times_picture
from bot.pictures.words import title
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.errors import BedstampError, UsageError

__all__ = ["alt_text", "can_draw", "draw", "lay_out", "render"]

Kind = Literal["png", "svg"]
_KINDS: dict[str, Kind] = {".png": "png", ".svg": "svg"}


def can_draw(answer: Answer) -> bool:
    """Tell whether there is anything to draw: a dating whose date is known at one end at least."""
    return best_of(of_registers(answer)) is not None


def draw(answer: Answer, knowledge: Knowledge, path: str | os.PathLike[str]) -> None:
    """Write the picture of an answer to a file, PNG or SVG by its ending. The file is there whole or not at all.

    Raises UsageError for another ending, BedstampError when there is nothing to draw or the file cannot be written.
    """
    target = Path(path)
    kind = _KINDS.get(target.suffix.lower())
    if kind is None:
        raise UsageError(f"{target}: a picture is written as PNG or SVG. Give it a name that ends in .png or .svg.")
    _write(render(answer, knowledge, kind), target)


def render(answer: Answer, knowledge: Knowledge, kind: Kind = "png") -> bytes:
    """Return the picture of an answer as the bytes of a file. Raises BedstampError when there is nothing to draw."""
    picture = lay_out(answer, knowledge)
    return as_svg(picture) if kind == "svg" else as_png(picture)


def alt_text(answer: Answer, knowledge: Knowledge) -> str:
    """Return the picture in words, for those who do not see it. Raises BedstampError when there is nothing to draw."""
    return lay_out(answer, knowledge).description


def lay_out(answer: Answer, knowledge: Knowledge) -> Picture:
    """Return the picture of an answer as shapes. Raises BedstampError when there is nothing to draw."""
    answer = of_registers(answer)
    marked = shown(answer)
    if not marked:
        raise BedstampError(
            "There is nothing to draw: no register dates a number in this question. "
            "Ask about a serial number, with its letters and all its digits."
        )
    best = marked[0]
    heading = title(best, *dates_of(answer, best))
    line = issue_line(best.one, [other.one for other in marked[1:]], knowledge) if best.one.first else None
    if line is not None:
        return register_picture(heading, line, marked, knowledge)
    rows, more = of_one_list(answer, MOST_ROWS)
    return times_picture(heading, best, rows, more, knowledge)


def _write(content: bytes, target: Path) -> None:
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.stem}-", suffix=target.suffix)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            os.chmod(name, 0o644)
            os.replace(name, target)
        except BaseException:
            with contextlib.suppress(OSError):
                os.unlink(name)
            raise
    except OSError as error:
        raise BedstampError(
            f"{target}: the picture cannot be written ({error.strerror or error}). "
            "Name a file in a folder that exists, has room, and that you may write to."
        ) from error
