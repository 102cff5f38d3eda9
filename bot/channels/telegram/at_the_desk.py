"""What experts do in their chat: buttons under cards, and words in reply to them.

Only a member of that chat, as the platform said when it was asked, changes anything, with a press or words of their
own. Whoever else tries is told that nothing was changed, and the experts hear of it, once a day of each person.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256

from bot.channels.telegram import bodies, experts
from bot.channels.telegram.asking import OpenDesk
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.experts import CARD, UNDERSTOOD, About, about
from bot.channels.telegram.surroundings import Surroundings
from bot.channels.telegram.updates import EXPERT, UNKNOWN, Post, Press, Sender
from bot.expert_desk import Desk, DeskError, Done
from bot.handling import Outcome, Recall
from bot.journal import Incoming, Reply, Talk
from bot.replies import chat_cards
from bot.replies.chat_cards import ASK, GIVE_BACK, NONE_FOR_US, NOT_FOR_US, NOT_SO, SETTLE, SHOW, TAKE, YES
from bot.replies.styled import Styled, plain
from knowledge.base import Knowledge

_PROMPTS = {ASK: "ask", SETTLE: "settle", NOT_SO: "hold", NOT_FOR_US: "close"}
_UNDERSTOOD_KIND = "understood"
_MOST_REMEMBERED = 20

Carry = Callable[[Desk, datetime], Sequence[Reply]]


@dataclass(frozen=True, slots=True)
class AtTheDesk:
    """The handler of the experts' chat."""

    around: Surroundings
    desk: OpenDesk

    def pressed(self, message: Incoming, press: Press) -> Outcome:
        """Return what comes of a press under a card, wherever and by whomever."""
        turn = _Pressed(message, press, self.desk)
        if UNKNOWN in press.standing:
            return turn.told(chat_cards.ANOTHER_DAY, "standing-unknown")
        if EXPERT not in press.standing:
            return self._refused(turn, chat_cards.EXPERTS_ALONE, "pressed a button under a case")
        if not self.around.is_experts_chat(press.chat):
            return turn.told(chat_cards.IN_THE_EXPERTS_CHAT, "case-elsewhere")
        return turn.outcome()

    def words(
        self, message: Incoming, post: Post, recall: Recall, knowledge: Knowledge
    ) -> Outcome | None:
        """Return what comes of words in the experts' chat, None for those that are no reply to a case."""
        meant = self._meant(post)
        if meant is None or not self.around.is_experts_chat(post.chat):
            return None
        turn = _Written(message, post, meant, self.desk, knowledge)
        if post.sender.key == f"c{post.chat}":
            return turn.told(chat_cards.WRITE_AS_YOURSELF, "anonymous-admin")
        if post.sender.is_bot or not post.sender.user:
            return self._refused(turn, chat_cards.WRITE_AS_YOURSELF, "wrote about a case without a name")
        if post.forwarded or post.automatic:
            return turn.told(chat_cards.IN_YOUR_OWN_WORDS, "passed-on")
        if UNKNOWN in post.standing:
            return turn.told(chat_cards.ANOTHER_DAY, "standing-unknown")
        if EXPERT not in post.standing:
            return self._refused(turn, chat_cards.EXPERTS_ALONE, "wrote about a case")
        return turn.outcome(recall)

    def claimed(self, message: Incoming, post: Post) -> Outcome:
        """Return what comes of words about a case that somebody writes to the bot elsewhere, expert or not."""
        turn = _Written(message, post, About(0, ""), self.desk, Knowledge())
        if post.standing & {EXPERT, UNKNOWN}:
            return turn.told(chat_cards.IN_THE_EXPERTS_CHAT, "case-elsewhere")
        return self._refused(turn, chat_cards.IN_THE_EXPERTS_CHAT, "wrote to me about a case, as if to settle it")

    def _meant(self, post: Post) -> About | None:
        """Return which case the message is about that is replied to, by its number, or else by its buttons."""
        if not self._is_ours(post.to):
            return None
        found = about(self.around.key_at(post.chat, post.to_number))
        if found is not None:
            return found
        card = next(filter(None, map(CARD.fullmatch, post.to_buttons)), None)
        shown = next(filter(None, map(UNDERSTOOD.fullmatch, post.to_buttons)), None)
        return About(int(card[1]), "card") if card else About(int(shown[2]), _UNDERSTOOD_KIND) if shown else None

    def _is_ours(self, sender: Sender | None) -> bool:
        return sender is not None and sender.user == self.around.me().id != 0

    def _refused(self, turn: _Pressed | _Written, words: str, what: str) -> Outcome:
        told = turn.told(words, "not-an-expert")
        chat = self.around.experts_chat
        if chat is None:
            return told
        person = told.person
        day = f"{turn.message.received:%Y-%m-%d}"
        key = f"attempt-{day}-{sha256(person.encode()).hexdigest()[:16]}"
        who = person.replace(f"{CHANNEL}:u", "user ").replace(f"{CHANNEL}:c", "chat ")
        report = bodies.messages(key, Place(chat), chat_cards.attempt(who, what), For(person, ""))
        return Outcome((*told.replies, *report), None, person, told.rule)


