"""What others shared, put beside what is known here before it is loaded; what contradicts becomes cases at the desk."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from bot.expert_desk.shared import SharedContradictions
from bot.journal import Journal, open_journal
from knowledge.errors import UsageError
from knowledge.packs.tables import FILE_OF_KIND, Pack
from knowledge.sharing import Comparison, compare
from knowledge.store import Store


def beside_ours(pack: Pack, store: Store) -> Comparison | None:
    """Return what a pack shares beside what the store knows; None when it shares nothing."""
    if not pack.shares:
        return None
    with store.unchanging():
        return compare(pack, store.sources(), store.findings(), store.withdrawn_findings())


def refuse_loss(pack: Pack, store: Store) -> None:
    """Raise UsageError when a pack of findings would take the place of one with registers, only by its name."""
    if any(len(pack.tables[table]) for table in FILE_OF_KIND.values()) or pack.name not in store.pack_names():
        return
    if next(iter(store.source(pack.name).rows("registers", "register")), None) is not None:
        raise UsageError(
            f"{store.path} has a pack called {pack.name} with registers, and this one of the same name has none: they "
            'would be lost. Give this pack another "name" in its datapackage.json.'
        )


def take_up(comparison: Comparison, journal: Journal, now: datetime) -> int:
    """Make cases of the contradictions that have none yet, for a bot to show to the experts. Return how many."""
    count, replies = SharedContradictions(journal).take_up(comparison, now)
    journal.queue(replies, now=now)
    return count


def take_up_in(comparison: Comparison, path: Path, now: datetime) -> int:
    """Do so in a file, which gets a desk with its first case."""
    if not comparison.contradictory:
        return 0
    with open_journal(path) as journal:
        return take_up(comparison, journal, now)
