"""Which message of the outbox stands under a number in a chat: what somebody replies to, or presses under."""

from __future__ import annotations

from sqlite_utils import Database, Migrations

from bot.channels.telegram.bodies import CHANNEL
from bot.journal import Journal
from bot.journal.rows import Rows

TELEGRAM = Migrations("telegram")


@TELEGRAM(name="1 messages by their number")
def messages_by_their_number(database: Database) -> None:
    """An index over what the server called the messages of the outbox."""
    database.conn.execute("CREATE INDEX outgoing_remote ON outgoing(channel, recipient, remote) WHERE remote != ''")


class Sent(Rows):
    """The outbox, looked at by the numbers that the server gave."""

    def __init__(self, journal: Journal) -> None:
        super().__init__(journal.path, journal.beside(TELEGRAM))

    def key_at(self, chat: int, number: int, before: int) -> str:
        """Return the key of our message with this number in a chat, '' for none.

        `before` is the id under which the chat began, for what was queued for that and went to the new one.
        """
        found = self._key(chat, str(number)) or self._key(before, name_in(chat, number))
        return str(found[0]) if found else ""

    def _key(self, recipient: int, remote: str) -> tuple[str, ...] | None:
        return self._one(
            "SELECT key FROM outgoing WHERE channel = ? AND recipient = ? AND remote = ? AND remote != ''",
            (CHANNEL, str(recipient), remote),
        )


def name_in(chat: int, number: int) -> str:
    """Return the name of a message that went to another chat than it was queued for."""
    return f"{chat}:{number}"


def place_of(recipient: str, remote: str) -> tuple[int, int]:
    """Return chat and number of a message that was sent; the number is 0 when it is not known."""
    chat, _, number = remote.rpartition(":")
    return int(chat or recipient or 0), int(number or 0)