@dataclass(frozen=True, slots=True)
class _Pressed:
    """A press under a card or under what was understood."""

    message: Incoming
    press: Press
    desk: OpenDesk

    @property
    def person(self) -> str:
        return f"{CHANNEL}:{self.press.sender.key}"

    @property
    def key(self) -> str:
        return f"in{self.message.id}"

    def told(self, words: str, rule: str) -> Outcome:
        return Outcome((self._toast(words),), None, self.person, rule)

    def outcome(self) -> Outcome:
        """Return what comes of the press of an expert; whatever does not fit any more is told and changes nothing."""
        card, shown = CARD.fullmatch(self.press.data), UNDERSTOOD.fullmatch(self.press.data)
        carry: Carry | None = None
        if card:
            carry = self._of_card(int(card[1]), card[2])
        elif shown and shown[3] in (YES, NOT_SO):
            carry = self._of_proposal(int(shown[1]), int(shown[2]), amends=shown[3] == NOT_SO)
        if carry is None:
            return self.told(chat_cards.NONE_OF_MINE, "not-a-button")
        return Outcome((), None, self.person, "experts-press", lambda _, now: self._carried_out(carry, now))

    def _carried_out(self, carry: Carry, now: datetime) -> Sequence[Reply]:
        try:
            return carry(self.desk(), now)
        except DeskError as fault:
            return (self._toast(str(fault)),)

    def _of_card(self, case: int, does: str) -> Carry | None:
        known: dict[str, Carry] = {
            TAKE: lambda desk, now: self._done(desk.take(case, self.person, now)),
            GIVE_BACK: lambda desk, now: self._done(desk.give_back(case, self.person, now)),
            NONE_FOR_US: lambda desk, now: self._done_below(desk.not_ours(case, self.person, now)),
            SHOW: lambda desk, _: self._show(desk, case),
        }
        known |= {one: lambda desk, _: self._prompt(desk, case, does) for one in _PROMPTS}
        return known.get(does)

    def _done(self, done: Done) -> Sequence[Reply]:
        return (self._toast(done.text), *done.replies)

    def _done_below(self, done: Done) -> Sequence[Reply]:
        """Say what came of it in the place of the question whether to do it."""
        if not done.is_done:
            return self._done(done)
        said = bodies.edit(f"{self.key}-done", self.press.chat, self.press.number, plain(done.text), self._whom)
        return (*self._done(done), said)

    def _prompt(self, desk: Desk, id_: int, does: str) -> Sequence[Reply]:
        case = desk.case(id_)
        label, data = chat_cards.LABELS[NONE_FOR_US], experts.card_data(id_, NONE_FOR_US)
        keyboard = experts.one_button(label, data) if does == NOT_FOR_US else None
        place = Place(self.press.chat, self.press.thread, self.press.number)
        key = f"case{id_}-{_PROMPTS[does]}-{self.key}"
        return (self._toast(""), *bodies.messages(key, place, chat_cards.prompt(does, case), self._whom, keyboard))

    def _show(self, desk: Desk, id_: int) -> Sequence[Reply]:
        card = desk.card(id_)
        text, keyboard = chat_cards.card(card, bodies.LONGEST), experts.keyboard_of(card.case)
        place = Place(self.press.chat, self.press.thread)
        return (self._toast(""), *bodies.messages(f"case{id_}-shown-{self.key}", place, text, self._whom, keyboard))

    def _of_proposal(self, proposal: int, case: int, *, amends: bool) -> Carry:
        def carry(desk: Desk, now: datetime) -> Sequence[Reply]:
            done = (desk.amend if amends else desk.settle)(proposal, self.person, now)
            if not done.is_done and not done.may_amend:
                return self._done(done)
            again = experts.proposal_data(proposal, case, NOT_SO)
            keyboard = experts.one_button(chat_cards.PUT_IN_PLACE, again) if done.may_amend else None
            said = bodies.edit(
                f"{self.key}-done", self.press.chat, self.press.number, plain(done.text), self._whom, keyboard
            )
            return (*self._done(done), said)

        return carry

    def _toast(self, text: str) -> Reply:
        return bodies.toast(f"{self.key}-toast", self.press.id, text, self._whom)

    @property
    def _whom(self) -> For:
        return For(self.person, "")


