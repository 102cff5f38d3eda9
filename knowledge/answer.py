"""The heart: from a text to every dating its serial numbers can have. Read this first.

text -> tokens (what may be a serial number)            knowledge/tokens/
     -> readings (how each may really be stamped)       knowledge/readings.py
     -> candidates (what registers say of each)         knowledge/candidates.py, knowledge/registers/
     -> cautions, working, one question back, a case    knowledge/cautions.py, working.py, ask_back.py, cases.py
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from knowledge.ask_back import AskBack, ask_back
from knowledge.base import Knowledge
from knowledge.beside import said_beside
from knowledge.candidates import Candidate, rank, rank_introduced
from knowledge.cases import reasons
from knowledge.cautions import Caution, cautions
from knowledge.places import Place, places
from knowledge.said import Said, hear, merged
from knowledge.tokens import find
from knowledge.tokens.nouns import Found, PassedOver, SerialToken
from knowledge.view import View, is_decided
from knowledge.working import working


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything that is answered to one text. `candidates` are all there are, best first.

    `case` holds the reasons why experts should see the question, empty when it is settled; `places` says where the
    number is found on a machine, when that was asked.
    """

    text: str
    said: Said
    tokens: tuple[SerialToken, ...]
    passed_over: tuple[PassedOver, ...]
    candidates: tuple[Candidate, ...]
    cautions: tuple[Caution, ...]
    ask_back: AskBack | None
    case: tuple[str, ...]
    working: tuple[str, ...]
    places: tuple[Place, ...]

    def of_token(self, place: int) -> tuple[Candidate, ...]:
        """Return the candidates of one token, best first."""
        return tuple(one for one in self.candidates if one.token == place)


def answer(text: str, knowledge: Knowledge, earlier: Said | None = None) -> Answer:
    """Answer one text. `earlier` is what the asker said before, in the same conversation; what is said now counts more.

    Never raises on any text.
    """
    found = find(text, knowledge.names)
    said = hear(text, knowledge.names, found)
    return answer_found(text, found, merged(earlier, said) if earlier else said, knowledge)


def answer_found(text: str, found: Found, said: Said, knowledge: Knowledge) -> Answer:
    """Answer for tokens already found: those of `text`, with what was said there and since."""
    beside = said_beside(text, found, said, knowledge.names)
    by_token = tuple(
        tuple(rank(token, place, knowledge, its_own))
        for place, (token, its_own) in enumerate(zip(found.tokens, beside, strict=True))
    )
    introduced = tuple(
        one
        for place, passed in enumerate(found.passed_over)
        if passed.registers
        for one in rank_introduced(passed, place, knowledge, said)
    )
    view = View(text, found.tokens, found.passed_over, by_token, introduced, said, beside, knowledge)
    candidates = sorted((one for share in (*by_token, introduced) for one in share), key=lambda one: -one.likelihood)
    settled = {place for place, (token, share) in enumerate(view.numbers()) if is_decided(share, token)}
    asked = ask_back([one for one in candidates if one.token not in settled], knowledge, said)
    return Answer(
        text, said, found.tokens, found.passed_over, tuple(candidates), cautions(view), asked,
        reasons(view, asked), working(view), places(view),
    )  # fmt: skip


def as_json(answer: Answer) -> dict[str, Any]:
    """Return the answer as `ask --json` prints it. Dates are ISO 8601, open ends null, likelihoods within 0 to 1."""
    return {
        "text": answer.text,
        "tokens": [_token(token) for token in answer.tokens],
        "passed_over": [
            {"text": one.text, "start": one.start, "end": one.end, "because": one.because} for one in answer.passed_over
        ],
        "candidates": [_candidate(one) for one in answer.candidates],
        "cautions": [{"code": one.code, "text": one.text} for one in answer.cautions],
        "ask_back": {"text": answer.ask_back.text, "choices": list(answer.ask_back.choices)}
        if answer.ask_back
        else None,
        "case": {"reasons": list(answer.case)} if answer.case else None,
        "working": list(answer.working),
        "places": [
            {"maker": one.maker, "model": one.model, "text": one.text, "drawing": one.drawing} for one in answer.places
        ],
    }


def _token(token: SerialToken) -> dict[str, Any]:
    return {
        "text": token.text, "start": token.start, "end": token.end, "prefix": token.prefix, "digits": token.digits,
        "suffix": token.suffix, "introduced": token.introduced,
    }  # fmt: skip


def _candidate(one: Candidate) -> dict[str, Any]:
    return {
        "token": one.token, "passed_over": one.passed_over, "serial": one.serial, "steps": list(one.steps),
        "kind": one.kind, "maker": one.maker, "register": one.register, "model": one.model, "works": one.works,
        "first": one.first, "last": one.last, "quantity": one.quantity, "position": one.position,
        "date": one.date, "earliest": _day(one.span.earliest), "latest": _day(one.span.latest), "object": one.object,
        "source": one.source, "note": one.note, "rests_on": list(one.rests_on),
        "likelihood": int(one.likelihood * 1e6) / 1e6,
    }  # fmt: skip


def _day(day: date) -> str | None:
    return None if day in (date.min, date.max) else day.isoformat()
