"""An expert presses a button under a card, or under what was understood of their words: carried out, and told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.channels.telegram import bodies, experts
from bot.channels.telegram.asking import OpenDesk
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.experts import CARD, UNDERSTOOD
from bot.channels.telegram.updates import Press
from bot.expert_desk import Desk, DeskError, Done
from bot.handling import Outcome
from bot.journal import Incoming, Reply
from bot.replies import chat_cards
from bot.replies.chat_cards import ASK, GIVE_BACK, NONE_FOR_US, NOT_FOR_US, NOT_SO, SETTLE, SHOW, TAKE, YES
from bot.replies.styled import plain

PROMPTS = {ASK: "ask", SETTLE: "settle", NOT_SO: "hold", NOT_FOR_US: "close"}
"""The buttons that say what is to be written, or ask once more, and what is in the keys of those messages."""

Carry = Callable[[Desk, datetime], Sequence[Reply]]


@dataclass(frozen=True, slots=True)
class CardPress:
    """A press under a card or under what was understood."""

    message: Incoming
    press: Press
    desk: OpenDesk

    @property
    def person(self) -> str:
        """Who it was, as the journal knows people."""
        return f"{CHANNEL}:{self.press.sender.key}"

    @property
    def _key(self) -> str:
        return f"in{self.message.id}"

    def told(self, words: str, rule: str) -> Outcome:
        """Return that nothing is done, with words that say why."""
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
        known |= {one: lambda desk, _: self._prompt(desk, case, does) for one in PROMPTS}
        return known.get(does)

    def _done(self, done: Done) -> Sequence[Reply]:
        return (self._toast(done.text), *done.replies)

    def _done_below(self, done: Done) -> Sequence[Reply]:
        """Say what came of it in the place of the question whether to do it."""
        if not done.is_done:
            return self._done(done)
        said = bodies.edit(f"{self._key}-done", self.press.chat, self.press.number, plain(done.text), self._whom)
        return (*self._done(done), said)

    def _prompt(self, desk: Desk, id_: int, does: str) -> Sequence[Reply]:
        case = desk.case(id_)
        label, data = chat_cards.LABELS[NONE_FOR_US], experts.card_data(id_, NONE_FOR_US)
        keyboard = experts.one_button(label, data) if does == NOT_FOR_US else None
        place = Place(self.press.chat, self.press.thread, self.press.number)
        key = f"case{id_}-{PROMPTS[does]}-{self._key}"
        return (self._toast(""), *bodies.messages(key, place, chat_cards.prompt(does, case), self._whom, keyboard))

    def _show(self, desk: Desk, id_: int) -> Sequence[Reply]:
        card = desk.card(id_)
        text, keyboard = chat_cards.card(card, bodies.LONGEST), experts.keyboard_of(card.case)
        place = Place(self.press.chat, self.press.thread)
        return (self._toast(""), *bodies.messages(f"case{id_}-shown-{self._key}", place, text, self._whom, keyboard))

    def _of_proposal(self, proposal: int, case: int, *, amends: bool) -> Carry:
        def carry(desk: Desk, now: datetime) -> Sequence[Reply]:
            done = (desk.amend if amends else desk.settle)(proposal, self.person, now)
            if not done.is_done and not done.may_amend:
                return self._done(done)
            again = experts.proposal_data(proposal, case, NOT_SO)
            keyboard = experts.one_button(chat_cards.PUT_IN_PLACE, again) if done.may_amend else None
            said = bodies.edit(
                f"{self._key}-done", self.press.chat, self.press.number, plain(done.text), self._whom, keyboard
            )
            return (*self._done(done), said)

        return carry

    def _toast(self, text: str) -> Reply:
        return bodies.toast(f"{self._key}-toast", self.press.id, text, self._whom)

    @property
    def _whom(self) -> For:
        return For(self.person, "")
