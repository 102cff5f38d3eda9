"""From one update to what comes of it: the handler of the channel. Posts here, presses of buttons in presses.py.

    update -> event -> what is remembered of its sender -> when_to_speak -> conversation -> replies
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from pathlib import Path

from bot import conversation as core
from bot import when_to_speak
from bot.channels.telegram import answers, asking, memory, presses, updates
from bot.channels.telegram.asking import OpenDesk, answers_an_expert, beside, says_more
from bot.channels.telegram.at_the_desk import AtTheDesk
from bot.channels.telegram.bodies import For, Place
from bot.channels.telegram.experts import Route, case_named, is_of_a_case
from bot.channels.telegram.list_cards import is_of_a_change
from bot.channels.telegram.memory import Asked, Memory
from bot.channels.telegram.presses import pressed
from bot.channels.telegram.surroundings import Me, Surroundings
from bot.channels.telegram.updates import EXPERT, UNKNOWN, Post, Press
from bot.emphasis import without_emphasis
from bot.handling import Outcome, Recall, SetAside
from bot.journal import Incoming, Reply, Talk
from bot.lately import Lately
from bot.replies import changes, chat
from bot.replies.styled import Styled, plain
from bot.state import State
from bot.when_to_speak import Scene
from knowledge.base import Knowledge
from knowledge.expert_answers import NOT_OURS, SETTLES, understand
from knowledge.register_changes.reading import Unclear, read_change
from knowledge.tokens import find

NUMBER, WHERE = "number", "where"
COMMANDS = {
    NUMBER: "Tell how old a machine is: put its number behind this",
    WHERE: "Where the number is on a machine: put the maker or model behind this",
    "help": "What I can do, and how to ask",
}
"""The commands that are offered to people, with their descriptions."""
_SAME_QUESTION = 24 * 3600.0
"""Seconds in which the same number of the same person is not answered again unasked."""
_LATE_EDIT = 24 * 3600.0
"""Seconds after which a message that was changed, and had no answer, is left alone."""
_WHERE_QUESTION = "Where do I find the serial number?"
_START_OF_PRIVATE = re.compile(r"q(\d{1,15})")


@dataclass(frozen=True, slots=True)
class _Turn:
    """One post with all that is needed to answer it."""

    message: Incoming
    post: Post
    text: str
    memory: Memory
    whom: For
    knowledge: Knowledge
    me: Me
    drawings: tuple[Path, ...]
    desk: OpenDesk
    unasked: bool = False

    @property
    def now(self) -> float:
        return self.message.received.timestamp()

    @property
    def key(self) -> str:
        return f"in{self.message.id}"

    @property
    def place(self) -> Place:
        return Place(self.post.chat, self.post.thread, 0 if self.post.is_private else self.post.number)

    @property
    def route(self) -> Route:
        """How whoever wrote this is reached later."""
        post = self.post
        return Route(post.chat, post.thread, post.number, self.whom.conversation, post.sender.user)


class Deciding:
    """The handler of the channel; it works in the clerk's thread."""

    def __init__(self, surroundings: Surroundings, desk: OpenDesk) -> None:
        self._around, self._desk = surroundings, desk
        self._experts = AtTheDesk(surroundings, desk)
        self._lately = Lately()

    def __call__(self, message: Incoming, raw: bytes, recall: Recall, knowledge: Knowledge) -> Outcome:
        """Return what comes of an update. Raises SetAside for bytes that are no update."""
        try:
            event = updates.read(raw)
        except (ValueError, RecursionError) as fault:
            raise SetAside(f"This is no update of the Bot API: {fault}") from fault
        if isinstance(event, Press):
            if is_of_a_case(event.data) or is_of_a_change(event.data):
                return self._experts.pressed(message, event)
            return pressed(message, event, self._around, recall, knowledge, self._desk)
        if not isinstance(event, Post):
            return Outcome(rule=event.what if isinstance(event, updates.Other) else type(event).__name__.lower())
        rule = self._not_for_us(event)
        return Outcome(rule=rule) if rule else self._post(message, event, recall, knowledge)

    def _not_for_us(self, post: Post) -> str:
        if post.service:
            return "service-message"
        if post.kind not in (*updates.GROUPS, "private"):
            return "not-a-group"
        if post.written_by and post.written_by == self._around.me().id:
            return "own-words-forwarded"
        if not post.is_private and not self._around.is_experts_chat(post.chat) and not self._around.is_ours(post.chat):
            return "not-our-group"
        return ""

    def _post(self, message: Incoming, post: Post, recall: Recall, knowledge: Knowledge) -> Outcome:
        me = self._around.me()
        person = f"telegram:{post.sender.key}"
        talk = f"telegram:{self._around.home(post.chat)}:{post.sender.key}"
        if (found := self._experts.words(message, post, recall, knowledge)) is not None:
            return found
        remembered = memory.read(recall(talk, person)).at(message.received.timestamp())
        text = without_emphasis(me.without_calls(post), knowledge.names)
        turn = _Turn(message, post, text, remembered, For(person, talk), knowledge, me, self._around.drawings,
                     self._desk)  # fmt: skip
        before = remembered.of_message(post.number, post.album)
        if not before and (found := self._about_a_case(turn)) is not None:
            return found
        outcome = _changed(turn, before) if before else self._spoken_to(turn)
        return replace(outcome, person=person)

    def _about_a_case(self, turn: _Turn) -> Outcome | None:
        """Return what comes of an answer to an expert, or of words about a case; None for everything else."""
        post, to_us = turn.post, turn.post.to is not None and turn.post.to.user == turn.me.id != 0
        key = self._around.key_at(post.chat, post.to_number) if to_us else ""
        if key or post.is_private:
            found = answers_an_expert(turn.message, post, key, turn.desk(), turn.whom, turn.knowledge)
            if found is not None:
                return found
        if not (to_us or post.is_private or turn.me.is_called(post)):
            return None
        if not isinstance(read_change(turn.text, turn.knowledge), Unclear):
            words = changes.IN_THE_EXPERTS_CHAT
            return self._experts.claimed(turn.message, post, words, "wrote to me to change a list")
        if case_named(turn.text) is None:
            return None
        own = says_more(turn.message, replace(post, text=turn.text), turn.desk(), turn.whom, turn.knowledge)
        if own is not None or understand(turn.text, turn.knowledge).kind not in (SETTLES, NOT_OURS):
            return own
        return self._experts.claimed(turn.message, post)

    def _spoken_to(self, turn: _Turn) -> Outcome:
        if turn.post.changed - turn.post.written > _LATE_EDIT:
            return Outcome(rule="late-change")
        verdict = when_to_speak.judge(self._scene(turn))
        if not verdict.speak:
            return Outcome(rule=verdict.rule)
        if verdict.unasked:
            turn = replace(turn, memory=replace(turn.memory, unasked=turn.now), unasked=True)
        turn = replace(turn, memory=self._with_answered_message(turn))
        return self._command(turn) if _command(turn.post, turn.me) else _answered(turn, turn.text, turn.memory)

    def _scene(self, turn: _Turn) -> Scene:
        post, remembered = turn.post, turn.memory
        last = remembered.asked[-1].at if remembered.asked else None
        to_us = post.to is not None and post.to.user == turn.me.id != 0
        in_experts_chat = self._around.is_experts_chat(post.chat)
        return Scene(
            turn.text,
            turn.knowledge,
            "addressed" if in_experts_chat else self._around.speak,
            is_private=post.is_private,
            by_machine=post.sender.is_bot or post.automatic,
            addressed=(to_us or turn.me.is_called(post) or bool(_command(post, turn.me))) and not post.sender.is_bot,
            to_member=(post.to is not None and not to_us) or bool(set(post.mentions) - turn.me.names),
            forwarded=post.forwarded,
            picture=bool(post.pictures),
            state=remembered.state,
            since_reply=None if last is None else turn.now - last,
            since_unasked=turn.now - remembered.unasked if remembered.unasked else None,
            answered=remembered.serials_since(turn.now - _SAME_QUESTION),
            recent=() if post.is_private else self._lately.hear(
                f"{post.chat}:{post.thread}", post.sender.key, turn.now, turn.text
            ),
        )

    def _with_answered_message(self, turn: _Turn) -> Memory:
        """Return the memory with the state of the answer that this message replies to, whoever asked for that."""
        ids = [int(found[1]) for data in turn.post.to_buttons if (found := re.match(r"(\d{1,15})\.", data))]
        earlier = self._around.incoming(ids[0]) if ids else None
        if earlier is None or not earlier.conversation.startswith(f"telegram:{self._around.home(turn.post.chat)}:"):
            return turn.memory
        theirs = memory.read(self._around.remembered(earlier.conversation)).of(earlier.id)
        return replace(turn.memory, state=theirs.state) if theirs else turn.memory

    def _command(self, turn: _Turn) -> Outcome:
        name, rest = _command(turn.post, turn.me), " ".join(turn.text.split(maxsplit=1)[1:])
        if name == "start" and (wanted := _START_OF_PRIVATE.fullmatch(rest.strip())):
            return self._in_private(turn, int(wanted[1]))
        if name == NUMBER and rest:
            return _answered(turn, rest, turn.memory)
        if name == WHERE:
            return _answered(turn, f"{_WHERE_QUESTION} {rest}", replace(turn.memory, state=State()))
        if name == NUMBER:
            return _words(turn, Styled(chat.TYPE_THE_NUMBER.format(command=f"/{NUMBER}")))
        here = "" if turn.post.is_private else chat.HOW_TO_ASK_HERE.format(command=f"/{NUMBER}")
        return _words(turn, Styled(f"{chat.HELP}\n\n{here}".strip()))

    def _in_private(self, turn: _Turn, id_: int) -> Outcome:
        """The whole answer to a question of a group, for whoever asked it and for experts."""
        earlier = self._around.incoming(id_)
        mine = earlier and (earlier.person == turn.whom.person or EXPERT in turn.post.standing)
        if earlier and not mine and UNKNOWN in turn.post.standing:
            return _words(turn, plain(presses.TRY_AGAIN))
        asked = memory.read(self._around.remembered(earlier.conversation)).of(id_) if earlier and mine else None
        if asked is None:
            return _words(turn, plain(answers.NOT_KNOWN_ANY_MORE))
        return answers.again_whole(turn.key, turn.message.id, turn.place, turn.whom, turn.memory, asked, turn.knowledge)


