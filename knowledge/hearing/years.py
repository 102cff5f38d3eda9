"""When the asker thinks the machine was made. When somebody bought, found or mended it is another matter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from knowledge import edtf
from knowledge.edtf import DateSpan
from knowledge.hearing.words import Lexicon, Word, clauses

_FIRST, _LAST_BARE, _LAST = 1790, 1999, 2029
"""Bounds of the years taken for years of machines; later ones than `_LAST_BARE` need a word that says so."""

_LEXICON = Lexicon(
    {
        "about": "about around circa ca c approx approximately roughly abt maybe perhaps ~ um etwa ungefähr ungef "
        "gegen zirka environ vers autour alrededor hacia aproximadamente sobre verso attorno intorno omstreeks rond "
        "ongeveer około okolo ok circa около примерно приблизительно ок omkring cirka runt cca",
        "so": "ish so herum rum",
        "made": "made built build manufactur* produced dates dated dating from hergestellt gebaut baujahr stammt "
        "stammen gefertigt produziert fabriqu* datant construit* fabricad* hecha fabbricat* costruit* prodott* "
        "risal* gemaakt gebouwd bouwjaar wyprodukowan* zrobion* rocznik сделан* выпущ* изготов* выпуск* произвед* "
        "tillverk* byggd gjord",
        "acquired": "bought buy got get gotten found inherit* purchas* acquir* picked since restor* repair* servic* "
        "overhaul* born died dead marri* wedding moved emigrat* retired received given gift gave present collect* "
        "owned gekauft kaufte kauften geerbt erbte gefunden bekommen bekam geschenkt seit geboren gestorben "
        "geheiratet hochzeit repariert restauriert achet* herit* trouv* recu ne nee mort morte mariee depuis repar* "
        "restaur* compre compro compramos comprada comprado herede heredo heredada encontre nacio murio boda desde "
        "regal* acquist* comprat* comprai eredit* trovat* nato nata morto morta sposat* gekocht kocht geerfd "
        "gevonden gekregen sinds overleden getrouwd kupi* odziedzicz* znalazl* znalezion* dosta* urodz* zmarl* slub* "
        "купил* куплен* унаслед* нашел нашла нашли получил* родил* умер* свадьб* подар* kopt kopte kopa arvde arvt "
        "arvd hittade hittat fick fodd dog gifte bröllop sedan lagade",
        "new": "new brandnew neu neue neuen neuf neuve nueva nuevo nuova nuovo nieuw nieuwe nowa nowy nowa nowej "
        "новую новой новая новый ny nya nytt",
        "mark": "patent* pat pats regd registered design brevet* octrooi* патент* gebrauchsmuster drgm",
        "article": "a an my this that our the eine einen ein meine unsere une ma cette una mi esta un la mia questa "
        "een mijn deze moja moją ta tę моя мою эта эту min denna",
        "years": "années annees ans años anos anni jaren lata lat latach годы годов годах years",
        "decade": "s er ern ies ties talet tal tals е х ых ые",
        "early": "early begin beginning start anfang anfangs début debut principios comienzos inizio inizi vroege "
        "begin początek początku wczesne начало начала начале början tidigt tidiga",
        "middle": "mid middle mitte milieu mediados metà meta midden połowa połowie середина середине mitten",
        "late": "late end ende spätes fin finales fine eind einde late koniec końcu конец конце slutet sent sena",
        "before": "before pre vor avant antes prima voor przed до före fore innan",
        "after": "after post nach après apres después despues dopo na po после efter",
        "or": "or oder ou o of lub или eller / and",
        "to": "to and bis und et à y a al e tot en do i до и till och - – / through",
        "pre-war": "prewar vorkrieg* avantguerre preguerra anteguerra vooroorlogs* przedwojen* довоен* förkrigs*",
        "post-war": "postwar nachkrieg* posguerra dopoguerra naoorlogs* powojen* послевоен* efterkrigs*",
        "war": "war krieg guerre guerra oorlog wojną wojna войны kriget",
        "20": "twenties zwanziger* vingt veinte venti twintig dwudziest* двадцатые двадцатых tjugotal*",
        "30": "thirties dreißiger* dreissiger* trente treinta trenta dertig trzydziest* тридцатые тридцатых "
        "trettiotal*",
        "40": "forties vierziger* quarante cuarenta quaranta veertig czterdziest* сороковые сороковых fyrtiotal*",
        "50": "fifties fünfziger* cinquante cincuenta cinquanta vijftig pięćdziesiąt* пятидесятые пятидесятых "
        "femtiotal*",
        "60": "sixties sechziger* soixante sesenta sessanta zestig sześćdziesiąt* шестидесятые шестидесятых "
        "sextiotal*",
        "theirs": "her his their",
    }
)
_ALONE = Lexicon(
    {
        "alone": "twenties thirties forties fifties sixties zwanziger* dreißiger* dreissiger* vierziger* fünfziger* "
        "sechziger* tjugotal* trettiotal* fyrtiotal* femtiotal* sextiotal*"
    }
)
"""Names of decades that need no word for 'years' beside them."""

_TIMES = frozenset({"20", "30", "40", "50", "60", "war", "pre-war", "post-war"})
_PARTS = {"early": (0, 4), "middle": (3, 7), "late": (5, 9)}
_SIGNS = frozenset("-–'’ʼ.")
_NEAR = 60
"""Words. What is said further away from a time in the same sentence is not said of it."""


def years(words: Sequence[Word]) -> tuple[DateSpan, ...]:
    """Return the times that are named as the machine's own, each once."""
    if not any(word.text.isdecimal() for word in words) and not _LEXICON.meanings(words) & _TIMES:
        return ()
    found = (span for clause in clauses(list(words)) for span in _of_clause(clause))
    return tuple(dict.fromkeys(found))


