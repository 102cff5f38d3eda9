"""Every fault a pack can have: its code, how grave it is, what it means and what to do.

Faults that would give wrong answers are errors and stop the load, whole; the rest are warnings.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from knowledge.errors import BedstampError
from knowledge.packs.tables import Table

Severity = Literal["error", "warning"]


class Kind(NamedTuple):
    """One kind of fault."""

    severity: Severity
    meaning: str
    todo: str


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of a pack.

    `row` is counted as a spreadsheet shows it, the head being 1; None where the file as a whole is at
    fault. `column` is None where the row as a whole is at fault.
    """

    file: str
    row: int | None
    column: str | None
    code: str
    text: str
    severity: Severity

    def as_json(self) -> dict[str, str | int | None]:
        """Return the fault as `pack check --json` prints it."""
        return {
            "file": self.file,
            "row": self.row,
            "column": self.column,
            "code": self.code,
            "text": self.text,
        }

    def __str__(self) -> str:
        row = f", row {self.row}" if self.row is not None else ""
        column = f", {self.column}" if self.column is not None else ""
        return f"{self.file}{row}{column}: {self.text}"


class PackFaults(BedstampError):  # noqa: N818 - it carries faults, and that is what packs have
    """A pack has faults that would give wrong answers. `faults` holds all of them, warnings too."""

    def __init__(self, name: str, faults: Iterable[Fault]) -> None:
        self.faults = list(faults)
        errors = [fault for fault in self.faults if fault.severity == "error"]
        more = f"\n... and {len(errors) - _SHOWN} more." if len(errors) > _SHOWN else ""
        listed = "\n".join(map(str, errors[:_SHOWN]))
        super().__init__(f"The pack {name} cannot be used before this is put right:\n{listed}{more}")


def fault(code: str, text: str, file: str, row: int | None = None, column: str | None = None) -> Fault:
    """Make a fault of a kind from the table below. Raises KeyError for a code that is not there."""
    return Fault(file, row, column, code, text, KINDS[code].severity)


def at(table: Table, index: int, column: str | None, code: str, text: str) -> Fault:
    """Make a fault of one cell (or, without a column, one row) of a table."""
    return Fault(table.file, table.row_numbers[index], column, code, text, KINDS[code].severity)


