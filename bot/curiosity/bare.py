"""Messages that are not sentences: a number alone, a number with keywords, a number with a question mark behind it."""

from __future__ import annotations

import re
import unicodedata
from itertools import takewhile

from bot.curiosity.clauses import INTERROGATIVES, Message, starts_with_and

_BESIDE_A_NUMBER = frozenset("label greeting please thanks number name machine article filler anyone help".split())
_BEHIND_A_NUMBER = frozenset("please thanks advance name machine article anyone help".split())
_IS = frozenset({"it", "is", "s"})
_KEYWORDS = frozenset(
    "quality vague made when from label number name machine article particle greeting please thanks advance anyone any "
    "what help plain filler".split()
)
_NO_KEYWORDS = frozenset({"verb", "have", "report", "answers", "topic", "digits"})
_LEAST_DIGITS = 3
_MOST_KEYWORDS = 10
_MOST_UNKNOWN = 2
_SAYS_NO = re.compile(r"\s*no\s*[,!–-]", re.IGNORECASE)
_PUT_RIGHT = "*"
"""An asterisk in front is how people put right what they wrote before."""


def is_bare(message: Message) -> bool:
    """Whether there is a number and nothing else but labels, the name of its maker and kind words.

    Mere digits must be called a number, or stand with a name.
    """
    if len(message.found.tokens) != 1 or message.said.dates or _is_an_answer(message):
        return False
    (number,) = message.found.tokens
    known = bool(message.said.makers or message.said.models)
    called = number.introduced and len(number.digits) >= _LEAST_DIGITS
    if not (known or number.prefix or number.suffix or called):
        return False
    before = list(takewhile(lambda term: "number" not in term.means, message.terms))
    behind = message.terms[len(before) + 1 :]
    if not all(term.means & _BESIDE_A_NUMBER or term.text in _IS for term in before):
        return False
    return _is_kind(message) and all(term.means & _BEHIND_A_NUMBER for term in behind)


def _is_an_answer(message: Message) -> bool:
    """Said to members: 'And K204117?', 'the K204117', 'No, K204117', 'K204117!!!'."""
    if message.means & {"yours", "answers", "trade"} or starts_with_and(message):
        return True
    if len(message.terms) > 1 and all(term.means & {"article", "number"} for term in message.terms):
        return True
    exclaimed = "!!" in message.text or any(unicodedata.category(one) == "So" for one in message.text)
    return exclaimed or message.text.lstrip().startswith(_PUT_RIGHT) or _SAYS_NO.match(message.text) is not None


def _is_kind(message: Message) -> bool:
    """Thanks and 'here' belong to a number that is asked about only with a greeting or the like."""
    if "filler" in message.means and "greeting" not in message.means:
        return False
    asks = message.introduced or bool(message.means & {"greeting", "please", "advance"})
    return asks or "thanks" not in message.means


def is_keywords(message: Message) -> bool:
    """Whether a number stands with nothing but what is asked of it: 'K204117, model and date of manufacture'."""
    asks = message.means & {"quality", "vague", "made", "when"} or ("from" in message.means and len(message.terms) <= 2)
    if not asks or message.means & _NO_KEYWORDS or len(message.terms) > _MOST_KEYWORDS:
        return False
    return all(term.means & _KEYWORDS and "subject" not in term.means for term in message.terms)


def is_shown_with_a_question_mark(message: Message) -> bool:
    """Whether a number that is called one has a question mark right behind it: 'found this, number K204117??'."""
    if not message.found.tokens or message.means & INTERROGATIVES or is_elsewhere(message):
        return False
    last = message.found.tokens[-1]
    return last.introduced and message.text[last.end : last.end + 4].lstrip().startswith(("?", "？"))


def gives_a_number(message: Message) -> bool:
    """Whether a number is given and nothing else is asked or told: 'sorry, forgot the number: K204117'."""
    tells = not message.means & INTERROGATIVES and message.unknown <= 1 and not message.said.dates
    return bool(message.found.tokens) and tells and not is_elsewhere(message)


def is_elsewhere(message: Message) -> bool:
    """Whether a message is about buying, parts, meetings, or much that is not understood."""
    return bool(message.topics) or "trade" in message.means or message.unknown > _MOST_UNKNOWN
