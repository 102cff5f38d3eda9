"""A journal in a file of its own, and a clock that only moves when a test says so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.journal import Journal, Reply, Talk, open_journal


@dataclass
class Clock:
    now: datetime = datetime(2031, 5, 4, 10, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def moves(self, **by: float) -> datetime:
        self.now += timedelta(**by)
        return self.now


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "group.sqlite"


@pytest.fixture
def journal(path: Path) -> Iterator[Journal]:
    with open_journal(path, create=True) as opened:
        yield opened


@pytest.fixture
def clock() -> Clock:
    return Clock()


def ask(journal, clock, key: str, person: str, reply: str = ""):
    id_ = journal.receive("mail", key, f"{person} asks {key}".encode(), clock(), place=f"INBOX/1/{key}")
    replies = [Reply("mail", reply, person, f"dear {person}".encode(), person)] if reply else []
    journal.handled(id_, replies, Talk(f"talk of {person}", "{}"), person=person, now=clock())
    return id_


def send(journal, clock, key: str) -> None:
    id_ = journal.outgoing_of("mail", key).id
    journal.sending(id_)
    journal.sent(id_, now=clock())
