"""What a reply to the question back says: one of its choices, yes or no, 'the second one', or words of its own."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from knowledge.ask_back import AskBack
from knowledge.base import Knowledge
from knowledge.hearing.stamping import digit_count
from knowledge.hearing.words import folded_set, lower, plain_words, split
from knowledge.said import Said, hear, hear_facts, merged
from knowledge.tokens.nouns import Found

_YES = folded_set("yes yeah yep yup right correct ja jawohl oui sí sì tak да jo indeed exactly")
_NO = folded_set("no nope nein non nee nie нет nej")
_NOT = folded_set("not nicht kein pas niet geen nie не inte ingen isn neither")
_ORDINALS = (
    folded_set(
        "first 1st erste ersten erster premier première primero primera primo prima eerste pierwszy pierwsza pierwsze "
        "первый первая первое första"
    ),
    folded_set(
        "second 2nd zweite zweiten zweiter deuxième segundo segunda secondo seconda tweede drugi druga drugie второй "
        "вторая второе andra"
    ),
    folded_set(
        "third 3rd dritte dritter troisième tercero tercera terzo terza derde trzeci trzecia третий третья tredje"
    ),
    folded_set("fourth 4th vierte quatrième cuarto cuarta quarto quarta vierde czwarty czwarta четвертый fjärde"),
    folded_set("fifth 5th fünfte cinquième quinto quinta vijfde piąty пятый femte"),
    folded_set("sixth 6th sechste sixième sexto sexta sesto sesta zesde szósty шестой sjätte"),
)
_LAST = folded_set(
    "last letzte letzten dernier dernière último última ultimo ultima laatste ostatni ostatnia последний sista"
)
_SMALL = folded_set(
    "the one it is its it's s a an i think believe option choice number answer please sorry well so must be that "
    "this das der die es ist ein eine c est le la un une el es la il lo è de het een to jest ten ta это вариант "
    "det är den en yes ja oui si tak да ' letter digits model maker says"
)


def understood(text: str, asked: AskBack, knowledge: Knowledge) -> Said | str | None:
    """Return what a reply to the question says: what was said, or the number chosen, or None when it is no answer."""
    heard = _told(text, knowledge)
    counted = digit_count(plain_words(text, Found()), alone=False)
    if asked.about != "digits":  # a mere '9' counts digits only where digits are asked for
        heard = replace(heard, digit_count=counted)
    choice = _choice(text, asked)
    if choice is None:
        said = _about(heard, asked, text, counted is None)
        if said is not None:
            return said
        place = place_pointed_at(text, len(asked.choices))
        choice = None if place is None else asked.choices[place]
    if choice is None:
        return None
    return choice if asked.about == "number" else said_by(choice, asked.about, knowledge)


def _told(text: str, knowledge: Knowledge) -> Said:
    """Return what a reply tells of the machine, with its wishes: a maker that it only asks about is no answer."""
    everything = hear(text, knowledge.names, Found())
    facts = hear_facts(text, knowledge.names, Found())
    told = merged(facts.supposed, facts.stated)
    return replace(
        told, asks=everything.asks, person=everything.person, picture=everything.picture, dangers=everything.dangers
    )


def said_by(choice: str, about: str, knowledge: Knowledge) -> Said | None:
    """Return what a choice of the question back says; None when it tells nothing."""
    if about == "digits":
        return Said(digit_count=int(choice.split()[0]))
    if about == "zero":
        return Said(leading_zero=choice.startswith("it starts"))
    if about == "letter":
        return Said(prefix="" if choice == "no letter" else choice.removeprefix("letter "))
    if about == "maker":
        makers = tuple(id_ for id_, maker in knowledge.makers.items() if (maker.name or id_) == choice)
        return Said(makers=makers) if makers else None
    if about == "works":
        works = tuple(id_ for id_, one in knowledge.works.items() if (one.name or id_) == choice)
        return Said(works=works) if works else None
    models = tuple(id_ for id_, model in knowledge.models.items() if (model.name or id_) == choice)
    return Said(models=models) if models else said_by(choice, "maker", knowledge)  # a dating may name no model


def _choice(text: str, asked: AskBack) -> str | None:
    """Return the choice whose words are all in the text, or that alone has all the telling words of the text."""
    if asked.about == "zero":
        return None  # 'no zero in front' is better heard than compared
    words = [word.text for word in split(text) if word.text.isalnum()]
    telling = {word for word in words if word not in _SMALL}
    by_choice = {choice: {word.text for word in split(choice) if word.text.isalnum()} for choice in asked.choices}
    whole = [choice for choice, needed in by_choice.items() if lower(choice) == " ".join(words) or needed <= set(words)]
    if len(whole) != 1 and telling:
        whole = [choice for choice, needed in by_choice.items() if telling <= needed]
    return whole[0] if len(whole) == 1 and not set(words) & _NOT else None


def _about(heard: Said, asked: AskBack, text: str, may_be_place: bool) -> Said | None:
    """Return what was heard when it answers the question; a mere yes or no where that is an answer.

    A small number may be the place of a choice, unless it counts digits: '2 digits'.
    """
    if asked.about == "digits" and heard.digit_count is not None:
        offered = f"{heard.digit_count} digits" in asked.choices
        return None if may_be_place and not offered and heard.digit_count <= len(asked.choices) else heard
    if heard.bears_on_datings:
        return heard
    words = {word.text for word in split(text) if word.text.isalnum()}
    if asked.about == "zero" and words & (_YES | _NO):
        return Said(leading_zero=not words & _NO)
    if asked.about == "letter" and words & _NO and not words - _NO - _SMALL:
        return Said(prefix="")
    return None


def place_pointed_at(text: str, count: int) -> int | None:
    """Return the place, from 0 on, among so many things that 'the second one', '2' or 'the last' points at."""
    words = [word.text for word in split(text) if word.text.isalnum()]
    joined = ["".join(pair) for pair in pairwise(words)]
    places = [place for place, known in enumerate(_ORDINALS) if known & {*words, *joined}]
    if not places:
        places = [int(word) - 1 for word in words if word.isdecimal() and len(word) == 1]
    if set(words) & _LAST:
        places = [count - 1]
    pointing = len(places) == 1 and 0 <= places[0] < count and len(words) < 8
    return places[0] if pointing else None