def _of_clause(words: list[Word]) -> Iterator[DateSpan]:
    yield from wars(words)
    begin, place = 0, 0
    while place < len(words):
        text, end = time_at(words, place)
        if text:
            if _is_the_machines(words, begin, place, end, "X" in text):
                yield edtf.parse(_bounded(words, begin, place, end, text))
            begin = place = end
        else:
            place += 1


def means(word: Word, meaning: str) -> bool:
    """Tell whether a word about times means this: 'about', 'before', 'early', 'or' and so on."""
    return meaning in _LEXICON.meaning(word.text)


def _any_means(words: Sequence[Word], meaning: str) -> bool:
    return any(means(word, meaning) for word in words)


def time_at(words: Sequence[Word], place: int) -> tuple[str, int]:
    """Return the EDTF text of a year, a decade or a range that begins here, and where it ends; '' when none does.

    >>> time_at([Word("1908", False), Word("to", False), Word("1912", False)], 0)
    ('1908/1912', 3)
    """
    year, end = _year(words, place)
    if not year:
        return _decade(words, place)
    if _is_decade(words, end):
        return (_decade_text(year), _past_decade(words, end)) if year % 10 == 0 else ("", place + 1)
    other, other_end = _second_year(words, end, year)
    if other:
        return f"{year}/{other}", other_end
    return str(year), end


def _year(words: Sequence[Word], place: int) -> tuple[int, int]:
    """Read '1931' or "'31"."""
    word = words[place]
    if word.text.isdecimal() and len(word.text) == 4 and _FIRST <= int(word.text) <= _LAST:
        inside = word.glued and place > 0 and words[place - 1].text not in "('\"-–/~."
        return (0, place) if inside else (int(word.text), place + 1)
    before = words[place - 1] if place else None
    if word.text in "'’ʼ" and not word.glued and place + 1 < len(words) and not (before and means(before, "years")):
        after = words[place + 1]
        if after.glued and after.text.isdecimal() and len(after.text) == 2:
            return 1900 + int(after.text), place + 2
    return 0, place


def _is_decade(words: Sequence[Word], end: int) -> bool:
    after = words[end : end + 2]
    if after and after[0].text in _SIGNS and after[0].glued:
        after = after[1:]
    return bool(after) and after[0].glued and means(after[0], "decade")


def _past_decade(words: Sequence[Word], end: int) -> int:
    return end + (2 if words[end].text in _SIGNS else 1)


def _decade_text(year: int) -> str:
    return f"{year // 10}X"


def _decade(words: Sequence[Word], place: int) -> tuple[str, int]:
    """Read '30s', 'the thirties', 'années 30', 'lata trzydzieste', '30-е годы'."""
    word = words[place]
    year, end = 0, place + 1
    if word.text.isdecimal() and len(word.text) == 2 and word.text[1] == "0" and word.text[0] >= "2":
        before = [one for one in words[max(0, place - 2) : place] if one.text not in _SIGNS]
        if _is_decade(words, end):
            year, end = 1900 + int(word.text), _past_decade(words, end)
        elif before and means(before[-1], "years") and before[-1].text not in ("years", "ans"):
            year = 1900 + int(word.text)
    else:
        year = _named_decade(words, place)
    return (_decade_text(year), end) if year else ("", place)


