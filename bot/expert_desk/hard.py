"""Which answers become a case, and which wait for the asker first.

The rule: nobody is both asked and queued. A question back that is open waits for the asker, without end, for the
answer they have stands; a case is opened when they say that they cannot tell, or when what they say leaves it hard.
Whoever asks for a person gets one at once. In a group where nobody called the bot, a picture or a question without a
number is too weak for a case: people who sit there see it themselves.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bot.conversation import NEVER_MIND, Incoming, Outgoing, reply
from bot.expert_desk.nouns import Asker, Opening, Picture
from bot.state import State
from knowledge.answer import Answer, answer_found
from knowledge.base import Knowledge
from knowledge.beside import said_beside
from knowledge.cases import SETTLED
from knowledge.tokens import find
from knowledge.tokens.nouns import Found, SerialToken

A_PERSON = "asked-for-a-person"
MOST_NUMBERS = 12
"""Of a message with more numbers only so many are looked at for a case; its words are kept whole."""
WEAK = ("no-token", "photo-only")
"""Reasons that are no case in a group where nobody called the bot."""


def cannot_say(before: State, said: Sequence[Outgoing]) -> bool:
    """Tell whether this turn is the asker's 'I don't know' to the question that was open before it."""
    return before.asked is not None and any(one.words == NEVER_MIND for one in said)


def desk_for(
    answer: Answer | None,
    state: State,
    asker: Asker,
    knowledge: Knowledge,
    *,
    message: int = 0,
    text: str = "",
    pictures: tuple[Picture, ...] = (),
    unable: bool = False,
    addressed: bool = True,
) -> Opening | None:
    """Return the case that an answer opens, None for one that stands by itself or waits for the asker.

    `answer` is what is answered in this turn, None for words alone; `state` the conversation after it; `text` what the
    asker wrote, as the experts are to read it. `unable` is what `cannot_say` told; `addressed` is False only for what
    nobody in a group had asked the bot.
    """
    if answer is None and not unable:
        return None
    answer = answer or _answer_of(state, knowledge)
    each = list(_by_token(answer, knowledge, unable))
    hard = [one for one in each if one.why]
    reasons = list(dict.fromkeys(reason for one in hard for reason in one.why))
    if answer.said.person:
        reasons, hard = [*reasons, A_PERSON], [one for one in hard if one.token] or each
    kept = tuple(reason for reason in dict.fromkeys(reasons) if addressed or reason not in WEAK)
    if not kept:
        return None
    numbered = [(one.token, one.makers) for one in hard if one.token is not None]
    tokens, makers = tuple(token for token, _ in numbered), tuple(makers for _, makers in numbered)
    return Opening(kept, text or answer.text, state, tokens, asker, message, pictures, makers=makers)


def heard(text: str, asker: Asker, knowledge: Knowledge) -> Opening:
    """Return the case of a question that an expert heard and brings in: one even where the lists have an answer."""
    state, said = reply(Incoming(text), State(), knowledge)
    answer = next((one.answer for one in said if one.answer is not None), None)
    hard = desk_for(answer, state, asker, knowledge, text=text)
    return hard or Opening((A_PERSON,), text, state, answer.tokens if answer else (), asker)


@dataclass(frozen=True, slots=True)
class _One:
    """One number of a question: which maker was said of it, and why it is hard; without a number, the whole."""

    token: SerialToken | None
    makers: tuple[str, ...]
    why: tuple[str, ...]


def _by_token(answer: Answer, knowledge: Knowledge, unable: bool) -> Iterator[_One]:
    """Yield each number as it would be answered alone, read as it was read among the others; the whole for none."""
    if len(answer.tokens) <= 1:
        yield _One(answer.tokens[0] if answer.tokens else None, answer.said.makers, _reasons(answer, unable))
        return
    found = Found(answer.tokens, answer.passed_over)
    beside = said_beside(answer.text, found, answer.said, knowledge.names)
    for token, said in list(zip(answer.tokens, beside, strict=True))[:MOST_NUMBERS]:
        alone = answer_found(answer.text, Found((token,)), said, knowledge)
        yield _One(token, said.makers, _reasons(alone, unable))


def _reasons(answer: Answer, unable: bool) -> tuple[str, ...]:
    hard = tuple(reason for reason in answer.case if reason != A_PERSON)
    if answer.ask_back is None:
        return hard
    if not unable:
        return ()
    return hard or (() if _is_settled(answer) else ("undecided",))


def _is_settled(answer: Answer) -> bool:
    return bool(answer.candidates) and answer.candidates[0].likelihood >= SETTLED


def _answer_of(state: State, knowledge: Knowledge) -> Answer:
    return answer_found(state.text, find(state.text, knowledge.names), state.said, knowledge)