def _changed(turn: _Turn, before: Asked) -> Outcome:
    """A question that was answered came again: changed, or as a late picture of its album."""
    if turn.post.number != before.message and not turn.text:
        return _late_picture(turn, before)
    if turn.text == before.text:
        return Outcome(rule="unchanged")
    if not find(turn.text, turn.knowledge.names).tokens:
        return Outcome(rule="changed-without-a-number")
    return _answered(turn, turn.text, replace(turn.memory, state=State()), changes=before)


def _late_picture(turn: _Turn, before: Asked) -> Outcome:
    """A picture that came after its album was answered: nothing is said; the experts get it with the case."""
    state, said = core.reply(core.Incoming(before.text, picture=True), State(), turn.knowledge)
    route = replace(turn.route, message=before.message)
    found = asking.Turn(turn.message, before.text, State(), state, said, turn.whom, route, turn.post.pictures, True)
    return Outcome(rule="late-picture", writes=beside(found, turn.desk(), turn.knowledge).writes)


def _answered(turn: _Turn, text: str, before: Memory, changes: Asked | None = None) -> Outcome:
    """Let the conversation answer, and put its answer into messages."""
    state, said = core.reply(core.Incoming(text, bool(turn.post.pictures)), before.state, turn.knowledge)
    serials = tuple(token.serial for token in find(text, turn.knowledge.names).tokens)
    asked = Asked(
        turn.message.id, turn.post.number, turn.text, state, changes.reply if changes else turn.key, serials,
        turn.post.album, turn.now, pictures=turn.post.pictures,
    )  # fmt: skip
    written = answers.Written(
        turn.key, turn.message.id, turn.place, turn.whom, turn.post.is_private, turn.me.username,
        turn.drawings,
    )  # fmt: skip
    pictures = tuple(dict.fromkeys((*turn.memory.pictures_without_a_number(turn.now), *turn.post.pictures)))
    addressed = not turn.unasked or bool(turn.post.pictures)
    more = beside(
        asking.Turn(turn.message, text, before.state, state, said, turn.whom, turn.route, pictures, addressed),
        turn.desk(), turn.knowledge,
    )  # fmt: skip
    replies: list[Reply] = []
    for number, one in enumerate(said):
        its_own = written if not number else replace(written, key=f"{turn.key}-{number}x")
        shows, last = bool(turn.post.pictures) and not serials, number == len(said) - 1
        words = more.words if last else Styled()
        key = changes.reply if changes else ""
        replies += answers.replies(one, its_own, state, turn.knowledge, key, shows, words)
    talk = Talk(turn.whom.conversation, memory.written(turn.memory.with_answer(asked)))
    return Outcome(tuple(replies), talk, writes=more.writes)


def _words(turn: _Turn, words: Styled) -> Outcome:
    replies = answers.in_words(turn.key, turn.place, words, turn.whom)
    return Outcome(tuple(replies), Talk(turn.whom.conversation, memory.written(turn.memory)))


def _command(post: Post, me: Me) -> str:
    """Return the command that is meant for us, without slash and name; one for another bot is none."""
    name, _, whose = post.command.removeprefix("/").lower().partition("@")
    known = name in COMMANDS or name == "start"
    return name if known and whose in ("", me.username.lower()) else ""
