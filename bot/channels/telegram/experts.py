"""The experts' chat and those who asked in chats, as the desk sees them: cards, changes of them, notices, the digest.

The keys say which case a message is about, so that a reply to it, or a press under it, is understood by its number in
the chat alone (`About`). A card is queued once; what changes is an edit of it, and only the latest goes out.
"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass

from bot.cases import Asker, Card, Case, Event, Notice
from bot.changes import ChangeCard
from bot.channels.telegram import bodies, list_cards
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.photos import digest as short_name
from bot.clerk import Clerk
from bot.expert_desk import Digest
from bot.journal import Reply
from bot.replies import chat_cards
from bot.replies.chat import Button
from bot.replies.styled import plain

MOST_PICTURES = 10
"""Of one card at one time; the later ones follow when they come."""
_CARDS_SHOW = ("opened", "opened again", "withdrawn")
"""The changes of a case that put a new card before the experts."""
CARD = re.compile(r"k(\d{1,15})\.([a-z])", re.ASCII)
"""The data of a button under a card: the case, and what it does."""
UNDERSTOOD = re.compile(r"s(\d{1,15})-(\d{1,15})\.([a-z])", re.ASCII)
"""The data of the button under what was understood: the proposal, the case, and what it does."""
_NAMED = re.compile(
    r"\s*/?(?:settle\s+)?(?:case|fall|cas|caso|zaak|sprawa)\s*(?:no\.?|nr\.?)?\s*#?(\d{1,9})\b", re.IGNORECASE
)
_KEY = re.compile(r"case(\d{1,15})-([a-z]+)(?:-|$)", re.ASCII)
_MOST_SHOWN = 8
_NOBODY = For("", "")


@dataclass(frozen=True, slots=True)
class About:
    """What one of our messages is about: a case, and what kind of message it is, as its key says."""

    case: int
    kind: str


def about(key: str) -> About | None:
    """Return what a message of the outbox is about, None when it is about no case.

    >>> about("case12-card-telegram-1")
    About(case=12, kind='card')
    """
    found = _KEY.match(key)
    return About(int(found[1]), found[2]) if found else None


def is_of_a_case(data: str) -> bool:
    """Whether the data of a button is one of a card, or of what was understood."""
    return bool(CARD.fullmatch(data) or UNDERSTOOD.fullmatch(data))


def case_named(text: str) -> int | None:
    """Return the case that a message begins with, None for one that names none.

    >>> case_named("Case 12: Model 9, about 1911"), case_named("the case is oak, 12 inches")
    (12, None)
    """
    found = _NAMED.match(text)
    return int(found[1]) if found else None


@dataclass(frozen=True, slots=True)
class Route:
    """How somebody who asked is reached: the chat, the topic in it, their message, and the conversation it belongs to.

    `user` is who they are to the platform, 0 for those who write in the name of a chat.
    """

    chat: int
    thread: int | None
    message: int
    talk: str
    user: int = 0

    def as_text(self) -> str:
        """Return it as the desk keeps it."""
        return json.dumps([self.chat, self.thread, self.message, self.talk, self.user])

    @classmethod
    def from_text(cls, text: str) -> Route:
        """Return what `as_text` told."""
        return cls(*json.loads(text))


class ChatExperts:
    """The experts' channel of the desk. Without an experts' chat it still tells those who asked in a chat."""

    name = CHANNEL

    def __init__(self, clerk: Clerk, experts_chat: int | None) -> None:
        self._clerk, self._chat = clerk, experts_chat

    def card(self, card: Card) -> Sequence[Reply]:
        """Put a case before the experts, its pictures above it."""
        if self._chat is None:
            return ()
        text, keyboard = chat_cards.card(card, bodies.LONGEST), keyboard_of(card.case)
        shown = bodies.messages(card_key(card), Place(self._chat), text, _NOBODY, keyboard)
        return (*self._pictures(card, self._chat), *shown)

    def changed(self, card: Card) -> Sequence[Reply]:
        """Change the card of a case; pictures that came since follow."""
        if self._chat is None:
            return ()
        text, keyboard = chat_cards.card(card, bodies.LONGEST), keyboard_of(card.case)
        newer, version = f"case{card.case.id}-changed-{CHANNEL}-", card.case.version
        edit = bodies.newest_edit_of(
            f"{newer}{version}", card_key(card), newer, version, Place(self._chat), text, _NOBODY, keyboard
        )
        return (*self._pictures(card, self._chat), edit)

    def tell(self, asker: Asker, notice: Notice, card: Card) -> Sequence[Reply]:
        """Tell somebody who waits, under their own message; in private when they are reached there alone."""
        route = Route.from_text(asker.route)
        is_private = route.chat > 0
        text = chat_cards.told(notice.text, "" if is_private else notice.quoted)
        place = Place(route.chat, route.thread, route.message)
        first, *others = bodies.messages(notice.key, place, text, For(asker.person, route.talk))
        if not is_private and route.user:
            first = bodies.or_else(first, Place(route.user), text)
        return (first, *others)

    def change(self, card: ChangeCard) -> Sequence[Reply]:
        """Put a change of a list before the experts, or show them what became of it."""
        return () if self._chat is None else list_cards.card(card, self._chat)

    def digest(self, digest: Digest) -> Sequence[Reply]:
        """Tell the experts what waits, with a button that brings each card."""
        if self._chat is None:
            return ()
        text = chat_cards.digest(digest.new, digest.remind, digest.waiting, digest.changes)
        shown = (*digest.new, *digest.remind)[:_MOST_SHOWN]
        cells = [{"text": f"Case {one.id}", "callback_data": card_data(one.id, chat_cards.SHOW)} for one in shown]
        keyboard = [cells[at : at + 4] for at in range(0, len(cells), 4)]
        key = f"digest-{digest.day.isoformat()}-{CHANNEL}-1"
        return bodies.messages(key, Place(self._chat), text, _NOBODY, keyboard)

    def _pictures(self, card: Card, chat: int) -> list[Reply]:
        """Return the pictures of a case that were not put before the experts yet, and note that they are."""
        id_, note = card.case.id, f"pictures of case {card.case.id}"
        before = set(json.loads(self._clerk.journal.noted(CHANNEL, note) or "[]"))
        new = [one for one in card.pictures if short_name(f"{one.channel} {one.ref}") not in before][:MOST_PICTURES]
        if not new:
            return []
        names = [short_name(f"{one.channel} {one.ref}") for one in new]
        self._clerk.journal.note(CHANNEL, note, json.dumps(sorted({*before, *names})))
        caption = plain(f"Case {id_}")
        files = [one.ref for one in new if one.channel == CHANNEL]
        key = f"case{id_}-picture-{names[0]}"
        found = [bodies.photos(key, Place(chat), caption, files, _NOBODY)] if files else []
        return found + [
            bodies.kept_photo(f"case{id_}-picture-{name}-kept", Place(chat), caption, one.channel, one.ref, _NOBODY)
            for one, name in zip(new, names, strict=True) if one.channel != CHANNEL
        ]  # fmt: skip


def card_key(card: Card) -> str:
    """Return the key of the card that a case has now: a case that was opened again has a new one.

    Each change has one entry in the history and one version, so the number is that of the change that showed it.
    """
    shown = [number for number, one in enumerate(card.history, 1) if _shows_a_card(one)]
    return f"case{card.case.id}-card-{CHANNEL}-{shown[-1] if shown else 1}"


def _shows_a_card(event: Event) -> bool:
    return event.what in _CARDS_SHOW


def keyboard_of(case: Case) -> list[list[dict[str, str]]]:
    """Return the buttons under a card as the API takes them."""
    return _keyboard(case.id, chat_cards.buttons(case))


def _keyboard(id_: int, rows: Sequence[Sequence[Button]]) -> list[list[dict[str, str]]]:
    return [[{"text": one.label, "callback_data": card_data(id_, one.does)} for one in row] for row in rows]


def card_data(id_: int, does: str) -> str:
    """Return the data of a button under a card."""
    return f"k{id_}.{does}"


def proposal_data(proposal: int, case: int, does: str) -> str:
    """Return the data of the button under what was understood."""
    return f"s{proposal}-{case}.{does}"


def one_button(label: str, data: str) -> list[list[dict[str, str]]]:
    """Return a single button."""
    return [[{"text": label, "callback_data": data}]]

