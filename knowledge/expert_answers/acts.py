"""What each clause of an answer does: tells of the machine, asks, promises, gives up, or speaks of something else."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from itertools import groupby

from knowledge.expert_answers import act_words as words
from knowledge.expert_answers import question_words
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.evidence_words import NOUNS
from knowledge.expert_answers.vocabulary import DENIED
from knowledge.findings import FEATURE, LEDGER

TELLS, ASKS, NOT_OURS, TAKES, GIVES_UP, QUESTION = "tells", "asks", "not-ours", "takes", "gives-up", "question"
OUR_BOOKS, OTHER_THINGS, REFERRED = "our books", "other things", "referred"
THEIRS, OTHERS, IF, HISTORY, CHAT = "theirs", "others", "if", "history", "chat"

_TABLE = (
    (NOT_OURS, words.NOT_OURS),
    (NOT_OURS, words.NONE_OF_THE_FIRMS),
    (OUR_BOOKS, words.NOT_OUR),
    (OTHER_THINGS, words.NO_SEWING_MACHINES),
    (REFERRED, words.REFERRED),
    (ASKS, words.ASKS),
    (IF, words.IF),
    (THEIRS, words.THEIRS),
    *((THEIRS, phrases) for phrases in words.SAYING),
    (TAKES, words.TAKES),
    (OTHERS, words.OTHERS),
    (HISTORY, words.HISTORY),
    (CHAT, words.CHAT),
    (GIVES_UP, words.GIVES_UP),
)
"""The first whose words stand in a clause tells what it does, unless a word of EXCEPTED stands there too."""
_LASTING = frozenset({ASKS, IF, OTHERS, THEIRS})
"""What the rest of the sentence does too."""
_UNTIL = {THEIRS: ":;", OTHERS: ";"}
"""The signs at which somebody else's words, or those on another machine, are over."""


@dataclass(frozen=True, slots=True)
class Act:
    """A clause and what it does: one of the words above; `lasting` where that is only what the clause before does."""

    does: str
    clause: Clause
    lasting: bool = False


def acts(parts: Sequence[Clause]) -> list[Act]:
    """Return the clauses with what each does."""
    return [act for _, sentence in groupby(parts, key=lambda part: part.sentence) for act in _of_sentence(sentence)]


def _of_sentence(sentence: Iterator[Clause]) -> Iterator[Act]:
    lasting, begin, end = "", 0, 0
    for clause in sentence:
        begin = begin or clause.start
        does = own = _does(clause)
        is_twin = lasting == OTHERS and words.TWIN.search(clause.low, max(begin, end - _NEAR), end) is not None
        if any(sign in clause.low[end : clause.start] for sign in _UNTIL.get(lasting, "") + ":" * is_twin):
            lasting = ""
        end = clause.end
        if does in (TELLS, QUESTION) and lasting and not _is_back(lasting, clause):
            does = lasting
        elif does in _LASTING:
            lasting = "" if words.ALTHOUGH.begins(clause.words) else does
        elif does == TELLS:
            lasting = ""
        yield Act(does, clause, lasting=does != own)


def _is_back(lasting: str, clause: Clause) -> bool:
    """Tell whether a clause speaks of the asker's machine again: 'mine is from 1920, this one is later'."""
    if lasting == OTHERS:
        return bool(words.THIS_ONE.search(clause.words) or words.I_SAY.search(clause.words))
    if lasting == ASKS:
        return bool(words.BUT.begins(clause.words)) and words.THIS_ONE.search(clause.words) is not None
    backs = (words.BUT, words.SO, words.I_SAY)
    return lasting == THEIRS and any(phrases.begins(clause.words) for phrases in backs)


def _does(clause: Clause) -> str:
    if _asks_for_more(clause):
        return ASKS
    for does, phrases in _TABLE:
        if phrases.search(clause.low, clause.start, clause.end) and not _is_excepted(does, clause):
            return NOT_OURS if does in (OUR_BOOKS, OTHER_THINGS) else does
    if clause.is_question or (question_words.HOW_MANY.begins(clause.words) and _begins_a_sentence(clause)):
        return QUESTION
    if _is_of_anothers(clause):
        return OTHERS
    return TAKES if words.MERE_TAKES.is_all_of(clause.words) else TELLS


def _is_of_anothers(clause: Clause) -> bool:
    """Tell 'Gisela has a Cincia' and 'Mine: a Model 9' from 'he has a Model 9 there'."""
    if words.MERE_TAKES.is_all_of(clause.words) and clause.low[clause.end : clause.end + 1] == ":":
        return True
    match = _SOMEBODY_HAS.match(clause.text, clause.start)
    return match is not None and match["who"].lower() not in _NOBODY


