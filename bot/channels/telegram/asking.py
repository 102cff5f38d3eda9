"""What the lists do not settle goes to the experts, in the transaction that answers it; the asker hears so at once.

And the way back: what somebody says who was asked something by an expert goes to the case, and is nothing else.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.channels.telegram import answers, photos
from bot.channels.telegram.bodies import CHANNEL, For, Place
from bot.channels.telegram.experts import Route, about, case_named
from bot.channels.telegram.updates import Post
from bot.conversation import Outgoing
from bot.expert_desk import Asker, Case, Desk, DeskError, cannot_say, desk_for
from bot.handling import Outcome
from bot.journal import Incoming, Journal, Reply
from bot.replies import cards, chat_cards
from bot.replies.styled import Styled, plain
from bot.small_talk import kind_word
from bot.state import State
from knowledge.base import Knowledge
from knowledge.tokens import find

Writes = Callable[[Journal, datetime], Sequence[Reply]]
OpenDesk = Callable[[], Desk]
"""Gives the desk, over the clerk's journal; for code in its thread."""
_QUESTION = "question"
_PICTURE_ALONE = "(a picture)"


@dataclass(frozen=True, slots=True)
class Turn:
    """One answer to somebody: what they wrote, the state before and after it, and what is said back.

    `pictures` are those that came with it and with their messages before it.
    """

    message: Incoming
    text: str
    before: State
    after: State
    said: Sequence[Outgoing]
    whom: For
    route: Route
    pictures: tuple[str, ...]
    addressed: bool


@dataclass(frozen=True, slots=True)
class Beside:
    """What goes with an answer: further words to the asker, and what is written down in its transaction."""

    words: Styled = Styled()  # noqa: RUF009  # it is frozen
    writes: Writes | None = None


def beside(turn: Turn, desk: Desk, knowledge: Knowledge) -> Beside:
    """Return what goes with an answer: a case, where it needs people; else an end to one that it settles."""
    answer = next((one.answer for one in turn.said if one.answer is not None), None)
    asker = Asker(CHANNEL, turn.whom.person, turn.route.as_text())
    opening = desk_for(
        answer, turn.after, asker, knowledge, message=turn.message.id, text=turn.text,
        pictures=photos.pictures(turn.pictures), unable=cannot_say(turn.before, turn.said), addressed=turn.addressed,
    )  # fmt: skip
    if opening is None:
        is_known = answer is not None and bool(answer.tokens and answer.candidates)
        return Beside(writes=lambda _, now: desk.got_an_answer(turn.whom.person, now)) if is_known else Beside()
    expected = desk.expected(opening, turn.message.received)
    words = plain(cards.will_look(expected.by, others=expected.others, again=expected.again))

    def writes(_: Journal, now: datetime) -> Sequence[Reply]:
        opened = desk.open(opening, knowledge, now)
        return (*opened.replies, *photos.fetching(turn.pictures, turn.whom))

    return Beside(words, writes)


def answers_an_expert(
    message: Incoming, post: Post, key: str, desk: Desk, whom: For, knowledge: Knowledge
) -> Outcome | None:
    """Return what comes of the answer to an expert's question, None for a message that is none.

    `key` is that of our message which it replies to. In private any message will do, unless it is of another number.
    """
    case = _asked_in(post, key, desk, whom, knowledge)
    return None if case is None else _passed_on(message, post, case, desk, whom, knowledge)


def says_more(message: Incoming, post: Post, desk: Desk, whom: For, knowledge: Knowledge) -> Outcome | None:
    """Return what comes of a message that begins with the number of a case for which its writer waits; else None."""
    try:
        case = desk.case(case_named(post.text) or 0)
    except DeskError:
        return None
    if not any(one.person == whom.person for one in desk.askers(case.id)):
        return None
    return _passed_on(message, post, case, desk, whom, knowledge)


def _passed_on(message: Incoming, post: Post, case: Case, desk: Desk, whom: For, knowledge: Knowledge) -> Outcome:
    words = post.text.strip() or _PICTURE_ALONE
    place = Place(post.chat, post.thread, 0 if post.is_private else post.number)
    thanks = answers.in_words(f"in{message.id}", place, plain(chat_cards.PASSED_ON.format(case=case.id)), whom)

    def writes(journal: Journal, now: datetime) -> Sequence[Reply]:
        photos.KeptPhotos(journal).add(case.id, whom.person, post.pictures)
        said = desk.asker_said(case.id, words, knowledge, now, person=whom.person)
        return (*said, *photos.fetching(post.pictures, whom))

    return Outcome(tuple(thanks), None, whom.person, "answers-an-expert", writes)


def _asked_in(post: Post, key: str, desk: Desk, whom: For, knowledge: Knowledge) -> Case | None:
    meant = about(key)
    if (meant is None or meant.kind != _QUESTION) and (not post.is_private or post.to is not None or post.command):
        return None
    waiting = desk.asked_back(whom.person)
    if meant is not None:
        return next((one for one in waiting if one.id == meant.case), None)
    case = next(iter(waiting), None)
    if case is None or kind_word(post.text):
        return None
    if not case.numbers:
        return case
    others = {token.serial for token in find(post.text, knowledge.names).tokens} - set(case.serials)
    return None if others else case
