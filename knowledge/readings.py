"""The ways a typed number may really be stamped, each one mistake away, and how often people make that mistake.

`Reading.chance` is P(typed | stamped): the share of owners of a machine so stamped who would type just what the asker
typed. Two mistakes at once are followed only where people commonly make both: the letter not told and the zeros
dropped; an unreadable place together with one of these.

Only readings that some register could hold are made: each must have the shape (prefix, number of digits, suffix) of
a series.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

from knowledge.registers import LONGEST
from knowledge.shapes import Shapes, is_zero_led
from knowledge.tokens.nouns import SerialToken, count_digits
from knowledge.weights import LETTERS_FOR_DIGITS, LOOK_ALIKES, MISTAKES, SHARES, SLIP

EXPANDED = 1_000
"""Readings with unreadable places are written out while they are at most this many; beyond, the places stay `?`."""

DIGITS_FOR_LETTERS: dict[str, str] = {
    digit: "".join(letter for letter, taken in LETTERS_FOR_DIGITS.items() if taken == digit) for digit in "012568"
}


class Reading(NamedTuple):
    """One way the number may be stamped. `steps` lead from the typed number to it, `chance` is P(typed | stamped)."""

    prefix: str
    digits: str
    suffix: str
    steps: tuple[str, ...]
    chance: float

    @property
    def digit_count(self) -> int:
        """How many digits it has, in a code wherever they stand."""
        return count_digits(self.serial)

    @property
    def serial(self) -> str:
        """The number as it would be stamped."""
        return self.prefix + self.digits + self.suffix


Step = tuple[str, str, str, tuple[str, ...], float]


def readings(token: SerialToken, shapes: Shapes) -> list[Reading]:
    """Return every reading of a token that fits a series, each once, in no particular order.

    Tokens without digits, with letters between digits, or with more than LONGEST digits have none.
    """
    digits = token.digits
    if not digits or len(digits) > LONGEST + 1 or not digits.replace("?", "0").isdecimal():
        return []
    made = _unreadable(token, shapes) if "?" in digits else _readable(token, shapes)
    best: dict[tuple[str, str, str], Reading] = {}
    for prefix, number, suffix, steps, mistake in made:
        key = (prefix, number, suffix)
        known = best.get(key)
        if known is None or mistake > known.chance:
            best[key] = Reading(prefix, number, suffix, steps, mistake)
    return list(best.values())


def _rate(step: str) -> float:
    return MISTAKES[step].value


_RIGHT = 1 - SLIP
_TOLD = (1 - _rate("prefix-missing"), 1.0)
_ZEROS = (1 - _rate("zero-removed"), 1 - _rate("zero-restored"))


def _rest(prefix: str, digits: str) -> float:
    """Return how often an owner tells the prefix, and the zeros or their absence, rightly."""
    return _TOLD[not prefix] * _ZEROS[is_zero_led(digits)]


def _readable(token: SerialToken, shapes: Shapes) -> Iterator[Step]:
    prefix, digits, suffix = token.prefix, token.digits, token.suffix
    steps: tuple[str, ...] = ("as-typed",)
    share = 1.0
    if token.letters:
        steps, share = ("letter-for-digit",), _rate("letter-for-digit")
    if shapes.holds(prefix, len(digits), suffix, is_zero_led(digits)):
        yield prefix, digits, suffix, steps, share * _RIGHT * _rest(prefix, digits)
    made = (
        _zeros(prefix, digits, suffix, shapes),
        _letters(token, shapes),
        _prefix_missing(prefix, digits, suffix, shapes),
        _missed(prefix, digits, suffix, shapes),
        _extra(prefix, digits, suffix, shapes),
        _same_count(prefix, digits, suffix, shapes),
    )
    for one in made:
        if share == 1.0:
            yield from one
        else:
            yield from ((p, d, s, steps + more, share * chance) for p, d, s, more, chance in one)


def _zeros(prefix: str, digits: str, suffix: str, shapes: Shapes) -> Iterator[Step]:
    """Restore leading zeros up to the widest series; remove one or more of those typed."""
    told = _TOLD[not prefix] * _RIGHT
    for width in range(len(digits) + 1, shapes.widest.get((prefix, suffix), 0) + 1):
        if (prefix, width, suffix) in shapes.series:
            share = SHARES["some-zeros"].value if is_zero_led(digits) else 1.0
            yield (
                prefix,
                digits.zfill(width),
                suffix,
                ("zero-restored",),
                told * _rate("zero-restored") * share,
            )
    bare = digits.lstrip("0") or "0"
    for width in range(len(bare), len(digits)):
        number = digits[len(digits) - width :]
        if shapes.holds(prefix, width, suffix, is_zero_led(number)):
            yield prefix, number, suffix, ("zero-removed",), told * _rate("zero-removed")


def _prefix_missing(prefix: str, digits: str, suffix: str, shapes: Shapes) -> Iterator[Step]:
    """Try every prefix where none was typed, with the zeros as typed and with zeros restored.

    Letters typed behind the number may be those that stand before it.
    """
    if prefix:
        return
    chance = _rate("prefix-missing") * _RIGHT
    zero_led = is_zero_led(digits)
    kept = chance * _ZEROS[zero_led]
    if suffix and shapes.holds(suffix, len(digits), "", zero_led):
        yield suffix, digits, "", ("prefix-missing",), kept
    for missing in shapes.missing_prefixes(len(digits), suffix, zero_led):
        yield missing, digits, suffix, ("prefix-missing",), kept
    if zero_led:
        return
    for (width, its_suffix), missing_ones in shapes.prefixes.items():
        if width > len(digits) and its_suffix == suffix:
            number = digits.zfill(width)
            for missing in missing_ones:
                yield (
                    missing,
                    number,
                    suffix,
                    ("prefix-missing", "zero-restored"),
                    chance * _rate("zero-restored"),
                )


def _missed(prefix: str, digits: str, suffix: str, shapes: Shapes) -> Iterator[Step]:
    """Put one digit in at every place. The same number made at two places counts for both: `run` counts them."""
    width = len(digits) + 1
    fixed = (prefix, width, suffix) in shapes.series
    if not fixed and (prefix, 0, suffix) not in shapes.series:
        return
    one = _rate("digit-missed") / width * _TOLD[not prefix]
    for place in range(width):
        head, tail = digits[:place], digits[place:]
        for digit in "0123456789":
            if tail and digit == tail[0]:
                continue
            number = head + digit + tail
            zero_led = number[0] == "0"
            if fixed or not zero_led:
                run = 1 + len(head) - len(head.rstrip(digit)) if head and head[-1] == digit else 1
                yield prefix, number, suffix, ("digit-missed",), one * run * _ZEROS[zero_led]


def _extra(prefix: str, digits: str, suffix: str, shapes: Shapes) -> Iterator[Step]:
    """Leave one digit out at every place; one that repeats its neighbour is the likelier mistake."""
    width = len(digits) - 1
    if not width:
        return
    rate = _rate("digit-extra") * _TOLD[not prefix]
    doubled, other = (
        SHARES["doubled"].value * rate / width,
        (1 - SHARES["doubled"].value) * rate / (10 * (width + 1)),
    )
    for place, digit in enumerate(digits):
        if place and digits[place - 1] == digit:
            continue
        number = digits[:place] + digits[place + 1 :]
        zero_led = is_zero_led(number)
        if shapes.holds(prefix, width, suffix, zero_led):
            repeats = digits[place + 1 : place + 2] == digit
            yield prefix, number, suffix, ("digit-extra",), (doubled if repeats else other) * _ZEROS[zero_led]


def _same_count(prefix: str, digits: str, suffix: str, shapes: Shapes) -> Iterator[Step]:
    """Take one digit for each of its look-alikes; swap each two neighbours."""
    width = len(digits)
    fixed = (prefix, width, suffix) in shapes.series
    if not fixed and (prefix, 0, suffix) not in shapes.series:
        return
    told = _TOLD[not prefix]
    misread = _rate("digit-misread") * SHARES["look-alike"].value / width * told
    for place, typed in enumerate(digits):
        head, tail = digits[:place], digits[place + 1 :]
        for stamped in LOOK_ALIKES[typed]:
            number = head + stamped + tail
            zero_led = is_zero_led(number)
            if fixed or not zero_led:
                chance = misread / len(LOOK_ALIKES[stamped]) * _ZEROS[zero_led]
                yield prefix, number, suffix, ("digit-misread",), chance
    swapped = _rate("digits-swapped") / max(1, width - 1) * told
    for place in range(width - 1):
        left, right = digits[place], digits[place + 1]
        number = digits[:place] + right + left + digits[place + 2 :]
        if left != right and (fixed or number[0] != "0"):
            yield prefix, number, suffix, ("digits-swapped",), swapped * _ZEROS[number[0] == "0"]


def _letters(token: SerialToken, shapes: Shapes) -> Iterator[Step]:
    """Take one or two letters at the ends of the digits for digits, and one or two end digits for letters."""
    prefix, digits, suffix = token.prefix, token.digits, token.suffix
    for before, after in _at_most_two(len(prefix), len(suffix)):
        taken, kept = prefix[len(prefix) - before :], prefix[: len(prefix) - before]
        ended, left = suffix[:after], suffix[after:]
        if all(letter in LETTERS_FOR_DIGITS for letter in taken + ended):
            number = _as_digits(taken) + digits + _as_digits(ended)
            if shapes.holds(kept, len(number), left, is_zero_led(number)):
                chance = _letter_chance("letter-for-digit", before + after, kept, number)
                yield kept, number, left, ("letter-for-digit",), chance
    for before, after in _at_most_two(len(digits) - 1, len(digits) - 1):
        number = digits[before : len(digits) - after]
        if number:
            heads = product(*(DIGITS_FOR_LETTERS.get(digit, "") for digit in digits[:before]))
            tails = list(product(*(DIGITS_FOR_LETTERS.get(digit, "") for digit in digits[len(digits) - after :])))
            for head, tail in product(heads, tails if after else [()]):
                longer, later = prefix + "".join(head), "".join(tail) + suffix
                if shapes.holds(longer, len(number), later, is_zero_led(number)):
                    chance = _letter_chance("digit-for-letter", before + after, longer, number)
                    yield longer, number, later, ("digit-for-letter",), chance


def _at_most_two(before: int, after: int) -> Iterator[tuple[int, int]]:
    for left, right in ((1, 0), (0, 1), (2, 0), (1, 1), (0, 2)):
        if left <= before and right <= after:
            yield left, right


def _as_digits(letters: str) -> str:
    return "".join(LETTERS_FOR_DIGITS[letter] for letter in letters)


def _letter_chance(step: str, count: int, prefix: str, digits: str) -> float:
    share = SHARES["second-letter"].value if count > 1 else 1.0
    return _rate(step) * share * _RIGHT * _rest(prefix, digits) / len(digits)


def _unreadable(token: SerialToken, shapes: Shapes) -> Iterator[Step]:
    """Fill unreadable places with every digit; a first place may also be a letter."""
    prefix, digits, suffix = token.prefix, token.digits, token.suffix
    rate = _rate("unreadable")
    patterns: list[Step] = []
    if shapes.holds(prefix, len(digits), suffix, is_zero_led(digits)):
        patterns.append((prefix, digits, suffix, ("unreadable",), _RIGHT * _rest(prefix, digits)))
    for made in (_zeros(prefix, digits, suffix, shapes), _prefix_missing(prefix, digits, suffix, shapes)):
        patterns.extend((p, d, s, ("unreadable", *steps), chance) for p, d, s, steps, chance in made)
    if not prefix and digits[0] == "?" and len(digits) > 1:
        rest = digits[1:]
        letters = shapes.missing_prefixes(len(rest), suffix, is_zero_led(rest))
        patterns.extend(
            (letter, rest, suffix, ("unreadable",), _RIGHT * _rest(letter, rest))
            for letter in letters
            if len(letter) == 1
        )
    for one, pattern, other, steps, chance in patterns:
        for number in _filled(pattern):
            yield one, number, other, steps, chance * rate


def _filled(pattern: str) -> Iterator[str]:
    if 10 ** pattern.count("?") > EXPANDED:
        yield pattern
        return
    for digits in product("0123456789", repeat=pattern.count("?")):
        filling = iter(digits)
        yield "".join(next(filling) if place == "?" else place for place in pattern)