def quoted(text: str) -> str:
    """Quote what was found, cut short when it is long, so that one bad cell does not fill the screen.

    >>> quoted("2.00E+05")
    "'2.00E+05'"
    """
    return repr(text if len(text) <= _LONGEST_QUOTE else text[: _LONGEST_QUOTE - 1] + "…")


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun.

    >>> counted(1, "row"), counted(2_000, "row"), counted(2, "quantity", "quantities")
    ('1 row', '2,000 rows', '2 quantities')
    """
    return f"{number:,} {one if number == 1 else many or one + 's'}"


_SHOWN = 20
_LONGEST_QUOTE = 60
_E: Severity = "error"
_W: Severity = "warning"

KINDS: Mapping[str, Kind] = {
    # The folder and its datapackage.json
    "no-folder": Kind(_E, "There is no such folder.", "Check the path."),
    "no-descriptor": Kind(_E, "The folder has no datapackage.json.", "Add one that lists the CSV files."),
    "bad-descriptor": Kind(_E, "datapackage.json is no JSON, or not as the standard asks.", "Correct it."),
    "no-pack-name": Kind(_W, "datapackage.json gives no name; the folder's is taken.", "Add one."),
    "unsafe-path": Kind(_E, "A path leads out of the folder, or to the web.", "Put the file into the folder."),
    "missing-file": Kind(_E, "A file that is needed or listed is not there.", "Add it, or take it off the list."),
    "number-type": Kind(_W, "The Table Schema makes other programs drop leading zeros.", 'Write "type": "string".'),
    "missing-drawing": Kind(_W, "A drawing is not there.", "Add the file, or correct the name."),
    "unlisted-file": Kind(_W, "A file is not listed in datapackage.json; it is read all the same.", "List it."),
    "unknown-file": Kind(_W, "A listed file is no table of the format; it is ignored.", "Nothing, or rename it."),
    "double-file": Kind(_E, "Two files are listed for one table.", "Put the rows into one file."),
    # Files as such
    "unreadable-file": Kind(_E, "The system does not let us read the file.", "Check what it is and who may read it."),
    "not-csv": Kind(_E, "The file is a spreadsheet or another kind of file.", "Save it as CSV."),
    "wrong-encoding": Kind(_E, "The file is not in UTF-8.", "Save it as CSV UTF-8."),
    "nul-bytes": Kind(_E, "The file holds NUL characters, so it is damaged or no text.", "Save it again."),
    "empty-file": Kind(_E, "The file is empty: not even a head row.", "Copy it again, or take it off the list."),
    "half-written": Kind(_E, "The file breaks off in the middle of a row.", "Copy it again, whole."),
    "broken-quotes": Kind(_E, "A quote mark is in the wrong place or not closed.", 'Write "" for a quote mark.'),
    "wrong-delimiter": Kind(_E, "Cells are not separated by commas.", "Save with commas, or declare it."),
    # Heads and rows
    "unknown-column": Kind(_W, "A column is no part of the format; kept and ignored.", "Nothing, or rename it."),
    "missing-column": Kind(_E, "A column that is needed is not there.", "Add it."),
    "double-column": Kind(_E, "Two columns have the same name.", "Rename or delete one."),
    "nameless-column": Kind(_E, "Cells stand in a column without a name.", "Name it, or empty the cells."),
    "too-many-cells": Kind(_E, "A row has more cells than the head.", "Put cells with a comma in quotes."),
    "too-few-cells": Kind(_E, "A row has fewer cells than the head.", "Add the commas that are missing."),
    "no-rows": Kind(_E, "A table that is needed has no rows.", "Add the rows."),
    # Cells
    "missing-cell": Kind(_E, "A cell that is needed is empty.", "Fill it in."),
    "no-name": Kind(_W, "A maker, works or model has no name; its id is shown.", "Add the name."),
    "unknown-word": Kind(_E, "The cell must be one of a few words, and is not.", "Use one of the words named."),
    "bad-number": Kind(_E, "The cell is no number.", "Write digits only."),
    "spreadsheet-number": Kind(_E, "A spreadsheet changed the number.", "Copy it again, as text."),
    "number-separators": Kind(_E, "The number has points, commas or spaces inside.", "Take them out."),
    "foreign-digits": Kind(_E, "The digits are not 0 to 9.", "Write them as 0 to 9."),
    "long-number": Kind(_E, "The number has more than 18 digits.", "Check it."),
    "bad-letters": Kind(_E, "A prefix or suffix holds more than capital letters.", "Letters only, in capitals."),
    "lower-case": Kind(_W, "A prefix or suffix in small letters; taken as capitals.", "Write capitals."),
    "foreign-letters": Kind(_W, "A prefix or suffix with letters other than A to Z.", "Write A to Z."),
    "bad-date": Kind(_E, "The date is not as EDTF asks.", "Write it as the text says."),
    "unused-edtf": Kind(_E, "The date is EDTF of a kind packs do not use, such as a season.", "Write its two ends."),
    "odd-year": Kind(_W, "The year of a source is no EDTF.", "Write it as the text says, or leave it."),
    "from-after-to": Kind(_E, "A span of time ends before it begins.", "Correct one of the two dates."),
    "duplicate-key": Kind(_E, "Two rows have the same id or key.", "Rename or delete one."),
    "double-row": Kind(_W, "A row stands there twice.", "Delete one."),
    # Names that lead nowhere
    "unknown-register": Kind(_E, "The register is not in registers.csv.", "Add it, or correct the id."),
    "unknown-maker": Kind(_E, "The maker is not in makers.csv.", "Add it, or correct the id."),
    "unknown-table": Kind(_E, "The code table has no rows in code-tables.csv.", "Add them, or correct the id."),
    "unknown-model": Kind(_W, "The model is not in models.csv; its id is shown.", "Add it, or correct the id."),
    "unknown-works": Kind(_W, "The works are not in works.csv; the id is shown.", "Add them, or correct the id."),
    "unknown-source": Kind(_W, "The source is not in sources.csv; its id is shown.", "Add it, or correct the id."),
    "other-maker": Kind(_W, "Model or works are another maker's than the register.", "Check which is right."),
    # Registers
    "other-kind": Kind(_E, "Rows stand in a file that is not for this kind of register.", "Move them, or change kind."),
    "empty-register": Kind(_W, "A register has no rows.", "Add rows, or delete it."),
    "no-object": Kind(_W, "It is not said what the dates are dates of; taken as allocation.", "Fill in object."),
    "no-years": Kind(_E, "A year of one or two digits needs the register's from and to.", "Fill them in."),
    "open-end": Kind(_W, "A list by year has no end: its last year holds every later number.", "Fill in to."),
    "outside-register": Kind(_W, "A date lies outside the register's from and to.", "Check which is right."),
    # Blocks of numbers
    "first-after-last": Kind(_E, "A block ends before it begins.", "Check both numbers in the source."),
    "unequal-digits": Kind(_E, "First and last have not the same number of digits, and should.", "Check them."),
    "lost-zero": Kind(_E, "A number lost its leading zero.", "Put it back as the text says."),
    "perhaps-lost-zero": Kind(_W, "A number may have lost its leading zero.", "Compare with the source."),
    "overlap": Kind(_W, "Two blocks of a register share numbers; both are shown.", "Check them in the source."),
    "gap": Kind(_W, "Numbers between two blocks are in no block.", "Check the source."),
    "quantity-differs": Kind(_W, "The quantity is not last - first + 1.", "Check which is right."),
    "part-order": Kind(_W, "Only some rows of a prefix say their order.", "Fill in order in all or in none."),
    "double-order": Kind(_W, "Two blocks of a prefix have the same place in the order.", "Give each its own."),
    "dates-backwards": Kind(_W, "A date is before that of the block issued before.", "Check the date and the order."),
    "model-withdrawn": Kind(_W, "The model was withdrawn before.", "Check the model and the dates."),
    "model-not-introduced": Kind(_W, "The model was not yet introduced.", "Check the model and the dates."),
    "works-closed": Kind(_W, "The works were not open then.", "Check the works and the dates."),
    # Lists by year
    "numbers-backwards": Kind(_E, "First numbers do not rise from year to year.", "Put the rows in order."),
    "years-backwards": Kind(_E, "Years run backwards while the numbers rise.", "Use allocations, each with its date."),
    "to-before-last": Kind(_E, "The register's last number or year is before its last row.", "Correct to."),
    # Date codes
    "missing-part": Kind(_E, "The parts are not numbered 1, 2, 3, ...", "Number them without a gap."),
    "bad-length": Kind(_E, "The length is no number of characters.", "Write 2, or 1-2 where both occur."),
    "code-length": Kind(_E, "A code is longer or shorter than its part.", "Correct the code or the length."),
    "code-characters": Kind(_E, "A code has characters its part does not allow.", "Correct one of the two."),
    "bad-constant": Kind(_E, "A constant is empty, or does not fit length or characters.", "Correct it."),
    "missing-table": Kind(_E, "The part can only be read with a code table.", "Add the table, or change the part."),
    "unused-table": Kind(_W, "A code table is used by no part.", "Correct the id, or delete it."),
    "bad-value": Kind(_E, "A value in a code table is not what its part tells.", "Write what the text says."),
    "means-twice": Kind(_E, "Two parts of a register tell the same thing.", "Change one."),
    "day-without-month": Kind(_W, "The code tells a day but no month, so the day is not used.", "Add the month."),
    "no-year": Kind(_W, "The code tells no year; the register's years are all that is known.", "Add the part."),
    # Findings and sightings
    "bad-key": Kind(_E, "The key of a finding is not 32 of 0-9 and a-f.", "Copy it again from its group."),
    "bad-author": Kind(_E, "The author would be taken for the reader's own group.", "Name the group."),
    "bad-time": Kind(_E, "The time of a finding is none, or tells no zone.", "Write it in UTC."),
    "digits-differ": Kind(_E, "The number has not as many figures as digits says.", "Count them in the source."),
    "names-somebody": Kind(_W, "A text seems to tell of a person.", "Leave names, addresses and numbers out."),
    # The second list
    "says-nothing": Kind(_W, "A prefix has neither date nor works.", "Fill in one, or delete the row."),
}
