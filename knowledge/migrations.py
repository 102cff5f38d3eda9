"""The tables of the knowledge in the SQLite file, as named steps that are applied in order, each once.

A step that has been released is never edited: a change of the tables is a new step below the others. Other
parts that keep tables in the same file have a set of their own under another name, and use `upgrade` too.
"""

from __future__ import annotations

from contextlib import closing
from importlib import metadata
from pathlib import Path

from sqlite_utils import Database, Migrations

from knowledge.errors import BedstampError

KNOWLEDGE = Migrations("knowledge")


class StoreError(BedstampError):
    """The knowledge base file cannot be opened, read or written; the text says why and what to do."""

    exit_code = 2


@KNOWLEDGE(name="1 packs and their rows")
def packs_and_their_rows(database: Database) -> None:
    """One row for each pack, one table for each file of a pack.

    `more` is what else the package says, as JSON; `place` the order of the packs; `row` the number of a row,
    as a spreadsheet shows it; `extra` the unknown columns, as JSON.
    """
    database.conn.execute(
        "CREATE TABLE packs (id INTEGER PRIMARY KEY, name TEXT UNIQUE, title TEXT NOT NULL, "
        "version TEXT NOT NULL, more TEXT NOT NULL, place INTEGER NOT NULL) STRICT"
    )
    for table, columns in _COLUMNS_1.items():
        _table_of_rows(database, table, columns)


_COLUMNS_1 = {
    "makers": "maker name aliases country where drawing note",
    "works": "works maker name place from to",
    "models": "model maker name aliases introduced withdrawn shuttle bobbin needle bed drive where drawing note source",
    "registers": "register maker kind title object introducer from to source",
    "allocations": "register order prefix first last suffix date model works quantity source note",
    "year_starts": "register prefix first date works source",
    "date_codes": "register part length characters means table constant rule",
    "code_tables": "table code value from to",
    "prefixes": "register prefix date works source",
    "other_marks": "maker prefix digits what where note",
    "sources": "source title author year locator reliability",
}


@KNOWLEDGE(name="2 revision")
def revision(database: Database) -> None:
    """A number that grows with every change of knowledge, so that a running program can tell cheaply."""
    database.conn.execute("CREATE TABLE revision (number INTEGER NOT NULL) STRICT")
    database.conn.execute("INSERT INTO revision VALUES (1)")


@KNOWLEDGE(name="3 findings")
def findings(database: Database) -> None:
    """Every change of a finding, each with the finding as it is since then; rows are only ever added.

    `what` is 'added', 'amended' or 'withdrawn', `at` and `settled` are ISO 8601 in UTC, `changed_by` names nobody
    ('expert 3').
    """
    texts = "key prefix digits suffix maker model works date evidence kind note author settled".split()
    columns = ", ".join(f'"{name}" TEXT NOT NULL' for name in texts)
    database.conn.execute(
        "CREATE TABLE finding_changes (number INTEGER PRIMARY KEY AUTOINCREMENT, what TEXT NOT NULL "
        "CHECK (what IN ('added', 'amended', 'withdrawn')), changed_by TEXT NOT NULL, at TEXT NOT NULL, "
        f'why TEXT NOT NULL, {columns}, "case" INTEGER) STRICT'
    )
    database.conn.execute("CREATE INDEX finding_changes_key ON finding_changes(key, number)")
    for event in ("UPDATE", "DELETE"):
        database.conn.execute(
            f"CREATE TRIGGER finding_changes_no_{event.lower()} BEFORE {event} ON finding_changes "
            "BEGIN SELECT RAISE(ABORT, 'the history of findings is only added to'); END"
        )


@KNOWLEDGE(name="4 mistakes")
def mistakes(database: Database) -> None:
    """What a settled case shows of a mistake: which it was, and as JSON the share of each that it could have been.

    `token` is the place of the number in the question of the case, 0 for the first; nothing that anybody wrote is
    kept. `day` is ISO 8601.
    """
    database.conn.execute(
        'CREATE TABLE mistakes ("case" INTEGER NOT NULL, token INTEGER NOT NULL, observed TEXT NOT NULL, '
        'shares TEXT NOT NULL, day TEXT NOT NULL, PRIMARY KEY ("case", token)) STRICT'
    )


@KNOWLEDGE(name="5 findings and sightings of packs")
def findings_and_sightings_of_packs(database: Database) -> None:
    """One table for each file by which groups share what their experts settled, as in step 1."""
    columns = "finding prefix number suffix digits maker model works date evidence kind note author settled"
    _table_of_rows(database, "findings", columns)
    _table_of_rows(
        database, "sightings", "sighting prefix number suffix digits maker model works date evidence kind source"
    )


