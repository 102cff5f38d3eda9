"""A mail that wants something searched: 'search' and the words, in the subject, in the body, or in both.

Programs answer mails with 'Search our help pages' too. So a search counts when it is short or most of its words are
known here, and what was told of one is not told a second time that day (`told_of`).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from bot.channels.mail_format import MailIn
from bot.channels.mail_headers import bare_subject
from bot.conversation import Outgoing, is_search, search_words
from bot.mail_answers import own_words, wrote_by_itself
from bot.mail_reading import LONGEST, Question, question
from knowledge.base import Knowledge
from knowledge.search import search

_SHORT, _LOOKED_AT = 6, 30  # words
_WORD = re.compile(r"[^\W_]+")
_ANY_WORD = "x"


def asked_in(mail: MailIn, knowledge: Knowledge, in_known_thread: bool = False) -> Question:
    """Return what a mail asks: a search, or else what `question` reads in it."""
    for words, sources in () if mail.fault or wrote_by_itself(mail) else _searches(mail):
        asked = f"search {words}"[:LONGEST]
        if is_search(asked, knowledge) and _is_meant(words, "subject" in sources, mail, knowledge):
            return Question(asked, sources)
    return question(mail, knowledge, in_known_thread)


def told_of(said: Sequence[Outgoing]) -> list[str]:
    """Return what was told of searches, to know whether another one tells anything else; numbers in them do not."""
    return [_found(one) for one in said if one.found is not None]


def _found(said: Outgoing) -> str:
    titles = [hit.title for hit in said.found.hits] if said.found else []
    words = () if titles else sorted(one for one in _WORD.findall(said.words) if one.isalpha())
    return f"searched {titles or words}"


def _searches(mail: MailIn) -> list[tuple[str, tuple[str, ...]]]:
    """Return the words that may be searched for, each with where they stand: the subject counts in a new mail only."""
    own = _first_paragraph(own_words(mail))
    found: list[tuple[str, tuple[str, ...]]] = [(search_words(own), ("own words",))]
    subject = "" if mail.is_reply or mail.is_passed_on else bare_subject(mail.subject)
    if _only_says_so(subject):
        found.append((own, ("subject", "own words")))
    found.append((search_words(subject), ("subject",)))
    return [one for one in found if one[0]]


def _first_paragraph(text: str) -> str:
    """Return the first paragraph; where it says only that something is to be searched, the second goes with it."""
    first, *rest = re.split(r"\n\s*\n", text.strip())
    return f"{first} {rest[0]}" if rest and _only_says_so(first) else first


def _only_says_so(text: str) -> bool:
    return search_words(f"{text.rstrip(' .:!')} {_ANY_WORD}") == _ANY_WORD


def _is_meant(words: str, in_subject: bool, mail: MailIn, knowledge: Knowledge) -> bool:
    """Whether words are a search and no sentence that happens to begin so: short, or most of its words are known."""
    known, telling = _known_words(words, knowledge)
    is_short = len(_WORD.findall(words)) <= _SHORT and not mail.is_reply and not (in_subject and own_words(mail))
    return 2 * known > telling or is_short


def _known_words(text: str, knowledge: Knowledge) -> tuple[int, int]:
    """Return how many of the first words are known here as they are spelt, and how many there are; short ones apart."""
    words = _WORD.findall(text)[:_LOOKED_AT]
    found = search(" ".join(words), knowledge)
    unknown = {*found.nowhere, *(typed for typed, _ in found.taken)}
    telling = [word for word in map(str.casefold, words) if len(word) > 3]
    return sum(word not in unknown for word in telling) if found.hits else 0, len(telling)
