"""What an asker wants to know, whether a person is asked for, and subjects that need a warning.

Each word has meanings (WHERE, MADE, NUMBER, ...), in any of nine languages; a wish is a set of meanings that stand
together in one sentence.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from itertools import pairwise
from typing import NamedTuple

from knowledge.hearing.words import NUMBER, Lexicon, Word, folded_set, sentences

_LEXICON = Lexicon(
    {
        "how": "how wie quel quelle quelles cuántos cuantos cuánto quanti quante quanto hoe ile jak jaka сколько "
        "какой какого каков hur",
        "old": "old older oldest älter älteste alt alte âge anciennete ancienne vieille viejo vieja antigüedad "
        "vecchia vecchio oud oude stara stary stare лет старая gammal gammalt gamla age ages alter edad età leeftijd "
        "wiek wieku возраст ålder ans años anni lat",
        "age": "age alter âge edad età leeftijd wiek wieku возраст возраста ålder dating datation datación "
        "datazione datering datowanie датировка датировать dater datar datare datieren dateren datować datera "
        "altersbestimmung",
        "date-it": "date datieren",
        "which": "what which whats welche welches welcher welchem quel quelle que qué cuál quale quali che welk "
        "welke jaki jaka jakie który która którego jakiego какой какая какое какого каком vilken vilket vad",
        "when": "when wann quand cuándo quando wanneer kiedy когда när",
        "year": "year years baujahr jahr jahre jahren année an año anno jaar bouwjaar rok roku rocznik год года "
        "году år century jahrhundert siècle",
        "please": "please plz pls anyone anybody somebody know clue tell bitte weiß jemand connaît quelqu svp "
        "alguien sabe favor qualcuno weet iemand alstublieft wie ktoś proszę знает подскажите скажите пожалуйста "
        "någon vet tack",
        "made": "made leave left came built build manufacture manufactured produced production hergestellt gebaut "
        "gefertigt produziert fabriquée fabriqué fabrication construite fabricada fabricado fabricación hecha "
        "fabbricata fabbricato costruita prodotta gemaakt gebouwd geproduceerd wyprodukowano wyprodukowana "
        "wyprodukowany zrobiona powstała выпущена выпустили изготовлена сделана сделали произведена производства "
        "выпуска tillverkad tillverkades tillverkat gjord gjordes byggd from date dates dated stammt stammen",
        "model": "model type kind sort modell typ modèle modelo tipo modello модель тип modellen sorte variante "
        "typu",
        "identify": "identify identification identifizieren identifier identificar identificare identificeren "
        "zidentyfikować определить опознать identifiera",
        "who": "who whose wer qui quién chi wie kto кто vem",
        "maker": "maker manufacturer brand make firm company hersteller marke fabrikant firma fabricant marque "
        "fabricante marca fabbricante casa merk producent marka производитель марка фирма tillverkare märke",
        "works": "factory works plant werk fabrik usine fábrica fabbrica stabilimento officina fabriek fabryka "
        "fabryce zakład завод заводе заводом фабрика fabriken verk verket",
        "where": "where wheres wo dónde donde dove waar gdzie где",
        "where-first": "ou var",
        "find": "find found locate located look looking search stamped hidden sit finde finden findet suche steht "
        "sitzt trouver trouve trouverai cherche chercher situe encuentro encontrar encuentra está busco buscar trovo "
        "trovare trova cerco vind vinden zoek zoeken staat zit znajdę znaleźć znajduje szukać jest найти нахожу "
        "искать находится смотреть hittar hitta finns sitter leta står letar",
        "find-not": "cant cannot t no nicht pas non niet nie не inte",
        "seek": "find finde finden trouve trouver encuentro encontrar trovo trovare vind vinden znajdę znaleźć "
        "найти hittar hitta",
        "number": "number serial numbers nummer seriennummer fabriknummer numéro numero número matricule matricola "
        "serienummer numer numeru seryjny номер номера серийный numret serienumret tillverkningsnummer",
        "worth": "worth value valuable wert wertvoll vaut valeur vale valor valore valer waard waarde warta wart "
        "wartość ценность ценная värd värde värt estimate valuation price prix precio prezzo preis prijs cena cenę "
        "цена pris",
        "costs": "стоит kostet cost",
        "person": "person human humans expert experts specialist moderator moderators admin admins someone-real "
        "mensch menschen experte experten expertin fachmann humain experte spécialiste humano humana experto experta "
        "persona esperto esperta umano mens deskundige człowiek człowiekiem ekspert eksperta ekspertem человек "
        "человеком эксперт эксперта экспертом специалист специалиста människa expert",
        "talk": "talk speak ask reach contact want wants need real like could can pass please sprechen fragen reden "
        "echten brauche möchte bitte parler demander vrai voudrais hablar preguntar quiero real parlare chiedere "
        "vorrei vera vero spreken praten vragen echt wil rozmawiać porozmawiać zapytać prawdziwym chcę поговорить "
        "спросить живым хочу можно prata tala fråga riktig vill",
        "picture": "photo photos photograph photographs picture pictures pic pics image images attached snapshot "
        "foto fotos bild bilder angehängt anhang photographie jointe imagen imágenes adjunto adjunta immagine "
        "immagini allegata afbeelding plaatje bijlage zdjęcie zdjęcia zdjęciu zdjęć фото фотография фотографии "
        "фотографию снимок снимке bifogad bilden bilderna fotot",
        "wiring": "motor motors wiring wire wires plug plugs socket lamp light-bulb bulb cord cable mains electric "
        "electrical electricity voltage rewire rewiring pedal fuse shock motore moteur motorn silnik* двигател* "
        "мотор* elektr* électr* verkabel* kabel* kabla* stecker steckdose lampe lampa lampka lampę ampoule prise fil "
        "câble cable* câblage enchufe bombilla lámpara presa spina lampadina cavo stekker stopcontact snoer wtyczka "
        "gniazdko przewód провод* вилка вилку розетк* лампа лампочк* лампу проводк* kontakt kontakten sladd sladden "
        "glödlampa elektrisk* strom spannung corriente corrente courant prąd* ток ström",
        "opening": "dismantle disassemble unscrew dismantling disassembling zerleg* auseinander* aufschraub* "
        "démont* desmont* smont* demonter* openmaken rozkręc* rozebra* rozbiera* разобра* разбира* разборк* вскры* "
        "demontera* isär öffnen aufmachen ouvrir abrir aprire otworzyć otwierać открыть открывать öppna",
        "open": "open opening take taking remove removing",
        "apart": "apart cover covers plate it machine casing housing bottom lid up",
        "casting": "lift lifting carry carrying heavy heben tragen schwer schwere soulever porter lourd lourde "
        "levantar cargar pesada sollevare pesante trasportare tillen zwaar zware dragen podnieść podnosić ciężka "
        "ciężki поднять поднимать тяжелая тяжёлая перенести lyfta bära tung ship shipping transport",
        "move": "move moving turn tip tilt tilting lay",
        "moved": "it machine over side back head bed",
        "paint": "paint painting repaint repainting varnish sand sanding sandpaper rust japanning decals lackieren "
        "lackier* abschleif* streichen rost peindre repeindre peinture poncer rouille pintar repintar pintura lijar "
        "óxido verniciare riverniciare vernice carteggiare ruggine schilderen verven verf schuren roest malować "
        "pomalować lakier* farba szlifować rdza красить покрасить краска краску ржавчин* måla färg slipa rost "
        "lackera",
        "needle": "needle needles nadel nadeln aiguille aiguilles aguja agujas ago aghi naald naalden igła igłę "
        "igły игла иглу иголк* nål nålen nålar",
        "change": "change changing replace replacing broke broken breaks stuck remove bent swap fit wechsel* "
        "tauschen gebrochen abgebrochen steckt changer remplacer casse cassé cassée coincée cambi* rompió rota rotto "
        "rotta bloccato vervangen gebroken verwisselen wymieni* złama* заменить поменять сломал* застряла byta byter "
        "bruten fastnat",
    }
)
_WISHES: tuple[tuple[str, frozenset[str]], ...] = (
    ("age", frozenset({"how", "old"})),
    ("age", frozenset({"age"})),
    ("age", frozenset({"which", "old"})),
    ("age", frozenset({"year", "please"})),
    ("age", frozenset({"when", "made"})),
    ("age", frozenset({"which", "year"})),
    ("model", frozenset({"which", "model"})),
    ("model", frozenset({"identify"})),
    ("maker", frozenset({"who", "made"})),
    ("maker", frozenset({"which", "maker"})),
    ("works", frozenset({"where", "made"})),
    ("works", frozenset({"which", "works"})),
    ("value", frozenset({"worth"})),
    ("value", frozenset({"how", "costs"})),
)
"""Each wish with the meanings that ask for it, all in one sentence."""

_DANGERS: tuple[tuple[str, frozenset[str]], ...] = (
    ("wiring", frozenset({"wiring"})),
    ("opening", frozenset({"opening"})),
    ("opening", frozenset({"open", "apart"})),
    ("casting", frozenset({"casting"})),
    ("casting", frozenset({"move", "moved"})),
    ("paint", frozenset({"paint"})),
    ("needle", frozenset({"needle", "change"})),
)
_POINTING = folded_set(
    "machine maschine maquina macchina maszynie maszyna машине машинке maskinen symaskinen bed bett do does can an at "
    "bei an einer einem einen sur une un en una su di op een w na у на en på s "
    "could should would i we you one to it this that on is the my our mine be exactly please a am supposed ich sie "
    "es man kann die das den soll muss denn wir diese genau ihn est ce que je le la les on puis peut se s t il elle "
    "dois faut puedo lo la el se debo tengo que hay posso la lo il si devo trovarlo trovarla kan ik het je moet dat "
    "die deze ik hem go ja mogę można mam to ją ten się я мне его ее это этот можно она он тут kan jag den det man "
    "ska skall ser"
)
_NO_NAMES: frozenset[str] = frozenset()
_IT = folded_set("it sie er es elle il ella lei hij hem ze ją go она он ее его den det")
_DATED = folded_set("it this my mine these them a the diese meine") | {NUMBER}


class Wishes(NamedTuple):
    """What one message wants. `asks` and `dangers` as in `Said`."""

    asks: frozenset[str]
    dangers: frozenset[str]
    person: bool
    picture: bool


def wishes(words: Sequence[Word], names: Set[str] = _NO_NAMES) -> Wishes:
    """Return what is asked for, what needs a warning, whether a person is wanted, and whether a photo is mentioned.

    `names` are the words of the message that name a maker, a model or works.
    """
    asks: set[str] = set()
    dangers: set[str] = set()
    person = picture = False
    for sentence in sentences(list(words)):
        meanings = _meanings(sentence)
        asks |= _asked(sentence, meanings, names)
        dangers.update(danger for danger, needed in _DANGERS if needed <= meanings)
        person = person or meanings >= {"person", "talk"}
        picture = picture or "picture" in meanings
    return Wishes(frozenset(asks), frozenset(dangers), person, picture)


def asks_where(sentence: Sequence[Word], names: Set[str]) -> bool:
    """Tell whether one sentence asks where the number is found; `names` as for `wishes`."""
    return _asks_where(sentence, _meanings(sentence), names)


def _meanings(sentence: Sequence[Word]) -> frozenset[str]:
    found = _LEXICON.meanings(sentence)
    if "where-first" in found:
        first = next((word.text for word in sentence if word.text.isalpha()), "")
        found |= {"where"} if "where-first" in _LEXICON.meaning(first) else frozenset()
    return found


def _asked(sentence: Sequence[Word], meanings: frozenset[str], names: Set[str]) -> set[str]:
    asked = {wish for wish, needed in _WISHES if needed <= meanings}
    if _asks_where(sentence, meanings, names):
        asked = asked - {"works"} | {"where"}
    if "date-it" in meanings and _asks_a_date(sentence):
        asked.add("age")
    return asked


def _asks_where(sentence: Sequence[Word], meanings: frozenset[str], names: Set[str]) -> bool:
    """Tell 'where is the number' and 'where do I find it' from 'where was it made' and 'where do I find parts'."""
    if "where" not in meanings:
        return meanings >= {"find-not", "seek", "number"}
    if "number" in meanings:
        return True
    pointing = all(_is_pointing(word) for word in sentence if word.text.isalpha() and word.text not in names)
    return pointing and ("find" in meanings or any(word.text in _IT for word in sentence))


def _is_pointing(word: Word) -> bool:
    return word.text in _POINTING or bool(_LEXICON.meaning(word.text) & {"where", "where-first", "find"})


def _asks_a_date(sentence: Sequence[Word]) -> bool:
    """Tell 'can you date this?' and 'please date K204117' from dates that are told."""
    return any(
        "date-it" in _LEXICON.meaning(word.text) and after.text in _DATED for word, after in pairwise(sentence)
    )
