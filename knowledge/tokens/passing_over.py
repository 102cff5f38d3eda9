"""Why a piece that looks like a number is no serial: an ordered table of small rules, the first that fits wins.

`FIRM` rules hold whatever words stand before the piece; `SOFT` rules give way to a word that introduces a serial. Every
rule takes a `Spot` and returns where its piece ends, or 0. A rule reads a bounded stretch of the text.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from knowledge.names import Names
from knowledge.tokens import cues
from knowledge.tokens.context import Lead, about_a_machine
from knowledge.tokens.fold import fold_word


@dataclass(frozen=True, slots=True)
class Spot:
    """A place with a digit, in folded text (`plain`; `low` the same in lower case).

    `start` and `end` are those of the unbroken piece, `digit` is its first digit, and `begin` its start with a letter
    that stands apart (`K 204117`). `lead` is what the words before say. Nothing before `floor` belongs to the piece.
    """

    plain: str
    low: str
    begin: int
    start: int
    digit: int
    end: int
    lead: Lead
    names: Names
    floor: int

    def typed(self) -> str:
        return self.plain[self.start : self.end]

    def before(self, characters: int) -> str:
        return self.low[max(self.digit - characters, self.floor) : self.digit]


Rule = Callable[[Spot], int]


def _at_digit(pattern: str, flags: int = 0) -> Rule:
    """A rule that fits where `pattern` matches in lower case from the first digit on."""
    compiled = re.compile(pattern, flags)

    def rule(spot: Spot) -> int:
        match = compiled.match(spot.low, spot.digit)
        return match.end() if match else 0

    return rule


def _words(text: str) -> str:
    return "(?:" + "|".join(sorted({re.escape(fold_word(w)) for w in text.split()}, key=lambda w: (-len(w), w))) + ")"


# --- addresses -------------------------------------------------------------------------------------------------------

_SPACE: Final = re.compile(r"[\s<>\"]|\]\(")
_ADDRESS_WORD: Final = 200
_MAIL: Final = re.compile(r"[\w.+-]+@[\w-]+\.[\w.]+")
_WEB: Final = re.compile(r"https?:|www\.|ftp:|[a-z][a-z0-9-]*\.(?:com|org|net|info|co|uk|de|fr|nl|it|es|pl|ru|se|eu|example)\b")
_FILE: Final = re.compile(
    r"[\w()-]*\.(?:jpe?g|png|gif|heic|pdf|docx?|xlsx?|csv|ods|odt|txt|zip|mp[34]|mov|avi|tiff?|webp|bmp|html?)\b"
    r"|(?:img|dsc|dscn|dscf|pxl|dcim|scan|vid|mvi|wa|screenshot|photo|image|p)[-_]\d"
)


def _word_around(spot: Spot) -> tuple[str, int]:
    """Return the word between white space (or brackets of a link) around the piece, and where it ends."""
    floor = max(spot.start - _ADDRESS_WORD, spot.floor)
    before = spot.low[floor : spot.start]
    begin = floor + max((match.end() for match in _SPACE.finditer(before)), default=0)
    match = _SPACE.search(spot.low, spot.end, spot.end + _ADDRESS_WORD)
    end = match.start() if match else min(len(spot.low), spot.end + _ADDRESS_WORD)
    return spot.low[begin:end], end


def mail_address(spot: Spot) -> int:
    word, end = _word_around(spot)
    return end if "@" in word and _MAIL.search(word) else 0


def web_address(spot: Spot) -> int:
    word, end = _word_around(spot)
    return end if "." in word and _WEB.search(word.lstrip("<(\"'[")) else 0


def handle_or_tag(spot: Spot) -> int:
    word, end = _word_around(spot)
    word = word.lstrip("(\"'[*_")
    if word[:1] == "@":
        return end
    tag = re.match(r"#(?:[^\W\d_]{2}\w*|\w{0,12}\d[^\W\d_]{3,})", word)
    return end if tag and not re.match(r"#[a-z]{1,3}\d{4,8}$", word) else 0


def file_name(spot: Spot) -> int:
    word, end = _word_around(spot)
    return end if _FILE.match(word.lstrip("(\"'[*_./")) else 0


# --- telephones ------------------------------------------------------------------------------------------------------

_INTERNATIONAL: Final = re.compile(r"[ (]{0,2}\d(?:[ .\-/()]{0,3}\d){3,17}(?:(?: ?(?:ext|x|dw)\.? ?)\d{1,6})?")
_NATIONAL: Final = re.compile(
    r"\(?0\d{1,5}\)?[ \-/.]{0,3}\d{2,8}(?:[ .\-/]\d{2,8}){0,4}(?![\w])"
    r"|\d{3}[-. ]\d{3}[-. ]\d{4}(?!\w)|\d{3}\)[-. ]?\d{3}[-. ]\d{4}(?!\w)|1-\d{3}-\d{3}-\d{4}(?!\w)"
    r"|[78][ -]?\(?\d{3}\)?[ -]\d{3}[ -]\d{2}[ -]?\d{2}(?!\w)|\d{3}[ -]\d{2}[ -]\d{2}[ -]\d{2}(?!\w)"
)


def telephone_abroad(spot: Spot) -> int:
    before = spot.before(4).rstrip(" (")
    if not (before.endswith("+") and "\n" not in spot.before(3)):
        return 0
    match = _INTERNATIONAL.match(spot.low, spot.digit)
    return match.end() if match else 0


_DOUBLE_ZERO: Final = re.compile(r"00[ -]?[1-9]\d{0,2}[ \-/()]{1,3}\d(?:[ .\-/()]{0,3}\d){5,13}(?!\w)|00[1-9]\d{9,13}(?!\w)")


def telephone_with_double_zero(spot: Spot) -> int:
    match = _DOUBLE_ZERO.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


_GROUPS: Final = re.compile(r"\d{1,4}(?:[ \-.]{1,3}\(?\d{1,5}\)?){1,5}[ \-.]{1,2}\d{2,7}(?!\w)|\d{3,4}[ -]\d{5,7}(?!\w)")
_AREA: Final = re.compile(r"\d[\d \-]{1,5}\)[ \-]?\d(?:[ \-]?\d){4,8}(?!\w)")
_YEAR_FIRST: Final = re.compile(r"(?:1[5-9]|20)\d\d[ )-]")


def telephone_by_grouping(spot: Spot) -> int:
    """A run of nine digits or more in short groups, or an area code in brackets."""
    if spot.begin != spot.digit or (spot.lead.kind == cues.SERIAL and spot.lead.near):
        return 0
    bracketed = spot.plain[spot.digit - 1 : spot.digit] == "("
    patterns = [_NATIONAL] if _YEAR_FIRST.match(spot.low, spot.digit) else [_NATIONAL, _AREA if bracketed else _GROUPS]
    ends = (match.end() for pattern in patterns if (match := pattern.match(spot.low, spot.digit)) and _has_as_many_digits(match))
    return max(ends, default=0)


def _has_as_many_digits(match: re.Match[str]) -> bool:
    return 9 <= sum(c.isdigit() for c in match.group()) <= 13


# --- dates, times, measures, money -----------------------------------------------------------------------------------

_MONTHS: Final = _words(
    "january february march april may june july august september october november december jan feb mar apr jun jul aug "
    "sep sept oct nov dec januar februar märz mai juni juli oktober dezember jänner mrz okt dez janvier février mars "
    "avril juin juillet août septembre octobre novembre décembre janv févr juil déc enero febrero marzo abril mayo junio "
    "julio agosto septiembre octubre noviembre diciembre gennaio febbraio aprile maggio giugno luglio settembre ottobre "
    "dicembre januari februari maart mei augustus december stycznia lutego marca kwietnia maja czerwca lipca sierpnia "
    "września października listopada grudnia января февраля марта апреля мая июня июля августа сентября октября ноября "
    "декабря augusti januari februari maj janeiro fevereiro março junho julho setembro outubro novembro dezembro ledna "
    "února března dubna května června července srpna září října listopadu prosince"
)
_DATE: Final = re.compile(
    rf"\d{{1,2}}(?:st|nd|rd|th|er|\.|o)?(?: of| de| di)? ?{_MONTHS}\b\.?,?(?: (?:de |del )?(?:(?:1[5-9]|20)\d\d|'\d\d)\b)?"
    r"|(?:0?[1-9]|[12]\d|3[01])([./-])(?:0?[1-9]|1[0-2])\1(?:1[5-9]|20)\d\d(?![\w])"
    r"|(?:0?[1-9]|1[0-2])([./-])(?:0?[1-9]|[12]\d|3[01])\2(?:1[5-9]|20)\d\d(?![\w])"
    r"|(?:0?[1-9]|[12]\d|3[01])\. ?(?:0?[1-9]|1[0-2])\. ?(?:1[5-9]|20)\d\d(?![\w])"
    r"|(?:1[5-9]|20)\d\d([./-])(?:0?[1-9]|1[0-2])\3(?:0?[1-9]|[12]\d|3[01])(?![\d])(?:t\d\d:\d\d\S{0,12})?"
)
_SHORT_DATE: Final = re.compile(
    r"(?:0?[1-9]|[12]\d|3[01])([./-])(?:0?[1-9]|1[0-2])\1\d\d(?![\w])|(?:0?[1-9]|1[0-2])/(?:0?[1-9]|[12]\d|3[01])/\d\d(?![\w])"
    r"|(?:0?[1-9]|[12]\d|3[01])\.(?:0?[1-9]|1[0-2])\.(?!\w)|(?:0?[1-9]|1[0-2])/(?:18|19|20)\d\d(?!\w)"
    r"|(?:19|20)\d\d(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])(?![\w?*]|[ .-]\d)"
)
_MONTH_BEFORE: Final = re.compile(rf"(?<![^\W_]){_MONTHS}\.? ?(?:the )?$")
_AFTER_MONTH: Final = re.compile(r"\d{1,2}(?:st|nd|rd|th)?(?:,? (?:1[5-9]|20)\d\d)?(?![\w.,]{0,9}\d)|(?:1[5-9]|20)\d\d\b|\d{1,2}(?!\d)")
_YEAR: Final = re.compile(
    r"(?:1[5-9]|20)\d\d(?: ?[-/] ?(?:(?:1[5-9]|20)\d\d|\d\d)(?!\d))?(?:'?s|er|ern|-?talet|-?tal|-?х|-?x|-?ych|-?e|-?mi)?(?![\w*_?#]{0,9}\d)(?![^\W_])"
    r"|\d0(?:'?s|er|ern|-?talet|-ych|-х|-x)(?![^\W_])"
)
_YEAR_LEAD: Final = frozenset(
    map(
        fold_word,
        "in since around about circa ca c from by before after until till late early mid between year um seit von vor nach "
        "jahr jahre anno vers en depuis avant desde hacia año del dal nel dopo rond sinds jaar voor uit około rok roku "
        "okolo лет год года году до после около år från kring omkring baujahr bouwjaar dated made built the to and or "
        "born geboren née né copyright ©  l'année années annee".split(),
    )
)
_TIME: Final = re.compile(
    r"(?:[01]?\d|2[0-4])(?::[0-5]\d){1,2}(?!\d)(?: ?[ap]\.?m\b\.?)?|(?:[01]?\d|2[0-4])(?:[.:]\d\d)? ?(?:uhr|o'clock|heures?|"
    r"[ap]\.?m\b\.?|noon)(?![^\W_])|(?:[01]?\d|2[0-3])[0-5]\d ?(?:[ap]m|hrs|hours)(?!\w)|(?:[01]?\d|2[0-4]) ?h ?[0-5]\d(?!\w)|(?:[01]?\d|2[0-4]) ?h(?![\w])"
)
_CLOCK: Final = re.compile(r"(?:[01]?\d|2[0-3])\.[0-5]\d(?![\w.,]{0,9}\d)(?!\w)")
_CLOCK_LEAD: Final = frozenset(map(fold_word, "at um ab om kl klo alle dalle ore à a las o od в с till från from until bis tot fino by uhr -".split()))
_UNITS: Final = _words(
    "volt volts amp amps ampere amperes watt watts kw hz mhz rpm mm cm km inch inches zoll ft feet foot yd yards yard "
    "gr gram grams gramm kg kilo kilos lb lbs oz ounce ounces stone litre litres liter liters ml cl "
    "°c °f ° % percent prozent procent spi tpi hp mins minute minutes minuten sec secs seconds sekunden "
    "hour hours hrs stunden heures horas uur godzin часов day days tage jours días giorni dagen dni дней week weeks "
    "wochen semaines weken tygodni недель month months monate mois meses mesi maanden miesięcy месяцев year years yr yrs "
    "jahre jahren ans años anni jaar jaren lat лет let anos вольт ватт кг см мм вт гц px mb gb kb mp "
    "mbps μf uf nf ohm ohms u/min t/min obr/min tr/min об/мин mw va kva amperios voltios vatios woltów watów degrees "
    "grad degrés miles mile metres metre meter meters metri metros meilen denier dtex tex g/m2 spm minut minuta minuti minuter timmar "
    "dagar veckor månader dpi wat"
)
_AMOUNT_OF: Final = r"\d(?:[\d.,]{0,12}\d)?"
_QUANTITY: Final = rf"{_AMOUNT_OF}(?: ?(?:x|×|/|–|-|to|bis) ?{_AMOUNT_OF}){{0,2}}(?: ?½)?"
_MEASURE: Final = re.compile(
    rf"{_QUANTITY} ?-?(?:{_UNITS}(?![^\W_])|[%°″′]|\"(?!\w))"
    r"|\d{1,4}(?:[.,]\d+)? ?[x×] ?\d{1,4}(?:[.,]\d+)?(?:\s?(?:mm|cm|m|in|inch|px)\b)?(?!\w)"
)
_BRIEF_MEASURE: Final = re.compile(
    r"\d{1,4}(?:[.,]\d+)?(?:[/-]\d{1,4})? ?-?(?:[VAWvaw]|Hz|m|l|g|h|K|C|F|N|pt|ps|PS)(?![^\W_])(?!')|(?:110|127|220|230|240) ?B(?![^\W_])|\d{1,3} ?in(?= |[,.;)]|$)(?! [a-z])"
)
_FRACTION: Final = re.compile(r"(?:\d{1,2} )?\d{1,2}/\d{1,2}(?![\w/])(?: ?\")?|\d{2,3}/\d{2}(?![\w/])")
_CURRENCY: Final = _words(
    "£ $ € ¥ ₽ ₤ zł eur euro euros gbp usd chf sek nok dkk pln rub czk quid pounds pound bucks dollars dollar cents pence "
    "kr kronor kroner krona kronen mark dm reichsmark rm franken francs franc pesetas lire zloty złotych złote руб рублей "
    "рубля р korun kč korona eurot guineas shillings gulden guilders grand "
)
_PRICE: Final = re.compile(rf"\d{{1,3}}(?:\.\d{{3}}){{1,3}},\d\d(?!\d)|\d{{1,3}}(?:,\d{{3}}){{1,3}}\.\d\d(?!\d)|\d[\d.,' ]{{0,12}}(?<=[\d.,]) ?(?:{_CURRENCY}(?![^\W_])|[,.]-{{1,2}}(?!\w))|\d{{1,6}}[,.]--?(?!\w)|\d{1,4}k(?!\w)|\d+/\d+d\b|\d+p\b")
_PRICE_BEFORE: Final = re.compile(r"(?:[£$€¥₽₤]|(?<![^\W_])(?:eur|euro|gbp|usd|chf|sek|nok|dkk|pln|fr|frs|dm|rm|rs|us\$|kr|zl|r))\.? ?-?$")
_AMOUNT: Final = re.compile(r"\d{1,3}(?:[ .,']\d{3}){1,4}(?:[.,]\d{1,2})?(?!\d)|\d+(?:[.,]\d{1,2})?(?!\d)|\d{1,12}")


def date(spot: Spot) -> int:
    match = _DATE.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


def day_of_a_month(spot: Spot) -> int:
    if not (spot.lead.words and _MONTH_BEFORE.search(spot.before(16))):
        return 0
    match = _AFTER_MONTH.match(spot.low, spot.digit)
    return match.end() if match else 0


def short_date(spot: Spot) -> int:
    match = _SHORT_DATE.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


def dated_year(spot: Spot) -> int:
    """'in 1912', 'c. 1912': a year whatever else is said."""
    words = [word for word in spot.lead.words[-3:] if word not in ("'", "(", ".", "~", "the", "den", "l", "de", "les")]
    return year(spot) if words and words[-1] in _YEAR_LEAD else 0


def year(spot: Spot) -> int:
    attached = spot.plain[spot.start : spot.digit].lower()
    if attached not in ("", "c", "ca", "_", "*", "**"):
        return 0
    match = _YEAR.match(spot.low, spot.digit)
    return match.end() if match else 0


def time(spot: Spot) -> int:
    match = _TIME.match(spot.low, spot.digit)
    if match is None and spot.lead.words and spot.lead.words[-1] in _CLOCK_LEAD:
        match = _CLOCK.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


def measure(spot: Spot) -> int:
    if spot.start != spot.digit:
        return 0
    match = _MEASURE.match(spot.low, spot.digit)
    return match.end() if match else 0


def brief_measure(spot: Spot) -> int:
    if spot.begin != spot.digit or (spot.lead.near and spot.lead.kind in (cues.SERIAL, cues.NUMBER)):
        return 0
    match = _BRIEF_MEASURE.match(spot.plain, spot.digit) or _FRACTION.match(spot.plain, spot.digit)
    return match.end() if match else 0


def price_with_sign(spot: Spot) -> int:
    if spot.start != spot.digit:
        return 0
    match = _PRICE.match(spot.low, spot.digit)
    if match is None and _PRICE_BEFORE.search(spot.before(8)):
        match = _AMOUNT.match(spot.low, spot.digit)
    return match.end() if match else 0


# --- counts ----------------------------------------------------------------------------------------------------------

_THINGS: Final = _words(
    "machines maschinen máquinas macchine maszyn maszyny машин машины maskiner symaskiner stitches "
    "stitch stiche stichen points puntadas punti steken ściegów стежков stygn digits digit ziffern stellen chiffres cifras "
    "cifre cijfers cyfr цифр siffror letters letter buchstaben lettres letras lettere characters zeichen people persons "
    "personen personnes personas persone osób человек personer members mitglieder membres visitors besucher visiteurs "
    "pieces stück stuck stueck pièces piezas pezzi stuks sztuk штук stycken st copies exemplare exemplaires examples others "
    "items parts teile drawers schubladen needles nadeln aiguilles bobbins spulen canettes messages replies posts "
    "nachrichten photos pictures fotos bilder times mal fois veces volte keer razy раз gånger numbers nummern numéros owners "
    "books pages seiten screws schrauben bolts holes wheels feet spools types models kinds ways steps blocks "
    "million millions thousand thousands hundred hundreds dozen tausend millionen mille tysięcy тысяч tusen "
    "units einheiten"
)
_THOUSANDS: Final = r"\d{1,3}(?:[ ,.']\d{3}){1,4}(?!\d)|\d{1,12}"
_COUNT_DIRECT: Final = re.compile(rf"(?:{_THOUSANDS})(?: (?:or|oder|ou|o|of|lub|или|eller|to|bis|a|-) \d{{1,4}})?(?: |-){_THINGS}(?![^\W_])|\d{{1,3}}x\b")
_PLURAL: Final = re.compile(r"(\d{1,3}(?:[ ,.']\d{3}){1,4}|\d{1,12}) [a-z]{3,}s(?![^\W_])")
_NO_PLURAL: Final = re.compile(
    r"[\d ,.']+ (?:is|was|has|does|says|looks|runs|needs|works|comes|goes|seems|appears|this|its|thanks|thus|perhaps|always|"
    r"means|gives|reads|starts|ends|makes|dates|belongs|falls|sits|stands|plus|das|was|aus|les|des|ses|mes|dans|sans|mais|"
    r"las|los|nous|vous|es|as|us|besides|yes|sounds|turns|fits|matches|matters|helps|shows|sews|tells|puts|suggests|"
    r"sometimes|perhaps|regards|cheers|greetings|kisses|across|serious|various|alias|circus|corresponds|exists|refers)\b"
)
_ROUGHLY: Final = frozenset(
    map(
        fold_word,
        "over nearly almost than least most total totalling made produced sold built mehr als plus de más oltre meer dan "
        "ponad более свыше fler än".split(),
    )
)
_ABOUT: Final = frozenset(
    map(
        fold_word,
        "about around approximately approx roughly some up fast circa rund etwa über environ presque casi unos quasi quase "
        "ongeveer bijna około prawie около почти ungefär nästan över cirka".split(),
    )
)
_ROUNDED: Final = re.compile(r"\d{1,3}(?:[ ,.']\d{3}){1,4}(?![\w?*#])|[1-9]\d{0,8}00(?![\w?*#])")
_ROUND: Final = re.compile(r"(?:\d{1,3}(?:[ ,.']\d{3}){1,4}|\d{1,12})(?![\w?*#]|[ .,\-/]\d)")


_OF_THEM: Final = re.compile(rf"(?:{_THOUSANDS})(?= (?:of|von|de|di|van|z|из|av) (?:them|those|these|ihnen|denen|ellas|loro|ze|nich|nux|dem)\b)")


def count_of_things(spot: Spot) -> int:
    if spot.start != spot.digit:
        return 0
    match = _COUNT_DIRECT.match(spot.low, spot.digit)
    return match.end() if match else 0


def count_by_words(spot: Spot) -> int:
    if spot.start != spot.digit:
        return 0
    match = _PLURAL.match(spot.low, spot.digit)
    if match and not _NO_PLURAL.match(spot.low, spot.digit):
        return match.end()
    match = _OF_THEM.match(spot.low, spot.digit)
    if match:
        return match.end()
    if spot.lead.words and spot.lead.words[-1] in _ROUGHLY and spot.lead.kind not in (cues.SERIAL, cues.NUMBER):
        match = _ROUND.match(spot.low, spot.digit)
        return match.end() if match and not match.group().startswith("0") else 0
    if spot.lead.words and spot.lead.words[-1] in _ABOUT and spot.lead.kind not in (cues.SERIAL, cues.NUMBER):
        match = _ROUNDED.match(spot.low, spot.digit)
        return match.end() if match else 0
    return 0


# --- names, places, papers -------------------------------------------------------------------------------------------

_POSTCODE: Final = re.compile(
    r"(?<![^\W_])(?:[A-Z]{1,2}\d[A-Z\d]? \d[A-Z]{2}|[A-Z]{1,2}\d{1,2}[A-Z]? ?\d[A-Z]{2}|[A-Z]\d[A-Z] ?\d[A-Z]\d|[DAFILSE]{1,2}-\d{4,5}(?= [A-Z]))(?![^\W_])"
)
_STATE: Final = re.compile(
    r"(?<=[a-z,] )(?:A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|PA|RI|S[CD]|T[NX]|UT|V[AT]|W[AIVY])"
    r" \d{5}(?:-\d{4})?(?![\w])"
)
_POSTCODE_DIGITS: Final = re.compile(
    r"\d{5}-\d{4}(?!\w)|\d{4} ?[A-Z]{2}(?= [A-Z][a-z])|\d{2}-\d{3}(?= [A-Z])|\d{3} \d{2}(?= [A-Z][a-z])|\d{5}(?= [A-Z][a-z]{2,}(?: ?[,.\n]|$))"
)
_PLATE: Final = re.compile(
    r"(?<![^\W_])(?:[A-Z]{2}\d{2} ?[A-Z]{3}|[A-Z]{2}-\d{3}-[A-Z]{2}|[A-Z]{1,3}-[A-Z]{1,2} ?\d{1,4}[EH]?|[A-Z]{1,3}-[A-Z]{1,2}-\d{1,4}|"
    r"[A-Z]{2}-\d{2}-[A-Z]{2}|[A-Z]\d{1,3} [A-Z]{3})(?![^\W_])"
)
_BANK: Final = re.compile(r"[A-Z]{2}\d{2}(?:(?: [A-Z0-9]{4}){3,7}(?: [A-Z0-9]{1,3})?|[A-Z0-9]{11,30})(?![^\W_])")
_LONG: Final = re.compile(r"\d(?:[ -]?\d){12,40}(?!\d)")
_ISBN: Final = re.compile(r"97[89][- ]?\d[\d -]{8,14}\d(?!\d)|\d-\d{3,5}-\d{3,5}-[\dx](?!\w)")
_IP: Final = re.compile(r"\d{1,3}\.\d{1,3}\.\d{1,3}\.\d{1,3}(?!\d)")
_NEEDLE: Final = re.compile(r"(?:130|135|134|15)/(?:705|[57])(?: ?h)?(?:-?[a-z]{1,3})?\b|15 ?x ?1\b|\d{2,3}/\d{2}(?= needle)")
_MODEL_LEAD: Final = frozenset(map(fold_word, "model models modell modelle modèle modelo modello модель type typ class klasse "
                                              "mark mk classe clase".split()))  # fmt: skip
_MODEL: Final = re.compile(r"(?:[A-Z]{1,3}[ -]?)?\d{1,4}(?:[-/]\d{1,3})?[A-Za-z]{0,2}(?!\w)")


def postcode(spot: Spot) -> int:
    match = _POSTCODE.match(spot.plain, spot.start) or _STATE.match(spot.plain, max(spot.digit - 3, 0))
    if match is None and spot.start == spot.digit:
        match = _POSTCODE_DIGITS.match(spot.plain, spot.digit)
        if match and len(match.group()) == 5 and not _names_a_town(spot):
            match = None
        if match is None and spot.end - spot.digit == 5 and _IN_A_TOWN.search(
            spot.plain[max(spot.digit - 30, spot.floor) : spot.digit]
        ):
            return spot.end
        if match is None and spot.before(4)[-4:].strip(" -") in ("d", "a", "ch", "nl", "f", "b", "pl", "s"):
            match = re.compile(r"\d{4,5}(?= [A-Z][a-z])").match(spot.plain, spot.digit)
    return match.end() if match else 0


_IN_A_TOWN: Final = re.compile(r"(?<![^\W_])(?:a|in|en|te|i|w|near|bei|aus|from|b) [A-Z][a-z]{2,20} $")


def _names_a_town(spot: Spot) -> bool:
    """Say whether the word after a five-digit number may be a town: no word of the trade, no maker."""
    match = _NEXT_WORD.match(spot.low, spot.end)
    word = match.group(1) if match else ""
    return not (about_a_machine(word) or cues.kind_of(word) or word in spot.names.makers or word in spot.names.models)


_NEXT_WORD: Final = re.compile(r" ([a-z]+)")


def plate(spot: Spot) -> int:
    match = _PLATE.match(spot.plain, spot.start)
    if match is None and spot.plain[max(spot.start - 1, 0)] in " -":
        begin = max(spot.floor, spot.start - 6)
        for place in range(begin, spot.start):
            match = _PLATE.match(spot.plain, place)
            if match and match.end() > spot.digit:
                return match.end()
        return 0
    return match.end() if match and match.end() > spot.digit else 0


def bank_or_card(spot: Spot) -> int:
    match = _BANK.match(spot.plain, spot.start) or _LONG.match(spot.plain, spot.digit)
    if match and spot.lead.kind == cues.SERIAL and " " not in match.group():
        return 0
    return match.end() if match else 0


def book_number(spot: Spot) -> int:
    match = _ISBN.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


_POSTAL_ITEM: Final = re.compile(r"[A-Z]{2} ?\d{3} ?\d{3} ?\d{3} ?[A-Z]{2}(?![^\W_])|0034\d{16}(?!\d)")
_STANDARD: Final = re.compile(r"(?:DIN|ISO|EN|IEC|BS|VDE|UL|ANSI|RAL|GOST|NF|RFC|SAE)(?:[ /-]+(?:EN|ISO|IEC))*[ -]?\d{2,6}(?:[-:.]\d+)*(?![^\W_])")
_COORDINATES: Final = re.compile(r"\d{1,3}\.\d{3,9}°?,? ?(?:[ns],? ?)?-?\d{1,3}\.\d{3,9}(?!\w)|0[.,]\d{1,9}(?!\w)")
_COLOUR: Final = re.compile(r"hex|colou?r|farb|couleur|rgb|kleur|kolor|tsvet|farg")
_CATALOGUED: Final = re.compile(r"10\.\d{4,9}/\S{1,60}|(?:1[89]|20)\d\d\.\d{1,4}\.\d{1,4}(?!\w)|\d{2,7}-\d{2}-\d(?![\w-])")


def postal_item(spot: Spot) -> int:
    """The international number of a letter or parcel: two letters, nine digits, two letters of the country."""
    match = _POSTAL_ITEM.match(spot.plain, spot.begin)
    return match.end() if match else 0


def standard(spot: Spot) -> int:
    """The number of a standard or of a colour on a standard card."""
    for place in range(max(spot.digit - 12, spot.floor), spot.digit):
        match = _STANDARD.match(spot.plain, place)
        if match and match.end() > spot.digit and not spot.plain[place - 1 : place].isalnum():
            return match.end()
    return 0


def place_on_earth(spot: Spot) -> int:
    match = _COORDINATES.match(spot.low, spot.digit)
    return match.end() if match and spot.begin == spot.digit else 0


def colour(spot: Spot) -> int:
    """A colour of a screen, '#204117', where colours are spoken of."""
    typed = spot.low[spot.start : spot.end].lstrip("#")
    signed = spot.low[max(spot.digit - 1, 0) : spot.digit] == "#" or spot.typed().startswith("#")
    around = spot.low[max(spot.start - 60, 0) : spot.end + 60]
    return spot.end if signed and re.fullmatch(r"[0-9a-f]{6}", typed) and _COLOUR.search(around) else 0


def catalogued(spot: Spot) -> int:
    """The number of a paper (10.1000/182), of a museum (1985.204.117) or of a substance (64742-47-8)."""
    match = _CATALOGUED.match(spot.low, spot.digit)
    return match.end() if match and spot.begin == spot.digit else 0


def computer_address(spot: Spot) -> int:
    match = _IP.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


def needle_system(spot: Spot) -> int:
    match = _NEEDLE.match(spot.low, spot.digit)
    return match.end() if match and spot.start == spot.digit else 0


def known_model(spot: Spot) -> int:
    """A name or alias from the knowledge base: up to three words before the piece and one after it."""
    models = spot.names.models
    if not models:
        return 0
    match = _PIECE.match(spot.low, spot.start)
    piece = match.group() if match else ""
    ends = {spot.start + len(piece): piece}
    head = re.compile(r"\w+").match(spot.low, spot.start)
    if head and head.end() > spot.digit:
        ends[head.end()] = head.group()
    tail = re.compile(r" \w+").match(spot.low, spot.start + len(piece))
    if tail:
        ends[tail.end()] = piece + tail.group()
    words = [word for word in spot.lead.words[-3:]]
    best = 0
    for end, name in ends.items():
        for before in range(min(3, len(words)), -1, -1):
            phrase = " ".join([*words[len(words) - before :], name])
            if phrase in models and end > spot.digit and (before or len(name) > 1):
                best = max(best, end)
    return best


_PIECE: Final = re.compile(r"\w+(?:[-/.]\w+){0,3}")


def called_a_model(spot: Spot) -> int:
    words = [word for word in spot.lead.words[-3:] if kind_is_plain(word)]
    if not words or words[-1] not in _MODEL_LEAD:
        return 0
    match = _MODEL.match(spot.plain, spot.start)
    return match.end() if match and match.end() > spot.digit else 0


def kind_is_plain(word: str) -> bool:
    """Say whether a word is more than a number word or punctuation between 'model' and its number."""
    return cues.kind_of(word) not in (cues.NUMBER, cues.FILLER)


_ORDINAL: Final = re.compile(r"\d{1,4}(?:st|nd|rd|th|er|eme|ere|e|te|ten|ter|a|o)(?![^\W_])")
_DECIMAL: Final = re.compile(r"\d{1,3}[.,]\d{1,2}(?![\w.,]{0,9}\d)(?!\w)|\d{1,2} ?[-:] ?\d{1,2}(?![\w-]{0,9}\d)(?!\w)")
_STREET: Final = re.compile(
    r"\d{1,4}[a-z]?,? (?:[a-z']+ ){1,3}(?:street|st|road|rd|lane|avenue|ave|drive|close|court|way|place|terrace|square)(?![^\W_])"
)
_STREET_BEFORE: Final = re.compile(r"(?:stra[st]?se|str|straat|gatan|gata|gade|weg|laan|allee|platz|plein)$")
_PARTS: Final = _words("needles needle bobbins bobbin shuttle shuttles foot thread cotton nadeln nadel spulen garn aiguilles canettes "
                       "agujas aghi naalden igły иглы nålar belt bulb")  # fmt: skip
_NUMBERED_PART: Final = re.compile(rf"\d{{1,6}}[a-z]? (?:[a-z]+ )?{_PARTS}(?![^\W_])")


def ordinal(spot: Spot) -> int:
    match = _ORDINAL.match(spot.low, spot.digit)
    return match.end() if match and spot.begin == spot.digit else 0


def decimal_or_score(spot: Spot) -> int:
    match = _DECIMAL.match(spot.low, spot.digit)
    return match.end() if match and spot.begin == spot.digit else 0


def street(spot: Spot) -> int:
    if spot.begin != spot.digit or spot.end - spot.digit > 5:
        return 0
    words = spot.lead.words
    match = _STREET.match(spot.low, spot.digit)
    return match.end() if match else spot.end if words and _STREET_BEFORE.search(words[-1]) else 0


def numbered_part(spot: Spot) -> int:
    if spot.begin != spot.digit or spot.lead.kind != cues.NUMBER or not spot.lead.near:
        return 0
    match = _NUMBERED_PART.match(spot.low, spot.digit)
    return match.end() if match else 0


_VERSION: Final = re.compile(r"v?\d{1,3}\.\d{1,3}\.\d{1,3}(?:\.\d+)?(?!\w)")


def version(spot: Spot) -> int:
    match = _VERSION.match(spot.low, spot.digit)
    digits = sum(c.isdigit() for c in match.group()) if match else 9
    return match.end() if match and digits < 6 else 0


Row = tuple[str, Rule]

FIRM: Final[tuple[Row, ...]] = (
    ("mail-address", mail_address),
    ("web-address", web_address),
    ("reference", handle_or_tag),
    ("reference", file_name),
    ("telephone", telephone_abroad),
    ("telephone", telephone_with_double_zero),
    ("price", price_with_sign),
    ("date", date),
    ("date", day_of_a_month),
    ("time", time),
    ("year", dated_year),
    ("model-name", known_model),
    ("model-name", called_a_model),
    ("part-number", needle_system),
    ("part-number", numbered_part),
    ("measure", measure),
    ("measure", brief_measure),
    ("count", count_of_things),
    ("order-number", postal_item),
    ("reference", book_number),
    ("reference", standard),
    ("reference", place_on_earth),
    ("reference", catalogued),
    ("reference", colour),
    ("telephone", telephone_by_grouping),
    ("reference", bank_or_card),
    ("reference", computer_address),
)

SOFT: Final[tuple[Row, ...]] = (
    ("reference", plate),
    ("date", short_date),
    ("year", year),
    ("postcode", postcode),
    ("reference", street),
    ("reference", version),
    ("count", count_by_words),
    ("count", ordinal),
    ("reference", decimal_or_score),
)
