"""What the conversation says, put into messages: short in a group, whole in private, with buttons."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from bot.channels.telegram import bodies, memory
from bot.channels.telegram.bodies import For, Place
from bot.channels.telegram.memory import Asked, Memory
from bot.conversation import Outgoing
from bot.handling import Outcome
from bot.journal import Reply, Talk
from bot.pictures import can_draw
from bot.replies import chat
from bot.replies.chat import ALL, BUTTONS, HOW, PICTURE, PRIVATE, Button
from bot.replies.styled import Styled, joined, plain, units
from bot.state import State
from knowledge.answer import Answer, answer_found
from knowledge.base import Knowledge
from knowledge.packs.paths import find_drawing
from knowledge.tokens import find

MOST_DRAWINGS = 3
"""So many drawings are sent with the places of several machines."""
NOT_KNOWN_ANY_MORE = (
    "I do not have that question any more, or it was asked by somebody else. Please type the number again, with its "
    "letters and every zero."
)
_PARAGRAPH = "\n\n"


@dataclass(frozen=True, slots=True)
class Written:
    """Where and for whom an answer is written. `id` is the number of the question in the journal and its buttons.

    `folders` are where the drawings of the packs lie.
    """

    key: str
    id: int
    place: Place
    whom: For
    is_private: bool
    username: str
    folders: tuple[Path, ...] = ()

    @property
    def below(self) -> Place:
        """Where what belongs to the answer goes, below it."""
        return Place(self.place.chat, self.place.thread)

    def keyboard(self, answer: Answer, without: frozenset[str] = frozenset()) -> list[list[dict[str, str]]]:
        """Return the buttons under an answer; in a group one leads to the whole answer in private."""
        left_out = without | {HOW} if self.is_private else without
        rows = chat.buttons(answer, can_draw(answer), left_out)
        link = f"https://t.me/{self.username}?start=q{self.id}" if self.username and not self.is_private else ""
        if link and answer.tokens:
            rows = [*rows, [Button(BUTTONS[PRIVATE], PRIVATE)]]
        return bodies.keyboard(rows, self.id, link)


def replies(
    one: Outgoing,
    written: Written,
    state: State,
    knowledge: Knowledge,
    changes: str = "",
    is_photo: bool = False,
    more: Styled = Styled(),  # noqa: B008  # it is frozen
) -> list[Reply]:
    """Return the messages for one thing that the conversation says.

    `changes` is the key of an earlier answer that this one takes the place of, '' for none; `is_photo` tells that
    there is a picture and no number. `more` is said at the end: that people will look at it.
    """
    answer = one.answer
    if answer is None:
        words = joined([plain(one.words), more], _PARAGRAPH)
        return in_words(written.key, written.place, words, written.whom, _choices(state, written))
    if is_photo and not answer.tokens:
        words = joined([chat.photo(answer, knowledge, bool(more)), more], _PARAGRAPH)
        return in_words(written.key, written.place, words, written.whom)
    if one.kind == "places":
        return _places(answer, written, knowledge)
    return _whole_answer(answer, written, knowledge, one.told, changes, more)


def _places(answer: Answer, written: Written, knowledge: Knowledge) -> list[Reply]:
    """Where the number is, in words and with the drawings of it: one drawing carries the words as its caption."""
    text, shown = chat.places(answer, knowledge), chat.drawings(answer, knowledge)
    drawn = [(one, whose) for one, whose in shown.items() if can_send(find_drawing(one, written.folders))]
    if len(drawn) == 1 and units(text.text) <= bodies.LONGEST_CAPTION:
        return [bodies.drawing(written.key, written.place, text, drawn[0][0], written.whom)]
    found = in_words(written.key, written.place, text, written.whom)
    for number, (one, whose) in enumerate(drawn[:MOST_DRAWINGS], 1):
        caption = plain(f"Where the number is: {whose}")
        found.append(bodies.drawing(f"{written.key}-drawing{number}", written.below, caption, one, written.whom))
    return found


def can_send(drawing: Path | None) -> bool:
    """Whether a drawing was found and is of a kind that the platform shows as a picture."""
    return drawing is not None and drawing.suffix.lower() in (".png", ".jpg", ".jpeg")


def _whole_answer(
    answer: Answer, written: Written, knowledge: Knowledge, told: frozenset[str], changes: str, more: Styled
) -> list[Reply]:
    explains = chat.doubts_the_digits(answer) and can_draw(answer)
    keyboard = written.keyboard(answer, frozenset({PICTURE}) if explains else frozenset())
    say = chat.whole if written.is_private else chat.short
    text = say(answer, knowledge, told, more)
    if changes and not written.is_private:
        return [bodies.edit_of(written.key, changes, written.place, text, written.whom, keyboard)]
    found = bodies.messages(written.key, written.place, text, written.whom, keyboard)
    return [*found, picture(answer, written)] if explains and not changes else found


def in_words(key: str, place: Place, words: Styled, whom: For, keyboard: object = None) -> list[Reply]:
    """Return a text alone."""
    return bodies.messages(key, place, words, whom, keyboard)


def picture(answer: Answer, written: Written) -> Reply:
    """Return the picture of the number line; asking for it twice gives the same one reply."""
    drawing = State(answer.text, answer.said).as_json()
    caption = plain("The numbers in the order in which they were given out; where yours stands is marked.")
    return bodies.picture(f"{written.key}-picture", written.place, caption, drawing, written.whom)


def answer_of(state: State, knowledge: Knowledge) -> Answer:
    """Return the answer that a state stands for, as the lists are now."""
    return answer_found(state.text, find(state.text, knowledge.names), state.said, knowledge)


def again_whole(
    key: str, id_: int, place: Place, whom: For, remembered: Memory, asked: Asked, knowledge: Knowledge
) -> Outcome:
    """Answer an earlier question of a group once more, in private and whole."""
    answer = answer_of(asked.state, knowledge)
    written = Written(key, id_, place, whom, True, "")
    found = bodies.messages(key, place, chat.whole(answer, knowledge), whom, written.keyboard(answer))
    new = Asked(id_, 0, asked.text, asked.state, key, asked.serials, "", asked.at)
    return Outcome(tuple(found), Talk(whom.conversation, memory.written(remembered.with_answer(new))))


def _choices(state: State, written: Written) -> list[list[dict[str, str]]]:
    """Return the choices of the question that is open as buttons, for words that ask it again."""
    if state.asked is None:
        return []
    return bodies.keyboard([[Button(choice, str(at))] for at, choice in enumerate(state.asked.choices)], written.id)


__all__ = ["ALL", "NOT_KNOWN_ANY_MORE", "Written", "again_whole", "answer_of", "in_words", "picture", "replies"]
