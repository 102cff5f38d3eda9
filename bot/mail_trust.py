"""Whether the own receiving server vouches for the sender of a mail (RFC 8601, Authentication-Results).

Only the topmost line under the own server's name counts: everything below may have come with the mail, written by
anybody. Without such a name in the settings no mail is vouched for. An expert's words count only from a mail that is.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from email.message import Message

from bot.channels import mail_headers as headers

_REASON = re.compile(r"\breason\s*=\s*\"(?:[^\"\\]|\\.)*\"", re.IGNORECASE)
_COMMENT = re.compile(r"\([^()]*\)")
_RESULT = re.compile(r"([a-z][a-z0-9-]*)\s*(?:/\s*\d+)?\s*=\s*([a-z]+)", re.IGNORECASE)
_PROPERTY = re.compile(r"([a-z]+)\s*\.\s*([a-z][a-z0-9.-]*)\s*=\s*(\"[^\"]*\"|[^\s;\"]+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Result:
    """One method and what it found; `properties` has names like `header.from`, in small letters."""

    method: str
    found: str
    properties: tuple[tuple[str, str], ...]

    def of(self, name: str) -> str:
        """Return a property, '' when it is not told."""
        return next((value for one, value in self.properties if one == name), "")


def results(head: Message, authserv_id: str) -> tuple[Result, ...]:
    """Return what the own server found: those of the topmost line, when that is its own; else nothing."""
    lines = headers.every(head, "Authentication-Results")
    if not lines or not authserv_id:
        return ()
    name, _, rest = _without_comments(lines[0]).partition(";")
    words = name.split()
    if not words or words[0].strip('"').lower() != authserv_id.lower() or words[1:] not in ([], ["1"]):
        return ()
    return tuple(one for piece in rest.split(";") if (one := _result(piece)))


def is_vouched_for(head: Message, sender: str, authserv_id: str) -> bool:
    """Whether DMARC passed for the domain of `sender`, or DKIM passed with a signature of that very domain."""
    domain = sender.rpartition("@")[2].lower()
    if not domain or len(headers.addresses(head, "From")) != 1:
        return False
    return any(
        one.found == "pass" and _names(one) == domain
        for one in results(head, authserv_id)
        if one.method in ("dmarc", "dkim")
    )


def _names(one: Result) -> str:
    """Return the domain a result speaks of."""
    if one.method == "dmarc":
        return one.of("header.from").lower().rpartition("@")[2]
    return (one.of("header.d") or one.of("header.i").rpartition("@")[2]).lower()


def _result(piece: str) -> Result | None:
    found = _RESULT.match(piece.strip())
    if found is None:
        return None
    properties = ((f"{kind}.{name}".lower(), value.strip('"')) for kind, name, value in _PROPERTY.findall(piece))
    return Result(found[1].lower(), found[2].lower(), tuple(properties))


def _without_comments(line: str) -> str:
    """Return a line without what is only for people: reasons first, for they may hold what looks like a result."""
    line = _REASON.sub(" ", line)
    for _ in range(10):  # they may be nested
        shorter = _COMMENT.sub(" ", line)
        if shorter == line:
            break
        line = shorter
    return line
