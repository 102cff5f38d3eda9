"""The tables of the journal, in the SQLite file of the knowledge base, as named steps that are applied in order.

A step that has been released is never edited. Who a person is stands in `people` alone: every other table points
there, so that forgetting somebody is one search.
"""

from __future__ import annotations

from sqlite_utils import Database, Migrations

JOURNAL = Migrations("journal")

_PEOPLE = "CREATE TABLE people (id INTEGER PRIMARY KEY, key TEXT NOT NULL UNIQUE) STRICT"

_CONVERSATIONS = """
CREATE TABLE conversations (
    key TEXT PRIMARY KEY,
    person INTEGER REFERENCES people(id) ON DELETE CASCADE,
    state TEXT NOT NULL,
    changed REAL NOT NULL
) STRICT"""

# Times are seconds since 1970. `next_try` is the time to wait for (0: none) and `since` when the wait was set, so
# that a wait can be told from a clock that was put back. The large column stands last: scans do not read it.
_INCOMING = """
CREATE TABLE incoming (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    channel TEXT NOT NULL,
    key TEXT NOT NULL,
    place TEXT NOT NULL,
    received REAL NOT NULL,
    size INTEGER NOT NULL,
    state TEXT NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'handled', 'aside')),
    tries INTEGER NOT NULL DEFAULT 0,
    begun INTEGER NOT NULL DEFAULT 0,
    next_try REAL NOT NULL DEFAULT 0,
    since REAL NOT NULL DEFAULT 0,
    conversation TEXT NOT NULL DEFAULT '',
    person INTEGER REFERENCES people(id) ON DELETE SET NULL,
    rule TEXT NOT NULL DEFAULT '',
    reason TEXT NOT NULL DEFAULT '',
    finished REAL,
    shown INTEGER NOT NULL DEFAULT 0,
    raw BLOB,
    UNIQUE (channel, key)
) STRICT"""

_OUTGOING = """
CREATE TABLE outgoing (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    channel TEXT NOT NULL,
    key TEXT NOT NULL,
    recipient TEXT NOT NULL,
    answers INTEGER REFERENCES incoming(id),
    conversation TEXT NOT NULL DEFAULT '',
    person INTEGER REFERENCES people(id) ON DELETE CASCADE,
    state TEXT NOT NULL DEFAULT 'queued'
        CHECK (state IN ('queued', 'sending', 'sent', 'uncertain', 'failed')),
    tries INTEGER NOT NULL DEFAULT 0,
    unsure INTEGER NOT NULL DEFAULT 0,
    next_try REAL NOT NULL DEFAULT 0,
    since REAL NOT NULL DEFAULT 0,
    reason TEXT NOT NULL DEFAULT '',
    remote TEXT NOT NULL DEFAULT '',
    queued REAL NOT NULL,
    finished REAL,
    body BLOB,
    UNIQUE (channel, key)
) STRICT"""

_NOTES = """
CREATE TABLE channel_notes (
    channel TEXT NOT NULL,
    name TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (channel, name)
) STRICT, WITHOUT ROWID"""

_INDEXES = (
    "CREATE INDEX incoming_waiting ON incoming(id) WHERE state = 'waiting'",
    "CREATE INDEX incoming_in_order ON incoming(conversation, id) WHERE state = 'waiting'",
    "CREATE INDEX incoming_waits ON incoming(since) WHERE state = 'waiting'",
    "CREATE INDEX incoming_aside ON incoming(id) WHERE state = 'aside'",
    "CREATE INDEX incoming_to_show ON incoming(channel, id) WHERE shown = 0 AND state != 'waiting'",
    "CREATE INDEX incoming_place ON incoming(channel, place)",
    "CREATE INDEX incoming_raw ON incoming(finished) WHERE state = 'handled' AND raw IS NOT NULL",
    "CREATE INDEX incoming_person ON incoming(person)",
    "CREATE INDEX outgoing_due ON outgoing(channel, next_try, id) WHERE state IN ('queued', 'uncertain')",
    "CREATE INDEX outgoing_waits ON outgoing(since) WHERE state IN ('queued', 'uncertain')",
    "CREATE INDEX outgoing_sending ON outgoing(channel) WHERE state = 'sending'",
    "CREATE INDEX outgoing_failed ON outgoing(id) WHERE state = 'failed'",
    "CREATE INDEX outgoing_body ON outgoing(finished) WHERE body IS NOT NULL",
    "CREATE INDEX outgoing_answers ON outgoing(answers)",
    "CREATE INDEX outgoing_person ON outgoing(person, queued)",
    "CREATE INDEX conversations_person ON conversations(person)",
    "CREATE INDEX conversations_changed ON conversations(changed)",
)


@JOURNAL(name="1 inbox and outbox")
def inbox_and_outbox(database: Database) -> None:
    """People, conversations, messages that came in and messages that go out, and what each channel notes down."""
    for statement in (_PEOPLE, _CONVERSATIONS, _INCOMING, _OUTGOING, _NOTES, *_INDEXES):
        database.conn.execute(statement)