@KNOWLEDGE(name="6 changes of registers")
def changes_of_registers(database: Database) -> None:
    """What was proposed for a row of a register, and what became of it; rows are only ever added.

    `before` and `after` are the cells of a row as JSON, NULL for no row. `proposer` and `who` name nobody ('expert 3').
    That nobody agrees to what they proposed themselves is seen to here too, whatever a program does.
    """
    database.conn.execute(
        "CREATE TABLE register_changes (number INTEGER PRIMARY KEY AUTOINCREMENT, pack TEXT NOT NULL, "
        "in_table TEXT NOT NULL, before TEXT, after TEXT, proposer TEXT NOT NULL CHECK (proposer != ''), "
        "at TEXT NOT NULL, why TEXT NOT NULL, CHECK (before IS NOT NULL OR after IS NOT NULL)) STRICT"
    )
    database.conn.execute(
        "CREATE TABLE register_decisions (place INTEGER PRIMARY KEY AUTOINCREMENT, "
        "change INTEGER NOT NULL UNIQUE REFERENCES register_changes(number), "
        "what TEXT NOT NULL CHECK (what IN ('in force', 'turned down', 'taken back')), who TEXT NOT NULL "
        "CHECK (who != ''), at TEXT NOT NULL, why TEXT NOT NULL) STRICT"
    )
    database.conn.execute(
        "CREATE TRIGGER register_decisions_by_two BEFORE INSERT ON register_decisions WHEN NEW.what = 'in force' "
        "AND NEW.who = (SELECT proposer FROM register_changes WHERE number = NEW.change) "
        "BEGIN SELECT RAISE(ABORT, 'a register changes only when two experts agree'); END"
    )
    for table in ("register_changes", "register_decisions"):
        for event in ("UPDATE", "DELETE"):
            database.conn.execute(
                f"CREATE TRIGGER {table}_no_{event.lower()} BEFORE {event} ON {table} "
                "BEGIN SELECT RAISE(ABORT, 'the history of registers is only added to'); END"
            )


def _table_of_rows(database: Database, table: str, columns: str) -> None:
    # Without a rowid the rows lie in the file in the order in which they are streamed out again.
    texts = ", ".join(f'"{column}" TEXT NOT NULL' for column in columns.split())
    database.conn.execute(
        f"CREATE TABLE {table} (pack INTEGER NOT NULL REFERENCES packs(id) ON DELETE CASCADE, "
        f"row INTEGER NOT NULL, {texts}, extra TEXT NOT NULL, PRIMARY KEY (pack, row)) STRICT, WITHOUT ROWID"
    )


@KNOWLEDGE(name="7 spellings")
def spellings(database: Database) -> None:
    """How the number of a finding was typed where it is stamped otherwise, so that the same slip is known again."""
    database.conn.execute(
        "CREATE TABLE spellings (typed TEXT NOT NULL, finding TEXT NOT NULL, PRIMARY KEY (typed, finding)) STRICT"
    )


def waiting(database: Database, migrations: Migrations) -> list[str]:
    """Return the names of the steps that the file still lacks, in order."""
    return [step.name for step in migrations.pending(database)]


def upgrade(database: Database, migrations: Migrations, path: Path) -> None:
    """Apply the steps that the file lacks. Runs in the caller's transaction: all of them, or none."""
    refuse_newer(database, migrations, path)
    migrations.apply(database)
    database.conn.execute(
        "CREATE TABLE IF NOT EXISTS upgraded_by (migrations TEXT PRIMARY KEY, version TEXT NOT NULL) STRICT"
    )
    database.conn.execute("INSERT OR REPLACE INTO upgraded_by VALUES (?, ?)", (migrations.name, program_version()))


def refuse_newer(database: Database, migrations: Migrations, path: Path) -> None:
    """Raise StoreError, naming both versions, when the file has steps that this program does not know."""
    known = _steps(migrations)
    unknown = [step.name for step in migrations.applied(database) if step.name not in known]
    if unknown:
        theirs = database.conn.execute(
            "SELECT version FROM upgraded_by WHERE migrations = ?", (migrations.name,)
        ).fetchone()
        raise StoreError(
            f"{path} was brought up to date by Bedstamp {theirs[0] if theirs else 'of a newer version'}, "
            f"and this is Bedstamp {program_version()}, which does not know its newer tables ({', '.join(unknown)}). "
            "Nothing was changed. Install the newer version, or use another file."
        )


def _steps(migrations: Migrations) -> set[str]:
    """Return the names of all steps: those that an empty file lacks."""
    with closing(Database(memory=True, execute_plugins=False)) as empty:
        return set(waiting(empty, migrations))


def program_version() -> str:
    """Return the version of the installed program, 'of unknown version' when it is not installed."""
    try:
        return metadata.version("bedstamp")
    except metadata.PackageNotFoundError:
        return "of unknown version"
