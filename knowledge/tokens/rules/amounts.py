"""Measures, prices and counts."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens.rules.spot import Spot, any_of, attached, bare, folded_set

# --- measures --------------------------------------------------------------------------------------------------------

_UNITS: Final = any_of(
    "volt volts amp amps ampere amperes watt watts kw hz mhz rpm mm cm km inch inches zoll ft feet foot yd "
    "yards yard "
    "gr gram grams gramm kg kilo kilos lb lbs oz ounce ounces stone litre litres liter liters ml cl "
    "°c °f ° % percent prozent procent spi tpi hp mins minute minutes minuten sec secs seconds sekunden "
    "hour hours hrs stunden heures horas uur godzin часов day days tage jours días giorni dagen dni дней week weeks "
    "wochen semaines weken tygodni недель month months monate mois meses mesi maanden miesięcy месяцев year years yr "
    "yrs "
    "jahre jahren ans años anni jaar jaren lat лет let anos вольт ватт кг см мм вт гц px mb gb kb mp "
    "mbps μf uf nf ohm ohms u/min t/min obr/min tr/min об/мин mw va kva amperios voltios vatios woltów watów degrees "
    "grad degrés miles mile metres metre meter meters metri metros meilen denier dtex tex g/m2 spm minut minuta "
    "minuti minuter timmar "
    "dagar veckor månader dpi wat litros litro litri litra litrów litry литр литра литров deciliter liters "
    "gramos grammi "
    "gramów граммов грамм gramme grammes kilogram kilogramów centimetri centímetros centimètres centymetrów "
    "cali дюймов "
    "дюйма pollici pulgadas pouces tum duim pounds-weight meters\u00a0long metrów метров метра"
)
_AMOUNT_OF: Final = r"\d(?:[\d.,]{0,12}\d)?"
_QUANTITY: Final = rf"{_AMOUNT_OF}(?: ?(?:x|×|/|–|-|to|bis) ?{_AMOUNT_OF}){{0,2}}(?: ?½)?"
_MAINS: Final = r"(?:1[0-3]\d|2[0-5]\d)"  # volts of the mains
_BRIEF_MEASURE: Final = re.compile(
    r"\d{1,4}(?:[.,]\d+)?(?:[/-]\d{1,4})? ?-?(?:[VAWvaw]|Hz|m|l|g|h|K|C|F|N|pt|ps|PS)(?![^\W_])(?!')"
    r"|(?:110|127|220|230|240) ?B(?![^\W_])|\d{1,3} ?in(?= |[,.;)]|$)(?! [a-z])"
)
_FRACTION: Final = re.compile(r"(?:\d{1,2} )?\d{1,2}/\d{1,2}(?![\w/])(?: ?\")?|\d{2,3}/\d{2}(?![\w/])")

measure = attached(
    rf"{_QUANTITY} ?-?(?:{_UNITS}(?![^\W_])|[%°″′])"
    rf"|{_MAINS}(?: ?[-/] ?{_MAINS})? ?v(?:ac|dc)?(?![^\W_])"
    r"|(?<!\")\d{1,3}(?:[.,]\d{1,2})? ?½?\"(?!\w)"
    r"|\d{1,4}(?:[.,]\d+)? ?[x×] ?\d{1,4}(?:[.,]\d+)?(?:\s?(?:mm|cm|m|in|inch|px)\b)?(?!\w)"
)


def brief_measure(spot: Spot) -> int:
    """'220 V', '0.5 A', '5/8': short units and fractions, unless a number was announced ('serial 204 A')."""
    if not spot.bare or spot.introduced:
        return 0
    match = _BRIEF_MEASURE.match(spot.plain, spot.digit) or _FRACTION.match(spot.plain, spot.digit)
    return match.end() if match else 0


# --- prices ----------------------------------------------------------------------------------------------------------

_CURRENCY: Final = any_of(
    "£ $ € ¥ ₽ ₤ zł eur euro euros gbp usd chf sek nok dkk pln rub czk quid pounds pound bucks dollars dollar cents "
    "pence "
    "kr kronor kroner krona kronen mark dm reichsmark rm franken francs franc pesetas lire zloty złotych złote руб "
    "рублей "
    "рубля р korun kč korona eurot guineas shillings gulden guilders grand "
)
_SCALE: Final = any_of(
    "thousand thousands hundred million millions k tausend millionen mille mila mil millones milioni duizend miljoen "
    "tys tysięcy tysiące тыс тысяч тысячи тысяча млн миллионов tusen miljoner"
)
_PRICE: Final = re.compile(
    rf"\d{{1,3}}(?:\.\d{{3}}){{1,3}},\d\d(?!\d)|\d{{1,3}}(?:,\d{{3}}){{1,3}}\.\d\d(?!\d)"
    rf"|(?:\d{{1,3}}(?:[ .,']\d{{3}}){{1,4}}|\d{{1,12}})(?:[.,]\d{{1,2}})?[.,]? ?"
    rf"(?:(?:{_SCALE}\.? ?(?:de )?)?{_CURRENCY}(?![^\W_])|[,.]-{{1,2}}(?!\w))"
    r"|\d{1,6}[,.]--?(?!\w)|\d{1,4}k(?!\w)|\d{1,3}/\d{1,2}d\b|\d{1,3}p\b"
)
_PRICE_BEFORE: Final = re.compile(
    r"(?:[£$€¥₽₤]|(?<![^\W_])(?:eur|euro|gbp|usd|chf|sek|nok|dkk|pln|fr|frs|dm|rm|rs|us\$|kr|zl))\.? ?-?\Z"
)
_AMOUNT: Final = re.compile(
    r"\d{1,3}(?:[ .,']\d{3}){1,4}(?:[.,]\d{1,2})?(?!\d)|\d{1,12}(?:[.,]\d{1,2})?(?!\d)|"
    r"\d{1,12}"
)


def price_with_sign(spot: Spot) -> int:
    """'£120', '120 euros', '120,-', '1.250,00'."""
    if spot.start != spot.digit:
        return 0
    match = _PRICE.match(spot.low, spot.digit)
    if match is None and spot.bare and _PRICE_BEFORE.search(spot.before(8)):
        match = _AMOUNT.match(spot.low, spot.digit)
    return match.end() if match else 0


# --- counts ----------------------------------------------------------------------------------------------------------

_THINGS: Final = any_of(
    "machines maschinen máquinas macchine maszyn maszyny машин машины maskiner symaskiner stitches "
    "stitch stiche stichen points puntadas punti steken ściegów стежков stygn digits digit ziffern stellen chiffres "
    "cifras "
    "cifre cijfers cyfr цифр siffror letters letter buchstaben lettres letras lettere characters zeichen people "
    "persons "
    "personen personnes personas persone osób человек personer members mitglieder membres visitors besucher "
    "visiteurs "
    "pieces stück stuck stueck pièces piezas pezzi stuks sztuk штук stycken st copies exemplare exemplaires examples "
    "others "
    "items parts teile drawers schubladen needles nadeln aiguilles bobbins spulen canettes messages replies posts "
    "nachrichten photos pictures fotos bilder times mal fois veces volte keer razy раз gånger numbers nummern "
    "numéros owners "
    "books pages seiten screws schrauben bolts holes wheels feet spools types models kinds ways steps blocks "
    "million millions thousand thousands hundred hundreds dozen tausend millionen mille tysięcy тысяч tusen "
    "units einheiten"
)
_THOUSANDS: Final = r"\d{1,3}(?:[ ,.']\d{3}){1,4}(?!\d)|\d{1,12}"
_TO: Final = r"(?: (?:or|oder|ou|o|of|lub|u|ili|eller|to|bis|a|-) \d{1,4})?"
_PLURAL: Final = re.compile(r"(?:\d{1,3}(?:[ ,.']\d{3}){1,4}|\d{1,12}) [a-z]{3,}s(?![^\W_])")
_NO_PLURAL: Final = re.compile(
    r"[\d ,.']{1,20} (?:is|was|has|does|says|looks|runs|needs|works|comes|goes|seems|appears|this|its|thanks|thus|"
    r"perhaps|always|"
    r"means|gives|reads|starts|ends|makes|dates|belongs|falls|sits|stands|plus|das|was|aus|les|des|ses|mes|dans|sans|"
    r"mais|"
    r"las|los|nous|vous|es|as|us|besides|yes|sounds|turns|fits|matches|matters|helps|shows|sews|tells|puts|suggests|"
    r"sometimes|perhaps|regards|cheers|greetings|kisses|across|serious|various|alias|circus|corresponds|exists|"
    r"refers)\b"
)
_ROUND_THOUSANDS: Final = re.compile(r"[1-9]\d{0,2}(?:[ ,.']000){1,3}(?![\w?*#]|[ .,\-/]\d)")
_OF_THEM: Final = re.compile(
    rf"(?:{_THOUSANDS})(?= (?:of|von|de|di|van|z|av) (?:them|those|these|ihnen|denen|ellas|loro|ze|nich|dem)\b)"
)
_MORE_THAN: Final = folded_set(
    "over nearly almost than least most total totalling made produced sold built mehr als plus de más oltre meer dan "
    "ponad более свыше fler än"
)
_ROUGHLY: Final = folded_set(
    "about around approximately approx roughly some up fast circa rund etwa über environ presque casi unos "
    "quasi quase "
    "ongeveer bijna około prawie около почти ungefär nästan över cirka"
)
_NOT_ZERO_LED: Final = re.compile(r"(?!0)(?:\d{1,3}(?:[ ,.']\d{3}){1,4}|\d{1,12})(?![\w?*#]|[ .,\-/]\d)")
_ROUNDED: Final = re.compile(r"\d{1,3}(?:[ ,.']\d{3}){1,4}(?![\w?*#])|[1-9]\d{0,8}00(?![\w?*#])")

count_of_things = attached(rf"(?:{_THOUSANDS}){_TO}(?: |-)(?:serial )?{_THINGS}(?![^\W_])|\d{{1,3}}x\b")
ordinal = bare(r"\d{1,4}(?:st|nd|rd|th|er|eme|ere|e|te|ten|ter|a|o)(?![^\W_])")
decimal_or_score = bare(r"\d{1,3}[.,]\d{1,2}(?![\w.,]{0,9}\d)(?!\w)|\d{1,2} ?[-:] ?\d{1,2}(?![\w-]{0,9}\d)(?!\w)")


def count_by_words(spot: Spot) -> int:
    """'204117 visitors', '300 of them', 'more than 204117', 'about 25,000'."""
    if spot.start != spot.digit:
        return 0
    match = _ROUND_THOUSANDS.match(spot.low, spot.digit)
    if match is not None and not spot.introduced:
        return match.end()
    match = _PLURAL.match(spot.low, spot.digit)
    if match is None or _NO_PLURAL.match(spot.low, spot.digit):
        match = _OF_THEM.match(spot.low, spot.digit) or _estimated(spot)
    return match.end() if match else 0


def _estimated(spot: Spot) -> re.Match[str] | None:
    if spot.lead.kind in (cues.SERIAL, cues.NUMBER):
        return None
    if spot.word_before in _MORE_THAN:
        return _NOT_ZERO_LED.match(spot.low, spot.digit)
    return _ROUNDED.match(spot.low, spot.digit) if spot.word_before in _ROUGHLY else None
