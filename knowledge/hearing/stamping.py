"""How the number is stamped, told apart from the number: how many digits, a zero in front, which letter."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

from knowledge.hearing.numbers import ZERO, digits_in_compound, value
from knowledge.hearing.words import NUMBER, Lexicon, Word, clauses, folded_set, sentences
from knowledge.tokens.fold import fold_character

_MOST_DIGITS = 18
_NEAR = 5
_FAR = 40
"""Words. What is said further away in the same sentence is not said of the letter."""
_LEXICON = Lexicon(
    {
        "digit": "digit digits figure figures numeral numerals ziffer ziffern stelle stellen stellig stellige "
        "chiffre chiffres cifra cifras dígito dígitos cifre cijfer cijfers cyfra cyfry cyfr цифра цифры цифр цифрами "
        "знаков siffra siffror siffrigt",
        "not": "no doesn isn wasn hasn aren don didn not isnt doesnt without never none nicht kein keine keinen "
        "keiner ohne pas sans aucun aucune non ni sin ningún ninguna niente nessuna nessuno senza geen niet zonder "
        "nie bez brak żadnej нет не без inte ingen inget utan",
        "part": "first last other second third middle final missing remaining previous ersten letzten anderen "
        "mittleren premiers derniers premières dernières primeros primeras últimos últimas primeras prime primi "
        "ultime ultimi eerste laatste pierwsze pierwszych ostatnie ostatnich первые последние första sista andra",
        "damaged": "missing worn unreadable illegible unclear gone faint hard hidden fehlen fehlt unleserlich "
        "abgenutzt unlesbar illisible illisibles manquent effacés manque borrado borrados ilegible ilegibles faltan "
        "illeggibile illeggibili mancano onleesbaar ontbreken versleten nieczytelne nieczytelna brakuje starte "
        "стерты стёрты не нечитаемы нечитаемые saknas oläslig oläsliga slitna",
        "begin": "start starts starting started begin begins beginning first front lead leading before ahead "
        "beginnt anfang fängt vorn vorne führende führender führenden erste ersten davor commence début devant "
        "premier première avant empieza comienza delante inicio principio primer primera antes inizia comincia "
        "davanti prima primo iniziale vooraan begint voorop voorloopnul eerste voor zaczyna początku przodu pierwsza "
        "przed wiodące wiodącego начинается впереди начале спереди первая первый перед ведущий börjar först första "
        "framför inledande framme",
        "letter": "letter letters buchstabe buchstaben lettre lettres letra letras lettera lettere letter letters "
        "litera literę litery liter буква букву буквы буквой букв bokstav bokstaven bokstäver prefix",
        "or": "or oder ou o of lub czy albo или eller",
    }
)
_AUXILIARY = folded_set("does is do did can should could would if whether are was will")
_SMALL = folded_set(
    "them it its it's s is was has have had there are i count counted see read get got yes yeah ok okay so just "
    "only a an the in total all of with which that 's they ve ' - that's be then sorry no well exactly definitely to "
    "machine on my es sind ist hat habe er sie das ja die ich zähle gezählt genau nur insgesamt der ein eine nein "
    "also mit und il y en a c' c est sont oui ce avec les la le un une j compte elle lui n ai seulement tiene hay "
    "son sí si es una con los las uno cuento el solo tengo exactamente ha ci sono è ne con i gli le ho conto una "
    "solo het heeft zijn er ja met een ik tel heb precies alleen maar jest ma są tak z w to widzę mam tylko это их "
    "там да с в у него неё нее есть я вижу только она det är har finns ja med jag ser den bara ett en"
)
_NO_LETTERS = folded_set("a an i y e o u в и у я о с к а") | {"the", "is", "it"}
_ARTICLES = folded_set(
    "a an the is was it's s ist ein eine est une un es una è e l la el die der das een jest to это är en"
)


def digit_count(words: Sequence[Word], alone: bool) -> int | None:
    """Return how many digits the asker counts; None when nothing or several counts are said.

    `alone` says that the message has no number of a machine, so that a mere '7' may be the count.
    """
    said = [count for clause in clauses(list(words)) for count in _counts(clause)] if _may_count(words) else []
    if not said and alone:
        said = _mere_count(words)
    return said[0] if len(set(said)) == 1 else None


def _may_count(words: Sequence[Word]) -> bool:
    return "digit" in _LEXICON.meanings(words) or any(digits_in_compound(word.text) for word in words)


def _counts(words: list[Word]) -> Iterator[int]:
    for place, word in enumerate(words):
        count = digits_in_compound(word.text)
        if count is None and "digit" in _meaning(word):
            count = _count_beside(words, place)
        before, after = words[max(0, place - 4) : place], words[place + 1 : place + 4]
        if count is None or not 1 <= count <= _MOST_DIGITS or _any(before, "part") or _any(after, "damaged"):
            continue
        if not _any(before[-2:], "not") and not _is_alternative(words, place):
            yield count


def _is_alternative(words: Sequence[Word], place: int) -> bool:
    """Tell whether the count is the second of 'six or seven digits'."""
    ors = [at for at in range(max(0, place - 4), place) if "or" in _meaning(words[at])]
    return any(value(words[at - 1].text) is not None for at in ors if at)


def _count_beside(words: Sequence[Word], place: int) -> int | None:
    """Read '7 digits', 'seven stamped digits', 'digits: 7'; a count of one is only an article."""
    for before in reversed(words[max(0, place - 2) : place]):
        count = value(before.text)
        if count is not None:
            return count if count > 1 else None
    after = [word for word in words[place + 1 : place + 4] if word.text not in _SMALL and word.text not in ":="]
    return int(after[0].text) if after and after[0].text.isdecimal() and len(after[0].text) <= 2 else None


def _mere_count(words: Sequence[Word]) -> list[int]:
    """Read '7', 'it has seven', 'ja, sieben', 'six, not seven': nothing beside the count but small words."""
    counts: list[tuple[str, int]] = []
    for before, word in pairwise([Word("", False), *words]):
        count = value(word.text)
        if count is not None:
            counts += [] if "not" in _meaning(before) else [(word.text, count)]
        elif word.text.isalnum() and word.text not in _SMALL and "not" not in _meaning(word):
            return []
    real = [count for text, count in counts if text not in _SMALL or len(counts) == 1]
    return [count for count in real if 1 < count <= _MOST_DIGITS]


def leading_zero(words: Sequence[Word]) -> bool | None:
    """Return whether the asker says that the number begins with a zero; None when it is not said, or only asked."""
    if not any(word.text in ZERO or word.text.startswith("voorloopnul") for word in words):
        return None
    for sentence in sentences(list(words)):
        if sentence[-1].text == "?" and (sentence[0].text in _AUXILIARY or not any(w.text.isascii() for w in sentence)):
            continue
        for clause in clauses(sentence):
            said = _zero_in(clause)
            if said is not None:
                return said
    return None


def _zero_in(words: Sequence[Word]) -> bool | None:
    zeros = [place for place, word in enumerate(words) if word.text in ZERO or word.text.startswith("voorloopnul")]
    if not any(_any(words[max(0, zero - _NEAR) : zero + _NEAR + 1], "begin") for zero in zeros):
        return None
    return not _any(words, "not") and words[zeros[0]].text not in ("nessuno",)


def prefix(words: Sequence[Word], known: Collection[str], alone: bool) -> str | None:
    """Return the letter the asker tells apart from the number, '' for 'no letter', None when none is told.

    `known` are the prefixes of the registers; `alone` as for `digit_count`.
    """
    for clause in clauses(list(words)) if _LEXICON.meanings(words) & {"letter", "begin"} else ():
        told = _letter_in(clause, known)
        if told is not None:
            return told
    return _mere_letter(words, known) if alone else None


def _letter_in(words: Sequence[Word], known: Collection[str]) -> str | None:
    for place, word in enumerate(words):
        if "letter" in _meaning(word):
            if _any(words[max(0, place - 3) : place], "not") and not _any(words[place + 1 : place + _FAR], "damaged"):
                return ""
            after = [one for one in words[place + 1 : place + 6] if one.text not in _ARTICLES and one.text.isalpha()]
            letter = _as_prefix(after[0].text, known) if after else None
            if letter and not _any(words[place + 1 : place + 6], "not"):
                return letter
        elif "begin" in _meaning(word):
            near = (*words[max(0, place - 2) : place], *words[place + 1 : place + 4])
            letters = [_as_prefix(one.text, known) for one in near if one.text not in _NO_LETTERS]
            found = next((letter for letter in letters if letter in known), None)
            if found and not _any(words[max(0, place - _FAR) : place + 4], "not"):
                return found
    return None


def _mere_letter(words: Sequence[Word], known: Collection[str]) -> str | None:
    """Read 'K', "it's a K", 'SE': nothing beside the letter but small words."""
    texts = [word.text for word in words if word.text.isalpha()]
    if any(word.text.isdigit() or word.text == NUMBER for word in words):
        return None
    telling = texts if len(texts) == 1 else [text for text in texts if text not in _SMALL and text not in _NO_LETTERS]
    letter = _as_prefix(telling[0], known) if len(telling) == 1 else None
    return letter if letter in known or (letter and len(letter) == 1) else None


def _as_prefix(text: str, known: Collection[str]) -> str | None:
    """Return a prefix in capital Latin letters: one letter, or several that a register knows."""
    letters = "".join(fold_character(letter) for letter in text).upper()
    return letters if len(letters) == 1 or letters in known else None


def _meaning(word: Word) -> frozenset[str]:
    return _LEXICON.meaning(word.text)


def _any(words: Sequence[Word], meaning: str) -> bool:
    return any(meaning in _meaning(word) for word in words)
