"""The pictures of an album come as updates of their own, of unknown number. They go on together, as one message.

They are kept apart until a moment after the first. The moment is counted from what the journal holds, so a restart
changes nothing.
"""

from __future__ import annotations

import json
from collections import defaultdict
from datetime import datetime

from bot.journal import Incoming, Journal

ALBUM = "telegram-album"
"""The channel under which the pictures of albums are kept until they go on."""
ALBUM_WAITS = 1.2
"""Seconds from the first picture of an album until it is taken for whole."""


def ripe(journal: Journal, now: datetime) -> tuple[list[tuple[str, bytes, list[Incoming]]], int]:
    """Return the albums whose first picture came long enough ago, each as key, bytes and parts; and how many wait."""
    albums: dict[str, list[Incoming]] = defaultdict(list)
    for one in journal.waiting(now, 500, (ALBUM,)):
        albums[one.place].append(one)
    due = [parts for parts in albums.values() if (now - parts[0].received).total_seconds() >= ALBUM_WAITS]
    return [(f"album {parts[0].key}", _together(journal, parts), parts) for parts in due], len(albums) - len(due)


def _together(journal: Journal, parts: list[Incoming]) -> bytes:
    return json.dumps({"album": [json.loads(journal.raw(one.id)) for one in parts]}).encode()
