"""The pack format: which tables a pack has, their columns, and what each cell may hold.

A pack is a folder of CSV files. Every cell is text; lists inside a cell are separated by `;`. `SCHEMAS` is
the one place that says what the format is: reading, checking and writing all go by it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from knowledge.findings import EVIDENCE, OPINION

Holds = Literal["text", "id", "digits", "letters", "date", "list"]
KINDS = ("allocations", "year-starts", "date-code")
OBJECTS = ("allocation", "manufacture", "grant", "registration")
CHARACTERS = ("digits", "letters", "any")
MEANINGS = (
    "year", "month", "week", "day", "day-of-year", "works", "model", "sequence", "constant",
)  # fmt: skip
WEEK_RULES = ("iso", "first-full-week")
SHARED = ("findings", "sightings")
"""The tables by which groups share what their experts settled. A pack that has one needs no registers."""
LONGEST_NUMBER = 18
"""The most digits a number may have: what fits a signed 64-bit integer."""
FILE_OF_KIND = {"allocations": "allocations", "year-starts": "year-starts", "date-code": "date-codes"}


@dataclass(frozen=True, slots=True)
class Column:
    """What the cells of one column hold.

    `refers` names the table whose key the cell must be one of; `words` are the only words allowed. An
    empty cell is a fault only when the column is `required`.
    """

    about: str
    holds: Holds = "text"
    required: bool = False
    refers: str = ""
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Schema:
    """One table of the format. `key` tells rows apart; where it is `unique`, two equal keys are a fault."""

    about: str
    key: tuple[str, ...]
    columns: Mapping[str, Column]
    unique: bool = True
    required: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of one table, column by column.

    `columns` has every column of the schema, filled with '' where the file has none, then the unknown
    columns of the file. Cells are stripped of white space at both ends. `row_numbers` are those a
    spreadsheet shows, the head being 1. `absent` names columns the file does not have; `complete` is
    false when rows are missing because the file could not be read to its end; `damaged` are the numbers
    of rows that are there and cannot be trusted.
    """

    name: str
    columns: Mapping[str, list[str]]
    row_numbers: Sequence[int] = field(default=(), compare=False)
    file: str = field(default="", compare=False)
    absent: frozenset[str] = field(default=frozenset(), compare=False)
    complete: bool = field(default=True, compare=False)
    damaged: frozenset[int] = field(default=frozenset(), compare=False)

    @classmethod
    def of(cls, name: str, columns: Mapping[str, list[str]] | None = None, **more: Any) -> Table:
        """Make a table from the columns at hand; those of the schema that are missing are filled with ''.

        Raises ValueError when the columns differ in length.

        >>> Table.of("makers", {"maker": ["a", "b"]}).columns["name"]
        ['', '']
        """
        given = columns or {}
        size = max(map(len, given.values()), default=0)
        if any(len(cells) != size for cells in given.values()):
            raise ValueError(f"The columns of {name} differ in length.")
        schema = SCHEMAS[name].columns
        filled = {column: given[column] if column in given else [""] * size for column in schema}
        filled |= {column: cells for column, cells in given.items() if column not in schema}
        more.setdefault("row_numbers", range(2, size + 2))
        more.setdefault("file", f"{name}.csv")
        return cls(name, filled, **more)

    def __len__(self) -> int:
        return len(self.row_numbers)

    @property
    def extra(self) -> tuple[str, ...]:
        """The columns that are no part of the format; kept, and ignored."""
        return tuple(column for column in self.columns if column not in SCHEMAS[self.name].columns)

    def rows(self, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the cells of these columns row by row; '' for a column the table does not have."""
        return zip(*(self.columns.get(column) or [""] * len(self) for column in columns), strict=True)


@dataclass(frozen=True)
class Pack:
    """A pack in memory: all tables by name, empty where there is no file.

    `more` holds the other properties of `datapackage.json` (licences, contributors, ...), kept as they are.
    """

    name: str
    title: str = ""
    version: str = ""
    folder: Path | None = field(default=None, compare=False)
    tables: Mapping[str, Table] = field(default_factory=dict)
    more: Mapping[str, Any] = field(default_factory=dict)

    @classmethod
    def of(cls, name: str, *tables: Table, **more: Any) -> Pack:
        """Make a pack from the tables at hand; the others are empty."""
        given = {table.name: table for table in tables}
        return cls(name, tables={name: given[name] if name in given else Table.of(name) for name in SCHEMAS}, **more)

    def rows(self, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the cells of these columns for each row of a table, in the order of its file."""
        return self.tables[table].rows(*columns)

    @property
    def shares(self) -> bool:
        """Whether it has findings or sightings, so that it may do without registers."""
        return any(len(self.tables[name]) for name in SHARED)


_SOURCE = Column("the source that says so; several are separated by ;", "id", refers="sources")
_NOTE = Column("anything else worth knowing")
_WHERE = Column("where the number is found, in words")
_DRAWING = Column("a drawing of that place: the name of a shipped one, or a file of the pack")
_MAKER = Column("the maker", "id", refers="makers")
_WORKS = Column("the works (factory)", "id", refers="works")
_MODEL = Column("the model", "id", refers="models")
_REGISTER = Column("the register the row belongs to", "id", required=True, refers="registers")
_PREFIX = Column("the letters before the digits, A to Z; empty when there are none", "letters")
_ALIASES = Column("other names and spellings, separated by ;", "list")
_FROM = Column("the first time it holds for", "date")
_TO = Column("the last time it holds for", "date")
_DATE = Column("the date, in EDTF, such as 1912 or 1910/1912", "date", required=True)
_SUFFIX = Column("the letters after the digits, A to Z; empty when there are none", "letters")
_HOW_MANY = Column("how many figures the number has: by this a lost leading zero is noticed", "digits")
_MADE = Column("when it was made or sold, in EDTF, such as 1912 or 1910/1912", "date")
_EVIDENCE = Column("what it is known by, in words; no names of people")
_SEEN = tuple(kind for kind in EVIDENCE if kind != OPINION)
_FIRST = Column("the first number, digits only, with its leading zeros", "digits", required=True)

SCHEMAS: Mapping[str, Schema] = {
    "makers": Schema(
        "Who made the machines",
        ("maker",),
        {
            "maker": Column("a short id of our own", "id", required=True),
            "name": Column("the name people know"),
            "aliases": _ALIASES,
            "country": Column("the country"),
            "where": _WHERE,
            "drawing": _DRAWING,
            "note": _NOTE,
        },
        required=True,
    ),
    "works": Schema(
        "The works (factories)",
        ("works",),
        {
            "works": Column("a short id of our own", "id", required=True),
            "maker": _MAKER,
            "name": Column("the name of the works"),
            "place": Column("town and country"),
            "from": _FROM,
            "to": _TO,
        },
    ),
    "models": Schema(
        "The models",
        ("model",),
        {
            "model": Column("a short id of our own", "id", required=True),
            "maker": _MAKER,
            "name": Column("the name people know"),
            "aliases": _ALIASES,
            "introduced": Column("when the first were made", "date"),
            "withdrawn": Column("when the last were made", "date"),
            "shuttle": Column("the kind of shuttle or hook"),
            "bobbin": Column("the bobbin it takes"),
            "needle": Column("the needle it takes"),
            "bed": Column("the kind of bed"),
            "drive": Column("treadle, hand crank, motor"),
            "where": _WHERE,
            "drawing": _DRAWING,
            "note": _NOTE,
            "source": _SOURCE,
        },
    ),
    "registers": Schema(
        "The lists that turn numbers into dates",
        ("register",),
        {
            "register": Column("a short id of our own", "id", required=True),
            "maker": Column("the maker", "id", required=True, refers="makers"),
            "kind": Column("how the register works", required=True, words=KINDS),
            "title": Column("the name of the register"),
            "object": Column("what the date is the date of; empty means allocation", words=OBJECTS),
            "introducer": Column("words that must stand before numbers that are no serial numbers", "list"),
            "from": _FROM,
            "to": Column("the last time it holds for; the last number will do where years start at numbers", "date"),
            "source": _SOURCE,
        },
        required=True,
    ),
    "allocations": Schema(
        "Blocks of numbers and the date on which they were allocated",
        ("register", "prefix", "first", "last", "suffix"),
        {
            "register": _REGISTER,
            "order": Column(
                "the place in the order of issue, a whole number; empty means the order of the file", "digits"
            ),
            "prefix": _PREFIX,
            "first": _FIRST,
            "last": Column("the last number, digits only, with its leading zeros", "digits", required=True),
            "suffix": _SUFFIX,
            "date": _DATE,
            "model": _MODEL,
            "works": _WORKS,
            "quantity": Column("how many numbers were allocated, if the source says so", "digits"),
            "source": _SOURCE,
            "note": _NOTE,
        },
        unique=False,
    ),
    "year-starts": Schema(
        "First numbers of years. A row runs to the next row's first less one; the last to the register's to",
        ("register", "prefix", "first"),
        {
            "register": _REGISTER,
            "prefix": _PREFIX,
            "first": _FIRST,
            "date": _DATE,
            "works": _WORKS,
            "source": _SOURCE,
        },
    ),
    "date-codes": Schema(
        "The parts of a number that tells its own date",
        ("register", "part"),
        {
            "register": _REGISTER,
            "part": Column("1 for the first part, 2 for the next, ...", "digits", required=True),
            "length": Column("how many characters; 1-2 where both occur", required=True),
            "characters": Column("which characters; empty means any", words=CHARACTERS),
            "means": Column("what the part tells", required=True, words=MEANINGS),
            "table": Column("the code table that turns the part into its meaning", "id"),
            "constant": Column("the characters that always stand here"),
            "rule": Column("how weeks are counted; empty means iso", words=WEEK_RULES),
        },
    ),
    "code-tables": Schema(
        "What the codes of a part stand for; one code may stand for several values",
        ("table", "code", "value"),
        {
            "table": Column("the table the row belongs to", "id", required=True),
            "code": Column("the characters of the code", required=True),
            "value": Column("a year, the number of a month, week or day, a works or a model", required=True),
            "from": _FROM,
            "to": _TO,
        },
        unique=False,
    ),
    "prefixes": Schema(
        "The second list: works and span of years by prefix",
        ("register", "prefix"),
        {
            "register": _REGISTER,
            "prefix": _PREFIX,
            "date": Column("the span of years, in EDTF, such as 1910/1912", "date"),
            "works": _WORKS,
            "source": _SOURCE,
        },
        unique=False,
    ),
    "other-marks": Schema(
        "Numbers on a machine that are no serial numbers",
        ("maker", "prefix", "digits"),
        {
            "maker": Column("the maker; empty means any", "id", refers="makers"),
            "prefix": _PREFIX,
            "digits": Column("how many digits", "digits"),
            "what": Column("what the number is", required=True),
            "where": Column("where it is found"),
            "note": _NOTE,
        },
        unique=False,
    ),
    "sources": Schema(
        "Where the knowledge comes from",
        ("source",),
        {
            "source": Column("a short id of our own", "id", required=True),
            "title": Column("the title"),
            "author": Column("who wrote or copied it"),
            "year": Column("when it appeared"),
            "locator": Column("volume, pages, shelf mark, address"),
            "reliability": Column("how far it can be trusted, and why"),
        },
    ),
    "findings": Schema(
        "Single machines as experts settled them; they name nobody. A pack of findings or sightings needs no registers",
        ("finding",),
        {
            "finding": Column("32 of 0-9 and a-f, made once and the same in every group", required=True),
            "prefix": _PREFIX,
            "number": Column("the number as it is stamped, with its leading zeros; empty when none can be read"),
            "suffix": _SUFFIX,
            "digits": _HOW_MANY,
            "maker": _MAKER,
            "model": _MODEL,
            "works": _WORKS,
            "date": _MADE,
            "evidence": _EVIDENCE,
            "kind": Column("the kind of evidence", required=True, words=EVIDENCE),
            "note": _NOTE,
            "author": Column("the group that settled it, never a person", required=True),
            "settled": Column("when that was, in UTC, such as 2026-11-25T14:03:00Z", required=True),
        },
    ),
    "sightings": Schema(
        "Single machines whose date or model is known from evidence; datings between two of them follow from these",
        ("sighting",),
        {
            "sighting": Column("a short id of our own; that of the finding where it is one", "id", required=True),
            "prefix": _PREFIX,
            "number": Column("the number as it is stamped, with its leading zeros", "digits", required=True),
            "suffix": _SUFFIX,
            "digits": _HOW_MANY,
            "maker": _MAKER,
            "model": _MODEL,
            "works": _WORKS,
            "date": _MADE,
            "evidence": _EVIDENCE,
            "kind": Column("the kind of evidence; an opinion is none", required=True, words=_SEEN),
            "source": _SOURCE,
        },
    ),
}
