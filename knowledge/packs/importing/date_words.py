"""The words with which people write dates in lists, in nine languages (common practice, no source).

All words are compared folded: without case and accents.
"""

from __future__ import annotations

import re

from knowledge.names import fold


def _words(text: str) -> frozenset[str]:
    return frozenset(fold(word) for word in text.split("|"))


_MONTH_NAMES = (
    "january januar jänner janvier enero gennaio januari styczeń stycznia январь января",
    "february februar febr février febrero febbraio februari luty lutego февраль февраля",
    "march märz mars marzo maart mrt marzec marca март марта",
    "april avril abril aprile kwiecień kwietnia апрель апреля",
    "may mai mayo maggio mei maj maja май мая",
    "june juni juin junio giugno czerwiec czerwca июнь июня",
    "july juli juillet julio luglio lipiec lipca июль июля",
    "august août agosto augustus augusti sierpień sierpnia август августа",
    "september septembre septiembre settembre wrzesień września сентябрь сентября",
    "october oktober octobre octubre ottobre październik października октябрь октября",
    "november novembre noviembre novembre listopad listopada ноябрь ноября",
    "december dezember décembre diciembre dicembre grudzień grudnia декабрь декабря",
)
MONTHS = {fold(name): number for number, names in enumerate(_MONTH_NAMES, 1) for name in names.split()}

WEEKDAYS = _words(
    "monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun"
    "|montag|dienstag|mittwoch|donnerstag|freitag|samstag|sonnabend|sonntag|lundi|mardi|mercredi|jeudi|vendredi"
    "|samedi|dimanche"
)
FILLERS = _words(
    "the|of|in|year|im|jahr|jahre|den|der|dem|am|le|en|an|annee|l'an|de|del|di|el|año|anno|roku|rok|г|года|år"
)

ABOUT = _words(
    "c|c.|ca|ca.|circa|cca|cca.|abt|abt.|about|approx|approx.|approximately|around|roughly|~|±|um|etwa|ungefähr"
    "|gegen|vers|environ|env.|hacia|alrededor de|cerca de|verso|intorno al|omstreeks|rond|ongeveer|około|ok.|ok"
    "|около|ок.|прибл.|omkring|cirka|kring|est|est.|estimated|probably|prob.|possibly|poss.|perhaps|maybe"
    "|wohl|vermutlich|wahrscheinlich|vielleicht|probablement|peut-être|or so"
)
BEFORE = _words("before|bef|bef.|pre|pre-|prior to|vor|avant|antes de|prima del|voor|przed|до|före|<")
AFTER = _words("after|aft|aft.|post|post-|nach|après|después de|dopo il|dopo|na|po|после|efter|>")
UNTIL = _words("until|till|up to|by|bis|jusqu'en|hasta|fino al|tot|<=|≤")
SINCE = _words("from|since|ab|seit|dès|depuis|à partir de|desde|dal|vanaf|od|с|från|>=|≥")
EARLY = _words(
    "early|early in|beginning of|start of|anfang|début|début de|principios de|inizio|begin|początek|начало|början av"
)
MIDDLE = _words("mid|mid-|middle of|mitte|milieu de|mi-|mediados de|metà|midden|połowa|середина|mitten av")
LATE = _words("late|late in|end of|ende|fin|fin de|finales de|fine|eind|koniec|конец|slutet av")

SEASONS = {  # first and last month; northern hemisphere. Winter is missing: it belongs to two years
    season: months
    for names, months in {
        "spring|frühling|frühjahr|printemps|primavera|lente|voorjaar|wiosna|весна|vår": (3, 5),
        "summer|sommer|été|verano|estate|zomer|lato|лето|sommar": (6, 8),
        "autumn|fall|herbst|automne|otoño|autunno|herfst|najaar|jesień|осень|höst": (9, 11),
    }.items()
    for season in _words(names)
}
WINTER = _words("winter|hiver|invierno|inverno|zima|зима|vinter")

UNKNOWN = _words(
    "|-|--|---|?|??|.|..|...|n/a|na|n.a.|nd|n.d.|n. d.|no date|none|unknown|not known|tbc|tba|x|null|nan"
    "|unbekannt|o.j.|o. j.|inconnu|inconnue|s.d.|s. d.|desconocido|desconocida|sconosciuto|ignoto|onbekend"
    "|nieznany|nieznana|b.d.|неизвестно|okänt"
)


def longest_first(words: frozenset[str]) -> str:
    """Return the words as one regular expression, the longest first so that none hides another."""
    return "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))


def month_number(word: str) -> int | None:
    """Return the month that a name, or its beginning of at least three letters, can only mean; None otherwise."""
    name = fold(word).rstrip(".")
    if name in MONTHS:
        return MONTHS[name]
    possible = {number for full, number in MONTHS.items() if len(name) >= 3 and full.startswith(name)}
    return possible.pop() if len(possible) == 1 else None
