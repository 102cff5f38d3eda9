"""Read the values of one section of the settings file: each is checked, and every fault kept with its key."""

from __future__ import annotations

import ipaddress
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

_SECRET_WORDS = ("password", "token", "secret")
_HOST = re.compile(r"[^\s/@:]+|[0-9A-Fa-f:.]+")
_ADDRESS = re.compile(r"[^\s@<>,;:\"()\\]+@[^\s@<>,;:\"()\\]+")
_LONGEST_SECRET = 4096  # bytes


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of the settings. `key` is as it stands in the file: `[mail] imap_host`."""

    key: str
    text: str

    def __str__(self) -> str:
        return f"{self.key}: {self.text}"


@dataclass(frozen=True, slots=True, repr=False)
class Secret:
    """A password or a token. It shows itself nowhere; `reveal` gives it to what needs it."""

    _value: str

    def __repr__(self) -> str:
        return "Secret(...)"

    def reveal(self) -> str:
        """Return the secret itself: only for what logs in with it."""
        return self._value


@dataclass(slots=True)
class Section:
    """One section while it is read. A value with a fault comes back as its default, so that reading goes on."""

    name: str
    values: Mapping[str, Any]
    folder: Path
    environment: Mapping[str, str]
    faults: list[Fault]
    _asked: list[str] = field(default_factory=list)

    def fault(self, key: str, text: str) -> None:
        """Keep a fault of one key."""
        self.faults.append(Fault(f"[{self.name}] {key}", text))

    def text(self, key: str, default: str | None = None, one_of: Sequence[str] = ()) -> str:
        """Return a text of at least one character, without control characters. No default: it must be there."""
        value = self._value(key, str, default, 'a text in quotes: "..."')
        if one_of and value not in one_of:
            self.fault(key, f"is {value!r}. It must be one of: {', '.join(one_of)}.")
        elif key in self.values and value != default and not (value.strip() and value.isprintable()):
            self.fault(key, "is empty or holds characters that cannot be printed. Write a text, or leave the key out.")
        return str(value)

    def number(self, key: str, default: int | None, least: int, most: int) -> int:
        """Return a whole number from `least` to `most`."""
        value = self._value(key, int, default, "a whole number without quotes")
        if not least <= value <= most:
            self.fault(key, f"is {value}. It must be from {least} to {most}.")
        return int(value)

    def items(self, key: str, kind: type, words: str) -> tuple[Any, ...]:
        """Return the items of a list, all of one kind; nothing when the key is missing."""
        found: list[Any] = self._value(key, list, [], f"a list in brackets: [{words}, ...]")
        wrong = [place for place, one in enumerate(found, 1) if not _is(one, kind)]
        for place in wrong:
            self.fault(key, f"its {_nth(place)} item is of the wrong kind. The list is written [{words}, ...].")
        return () if wrong else tuple(found)

    def address(self, key: str) -> str:
        """Return a mail address."""
        value = self.text(key)
        if value and not _ADDRESS.fullmatch(value):
            self.fault(key, f'{value!r} is no mail address. Write it alone, like "desk@example.org".')
        return value

    def addresses(self, key: str) -> tuple[str, ...]:
        """Return a list of mail addresses."""
        found: tuple[str, ...] = self.items(key, str, '"name@example.org"')
        for value in found:
            if not _ADDRESS.fullmatch(value):
                self.fault(key, f'{value!r} is no mail address. Write it alone, like "name@example.org".')
        return found

    def host(self, key: str) -> str:
        """Return the name or the number of a computer."""
        value = self.text(key)
        if value and not _HOST.fullmatch(value):
            self.fault(
                key, f'{value!r} is no host. Write its name alone, like "mail.example.org"; the port is a key too.'
            )
        return value

    def path(self, key: str, default: str | None = None) -> Path:
        """Return a path; it is relative to the folder of the settings file."""
        return self.folder / Path(self.text(key, default)).expanduser()

    def secret(self, key: str, variable: str) -> Secret | None:
        """Return what is in the file that `key` names, or else in the environment variable; None when in neither.

        Faults say nothing of the value: it may be the secret itself, written in the wrong place.
        """
        if key not in self.values:
            self._asked.append(key)
            found = self.environment.get(variable, "").strip()
            return Secret(found) if found else None
        path = self.path(key)
        try:
            with path.open("rb") as file:
                value = file.read(_LONGEST_SECRET + 1).decode("utf-8-sig").strip()
        except (OSError, ValueError):
            self.fault(
                key, f"the file that it names cannot be read. See that it lies in {self.folder} or give its whole path."
            )
            return None
        if not value or not value.isprintable() or len(value) > _LONGEST_SECRET:
            self.fault(key, "the file that it names must hold one line: the secret, and nothing else.")
            return None
        return Secret(value)

    def finish(self) -> None:
        """Find what nobody asked for: keys that are unknown or misspelt."""
        for key in self.values:
            if key not in self._asked:
                self.fault(key, self._unknown(key))

    def _unknown(self, key: str) -> str:
        if f"{key}_file" in self._asked:
            return (
                "secrets do not belong in this file. Put it into a file of its own that only the bot may read, and "
                f"name that file with {key}_file; or hand it over in the environment. Then remove it here."
            )
        return unknown(key, self._asked, "key")

    def _value(self, key: str, kind: type, default: Any, words: str) -> Any:
        self._asked.append(key)
        if key not in self.values:
            if default is None:
                self.fault(key, f"is missing. Add it to [{self.name}].")
                return kind()
            return default
        if not _is(self.values[key], kind):
            self.fault(key, f"must be {words}.")
            return kind() if default is None else default
        return self.values[key]


def unknown(name: str, known: Iterable[str], what: str) -> str:
    """Say that a name is not known, and which it may have been meant to be."""
    near = get_close_matches(name.lower(), list(known), 1, 0.6)
    meant = f"Did you mean {near[0]}?" if near else f"Known are: {', '.join(sorted(known))}."
    return f"is no {what} that is known here. {meant}"


def is_loopback(host: str) -> bool:
    """Whether what is sent to this host stays inside this computer.

    >>> [is_loopback(host) for host in ("localhost", "127.0.0.1", "::1", "mail.example.org", "10.0.0.1")]
    [True, True, True, False, False]
    """
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host.lower().rstrip(".") == "localhost"


def url_fault(url: str) -> str | None:
    """Return what is wrong with the address of a server that a token is sent to, None when nothing."""
    try:
        parts = urlsplit(url)
        host, _ = parts.hostname or "", parts.port
    except ValueError:
        host = ""
    if not host or parts.scheme not in ("http", "https") or not url.isprintable():
        return 'is no web address. Write it like "https://server.example.org/bot"; the token is added behind it.'
    if parts.scheme == "http" and not is_loopback(host):
        return "would send the token without encryption. Use https://; http:// is only for this computer itself."
    return None


def _is(value: object, kind: type) -> bool:
    return isinstance(value, kind) and not (kind is int and isinstance(value, bool))


def _nth(place: int) -> str:
    endings = {1: "st", 2: "nd", 3: "rd"}
    return f"{place}{'th' if place % 100 in (11, 12, 13) else endings.get(place % 10, 'th')}"
