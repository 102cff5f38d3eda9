"""A button was pressed: checked to be ours and the presser's to press, then done, once, however often it comes.

The data of a button is the number of a question in the journal and which button it is. Everything else is looked up,
so that made-up data leads nowhere.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bot import conversation as core
from bot.channels.telegram import answers, asking, bodies, memory
from bot.channels.telegram.answers import Written
from bot.channels.telegram.asking import Beside, OpenDesk
from bot.channels.telegram.bodies import For, Place
from bot.channels.telegram.experts import Route
from bot.channels.telegram.memory import Asked, Memory
from bot.channels.telegram.surroundings import DATA, Surroundings
from bot.channels.telegram.updates import ADMIN, EXPERT, UNKNOWN, Press
from bot.handling import Outcome, Recall
from bot.journal import Incoming, Reply, Talk
from bot.pictures import can_draw
from bot.replies import chat
from bot.replies.chat import ALL, HOW, PICTURE, UNSURE
from bot.replies.styled import Styled, joined, plain, shortened
from bot.state import State
from knowledge.base import Knowledge

NOT_YOURS = "Only who asked, or one of the group's experts, can use these buttons. Ask me with your own number."
ASKED_IN_THE_GROUPS_NAME = "This was asked in the group's name: one of its admins has to press. Or ask as yourself."
ASKED_BY_A_CHANNEL = (
    "This was asked in a channel's name, and a press does not tell me who speaks for it. Type it as a reply to my "
    "answer, or ask as yourself."
)
TRY_AGAIN = "I could not find out just now whether you may do that. Please try again in a minute."
TOO_OLD = "That was too long ago, I do not have it any more. Please type the number again."
NOT_A_BUTTON = "This button is none of mine. Please type the number again."
DONE_ALREADY = "That was chosen already. You can type what is different."
ON_ITS_WAY = "The picture is on its way."
_MORE = "\n\nThe rest of it is too long for a group: ask me in private."


@dataclass(frozen=True, slots=True)
class _Pressed:
    """A press that may be carried out."""

    message: Incoming
    press: Press
    asked: Asked
    memory: Memory
    written: Written
    knowledge: Knowledge
    desk: OpenDesk


def pressed(
    message: Incoming, press: Press, around: Surroundings, recall: Recall, knowledge: Knowledge, desk: OpenDesk
) -> Outcome:
    """Return what comes of a press. Whatever is wrong with it, its sender is told so and nobody else."""
    presser = f"telegram:{press.sender.key}"
    found = DATA.fullmatch(press.data)
    question = around.incoming(int(found[1])) if found else None
    if question is None or found is None:
        return _told(message, press, NOT_A_BUTTON, presser, "not-a-button")
    if not question.conversation.startswith(f"telegram:{around.home(press.chat)}:"):
        return _told(message, press, NOT_A_BUTTON, presser, "button-of-another-chat")
    if presser != question.person and not press.standing & {EXPERT, ADMIN}:
        return _told(message, press, _refusal(press, question), presser, "button-of-another-person")
    remembered = memory.read(recall(question.conversation, question.person))
    asked = remembered.of(question.id)
    if asked is None:
        return _told(message, press, TOO_OLD, presser, "old-button")
    place = Place(press.chat, press.thread, press.number)
    whom = For(question.person, question.conversation)
    is_private = press.kind == "private"
    written = Written(f"in{message.id}", message.id, place, whom, is_private, around.me().username, around.drawings)
    return _done(_Pressed(message, press, asked, remembered, written, knowledge, desk), found[2])


def _refusal(press: Press, question: Incoming) -> str:
    """Return why somebody else may not press; for admins and channels, how they come to their own answer."""
    if UNKNOWN in press.standing:
        return TRY_AGAIN
    if not question.person.startswith("telegram:c"):
        return NOT_YOURS
    return ASKED_IN_THE_GROUPS_NAME if question.person == f"telegram:c{press.chat}" else ASKED_BY_A_CHANNEL


def _done(turn: _Pressed, does: str) -> Outcome:
    if does == PICTURE:
        return _picture(turn)
    if does in (HOW, ALL):
        return _more(turn, does)
    if does == UNSURE or does.isdecimal():
        return _chosen(turn, does)
    return _toast(turn, NOT_A_BUTTON, rule="not-a-button")


def _chosen(turn: _Pressed, does: str) -> Outcome:
    """A choice of the question back: the answer is given anew, in the place of the old one in a group."""
    asked = turn.asked.state.asked
    if turn.asked.settled:
        return _toast(turn, DONE_ALREADY, rule="pressed-again")
    if asked is None or (does.isdecimal() and int(does) >= len(asked.choices)):
        return _toast(turn, NOT_A_BUTTON, rule="not-a-button")
    said = "I don't know" if does == UNSURE else asked.choices[int(does)]
    state, (outgoing, *_) = core.reply(core.Incoming(said), turn.asked.state, turn.knowledge)
    new = replace(turn.asked, id=turn.message.id, state=state, settled=False, at=turn.message.received.timestamp())
    kept = turn.memory.with_settled(turn.asked.id).with_answer(new)
    talk = Talk(turn.written.whom.conversation, memory.written(kept))
    more = _beside(turn, state, outgoing)
    shown = _in_private if turn.written.is_private else _in_group
    found = shown(turn, outgoing, new, more.words)
    return Outcome((_answer(turn, ""), *found), talk, turn.written.whom.person, writes=more.writes)


def _beside(turn: _Pressed, state: State, outgoing: core.Outgoing) -> Beside:
    """Return what goes with an answer after a choice: people look at it where the asker cannot tell."""
    asked, press, whom = turn.asked, turn.press, turn.written.whom
    number, user = asked.message, whom.person.removeprefix("telegram:u")
    route = Route(press.chat, press.thread, number, whom.conversation, int(user) if user.isdecimal() else 0)
    pictures = turn.memory.pictures_without_a_number(turn.message.received.timestamp())
    answered = asking.Turn(
        turn.message, asked.text, asked.state, state, [outgoing], whom, route, (*pictures, *asked.pictures), True
    )
    return asking.beside(answered, turn.desk(), turn.knowledge)


def _in_group(turn: _Pressed, outgoing: core.Outgoing, new: Asked, more: Styled) -> list[Reply]:
    answer = outgoing.answer or answers.answer_of(new.state, turn.knowledge)
    if outgoing.answer is None:
        answer = replace(answer, ask_back=None)
    text = joined([chat.short(answer, turn.knowledge), plain(outgoing.words), more], "\n\n")
    keyboard = turn.written.keyboard(answer)
    return [bodies.edit(turn.written.key, turn.press.chat, turn.press.number, text, turn.written.whom, keyboard)]


def _in_private(turn: _Pressed, outgoing: core.Outgoing, new: Asked, more: Styled) -> list[Reply]:
    """In private the old answer stays, without its buttons, and the new one comes below it."""
    bare = bodies.without_buttons(f"{turn.written.key}-bare", turn.press.chat, turn.press.number, turn.written.whom)
    below = replace(turn.written, place=turn.written.below)
    return [bare, *answers.replies(outgoing, below, new.state, turn.knowledge, more=more)]


def _more(turn: _Pressed, does: str) -> Outcome:
    """How it was found, or every dating: in a group put under the answer, in private sent below."""
    answer = answers.answer_of(turn.asked.state, turn.knowledge)
    more = chat.how(answer) if does == HOW else chat.every(answer, turn.knowledge)
    key, whom = f"in{turn.asked.id}-{does}", turn.written.whom
    if turn.written.is_private:
        found = answers.in_words(key, Place(turn.press.chat, turn.press.thread), more, whom)
    else:
        text = _fitting(chat.short(answer, turn.knowledge), more)
        mine = replace(turn.written, id=turn.asked.id)
        keyboard = mine.keyboard(answer, frozenset({does}))
        found = [bodies.edit(turn.written.key, turn.press.chat, turn.press.number, text, whom, keyboard)]
    return Outcome((_answer(turn, ""), *found), _unchanged(turn), whom.person)


def _fitting(short: Styled, more: Styled) -> Styled:
    whole = joined([short, more], "\n\n")
    cut = shortened(whole, bodies.LONGEST - len(_MORE))
    return whole if cut == whole else cut + Styled(_MORE)


def _picture(turn: _Pressed) -> Outcome:
    answer = answers.answer_of(turn.asked.state, turn.knowledge)
    if not can_draw(answer):
        return _toast(turn, NOT_A_BUTTON, rule="nothing-to-draw")
    found = answers.picture(answer, replace(turn.written, key=f"in{turn.asked.id}"))
    return Outcome((_answer(turn, ON_ITS_WAY), found), _unchanged(turn), turn.written.whom.person)


def _unchanged(turn: _Pressed) -> Talk:
    return Talk(turn.written.whom.conversation, memory.written(turn.memory))


def _answer(turn: _Pressed, text: str) -> Reply:
    return bodies.toast(f"{turn.written.key}-toast", turn.press.id, text, turn.written.whom)


def _toast(turn: _Pressed, text: str, rule: str) -> Outcome:
    return Outcome((_answer(turn, text),), _unchanged(turn), turn.written.whom.person, rule)


def _told(message: Incoming, press: Press, text: str, person: str, rule: str) -> Outcome:
    """Answer a press that is not carried out; it belongs to no conversation."""
    whom = For(person, "")
    return Outcome((bodies.toast(f"in{message.id}-toast", press.id, text, whom),), None, person, rule)
