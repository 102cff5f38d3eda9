"""A journal in a file of its own, and a clock that only moves when a test says so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.journal import Journal, open_journal


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
