"""What an answer seems to name and nobody knows: a maker, a model. It is shown, so that nothing is lost in silence."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from knowledge.expert_answers import act_words, evidence_words, time_words, vocabulary
from knowledge.expert_answers.agreeing import is_place_only
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.stated import MAKER, MODEL, WORKS, Stated
from knowledge.names import Names

_NAME = r"[A-Z](?:[^\W\d_]|['’.-](?=[^\W\d_])){2,}"
_NAMES = rf"{_NAME}(?: (?:&|and|und|et|y|e|en) [A-Z][^\W\d_]+| {_NAME}){{0,3}}"
_MADE_BY = re.compile(
    r"(?<![^\W_])(?i:made by|built by|manufactured by|produced by|maker(?: is|:| was)|hergestellt von|gebaut von|"
    rf"fabriqu\w* par|fabricad\w* por|hech\w* por|fabbricat\w* da|gemaakt door)\s+(?P<name>{_NAMES})"
)
_MODEL_OF = re.compile(
    r"(?<![^\W_])(?i:model|modell|modele|modèle|modelo|modello|type|class|klasse)[ :]+"
    r"(?P<name>(?!I(?![^\W_]))[A-Z]{1,3}\d{0,3}(?![^\W_])|[A-Z][^\W\d_]{3,})"
)
_ALONE = re.compile(
    r"(?:(?i:it's|it is|this is|that's|that is|c'est|het is|dit is|esta es|questa e|questa è)\s+)?"
    rf"(?P<article>(?i:an?|une|una|een)\s+)?(?P<name>{_NAMES})"
    r"(?:\s+(?:from|of|about|around|circa|in|de|du|del|uit) .*)?"
)
_NO_NAMES = re.compile(
    r"(?i:.*ly|.*day|yes|yep|yeah|no|nope|okay|well|sure|sorry|update|answer|date|year|made|built|machine|number|serial|"
    r"nothing|something|definitely|genau|richtig|nein|oui|non|nee|bon|bien|vale|claro|certo|und|and|the|this|that|"
    r"here|there|then|good|nice|thanks|easy|done|settled|result|hmm+|well)"
)
"""What may open an answer with a capital letter and names nothing."""
_OTHER_WORDS = (
    time_words.HEDGES, time_words.BEFORE, time_words.AFTER, time_words.BETWEEN, time_words.FILLERS,
    time_words.AND_SO, time_words.NOT_AFTER, time_words.NOT_BEFORE, act_words.CONFIRMS, act_words.SO,
    act_words.ALTHOUGH, vocabulary.CORRECTS, vocabulary.MORE_EXACTLY, vocabulary.SURE, vocabulary.DENIES,
    vocabulary.SPOKEN_TO, evidence_words.CUE, *evidence_words.NOUNS.values(),
)  # fmt: skip
_LABEL = re.compile(r"(?<![^\W_])(?:maker?|brand|model|hersteller|marke|modell?|marque|marca|merk)\s*:\s*\Z")
_SHORTEST, _LONGEST = 5, 30
"""Letters of a name in which two that changed places are put right."""


def unknown_names(clause: Clause, said: Sequence[Stated]) -> Iterator[str]:
    """Yield what a clause names as a maker or model and nobody knows: 'made by Jones & Sons', 'model ZZ', 'a Jones'.

    `said` is everything that was found in the clause.
    """
    for pattern in (_MADE_BY, _MODEL_OF):
        for match in pattern.finditer(clause.text, clause.start, clause.end):
            start = match.start() if pattern is _MODEL_OF else match.start("name")
            if not _is_known(*match.span("name"), said):
                yield clause.text[start : match.end()]
    alone = _ALONE.fullmatch(clause.text, clause.start, clause.end)
    if alone and not clause.is_question and _could_be_a_name(clause, alone, said):
        yield alone["name"]


def _could_be_a_name(clause: Clause, alone: re.Match[str], said: Sequence[Stated]) -> bool:
    low = clause.low[alone.start("name") : alone.end("name")]
    opens = not clause.low[: clause.start].strip() and clause.low[clause.end : clause.end + 1] == ","
    is_labelled = _LABEL.search(clause.low, max(0, clause.start - 20), clause.start)
    if not alone["article"] and not is_labelled and not (opens and alone.end("name") == clause.end):
        return False
    if _NO_NAMES.fullmatch(low) or _is_known(*alone.span("name"), said) or is_place_only(clause):
        return False
    return not any(phrases.search(low) for phrases in _OTHER_WORDS)


def _is_known(start: int, end: int, said: Sequence[Stated]) -> bool:
    return any(one.start < end and start < one.end for one in said)


_WORD = re.compile(r"[^\W\d_]+")


def with_letters_changed(clause: Clause, names: Names, said: Sequence[Stated]) -> list[Stated]:
    """Return the names of which two neighbouring letters changed places: 'Stien' for 'Stine'."""
    found = []
    for match in _WORD.finditer(clause.low, clause.start, clause.end):
        is_named = clause.text[match.start()].isupper() or any(
            one.kind == MAKER and 0 < match.start() - one.end <= 2 for one in said
        )
        if not _SHORTEST <= len(match[0]) <= _LONGEST or not is_named or _is_known(*match.span(), said):
            continue
        for kind, known in ((MAKER, names.makers), (MODEL, names.models), (WORKS, names.works)):
            if ids := _swapped(match[0], known):
                found.append(Stated(kind, ids, *match.span()))
                break
    return found


def _swapped(word: str, known: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    forms = (word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1))
    return next((known[form] for form in forms if form != word and form in known), ())
