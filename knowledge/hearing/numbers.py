"""Small numbers in words."""

from __future__ import annotations

from knowledge.hearing.words import lower

_WORDS = (
    "zero nought null zéro cero nul ноль нуль нуля ноля нулем нулём нулей noll nolla nollan nollor zera zerem nullen",
    "one eins ein un uno een één jeden jedna один одна en ett",
    "two zwei deux dos due twee dwa dwie два две två",
    "three drei trois tres tre drie trzy три",
    "four vier quatre cuatro quattro cztery четыре fyra",
    "five fünf cinq cinco cinque vijf pięć пять fem",
    "six sechs six seis sei zes sześć шесть sex",
    "seven sieben sept siete sette zeven siedem семь sju",
    "eight acht huit ocho otto osiem восемь åtta",
    "nine neun neuf nueve nove negen dziewięć девять nio",
    "ten zehn dix diez dieci tien dziesięć десять tio",
    "eleven elf onze once undici jedenaście одиннадцать elva",
    "twelve zwölf douze doce dodici twaalf dwanaście двенадцать tolv",
)
_VALUES = {lower(word): value for value, words in enumerate(_WORDS) for word in words.split()}
ZERO = frozenset(word for word, value in _VALUES.items() if value == 0) | {"0", "00", "000"}

_STEMS: tuple[tuple[str, ...], ...] = (
    (),
    (),
    ("zwei", "two", "dwu", "дву", "tva"),
    ("drei", "three", "trzy", "tre", "тре"),
    ("vier", "four", "cztero", "четыре", "fyr"),
    ("funf", "five", "piecio", "пяти", "fem"),
    ("sechs", "six", "szescio", "шести", "sex"),
    ("sieben", "seven", "siedmio", "семи", "sju"),
    ("acht", "eight", "osmio", "восьми", "atta"),
    ("neun", "nine", "dziewiecio", "девяти", "nio"),
    ("zehn", "ten", "dziesiecio", "десяти", "tio"),
)
_OF_DIGITS = ("stellig", "ziffrig", "cyfrow", "значн", "цифров", "siffrig")


def value(word: str) -> int | None:
    """Return the number that a folded word or group of digits says; None when it says none, or one above 99."""
    if word.isdecimal():
        return int(word) if len(word) <= 2 else None
    return _VALUES.get(word)


def digits_in_compound(word: str) -> int | None:
    """Return the number of digits that one word tells.

    >>> digits_in_compound("siebenstellige"), digits_in_compound("семизначныи"), digits_in_compound("sieben")
    (7, 7, None)
    """
    if len(word) < 7:
        return None
    for ending in _OF_DIGITS:
        before, found, _ = word.partition(ending)
        if found:
            return next((count for count, stems in enumerate(_STEMS) if before in stems), None)
    return None
