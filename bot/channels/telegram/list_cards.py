"""Changes of lists as they stand in the experts' chat: with two buttons while they wait, and what became of them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from bot.changes import ChangeCard
from bot.channels.telegram import bodies
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.journal import Reply
from bot.replies import changes
from bot.replies.styled import plain, shortened

BUTTON = re.compile(r"r(\d{1,9})\.([ad])", re.ASCII)
"""The data of a button under a change: its number, and whether it agrees or turns down."""
AGREE, TURN_DOWN = "a", "d"
_KEY = re.compile(r"change(\d{1,9})-", re.ASCII)
_NOBODY = For("", "")


def is_of_a_change(data: str) -> bool:
    """Whether the data of a button is one of a change of a list."""
    return BUTTON.fullmatch(data) is not None


def change_of_key(key: str) -> int:
    """Return which change one of our messages is about, by its key in the outbox; 0 for none."""
    found = _KEY.match(key)
    return int(found[1]) if found else 0


def shown_again(number: int) -> str:
    """Return what the keys of a change begin with that was shown once more."""
    return f"change{number}-shown-"


def card(shown: ChangeCard, chat: int, key: str = "") -> Sequence[Reply]:
    """Put a change before the experts, or tell them what became of it, and take the buttons off what they have."""
    first, place = f"change{shown.number}-card-{CHANNEL}-1", Place(chat)
    text = shortened(changes.shown(shown, CHANNEL), bodies.LONGEST)
    if key or shown.waits:
        return bodies.messages(key or first, place, text, _NOBODY, _buttons(shown))
    edit = bodies.edit_of(f"change{shown.number}-decided-{CHANNEL}-1", first, place, text, _NOBODY)
    news = bodies.messages(f"change{shown.number}-news-{CHANNEL}-1", place, plain(changes.news(shown)), _NOBODY)
    return (edit, *news)


def _buttons(shown: ChangeCard) -> list[list[dict[str, str]]] | None:
    if not shown.waits:
        return None
    cells = ((AGREE, changes.AGREE_LABEL), (TURN_DOWN, changes.TURN_DOWN_LABEL))
    return [[{"text": label, "callback_data": f"r{shown.number}.{does}"}] for does, label in cells]
