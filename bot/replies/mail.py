"""A reply by mail: plain text of 72 columns, and HTML with the picture; the same content in both.

    parts (answers, or words alone) -> mail text, mail HTML (mail_html.py)

The first sentence is one of two and the last is always the same, so that our own words are known again when a mail
program sends them back to us.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from bot.replies import words
from bot.replies.cleaning import clean
from bot.replies.mail_html import Page, answer_html, page_html, places_html, words_html
from bot.replies.page import Manner, as_plain, as_text, show_places
from knowledge.answer import Answer
from knowledge.ask_back import AskBack
from knowledge.base import Knowledge

COLUMNS = 72
OPENING = "This is what I read in your mail, and what is known of it."
FORMER_OPENING = "This is what I read in your mail, and what the lists say of it."
"""Stands in answers that were sent before, and may come back."""
TOLD_OPENING = "This is about what you wrote to us."
CLOSING = "A program wrote this answer; people keep the lists it reads."
HOW_TO_ANSWER = "Just reply to this mail: the number of your choice is enough, or say it in your own words."
HOW_TO_GO_ON = (
    "Something to add? Just reply to this mail: how many digits are stamped, whether the first is a zero, the maker or "
    "the model, or another number."
)
_PHOTOS = (
    "a clear photo of the number with light from the side, one of the whole machine, and one of every badge and plate"
)
_MOST = frozenset({"cautions", "working", "parts"})
_BRIEF = frozenset({"cautions"})


@dataclass(frozen=True, slots=True)
class Part:
    """One thing to say: words alone, the places where the number is found, or a whole answer.

    `again` tells that the same number is answered once more, `told` are the cautions that were said before.
    """

    words: str = ""
    answer: Answer | None = None
    places: bool = False
    again: bool = False
    told: frozenset[str] = field(default=frozenset())


@dataclass(frozen=True, slots=True)
class People:
    """The people behind the answer: what the group is called, and what the asker is told of its experts.

    `look` says that they will look, '' when they will not. `have_desk`: hard questions go to them by themselves.
    """

    group: str
    look: str = ""
    have_desk: bool = False


@dataclass(frozen=True, slots=True)
class MailText:
    """Both forms of a reply."""

    text: str
    html: str


def compose(
    parts: Sequence[Part], knowledge: Knowledge, people: People, subject: str, picture_words: str = ""
) -> MailText:
    """Return a reply. With `picture_words` the HTML shows the picture, and both forms say what is to be seen on it."""
    if people.look and not any(part.answer is not None for part in parts):
        parts = [*parts, Part(words=people.look)]
    return MailText(
        _text(parts, knowledge, people, picture_words), _html(parts, knowledge, people, subject, picture_words)
    )


def manner_of(part: Part) -> Manner:
    """Return how an answer is laid out in mail."""
    return Manner(told=part.told, how_to_answer=HOW_TO_ANSWER, sections=_BRIEF if part.again else _MOST)


def further(answer: Answer, people: People) -> str:
    """Return what to do with a question that the lists do not settle; '' when they do, or the asker is asked first."""
    why = words.for_people_who_know(answer)
    who = f"This is one for people who know these machines: {why}." if why else ""
    if people.look:
        return " ".join(filter(None, (who, people.look, f"Meanwhile {_PHOTOS} help them. Just reply with them.")))
    if not why or people.have_desk:
        return ""
    return f"{who} Show {people.group} {_PHOTOS}."


def closing(group: str) -> tuple[str, ...]:
    """Return the last sentences of every reply."""
    return (CLOSING, f"It speaks for {group} and answers when a mail asks about a machine.")


def _text(parts: Sequence[Part], knowledge: Knowledge, people: People, picture_words: str) -> str:
    blocks = [_wrapped(_opening(parts))]
    for part in parts:
        if part.words:
            blocks.append(_wrapped(part.words))
        if part.answer is not None:
            blocks.extend(_answer_blocks(part, part.answer, knowledge, people))
    if picture_words:
        blocks.append("The picture in words\n" + _wrapped(picture_words))
    asked = [part.answer.ask_back for part in parts if part.answer is not None and part.answer.ask_back]
    blocks.extend(_question(one) for one in asked)
    if _goes_on(parts):
        blocks.append(_wrapped(HOW_TO_GO_ON))
    signature = "-- \n" + "\n".join(_wrapped(line) for line in closing(people.group))
    return "\n\n".join([*blocks, signature]) + "\n"


def _answer_blocks(part: Part, answer: Answer, knowledge: Knowledge, people: People) -> list[str]:
    if part.places:
        return [as_plain(lambda console: show_places(answer, knowledge, console), COLUMNS).strip("\n")]
    without_question = replace(answer, ask_back=None)  # it comes last, where it is not overlooked
    blocks = [as_text(without_question, knowledge, COLUMNS, manner_of(part)).strip("\n")]
    to_people = further(answer, people)
    return [*blocks, _wrapped(to_people)] if to_people else blocks


def _question(asked: AskBack) -> str:
    choices = (f"{at}) {clean(choice)}" for at, choice in enumerate(asked.choices, 1))
    return "\n".join([_wrapped(asked.text), *choices, _wrapped(HOW_TO_ANSWER)])


def _html(parts: Sequence[Part], knowledge: Knowledge, people: People, subject: str, picture_words: str) -> str:
    body = []
    with_picture = picture_words
    for part in parts:
        if part.words:
            body.append(words_html(part.words))
        if part.answer is not None and part.places:
            body.append(places_html(part.answer, knowledge))
        elif part.answer is not None:
            to_people = further(part.answer, people)
            body.append(answer_html(part.answer, knowledge, manner_of(part), with_picture, to_people))
            with_picture = ""
    goes_on = HOW_TO_GO_ON if _goes_on(parts) else ""
    return page_html(Page(subject, _opening(parts), tuple(body), goes_on, closing(people.group)))


def _opening(parts: Sequence[Part]) -> str:
    return OPENING if any(part.answer is not None for part in parts) else TOLD_OPENING


def _goes_on(parts: Sequence[Part]) -> bool:
    """Whether to say that more can be told: not where a question is asked, for its answer is wanted first."""
    answers = [part.answer for part in parts if part.answer is not None]
    return bool(answers) and not any(answer.ask_back for answer in answers)


def _wrapped(text: str) -> str:
    """Return text of at most 72 columns; its own line breaks stay."""
    lines = clean(text).split("\n")
    return "\n".join(textwrap.fill(line, COLUMNS, break_on_hyphens=False) for line in lines)
