"""What a card keeps of an answer: what was read, and the likeliest datings, numbered so that an expert can name one."""

from __future__ import annotations

from bot.replies import words
from bot.replies.datings import SHOWN_FROM
from knowledge import wording
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import Candidate

DATINGS_ON_A_CARD = 4


def reading(answer: Answer, knowledge: Knowledge) -> tuple[str, ...]:
    """Return lines that say what was read and the likeliest datings; nothing of them is the asker's own words.

    The datings are numbered over all numbers, so that an expert can write 'the second one'.
    """
    read = [words.counted_digits(token, answer.said) for token in answer.tokens]
    listed = [f"{at}) {_dating(one, knowledge)}" for at, one in enumerate(shown_on_card(answer), 1)]
    nothing = "No list known here has it." if answer.tokens else ""
    return tuple(filter(None, (*(read or ["There was no serial number in it."]), *(listed or [nothing]))))


def shown_on_card(answer: Answer) -> tuple[Candidate, ...]:
    """Return the datings that a card shows, in its order: the likeliest of each number."""
    shown: list[Candidate] = []
    for place in range(len(answer.tokens)):
        likely = words.as_one(answer.of_token(place))[:DATINGS_ON_A_CARD]
        shown += [one for at, one in enumerate(likely) if not at or one.likelihood >= SHOWN_FROM]
    return tuple(shown)


def _dating(one: Candidate, knowledge: Knowledge) -> str:
    how = wording.steps_in_words(one.steps)
    return f"{one.serial}: {words.dating(one, knowledge)} ({words.percent(one.likelihood)}; {how})"
