"""Somebody whose question lies with the experts writes more about it: to the experts, and one short word to the asker.

A mail belongs to the open case of its sender that has its number, or that of its thread; without a number, to the case
that moved last. What the lists answer is answered as ever, and goes to the experts beside that when it tells anything.
The short word is said once a day for a case, so that no loop lives on it; the words themselves reach the card.
"""

from __future__ import annotations

import re
from dataclasses import replace

from bot.cases import Case
from bot.conversation import search_words
from bot.expert_desk.rows import may_be_one
from bot.handling import Outcome
from bot.mail_asking import AND_LATER, PASSED_ON, Adding
from bot.mail_reading import LONGEST, acknowledges, says_automatic
from bot.mail_talk import Thread
from bot.mail_turn import ADDS, ForPeople, Turn
from bot.small_talk import kind_word
from knowledge.said import Said, hear
from knowledge.tokens import find

MOST_A_DAY = 10
"""So many mails of a person about one case go to its card in a day."""
_LEFT = (ADDS, "no-question", "asked-already", "nothing-new")
"""Rules that leave a mail unanswered which may all the same tell something of the machine that experts look at."""
_BY_A_PROGRAM = re.compile(
    r"\b(?:am|are|is|i'm|i’m) (?:currently |now )?(?:away|absent|unavailable|out of (?:the )?office)\b|"
    r"\b(?:ticket|request|reference)(?: number| id| no\.?)?[ #:]{1,3}\d|\bbin (?:nicht da|abwesend)\b",
    re.IGNORECASE,
)
_ANOTHER_MACHINE = re.compile(
    r"\b(?:another|(?:my|a|the|an) (?:other|second|third|different|new)) (?:\w+ ){0,2}(?:machine|question|one)\b|"
    r"\b(?:andere|zweite|weitere|neue) (?:maschine|frage)|\bautre (?:machine|question)|\botra (?:máquina|pregunta)",
    re.IGNORECASE,
)  # fmt: skip


def outcome_of(turn: Turn, old: Thread | None, may_add: bool) -> Outcome:
    """Return what comes of a mail of an asker; `old` is the thread it goes on with. Raises SetAside.

    Where it `may_add` to an open case, what would be left alone, or be a case of its own, goes there.
    """
    adding = _adding(turn, old) if may_add else None
    if adding is None:
        return turn.outcome(old)
    turn = replace(turn, adding=adding)
    try:
        outcome = turn.outcome(old)
    except ForPeople:
        outcome = Outcome(rule=ADDS)
    return _added(turn, adding.case, old) if outcome.rule in _LEFT and not turn.is_repeated else outcome


def _adding(turn: Turn, old: Thread | None) -> Adding | None:
    """Return the open case that a mail is about, None for none."""
    text = turn.asked.text[:LONGEST]
    if turn.asking is None or search_words(text) or kind_word(text) or _is_by_a_program(text):
        return None
    found = find(text, turn.knowledge.names)
    said = hear(text, turn.knowledge.names, found)
    numbers = found.tokens or (find(old.state.text, turn.knowledge.names).tokens if old else ())
    case = turn.asking.open_case([one.serial for one in numbers])
    if case is None or (old is None and not numbers and _is_of_another(text, said, case)):
        return None
    return Adding(case, said.bears_on_datings or turn.mail.has_picture)


def _added(turn: Turn, case: Case, old: Thread | None) -> Outcome:
    key = f"added to case {case.id}"
    if turn.talk.times_taken(key, turn.at) >= MOST_A_DAY:
        return Outcome(rule="daily-limit")
    talk = turn.talk.taking(turn.at, key)
    if turn.talk.was_said(key, turn.at):
        return turn.passed_on(talk, case, "", old)
    return turn.passed_on(talk.saying(turn.at, key), case, f"{PASSED_ON} {AND_LATER}", old)


def _is_of_another(text: str, said: Said, case: Case) -> bool:
    return _ANOTHER_MACHINE.search(text) is not None or not may_be_one(case.makers, said.makers)


def _is_by_a_program(text: str) -> bool:
    return acknowledges(text) or says_automatic(text) or _BY_A_PROGRAM.search(text) is not None
