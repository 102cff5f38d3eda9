"""Pictures that came with hard questions are fetched from the server and kept at the desk: for experts who read mail,
and for the time when the server has them no more."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from pathlib import PurePosixPath

from bot.cases import Picture
from bot.channels.telegram import bodies
from bot.channels.telegram.bodies import CHANNEL, For
from bot.expert_desk.tables import DESK
from bot.journal import Journal, Reply
from bot.journal.rows import Rows

MOST_BYTES = 10_000_000
"""Larger ones stay with the server."""
_KINDS = {".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".webp": "image/webp", ".gif": "image/gif"}


class KeptPhotos(Rows):
    """The pictures at the desk, by the channel they came by and its name for them."""

    def __init__(self, journal: Journal) -> None:
        super().__init__(journal.path, journal.beside(DESK))

    def keep(self, ref: str, content: bytes, path: str) -> None:
        """Keep the content of a picture; `path` is what the server calls its file."""
        kind = _KINDS.get(PurePosixPath(path).suffix.lower(), "image/jpeg")
        with self._writing():
            self._execute(
                "UPDATE desk_pictures SET content = ?, kind = ? WHERE channel = ? AND ref = ?",
                (content, kind, CHANNEL, ref),
            )

    def content(self, channel: str, ref: str) -> bytes:
        """Return the content of a picture, b'' when it is not kept."""
        sql = "SELECT content FROM desk_pictures WHERE channel = ? AND ref = ? AND content != x'' LIMIT 1"
        found = self._one(sql, (channel, ref))
        return bytes(found[0]) if found else b""

    def add(self, case: int, person: str, refs: Sequence[str]) -> None:
        """Put pictures with a question for which somebody waits already: what they sent when they were asked back."""
        with self._writing():
            for ref in refs:
                self._execute(
                    "INSERT INTO desk_pictures (waiting, channel, ref, kind, content) "
                    "SELECT desk_waiting.id, ?, ?, '', x'' FROM desk_waiting JOIN people ON people.id = person "
                    "WHERE case_ = ? AND people.key = ? ON CONFLICT DO NOTHING",
                    (CHANNEL, ref, case, person),
                )


def fetching(refs: Sequence[str], whom: For) -> list[Reply]:
    """Return the jobs that fetch pictures, one for each however often it is asked for."""
    return [bodies.fetch(f"photo-{digest(ref)}", ref, whom) for ref in refs]


def pictures(refs: Sequence[str]) -> tuple[Picture, ...]:
    """Return pictures as the desk takes them, by their names here."""
    return tuple(Picture(CHANNEL, ref) for ref in refs)


def digest(ref: str) -> str:
    """Return a short name for a picture, for keys."""
    return sha256(ref.encode("utf-8", "surrogatepass")).hexdigest()[:16]
