"""Signed case addresses: what an expert's mail has to carry so that it counts for one case.

    case-12-22464-k7hq...      kind, number, last day (days since 1970), HMAC-SHA256 over these and the expert's address
    read-12.7-22464-a3xp...    the same for the 7th proposal, which belongs to case 12
    agree-7-22464-pw2z...      the same for change 7 of a list, and this expert's word about it

It is the left part of the Message-ID of every mail to an expert, so that any mail program gives it back in In-Reply-To,
and it stands in the subject, for programs that lose that. No server needs plus addresses for it.

It keeps out whoever does not have a mail that was sent to that expert: it cannot be made without the secret, which
never leaves the store, nor be carried over to another case, another expert or a later time. It does not keep out who
reads the expert's mail. Whoever catches a card on its way can at most have the bot tell the expert what it understood:
that is stored only after a second mail, which carries what was sent to the expert's own address alone.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import re
import secrets
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from enum import Enum
from typing import Protocol

LIFE = timedelta(days=60)
"""How long an expert may take to answer a card. The digest brings a new one."""
_SECRET_NAME = "secret of the case addresses"
_MAC_BYTES = 16  # half of what SHA-256 gives, the least that RFC 2104, section 5, advises
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class Kind(Enum):
    """What a signed address lets its owner answer."""

    CASE = "case"  # the card of a case
    READ = "read"  # what was understood of an answer, to be kept after a yes
    AMEND = "amend"  # the same, to be put in the place of what is kept
    DAY = "day"  # the digest of a day, whose number it has; the answer has to name the case
    OFFER = "offer"  # what was understood of a change of a list, to be proposed after a yes
    AGREE = "agree"  # a change of a list that was proposed, to be in force after a yes


_KINDS = "|".join(kind.value for kind in Kind)
_TOKEN = re.compile(
    rf"(?P<kind>{_KINDS})-(?P<number>[1-9][0-9]{{0,8}})(?:\.(?P<part>[1-9][0-9]{{0,8}}))?-(?P<until>[0-9]{{5}})-"
    r"(?P<mac>[a-z2-7]{26})"
)
_LIKE_ONE = re.compile(rf"\b(?:{_KINDS})-\d{{1,9}}(?:\.\d{{1,9}})?-\d{{1,9}}-[a-z0-9]*", re.IGNORECASE)


class Notes(Protocol):
    """The part of the journal that a secret is kept in."""

    def noted(self, channel: str, name: str) -> str | None:
        """Return what was noted, None when nothing was."""

    def note(self, channel: str, name: str, value: str) -> None:
        """Note something."""


@dataclass(frozen=True, slots=True)
class Address:
    """A signed address. `number` is the case, `part` the proposal (0 for none), `until` the last day it is good for."""

    kind: Kind
    number: int
    until: int
    mac: str
    part: int = 0

    def __str__(self) -> str:
        return f"{self.kind.value}-{self.number}{f'.{self.part}' if self.part else ''}-{self.until}-{self.mac}"


class Signer:
    """Signs, and tells whether it signed. The secret shows in no repr, log or error."""

    def __init__(self, secret: bytes) -> None:
        if len(secret) < 32:
            raise ValueError("the secret of the case addresses is too short")
        self._secret = secret

    @classmethod
    def of(cls, notes: Notes) -> Signer:
        """Return the signer of a store; its secret is made when it is first needed."""
        kept = notes.noted("mail", _SECRET_NAME)
        if kept is None:
            notes.note("mail", _SECRET_NAME, secrets.token_hex(32))
            kept = notes.noted("mail", _SECRET_NAME)
        return cls(bytes.fromhex(kept or ""))

    def sign(self, kind: Kind, number: int, person: str, now: datetime, part: int = 0) -> Address:
        """Return the address that lets one person answer, for `LIFE` from now on."""
        address = Address(kind, number, _day(now + LIFE), "", part)
        return replace(address, mac=self._mac(address, person))

    def is_of(self, address: Address, person: str) -> bool:
        """Whether it was made for this person. Takes as long whatever is wrong with it."""
        expected = self._mac(address, person)
        return hmac.compare_digest(expected.encode(), address.mac.encode())

    def _mac(self, address: Address, person: str) -> str:
        facts = (address.kind.value, address.number, address.part, address.until, same_case(person))
        told = "\n".join(map(str, facts))
        digest = hmac.new(self._secret, told.encode("utf-8", "backslashreplace"), hashlib.sha256).digest()[:_MAC_BYTES]
        return base64.b32encode(digest).decode().rstrip("=").lower()


def is_over(address: Address, now: datetime) -> bool:
    """Whether the last day of an address is over."""
    return _day(now) > address.until


def claimed_in(text: str) -> str:
    """Return the first piece of a text that looks like a signed address, whole or damaged; '' for none.

    >>> claimed_in("Re: Case 12 [CASE-12-21534-abc]")
    'CASE-12-21534-abc'
    """
    found = _LIKE_ONE.search(text)
    return found[0] if found else ""


def read(claim: str) -> Address | None:
    """Return the address that stands there, exactly as it was written by us; None for one that is damaged."""
    found = _TOKEN.fullmatch(claim)
    if found is None:
        return None
    part = int(found["part"] or 0)
    return Address(Kind(found["kind"]), int(found["number"]), int(found["until"]), found["mac"], part)


def same_case(address: str) -> str:
    """Return an address by which two that are spelt alike are equal: only A to Z are the same as a to z.

    Python's `lower` makes a plain k of the sign for kelvin, and with it one address of another.
    """
    return "".join(one.lower() if "A" <= one <= "Z" else one for one in address.strip())


def _day(moment: datetime) -> int:
    return (moment - _EPOCH).days
