"""Letters named apart from the number are put where they are stamped; the place in the text is that of the number.

`204117, with a K in front` and `letter K, digits 204117` become `K204117`; `204117, K at the end` becomes `204117 K`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from knowledge.tokens.fold import Change, Folded, fold_word

FRONT: Final[dict[str, str]] = {
    "English": "in front|before|ahead|at the front|at the start|at the beginning|as prefix|as a prefix|prefix|first",
    "German": "davor|vorne|vorn|vorweg|am anfang|vorangestellt|voran|vorab|zuvor",
    "French": "devant|avant|au début|en tête|au commencement",
    "Spanish": "delante|antes|al principio|al comienzo|al inicio",
    "Italian": "davanti|prima|all'inizio|in testa",
    "Dutch": "ervoor|vooraan|voorop|ervóór|aan het begin|vooraf",
    "Polish": "z przodu|na początku|przed|przed nim|na przedzie",
    "Russian": "впереди|спереди|в начале|перед|перед ним|вначале",
    "Swedish": "framför|före|i början|först",
    "Danish, Norwegian": "foran|først|i begyndelsen|i begynnelsen",
    "Portuguese": "na frente|à frente|no início|antes",
    "Czech": "vpředu|před|na začátku",
}
BACK: Final[dict[str, str]] = {
    "English": "at the end|behind|after|at the back|on the end|as suffix|as a suffix|suffix",
    "German": "dahinter|hinten|am ende|danach|hintendran",
    "French": "derrière|après|à la fin",
    "Spanish": "detrás|después|al final",
    "Italian": "dietro|dopo|alla fine|in fondo",
    "Dutch": "erachter|achteraan|aan het eind|aan het einde|erna",
    "Polish": "na końcu|z tyłu|po nim",
    "Russian": "в конце|после|сзади",
    "Swedish": "efter|i slutet|bakom|på slutet",
    "Danish, Norwegian": "bagefter|til sidst|bak|etter|bagved",
    "Portuguese": "no fim|no final|atrás",
    "Czech": "na konci|za ním|vzadu",
}
LETTER: Final = (
    "letter|capital|capital letter|letters|upper case|prefix|initial|buchstabe|buchstaben|großes|großem|großen|"
    "großer|lettre|"
    "letra|lettera|hoofdletter|litera|literą|litery|literka|буква|буквой|букву|буквы|литера|литерой|латинская|"
    "латинской|"
    "латинская буква|русская|latin|lateinisches|bokstaven|bokstav|bogstavet|bogstav|písmeno|písmenem|majuscule|"
    "mayúscula|"
    "maiuscola|stor|stort"
)
ARTICLE: Final = (
    "a|an|the|ein|eine|einem|einen|der|dem|den|das|un|une|la|le|l'|una|el|il|een|de|ett|en|um|uma|jest|to|et"
)
JOIN: Final = (  # may stand between the number and its letter
    "noch|encore|ook nog|jeszcze|ещё|еще|with|has|and|plus|having|there's|there is|it has|is|mit|und|ist|steht|avec|"
    "et|il y a|"
    "est|con|y|e|lleva|hay|c'è|ha|met|en|staat|z|ze|i|oraz|с|со|и|med|och|ett|og|com|tem|s|a|then|but|also|only"
)
AFTER_LETTER: Final = (  # may stand between a letter and its number
    "serial|serial number|seriennummer|numéro de série|of|von|vom|di|del|van|and|und|et|y|e|en|i|и|och|og|then|"
    "followed by|followed|dann|danach|gefolgt von|puis|suivi de|"
    "suivie de|luego|seguida de|seguido de|poi|seguita da|seguito da|gevolgd door|dan|potem|затем|потом|далее|sedan|"
    "följt av|"
    "derefter|depois|pak|the|die|der|les|los|las|le|de|digits|digit|number|numbers|no|no.|figures|ziffern|ziffer|"
    "nummer|zahl|"
    "zahlen|chiffres|numéro|número|numero|cifras|cifre|cijfers|cyfry|numer|цифры|номер|siffror|siffrorna|tal|tall|"
    "čísla|"
    "číslo|are|is|sind|ist|lautet|son|sono|zijn"
)
THEN: Final = (
    "then|followed by|dann|gefolgt von|puis|suivi de|luego|seguido de|seguida de|poi|seguito da|gevolgd door|potem|"
    "затем|sedan|"
    "följt av"
)
PRECEDED: Final = (
    "preceded by|prefixed by|prefixed with|précédé de|précédé d'|précédé par|precedido de|precedido por|preceduto da|"
    "preceduto dalla|voorafgegaan door|poprzedzony|poprzedzone|poprzedzona|föregånget av|starting with|beginning with"
)
FOLLOWED: Final = (
    "followed by|gefolgt von|gefolgt vom|suivi de|suivi d'|suivie de|suivie d'|suivis de|seguido de|seguida de|"
    "seguidos de|"
    "seguido por|seguito da|seguita da|seguiti da|gevolgd door|a po nim|po czym|за ним|затем|följt av|efterfulgt af|"
    "etterfulgt av|následuje"
)
AS_IN: Final = "for|as in|like|wie|comme|come in|come|como|de|als|jak|как|som|como em|jako"
STARTS: Final = (
    "starts with|begins with|starts|begins|starting with|beginning with|it starts with|beginnt mit|fängt mit|"
    "commence par|"
    "empieza con|empieza por|comienza con|inizia con|comincia con|begint met|zaczyna się od|начинается с|börjar med|"
    "starter med|begynder med|começa com|začíná"
)


def _any(phrases: str | Mapping[str, str]) -> str:
    text = phrases if isinstance(phrases, str) else "|".join(phrases.values())
    folded = {re.escape(fold_word(phrase)).replace(r"\ ", " ") for phrase in text.split("|")}
    return "(?:" + "|".join(sorted(folded, key=lambda phrase: (-len(phrase), phrase))) + ")"


_GAP: Final = r"[ ,;:(\"'\n-]{0,3}"
_NUMBER: Final = r"(?<![\w.,])(?P<number>\d(?:[ .,\-/]?[\d?*_]){2,11})(?![^\W_])"
_NAMED: Final = rf"(?:{_any(ARTICLE)} ?){{0,2}}(?:{_any(LETTER)} )?[\"'(]?(?P<letter>(?<![^\W_])[a-z])(?![^\W_])[\"')]?"
_JOINED: Final = rf"{_GAP}(?:{_any(JOIN)} ){{0,2}}"
_LEADING_TO: Final = rf"{_GAP}(?:{_any(AFTER_LETTER)}{_GAP}){{0,4}}{_NUMBER}"
_AT_EITHER_END: Final = rf"(?:stands |comes |goes |is |steht )?(?:{_any(FRONT)}|(?P<back>{_any(BACK)}))(?: that| it)?"
_PATTERNS: Final = tuple(
    re.compile(pattern)
    for pattern in (
        rf"{_NUMBER}{_JOINED}{_NAMED},? (?:right |just |direkt |direct )?{_AT_EITHER_END}(?![^\W_])",
        rf"{_NUMBER}{_JOINED}{_AT_EITHER_END}(?![^\W_]){_JOINED}{_NAMED}",
        rf"{_NUMBER}{_JOINED}{_any(PRECEDED)} ?{_NAMED}",
        rf"{_NUMBER}{_JOINED}(?P<back>{_any(FOLLOWED)}) ?{_NAMED}",
        rf"(?<![^\W_])(?:{_any(JOIN)} )?{_NAMED} {_AT_EITHER_END}{_LEADING_TO}",
        rf"(?<![^\W_]){_NAMED} \(?{_any(AS_IN)} (?=(?P=letter))[a-z]{{3,12}}\)?{_LEADING_TO}",
        rf"(?<![^\W_])(?:{_any(LETTER)}|{_any(STARTS)})(?:: ?| ){_NAMED}{_LEADING_TO}",
        rf"{_NAMED}{_GAP}(?:and |und )?{_any(THEN)} (?:{_any(AFTER_LETTER)}{_GAP}){{0,3}}{_NUMBER}",
    )
)
_TRIGGERS: Final[tuple[str | Mapping[str, str], ...]] = (FRONT, BACK, LETTER, PRECEDED, STARTS, FOLLOWED, AS_IN, THEN)
_MAY_NAME: Final = re.compile(r"(?<![^\W_])(?:" + "|".join(map(_any, _TRIGGERS)) + ")")
_LONE_LETTER: Final = re.compile(  # a cheap look first: without one there is nothing to do
    r"(?<![^\W_])(?<!')(?:[B-HJ-Zb-df-hj-np-z]|[AI](?= (?:in front|before|at the|davor|vorn|dahinter|behind|after|"
    r"devant|,)))(?![^\W_'])"
    r"|(?:letter|buchstabe|lettre|letra|lettera|prefix) [\"']?[AIO]\b"
)
_NO_LETTER: Final = frozenset("aieoysu")  # words of one letter: a letter only when typed as a capital


def rewrite_named_letters(folded: Folded) -> Folded:
    """Return the text with letters named in words put before or after their number."""
    if not _LONE_LETTER.search(folded.plain):
        return folded
    low = folded.plain.lower()
    if not _MAY_NAME.search(low):
        return folded
    for pattern in _PATTERNS:
        named = [match for match in pattern.finditer(low) if _is_letter(match, folded.plain)]
        if named:
            folded = folded.rewritten(change for match in named for change in _joined(match))
            low = folded.plain.lower()
    return folded


def _is_letter(match: re.Match[str], plain: str) -> bool:
    return match["letter"] not in _NO_LETTER or plain[match.start("letter")].isupper()


def _joined(match: re.Match[str]) -> tuple[Change, Change]:
    letter = match["letter"].upper()
    start, end = match.span("number")
    at_back = match.groupdict().get("back") is not None
    return (
        Change(match.start(), start, "" if at_back else letter, (start, start + 1)),
        Change(end, match.end(), f" {letter}" if at_back else "", (end - 1, end)),
    )
