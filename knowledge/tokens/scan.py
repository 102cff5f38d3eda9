"""One walk over a folded message: each piece with a digit is passed over with a reason, or becomes a serial token."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from knowledge.names import Names
from knowledge.tokens import cues
from knowledge.tokens.cues import kind_of
from knowledge.tokens.context import about_a_machine, follow, lead, names_another_thing, says_nothing_else, speaks_of_a_mark
from knowledge.tokens.introducers import Introduced, introduced_marks, introduced_number
from knowledge.tokens.passing_over import FIRM, SOFT
from knowledge.tokens.regions import Region, regions
from knowledge.tokens.rules.spot import Spot
from knowledge.tokens.shaping import LONGEST, Shape, letter_apart, matches_code, shapes_at

_DIGIT: Final = re.compile(r"[0-9]")
_PIECE_END: Final = re.compile(r"[A-Za-z0-9?_*#|]*")
_INNER: Final = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz?_*#")
_PIECE_HEAD: Final = 24
_CONJUNCTION: Final = re.compile(
    r"[ ,)]*(?:[,;/&+]|(?<![^\W_])(?:and|or|und|oder|et|ou|y|o|e|en|of|i|lub|u|ili|och|eller|og|a|nebo|bis|"
    r"to)(?![^\W_]))"
    r" *(?:(?:no|nr|number|also)\.? ?)?"
)
_ONE_OF: Final = re.compile(r" (?:of|out of|in|on|von|de|di|van|z|из|av) (?:my|the|a|our|your|\d|der|den|la|il|mijn|"
    r"mojej)")
_NUMBERED_MACHINE: Final = re.compile(r"(?:machin|maschin|macchin|maquin|maszyn|mawuh|maskin)[a-z]{0,4}[ -](?:no|nr|"
    r"number|n|num|numero|nummer|numer|homep|#)?[.:°]? ?$")
_LOCAL: Final = re.compile(r"\d{3}-\d{4}(?![\w-])")
_MY: Final = frozenset("my meine mein mon ma mi mio mia mijn moj moja mou min mitt".split())
_NUMBER_ONLY: Final = re.compile(r"[0-9?]{1,20}[A-Za-z]?(?![0-9A-Za-z])")
_COUNTS: Final = re.compile(r"\d{1,4}(?![-./]\d) [A-Za-z]")
_SAYS_LITTLE: Final = frozenset({"", cues.MARKED, cues.STAMPED, cues.NUMBER})
_NO_CUE: Final = frozenset({None, cues.FILLER, cues.ASIDE})
_INHERITED: Final = frozenset({"telephone", "order-number", "part-number", "patent", "reference"})
_TELEPHONE: Final = re.compile(r"\d(?:[ .\-/()]{0,3}\d){0,14}")
_GROUPED: Final = re.compile(r"\d{1,3}(?:[., ]\d{3})+(?!\d)|\d[\d]*(?:[ .\-/]\d+){0,5}")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of folded text and what it is: a `shape` for a serial, else `because`."""

    start: int
    end: int
    shape: Shape | None = None
    introduced: bool = False
    because: str = ""
    number: str = ""
    registers: tuple[str, ...] = ()


