"""What tells of a person in a text: addresses, telephone numbers, and names as far as rules can tell them.

Where a rule is not sure it leaves out. No rule knows every name (`persons.py`); whoever shares a text has to read it.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING

from knowledge.names import Names, fold
from knowledge.persons import people_in
from knowledge.postal import POSTAL
from knowledge.tokens import find

if TYPE_CHECKING:
    from knowledge.base import Knowledge

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


WRITE_IT_WITHOUT = "There seems to be a name or address in this: it would be told to askers. Write it without."
_LEFT_OUT = {"telephone": TELEPHONE, "postcode": ADDRESS}
"""What the reading of messages knows by its form."""


def masked(text: str, known: Collection[str] = ()) -> str:
    """Return a text with what tells of a person left out, each piece with a word in its place.

    `known` are words that are no names of people (`known_words`).

    >>> masked("bill of sale, from ada@example.org, tel. 01632 960123")
    'bill of sale, from (address left out), (telephone number left out)'
    >>> masked("according to Ethel Pym's ledger, 12 Mill Lane")
    "according to (name left out)'s ledger, (address left out)"
    >>> masked("by the shuttle; ledger p. 40, K 200001-225000, 12.3.1911")
    'by the shuttle; ledger p. 40, K 200001-225000, 12.3.1911'
    """
    before = ""
    while before != text:  # what is left out may have stood between two pieces of a name
        before, text = text, _once_masked(text, known)
    return text


def warning(texts: Iterable[str], knowledge: Knowledge) -> str:
    """Return the advice to write texts without names and addresses, where there seem to be some; '' where not."""
    known = known_words(knowledge)
    return WRITE_IT_WITHOUT if any(masked(text, known) != text for text in texts if text) else ""


def known_words(knowledge: Knowledge) -> frozenset[str]:
    """Return the words in the names of makers, models, works, places, lists and sources, folded."""
    names = [name for maker in knowledge.makers.values() for name in (maker.name, *maker.aliases)]
    names += [name for model in knowledge.models.values() for name in (model.name, *model.aliases)]
    names += [name for works in knowledge.works.values() for name in (works.name, works.place)]
    names += [register.title for register in knowledge.registers.values()]
    names += [name for source in knowledge.sources.values() for name in (source.title, source.author)]
    return frozenset(word for name in names for word in re.findall(r"[^\W\d_]+", fold(name)))


def _once_masked(text: str, known: Collection[str]) -> str:
    for pattern, word in (
        (_PAGE_OF_A_PERSON, ADDRESS), (_MAIL, ADDRESS), (_SPELT, ADDRESS), (_HANDLE, NAME), (_CALL, TELEPHONE),
        (POSTAL, ADDRESS), (_TITLED, NAME),
    ):  # fmt: skip
        text = pattern.sub(word, text)
    for start, end in reversed(people_in(text, known)):
        owning = text[end - 2 : end] if text[end - 2 : end] in ("'s", "’s") else ""
        text = text[:start] + NAME + owning + text[end:]
    return _without_numbers(text)


def _without_numbers(text: str) -> str:
    """Leave out what the reading of messages takes for a telephone number or a postcode."""
    if not any(map(str.isdigit, text)):
        return text
    for one in reversed(find(text, _NO_NAMES).passed_over):
        if one.because in _LEFT_OUT:
            text = text[: one.start] + _LEFT_OUT[one.because] + text[one.end :]
    return text
