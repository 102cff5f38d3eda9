"""Changes of lists in the experts' chat: an expert writes one to the bot, another one agrees with a button.

    words to the bot, or in reply to a card -> proposed, and shown to all experts with two buttons
    a press of another expert               -> in force; of whoever proposed it: taken back

Who they are was found out before (at_the_desk.py). Every press is carried out once: what is decided stays decided.
"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.channels.telegram import bodies
from bot.channels.telegram.asking import OpenDesk
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.list_cards import AGREE, BUTTON, card, shown_again
from bot.channels.telegram.updates import Post, Press
from bot.expert_desk import DeskError
from bot.expert_desk.change_offers import ListDesk
from bot.handling import Outcome, Recall
from bot.journal import Incoming, Reply, Talk
from bot.replies import changes
from bot.replies.styled import plain
from knowledge.base import Knowledge
from knowledge.register_changes.nouns import ChangeError
from knowledge.register_changes.parting import is_for_a_list, parted

_NAMED = re.compile(r"\s*change\s*(?:no\.?|nr\.?|#)?\s*(\d{1,9})\s*[?.!]*", re.IGNORECASE)
_FITS_A_TOAST = 190  # characters
_MOST_REMEMBERED = 20
_CHANGE = "change"


@dataclass(frozen=True, slots=True)
class ChangePress:
    """A press under a change of a list. `key` is that of the message with the button, '' for none of ours."""

    message: Incoming
    press: Press
    key: str
    desk: OpenDesk

    @property
    def person(self) -> str:
        """Who it was, as the journal knows people."""
        return f"{CHANNEL}:{self.press.sender.key}"

    def told(self, words: str, rule: str) -> Outcome:
        """Return that nothing is done, with words that say why."""
        return Outcome((self._toast(words),), None, self.person, rule)

    def outcome(self) -> Outcome:
        """Return what comes of the press of an expert; whatever does not fit any more is told and changes nothing."""
        return Outcome((), None, self.person, "experts-press", lambda _, now: self._carried_out(now))

    def _carried_out(self, now: datetime) -> Sequence[Reply]:
        found = BUTTON.fullmatch(self.press.data)
        number, does = (int(found[1]), found[2]) if found else (0, "")
        lists = self.desk().lists
        try:
            decide = lists.agree if does == AGREE else lists.turn_down
            done = decide(number, self.person, now)
        except (DeskError, ChangeError) as fault:
            return (*self._refused(str(fault)), *self._without_old_buttons(lists, number))
        return (self._toast(done.text), *done.replies, *self._without_old_buttons(lists, number))

    def _refused(self, words: str) -> Sequence[Reply]:
        """Say why nothing was done: above the chat where that fits, else in it, for all of it has to be read."""
        if len(words) <= _FITS_A_TOAST:
            return (self._toast(words),)
        place = Place(self.press.chat, self.press.thread, self.press.number)
        told = bodies.messages(f"in{self.message.id}", place, plain(words), self._whom)
        return (self._toast(changes.TOLD_BELOW), *told)

    def _without_old_buttons(self, lists: ListDesk, number: int) -> Sequence[Reply]:
        """Take the buttons off a change that was shown again and is decided; the first card of it loses them anyway."""
        is_shown_again = self.key.startswith(shown_again(number))
        if not is_shown_again or lists.change_card(number).waits:
            return ()
        key = f"{self.key}-bare"
        return (bodies.without_buttons(key, self.press.chat, self.press.number, self._whom),)

    def _toast(self, text: str) -> Reply:
        return bodies.toast(f"in{self.message.id}-toast", self.press.id, text, self._whom)

    @property
    def _whom(self) -> For:
        return For(self.person, "")


@dataclass(frozen=True, slots=True)
class ChangeWords:
    """Words to the bot about lists.

    `text` is without the bot's name; `replied` is the change that they reply to, 0 for none.
    """

    message: Incoming
    post: Post
    text: str
    replied: int
    desk: OpenDesk
    knowledge: Knowledge

    @property
    def person(self) -> str:
        """Who it was, as the journal knows people."""
        return f"{CHANNEL}:{self.post.sender.key}"

    def are_meant(self, beside_a_case: bool) -> bool:
        """Whether the words are about lists; `beside_a_case` where they reply to a case."""
        if beside_a_case:
            return is_for_a_list(self.text, self.knowledge, beside_a_case=True)
        return bool(self.replied or _NAMED.fullmatch(self.text)) or is_for_a_list(self.text, self.knowledge)

    def told(self, words: str, rule: str) -> Outcome:
        """Return that nothing is done, with words that say why."""
        return Outcome(tuple(self._below(words)), None, self.person, rule)

    def outcome(self, recall: Recall) -> Outcome:
        """Return what comes of an expert's words. A message that was changed proposes nothing a second time."""
        talk = f"{CHANNEL}:desk:{self.post.chat}:{self.post.sender.key}"
        said: dict[str, list[str]] = json.loads(recall(talk, self.person) or "{}")
        number = str(self.post.number)
        words, kind = said.get(number, ["", ""])
        if words == self.text:
            return Outcome(rule="unchanged", person=self.person)
        if kind == _CHANGE:
            return self.told(changes.WRITE_A_NEW_ONE, "changed-a-change")
        kept = dict(list({**said, number: [self.text, _CHANGE]}.items())[-_MOST_REMEMBERED:])
        return Outcome(
            (), Talk(talk, json.dumps(kept)), self.person, "experts-words", lambda _, now: self._carried_out(now)
        )

    def _carried_out(self, now: datetime) -> Sequence[Reply]:
        if _NAMED.fullmatch(self.text) or not is_for_a_list(self.text, self.knowledge):
            return self._asked_for()
        found = parted(self.text)
        made = [reply for at, one in enumerate(found.changes) for reply in self._proposed(one, found.why, at, now)]
        left = self._below(changes.TOO_MANY.format(left=found.left), "-left") if found.left else ()
        return (*made, *left)

    def _proposed(self, words: str, why: str, place: int, now: datetime) -> Sequence[Reply]:
        name = f"-{place}" if place else ""
        try:
            made = self.desk().lists.propose_words(self.person, words, self.knowledge, now, why)
        except (DeskError, ChangeError) as fault:
            return self._below(str(fault), name)
        return self._below(made.already, name) if made.already else made.replies

    def _asked_for(self) -> Sequence[Reply]:
        """Show the change that is named once more; a reply to one decides nothing, its buttons do."""
        named = _NAMED.fullmatch(self.text)
        if named is None:
            return self._below(changes.USE_THE_BUTTONS)
        try:
            shown = self.desk().lists.change_card(int(named[1]))
        except ChangeError as fault:
            return self._below(str(fault))
        return card(shown, self.post.chat, f"{shown_again(shown.number)}in{self.message.id}")

    def _below(self, words: str, name: str = "") -> Sequence[Reply]:
        place = Place(self.post.chat, self.post.thread, self.post.number)
        return bodies.messages(f"in{self.message.id}{name}", place, plain(words), For(self.person, ""))
