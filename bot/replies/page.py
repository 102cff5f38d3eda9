"""One answer laid out on a page of any width from 40 columns: on a terminal in colour, in mail as plain text."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.box import SIMPLE_HEAD
from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from bot.replies import words
from bot.replies.cleaning import clean
from bot.replies.datings import Datings, Row, datings
from bot.replies.datings import Group as Share
from knowledge import wording
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.packs.paths import find_drawing

WIDE = 88
"""From this many columns on the datings stand in a table; below, each is an entry of two or three lines."""
WIDEST = 110
"""Lines are not made longer than this, however wide the screen is."""


@dataclass(frozen=True, slots=True)
class Manner:
    """How to lay out: every dating or the likely ones, how much beside them, and where drawings are looked for.

    `told` are cautions that were said before and are left out; `how_to_see_all` tells how to get the datings left out,
    and `how_to_answer` how to answer the question back; `to_experts` how to put the question to a group's experts.
    """

    everything: bool = False
    told: frozenset[str] = frozenset()
    how_to_see_all: str = ""
    how_to_answer: str = ""
    to_experts: str = ""
    sections: frozenset[str] = frozenset({"cautions", "working", "parts", "next"})
    folders: tuple[Path, ...] = ()


_USUAL = Manner()


def as_text(answer: Answer, knowledge: Knowledge, width: int, manner: Manner = _USUAL) -> str:
    """Return an answer as plain text of at most `width` columns, as it stands in mail or a pipe."""
    return as_plain(lambda console: show(answer, knowledge, console, manner), width)


def as_plain(printing: Callable[[Console], None], width: int) -> str:
    """Return what `printing` prints as plain text, without spaces at the ends of lines."""
    page = io.StringIO()
    printing(Console(file=page, width=width, color_system=None, markup=False, highlight=False))
    return "".join(line.rstrip() + "\n" for line in page.getvalue().splitlines())


def show(answer: Answer, knowledge: Knowledge, console: Console, manner: Manner = _USUAL) -> None:
    """Print an answer to a console."""
    width = min(console.width, WIDEST)
    for place, section in enumerate(_sections(answer, knowledge, width, manner)):
        if place:
            console.print()
        console.print(section, width=width, crop=False)


def show_places(answer: Answer, knowledge: Knowledge, console: Console, manner: Manner = _USUAL) -> None:
    """Print only where the number is found."""
    width = min(console.width, WIDEST)
    if answer.places:
        console.print(_titled("Where the number is", _places(answer, knowledge, manner)), width=width, crop=False)
    else:
        console.print(_text(words.NO_PLACE), width=width)


def _sections(answer: Answer, knowledge: Knowledge, width: int, manner: Manner) -> Iterator[RenderableType]:
    short = words.short_answer(answer, knowledge)
    if short:
        yield Group(*(_text(line, "bold") for line in short))
    if answer.places:
        yield _titled("Where the number is", _places(answer, knowledge, manner))
    shown = datings(answer, knowledge, manner.everything)
    if shown.groups:
        yield _titled("Datings, likeliest first", _datings(shown, width, manner.how_to_see_all))
    cautions = [caution.text for caution in answer.cautions if caution.text not in manner.told]
    if cautions and "cautions" in manner.sections:
        yield _titled("Please check", [_bullet(text) for text in cautions])
    if "parts" in manner.sections:
        yield from _parts(answer, knowledge)
    if answer.tokens and "working" in manner.sections:
        yield _titled("How it was found", (_bullet(line) for line in answer.working))
    if shown.sources:
        yield _titled("Sources", (_marked(f"[{at}]", line) for at, line in enumerate(shown.sources, 1)))
    if answer.ask_back is not None:
        yield _question(answer, manner)
    further = words.ask_a_person(answer, manner.to_experts)
    if further and "next" in manner.sections:
        yield _text(further)


def _text(line: str, style: str = "") -> Text:
    return Text(clean(line), style)


def _titled(title: str, body: Iterator[RenderableType] | Sequence[RenderableType]) -> Group:
    return Group(Text(title, "bold cyan"), *body)


def _bullet(line: str) -> Table:
    return _marked("-", line)


def _marked(mark: str, line: str, style: str = "") -> Table:
    grid = Table.grid(padding=(0, 1))
    grid.add_column(no_wrap=True)
    grid.add_column(overflow="fold")
    grid.add_row(Text(mark), _text(line, style))
    return grid


def _datings(shown: Datings, width: int, how_to_see_all: str) -> Iterator[RenderableType]:
    for share in shown.groups:
        if len(shown.groups) > 1:
            yield Text(clean(share.title), "bold")
        if width >= WIDE:
            yield _table(share)
        else:
            yield from (_entry(row) for row in share.rows)
        yield Text(_rest(share, how_to_see_all), "dim")


def _rest(share: Share, how_to_see_all: str) -> str:
    none = f"None of these: {share.none_of_these}."
    if not share.left_out:
        return none
    return f"And {share.left_out:,} more, less likely{how_to_see_all}. {none}"


def _table(share: Share) -> Table:
    table = Table(box=SIMPLE_HEAD, pad_edge=False, padding=(0, 1, 0, 0), show_edge=False, expand=True)
    table.add_column("How likely", justify="right", no_wrap=True)
    table.add_column("Number", overflow="fold")
    table.add_column("Model and works", overflow="fold", ratio=2)
    table.add_column("Date", overflow="fold", min_width=11)
    table.add_column("Block, and how it was read", overflow="fold", ratio=3)
    table.add_column("Source", no_wrap=True)
    for row in share.rows:
        made = f"{row.model}\n{row.works}" if row.works else row.model
        cells = (row.likelihood, row.serial, made, row.date, f"{row.block};\n{row.found}", row.source)
        table.add_row(*(_text(cell) for cell in cells))
    return table


def _entry(row: Row) -> RenderableType:
    """Lay out one dating where a table would not fit."""
    head = Text.assemble((f"{row.likelihood:>8}  ", "bold"), (clean(row.serial), "bold"))
    named = ", ".join(part for part in (row.model, row.works) if part)
    lines = (named, row.date, f"{row.block}; {row.found} {row.source}")
    return Group(head, Padding(Group(*(_text(line) for line in lines if line)), (0, 0, 0, 10)))


def _parts(answer: Answer, knowledge: Knowledge) -> Iterator[RenderableType]:
    models = dict.fromkeys(one.model for one in answer.candidates if one.likelihood >= words.ALSO and one.model)
    lines = []
    for id_ in list(models)[:3]:
        model = knowledge.models.get(id_)
        fittings = words.parts_of(model) if model else ""
        if model and fittings:
            source = f"source: {wording.titles(model.source, knowledge)}" if model.source else words.NO_SOURCE
            note = f"; {model.note}" if model.note else ""
            lines.append(_bullet(f"{model.name}: {fittings}{note} ({source})"))
    if lines:
        yield _titled("Compare with the machine", lines)


def _places(answer: Answer, knowledge: Knowledge, manner: Manner) -> Iterator[RenderableType]:
    for place in words.of_machines(answer, knowledge):
        name = words.place_words(place.maker, place.model, knowledge)
        yield _bullet(f"{name}: {place.text}")
        drawing = drawing_path(place.drawing, manner.folders)
        if drawing:
            yield Text(f"  Drawing: {_short_path(drawing)}", no_wrap=True, overflow="ignore")


def drawing_path(drawing: str, folders: Sequence[Path]) -> Path | None:
    """Return the file of a drawing, by its path in one of these packs or by its name there; None when there is none.

    A path that leads out of a pack is refused.
    """
    return find_drawing(drawing, folders)


def _short_path(path: Path) -> Path:
    return path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else path


def _question(answer: Answer, manner: Manner) -> RenderableType:
    assert answer.ask_back is not None
    choices = (_marked(f"{at})", choice) for at, choice in enumerate(answer.ask_back.choices, 1))
    further = [_text(manner.how_to_answer)] if manner.how_to_answer else []
    return Group(_text(answer.ask_back.text, "bold yellow"), *choices, *further)
