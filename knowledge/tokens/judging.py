"""What a whole message says about the numbers in it, where neither a rule nor a word beside a number decides."""

from __future__ import annotations

import re
from functools import cached_property
from itertools import pairwise
from typing import Final

from knowledge.names import Names
from knowledge.tokens import context, cues
from knowledge.tokens import words as lists
from knowledge.tokens.cues import kind_of
from knowledge.tokens.fold import fold_word
from knowledge.tokens.rules import dates
from knowledge.tokens.rules.spot import Spot, any_of, folded_set
from knowledge.tokens.shaping import Shape, matches_code

_WORD: Final = re.compile(r"[^\W\d_]+")
_END_OF_SERIES: Final = re.compile(r"9{5,}")  # 'what comes after 9999999?' asks of no machine
_ENDS: Final = re.compile(r" ?[?,:.!\n]| [A-Z]|\s*\Z")  # of a sentence that is just a number
_SHORT: Final = 80  # characters of a question that is about little but its number
_LOOKED_AT: Final = 2_000  # characters searched for names of makers and models
_LOCAL: Final = re.compile(r"\d{3}-\d{4}(?![\w-])")
_LETTERED: Final = re.compile(r"(?P<prefix>[A-Z]{1,3})[ .-]?(?P<digits>\d(?:[ .-]?\d){5,9})(?![^\W_])")
_ASKING: Final = re.compile(rf"\?|{any_of('please pls plz bitte svp graag por favor prego prosze pozhaluista tack')}")
_OF_OTHER_THINGS: Final = ("reference", "model-name", "part-number")
_SAY_NOTHING_ALONE: Final = folded_set("id decode build built ident sort long ago")
_MY: Final = folded_set("my meine mein mon ma mi mio mia mijn moj moja mou min mitt mój moja мой")
_ONE_OF: Final = re.compile(
    r" (?:of|out of|in|on|von|de|di|van|z|из|av) (?:my|the|a|our|your|\d|der|den|la|il|mijn|mojej)"
)
_ONE_MORE: Final = re.compile(  # 'ours is a no. 9': a model
    rf"(?<![^\W_]){any_of('a an ein eine einen un une una uno een en ett')} "
    rf"{any_of('no nr number num nummer n #')}[.:°]? ?\Z"
)
_NUMBERED_MACHINE: Final = re.compile(
    rf"(?:machin|maschin|macchin|maquin|maszyn|{fold_word('машин')}|maskin)[^\W\d_]{{0,4}}[ -]"
    rf"{any_of('no nr number n num numero nummer numer номер #')}?[.:°]? ?\Z"
)


