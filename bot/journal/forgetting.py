"""A person leaves the journal: what is theirs is removed, and the file can be gone through for what others told.

Which words tell of a person is not known here; see bot/forgetting.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from contextlib import contextmanager

from bot.journal.inbox import forgotten
from bot.journal.nouns import Incoming
from bot.journal.upkeep import Upkeep
from knowledge.database import explained
from knowledge.migrations import StoreError

Row = tuple[object, ...]


class Forgetting(Upkeep):
    """The part of the journal that lets people be forgotten."""

    def forget(self, person: str) -> int:
        """Remove everything of a person: messages, replies, conversations, the key itself; return how many messages.

        The keys of the messages stay, unreadable, so that one still lying in the mailbox is not answered anew.
        Messages that were never read once have no person yet and are not found.
        """
        with self._writing():
            found = self._execute("SELECT id FROM people WHERE key = ?", (person,)).fetchone()
            if found is None:
                return 0
            self._execute(
                "UPDATE outgoing SET answers = NULL WHERE answers IN (SELECT id FROM incoming WHERE person = ?)", found
            )
            removed = self._execute("DELETE FROM outgoing WHERE person = ?", found).rowcount
            mine = self._execute("SELECT id, key FROM incoming WHERE person = ?", found).fetchall()
            for id_, key in mine:
                self._execute(
                    "UPDATE incoming SET key = ?, place = '', conversation = '', person = NULL, rule = '', "
                    "reason = '', state = 'handled', raw = NULL WHERE id = ?",
                    (forgotten(key), id_),
                )
            self._execute("DELETE FROM people WHERE id = ?", found)
        return removed + len(mine)

    def messages_of(self, person: str) -> list[Incoming]:
        """Return the messages that came from a person, oldest first."""
        return self._incoming("WHERE one.person = (SELECT id FROM people WHERE key = ?) ORDER BY one.id", (person,))

    def raw_or_nothing(self, id_: int) -> bytes:
        """Return a message as it came, b'' when it is not kept any more."""
        found = self._one("SELECT raw FROM incoming WHERE id = ?", (id_,))
        return found[0] if found is not None and isinstance(found[0], bytes) else b""

    def people(self) -> list[str]:
        """Return the keys of everybody who is known, in order."""
        return [key for (key,) in self._all("SELECT key FROM people ORDER BY key")]

    def names_of_machines(self) -> list[str]:
        """Return the names of makers, models and works in the file."""
        there = {name for (name,) in self._all("SELECT name FROM sqlite_master WHERE type = 'table'")}
        tables = [table for table in ("makers", "models", "works") if table in there]
        return [name for table in tables for (name,) in self._all(f"SELECT DISTINCT name FROM {table}")]

    @contextmanager
    def one_transaction(self) -> Iterator[None]:
        """Do everything inside the block, or nothing."""
        with self._writing():
            yield

    def text_columns(self, without: Collection[str]) -> dict[str, list[str]]:
        """Return each table of the file that has texts or bytes, with their columns; `without` some tables."""
        tables = self._all("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
        found = {}
        for (table,) in tables:
            columns = self._all(f"SELECT name FROM pragma_table_info('{table}') WHERE type IN ('TEXT', 'BLOB')")
            if columns and table not in without:
                found[table] = [name for (name,) in columns]
        return found

    def cells(self, table: str, column: str) -> list[tuple[Row, object]]:
        """Return what stands in a column, each with what tells its row from the others."""
        keys = self._keys(table)
        found = self._all(f'SELECT {", ".join(keys)}, "{column}" FROM "{table}"')
        return [(tuple(row[:-1]), row[-1]) for row in found]

    def state_of(self, table: str, row: Row) -> str:
        """Return the state of a message, in `incoming` or `outgoing`."""
        found = self._one(f'SELECT state FROM "{table}" WHERE {self._where(table)}', row)
        return str(found[0]) if found else ""

    def set_cell(self, table: str, column: str, row: Row, value: object) -> None:
        """Write a cell anew, also in a table that is only added to: forgetting goes before history."""
        with self._writing(), self._without_guards(table):
            self._execute(f'UPDATE "{table}" SET "{column}" = ? WHERE {self._where(table)}', (value, *row))

    def delete_row(self, table: str, row: Row) -> None:
        """Delete one row."""
        with self._writing(), self._without_guards(table):
            self._execute(f'DELETE FROM "{table}" WHERE {self._where(table)}', row)

    def rewrite(self) -> None:
        """Write the file anew, without free space and with an empty log: what was removed is nowhere to be read.

        While another program reads, the log beside the file cannot be emptied. Raises StoreError then.
        """
        with explained(self.path):
            self._execute("VACUUM")
            busy, *_ = self._execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        if busy:
            raise StoreError(
                f"What was to be forgotten is out of {self.path}, but still in the log beside it, because another "
                "program is reading. Forget it once more in a moment, or stop the bot first."
            )

    def _keys(self, table: str) -> list[str]:
        (sql,) = self._all("SELECT sql FROM sqlite_master WHERE name = ?", (table,))[0]
        if "WITHOUT ROWID" not in sql.upper():
            return ["rowid"]
        keys = self._all(f"SELECT name FROM pragma_table_info('{table}') WHERE pk > 0 ORDER BY pk")
        return [f'"{name}"' for (name,) in keys]

    def _where(self, table: str) -> str:
        return " AND ".join(f"{key} = ?" for key in self._keys(table))

    @contextmanager
    def _without_guards(self, table: str) -> Iterator[None]:
        """Lift the triggers of a table for the block."""
        guards = self._all("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = ?", (table,))
        for name, _ in guards:
            self._execute(f'DROP TRIGGER "{name}"')
        yield
        for _, sql in guards:
            self._execute(sql)
