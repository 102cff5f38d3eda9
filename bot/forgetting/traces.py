"""What tells of a person: their address or number, their names, and longer texts of theirs that others may quote."""

from __future__ import annotations

import email
import json
import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from email.utils import getaddresses
from functools import cache, cached_property
from typing import Any

from bot.channels import mail_headers as headers
from bot.channels.mail_format import read

SHORTEST_TEXT = 32
"""Letters and digits of a text from which it is taken for theirs wherever it stands."""
_SHORTEST_NUMBER = 5
_PIECES = re.compile(r"\n+|(?<=[.!?;,:])\s+")
_PLAIN = re.compile(r"[\W_]+")
_NEVER = re.compile(r"(?!)")


@dataclass(frozen=True)
class Traces:
    """What is looked for. `ids` are addresses and account numbers, which are nobody else's; `names` are looked for in
    what people wrote, and nowhere else; `texts` are lines and messages of theirs.

    `left` are names that may be other people's or plain words, so that they are not looked for by themselves.
    """

    ids: tuple[str, ...]
    names: tuple[str, ...]
    texts: tuple[str, ...]
    left: tuple[str, ...] = ()

    @cached_property
    def of_ids(self) -> re.Pattern[str]:
        """An expression that finds the ids, also an address that was cut off."""
        return _any_of([*map(_as_id, self.ids)])

    @cached_property
    def of_all(self) -> re.Pattern[str]:
        """An expression that finds ids and names, these with an ending such as 's."""
        named = [rf"{_spaced(name)}(?:['’]?s)?" for name in sorted(self.names, key=len, reverse=True)]
        return _any_of([*map(_as_id, self.ids), *named])

    @cached_property
    def _bare_texts(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(bare(text) for text in self.texts))

    def are_in(self, text: str, *, only_ids: bool = False) -> bool:
        """Whether a text tells of the person; `only_ids` for what is no text that anybody wrote."""
        if only_ids:
            return self.of_ids.search(flat(text)) is not None
        if self.of_all.search(flat(text)):
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
        for found in reversed([*self.of_all.finditer(flat(text))]):
            text = f"{text[: found.start()]}…{text[found.end() :]}"
        return "…" if self.are_in(text) else text


def _any_of(patterns: Sequence[str]) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w)(?:{'|'.join(patterns)})(?!\w)") if patterns else _NEVER


def _spaced(name: str) -> str:
    return r"\s+".join(map(re.escape, flat(name).split()))


def _as_id(one: str) -> str:
    """Return the expression for an id, in a text without accents and capitals; an address may have lost its end."""
    local, at, domain = flat(one).rpartition("@")
    if not at:
        return re.escape(flat(one))
    cut = "|".join(rf"{re.escape(domain[:end])}(?=…|\.\.\.)" for end in range(len(domain) - 1, 0, -1))
    return rf"{re.escape(local)}@(?:{re.escape(domain)}{'|' if cut else ''}{cut})"


def flat(text: str) -> str:
    """Return a text without accents and capitals, each character in its place."""
    return "".join(_flat(character) for character in text) if not text.isascii() else text.lower()


@cache
def _flat(character: str) -> str:
    if not character.isalpha():
        return character
    plain = unicodedata.normalize("NFKD", character)[0].casefold()
    return plain if len(plain) == 1 else character


def bare(text: str) -> str:
    """Return the letters and digits of a text alone: however a quotation is broken into lines, these stay."""
    return _PLAIN.sub("", text.casefold())


def traces_of(
    person: str, raws: Iterable[tuple[str, bytes]], also: Sequence[str] = (), common: Collection[str] = ()
) -> Traces:
    """Return what tells of a person, by their key and their own messages, each given with its channel.

    `also` are names to look for whatever they are; `common` are names of machines, which are never a person's alone.
    """
    names, texts = list[str](), list[str]()
    for channel, raw in raws:
        of_channel, said = _READERS.get(channel, _nothing)(person, raw)
        names += of_channel
        texts += [piece for text in said for piece in (text, *_PIECES.split(text))]
    own = (text.strip() for text in texts)
    found = dict.fromkeys(" ".join(name.split()) for name in names if name.strip())
    machines = {flat(name) for name in common}
    sure = [name for name in found if _is_somebodys(name) and flat(name) not in machines]
    wanted = [name.strip() for name in also if name.strip()]
    return Traces(
        tuple(_of_key(person)),
        tuple(dict.fromkeys([*wanted, *sure])),
        tuple(dict.fromkeys(text for text in own if len(bare(text)) >= SHORTEST_TEXT)),
        tuple(name for name in found if name not in sure and name not in wanted),
    )


def _is_somebodys(name: str) -> bool:
    """Whether a name is likely to be of one person alone: two words or more, all letters, or the name of an account."""
    words = name.split()
    if name.startswith("@"):
        return len(name) > _SHORTEST_NUMBER
    return (
        len(words) > 1
        and all(len(word.strip(".")) > 1 or "." in word for word in words)
        and name.count("@") == 0
        and not any(character.isdigit() for character in name)
    )


def _of_key(person: str) -> list[str]:
    """Return what is this person's alone: the key, the address, the account with its letter or by its long number."""
    channel, _, rest = person.partition(":")
    if channel == "mail":
        return [rest]
    if channel != "telegram":
        return [person]
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
    names = [name for name, of in named if of.lower() == address.lower()]
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
        handle = account.get("username")
        names += [f"{first} {last}".strip(), *([f"@{handle}", handle] if isinstance(handle, str) and handle else [])]
        names += [last, first] if first and last else []
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
