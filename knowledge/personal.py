"""What tells of a person in a text: mail addresses, telephone numbers, names on the net and names with a title.

Plain names without a title cannot be told from other words by any rule; whoever shares a text has to read it.
"""

from __future__ import annotations

import re

from knowledge.names import Names
from knowledge.tokens import find

ADDRESS, TELEPHONE, NAME = "(address left out)", "(telephone number left out)", "(name left out)"

_MAIL = re.compile(r"(?:mailto:)?[^\s<>\"'(),;:@]+\s?@\s?[^\s<>\"'(),;:@]+\.[^\W\d_]{2,}", re.IGNORECASE)
_SPELT = re.compile(
    r"\b[\w.+-]+\s*[\[({]\s*(?:at|@)\s*[\])}]\s*[\w-]+(?:\s*(?:\.|[\[({]\s*(?:dot|\.)\s*[\])}])\s*[\w-]+)+",
    re.IGNORECASE,
)
_PAGE_OF_A_PERSON = re.compile(
    r"(?:https?://)?(?:www\.)?(?:t\.me|telegram\.me|wa\.me)/\S+|tg://\S+|https?://[^\s/@]+@\S+", re.IGNORECASE
)
_HANDLE = re.compile(r"(?<![\w@])@\w[\w.]*\w")
_DIGITS_OF_A_CALL = r"[\d(](?:[ ()/.\-]{0,2}\d){5,16}"
_CALL = re.compile(
    rf"(?:\+|\b00)[ ]?{_DIGITS_OF_A_CALL}"
    rf"|\b(?:tel|phone|telephone|mobile|cell|whatsapp|fax|call|ring|handy|telefon|mobil|tél|téléphone|portable)\b"
    rf"[.:]?(?: me)?(?: (?:no|nr|number|under|on|at|unter)\b\.?)?[ :]*{_DIGITS_OF_A_CALL}",
    re.IGNORECASE,
)
_TITLED = re.compile(
    r"\b(?:Mr|Mrs|Ms|Miss|Mister|Dr|Prof|Sir|Lady|Herrn?|Frau|Fräulein|Monsieur|Madame|Mme|Mlle|Signora?|Señora?|Sra?|"
    r"Aunt|Uncle|Grandma|Grandpa|Granny|Tante|Onkel|Oma|Opa|Mevrouw|Meneer|Pani?)\b\.?"
    r"(?: (?:[A-Z]\.|(?:van|von|de|der|den|di|da|le|la|du)\b|[^\W\d_a-z][^\W\d_]*(?:[-'’][^\W\d_]+)*))+"
)
_NO_NAMES = Names()


def masked(text: str) -> str:
    """Return a text with what tells of a person left out, each piece with a word in its place.

    >>> masked("bill of sale, from ada@example.org, tel. 01632 960123")
    'bill of sale, from (address left out), (telephone number left out)'
    >>> masked("by the shuttle; ledger p. 40, K 200001-225000, 12.3.1911")
    'by the shuttle; ledger p. 40, K 200001-225000, 12.3.1911'
    """
    for pattern, word in (
        (_PAGE_OF_A_PERSON, ADDRESS), (_MAIL, ADDRESS), (_SPELT, ADDRESS), (_HANDLE, NAME), (_CALL, TELEPHONE),
        (_TITLED, NAME),
    ):  # fmt: skip
        text = pattern.sub(word, text)
    return _without_telephones(text)


def _without_telephones(text: str) -> str:
    """Leave out what the reading of messages takes for a telephone number by its form."""
    if not any(map(str.isdigit, text)):
        return text
    calls = [one for one in find(text, _NO_NAMES).passed_over if one.because == "telephone"]
    for one in reversed(calls):
        text = text[: one.start] + TELEPHONE + text[one.end :]
    return text
