"""The tables of the desk, in the SQLite file of the journal, as named steps that are applied in order.

A step that has been released is never edited. Who somebody is stands in the journal's `people` alone. What a person
wrote, and how they are reached, stands in rows that go with them (ON DELETE CASCADE); the case with its numbers,
reasons, reading and history stays and names nobody.
"""

from __future__ import annotations

from sqlite_utils import Database, Migrations

DESK = Migrations("desk")

# An expert stays as a number when the person is forgotten: findings and history name that number.
_EXPERTS = """
CREATE TABLE desk_experts (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    person INTEGER UNIQUE REFERENCES people(id) ON DELETE SET NULL
) STRICT"""

# Times are seconds since 1970. `lease`, `ask_until` and `until` are moments to wait for, 0 for none; `reminded` counts
# the reminders that were due; `news` is 1 until a digest told of the case; `waiting` is kept by triggers below.
_CASES = """
CREATE TABLE desk_cases (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    state TEXT NOT NULL DEFAULT 'open'
        CHECK (state IN ('open', 'taken', 'asked back', 'settled', 'closed without an answer')),
    reasons TEXT NOT NULL,
    makers TEXT NOT NULL,
    reading TEXT NOT NULL,
    waiting INTEGER NOT NULL DEFAULT 0,
    expert INTEGER REFERENCES desk_experts(id),
    lease REAL NOT NULL DEFAULT 0,
    ask_until REAL NOT NULL DEFAULT 0,
    opened REAL NOT NULL,
    until REAL NOT NULL,
    changed REAL NOT NULL,
    reminded INTEGER NOT NULL DEFAULT 0,
    news INTEGER NOT NULL DEFAULT 1,
    version INTEGER NOT NULL DEFAULT 0
) STRICT"""

# A case without a number has one row without digits. `number` is the digits as a number, to find neighbours; `finding`
# the key of what was found out, and `found` says it in words.
_NUMBERS = """
CREATE TABLE desk_numbers (
    id INTEGER PRIMARY KEY,
    case_ INTEGER NOT NULL REFERENCES desk_cases(id) ON DELETE CASCADE,
    prefix TEXT NOT NULL,
    digits TEXT NOT NULL,
    suffix TEXT NOT NULL,
    number INTEGER,
    finding TEXT NOT NULL DEFAULT '',
    found TEXT NOT NULL DEFAULT ''
) STRICT"""

# `told` is what they were told last: '' while they wait.
_WAITING = """
CREATE TABLE desk_waiting (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    case_ INTEGER NOT NULL REFERENCES desk_cases(id) ON DELETE CASCADE,
    person INTEGER NOT NULL REFERENCES people(id) ON DELETE CASCADE,
    channel TEXT NOT NULL,
    route TEXT NOT NULL,
    text TEXT NOT NULL,
    state TEXT NOT NULL,
    message INTEGER NOT NULL,
    asked REAL NOT NULL,
    by REAL NOT NULL,
    told TEXT NOT NULL DEFAULT '',
    UNIQUE (case_, person)
) STRICT"""

_PICTURES = """
CREATE TABLE desk_pictures (
    id INTEGER PRIMARY KEY,
    waiting INTEGER NOT NULL REFERENCES desk_waiting(id) ON DELETE CASCADE,
    channel TEXT NOT NULL,
    ref TEXT NOT NULL,
    kind TEXT NOT NULL,
    content BLOB NOT NULL,
    UNIQUE (waiting, channel, ref)
) STRICT"""

_WORDS = """
CREATE TABLE desk_words (
    id INTEGER PRIMARY KEY,
    case_ INTEGER NOT NULL REFERENCES desk_cases(id) ON DELETE CASCADE,
    person INTEGER NOT NULL REFERENCES people(id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('asked', 'said')),
    text TEXT NOT NULL,
    at REAL NOT NULL
) STRICT"""

# `understood` is JSON of what was understood, `told` of the number it is about and the finding in words; `finding` is
# the key of what was stored from it, '' while nothing was.
_PROPOSALS = """
CREATE TABLE desk_proposals (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    case_ INTEGER NOT NULL REFERENCES desk_cases(id) ON DELETE CASCADE,
    person INTEGER NOT NULL REFERENCES people(id) ON DELETE CASCADE,
    expert INTEGER NOT NULL REFERENCES desk_experts(id),
    words TEXT NOT NULL,
    understood TEXT NOT NULL,
    told TEXT NOT NULL,
    at REAL NOT NULL,
    finding TEXT NOT NULL DEFAULT ''
) STRICT"""