def _named_decade(words: Sequence[Word], place: int) -> int:
    meanings = _LEXICON.meaning(words[place].text) & {"20", "30", "40", "50", "60"}
    if not meanings or (place and means(words[place - 1], "theirs")):
        return 0
    cyrillic = words[place].text[0] > "\u0400"
    beside = (*words[max(0, place - 1) : place], *(words[place + 1 : place + 2] if cyrillic else ()))
    alone = _ALONE.meaning(words[place].text)
    return 1900 + int(next(iter(meanings))) if alone or _any_means(beside, "years") else 0


def _second_year(words: Sequence[Word], end: int, year: int) -> tuple[int, int]:
    """Read the end of a range: '1920-1930', '1911/12', '1920 to 1930'."""
    if end + 1 >= len(words) or not means(words[end], "to"):
        return 0, end
    glued = words[end].glued and words[end + 1].glued
    other, after = words[end + 1].text, end + 2
    if not other.isdecimal() or (not words[end].text.isalpha() and not glued and other and len(other) != 4):
        return 0, end
    second = int(other) if len(other) == 4 else year // 100 * 100 + int(other) if len(other) == 2 and glued else 0
    follows = after < len(words) and words[after].glued and words[after].text.isalnum()
    return (second, after) if year < second <= _LAST and not follows else (0, end)


def _is_the_machines(words: Sequence[Word], begin: int, place: int, end: int, decade: bool) -> bool:
    """Tell whether a time is that of the machine, by the verb before it, else by the one after it."""
    before = words[max(begin, place - _NEAR) : place]
    after = words[end : end + _NEAR]
    if _any_means(before, "mark"):
        return False
    if not decade and before and means(before[-1], "article"):
        return True
    told = _first_told(reversed(before)) or _first_told(_up_to_the_next(after))
    if told == "acquired":
        return _any_means(before, "new") or _any_means(after[:2], "new")
    recent = words[place].text.isdecimal() and int(words[place].text) > _LAST_BARE
    return not recent or told == "made"


def _first_told(words: Iterator[Word] | Sequence[Word]) -> str:
    for word in words:
        for meaning in ("made", "acquired"):
            if means(word, meaning):
                return meaning
    return ""


def _up_to_the_next(words: Sequence[Word]) -> Sequence[Word]:
    for place in range(len(words)):
        if time_at(words, place)[0]:
            return words[:place]
    return words


def _bounded(words: Sequence[Word], begin: int, place: int, end: int, text: str) -> str:
    """Return the text with what the words around it say: about, before, after, early, late."""
    before = words[max(begin, place - 5) : place]
    near = [word for word in before[-3:] if word.text not in _SIGNS]
    earlier, later = _any_means(near, "before"), _any_means(near, "after")
    if "X" in text:
        return part_of_decade(before, text)
    if earlier and not later and "/" not in text:
        return f"../{int(text) - 1}"
    if later and not earlier and "/" not in text and near and means(near[-1], "after"):
        return f"{text}/.."
    if "/" not in text and (_any_means(before[-3:], "about") or _any_means(words[end : end + 2], "so")):
        return f"{text}~"
    return text


def part_of_decade(before: Sequence[Word], text: str) -> str:
    """Return the EDTF text of the early, middle or late part of a decade, as the words before it say.

    >>> part_of_decade([Word("early", False)], "192X")
    '1920/1924'
    """
    year = int(text[:3]) * 10
    for meaning, (first, last) in _PARTS.items():
        if _any_means(before, meaning):
            return f"{year + first}/{year + last}"
    return text


def wars(words: Sequence[Word]) -> Iterator[DateSpan]:
    """'Before the war' is before 1940, whichever war is meant; 'after the war' could be after either, and is left."""
    for place, word in enumerate(words):
        joined = means(word, "war") and place > 0
        before = words[max(0, place - 3) : place] if joined else ()
        if means(word, "pre-war") or _any_means(before, "before"):
            yield edtf.parse("../1939")
        elif means(word, "post-war") or (joined and any(one.text == "post" for one in before)):
            yield edtf.parse("1945/..")
