"""Things that have serial numbers of their own and are no sewing machines: bicycles, typewriters, clocks, guns."""

from __future__ import annotations

from typing import Final

from knowledge.tokens import cues
from knowledge.tokens import words as lists
from knowledge.tokens.context import words_in
from knowledge.tokens.cues import kind_of

_THINGS: Final = lists.folded(
    "typewriter typewriters bicycle bike bikes tricycle frame camera cameras camera's lens clock clocks gun rifle "
    "shotgun pistol revolver piano pianos accordion concertina guitar violin trumpet banjo saxophone laptop computer "
    "tablet printer car cars tractor tractors motorbike motorcycle moped engine boiler fridge freezer oven "
    "cooker stove radio television tv hoover vacuum washer dishwasher dryer drill lathe mower lawnmower router modem "
    "console scooter telescope binoculars generator chainsaw caravan trailer boat outboard organ harmonium "
    "gramophone "
    "barometer phone's iphone phone handset meter meters washing knitting typing mangle telephone's speaker "
    "amplifier "
    "turntable projector microscope "
    "schreibmaschine schreibmaschinen fahrrad fahrrads rad rahmen kamera objektiv standuhr taschenuhr wanduhr "
    "armbanduhr kuckucksuhr gewehr flinte klavier akkordeon auto traktor waschmaschine strickmaschine "
    "kühlschrank fernseher drucker staubsauger stromzähler gaszähler zähler moped motorrad geige plattenspieler "
    "spülmaschine bohrmaschine kaffeemaschine "
    "vélo bicyclette cadre horloge montre pendule fusil photographique accordéon voiture tracteur écrire ordinateur "
    "imprimante compteur frigo laver tricoter moto violon "
    "bicicleta bici reloj escopeta coche acordeón escribir ordenador lavadora tractor contador guitarra lavar "
    "bicicletta telaio orologio pendola fucile fotocamera pianoforte fisarmonica automobile scrivere lavatrice "
    "trattore "
    "contatore frigorifero chitarra "
    "fiets framenummer fietsframe klok horloge geweer schrijfmachine wasmachine breimachine fototoestel laptops "
    "accordeon "
    "rower roweru ramy zegar zegara zegarek zegarka aparatu fortepian pianino akordeon samochód samochodu "
    "pisania pralka "
    "pralki licznik licznika "
    "велосипед велосипеда рама рамы фотоаппарат фотоаппарата ружьё ружья рояль пианино аккордеон баян пишущая "
    "пишущей "
    "пишущую автомобиль автомобиля стиральная стиральной счётчик счётчика холодильник холодильника трактор "
    "cykel cykeln cykelram ramnummer gevär kameran dragspel skrivmaskin skrivmaskinen tvättmaskin bilen klockan "
    "skrivemaskine skrivemaskin symaskin-lampe cykelstel máquina-fotográfica relógio psací stroje-psací kolo hodiny"
)
_SEWING: Final = lists.folded(
    "machine machines sewing treadle handcrank hand-crank maschine maschinen nähmaschine nähmaschinen coudre "
    "machine's "
    "coser máquina macchina cucire naaimachine naaimachines maszyna maszyny szycia швейная швейной машина "
    "машины машинка "
    "машинки symaskin symaskinen maskin maskinen symaskine costura šicí"
)
_WRITTEN_ON: Final = lists.folded(
    "phone phone's telephone's handset iphone laptop computer tablet camera camera's kamera"
)
_SAYS_NOTHING_ELSE: Final = frozenset({cues.SERIAL, cues.NUMBER, cues.FILLER, cues.PAUSE, cues.STOP, cues.ASIDE})
_OF: Final = frozenset("of von de van del di av du della".split())
_OWN: Final = lists.folded("my the a his her our their your an old pocket wrist gold silver meine die eine")
_IN_A_PLACE: Final = lists.folded(
    "in on at beside behind under near by inside against for with from next bei auf im in neben hinter unter "
    "für mit aus "
    "dans sur sous avec pour en sobre con nel sul sotto per op onder naast voor w na pod obok dla в на под для "
    "рядом i på "
    "under bredvid för om about than swapped traded exchanged collect repair repairs repaired mend"
)
_ARTICLES: Final = lists.folded(
    "a an the my his her our their your old mum's dad's uncle's der dem den die das ein einem einer eine meinem "
    "un une le "
    "la les mon ma el los las mi una il lo mio mia de het een mijn mojego mojej mojej моего моей en ett min "
    "mitt to it"
)


def is_of_another_thing(before: tuple[str, ...], after: list[str]) -> bool:
    """Say whether the nearest thing named around a number is one of those, and no sewing machine.

    `before` are the words before it, nearest last; a thing that only says where ('behind the piano') is none.
    """
    if not _SEWING.isdisjoint(after[:5]):
        return False
    for place in range(len(before) - 1, -1, -1):
        if _is_a_thing(before, place) and not _is_a_place(before, place):
            return _owns(before, place)
        if before[place] in _SEWING:
            return place > 0 and before[place - 1] in _THINGS
        if kind_of(before[place]) is cues.DIGITS:
            break
    return _follows(after)


def _is_a_thing(words: tuple[str, ...], place: int) -> bool:
    word = words[place]
    if word == "watch":
        return place > 0 and words[place - 1] in _OWN
    return word in _THINGS or (word.endswith("'s") and word[:-2] in _THINGS)


def _owns(words: tuple[str, ...], place: int) -> bool:
    """Say whether few strangers stand between a thing and the number; none, for what people write on."""
    strangers = sum(kind_of(word) not in _SAYS_NOTHING_ELSE for word in words[place + 1 :])
    return strangers == 0 if words[place] in _WRITTEN_ON else strangers < 3


def _is_a_place(words: tuple[str, ...], place: int) -> bool:
    """'behind the piano', 'piano case'."""
    if place + 1 < len(words) and words[place + 1] in ("case", "stool", "lamp", "table", "box", "shop", "oil"):
        return True
    start = place - 1
    while start >= 0 and words[start] in _ARTICLES:
        start -= 1
    return start >= 0 and words[start] in _IN_A_PLACE


def _follows(after: list[str]) -> bool:
    """'318842 is the serial of my typewriter'."""
    for place, word in enumerate(after):
        if word in _SEWING or kind_of(word) in (cues.STOP, cues.DIGITS, cues.PAUSE):
            return False
        if word in _THINGS:
            return not _OF.isdisjoint(after[max(place - 3, 0) : place])
    return False


def words_after(low: str, end: int) -> list[str]:
    """Return the next words after a number."""
    return words_in(low, end, end + 60)[:8]
