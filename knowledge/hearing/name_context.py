"""Whether a word that could be a name is meant as one: 'my Marthe', not 'Martha left it to me' or 'a standard needle'.

Most names are heard wherever they stand. Three kinds need words beside them that make them names of machines: those
written otherwise than in the pack, for they may be other words; those that are everyday words; and names of models
without the word 'model', for many are first names.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from typing import NamedTuple

from knowledge.hearing.name_index import MODEL_WORDS, SKIPPED
from knowledge.hearing.words import NUMBER, Lexicon, Word, folded_set

_LEXICON = Lexicon(
    {
        "owned": "a an the my our mine your this that these those his her their its one some two three ein "
        "eine einen einer der die das dem den mein* unser* dein* ihr* diese* un une le la les l mon ma mes "
        "notre nos votre cet cette ce uno una el los las mi mis nuestra* esta este il lo gli un mia mio "
        "nostra questa questo een de het mijn onze deze dit moj* nasz* ta tę tej ten мо* наш* эт* en ett den "
        "det min mitt vår denna din",
        "have": "have has got had own bought buy found inherited sold selling repair is was it's be habe hat "
        "haben hab gekauft geerbt gefunden ist war ai a avons acheté hérité tengo tiene compré heredé es ho "
        "ha comprato è heb heeft kocht gekocht mam mamy ma kupi* odziedzicz* dosta* znalaz* jest sprzeda* "
        "имею купил* наш* получил* har köpte ärvde är",
        "number": "number serial numer nummer numéro numero номер numret nr from by of od z w из от у",
        "machine": "machine machines maschine maschinen nähmaschine nähmaschinen macchina macchine máquina "
        "máquinas maszyn* машин* швейн* symaskin symaskinen maskin maskinen naaimachine naaimachines treadle "
        "treadles head portable sewing model models modell modelle modèle modelo modello модель type typ",
        "maker": "maker make brand manufacturer firm company called named name says reads marked badge "
        "hersteller marke firma heißt heisst steht marque fabricant appelle fabricante llama dice marchio "
        "fabbricante merk fabrikant heet staat producent marki marka nazywa марка марки производитель фирма "
        "märke tillverkare heter",
        "adjective": "old very nice lovely beautiful little big small black green antique vintage early late "
        "good alt* schön* klein* groß* vieille ancienne belle petite grande vieja antigua vecchia antica "
        "bella oude oud mooie stara starą starej stary piękna стар* gammal gamla fin hand treadle electric "
        "pretty",
        "person": "mr mrs ms miss mister madam dr prof herr frau fräulein monsieur madame mademoiselle mme "
        "mlle señor señora signor signora mevrouw meneer pan pani господин госпожа herrn fru fröken lady aunt "
        "auntie aunty uncle gran granny grandma grandmother grandpa grandfather nan nana mother mum mom "
        "father dad sister brother daughter cousin niece nephew wife husband friend neighbour neighbor "
        "colleague tante onkel oma opa großmutter grossmutter mutter mama vater schwester bruder tochter sohn "
        "freundin freund nachbarin nachbar kusine oncle mère maman père soeur frère fille fils amie ami "
        "voisine voisin tía tío abuela abuelo madre padre hermana hermano hija hijo amiga amigo vecina vecino "
        "zia zio nonna nonno mamma papà sorella fratello figlia figlio amica amico vicina vicino oom moeder "
        "vader zus broer dochter zoon vriendin vriend buurvrouw buurman ciocia ciocią cioci wujek babcia "
        "babci dziadek matka mama ojciec siostra brat córka syn koleżanka kolega sąsiadka sąsiad тетя тётя "
        "тети дядя бабушка бабушки дедушка мама отец сестра брат дочь сын подруга друг соседка сосед moster "
        "faster mormor farmor mor syster bror dotter väninna vän granne",
        "greeted": "dear hi hello hey thanks thank regards cheers love baby dog cat liebe lieber hallo danke "
        "chère cher bonjour merci querida querido hola gracias cara caro ciao grazie beste hoi bedankt droga "
        "drogi cześć dzięki дорогая привет спасибо kära hej tack",
        "person-after": "gave gives left says said told thinks schenkte sagt sagte meint hinterließ gab dit "
        "disait dice dijo regaló disse zegt zei gaf mówi dała zostawiła говорит сказала подарила оставила "
        "säger sa gav",
    }
)
_EVERYDAY = folded_set(
    "standard standards ideal original family favorite favourite favorit rapid express national international "
    "universal universell perfect premier prima champion victory triumph royal imperial empire crown star eagle lion "
    "queen king prince princess duke empress monarch union world globe home house household new modern classic super "
    "superb special regular popular economy junior senior little baby wonder gem pearl diamond gold golden silver iron "
    "steel bronze black white red blue green brown grey gray light silent swift quick speed speedy easy reliable "
    "success progress future pioneer century record hope sun moon north south east west central leader master expert "
    "helper companion gift elite luxe luxury deluxe automatic electric portable treadle cabinet simple simplex beauty "
    "first best top extra plus general model number machine sewing needle bobbin spring summer autumn winter may june "
    "april august familie familia famiglia rodzina национальный стандарт идеал familj original originale originel "
    "étoile couronne reine roi idéal idéale moderno moderna nuevo nueva nuovo nuova neu neue nowa ny estrella corona "
    "reina stella regina krone stern königin welt heim haus schnell leicht schwarz rot blau weiß grün blanc blanche "
    "noir noire rouge bleu vert negro negra blanco blanca rojo azul verde nero nera bianco bianca rosso rossa "
    "gwiazda korona królowa звезда корона королева stjärna krona drottning svart vit röd blå grön"
)
"""Words of every day that firms like to call themselves or their machines by."""


def is_meant(
    words: Sequence[Word], start: int, end: int, name: str, is_bare: bool, telling: bool = False
) -> bool:
    """Tell whether the word from `start` to `end` is meant as this name, one word of letters, by what stands beside it.

    `is_bare` says that it is the name of a model without the word 'model'; `telling`, that the words are of somebody
    who tells what a machine is: there only what is no name of a machine has to be left out.
    """
    if not name.isalpha():
        return True
    beside = _beside(words, start, end)
    if _is_a_person(beside):
        return False
    if name in _EVERYDAY:
        return _is_named_so(words, start, beside)
    is_written_so = words[start].text in (name, f"{name}s", f"{name}es")
    if telling and (is_written_so or len(name) >= _LONG_NAME):
        return not _means(beside.before, "greeted")
    if words[start].text in (name, f"{name}s", f"{name}es") and not is_bare:
        return True
    return _is_a_machine(words, start, beside)


class _Beside(NamedTuple):
    """The words next to a name, None at the ends of a message. A dot before it is passed over: 'Mrs. Rivol'."""

    before: Word | None
    after: Word | None


def _beside(words: Sequence[Word], start: int, end: int) -> _Beside:
    at = start - 1
    if start > 1 and words[at].text == "." and _means(words[start - 2], "person"):
        at -= 1
    return _Beside(words[at] if at >= 0 else None, words[end] if end < len(words) else None)


def _is_a_person(beside: _Beside) -> bool:
    return _means(beside.before, "person") or _means(beside.after, "person-after")


def _is_a_machine(words: Sequence[Word], start: int, beside: _Beside) -> bool:
    """Tell 'my old Marthe', 'Marthe 204117' and 'ma Marthe' from 'Martha, who sews'."""
    if _stands_alone(words, start, {"owned", "have"}) or any(map(_is_of_machines, beside)):
        return True
    if _means(beside.before, "greeted"):
        return False
    place = start - 1
    while place >= max(0, start - 3) and _meaning(words[place]) & {"adjective"}:
        place -= 1
    return place >= 0 and bool(_meaning(words[place]) & {"owned", "have", "number", "maker"})


def _is_named_so(words: Sequence[Word], start: int, beside: _Beside) -> bool:
    """Tell 'made by Standard', 'the brand is Standard' and 'Standard K204117' from 'a standard needle'."""
    if _stands_alone(words, start, {"owned"}) or any(word is not None and word.text == NUMBER for word in beside):
        return True
    near = [word for word in words[max(0, start - 4) : start] if word.text not in SKIPPED]
    if any("maker" in _meaning(word) for word in near):
        return True
    if not words[start].capital or not near or near[-1].text in ".!?\n" or all(word.capital for word in near):
        return False
    nouns_are_capital = near[-1].text in _GERMAN
    return not nouns_are_capital and bool(_meaning(near[-1]) & {"owned", "have", "number", "adjective", "machine"})


_GERMAN = folded_set("der die das dem den des ein einen einem eines mein unser ist im am vom zum kein")
"""German writes every noun with a capital, so that a capital behind these words tells nothing."""
_FEW = 6
_LONG_NAME = 6
"""Letters. A word that is nearly such a name is a slip of it; 'runs' is none of 'Runa'."""


def _stands_alone(words: Sequence[Word], start: int, small: Set[str]) -> bool:
    """Tell whether a message is nothing but a name and small words: an answer to 'which is it?', no signature."""
    if len(words) > _FEW or any(word.text == "\n" for word in words[:start]):
        return False
    telling = [word for word in words if word.text.isalnum() and not _meaning(word) & small]
    return len(telling) == 1


def _is_of_machines(word: Word | None) -> bool:
    return word is not None and (word.text == NUMBER or word.text in MODEL_WORDS or _means(word, "machine"))


def _means(word: Word | None, meaning: str) -> bool:
    return word is not None and meaning in _meaning(word)


def _meaning(word: Word) -> frozenset[str]:
    return _LEXICON.meaning(word.text)
