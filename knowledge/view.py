"""What cautions, working and cases look at: one question with everything found for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from knowledge.base import Knowledge
from knowledge.candidates import FINDING, INFERRED, PUT_RIGHT_STEP, Candidate, took_as_typed
from knowledge.said import Said
from knowledge.tokens.nouns import PassedOver, SerialToken

LIKELY = 0.05
"""Candidates at least this likely are spoken of one by one."""
EVEN = 0.5


@dataclass(frozen=True, slots=True)
class View:
    """One question: its text, what was found in it, and the candidates of each token, best first."""

    text: str
    tokens: tuple[SerialToken, ...]
    passed_over: tuple[PassedOver, ...]
    by_token: tuple[tuple[Candidate, ...], ...]
    introduced: tuple[Candidate, ...]
    said: Said
    beside: tuple[Said, ...]
    """What is said of each number, where the message tells several apart."""
    knowledge: Knowledge

    def numbers(self) -> Iterator[tuple[SerialToken, tuple[Candidate, ...]]]:
        """Yield each token with its candidates."""
        return zip(self.tokens, self.by_token, strict=True)

    def of_the_maker(self) -> Iterator[tuple[SerialToken, tuple[Candidate, ...]]]:
        """Yield each token with its candidates, only those of the maker the asker names where there are any."""
        for (token, candidates), said in zip(self.numbers(), self.beside, strict=True):
            fitting = tuple(one for one in candidates if one.maker in said.makers)
            yield token, fitting or candidates

    def unlisted(self) -> tuple[PassedOver, ...]:
        """Return the numbers that stand behind the words of a register (patents, designs) and that it does not hold."""
        found = {one.passed_over for one in self.introduced}
        return tuple(one for place, one in enumerate(self.passed_over) if one.registers and place not in found)

    def likely(self) -> Iterator[Candidate]:
        """Yield the likely candidates of all tokens, always the best, and what lists say of a settled number."""
        for token, candidates in self.numbers():
            settled = is_settled(candidates, token)
            for place, one in enumerate(candidates):
                if not place or one.likelihood >= LIKELY or (settled and one.register and is_as_typed(one, token)):
                    yield one
        yield from self.introduced


def is_as_typed(one: Candidate, token: SerialToken) -> bool:
    """Tell whether a register or finding has the number as typed, look-alike letters and unreadable places aside."""
    return one.kind not in ("prefix", INFERRED) and took_as_typed(one, token)


def is_settled(candidates: tuple[Candidate, ...], token: SerialToken) -> bool:
    """Tell whether experts settled the number as it was typed, and nothing the asker says speaks against that more."""
    whole = bool(candidates) and "?" not in token.digits
    if not whole or candidates[0].kind != FINDING:
        return False
    return is_as_typed(candidates[0], token) or candidates[0].steps == (PUT_RIGHT_STEP,)


def is_decided(candidates: tuple[Candidate, ...], token: SerialToken) -> bool:
    """Tell whether nothing needs to be asked back: the number is settled, and not for machines of several makers."""
    same = (one.likelihood for one in candidates if one.kind == FINDING and one.maker == candidates[0].maker)
    return is_settled(candidates, token) and sum(same) > EVEN


def registered(candidates: Iterable[Candidate]) -> Iterator[Candidate]:
    """Yield the candidates that a register tells of, not findings or what follows from them."""
    return (one for one in candidates if one.register)


def share_of_best(candidates: tuple[Candidate, ...]) -> float:
    """Return the likelihood of the best dating, whatever the reading: several may give the same one."""
    return sum(one.likelihood for one in candidates if not differs(one, candidates[0]))


def differs(one: Candidate, other: Candidate) -> bool:
    """Tell whether two candidates date or name a machine differently."""
    return (one.date, one.maker, one.model) != (other.date, other.maker, other.model)
