"""A small server that follows the published Bot API (https://core.telegram.org/bots/api), for tests alone.

The real program talks to it through `base_url`. It keeps chats, people and messages, confirms updates by offset,
refuses what the API refuses, and can be told to misbehave: 429, hang, close the connection before or after accepting.
Whatever the bot sends is checked against aiogram's typed methods (`model.py`), a model of the API that is not ours.
"""

from tests.telegram_server.faults import Fault
from tests.telegram_server.server import BotServer
from tests.telegram_server.world import Chat, Person

__all__ = ["BotServer", "Chat", "Fault", "Person"]
