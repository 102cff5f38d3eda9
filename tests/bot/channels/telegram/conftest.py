from __future__ import annotations

import pytest

from tests.telegram_server import BotServer
from tests.telegram_server.running import EXPERT, EXPERTS_CHAT, desk


@pytest.fixture
def server():
    with BotServer().running() as running:
        running.group(EXPERTS_CHAT, "Experts").admins = (EXPERT,)
        yield running


@pytest.fixture
def room(tmp_path, server, pack_folder):
    """A running program in a group where it also speaks to questions."""
    made = desk(tmp_path, server, pack_folder)
    made.start()
    yield made
    if made.program.is_running:
        made.program.terminate()
    assert [error.text for _, _, error in server.refused] == []