_SOMEBODY_HAS = re.compile(r"(?P<who>[A-Z][a-z]+) (?:has|had|owns) (?:an?|one|the same)(?![^\W_])")
_NOBODY = frozenset("he she it they this that which who everybody everyone owner asker seller nobody one".split())


def _rest_of_sentence(clause: Clause) -> str:
    """Return a clause with what follows in its sentence, in plain letters."""
    end = _SENTENCE_END.search(clause.low, clause.end, clause.end + _NEAR)
    return clause.low[clause.start : end.start() if end else clause.end + _NEAR]


_SENTENCE_END = re.compile(r"[.!?\n]")
_NEAR = 200
"""Signs. What stands further away in a sentence is not said of the same thing."""


def _begins_a_sentence(clause: Clause) -> bool:
    return clause.low[: clause.start].rstrip()[-1:] in ("", ".", "!", "?")


def _asks_for_more(clause: Clause) -> bool:
    """Tell whether a picture or something about the machine is wanted: 'another photo would be useful'."""
    if words.GETS.begins(clause.words):
        return True
    around = _rest_of_sentence(clause) if words.A_PICTURE.begins(clause.words) else clause.words
    if words.A_PICTURE.search(clause.words) and words.WANTED.search(around):
        return True
    if words.NOT_NEEDED.search(clause.words):
        return False
    return words.NEEDED.search(clause.words) is not None and _is_of_the_machine(clause)


def _is_of_the_machine(clause: Clause) -> bool:
    return any(phrases.search(clause.words) for phrases in (words.OF_THE_MACHINE, NOUNS[FEATURE]))


def _is_excepted(does: str, clause: Clause) -> bool:
    excepted = words.EXCEPTED.get(does)
    return excepted is not None and excepted.search(clause.words) is not None


def speaks_to(told: Sequence[Act], place: int) -> bool:
    """Tell whether a clause of one word is somebody's name: all others of its sentence only speak to people."""
    clause = told[place].clause
    others = [act.does for act in told if act.clause.sentence == clause.sentence and act.clause is not clause]
    return bool(others) and clause.words.isalpha() and all(does in _TO_PEOPLE for does in others)


_TO_PEOPLE = frozenset({ASKS, TAKES, GIVES_UP, CHAT, NOT_OURS})


def for_the_asker(told: Sequence[Act], guesses: Set[int]) -> list[int]:
    """Return the sentences that are to be put to the asker.

    A question to the other experts is none of them, nor is a guess with a question mark: `guesses` are those sentences.
    """
    return list(dict.fromkeys(act.clause.sentence for act in told if act.does == ASKS or _is_asked(act, guesses)))


def _is_asked(act: Act, guesses: Set[int]) -> bool:
    if act.does != QUESTION or act.clause.sentence in guesses:
        return False
    asked = act.clause.words
    about_it = (question_words.ITSELF.search(asked), question_words.ABOUT_IT.begins(asked))
    return (_is_of_the_machine(act.clause) or any(about_it)) and question_words.TO_EXPERTS.search(asked) is None


def straight_questions(told: Sequence[Act], guesses: Set[int]) -> list[int]:
    """Return the sentences that ask outright for what only somebody who has the machine can tell.

    These count where nothing else is said: 'do you have the papers?', 'letter before the no?'.
    """
    return list(dict.fromkeys(act.clause.sentence for act in told if _is_straight(act, guesses)))


def _is_straight(act: Act, guesses: Set[int]) -> bool:
    if act.does != QUESTION or act.clause.sentence in guesses or question_words.TO_THE_GROUP.search(act.clause.words):
        return False
    asked = act.clause.words
    return len(asked.split()) >= _FEWEST_WORDS and (
        question_words.ASKS_STRAIGHT.begins(asked) is not None or _is_of_the_machine(act.clause)
    )


_FEWEST_WORDS = 3


def of_records(told: Sequence[Act]) -> list[Clause]:
    """Return the clauses that tell of the number or of a book: 'the list is right', 'it is the casting number'."""
    return [act.clause for act in told if act.does == TELLS and _is_of_records(act.clause.words)]


def _is_of_records(said: str) -> bool:
    if NOUNS[LEDGER].search(said):
        return words.CONFIRMS.search(said) is not None or DENIED.search(said) is not None
    return question_words.OF_THE_NUMBER.search(said) is not None


def question_of(told: Sequence[Act], sentences: Sequence[int]) -> str:
    """Return some sentences of an answer, in the expert's words."""
    shown = []
    for number in sentences:
        clauses = [act.clause for act in told if act.clause.sentence == number]
        text = clauses[0].text[clauses[0].start : clauses[-1].end]
        shown.append(" ".join(text.split()) + ("?" if clauses[-1].is_question else "."))
    return " ".join(shown)
