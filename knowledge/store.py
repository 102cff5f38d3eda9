"""The knowledge base file: packs kept as rows in SQLite, saved whole or not at all, and streamed out again.

with open_store(path, create=True) as store:
    print(store.save_pack(pack).in_words())
    with store.unchanging():
        knowledge = Knowledge.of(store.sources(), store.findings(), learned=fit(store.mistakes()))
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from itertools import repeat
from pathlib import Path

from sqlite_utils import Database

from knowledge import database as opening
from knowledge.changes import Changes, Row, TableChanges, compare
from knowledge.database import explained
from knowledge.migrations import KNOWLEDGE, StoreError
from knowledge.packs.tables import SCHEMAS, SHARED, Pack, Table
from knowledge.register_changes.nouns import TABLES, RegisterChange
from knowledge.register_changes.overlay import Standing, in_force_on, laid_over, standing
from knowledge.registers.register import RowChange
from knowledge.stored_changes import StoredChanges
from knowledge.stored_findings import NOT_WITHDRAWN, StoredFindings
from knowledge.stored_mistakes import StoredMistakes

Progress = Callable[[int, int], None]
StoredRow = tuple[object, ...]

_AT_ONCE = 2_000  # rows fetched together: fast, and little memory
_TELL_EVERY = 10_000  # rows between two calls of `progress`


def open_store(path: Path, *, create: bool = False, read_only: bool = False, timeout: float = opening.TIMEOUT) -> Store:
    """Open the knowledge base at `path`; with `create` make it when it is missing. Raises StoreError.

    `timeout` (seconds) is how long to wait for another program that is writing. Use it as a context manager,
    or call `close`. A store belongs to the thread that opened it.
    """
    database = opening.open_database(path, KNOWLEDGE, create=create, read_only=read_only, timeout=timeout)
    return Store(path, database, timeout)


@dataclass(frozen=True, slots=True)
class StoredPack:
    """A pack in the store. `rows` streams the columns asked for, in the order of the pack's file."""

    name: str
    store: Store

    def rows(self, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the cells of `columns` for each row of `table`. Raises StoreError when the pack is gone."""
        return self.store.rows(self.name, table, *columns)

    def changed_rows(self, table: str) -> Mapping[tuple[str, ...], RowChange]:
        """Return the rows of a table that stand there by a change of the group, with what is told of it."""
        return self.store.changed_rows(self.name, table)


class Store(StoredFindings, StoredMistakes, StoredChanges):
    """An open knowledge base file. Made by `open_store`."""

    def __init__(self, path: Path, database: Database, timeout: float) -> None:
        super().__init__(path, database)
        self._timeout = timeout
        self._stamp = _stamp(path) if opening.can_only_be_read(path) else None

    def __enter__(self) -> Store:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the file. Doing it twice does no harm."""
        self._database.close()

    def pack_names(self) -> tuple[str, ...]:
        """Return the names of the packs, in the order in which they were first loaded."""
        with explained(self.path):
            return tuple(name for (name,) in self._execute("SELECT name FROM packs ORDER BY place"))

    def source(self, name: str) -> StoredPack:
        """Return the pack of that name. Raises StoreError when there is none."""
        self._pack_id(name)
        return StoredPack(name, self)

    def sources(self) -> tuple[StoredPack, ...]:
        """Return every pack of the store."""
        return tuple(StoredPack(name, self) for name in self.pack_names())

    def rows(self, pack: str, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the cells of `columns` for each row of a table of a pack, in the order of its file.

        Changes of registers that are in force are laid over the rows, and findings that were withdrawn here left out.
        A column that is no part of the format is looked for among the pack's extra columns; '' where missing.
        """
        changes = self.changes_in_force(pack, table)
        if changes:
            yield from self._changed_rows(pack, table, columns, changes)
        else:
            yield from self._as_loaded(pack, table, *columns)

    def changed_rows(self, pack: str, table: str) -> dict[Row, RowChange]:
        """Return the rows of a table of a pack that stand there by a change in force, with what is told of it."""
        changes = self.changes_in_force(pack, table)
        if not changes:
            return {}
        found = in_force_on(table, self._as_loaded(pack, table, *SCHEMAS[table].columns), changes)
        return {row: RowChange(change.told, is_new) for row, change, is_new in found}

    def standing(self, pack: str) -> list[Standing]:
        """Return how every change in force of a pack stands towards the pack as it is loaded."""
        found: list[Standing] = []
        for table in TABLES:
            changes = self.changes_in_force(pack, table)
            if changes:
                found += standing(table, self._as_loaded(pack, table, *SCHEMAS[table].columns), changes)
        return found

    def pack(self, name: str) -> Pack:
        """Return a pack as it stands, the changes in force laid over it. Raises StoreError when there is none."""
        self._pack_id(name)
        tables = []
        for table, schema in SCHEMAS.items():
            cells = list(zip(*self.rows(name, table, *schema.columns), strict=True))
            tables.append(Table.of(table, dict(zip(schema.columns, map(list, cells), strict=True)) if cells else None))
        return Pack.of(name, *tables)

    def _changed_rows(
        self, pack: str, table: str, columns: Sequence[str], changes: Sequence[RegisterChange]
    ) -> Iterator[tuple[str, ...]]:
        """Yield the rows with changes laid over them; unknown columns stay with the row in whose place another is."""
        known = tuple(SCHEMAS[table].columns)
        extra = [column for column in columns if column not in known]
        beside = enumerate(self._as_loaded(pack, table, *extra)) if extra else None
        places = [known.index(column) if column in known else len(known) + extra.index(column) for column in columns]
        none = ("",) * len(extra)
        for row, place in laid_over(table, lambda: self._as_loaded(pack, table, *known), changes):
            if beside is not None:
                row += none if place is None else next(found for at, found in beside if at == place)
            yield tuple(map(row.__getitem__, places))

    def _as_loaded(self, pack: str, table: str, *columns: str) -> Iterator[tuple[str, ...]]:
        """Yield the rows of a table as the pack has them."""
        known = SCHEMAS[table].columns
        extra = [column for column in columns if column not in known]
        wanted = ", ".join(_EXTRA if column in extra else f'"{column}"' for column in columns)
        but = f" AND {SCHEMAS[table].key[0]} {NOT_WITHDRAWN}" if table in SHARED else ""
        select = f"SELECT {wanted} FROM {_sql_name(table)} WHERE pack = ?{but} ORDER BY row"
        with explained(self.path), closing(self._execute(select, (*extra, self._pack_id(pack)))) as cursor:
            while rows := cursor.fetchmany(_AT_ONCE):
                yield from rows

    def revision(self) -> int:
        """Return a number that changes when knowledge does, in whatever process; takes microseconds."""
        if self._stamp is not None and self._stamp != _stamp(self.path):
            self._open_again()
        with explained(self.path):
            (number,) = self._execute("SELECT number FROM revision").fetchone()
        return int(number)

    @contextmanager
    def unchanging(self) -> Iterator[None]:
        """Read everything inside the block from one moment, whatever other processes save meanwhile."""
        if self._database.conn.in_transaction:  # which is such a moment already
            yield
            return
        with explained(self.path):
            self._database.conn.execute("BEGIN")
            try:
                yield
            finally:
                self._database.rollback()

    def save_pack(self, pack: Pack, progress: Progress | None = None) -> Changes:
        """Save a pack in place of the one of its name: all of it, or nothing. Return what that changed.

        `progress` is called with the rows done and the rows in all, now and then. Raises StoreError.
        """
        with self._changing():
            old = self._set_aside(pack.name)
            new = self._insert(pack, old, progress or _silent)
            changes = tuple(self._compare(pack, name, old, new) for name in SCHEMAS)
            self._execute("DELETE FROM packs WHERE id = ?", (old,))
            self._changed()
        return Changes(pack.name, old is None, changes)

    def remove_pack(self, name: str) -> None:
        """Take a pack out, with all its rows. Raises StoreError, also when there is none of that name."""
        with self._changing():
            self._execute("DELETE FROM packs WHERE id = ?", (self._pack_id(name),))  # its rows go with it
            self._changed()

    def _pack_id(self, name: str) -> int:
        with explained(self.path):
            found = self._execute("SELECT id FROM packs WHERE name = ?", (name,)).fetchone()
        if found is None:
            names = ", ".join(self.pack_names()) or "no pack at all"
            raise StoreError(f"There is no pack {name!r} in {self.path}; it holds {names}.")
        return int(found[0])

    def _set_aside(self, name: str) -> int | None:
        """Take the name from the pack that is to be replaced, and return its id; None when there is none."""
        found = self._execute("SELECT id FROM packs WHERE name = ?", (name,)).fetchone()
        if found is None:
            return None
        self._execute("UPDATE packs SET name = NULL WHERE id = ?", found)
        return int(found[0])

    def _insert(self, pack: Pack, old: int | None, progress: Progress) -> int:
        """Write the new rows beside those of the `old` pack, and return the id of the new one."""
        place = "SELECT coalesce((SELECT place FROM packs WHERE id = ?), max(place) + 1, 1) FROM packs"
        cursor = self._execute(
            f"INSERT INTO packs (name, title, version, more, place) VALUES (?, ?, ?, ?, ({place}))",
            (pack.name, pack.title, pack.version, json.dumps(dict(pack.more), ensure_ascii=False), old),
        )
        new = int(cursor.lastrowid or 0)
        done, total = 0, sum(map(len, pack.tables.values()))
        for name, table in pack.tables.items():
            columns = ["pack", "row", *(f'"{column}"' for column in SCHEMAS[name].columns), "extra"]
            marks = ", ".join("?" * len(columns))
            self._database.conn.executemany(
                f"INSERT INTO {_sql_name(name)} ({', '.join(columns)}) VALUES ({marks})",
                _told(_as_stored(new, table), done, total, progress),
            )
            done += len(table)
        progress(done, total)
        return new

    def _compare(self, pack: Pack, name: str, old: int | None, new: int) -> TableChanges:
        if old is None:
            return TableChanges(name, added=len(pack.tables[name]))
        schema = SCHEMAS[name]
        keys = len(schema.key)
        columns = [*schema.key, *(column for column in schema.columns if column not in schema.key), "extra"]
        before, after = (self._sorted(name, columns, keys, id_) for id_ in (old, new))
        return compare(name, columns, keys, before, after)

    def _sorted(self, table: str, columns: Sequence[str], keys: int, pack: int) -> Iterator[Row]:
        names = [f'"{column}"' for column in columns]
        select = f"SELECT {', '.join(names)} FROM {_sql_name(table)} WHERE pack = ?"
        return self._execute(f"{select} ORDER BY {', '.join(names[:keys])}", (pack,))

    def _open_again(self) -> None:
        """Read a file anew that had to be read as it stood and was changed by somebody else since."""
        self._database.close()
        self._database = opening.open_database(self.path, KNOWLEDGE, read_only=True, timeout=self._timeout)
        self._stamp = _stamp(self.path) if opening.can_only_be_read(self.path) else None


_EXTRA = "coalesce((SELECT value FROM json_each(extra) WHERE key = ?), '')"


def _as_stored(pack: int, table: Table) -> Iterator[StoredRow]:
    """Yield the rows of a table as they are kept: pack, row number, its columns, the others as JSON."""
    cells = [table.columns[name] for name in SCHEMAS[table.name].columns]
    extra = _as_json({name: table.columns[name] for name in table.extra})
    return zip(repeat(pack), table.row_numbers, *cells, extra, strict=False)


def _as_json(columns: Mapping[str, Sequence[str]]) -> Iterator[str]:
    if not columns:
        return repeat("{}")
    rows = zip(*columns.values(), strict=True)
    return (json.dumps(dict(zip(columns, cells, strict=True)), ensure_ascii=False) for cells in rows)


def _told(rows: Iterator[StoredRow], done: int, total: int, progress: Progress) -> Iterator[StoredRow]:
    for number, row in enumerate(rows, done):
        if number % _TELL_EVERY == 0:
            progress(number, total)
        yield row


def _silent(done: int, total: int) -> None:
    pass


def _sql_name(table: str) -> str:
    return table.replace("-", "_")


def _stamp(path: Path) -> tuple[int, int, int]:
    found = os.stat(path)
    return found.st_ino, found.st_size, found.st_mtime_ns
