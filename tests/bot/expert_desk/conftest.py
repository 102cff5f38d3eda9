"""A desk with a channel that writes down what it was given, and people who ask it things."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TypeVar

import pytest

from bot.cases import Asker, Card, Case, Notice, Picture
from bot.changes import ChangeCard
from bot.conversation import Incoming, reply
from bot.expert_desk import Desk, Digest, Done, Opened, Opening, Proposal, desk_for
from bot.journal import Journal, Reply, open_journal
from bot.state import State
from knowledge.base import Knowledge

NOW = datetime(2031, 5, 4, 12, 0, tzinfo=UTC)
DAY, HOUR = timedelta(days=1), timedelta(hours=1)

_Made = TypeVar("_Made", Opened, Proposal, Done)


@dataclass
class FakeChannel:
    """Makes a reply of everything, and keeps what it was given."""

    name: str = "chat"
    cards: list[Card] = field(default_factory=list)
    changes: list[Card] = field(default_factory=list)
    told: list[tuple[Asker, Notice]] = field(default_factory=list)
    digests: list[Digest] = field(default_factory=list)
    lists: list[ChangeCard] = field(default_factory=list)

    def card(self, card: Card) -> list[Reply]:
        self.cards.append(card)
        return [Reply(self.name, f"case{card.case.id}-card-{self.name}-{card.case.version}", "experts", b"card")]

    def changed(self, card: Card) -> list[Reply]:
        self.changes.append(card)
        return [Reply(self.name, f"case{card.case.id}-changed-{self.name}-{card.case.version}", "experts", b"change")]

    def tell(self, asker: Asker, notice: Notice, card: Card) -> list[Reply]:
        self.told.append((asker, notice))
        return [Reply(self.name, notice.key, json.loads(asker.route)["to"], notice.text.encode(), asker.person)]

    def digest(self, digest: Digest) -> list[Reply]:
        self.digests.append(digest)
        return [Reply(self.name, f"digest-{digest.day}-{self.name}-1", "experts", b"digest")]

    def change(self, card: ChangeCard) -> list[Reply]:
        self.lists.append(card)
        return [Reply(self.name, f"change{card.number}-{card.change.state}-{self.name}-1", "experts", b"list")]


@dataclass
class Office:
    """The desk of a group, with short words for what people do. `now` is the time, which tests move on."""

    journal: Journal
    knowledge: Knowledge
    channel: FakeChannel
    desk: Desk
    now: datetime = NOW

    def opening(self, text: str, person: str = "ann", *, picture: bool = False, channel: str = "chat") -> Opening:
        state, said = reply(Incoming(text, picture), State(), self.knowledge)
        answer = next((one.answer for one in said if one.answer is not None), None)
        asker = Asker(channel, f"{channel}:{person}", json.dumps({"to": person}))
        shots = (Picture(channel, f"file-of-{person}", "image/jpeg"),) if picture else ()
        found = desk_for(answer, state, asker, self.knowledge, message=7, text=text, pictures=shots)
        assert found is not None, f"{text!r} opens no case"
        return found

    def ask(self, text: str, person: str = "ann", *, picture: bool = False, channel: str = "chat") -> Opened:
        opening = self.opening(text, person, picture=picture, channel=channel)
        return self.queued(self.desk.open(opening, self.knowledge, self.now))

    def propose(self, case: int, text: str, expert: str = "eva") -> Proposal:
        return self.queued(self.desk.propose(case, f"chat:{expert}", text, self.knowledge, self.now))

    def settle(self, case: int, text: str = "Model 9, about 1911", expert: str = "eva") -> Done:
        proposal = self.propose(case, text, expert)
        assert proposal.can_settle, proposal.text
        return self.queued(self.desk.settle(proposal.id, f"chat:{expert}", self.now))

    def said(self, case: int, words: str, person: str = "ann") -> tuple[Reply, ...]:
        return self.desk.asker_said(case, words, self.knowledge, self.now, person=f"chat:{person}")

    def look(self) -> int:
        """One look of the desk at the clock, everything it brings queued."""
        return self.desk.look(self.now, by_the_clock=True)

    def case(self, id_: int) -> Case:
        return self.desk.case(id_)

    def told(self, person: str = "ann") -> list[str]:
        """What a person was told, the first first."""
        return [notice.text for asker, notice in self.channel.told if asker.person == f"chat:{person}"]

    def kinds_told(self, person: str = "ann") -> list[str]:
        return [notice.kind for asker, notice in self.channel.told if asker.person == f"chat:{person}"]

    def happened(self, case: int) -> list[str]:
        return [event.what for event in self.desk.history(case)]

    def queued(self, made: _Made) -> _Made:
        self.journal.queue(made.replies, now=self.now)
        return made


@pytest.fixture
def store(tmp_path: Path, pack) -> Path:
    path = tmp_path / "group.sqlite"
    with open_journal(path, create=True) as journal:
        journal.store().save_pack(pack)
    return path


@pytest.fixture
def office(store: Path, knowledge: Knowledge) -> Iterator[Office]:
    channel = FakeChannel()
    with open_journal(store) as journal:
        yield Office(journal, knowledge, channel, Desk(journal, [channel]))