class Walk:
    """The walk itself: `pieces()` gives the pieces of `plain` from left to right, none overlapping."""

    def __init__(self, plain: str, names: Names) -> None:
        self.plain = plain
        self.low = plain.lower()
        self.names = names
        self.floor = 0
        self.previous: Piece | None = None
        self._about: bool | None = None
        self._regions: list[Region] = regions(self.low)

    @property
    def about(self) -> bool:
        """Whether the message is about a machine, or is nothing but the number."""
        if self._about is None:
            self._about = about_a_machine(self.low) or _names_a_thing(self.low, self.names) or says_nothing_else(self.low)
        return self._about

    def pieces(self) -> Iterator[Piece]:
        """Give the pieces of the text from left to right."""
        marks = introduced_marks(self.plain, self.low, self.names)
        while match := _DIGIT.search(self.plain, self.floor):
            if marks and marks[0].start <= match.start():
                piece = _registered(marks.pop(0))
            else:
                piece = self._piece(match.start())
            self.floor = max(piece.end, self.floor + 1)
            self.previous = piece
            yield piece
        yield from map(_registered, marks)

    def _piece(self, digit: int) -> Piece:
        start = digit
        while start > self.floor and digit - start < _PIECE_HEAD and self.plain[start - 1] in _INNER:
            start -= 1
        attached = self.low[start:digit].rstrip("#")
        if len(attached) > 1 and kind_of(attached) not in _NO_CUE and not self._is_known_prefix(attached) and _NUMBER_ONLY.match(self.plain, digit):
            start = digit  # 'No204117', 'Ticket#204117'
        match = _PIECE_END.match(self.plain, digit)
        end = match.end() if match else digit + 1
        begin = letter_apart(self.plain, start, self.floor, self.names) if start == digit else start
        before = lead(self.low, begin)
        spot = Spot(self.plain, self.low, begin, start, digit, end, before, self.names, self.floor)
        region = self._region(digit)
        if region == "quoted":
            return Piece(start, end, because="quoted")
        return self._decided(spot, region)

    def _is_known_prefix(self, letters: str) -> bool:
        return any(prefix == letters.upper() for prefix, _, _ in self.names.shapes)

    def _region(self, place: int) -> str:
        while self._regions and self._regions[0][1] <= place:
            self._regions.pop(0)
        return self._regions[0][2] if self._regions and self._regions[0][0] <= place else ""

    def _decided(self, spot: Spot, region: str) -> Piece:
        introduced = self._introduced(spot)
        if introduced:
            return introduced
        if spot.lead.kind == cues.SERIAL and spot.lead.near and (code := self._code(spot, cued=True)):
            return code
        for because, rule in FIRM:
            if end := rule(spot):
                return _passed(spot, end, because)
        kind, near = self._kind(spot)
        if kind == cues.SERIAL or (kind == cues.NUMBER and near and not self._is_of_another_thing(spot, kind)):
            if token := self._serial(spot, kind, near):
                return token
        elif kind not in _SAYS_LITTLE and not self._contradicts(kind, spot):
            return _passed(spot, _grouped_end(spot, kind), kind)
        for because, rule in SOFT:
            if end := rule(spot):
                return _passed(spot, end, because)
        if (token := self._uncued(spot, kind, region)) is not None:
            return token
        if self._is_telephone(spot, kind):
            return _passed(spot, _grouped_end(spot, "telephone"), "telephone")
        return _passed(spot, _grouped_end(spot, ""), "count" if _COUNTS.match(self.plain, spot.begin) else "reference")

    def _kind(self, spot: Spot) -> tuple[str, bool]:
        previous = self.previous
        if previous is not None and self._is_joined(previous, spot):
            if previous.shape is not None:
                return (cues.MARKED, False) if previous.introduced else ("", False)
            if previous.because in _INHERITED and spot.begin == spot.digit and _as_long(previous, spot):
                return previous.because, True
        kind, near = spot.lead.kind, spot.lead.near
        if kind in _SAYS_LITTLE or not near:
            after = follow(self.low, spot.end)
            if after:
                return after, True
        return kind, near

    def _is_joined(self, previous: Piece, spot: Spot) -> bool:
        """'204117 and 204118', '204117; 204118'."""
        return _CONJUNCTION.fullmatch(self.low, previous.end, spot.begin) is not None

    def _introduced(self, spot: Spot) -> Piece | None:
        """Numbers of registers whose words stand before: patents, designs, marks."""
        if not self.names.introducers:
            return None
        before = self.previous.registers if self.previous and self._is_joined(self.previous, spot) else ()
        found = introduced_number(spot, before)
        return _registered(found) if found else None

    def _serial(self, spot: Spot, kind: str, near: bool) -> Piece | None:
        for shape in shapes_at(self.plain, spot.start, spot.digit, self.names, self.floor):
            size = len(shape.digits)
            if size > LONGEST:
                break
            if near and (kind == cues.SERIAL or size > 4 or self._is_short_serial(spot, size)):
                return Piece(shape.start, shape.end, shape, True)
            if size >= 5 or (size >= 3 and shape.prefix) or matches_code(shape.serial, self.names):
                return Piece(shape.start, shape.end, shape, True)
        return None

    def _contradicts(self, kind: str, spot: Spot) -> bool:
        """A price has no letters before it; a model has no six digits, unless it is called a model number."""
        if kind == "model-name":
            last = kind_of(spot.lead.words[-1]) if spot.lead.words else None
            return spot.end - spot.digit > 5 and last is not cues.NUMBER
        return kind in ("price", "telephone") and spot.begin < spot.digit

    def _is_of_another_thing(self, spot: Spot, kind: str) -> bool:
        """'my number is ...', 'the job number ...', where no machine is spoken of."""
        if spot.begin < spot.digit:
            return False
        return self._is_telephone(spot, kind) or (not self.about and names_another_thing(spot.lead.words))

    def _is_telephone(self, spot: Spot, kind: str) -> bool:
        """'555-0147', 'my number is 960551': where no machine is spoken of, or its number has its own word."""
        words = spot.lead.words[-3:]
        own = kind == cues.NUMBER and any(word in _MY for word in words) and spot.begin == spot.digit
        local = _LOCAL.match(self.plain, spot.digit) is not None and spot.begin == spot.digit
        return (own and speaks_of_a_mark(self.low)) or (local and (not self.about or speaks_of_a_mark(self.low)))

    def _is_short_serial(self, spot: Spot, size: int) -> bool:
        """'No. 17': of a machine, and not 'No. 17 of the series'."""
        if _ONE_OF.match(self.low, spot.end) or not self.about:
            return False
        return speaks_of_a_mark(self.low) or says_nothing_else(self.low) or _NUMBERED_MACHINE.search(self.low[: spot.begin]) is not None

    def _code(self, spot: Spot, cued: bool) -> Piece | None:
        """A mixed code: letters and digits in one piece that no plain serial has."""
        match = _MIXED.match(self.plain, spot.start)
        if match is None:
            return None
        typed = match.group()
        serial = re.sub(r"[ .\-/]", "", typed).upper()
        parts = re.match(r"([A-Z]*)(\d+)([A-Z0-9]*)", serial)
        if parts is None or match.end() <= spot.digit:
            return None
        plain_serial = not re.search(r"\d[A-Z]+\d", serial)
        if not matches_code(serial, self.names) and (plain_serial or not cued or len(serial) < 5 or _only_look_alikes(serial)):
            return None
        shape = Shape(spot.start, match.end(), parts[1], parts[2], parts[3])
        return Piece(shape.start, shape.end, shape, cued)

    def _uncued(self, spot: Spot, kind: str, region: str) -> Piece | None:
        if region == "signature":
            return None
        code = self._code(spot, cued=False)
        if code is not None:
            return code
        marked = kind in _SAYS_LITTLE and kind != ""
        if self._is_of_another_thing(spot, kind):
            return None
        for shape in shapes_at(self.plain, spot.start, spot.digit, self.names, self.floor):
            if self._looks_serial(shape, marked):
                self._about = self._about or shape.known_to(self.names)
                return Piece(shape.start, shape.end, shape, marked)
        return None

    def _looks_serial(self, shape: Shape, marked: bool) -> bool:
        size = len(shape.digits)
        if matches_code(shape.serial, self.names):
            return self.about or len(shape.serial) > 5
        if size > 12 or size < 3:
            return False
        if shape.known_to(self.names) and (size > 4 or shape.prefix):
            return True
        if not (self.about or marked):
            return False
        if shape.prefix:
            return len(shape.prefix) < 4 and 4 <= size <= 9
        return 5 <= size <= 8 or (marked and self.about and 4 <= size <= 10)


