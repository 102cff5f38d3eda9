"""'Yes, the second one': an answer that points to one of the datings it was shown."""

from __future__ import annotations

import re
from collections.abc import Sequence

from knowledge import edtf
from knowledge.candidates import Candidate
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.plain import Phrases
from knowledge.expert_answers.vocabulary import DENIED, DENIES

_PLACES = (
    Phrases(
        "first|1st|number one|number 1|no. 1|no 1|nr. 1|option 1|option one|option a|#1|top one|top|erste|ersten|"
        "erster|premier|première|primera|primero|prima|primo|eerste"
    ),
    Phrases(
        "second|2nd|number two|number 2|no. 2|no 2|nr. 2|option 2|option two|option b|#2|zweite|zweiten|zweiter|"
        "deuxième|seconde|segunda|segundo|seconda|secondo|tweede"
    ),
    Phrases(
        "third|3rd|number three|number 3|no. 3|no 3|nr. 3|option 3|option three|option c|#3|dritte|dritten|dritter|"
        "troisième|tercera|tercero|terza|terzo|derde"
    ),
    Phrases("fourth|4th|number four|number 4|no. 4|no 4|nr. 4|option 4|#4|vierte|vierten|quatrième|cuarta|quarta"),
)
_LAST = Phrases("last|last one|bottom one|letzte|letzten|dernier|dernière|última|último|ultima|ultimo|laatste")
_AGREES = Phrases(
    "yes|yep|yeah|yup|agree|agreed|i agree|right|is right|correct|is correct|go with|i'd go with|go for|it's the|"
    "it is the|must be the|take the|i'd take|definitely|confirmed|confirm|spot on|exactly|one|reading|dating|option|"
    "candidate|wins|ja|stimmt|richtig|genau|einverstanden|oui|d'accord|exact|c'est le|c'est la|juste|bonne|bon|sí|"
    "de acuerdo|correcto|correcta|exacto|es la|es el|sì|d'accordo|giusto|giusta|corretto|corretta|esatto|è la|è il|"
    "klopt|juist|akkoord|inderdaad|eens"
)
_MERE = Phrases(
    "yes|yep|yeah|yup|agreed|i agree|right|correct|that's right|that is right|that's it|that's correct|spot on|"
    "exactly|confirmed|yes that's right|yes correct|yes agreed|ja|stimmt|richtig|genau|ja stimmt|oui|d'accord|exact|"
    "sí|correcto|exacto|de acuerdo|sì|esatto|giusto|klopt|juist|ja klopt"
)
_ONLY_THIS = re.compile(
    r"\W*(?:(?:the|definitely|it's|its|it is|i'd say|i'd go with|i go with|i agree with|agree with|yes|die|das|der|la|"
    r"le|el|il|de|het|c'est|bien|ist|es|sono|e|is|i think|clearly|surely|sure|for me|for sure|oui|ja|si|"
    r"no doubt)\W+)*(?P<this>.*?)(?:\W+(?:one|is right|is correct|please|for me|reading|option))*\W*"
)
_YEAR_ONE = re.compile(
    r"(?:the|die|das|der|la|celle de|la de|quella del|die van) ?(1[789]\d\d)(?:er|-er)? ?"
    r"(?:one|reading|dating|option|candidate|$)"
)
_OTHER_THINGS = Phrases(
    "first time|first thing|first of all|second thought|second thoughts|first world war|second world war|at first|"
    "second hand|first year|first half|second half|first page|first week|second week|last year|last time|last week"
)
"""Where 'first' and 'second' are said of no dating."""


def is_place_only(clause: Clause) -> bool:
    """Tell whether a clause is a place in a list and nothing else: 'definitely number 1'."""
    only = _ONLY_THIS.sub(r"\g<this>", clause.words, count=1)
    return any(phrases.is_all_of(only) for phrases in _PLACES)


def points_to(clause: Clause, shown: Sequence[Candidate]) -> Candidate | str | None:
    """Return the dating that a clause agrees with, its words where no such dating is shown, None for no agreement."""
    low = clause.words
    if _OTHER_THINGS.search(low):
        return None
    if year := _YEAR_ONE.search(low):
        return _of_year(year[1], shown) or (low if shown else None)
    for place, phrases in enumerate((*_PLACES, _LAST)):
        match = phrases.search(low)
        if match is None or not (_AGREES.search(low) or phrases.is_all_of(_ONLY_THIS.sub(r"\g<this>", low, count=1))):
            continue
        if DENIES.ends(_without_article(low[: match.start()])) or DENIED.begins(low, _past_one(low, match.end())):
            return None
        at = place if place < len(_PLACES) else len(shown) - 1
        return shown[at] if 0 <= at < len(shown) else low
    if _MERE.is_all_of(low) and len(shown) == 1:
        return shown[0]
    return None


def _without_article(low: str) -> str:
    return re.sub(r"\b(?:the|die|das|der|la|le|el|il|de|het)\s*\Z", "", low)


def _past_one(low: str, end: int) -> int:
    one = re.compile(r"\s+one\b").match(low, end)
    return one.end() if one else end


def _of_year(year: str, shown: Sequence[Candidate]) -> Candidate | None:
    """Return the only dating of that year."""
    found = [one for one in shown if _begins_in(one.date, int(year))]
    return found[0] if len(found) == 1 else _most_alike(found)


def _most_alike(found: Sequence[Candidate]) -> Candidate | None:
    """Return the likeliest, where all mean the same number."""
    return found[0] if found and len({one.serial for one in found}) == 1 else None


def _begins_in(text: str, year: int) -> bool:
    span = edtf.parse(text) if text else None
    return span is not None and span.earliest.year <= year <= span.latest.year
