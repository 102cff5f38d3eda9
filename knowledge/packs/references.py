"""Checks between rows: ids that lead nowhere, ids given twice, rows that stand there twice, another maker's things."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from knowledge.names import fold
from knowledge.packs.cells import told
from knowledge.packs.faults import Fault, at, quoted
from knowledge.packs.tables import SCHEMAS, Pack, Table

_CODES = {
    "makers": "unknown-maker",
    "works": "unknown-works",
    "models": "unknown-model",
    "registers": "unknown-register",
    "sources": "unknown-source",
}
_MADE_BY = (
    ("allocations", "models", "model"),
    ("allocations", "works", "works"),
    ("year-starts", "works", "works"),
    ("prefixes", "works", "works"),
)


def check_references(pack: Pack) -> Iterator[Fault]:
    """Yield every cell that names a maker, works, model, register or source which is in no file."""
    for table in pack.tables.values():
        for name, column in SCHEMAS[table.name].columns.items():
            if column.refers:
                yield from _unknown(table, name, pack.tables[column.refers])


def check_keys(table: Table) -> Iterator[Fault]:
    """Yield rows whose key another row has already, or that repeat another row in full."""
    schema = SCHEMAS[table.name]
    if table.name == "allocations":
        return  # two equal blocks are told where overlaps are
    names = schema.key if schema.unique else tuple(schema.columns)
    counts = Counter(table.rows(*names))
    if len(counts) == len(table):
        return
    first_row: dict[tuple[str, ...], int] = {}
    for index, key in enumerate(table.rows(*names)):
        if key not in first_row:
            first_row[key] = table.row_numbers[index]
        elif not schema.unique:
            yield at(table, index, None, "double-row", f"The row stands in row {first_row[key]} already. Delete one.")
        elif key[0] and key[-1]:
            yield at(table, index, names[-1], "duplicate-key", _twice(names, key, first_row[key]))


def check_makers(pack: Pack) -> Iterator[Fault]:
    """Yield the first row that puts a model or works into another maker's register, for each such pair."""
    registers = _makers(pack, "registers", "register")
    for name, target, column in _MADE_BY:
        table = pack.tables[name]
        makers = _makers(pack, target, column)
        counts = Counter(table.rows("register", column))
        wrong = {
            pair: count
            for pair, count in counts.items()
            if pair[0] in registers and makers.get(pair[1], registers[pair[0]]) != registers[pair[0]]
        }
        for index, pair in enumerate(table.rows("register", column) if wrong else ()):
            if pair in wrong:
                ours, theirs = registers[pair[0]], makers[pair[1]]
                text = f"{quoted(pair[1])} is of {quoted(theirs)}, the register {quoted(pair[0])} of {quoted(ours)}."
                yield at(table, index, column, "other-maker", f"{text}{_also(wrong.pop(pair))} Check which is right.")


def _also(rows: int) -> str:
    """Say how many more rows have the fault that is told for the first of them."""
    return "" if rows == 1 else f" {rows - 1:,} more row{'s say' if rows > 2 else ' says'} so."


def _makers(pack: Pack, name: str, key: str) -> dict[str, str]:
    """Return the maker of each id of a table; only makers that are known, and of ids given twice the first."""
    known = set(pack.tables["makers"].columns["maker"]) - {""}
    makers: dict[str, str] = {}
    for id_, maker in pack.rows(name, key, "maker"):
        if maker in known:
            makers.setdefault(id_, maker)
    return makers


def _twice(names: tuple[str, ...], key: tuple[str, ...], row: int) -> str:
    said = ", ".join(f"{name} {quoted(cell)}" for name, cell in zip(names, key, strict=True) if cell)
    return f"{said} stands in row {row} already. Rename or delete one of the two."


def _unknown(table: Table, name: str, target: Table) -> Iterator[Fault]:
    if not target.complete or (SCHEMAS[target.name].required and not len(target)):
        return  # what is missing there has been told
    key = SCHEMAS[target.name].key[0]
    known = set(target.columns[key])
    wrong = {cell: missing for cell in set(table.columns[name]) - known if (missing := _missing(cell, known, name))}
    code = _CODES[target.name]
    if known or not wrong:
        folded = {fold(id_): id_ for id_ in known} if wrong else {}
        texts = {cell: (code, _nowhere(missing, target.file, folded)) for cell, missing in wrong.items()}
        yield from told(table, name, texts)
    else:
        yield from _no_table(table, name, wrong, code, target.file)


def _missing(cell: str, known: set[str], name: str) -> str:
    """Return the id in a cell that is not known, '' when all is well. Only sources come several in a cell."""
    ids = [part.strip() for part in cell.split(";")] if name == "source" else [cell]
    return next((id_ for id_ in ids if id_ and id_ not in known), "")


def _nowhere(id_: str, file: str, folded: Mapping[str, str]) -> str:
    meant = folded.get(fold(id_))
    hint = f" Did you mean {quoted(meant)}?" if meant else ""
    return f"{quoted(id_)} is not in {file}. Add it there, or correct it here.{hint}"


def _no_table(table: Table, name: str, wrong: Mapping[str, str], code: str, file: str) -> Iterator[Fault]:
    """Where the other table has no rows at all, say each id once: the same fault in every row helps nobody."""
    counts = Counter(cell for cell in table.columns[name] if cell in wrong)
    for index, cell in enumerate(table.columns[name]):
        if cell in counts:
            text = (
                f"The row names {quoted(wrong[cell])}, but {file} is not there or has no rows.{_also(counts.pop(cell))}"
            )
            yield at(table, index, name, code, f"{text} Add it, or empty the cells.")
