"""What tells of a person: their address or number, their names, and longer texts of theirs that others may quote."""

from __future__ import annotations

import email
import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from email.utils import getaddresses
from functools import cached_property
from typing import Any

from bot.channels import mail_headers as headers
from bot.channels.mail_format import read

SHORTEST_NAME = 5
"""Letters of a name that is looked for by itself; shorter ones stand in too many other words."""
SHORTEST_TEXT = 32
"""Letters and digits of a text from which it is taken for theirs wherever it stands."""
_SHORTEST_NUMBER = 5
_PIECES = re.compile(r"\n+|(?<=[.!?;,:])\s+")
_PLAIN = re.compile(r"[\W_]+")


@dataclass(frozen=True)
class Traces:
    """What is looked for. `names` are names, addresses and account numbers; `texts` lines and messages of theirs."""

    names: tuple[str, ...]
    texts: tuple[str, ...]

    @cached_property
    def expression(self) -> re.Pattern[str]:
        """An expression that finds each of the names as a whole word, however it is written in JSON."""
        spelt = {form for name in self.names for form in (name, json.dumps(name)[1:-1])}
        ordered = sorted(spelt, key=len, reverse=True)
        return re.compile(
            rf"(?<![\w])(?:{'|'.join(map(re.escape, ordered))})(?![\w])" if ordered else r"(?!)", re.IGNORECASE
        )

    @cached_property
    def _bare_texts(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(bare(text) for text in self.texts))

    def are_in(self, text: str) -> bool:
        """Whether a text tells of the person."""
        if self.expression.search(text):
            return True
        plain = bare(text)
        return any(one in plain for one in self._bare_texts)

    def without(self, text: str) -> str:
        """Return a text in which nothing tells of the person any more; JSON stays JSON."""
        if text[:1] in ("{", "["):
            try:
                return json.dumps(self._of_value(json.loads(text)), ensure_ascii=False)
            except (ValueError, RecursionError):
                pass
        return self._of_text(text)

    def _of_value(self, value: Any) -> Any:
        if isinstance(value, dict):
            return {self._of_text(key): self._of_value(one) for key, one in value.items()}
        if isinstance(value, list):
            return [self._of_value(one) for one in value]
        return self._of_text(str(value)) if self.are_in(str(value)) else value

    def _of_text(self, text: str) -> str:
        """Take the person's words and names out; where words of theirs are left in some other form, all of it goes."""
        for own in sorted(self.texts, key=len, reverse=True):
            text = text.replace(own, "…")
        text = self.expression.sub("…", text)
        return "…" if self.are_in(text) else text


def bare(text: str) -> str:
    """Return the letters and digits of a text alone: however a quotation is broken into lines, these stay."""
    return _PLAIN.sub("", text.casefold())


def traces_of(person: str, raws: Iterable[tuple[str, bytes]], also: Sequence[str] = ()) -> Traces:
    """Return what tells of a person, by their key and their own messages, each given with its channel."""
    names, texts = [*_of_key(person), *also], list[str]()
    for channel, raw in raws:
        of_channel, said = _READERS.get(channel, _nothing)(person, raw)
        names += of_channel
        texts += [piece for text in said for piece in (text, *_PIECES.split(text))]
    own = (text.strip() for text in texts)
    return Traces(
        tuple(dict.fromkeys(name.strip() for name in names if name.strip())),
        tuple(dict.fromkeys(text for text in own if len(bare(text)) >= SHORTEST_TEXT)),
    )


def _of_key(person: str) -> list[str]:
    """Return an address as it stands; an account with its letter, and its number alone where it is long enough."""
    channel, _, rest = person.partition(":")
    if channel == "mail":
        return [rest]
    number = rest.lstrip("uc-")
    return [person, rest, *([number] if len(number) >= _SHORTEST_NUMBER else [])]


_Read = tuple[list[str], list[str]]


def _nothing(_: str, __: bytes) -> _Read:
    return [], []


def _of_mail(person: str, raw: bytes) -> _Read:
    address = person.partition(":")[2]
    try:
        mail, head = read(raw), email.message_from_bytes(raw)
    except Exception:  # noqa: BLE001  # what cannot be read has no names to find
        return [], []
    named = getaddresses([value for name in ("From", "Reply-To", "Sender") for value in headers.every(head, name)])
    names = [name for name, of in named if of.lower() == address.lower() and len(name) >= SHORTEST_NAME]
    return names, [mail.words.own, mail.words.forwarded, mail.subject]


def _of_telegram(person: str, raw: bytes) -> _Read:
    try:
        update = json.loads(raw)
    except (ValueError, RecursionError):
        return [], []
    names, texts = list[str](), list[str]()
    for one in _messages(update):
        account = one["from"]
        if f"telegram:u{account.get('id')}" != person:
            continue
        first, last = (str(account.get(name) or "") for name in ("first_name", "last_name"))
        names += [name for name in (f"{first} {last}".strip(), account.get("username"), last, first)
                  if isinstance(name, str) and len(name) >= SHORTEST_NAME]  # fmt: skip
        texts += [str(one.get(name)) for name in ("text", "caption") if isinstance(one.get(name), str)]
    return names, texts


def _messages(value: Any) -> Iterator[dict[str, Any]]:
    """Yield everything in an update that has a sender."""
    waiting, left = [value], 10_000
    while waiting and left:
        one, left = waiting.pop(), left - 1
        if isinstance(one, dict):
            if isinstance(one.get("from"), dict):
                yield one
            waiting.extend(one.values())
        elif isinstance(one, list):
            waiting.extend(one)


_READERS = {"mail": _of_mail, "telegram": _of_telegram}
