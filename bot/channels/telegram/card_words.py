"""An expert replies to a card in words: shown as they were understood, with one button; or put to the asker."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.channels.telegram import bodies, experts
from bot.channels.telegram.asking import OpenDesk
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.card_presses import PROMPTS
from bot.channels.telegram.experts import About
from bot.channels.telegram.updates import Post
from bot.expert_desk import Desk, DeskError, Done
from bot.handling import Outcome, Recall
from bot.journal import Incoming, Reply, Talk
from bot.replies import chat_cards
from bot.replies.chat_cards import ASK, NOT_SO, YES
from bot.replies.styled import Styled, plain
from knowledge.base import Knowledge

UNDERSTOOD_KIND = "understood"
"""What is in the keys of messages that show what was understood."""
_MOST_REMEMBERED = 20


@dataclass(frozen=True, slots=True)
class CardWords:
    """Words in reply to one of our messages about a case."""

    message: Incoming
    post: Post
    about: About
    desk: OpenDesk
    knowledge: Knowledge

    @property
    def person(self) -> str:
        """Who it was, as the journal knows people."""
        return f"{CHANNEL}:{self.post.sender.key}"

    @property
    def _key(self) -> str:
        return f"in{self.message.id}"

    def told(self, words: str, rule: str) -> Outcome:
        """Return that nothing is done, with words that say why."""
        return Outcome(self._below(self._key, plain(words)), None, self.person, rule)

    def outcome(self, recall: Recall) -> Outcome:
        """Return what comes of an expert's words. The same words once more, as an edit without a change, are left."""
        talk = f"{CHANNEL}:desk:{self.post.chat}:{self.post.sender.key}"
        said: dict[str, list[str]] = json.loads(recall(talk, self.person) or "{}")
        words, number = self.post.text.strip(), str(self.post.number)
        if not words:
            return self.told(chat_cards.NO_WORDS, "no-words")
        before = said.get(number)
        if before is not None and before[0] == words:
            return Outcome(rule="unchanged", person=self.person)
        kept = dict(list({**said, number: [words, self._shown_key]}.items())[-_MOST_REMEMBERED:])
        return Outcome(
            (), Talk(talk, json.dumps(kept)), self.person, "experts-words",
            lambda _, now: self._carried_out(words, [one[1] for one in said.values()], now),
        )  # fmt: skip

    @property
    def _shown_key(self) -> str:
        return f"case{self.about.case}-{UNDERSTOOD_KIND}-{self._key}"

    def _carried_out(self, words: str, before: Sequence[str], now: datetime) -> Sequence[Reply]:
        desk, case = self.desk(), self.about.case
        try:
            if self.about.kind == PROMPTS[ASK]:
                return self._done(desk.ask_asker(case, self.person, words, now, knowledge=self.knowledge))
            if self.about.kind == PROMPTS[NOT_SO]:
                return self._done(desk.withdraw(case, self.person, words, now))
            return self._proposed(desk, words, before, now)
        except DeskError as fault:
            return self._below(self._key, plain(str(fault)))

    def _done(self, done: Done) -> Sequence[Reply]:
        return (*self._below(self._key, plain(done.text)), *done.replies)

    def _proposed(self, desk: Desk, words: str, before: Sequence[str], now: datetime) -> Sequence[Reply]:
        """Show what was understood, with one button; what was shown before of the same case loses its own."""
        proposal = desk.propose(self.about.case, self.person, words, self.knowledge, now)
        keyboard = None
        if proposal.can_settle:
            data = experts.proposal_data(proposal.id, proposal.case, NOT_SO if proposal.amends else YES)
            keyboard = experts.one_button(chat_cards.says_yes(proposal.understood.kind, proposal.amends), data)
        shown = self._below(self._shown_key, chat_cards.understood(proposal.text), keyboard)
        old = [key for key in before if key.startswith(f"case{self.about.case}-")][-1:]
        bare = [bodies.without_buttons_of(f"{self._key}-bare", key, self.post.chat, self._whom) for key in old]
        return (*shown, *bare, *proposal.replies)

    def _below(self, key: str, text: Styled, keyboard: object = None) -> tuple[Reply, ...]:
        place = Place(self.post.chat, self.post.thread, self.post.number)
        return tuple(bodies.messages(key, place, text, self._whom, keyboard))

    @property
    def _whom(self) -> For:
        return For(self.person, "")
