"""Dates, years and times of the day."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens.rules.spot import Spot, any_of, attached, folded_set

_MONTHS: Final = any_of(
    "january february march april may june july august september october november december jan feb mar apr jun "
    "jul aug "
    "sep sept oct nov dec januar februar märz mai juni juli oktober dezember jänner mrz okt dez janvier février mars "
    "avril juin juillet août septembre octobre novembre décembre janv févr juil déc enero febrero marzo abril mayo "
    "junio "
    "julio agosto septiembre octubre noviembre diciembre gennaio febbraio aprile maggio giugno luglio settembre "
    "ottobre "
    "dicembre januari februari maart mei augustus december stycznia lutego marca kwietnia maja czerwca lipca "
    "sierpnia "
    "września października listopada grudnia января февраля марта апреля мая июня июля августа сентября октября "
    "ноября "
    "декабря augusti januari februari maj janeiro fevereiro março junho julho setembro outubro novembro "
    "dezembro ledna "
    "února března dubna května června července srpna září října listopadu prosince"
)
_DAY: Final = r"(?:0?[1-9]|[12]\d|3[01])"
_MONTH: Final = r"(?:0?[1-9]|1[0-2])"
_FULL_YEAR: Final = r"(?:1[5-9]|20)\d\d"
_MONTH_BEFORE: Final = re.compile(rf"(?<![^\W_]){_MONTHS}\.? ?(?:the )?\Z")
_AFTER_MONTH: Final = re.compile(
    rf"\d{{1,2}}(?:st|nd|rd|th)?(?:,? {_FULL_YEAR})?(?![\w.,]{{0,9}}\d)|{_FULL_YEAR}\b|\d{{1,2}}(?!\d)"
)
_YEAR: Final = re.compile(
    rf"{_FULL_YEAR}(?: ?[-/] ?(?:{_FULL_YEAR}|\d\d)(?!\d))?(?:'?s|-?ish|er|ern|-?talet|-?tal|-?х|-?x|-?ych|-?e|-?mi)?"
    r"(?![\w*_?#]{0,9}\d)(?![^\W_])|\d0(?:'?s|-?ish|er|ern|-?talet|-ych|-х|-x)(?![^\W_])"
)
_MORE_DIGITS: Final = re.compile(r"[ .-]\d")
_YEAR_LEAD: Final = folded_set(
    "in since around about circa ca c from by before after until till late early mid between year um seit von "
    "vor nach "
    "jahr jahre anno vers en depuis avant desde hacia año del dal nel dopo rond sinds jaar voor uit około rok roku "
    "лет год года году до после около år från kring omkring baujahr bouwjaar dated made built the to and or born "
    "geboren née né copyright © l'année années année"
)
_SILENT: Final = frozenset({"'", "(", ".", "~", "the", "den", "l", "de", "les"})
_HOUR: Final = r"(?:[01]?\d|2[0-4])"
_TIME: Final = re.compile(
    rf"{_HOUR}(?::[0-5]\d){{1,2}}(?!\d)(?: ?[ap]\.?m\b\.?)?"
    rf"|{_HOUR}(?:[.:]\d\d)? ?(?:uhr|o'clock|heures?|[ap]\.?m\b\.?|noon)(?![^\W_])"
    rf"|(?:[01]?\d|2[0-3])[0-5]\d ?(?:[ap]m|hrs|hours)(?!\w)|{_HOUR} ?h ?[0-5]\d(?!\w)|{_HOUR} ?h(?!\w)"
)
_CLOCK: Final = re.compile(r"(?:[01]?\d|2[0-3])\.[0-5]\d(?![\w.,]{0,9}\d)(?!\w)")
_CLOCK_LEAD: Final = folded_set(
    "at um ab om kl klo alle dalle ore à a las o od в с till från from until bis tot fino by uhr -"
)

date = attached(
    rf"\d{{1,2}}(?:st|nd|rd|th|er|\.|o)?(?: of| de| di)? ?{_MONTHS}\b\.?,?(?: (?:de |del )?(?:{_FULL_YEAR}|'\d\d)\b)?"
    rf"|{_DAY}([./-]){_MONTH}\1{_FULL_YEAR}(?!\w)|{_MONTH}([./-]){_DAY}\2{_FULL_YEAR}(?!\w)"
    rf"|{_DAY}\. ?{_MONTH}\. ?{_FULL_YEAR}(?!\w)"
    rf"|{_FULL_YEAR}([./-]){_MONTH}\3{_DAY}(?!\d)(?:t\d\d:\d\d\S{{0,12}})?"
)

short_date = attached(
    rf"{_DAY}([./-]){_MONTH}\1\d\d(?!\w)|{_MONTH}/{_DAY}/\d\d(?!\w)|{_DAY}\.{_MONTH}\.(?!\w)|{_MONTH}/(?:18|19|"
    rf"20)\d\d(?!\w)"
    r"|(?:19|20)\d\d(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])(?![\w?*]|[ .-]\d)"
)


def day_of_a_month(spot: Spot) -> int:
    """'January 8, 1912'."""
    if not (spot.lead.words and _MONTH_BEFORE.search(spot.before(16))):
        return 0
    match = _AFTER_MONTH.match(spot.low, spot.digit)
    return match.end() if match else 0


def dated_year(spot: Spot) -> int:
    """'in 1912', 'c. 1912', 'around 1910/12': a year whatever else is said."""
    words = [word for word in spot.lead.words[-3:] if word not in _SILENT]
    return year(spot) if words and words[-1] in _YEAR_LEAD else 0


def year(spot: Spot) -> int:
    """Four digits from 1500 to 2099, a span or a decade of them, the twenties."""
    if spot.low[spot.start : spot.digit].strip("*_") not in ("", "c", "ca"):
        return 0
    if spot.begin < spot.start and _MORE_DIGITS.match(spot.low, spot.end):
        return 0  # 'K 2041 17'
    match = _YEAR.match(spot.low, spot.digit)
    return match.end() if match else 0


def time(spot: Spot) -> int:
    """'14:30', '6 pm', '18 Uhr', '14h30', 'at 10.30'."""
    if spot.start != spot.digit:
        return 0
    match = _TIME.match(spot.low, spot.digit)
    if match is None and spot.word_before in _CLOCK_LEAD:
        match = _CLOCK.match(spot.low, spot.digit)
    return match.end() if match else 0