@dataclass(frozen=True, slots=True)
class _Written:
    """Words in reply to one of our messages about a case."""

    message: Incoming
    post: Post
    about: About
    desk: OpenDesk
    knowledge: Knowledge

    @property
    def person(self) -> str:
        return f"{CHANNEL}:{self.post.sender.key}"

    @property
    def key(self) -> str:
        return f"in{self.message.id}"

    def told(self, words: str, rule: str) -> Outcome:
        return Outcome(self._below(self.key, plain(words)), None, self.person, rule)

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
        return f"case{self.about.case}-{_UNDERSTOOD_KIND}-{self.key}"

    def _carried_out(self, words: str, before: Sequence[str], now: datetime) -> Sequence[Reply]:
        desk, case = self.desk(), self.about.case
        try:
            if self.about.kind == _PROMPTS[ASK]:
                return self._done(desk.ask_asker(case, self.person, words, now, knowledge=self.knowledge))
            if self.about.kind == _PROMPTS[NOT_SO]:
                return self._done(desk.withdraw(case, self.person, words, now))
            return self._proposed(desk, words, before, now)
        except DeskError as fault:
            return self._below(self.key, plain(str(fault)))

    def _done(self, done: Done) -> Sequence[Reply]:
        return (*self._below(self.key, plain(done.text)), *done.replies)

    def _proposed(self, desk: Desk, words: str, before: Sequence[str], now: datetime) -> Sequence[Reply]:
        """Show what was understood, with one button; what was shown before of the same case loses its own."""
        proposal = desk.propose(self.about.case, self.person, words, self.knowledge, now)
        keyboard = None
        if proposal.can_settle:
            data = experts.proposal_data(proposal.id, proposal.case, NOT_SO if proposal.amends else YES)
            keyboard = experts.one_button(chat_cards.says_yes(proposal.understood.kind, proposal.amends), data)
        shown = self._below(self._shown_key, chat_cards.understood(proposal.text), keyboard)
        old = [key for key in before if key.startswith(f"case{self.about.case}-")][-1:]
        bare = [bodies.without_buttons_of(f"{self.key}-bare", key, self.post.chat, self._whom) for key in old]
        return (*shown, *bare, *proposal.replies)

    def _below(self, key: str, text: Styled, keyboard: object = None) -> tuple[Reply, ...]:
        place = Place(self.post.chat, self.post.thread, self.post.number)
        return tuple(bodies.messages(key, place, text, self._whom, keyboard))

    @property
    def _whom(self) -> For:
        return For(self.person, "")


__all__ = ["AtTheDesk"]
