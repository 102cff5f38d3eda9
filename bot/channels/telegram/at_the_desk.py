"""The handler of the experts' chat: buttons under cards (card_presses.py), and words in reply to them (card_words.py);
the same for changes of lists (list_changes.py).

Only a member of that chat, as the platform said when it was asked, changes anything, with a press or words of their
own. Whoever else tries is told that nothing was changed, and the experts hear of it, once a day of each person.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

from bot.channels.telegram import bodies
from bot.channels.telegram.asking import OpenDesk
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.card_presses import PROMPTS, CardPress
from bot.channels.telegram.card_words import UNDERSTOOD_KIND, CardWords
from bot.channels.telegram.experts import CARD, UNDERSTOOD, About, about
from bot.channels.telegram.list_cards import change_of_key, is_of_a_change
from bot.channels.telegram.list_changes import ChangePress, ChangeWords
from bot.channels.telegram.surroundings import Surroundings
from bot.channels.telegram.updates import EXPERT, UNKNOWN, Post, Press, Sender
from bot.handling import Outcome, Recall
from bot.journal import Incoming
from bot.replies import changes, chat_cards
from knowledge.base import Knowledge

Turn = CardPress | CardWords | ChangePress | ChangeWords


@dataclass(frozen=True, slots=True)
class AtTheDesk:
    """The handler of the experts' chat."""

    around: Surroundings
    desk: OpenDesk

    def pressed(self, message: Incoming, press: Press) -> Outcome:
        """Return what comes of a press under a card, wherever and by whomever."""
        is_list = is_of_a_change(press.data)
        key = self.around.key_at(press.chat, press.number)
        turn = ChangePress(message, press, key, self.desk) if is_list else CardPress(message, press, self.desk)
        if UNKNOWN in press.standing:
            return turn.told(chat_cards.ANOTHER_DAY, "standing-unknown")
        if EXPERT not in press.standing:
            words = changes.EXPERTS_ALONE if is_list else chat_cards.EXPERTS_ALONE
            return self._refused(turn, words, f"pressed a button under a {'change of a list' if is_list else 'case'}")
        if not self.around.is_experts_chat(press.chat):
            words = changes.IN_THE_EXPERTS_CHAT if is_list else chat_cards.IN_THE_EXPERTS_CHAT
            return turn.told(words, "case-elsewhere")
        return turn.outcome()

    def words(
        self, message: Incoming, post: Post, recall: Recall, knowledge: Knowledge
    ) -> Outcome | None:
        """Return what comes of words in the experts' chat, None for those that are about neither a case nor lists."""
        if not self.around.is_experts_chat(post.chat):
            return None
        turn = self._turn(message, post, knowledge)
        if turn is None:
            return None
        if post.sender.key == f"c{post.chat}":
            return turn.told(chat_cards.WRITE_AS_YOURSELF, "anonymous-admin")
        if post.sender.is_bot or not post.sender.user:
            return self._refused(turn, chat_cards.WRITE_AS_YOURSELF, "wrote about a case without a name")
        if post.forwarded or post.automatic:
            return turn.told(chat_cards.IN_YOUR_OWN_WORDS, "passed-on")
        if UNKNOWN in post.standing:
            return turn.told(chat_cards.ANOTHER_DAY, "standing-unknown")
        if EXPERT not in post.standing:
            return self._refused(turn, chat_cards.EXPERTS_ALONE, "wrote about a case or a list")
        return turn.outcome(recall)

    def claimed(
        self,
        message: Incoming,
        post: Post,
        words: str = chat_cards.IN_THE_EXPERTS_CHAT,
        what: str = "wrote to me about a case, as if to settle it",
    ) -> Outcome:
        """Return what comes of words about an experts' matter that somebody writes to the bot elsewhere."""
        turn = CardWords(message, post, About(0, ""), self.desk, Knowledge())
        if post.standing & {EXPERT, UNKNOWN}:
            return turn.told(words, "case-elsewhere")
        return self._refused(turn, words, what)

    def _turn(self, message: Incoming, post: Post, knowledge: Knowledge) -> CardWords | ChangeWords | None:
        """Return what words to the bot are about, None for neither a case nor lists."""
        meant, me = self._meant(post), self.around.me()
        is_asked_for = meant is not None and meant.kind in PROMPTS.values()
        if not is_asked_for and (self._is_ours(post.to) or me.is_called(post)):
            replied = change_of_key(self.around.key_at(post.chat, post.to_number)) if self._is_ours(post.to) else 0
            about_lists = ChangeWords(message, post, me.without_calls(post), replied, self.desk, knowledge)
            if about_lists.are_meant(beside_a_case=meant is not None):
                return about_lists
        return None if meant is None else CardWords(message, post, meant, self.desk, knowledge)

    def _meant(self, post: Post) -> About | None:
        """Return which case the message is about that is replied to, by its number, or else by its buttons."""
        if not self._is_ours(post.to):
            return None
        found = about(self.around.key_at(post.chat, post.to_number))
        if found is not None:
            return found
        card = next(filter(None, map(CARD.fullmatch, post.to_buttons)), None)
        shown = next(filter(None, map(UNDERSTOOD.fullmatch, post.to_buttons)), None)
        return About(int(card[1]), "card") if card else About(int(shown[2]), UNDERSTOOD_KIND) if shown else None

    def _is_ours(self, sender: Sender | None) -> bool:
        return sender is not None and sender.user == self.around.me().id != 0

    def _refused(self, turn: Turn, words: str, what: str) -> Outcome:
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