class Message:
    """One folded message: `plain`, `low` the same in lower case, and the names it is read with."""

    def __init__(self, plain: str, names: Names) -> None:
        self.plain = plain
        self.low = plain.lower()
        self.names = names

    @cached_property
    def about(self) -> bool:
        """Whether it is about a machine, or is little more than a number."""
        return (
            context.about_a_machine(self.low)
            or names_a_thing(self.low[:_LOOKED_AT], self.names)
            or context.says_nothing_else(self.low)
            or self._asks_for_a_year
        )

    @cached_property
    def _asks_for_a_year(self) -> bool:
        """'anno di 318842?': a short question with a word for a year."""
        return len(self.low) < _SHORT and "?" in self.low and not lists.YEARS.isdisjoint(_WORD.findall(self.low))

    def _is_asked_about(self, shape: Shape) -> bool:
        """'929? It is an Ottrel.', 'How old? 929': a sentence of its own, in a short question about a machine."""
        before, after = self.plain[: shape.start].rstrip(" "), self.plain[shape.end : shape.end + 3]
        if len(self.low) >= _SHORT or (before and before[-1] not in "?!.:\n") or not _ENDS.match(after):
            return False
        return names_a_thing(self.low, self.names) or context.asks_for_an_age(self.low)

    @cached_property
    def speaks_of_a_mark(self) -> bool:
        """Whether it speaks of a serial number, or of something stamped."""
        return context.speaks_of_a_mark(self.low)

    def is_of_another_thing(self, spot: Spot, kind: str) -> bool:
        """'my number is ...', 'the job number ...', where no machine is spoken of."""
        if not spot.bare:
            return False
        return self.is_telephone(spot, kind) or (not self.about and context.names_another_thing(spot.lead.words))

    def is_telephone(self, spot: Spot, kind: str) -> bool:
        """'555-0147', 'my number is 960551': where no machine is spoken of, or its number has a word of its own."""
        if not spot.bare:
            return False
        if kind == cues.NUMBER and not _MY.isdisjoint(spot.lead.words[-3:]):
            stamped = any(kind_of(word) is cues.STAMPED for word in spot.lead.words[-3:])
            return self.speaks_of_a_mark and not stamped
        return bool(_LOCAL.match(self.plain, spot.digit)) and (not self.about or self.speaks_of_a_mark)

    def is_short_serial(self, spot: Spot) -> bool:
        """'No. 17' on a machine, not 'No. 17 of the series'."""
        if not self.about or _ONE_OF.match(self.low, spot.end) or _ONE_MORE.search(spot.before(12)):
            return False
        if self.speaks_of_a_mark or context.says_nothing_else(self.low):
            return True
        if context.asks_for_an_age(self.low) and spot.end - spot.digit > 2:
            return True  # 'the number is 408. When was it made?'
        return bool(_NUMBERED_MACHINE.search(self.low[max(spot.begin - 40, 0) : spot.begin]))

    def contradicts(self, kind: str, spot: Spot, *, before: bool) -> bool:
        """Say whether a number cannot be what words `before` or behind it call it.

        A price has no letters before it; a model has no six digits, unless it is called a model number.
        """
        if kind in _OF_OTHER_THINGS and self._is_asked_by_its_shape(spot) and not (before and _calls_it(spot, kind)):
            return before or kind == "model-name"
        if before and spot.lead.aside and not spot.bare and kind_of(spot.word_before) != kind:
            return True
        if kind == "model-name" and before:
            called_so = kind_of(spot.word_before) is cues.NUMBER and lists.LINKS.isdisjoint(spot.lead.words[-2:-1])
            return spot.end - spot.digit > 5 and not called_so
        if kind == "reference" and not spot.bare and not lists.TALKED_ABOUT.isdisjoint(spot.lead.words[-3:]):
            return kind_of(spot.word_before) is not cues.NUMBER
        if kind == "price" and spot.word_before in lists.SOLD and dates.year(spot):
            return True
        return kind in ("price", "telephone") and not spot.bare

    def _is_asked_by_its_shape(self, spot: Spot) -> bool:
        """'How long ago was L104411 made?': letters and digits as a register has them, in a question about a machine.

        Or in a short one about whatever it is: 'ID please: L104411'.
        """
        number = _LETTERED.match(self.plain, spot.begin)
        if number is None or not (self.about or len(self.low) < _SHORT):
            return False
        if not (_ASKING.search(self.low) or context.asks_for_an_age(self.low)):
            return False
        digits = re.sub("[ .-]", "", number["digits"])
        return len(digits) > 5 and (number["prefix"], len(digits), "") in self.names.shapes

    def is_a_part(self, kind: str, spot: Spot) -> bool:
        """'ref. 52237' where a part is spoken of nearby."""
        if kind != "order-number" or lists.REFERENCES.isdisjoint(spot.lead.words[-3:]):
            return False
        nearby = context.words_in(self.low, spot.begin - 60, spot.begin) + context.words_in(
            self.low, spot.end, spot.end + 60
        )
        return any(kind_of(word) == "part-number" for word in nearby)

    def looks_serial(self, shape: Shape, marked: bool) -> bool:
        """Say whether a number that no word introduces is a serial; `marked`: it is said to be read or stamped."""
        size = len(shape.digits)
        if matches_code(shape.serial, self.names):
            return self.about or len(shape.serial) > 5
        if not 3 <= size <= 12 or (not shape.prefix and _END_OF_SERIES.fullmatch(shape.digits)):
            return False
        told = size > 4 or shape.prefix or (marked and self.about) or self._is_asked_about(shape)
        if told and shape.known_to(self.names):
            return True
        if 0 < len(shape.prefix + shape.suffix) < 3 and 5 <= size <= 8:  # a letter or two are what a serial looks like
            return True
        if not (self.about or marked):
            return False
        if shape.prefix:
            return len(shape.prefix) < 4 and 4 <= size <= 9
        return 5 <= size <= 8 or (marked and self.about and 4 <= size <= 10)


def _calls_it(spot: Spot, kind: str) -> bool:
    """Say whether the last word before a number that tells anything, in the same sentence, calls it another thing."""
    if spot.plain[max(spot.begin - 2, 0) : spot.begin].strip(" ").endswith((".", "?", "!")):
        return False
    telling = (word for word in reversed(spot.lead.words) if word not in lists.LINKS and kind_of(word) != cues.FILLER)
    word = next(telling, "")
    return word not in _SAY_NOTHING_ALONE and kind_of(word) == kind


def names_a_thing(low: str, names: Names) -> bool:
    """Say whether a maker, a model or a works is named, by one word or two."""
    tables = [table for table in (names.makers, names.models, names.works) if table]
    words = _WORD.findall(low) if tables else []
    phrases = {*words, *map(" ".join, pairwise(words))}
    return any(phrase in table for table in tables for phrase in phrases)
