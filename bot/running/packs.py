"""The knowledge of a running bot: packs brought into the store at the start, and read anew whenever it changes."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime
from pathlib import Path

from bot import merging
from bot.journal import Journal
from bot.logs import Log
from knowledge.base import Knowledge
from knowledge.mistakes import fit
from knowledge.packs import PackFaults, load
from knowledge.register_changes.overlay import ROW_GONE
from knowledge.shipped import folders
from knowledge.store import Store

_NOTES = "packs at start"  # the 'channel' under which the journal notes what was loaded

_log = Log("packs")


def load_packs(named: tuple[Path, ...], journal: Journal) -> None:
    """Load the packs in these folders, or those shipped when none is named.

    A pack of which the store has an earlier state may be faulty: that is logged, and the earlier state stays. Raises
    PackFaults when there is none. What an earlier start loaded and is named no more is taken out.
    """
    store = journal.store()
    names = {_load_one(folder, store, journal) for folder in named or folders()}
    for name in store.pack_names():
        if name not in names and journal.noted(_NOTES, name):
            store.remove_pack(name)
            journal.note(_NOTES, name, "")
            _log.info("taken out, because it is named no more", pack=name)


def _load_one(folder: Path, store: Store, journal: Journal) -> str:
    """Load one pack when its files changed, and return its name."""
    print_, place = _fingerprint(folder), str(folder.resolve())
    known = journal.noted(_NOTES, place) or ""
    name, _, before = known.rpartition(" ")
    if name in store.pack_names() and before == print_:
        return name
    try:
        pack = load(folder)
    except PackFaults as fault:
        if name not in store.pack_names():
            raise
        _log.error("faulty, so the earlier state stays; see: bedstamp pack check", pack=name, faults=len(fault.faults))
        return name
    merging.refuse_loss(pack, store)
    comparison = merging.beside_ours(pack, store)
    changes = store.save_pack(pack)
    cases = merging.take_up(comparison, journal, datetime.now(UTC)) if comparison else 0
    astray = [one.change.number for one in store.standing(pack.name) if one.how == ROW_GONE]
    if astray:
        _log.warning("changes of registers do not count any more: their rows are gone", pack=pack.name, changes=astray)
    journal.note(_NOTES, place, f"{pack.name} {print_}")
    journal.note(_NOTES, pack.name, place)
    _log.info("loaded", pack=pack.name, changed=bool(changes), first_time=changes.first_time, cases=cases)
    return pack.name


def _fingerprint(folder: Path) -> str:
    """Return a number for the contents of a pack's files that changes when they do."""
    digest = hashlib.sha256()
    for path in sorted(folder.iterdir()):
        if path.suffix in (".csv", ".json") and path.is_file():
            content = path.read_bytes()
            digest.update(f"{path.name} {len(content)}\n".encode())
            digest.update(content)
    return digest.hexdigest()


class Shelf:
    """The knowledge as it stands, in memory. Works over the journal's connection, in the journal's thread."""

    def __init__(self) -> None:
        self._store: Store | None = None
        self._knowledge = Knowledge()
        self._revision = 0

    def current(self, journal: Journal) -> Knowledge:
        """Return the knowledge, read anew when anybody changed it since the last call. Raises StoreError."""
        if self._store is None:
            self._store = journal.store()
        revision = self._store.revision()
        if revision != self._revision:
            with self._store.unchanging():
                learned = fit(self._store.mistakes())
                self._knowledge = Knowledge.of(self._store.sources(), self._store.findings(), learned=learned)
            self._revision = revision
            _log.info("read anew", revision=revision)
        return self._knowledge
