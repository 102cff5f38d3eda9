"""Numbers in words, and names that stand for letters, by language; as people write them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from knowledge.tokens.fold import fold_word

UNIT: Final = "unit"  # one digit
WHOLE: Final = "whole"  # a number of two digits or three that takes nothing after it
TEN: Final = "ten"  # takes a digit after it: forty one
HUNDRED: Final = "hundred"  # takes a digit before it
HUNDREDS: Final = "hundreds"  # two hundred in one word, takes a number below hundred after it
THOUSAND: Final = "thousand"
REPEAT: Final = "repeat"  # double seven

DIGIT_WORDS: Final[dict[str, tuple[str, ...]]] = {  # zero to nine
    "English": ("zero oh nought naught nil", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    "German": ("null", "eins ein", "zwei zwo", "drei", "vier", "fünf fuenf", "sechs", "sieben", "acht", "neun"),
    "French": ("zéro", "un une", "deux", "trois", "quatre", "cinq", "six", "sept", "huit", "neuf"),
    "Spanish": ("cero", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve"),
    "Italian": ("zero", "uno", "due", "tre", "quattro", "cinque", "sei", "sette", "otto", "nove"),
    "Dutch": ("nul", "een één", "twee", "drie", "vier", "vijf", "zes", "zeven", "acht", "negen"),
    "Polish": ("zero", "jeden", "dwa", "trzy", "cztery", "pięć", "sześć", "siedem", "osiem", "dziewięć"),
    "Russian": ("ноль нуль", "один", "два", "три", "четыре", "пять", "шесть", "семь", "восемь", "девять"),
    "Swedish": ("noll", "ett", "två", "tre", "fyra", "fem", "sex", "sju", "åtta", "nio"),
    "Danish, Norwegian": ("nul null", "en én", "to", "tre", "fire", "fem", "seks", "syv sju", "otte åtte", "ni"),
    "Portuguese": ("zero", "um", "dois", "três", "quatro", "cinco", "seis", "sete", "oito", "nove"),
    "Czech": ("nula", "jedna", "dva", "tři", "čtyři", "pět", "šest", "sedm", "osm", "devět"),
}
TEENS: Final[dict[str, str]] = {  # ten to nineteen
    "English": "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen",
    "German": "zehn elf zwölf dreizehn vierzehn fünfzehn sechzehn siebzehn achtzehn neunzehn",
    "French": "dix onze douze treize quatorze quinze seize dix-sept dix-huit dix-neuf",
    "Spanish": "diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve",
    "Italian": "dieci undici dodici tredici quattordici quindici sedici diciassette diciotto diciannove",
    "Dutch": "tien elf twaalf dertien veertien vijftien zestien zeventien achttien negentien",
    "Polish": "dziesięć jedenaście dwanaście trzynaście czternaście piętnaście szesnaście siedemnaście osiemnaście "
    "dziewiętnaście",
    "Russian": "десять одиннадцать двенадцать тринадцать четырнадцать пятнадцать шестнадцать семнадцать восемнадцать "
    "девятнадцать",
    "Swedish": "tio elva tolv tretton fjorton femton sexton sjutton arton nitton",
    "Portuguese": "dez onze doze treze catorze quinze dezesseis dezessete dezoito dezenove",
    "Czech": "deset jedenáct dvanáct třináct čtrnáct patnáct šestnáct sedmnáct osmnáct devatenáct",
}
TENS: Final[dict[str, str]] = {  # twenty to ninety; '-' where a language has no word of its own
    "English": "twenty thirty forty fifty sixty seventy eighty ninety",
    "German": "zwanzig dreißig vierzig fünfzig sechzig siebzig achtzig neunzig",
    "French": "vingt trente quarante cinquante soixante septante octante nonante",
    "Spanish": "veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa",
    "Italian": "venti trenta quaranta cinquanta sessanta settanta ottanta novanta",
    "Dutch": "twintig dertig veertig vijftig zestig zeventig tachtig negentig",
    "Polish": "dwadzieścia trzydzieści czterdzieści pięćdziesiąt sześćdziesiąt siedemdziesiąt osiemdziesiąt "
    "dziewięćdziesiąt",
    "Russian": "двадцать тридцать сорок пятьдесят шестьдесят семьдесят восемьдесят девяносто",
    "Swedish": "tjugo trettio fyrtio femtio sextio sjuttio åttio nittio",
    "Portuguese": "vinte trinta quarenta cinquenta sessenta setenta oitenta noventa",
    "Czech": "dvacet třicet čtyřicet padesát šedesát sedmdesát osmdesát devadesát",
}
HUNDRED_WORDS: Final[dict[str, str]] = {
    "English": "hundred", "German": "hundert", "French": "cent cents", "Dutch": "honderd", "Swedish": "hundra",
    "Italian": "cento",
}  # fmt: skip
HUNDREDS_WORDS: Final[dict[str, str]] = {  # one hundred to nine hundred, alternatives after a slash
    "Spanish": "cien/ciento doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos "
    "novecientos",
    "Polish": "sto dwieście trzysta czterysta pięćset sześćset siedemset osiemset dziewięćset",
    "Russian": "сто двести триста четыреста пятьсот шестьсот семьсот восемьсот девятьсот",
    "Portuguese": "cem/cento duzentos trezentos quatrocentos quinhentos seiscentos setecentos oitocentos novecentos",
    "Czech": "sto dvěstě třista čtyřista pětset šestset sedmset osmset devětset",
}
THOUSAND_WORDS: Final[dict[str, str]] = {
    "English": "thousand", "German": "tausend", "French": "mille", "Spanish": "mil", "Italian": "mila mille",
    "Dutch": "duizend", "Polish": "tysiące tysięcy tysiąc", "Russian": "тысяч тысячи тысяча", "Swedish": "tusen",
    "Portuguese": "mil", "Czech": "tisíc tisíce",
}  # fmt: skip
JOINERS: Final[dict[str, str]] = {  # inside one number: two hundred and four, treinta y uno
    "English": "and", "German": "und", "French": "et", "Spanish": "y", "Portuguese": "e", "Dutch": "en",
    "Swedish": "och",
}  # fmt: skip
REPEATS: Final = {  # in any language
    "double": 2, "triple": 3, "treble": 3, "doppel": 2, "doppelt": 2, "doppelte": 2, "dreimal": 3, "zweimal": 2,
    "doble": 2, "doppio": 2, "doppia": 2, "triplo": 3, "dubbel": 2, "dubbele": 2, "dubbla": 2, "podwójne": 2,
    "podwójna": 2, "dwukrotnie": 2, "дважды": 2, "двойная": 2, "двойка": 1, "трижды": 3, "duplo": 2, "trippel": 3,
}  # fmt: skip
LETTER_NAMES: Final[dict[str, str]] = {  # in English, by radio, and German 'ka'
    "alpha": "A", "bee": "B", "bravo": "B", "cee": "C", "charlie": "C", "dee": "D", "delta": "D", "echo": "E",
    "ef": "F",
    "eff": "F", "foxtrot": "F", "gee": "G", "golf": "G", "aitch": "H", "haitch": "H", "hotel": "H", "jay": "J",
    "juliet": "J", "kay": "K", "ka": "K", "kah": "K", "kilo": "K", "el": "L", "ell": "L", "lima": "L", "em": "M",
    "mike": "M", "en": "N", "november": "N", "oscar": "O", "pee": "P", "papa": "P", "cue": "Q", "kew": "Q",
    "quebec": "Q", "ar": "R", "romeo": "R", "ess": "S", "sierra": "S", "tee": "T", "tango": "T", "uniform": "U",
    "vee": "V", "victor": "V", "double-u": "W", "whiskey": "W", "ex": "X", "xray": "X", "wye": "Y", "yankee": "Y",
    "zed": "Z", "zee": "Z", "zulu": "Z",
}  # fmt: skip
ONLY_ENGLISH: Final = frozenset("ar el em en ef ess ex tee".split())
"""Names of letters that are words in the other languages."""
ONLY_LETTERS: Final = frozenset("kay aitch haitch vee zed zee kew eff wye kah".split())
"""Names of letters that are nothing else, even before written digits."""
SPELLING: Final[dict[str, str]] = {  # names by which people spell; the first letter counts (common practice, no source)
    "German": "anton berta cäsar dora emil friedrich gustav heinrich ida julius kaufmann karl konrad ludwig martha "
    "nordpol nathan otto paula quelle richard samuel siegfried theodor ulrich viktor wilhelm xanthippe ypsilon "
    "zacharias",
    "French": "anatole berthe célestin désiré eugène françois gaston henri irma joseph kléber louis marcel nicolas "
    "pierre quintal raoul suzanne thérèse ursule william xavier yvonne zoé",
    "Italian": "ancona bologna como domodossola empoli firenze genova imola kursaal livorno milano napoli otranto "
    "padova quarto roma savona torino udine venezia washington yacht zara",
    "Dutch": "bernard cornelis dirk eduard ferdinand gerard hendrik izaak jan karel lodewijk maria nico pieter "
    "rudolf "
    "simon teunis utrecht willem zaandam",
    "Swedish": "adam bertil caesar david erik filip helge ivar johan kalle ludvig martin niklas olof petter qvintus "
    "sigurd tore urban xerxes yngve",
    "Polish": "barbara celina dorota ewa franciszek grażyna henryk irena jadwiga karol leon natalia olga paweł roman "
    "stanisław tadeusz urszula wanda zygmunt",
    "Russian": "анна борис константин михаил николай ольга роман татьяна елена харитон василий",
}

Meaning = tuple[str, int]


def _words_of(language: str) -> Iterator[tuple[str, Meaning]]:
    units = [words.split() for words in DIGIT_WORDS[language]]
    for digit, words in enumerate(units):
        yield from ((word, (UNIT, digit)) for word in words)
    teens = TEENS.get(language, "").split()
    tens = TENS.get(language, "").split()
    yield from ((word, (WHOLE, 10 + place)) for place, word in enumerate(teens))
    yield from ((word, (TEN, 20 + 10 * place)) for place, word in enumerate(tens))
    below = dict(_in_one_word(language, [words[-1] for words in units], tens))
    yield from ((word, (WHOLE, value)) for word, value in below.items())
    yield from _hundreds_in_one_word(language, units, teens, tens, below)
    for word in HUNDRED_WORDS.get(language, "").split():
        yield word, (HUNDRED, 100)
    for place, forms in enumerate(HUNDREDS_WORDS.get(language, "").split()):
        yield from ((word, (HUNDREDS, 100 + 100 * place)) for word in forms.split("/"))
    for word in THOUSAND_WORDS.get(language, "").split():
        yield word, (THOUSAND, 1000)


def _in_one_word(language: str, units: list[str], tens: list[str]) -> Iterator[tuple[str, int]]:
    """Numbers from 21 to 99 where a language writes them together: vierundzwanzig, trentuno."""
    for place, ten in enumerate(tens):
        for digit in range(1, 10):
            value, unit = 20 + 10 * place + digit, units[digit]
            if language == "German":
                for form in {"ein" if digit == 1 else unit, DIGIT_WORDS["German"][digit].split()[0].removesuffix("s")}:
                    yield f"{form}und{ten}", value
                    yield f"{DIGIT_WORDS['German'][digit].split()[0]}und{ten}", value
            elif language == "Dutch":
                yield f"{'een' if digit == 1 else unit}en{ten}", value
            elif language == "Italian":
                yield (ten[:-1] if digit in (1, 8) else ten) + unit, value
            elif language == "Swedish":
                yield ten + unit, value
            elif language == "Spanish" and place == 0:
                yield "veinti" + unit, value


def _hundreds_in_one_word(
    language: str, units: list[list[str]], teens: list[str], tens: list[str], below: dict[str, int]
) -> Iterator[tuple[str, Meaning]]:
    if language not in ("German", "Dutch", "Italian", "Swedish"):
        return
    hundred = HUNDRED_WORDS[language]
    rests = {"": 0, **below, **{word: 10 + place for place, word in enumerate(teens)}}
    rests |= {word: 20 + 10 * place for place, word in enumerate(tens)}
    rests |= {word: digit for digit in range(1, 10) for word in units[digit]}
    for digit in range(1, 10):
        heads = {unit + hundred for unit in units[digit]} | ({hundred, "ein" + hundred} if digit == 1 else set())
        for head in heads:
            for rest, value in rests.items():
                if rest:
                    yield head + rest, (WHOLE, 100 * digit + value)
                elif head != hundred:
                    yield head, (HUNDREDS, 100 * digit)


def _meanings() -> dict[str, dict[str, Meaning]]:
    table: dict[str, dict[str, Meaning]] = {}
    for language in DIGIT_WORDS:
        for word, meaning in _words_of(language):
            table.setdefault(fold_word(word), {}).setdefault(language, meaning)
    return table


AS_WRITTEN: Final = frozenset(
    form for language in DIGIT_WORDS for word, _ in _words_of(language) for form in (word, fold_word(word))
)
"""Every number word as people write it, and folded."""
MEANINGS: Final = _meanings()
"""Folded word -> language -> what it means there."""
JOINING: Final = {language: frozenset(map(fold_word, words.split())) for language, words in JOINERS.items()}
SPELLED: Final = {fold_word(name): fold_word(name)[0].upper() for names in SPELLING.values() for name in names.split()}
