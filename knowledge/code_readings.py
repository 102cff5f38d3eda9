"""The ways a typed number may be stamped, for numbers that are date codes: letters and digits mixed, of fixed length.

The steps and their chances are those of `knowledge/readings.py`; here they act on the whole serial, for in a code any
place may be a letter. Only readings that some code holds are kept.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Iterator, Sequence
from itertools import combinations

from knowledge.readings import DIGITS_FOR_LETTERS, Reading
from knowledge.registers.date_codes import DateCode
from knowledge.tokens.nouns import SerialToken
from knowledge.weights import LETTERS_FOR_DIGITS, LOOK_ALIKES, MISTAKES, SHARES, SLIP

_LONGEST = 40
_UNREADABLE_AT_MOST = 3
"""Up to so many unreadable places are written out; beyond, those of a sequence number stay `?`."""
Made = tuple[str, str, float]


def code_readings(token: SerialToken, codes: Sequence[DateCode]) -> list[tuple[Reading, DateCode]]:
    """Return each reading of a token with the code that holds it, the likeliest steps where several lead there."""
    typed = _as_typed(token)
    lengths = {length for code in codes for length in range(code.shortest, code.longest + 1)}
    near = range(len(typed) - 1, len(typed) + 1 + _MOST_ZEROS)
    if not typed or len(typed) > _LONGEST or not any(length in lengths for length in near):
        return []
    best: dict[tuple[str, str], tuple[Reading, DateCode]] = {}
    for serial, step, chance in _made(typed, lengths, codes):
        for code in codes:
            if code.pattern.fullmatch(serial):
                key = (serial, code.register.id)
                if key not in best or chance > best[key][0].chance:
                    best[key] = (_reading(serial, step, chance), code)
    return list(best.values())


def readings_among(token: SerialToken, serials: Collection[str]) -> list[Reading]:
    """Return each reading of a token that is one of these serials, letters among their digits."""
    typed = _as_typed(token)
    if not typed or len(typed) > _LONGEST:
        return []
    best: dict[str, Reading] = {}
    for serial, step, chance in _made(typed, {len(serial) for serial in serials}, ()):
        if serial in serials and (serial not in best or chance > best[serial].chance):
            best[serial] = _reading(serial, step, chance)
    return list(best.values())


_MOST_ZEROS = 6
_UNREADABLE = str.maketrans("_*#", "???")


def _as_typed(token: SerialToken) -> str:
    """Return the serial with the letters that stand for digits in `digits`: in a code they may be letters."""
    text = unicodedata.normalize("NFKC", token.text).upper()
    if "?" in token.digits:
        text = text.translate(_UNREADABLE)
    signs = "".join(sign for sign in text if sign.isalnum() or sign == "?")
    if not token.letters or not signs.isascii() or len(signs) != len(token.serial):
        return token.serial
    return signs


def _reading(serial: str, step: str, chance: float) -> Reading:
    head = serial.rstrip("0123456789")
    prefix = head if head.isalpha() else serial[: len(serial) - len(serial.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))]
    return Reading(prefix, serial[len(prefix) :], "", (step,), chance)


def _made(typed: str, lengths: set[int], codes: Sequence[DateCode]) -> Iterator[Made]:
    right = 1 - SLIP
    if "?" in typed:
        rate = right * MISTAKES["unreadable"].value
        made: Iterator[str] = (serial for code in codes for serial in code.fillings(typed))
        if len(typed) in lengths and typed.count("?") <= _UNREADABLE_AT_MOST:
            made = _filled(typed, 0)
        yield from ((serial, "unreadable", rate * 10 ** serial.count("?")) for serial in made)
        return
    if len(typed) in lengths:
        yield typed, "as-typed", right
        yield from _look_alikes(typed)
        yield from _slips(typed)
    if len(typed) + 1 in lengths:
        yield from _missed(typed)
    if len(typed) - 1 in lengths:
        yield from _extra(typed)
    yield from _zeros(typed, lengths)
    for constant in {code.leading_letters for code in codes} - {""}:
        if len(typed) + len(constant) in lengths and typed[0].isdecimal():
            yield constant + typed, "prefix-missing", MISTAKES["prefix-missing"].value * right


def _filled(typed: str, place: int) -> Iterator[str]:
    place = typed.find("?", place)
    if place < 0:
        yield typed
        return
    for digit in "0123456789":
        yield from _filled(typed[:place] + digit + typed[place + 1 :], place + 1)


def _look_alikes(typed: str) -> Iterator[Made]:
    """Exchange letters and digits that look alike, at one or two places."""
    swaps = [(place, other) for place, sign in enumerate(typed) for other in _others(sign)]
    for count, share in ((1, 1.0), (2, SHARES["second-letter"].value)):
        for chosen in combinations(swaps, count):
            if count == 2 and chosen[0][0] == chosen[1][0]:
                continue
            signs = list(typed)
            for place, other in chosen:
                signs[place] = other
            step = "digit-for-letter" if signs[chosen[0][0]].isalpha() else "letter-for-digit"
            yield "".join(signs), step, MISTAKES[step].value * share * (1 - SLIP) / len(typed)


def _others(sign: str) -> str:
    return LETTERS_FOR_DIGITS.get(sign, "") if sign.isalpha() else DIGITS_FOR_LETTERS.get(sign, "")


def _slips(typed: str) -> Iterator[Made]:
    misread = MISTAKES["digit-misread"].value * SHARES["look-alike"].value / len(typed)
    for place, sign in enumerate(typed):
        for stamped in LOOK_ALIKES.get(sign, ""):
            yield (
                typed[:place] + stamped + typed[place + 1 :],
                "digit-misread",
                misread / len(LOOK_ALIKES[stamped]),
            )
    swapped = MISTAKES["digits-swapped"].value / max(1, len(typed) - 1)
    for place in range(len(typed) - 1):
        pair = typed[place : place + 2]
        if pair.isdecimal() and pair[0] != pair[1]:
            yield typed[:place] + pair[::-1] + typed[place + 2 :], "digits-swapped", swapped


def _missed(typed: str) -> Iterator[Made]:
    chance = MISTAKES["digit-missed"].value / (len(typed) + 1)
    for place in range(len(typed) + 1):
        for digit in "0123456789":
            if typed[place : place + 1] != digit:
                yield typed[:place] + digit + typed[place:], "digit-missed", chance


def _extra(typed: str) -> Iterator[Made]:
    rate = MISTAKES["digit-extra"].value
    for place, sign in enumerate(typed):
        if sign.isdecimal() and typed[place - 1 : place] != sign:
            repeats = typed[place + 1 : place + 2] == sign
            share = (
                SHARES["doubled"].value / len(typed) if repeats else (1 - SHARES["doubled"].value) / (10 * len(typed))
            )
            yield typed[:place] + typed[place + 1 :], "digit-extra", rate * share


def _zeros(typed: str, lengths: set[int]) -> Iterator[Made]:
    """Restore or remove zeros at the start of the last run of digits, where sequence numbers lose them."""
    digits = typed[len(typed.rstrip("0123456789")) :]
    head = typed[: len(typed) - len(digits)]
    if not digits:
        return
    for zeros in range(1, _MOST_ZEROS + 1):
        if len(typed) + zeros in lengths:
            yield head + "0" * zeros + digits, "zero-restored", MISTAKES["zero-restored"].value * (1 - SLIP)
    for zeros in range(1, len(digits) - len(digits.lstrip("0")) + 1):
        if len(typed) - zeros in lengths and zeros < len(digits):
            yield head + digits[zeros:], "zero-removed", MISTAKES["zero-removed"].value * (1 - SLIP)