_MIXED: Final = re.compile(r"[A-Za-z0-9]+(?:[\-][A-Za-z0-9]+){0,4}")


def _registered(found: Introduced) -> Piece:
    return Piece(found.start, found.end, None, False, "patent", found.number, found.registers)


def _only_look_alikes(serial: str) -> bool:
    digits = re.sub(r"^[A-Z]+", "", serial)
    return bool(re.fullmatch(r"[0-9OQDILZSGB]+[A-Z]{0,2}", digits))


def _passed(spot: Spot, end: int, because: str) -> Piece:
    start = spot.start if end > spot.start else spot.digit
    return Piece(start, max(end, spot.digit + 1), because=because)


def _grouped_end(spot: Spot, kind: str) -> int:
    match = (_TELEPHONE if kind == "telephone" else _GROUPED).match(spot.plain, spot.digit)
    end = match.end() if match and kind else spot.end
    return max(end, spot.start + len(spot.typed.rstrip("?*_#")))


def _as_long(previous: Piece, spot: Spot) -> bool:
    return abs((previous.end - previous.start) - (spot.end - spot.digit)) < 3


_WORD: Final = re.compile(r"[^\W\d_]+")


def _names_a_thing(low: str, names: Names) -> bool:
    words = _WORD.findall(low[:2_000])
    for table in (names.makers, names.models, names.works):
        if table and any(word in table for word in words):
            return True
    pairs = zip(words, words[1:], strict=False)
    return any(f"{a} {b}" in names.makers or f"{a} {b}" in names.models for a, b in pairs)

