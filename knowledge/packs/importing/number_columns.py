"""The numbers of a list: one column or two become prefix, first, last and suffix; what is unclear is asked."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from knowledge.packs.faults import counted
from knowledge.packs.importing.date_column import MOST_ASKED
from knowledge.packs.importing.ditto import blanks_below, fill_blanks, first_blank_below
from knowledge.packs.importing.headings import NUMBERS
from knowledge.packs.importing.layout import SAME_AS_ABOVE, Layout
from knowledge.packs.importing.numbers import LOOK_ALIKES, LostDigitsError, NumberRead, completed, read_numbers
from knowledge.packs.importing.questions import Interview
from knowledge.packs.importing.sheet import LONGEST_TEXT, SheetError
from knowledge.packs.letters import plain_letters

NO_LETTER = "no letter"
LEAVE_OUT_ROW = "leave the row out"
LEAVE_OUT_ROWS = "leave these rows out"
SHORTENED, AS_WRITTEN = "shortened", "as written"


@dataclass(slots=True)
class Numbers:
    """The numbers by row; None for a row that is left out. `notes` say what was assumed."""

    read: list[NumberRead | None]
    notes: list[str] = field(default_factory=list)


def read_number_columns(layout: Layout, interview: Interview) -> Numbers:
    """Read the columns numbers, first and last, with prefix and suffix. Raises SheetError for lost digits."""
    main = NUMBERS if NUMBERS in layout.columns else "first"
    numbers = Numbers([None] * len(layout.rows))
    starts = _column(layout, main, interview, numbers.notes)
    ends = _column(layout, "last", interview, numbers.notes)
    prefixes, suffixes = (_letters(layout, column, numbers.notes) for column in ("prefix", "suffix"))
    for place, start in enumerate(starts):
        if start is None or ends[place] is None:
            continue
        joined = _joined(start, ends[place], layout.rows[place])
        numbers.read[place] = replace(
            joined,
            prefix=_agreed(prefixes[place], joined.prefix, "prefix", layout.rows[place], interview),
            suffix=_agreed(suffixes[place], joined.suffix, "suffix", layout.rows[place], interview),
        )
    _carry_prefix_down(numbers, layout, interview)
    _complete_shortened(numbers, layout.rows, interview)
    _tell_notes(numbers, layout.rows)
    return numbers


def _letters(layout: Layout, column: str, notes: list[str]) -> list[str]:
    """Return the letters of a column as numbers are compared with them, and note which were no capitals from A to Z."""
    cells = layout.get(column)
    plain = {cell: plain_letters(cell) for cell in dict.fromkeys(cells)}
    foreign = [cell for cell in plain if plain[cell] != cell.upper()]
    if foreign:
        row = layout.rows[cells.index(foreign[0])]
        notes.append(f"In '{column}', {LOOK_ALIKES}, such as '{foreign[0]}' in row {row}, now {plain[foreign[0]]}.")
    return [plain[cell] for cell in cells]


_NOTHING = NumberRead("", "")


def _column(layout: Layout, column: str, interview: Interview, notes: list[str]) -> list[NumberRead | None]:
    """Read one column. A blank is NumberRead('', ''), except at the start of a row, where it is asked about."""
    cells = layout.get(column)
    read: dict[str, NumberRead | None] = {"": _NOTHING if column == "last" else None}
    lost = [(row, cell) for row, cell in zip(layout.rows, cells, strict=True) if cell and _lost(cell)]
    if lost:
        raise _lost_digits(column, lost)
    for cell in dict.fromkeys(cells):
        if cell:
            read[cell] = read_numbers(cell)
    unread = [cell for cell in dict.fromkeys(cells) if read[cell] is None]
    where = dict(zip(reversed(cells), reversed(layout.rows), strict=True))  # the first row of each text
    if len(unread) > MOST_ASKED:
        _ask_all(column, unread, where, interview)
    else:
        read |= {cell: _ask_one(column, cell, where[cell], interview) for cell in unread}
    return [read[cell] for cell in cells]


def _lost(cell: str) -> bool:
    if "+" not in cell:
        return False
    try:
        read_numbers(cell)
    except LostDigitsError:
        return True
    return False


def _lost_digits(column: str, cells: list[tuple[int, str]]) -> SheetError:
    shown = ", ".join(f"'{cell}' in row {row}" for row, cell in cells[:5])
    what = counted(len(cells), "number was", "numbers were")
    return SheetError(
        f"Column '{column}': {what} rounded by a spreadsheet program ({shown}), so the last digits are gone. Open the "
        "original list, set the column to text, and export it again."
    )


def _ask_one(column: str, cell: str, row: int, interview: Interview) -> NumberRead | None:
    """Ask what a cell means; None while that is open, and for a row to leave out."""
    what = f"'{cell[:LONGEST_TEXT]}' was not understood as a number" if cell else "There is no number"
    text = f"Row {row}, column '{column}': {what}. Which number is it? (Such as K200001, or K200001 to K225000.)"
    answer = interview.ask(f"{column}:{cell}", text, (LEAVE_OUT_ROW,), row=row, column=column, free=True)
    if answer in ("", LEAVE_OUT_ROW):
        return None
    number = None if _lost(answer) else read_numbers(answer)
    if number is None:
        raise interview.reject("that is no number either.")
    return number


def _ask_all(column: str, cells: list[str], where: dict[str, int], interview: Interview) -> None:
    shown = ", ".join(f"'{cell[:40]}' (row {where[cell]})" for cell in cells[:5])
    text = f"Column '{column}': {len(cells)} different cells were not understood as numbers, such as {shown}. Leave "
    text += "their rows out? Otherwise set them right in the file and import it again."
    interview.ask(f"{column}:all", text, (LEAVE_OUT_ROWS,), row=where[cells[0]], column=column)


def _joined(start: NumberRead, end: NumberRead | None, row: int) -> NumberRead:
    """Put the first and last number of a row together."""
    if end is None or not end.first:
        return start
    if start.last or end.last:
        raise SheetError(f"Row {row} has a block in one cell and another number beside it. Set it right in the file.")
    if end.prefix not in ("", start.prefix) and start.prefix:
        raise SheetError(
            f"Row {row} begins with letter {start.prefix} and ends with {end.prefix}. Make two rows of it."
        )
    shortened = len(end.first) < len(start.first) and int(end.first) < int(start.first)
    return NumberRead(
        start.prefix or end.prefix,
        start.first,
        end.first,
        start.suffix or end.suffix,
        shortened,
        tuple(dict.fromkeys(start.notes + end.notes)),
    )


def _agreed(column: str, cell: str, what: str, row: int, interview: Interview) -> str:
    """Return the letters of a row; asked when its own column says others than the number does."""
    if not column or not cell or column == cell:
        return column or cell
    text = f"Row {row}: the {what} column says {column}, and the number has {cell}. Which is right?"
    return interview.ask(f"{what}:{row}", text, (column, cell), row=row, column=what)


def _carry_prefix_down(numbers: Numbers, layout: Layout, interview: Interview) -> None:
    """Ask whether letters that stand at the first of several numbers hold for the others too."""
    prefixes = [read.prefix if read else "" for read in numbers.read]
    there = [place for place, read in enumerate(numbers.read) if read]
    stated = [prefixes[place] for place in there]
    if "prefix" in layout.columns or not (blanks := blanks_below(stated)):
        return
    row = layout.rows[there[first_blank_below(stated)]]
    text = f"{counted(blanks, 'number has', 'numbers have')} no letter but stand below one that has (the first in row "
    text += f"{row}). Do they have the same letter?"
    answer = interview.ask("blank:prefix", text, (SAME_AS_ABOVE, NO_LETTER), row=row, column="prefix")
    if answer == SAME_AS_ABOVE:
        for place, prefix in zip(there, fill_blanks(stated), strict=True):
            numbers.read[place] = replace(numbers.read[place] or _NOTHING, prefix=prefix)


def _complete_shortened(numbers: Numbers, rows: list[int], interview: Interview) -> None:
    """Ask once whether 200001-25000 means 200001 to 225000."""
    found = [(place, read) for place, read in enumerate(numbers.read) if read and read.shortened]
    if not found:
        return
    place, read = found[0]
    whole = completed(read.first, read.last)
    text = f"In row {rows[place]} the last number {read.last} is smaller than the first, {read.first}. Was it "
    text += f"shortened, so that {whole} is meant? ({counted(len(found), 'row is', 'rows are')} like this.)"
    answer = interview.ask("shortened", text, (SHORTENED, AS_WRITTEN), row=rows[place], column="last")
    if answer == SHORTENED:
        what = counted(len(found), "shortened last number was", "shortened last numbers were")
        numbers.notes.append(f"{what} completed, as {read.last} to {whole}.")
        for place, read in found:
            numbers.read[place] = replace(read, last=completed(read.first, read.last), shortened=False)


def _tell_notes(numbers: Numbers, rows: list[int]) -> None:
    told: dict[str, list[int]] = {}
    for row, read in zip(rows, numbers.read, strict=True):
        for note in read.notes if read else ():
            told.setdefault(note, []).append(row)
    numbers.notes += [
        f"{note[0].upper()}{note[1:]} in {counted(len(where), 'row')}, the first of them row {where[0]}."
        for note, where in told.items()
    ]
