"""One program and one server for a module; each test has a group of its own, where nothing was said yet."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

from knowledge.packs import write
from tests.bot.channels.telegram.experts_room import ExpertsRoom
from tests.bot.channels.telegram.quick import running_quickly
from tests.telegram_server import BotServer
from tests.telegram_server.running import EXPERT, EXPERTS_CHAT, MINA, Desk, desk

_groups = count(-1001234600001, -1)


@pytest.fixture(scope="module")
def pack_of_module(tmp_path_factory: pytest.TempPathFactory, pack) -> Path:
    folder = tmp_path_factory.mktemp("pack") / "tollgate"
    write(pack, folder)
    return folder


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory, pack_of_module: Path) -> Iterator[Desk]:
    with BotServer().running() as server:
        server.group(EXPERTS_CHAT, "Experts").admins = (EXPERT,)
        made = desk(tmp_path_factory.mktemp("desk"), server, pack_of_module, every_group=True)
        try:
            yield made.start()
        finally:
            ended = made.program.terminate()
        assert ended == 0


@pytest.fixture
def room(running: Desk) -> Iterator[Desk]:
    """A group where the program speaks to questions; nothing that it sends is refused."""
    running.begin(running.server.group(next(_groups)))
    yield running
    assert [error.text for _, _, error in running.server.refused] == []


@pytest.fixture
def server() -> Iterator[BotServer]:
    """A server of the test's own."""
    with BotServer().running() as own:
        own.group(EXPERTS_CHAT, "Experts")
        yield own


@pytest.fixture
def desk_room(tmp_path: Path, pack_folder: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[ExpertsRoom]:
    """Two groups and an experts' chat with two members, on a clock that jumps; nothing that is sent is refused."""
    server = BotServer()
    experts = server.group(EXPERTS_CHAT, "Experts")
    experts.admins, experts.members = (EXPERT,), {MINA}
    with running_quickly(tmp_path, server, pack_folder, monkeypatch) as quick:
        other = server.group(-1001234500077, "Elsewhere")
        yield ExpertsRoom(quick, server, tmp_path, server.group(), other, experts)
        assert [error.text for _, _, error in server.refused] == []