_HISTORY = """
CREATE TABLE desk_history (
    id INTEGER PRIMARY KEY,
    case_ INTEGER NOT NULL REFERENCES desk_cases(id) ON DELETE CASCADE,
    at REAL NOT NULL,
    who TEXT NOT NULL,
    what TEXT NOT NULL,
    more TEXT NOT NULL
) STRICT"""

# What a process that has no channels leaves to the one that has them. `waiting` is NULL for what goes to experts.
_ERRANDS = """
CREATE TABLE desk_errands (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    case_ INTEGER NOT NULL REFERENCES desk_cases(id) ON DELETE CASCADE,
    waiting INTEGER REFERENCES desk_waiting(id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('card', 'changed', 'tell')),
    channel TEXT NOT NULL,
    what TEXT NOT NULL
) STRICT"""

_MORE_WAIT = """
CREATE TRIGGER desk_waiting_more AFTER INSERT ON desk_waiting
BEGIN UPDATE desk_cases SET waiting = waiting + 1 WHERE id = NEW.case_; END"""

_FEWER_WAIT = """
CREATE TRIGGER desk_waiting_less AFTER DELETE ON desk_waiting
BEGIN UPDATE desk_cases SET waiting = waiting - 1 WHERE id = OLD.case_; END"""


_INDEXES = (
    "CREATE INDEX desk_cases_in_order ON desk_cases(state, waiting DESC, opened, id)",
    "CREATE INDEX desk_numbers_case ON desk_numbers(case_)",
    "CREATE INDEX desk_numbers_serial ON desk_numbers(digits, prefix, suffix)",
    "CREATE INDEX desk_numbers_near ON desk_numbers(prefix, suffix, number)",
    "CREATE INDEX desk_waiting_person ON desk_waiting(person)",
    "CREATE INDEX desk_waiting_by ON desk_waiting(by) WHERE told = ''",
    "CREATE INDEX desk_words_case ON desk_words(case_)",
    "CREATE INDEX desk_words_person ON desk_words(person)",
    "CREATE INDEX desk_proposals_case ON desk_proposals(case_)",
    "CREATE INDEX desk_proposals_person ON desk_proposals(person)",
    "CREATE INDEX desk_history_case ON desk_history(case_)",
    "CREATE INDEX desk_errands_waiting ON desk_errands(waiting)",
)


@DESK(name="1 cases")
def cases(database: Database) -> None:
    """Experts, cases with their numbers, who waits, what was said, proposals, the history, and errands left open."""
    tables = (
        _EXPERTS, _CASES, _NUMBERS, _WAITING, _PICTURES, _WORDS, _PROPOSALS, _HISTORY, _ERRANDS,
    )  # fmt: skip
    for statement in (*tables, _MORE_WAIT, _FEWER_WAIT, *_INDEXES):
        database.conn.execute(statement)


# What whoever proposed a change of a list saw of it, by the change's number.
_CHANGE_CARDS = """
CREATE TABLE desk_change_cards (
    change INTEGER PRIMARY KEY,
    difference TEXT NOT NULL
) STRICT"""

# `row` is JSON of the change and why; `change` is the number under which it was proposed at the expert's yes, NULL
# before.
_CHANGE_OFFERS = """
CREATE TABLE desk_change_offers (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    person INTEGER NOT NULL REFERENCES people(id) ON DELETE CASCADE,
    row TEXT NOT NULL,
    at REAL NOT NULL,
    change INTEGER
) STRICT"""

_CHANGE_ERRANDS = """
CREATE TABLE desk_change_errands (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    change INTEGER NOT NULL
) STRICT"""


@DESK(name="2 changes of lists")
def changes_of_lists(database: Database) -> None:
    """Changes of lists as they were shown, those that wait for their own expert's yes, and errands to show them."""
    index = "CREATE INDEX desk_change_offers_person ON desk_change_offers(person)"
    for statement in (_CHANGE_CARDS, _CHANGE_OFFERS, index, _CHANGE_ERRANDS):
        database.conn.execute(statement)


# JSON of the makers that were said of a number; NULL for a number that goes with the makers of its case.
_MAKERS_OF_NUMBERS = "ALTER TABLE desk_numbers ADD COLUMN makers TEXT"


@DESK(name="3 makers of numbers")
def makers_of_numbers(database: Database) -> None:
    """Which maker was said of which number of a question."""
    database.conn.execute(_MAKERS_OF_NUMBERS)
