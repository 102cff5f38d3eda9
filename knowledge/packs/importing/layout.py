"""From a sheet to columns of known meaning and the rows that hold data; what is not clear is asked."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NoReturn

from knowledge.names import fold
from knowledge.packs.faults import counted
from knowledge.packs.importing.ditto import blanks_below, fill_blanks, fill_dittos, first_blank_below, is_ditto
from knowledge.packs.importing.headings import LEAVE_OUT, NUMBERS, TARGETS, Heading, find_head
from knowledge.packs.importing.questions import Interview
from knowledge.packs.importing.sheet import Sheet, SheetError

KEEP = "keep as it is"
SAME_AS_ABOVE, EMPTY = "same as above", "empty"
_CARRIED_DOWN = ("register", "prefix", "date", "model", "works", "source")
_TOTALS = "total|sum|summe|gesamt|insgesamt|totaal|razem|suma|summa|итого|всего|somme".split("|")
_MOST_COLUMNS = 100
_WORD = re.compile(r"[^\W\d_]{5}")  # longer than the letters of any number
_TOLD = 5  # rows named in a note


@dataclass(slots=True)
class Layout:
    """The data rows by column of the pack; `rows` are their numbers as a spreadsheet shows them."""

    rows: list[int] = field(default_factory=list)
    columns: dict[str, list[str]] = field(default_factory=dict)
    kept: dict[str, list[str]] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)

    def get(self, column: str) -> list[str]:
        """Return the cells of a column, blank where the sheet has none."""
        return self.columns.get(column) or [""] * len(self.rows)


def lay_out(sheet: Sheet, interview: Interview) -> Layout | None:
    """Find the head, the columns and the data rows. None while it is not known which column is which."""
    if not any(char.isdigit() for row in sheet.rows for cell in row for char in cell):
        raise SheetError("There is no number anywhere in the sheet. Is it the right file, and the right sheet?")
    head = find_head(sheet)
    if len(head.headings) > _MOST_COLUMNS:
        raise SheetError(f"The sheet has {len(head.headings)} columns. Leave only those of the list in it.")
    targets = {heading.column: _target(sheet, head.row, heading, interview) for heading in head.headings}
    if any(not target for target in targets.values()):
        return None
    if not {NUMBERS, "first"} & set(targets.values()):
        _no_numbers(sheet, head.row)
    _refuse_doubles(targets)
    layout = Layout(notes=_told(head.row, head.headings, targets))
    places = _data_rows(sheet, head.row, targets, layout)
    layout.rows = [place + 1 for place in places]
    for heading in head.headings:
        cells = [sheet.cell(place, heading.column).strip() for place in places]
        target = targets[heading.column]
        if target == KEEP:
            layout.kept[heading.text or f"column {letter(heading.column)}"] = fill_dittos(cells)[0]
        elif target != LEAVE_OUT:
            layout.columns[target] = _carried_down(target, cells, layout, interview)
    return layout


def letter(column: int) -> str:
    """Return the letters of a column, counted from 0, as spreadsheets show them."""
    name = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(65 + rest) + name
    return name


def _target(sheet: Sheet, head: int, heading: Heading, interview: Interview) -> str:
    if heading.target:
        return heading.target
    cells = (sheet.cell(row, heading.column) for row in range(head + 1, len(sheet.rows)))
    different = dict.fromkeys(cell for cell in cells if cell not in ("", heading.text) and not is_ditto(cell))
    shown = ", ".join(f"'{cell[:40]}'" for cell in list(different)[:3])
    name = f"headed '{heading.text}'" if heading.text else "without a heading"
    text = f"What is in column {letter(heading.column)}, {name} (such as {shown})?"
    return interview.ask(
        f"column:{letter(heading.column)}", text, (*TARGETS, KEEP, LEAVE_OUT), column=letter(heading.column)
    )


def _no_numbers(sheet: Sheet, head: int) -> NoReturn:
    headings = ", ".join(filter(None, sheet.rows[head]))[:200] if head >= 0 else ""
    where = f"row {head + 1} has the headings {headings}" if headings else "no head row was found"
    raise SheetError(
        f"No column of the sheet holds the numbers ({where}). Name one 'first' or 'numbers' in the head row, or answer "
        "the question about it so."
    )


def _refuse_doubles(targets: dict[int, str]) -> None:
    seen: dict[str, int] = {}
    for column, target in targets.items():
        if target not in (KEEP, LEAVE_OUT) and target in seen:
            raise SheetError(
                f"Columns {letter(seen[target])} and {letter(column)} cannot both be '{target}'. Leave one of them out."
            )
        seen[target] = column


def _told(head: int, headings: tuple[Heading, ...], targets: dict[int, str]) -> list[str]:
    columns = ", ".join(f"{letter(h.column)} '{h.text}' as {targets[h.column]}" for h in headings)
    found = f"The head was found in row {head + 1}." if head >= 0 else "No head row was found."
    return [f"{found} The columns were read so: {columns}."]


def _data_rows(sheet: Sheet, head: int, targets: dict[int, str], layout: Layout) -> list[int]:
    """Return the rows below the head that have a number; say which others were left out."""
    numbers = [column for column, target in targets.items() if target in (NUMBERS, "first", "last")]
    head_cells = sheet.rows[head] if head >= 0 else None
    kept, left_out = [], list(range(max(head, 0)))
    for place in range(head + 1, len(sheet.rows)):
        row = sheet.rows[place]
        cells = [sheet.cell(place, column) for column in numbers]
        if row == head_cells or _is_total(row) or not any(cells) or _is_remark(row):
            left_out.append(place)
        else:
            kept.append(place)
    _tell_left_out(sheet, [place for place in left_out if any(sheet.rows[place])], layout)
    if not kept:
        raise SheetError("The sheet has no row with a number below its head.")
    return kept


def _is_total(row: list[str]) -> bool:
    first = next((cell for cell in row if cell), "")
    return first[:1].isalpha() and fold(first).split(" ")[0].rstrip(":") in _TOTALS


def _is_remark(row: list[str]) -> bool:
    """Tell a row whose only cell is words: a title, a footer, the name of a part of the list."""
    filled = [cell for cell in row if cell]
    return len(filled) == 1 and (not any(map(str.isdigit, filled[0])) or _WORD.search(filled[0]) is not None)


def _tell_left_out(sheet: Sheet, places: list[int], layout: Layout) -> None:
    if places:
        texts = (f"row {place + 1} '{' '.join(filter(None, sheet.rows[place]))[:60]}'" for place in places[:_TOLD])
        shown = "; ".join(texts)
        more = f" and {len(places) - _TOLD} more" if len(places) > _TOLD else ""
        layout.notes.append(f"Left out, as they are no rows of the list: {shown}{more}.")


def _carried_down(target: str, cells: list[str], layout: Layout, interview: Interview) -> list[str]:
    """Put the value above in the place of ditto marks, and of blanks when the answer is that they mean it."""
    cells, marks, lost = fill_dittos(cells)
    if marks:
        layout.notes.append(
            f"In '{target}', {counted(marks, 'ditto mark was', 'ditto marks were')} read as the value above."
        )
    if lost:
        raise SheetError(
            f"Row {layout.rows[lost[0]]}, column '{target}': a ditto mark has no value above it. Write the value there."
        )
    if target not in _CARRIED_DOWN or not (blanks := blanks_below(cells)):
        return cells
    row = layout.rows[first_blank_below(cells)]
    what = counted(blanks, "cell is", "cells are")
    text = f"In '{target}', {what} blank below a value (the first in row {row}). What does a blank mean?"
    answer = interview.ask(f"blank:{target}", text, (SAME_AS_ABOVE, EMPTY), row=row, column=target)
    return fill_blanks(cells) if answer == SAME_AS_ABOVE else cells
