"""Names of people in a text, as far as rules can tell them: by what stands before and behind a word with a capital.

'Ethel Pym's ledger', 'in the hands of E. Pym', 'according to Pym', 'my cousin Ethel', 'the Pym ledger'. A name that
nothing of this stands beside cannot be told from the name of a town or, in German, from any noun.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from knowledge.names import fold
from knowledge.tokens import cues

_WORD = re.compile(r"[^\W\d_](?:\w|['’.-](?=\w))*")
_OWNING = re.compile(r"(?:['’]s|s['’])\Z")
_INITIAL = re.compile(r"[^\W\d_]\Z")
_PARTICLES = frozenset("van von de der den di da del della du la le zu ten ter af av of-the y e".split())
_BOOKS = frozenset(
    "ledger ledgers receipt receipts book books notebook diary diaries journal bill bills invoice letter letters "
    "papers "
    "notes collection estate family photo photograph album buch bücher lieferbuch kassenbuch "
    "quittung rechnung heft tagebuch brief briefe sammlung nachlass boek boeken kasboek bon rekening brieven dagboek "
    "verzameling bok böcker kvitto liggare dagbok samling brev księga kwitanca".split()
)
_BEFORE = frozenset(
    "by|told by|said by|kept by|held by|owned by|sold by|sold to|bought by|bought from|lent by|given by|given to|"
    "left by|"
    "left to|written by|signed by|signed|copied by|made out to|issued to|addressed to|belonged to|belonging to|"
    "belongs to|"
    "according to|courtesy of|thanks to|hands of|possession of|property of|care of|c/o|inherited from|estate of|"
    "widow of|son of|daughter of|wife of|husband of|diary of|collection of|papers of|letter from|letter of|dear|"
    "hello|hi|"
    "named|called|owner|owner is|collector|dealer|"
    "selon|d'après|chez|appartenant à|appartient à|signé par|signé|vendu à|vendu par|acheté à|aux mains de|chère|"
    "cher|"
    "según|pertenece a|vendida a|vendido a|comprada a|firmado por|en manos de|en poder de|querido|querida|"
    "secondo|appartiene a|venduta a|comprata da|firmato da|nelle mani di|cara|caro|"
    "volgens|eigendom van|verkocht aan|gekocht van|getekend door|in handen van|in het bezit van|beste|"
    "według|wg|należy do|w rękach|w posiadaniu|kupiona od|sprzedana|podpisał|"
    "по словам|со слов|у|принадлежит|продана|куплена у|подписал|"
    "enligt|tillhör|såld till|köpt av|undertecknad av|hos|kära|käre".split("|")
)
"""What a name stands behind. One word with a capital is enough there."""
_BEFORE_TWO = frozenset(
    "of from for to at with via per de du von bei nach laut gehört an durch angabe di da van bij od do z av från "
    "till "
    "от с par per por door przez".split()
)
"""Words of every day: behind these it takes two words with capitals, for one may be a town or a noun."""
_BEHIND = frozenset(
    "has had says said told owns owned showed keeps kept wrote bought sold remembers recalls lent gave "
    "inherited".split()
)
_KIN = frozenset(
    "mother father grandmother grandfather husband wife sister brother cousin daughter son widow aunt uncle "
    "neighbour "
    "neighbor friend niece nephew gran granny grandma grandpa mum mom dad colleague owner großmutter mutter vater "
    "schwester bruder tochter sohn tante onkel oma opa freundin freund nachbarin nachbar mère père sœur soeur frère "
    "grand-mère grand-père fille fils amie ami madre padre abuela abuelo hermana hermano hija hijo amiga amigo nonna "
    "nonno zia zio sorella fratello figlia figlio amica amico moeder vader zus broer dochter zoon buurman babcia "
    "dziadek "
    "matka ojciec siostra brat córka syn mormor farmor morfar farfar mor far syster bror dotter бабушка дедушка мать "
    "отец сестра брат дочь сын тетя дядя".split()
)
_HOUSES = frozenset(
    "works factory foundry mill museum library archive archives office society club company co ltd association "
    "church "
    "school university shop store stores street road lane bridge county town city catalogue records werk werke "
    "museet "
    "fabrik archiv musée usine museo archivio archivo fabbrica fabriek muzeum fabryka музей завод архив".split()
)
"""What stands behind the name of a place or a firm."""
_NO_NAMES = frozenset(
    "i the a an this that these it its he she his her my our your their we they and or but from by of for to in on "
    "at as "
    "with see no nr page p pages vol volume plate machine model type maker record national upper lower old new "
    "great little north south east west original sales accounts "
    "account parts orders customs goods wages original first second third last copy copied delivery "
    "shipping stock order price day cash register list lists catalogue catalog manual patent design number "
    "serial date dated made sold bought built found told "
    "january february march april may june july august september october november december monday tuesday wednesday "
    "thursday friday saturday sunday christmas easter januar februar märz mai juni juli oktober dezember montag "
    "dienstag "
    "mittwoch donnerstag freitag samstag sonntag english german french spanish italian dutch polish russian swedish "
    "american british seite blatt nummer modell maschine hersteller firma liste stadt".split()
) | (_BOOKS | _BEFORE | _KIN | _BEHIND | _HOUSES)


def people_in(text: str, known: Collection[str] = ()) -> tuple[tuple[int, int], ...]:
    """Return where people are named in a text, in order. `known` are folded words that name no people.

    >>> [("according to Ethel Pym's ledger")[start:end] for start, end in people_in("according to Ethel Pym's ledger")]
    ["Ethel Pym's"]
    """
    words = list(_WORD.finditer(text))
    return tuple(
        (words[first].start(), words[last].end())
        for first, last in _runs(text, words)
        if _is_person(text, words, first, last, known)
    )


def _runs(text: str, words: Sequence[re.Match[str]]) -> Iterator[tuple[int, int]]:
    """Yield the first and the last of words with capitals that follow each other, without those that name nobody."""
    place = 0
    while place < len(words):
        last = place
        if _may_name(words[place]):
            while (further := _next(text, words, last)) is not None:
                last = further
            yield place, last
        place = last + 1


def _next(text: str, words: Sequence[re.Match[str]], last: int) -> int | None:
    """Return the next word of a name, over particles ('van der') and behind initials; None where the name ends."""
    if _OWNING.search(words[last].group()):
        return None
    place = last + 1
    while place < len(words) and _joins(text, words, place):
        if _may_name(words[place]):
            return place
        if words[place].group() not in _PARTICLES:
            return None
        place += 1
    return None


def _joins(text: str, words: Sequence[re.Match[str]], place: int) -> bool:
    between = text[words[place - 1].end() : words[place].start()]
    return between.isspace() or (between.strip() == "." and len(words[place - 1].group()) <= 2)


def _may_name(word: re.Match[str]) -> bool:
    bare = _OWNING.sub("", word.group())
    if not bare[:1].isupper():
        return False
    if _INITIAL.match(bare):
        return word.string[word.end() : word.end() + 1] == "."
    is_shouted = bare.isupper() and len(bare) < 4
    return not is_shouted and fold(bare) not in _NO_NAMES and cues.kind_of(fold(bare)) is None


def _is_person(text: str, words: Sequence[re.Match[str]], first: int, last: int, known: Collection[str]) -> bool:
    names = [_OWNING.sub("", word.group()) for word in words[first : last + 1]]
    names = [name for name in names if name not in _PARTICLES]
    if all(fold(name) in known or _INITIAL.match(name) for name in names):
        return False
    begins = first == 0 or text[: words[first].start()].rstrip()[-1:] in (".", "!", "?", ":", ";", "")
    several = len(names) > 1
    behind = _word_at(words, last + 1, text, words[last].end())
    if behind in _HOUSES:
        return False
    owns = bool(_OWNING.search(words[last].group()))
    if begins and not several:  # it may be any word with which a sentence begins
        return behind in _BOOKS and (owns or names[0].endswith("s"))
    return owns or behind in _BOOKS or behind in _BEHIND or _stands_behind_a_cue(text, words[first].start(), several)


def _word_at(words: Sequence[re.Match[str]], place: int, text: str, end: int) -> str:
    """Return the word that follows with nothing but a space between, '' for none."""
    if place < len(words) and text[end : words[place].start()].isspace():
        return words[place].group().casefold()
    return ""


def _stands_behind_a_cue(text: str, start: int, several: bool) -> bool:
    before = [word.strip("(\"'“„«,:") for word in text[max(start - 60, 0) : start].casefold().split()[-3:]]
    if not before:
        return False
    tails = {" ".join(before[-count:]) for count in (1, 2, 3)}
    return bool(tails & _BEFORE) or before[-1] in _KIN or (several and before[-1] in _BEFORE_TWO)
