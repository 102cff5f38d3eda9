"""How people and our own mails are named: keys of people in the journal, and identifiers that stay the same."""

from __future__ import annotations

import hashlib
import re

from bot.mail_signing import same_case

CHANNEL = "mail"
UNREAD = "place "
"""What the keys of mails begin with that the mailbox could not give whole; why, is noted under the key."""
_ABOUT = re.compile(r"\.about-(\d{1,9})\.desk@")


def person_key(address: str) -> str:
    """Return who somebody is in the journal."""
    return f"{CHANNEL}:{same_case(address)}"


def own_id(key: str, number: int, address: str, about: int = 0) -> str:
    """Return the identifier of a mail of ours: the same whenever that mail is made. `about` is a case it is about."""
    digest = hashlib.sha256(f"{key}\n{number}".encode("utf-8", "backslashreplace")).hexdigest()[:32]
    return f"<{digest}{f'.about-{about}' if about else ''}.desk@{domain_of(address)}>"


def case_of_id(message_id: str) -> int:
    """Return the case that a mail of ours to an asker is about, 0 when it is about none.

    >>> case_of_id("<9f8e.about-12.desk@example.net>")
    12
    """
    found = _ABOUT.search(message_id)
    return int(found[1]) if found else 0


def domain_of(address: str) -> str:
    """Return the domain of an address as it can stand in an identifier."""
    domain = address.rpartition("@")[2]
    return domain if domain.isascii() else domain.encode("idna").decode("ascii")
