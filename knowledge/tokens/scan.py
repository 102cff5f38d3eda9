"""One walk over a folded message: each piece with a digit is passed over with a reason, or becomes a serial token."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from knowledge.names import Names
from knowledge.tokens import cues
from knowledge.tokens import words as lists
from knowledge.tokens.codes import code_begin, mixed_code, whole_code
from knowledge.tokens.context import follow, lead
from knowledge.tokens.cues import kind_of
from knowledge.tokens.introducers import introduced_marks, introduced_number
from knowledge.tokens.judging import Message
from knowledge.tokens.other_things import is_of_another_thing, words_after
from knowledge.tokens.passing_over import FIRM, SOFT, Row
from knowledge.tokens.pieces import Piece, digits_at, passed, passed_unread, passed_whole, registered, token
from knowledge.tokens.regions import Region, regions
from knowledge.tokens.rules import places
from knowledge.tokens.rules.spot import Spot, any_of
from knowledge.tokens.shaping import LONGEST, Shape, known_whole, letter_apart, matches_code, shapes_at

_KIND_OF_MACHINE: Final = re.compile(
    r"(?:long|round|vibrating|oscillating|rotary|boat|central|bullet|transverse|straight)[ -]"
    r"(?:shuttle|bobbin|hook|needle)[,:;]? \Z"
)
_SUFFIXED: Final = re.compile(r"(\d{1,3}(?:[ .]?\d{3}){1,2}) ([A-Z])(?![^\W_]|['.]\w)(?! [a-z'])")
_LONG_COUNT: Final = re.compile(r"\d{1,2}(?:,\d{3}){1,2}(?![^\W_]|,\d)")
_LABEL_ENDS: Final = re.compile(r" ?(?:[,.;)\n]|\Z)")
_FURTHER: Final = re.compile(r"(?:[-/]\d{1,8}){1,3}")
_DIGIT: Final = re.compile(r"[0-9]")
_PIECE_END: Final = re.compile(r"[A-Za-z0-9?_*#|]*")
_PIECE_HEAD: Final = re.compile(r"[A-Za-z?_*#]{0,24}\Z")
_AND: Final = any_of(
    "and or nor then also plus und oder sowie dann et ou puis y o e u luego oppure poi en of dan i lub albo potem и "
    "или либо "
    "потом och eller sedan og a nebo bis to"
)
_CONJUNCTION: Final = re.compile(
    rf"(?: ?\([^()\n0-9]{{0,12}}\d?\))?(?:(?<=\)) |[ ,)]{{0,4}}(?:[,;/&+]|(?<![^\W_]){_AND}(?![^\W_]))"
    rf"(?: ?{_AND}(?![^\W_]))? {{0,3}})(?:(?:no|nr|number|also)\.? ?)?"
)
_NUMBER_ONLY: Final = re.compile(r"[0-9?]{1,20}[A-Za-z]?(?![0-9A-Za-z])")
_SAYS_LITTLE: Final = frozenset({"", cues.MARKED, cues.STAMPED, cues.NUMBER})
_NO_CUE: Final = frozenset({None, cues.FILLER, cues.ASIDE})
_INHERITED: Final = frozenset(
    {"telephone", "order-number", "part-number", "patent", "reference", "price", "model-name"}
)


class Walk:
    """The walk itself: `pieces()` gives the pieces of `plain` from left to right, none overlapping."""

    def __init__(self, plain: str, names: Names) -> None:
        self.plain = plain
        self.names = names
        self.message = Message(plain, names)
        self.low = self.message.low
        self.floor = 0
        self.previous: Piece | None = None
        self._regions: list[Region] = regions(self.low)[::-1]

    def pieces(self) -> Iterator[Piece]:
        """Give the pieces of the text from left to right."""
        marks = introduced_marks(self.plain, self.low, self.names)[::-1]
        while match := _DIGIT.search(self.plain, self.floor):
            if marks and marks[-1].start <= match.start():
                piece = registered(marks.pop())
            else:
                piece = self._piece(match.start())
            self.floor = max(piece.end, self.floor + 1)
            self.previous = piece
            yield piece
        yield from map(registered, reversed(marks))

    def _piece(self, digit: int) -> Piece:
        spot = self._spot(digit)
        region = self._region(digit)
        if region == "quoted":
            return Piece(spot.start, spot.end, because="quoted")
        signed = region == "signature"
        piece = self._at_once(spot, signed=signed) or self._by_cue(spot) or self._by_itself(spot, signed=signed)
        if piece.shape and is_of_another_thing(spot.lead.words, words_after(self.low, piece.end)):
            return Piece(piece.start, piece.end, because="reference", named=True)
        return piece

    def _spot(self, digit: int) -> Spot:
        head = _PIECE_HEAD.search(self.plain, max(self.floor, digit - 24), digit)
        start = head.start() if head else digit
        if self._is_attached_cue(start, digit):
            start = digit  # 'No204117', 'Ticket#204117'
        match = _PIECE_END.match(self.plain, digit)
        end = match.end() if match else digit + 1
        begin = letter_apart(self.plain, start, self.floor, self.names) if start == digit else start
        before = lead(self.low, begin)
        if not before.near and (code := code_begin(self.plain, start, self.floor)) < begin:
            at_code = lead(self.low, code)
            before = at_code if at_code.near and at_code.kind == cues.SERIAL else before
        return Spot(self.plain, self.low, begin, start, digit, end, before, self.names, self.floor)

    def _is_attached_cue(self, start: int, digit: int) -> bool:
        letters = self.low[start:digit].rstrip("#")
        if len(letters) < 2 or kind_of(letters) in _NO_CUE or not _NUMBER_ONLY.match(self.plain, digit):
            return False
        return not any(prefix == letters.upper() for prefix, _, _ in self.names.shapes)

    def _region(self, place: int) -> str:
        while self._regions and self._regions[-1][1] <= place:
            self._regions.pop()
        return self._regions[-1][2] if self._regions and self._regions[-1][0] <= place else ""

    def _at_once(self, spot: Spot, *, signed: bool) -> Piece | None:
        """What needs no weighing: numbers of registers with an introducer, codes after a cue, the firm rules."""
        if self.names.introducers:
            joined = self.previous.registers if self.previous and self._is_joined(self.previous, spot) else ()
            if found := introduced_number(spot, joined):
                return registered(found)
        if spot.lead.kind == cues.SERIAL and spot.lead.near and (code := mixed_code(spot, cued=True)):
            return token(code, introduced=True)
        return (None if signed else self._known(spot)) or _by_rule(spot, FIRM)

    def _known(self, spot: Spot) -> Piece | None:
        """'O 300 418': a letter apart, and digits of a shape that a register has, that no word calls another thing."""
        kind = spot.lead.kind
        if spot.bare:
            return self._with_suffix(spot) if kind in _SAYS_LITTLE else None
        if spot.begin == spot.start or not (kind in _SAYS_LITTLE or kind in (cues.SERIAL, "price") or _is_held(spot)):
            return None
        end = known_whole(self.plain, self.plain[spot.begin : spot.begin + 2].rstrip(" .-/:"), spot.digit, self.names)
        if not end or follow(self.low, end) not in _SAYS_LITTLE:
            return None
        shapes = shapes_at(self.plain, spot.start, spot.digit, self.names, self.floor)
        shape = next((shape for shape in shapes if shape.end == end), None)
        return token(shape, introduced=kind != "" and kind != "price") if shape and shape.prefix else None

    def _with_suffix(self, spot: Spot) -> Piece | None:
        """'771 118 W': six digits or more, and a letter behind that a register has there."""
        match = _SUFFIXED.match(self.plain, spot.digit)
        digits = re.sub("[ .]", "", match[1]) if match else ""
        if match is None or len(digits) < 6 or ("", len(digits), match[2]) not in self.names.shapes:
            return None
        return token(Shape(spot.digit, match.end(), "", digits, match[2]), introduced=spot.lead.kind != "")

    def _by_cue(self, spot: Spot) -> Piece | None:
        """What the words before and after the number call it."""
        kind, near = self._kind(spot)
        if kind != cues.SERIAL and (other := _labelled(spot)):
            return passed_whole(spot, other)
        if kind == cues.SERIAL and not near and places.postcode(spot):
            return None
        if kind == cues.SERIAL or (kind == cues.NUMBER and near):
            if kind == cues.NUMBER and self.message.is_of_another_thing(spot, kind):
                return None
            return self._introduced(spot, kind, near)
        if spot.word_before in lists.IGNORED:
            return None
        if kind not in _SAYS_LITTLE and not self.message.contradicts(kind, spot, before=kind == spot.lead.kind):
            return passed_whole(spot, "part-number" if self.message.is_a_part(kind, spot) else kind)
        return None

    def _kind(self, spot: Spot) -> tuple[str, bool]:
        previous = self.previous
        if previous is not None and self._is_joined(previous, spot):
            if previous.shape is not None:
                if previous.introduced and len(previous.shape.digits) == digits_at(spot) < 5:
                    return cues.SERIAL, True
                return (cues.MARKED, False) if previous.introduced else ("", False)
            if (
                previous.named
                and previous.because in _INHERITED
                and self._is_bare(spot)
                and self._is_alike(previous, spot)
            ):
                return previous.because, True
            if not previous.named and previous.because in ("reference", "count") and spot.bare and digits_at(spot) < 4:
                return "", False
        kind, near = spot.lead.kind, spot.lead.near
        if kind in _SAYS_LITTLE or not near:
            further = _FURTHER.match(self.low, spot.end)
            after = follow(self.low, further.end() if further else spot.end)
            if after:
                return after, True
        return kind, near

    def _is_joined(self, previous: Piece, spot: Spot) -> bool:
        """'204117 and 204118', '204117; 204118'."""
        return _CONJUNCTION.fullmatch(self.low, previous.end, spot.begin) is not None

    def _is_bare(self, spot: Spot) -> bool:
        return not any(map(str.isalpha, self.plain[spot.begin : spot.digit]))

    def _is_alike(self, previous: Piece, spot: Spot) -> bool:
        """Say whether a number has about as many digits as the one before it, so that the same words name both."""
        before = sum(character.isdigit() for character in self.plain[previous.start : previous.end])
        return abs(before - digits_at(spot)) < 4 and not places.postcode(spot)

    def _introduced(self, spot: Spot, kind: str, near: bool) -> Piece | None:
        piece = self._introduced_plainly(spot, kind, near)
        if (
            kind == cues.SERIAL
            and (near or spot.word_before == ":")
            and (code := whole_code(spot, piece.shape if piece else None))
        ):
            return token(code, introduced=True)
        return piece

    def _introduced_plainly(self, spot: Spot, kind: str, near: bool) -> Piece | None:
        for shape in shapes_at(self.plain, spot.start, spot.digit, self.names, self.floor):
            size = len(shape.digits)
            if size > LONGEST:
                break
            if near and (kind == cues.SERIAL or size > 4 or self.message.is_short_serial(spot)):
                return token(shape, introduced=True)
            if size > 4 or (size > 2 and shape.prefix) or matches_code(shape.serial, self.names):
                return token(shape, introduced=True)
        return None

    def _by_itself(self, spot: Spot, *, signed: bool) -> Piece:
        """What the number looks like, when no word near it tells; in a signature it is never a serial."""
        kind, _ = self._kind(spot)
        piece = _by_rule(spot, SOFT)
        if piece is None and not signed:
            piece = self._uncued(spot, kind)
        if piece is None and self.message.is_telephone(spot, kind):
            piece = passed_whole(spot, "telephone")
        return piece or passed_unread(spot)

    def _uncued(self, spot: Spot, kind: str) -> Piece | None:
        code = mixed_code(spot, cued=False)
        if code is not None:
            return token(code, introduced=False)
        others = self.message.is_of_another_thing(spot, kind)
        marked = kind in _SAYS_LITTLE and kind != ""
        for shape in shapes_at(self.plain, spot.start, spot.digit, self.names, self.floor):
            if others and not (shape.suffix and (shape.prefix, len(shape.digits), shape.suffix) in self.names.shapes):
                continue
            if self.message.looks_serial(shape, marked):
                return token(shape, introduced=marked)
        return None


def _labelled(spot: Spot) -> str:
    """Return what a label calls a bare number: 'a casting number, 8840', 'cast inside the base 55812', or ''."""
    words, kinds = spot.lead.words, [kind_of(word) for word in spot.lead.words]
    if not spot.bare:
        return ""
    if words[-1:] == (",",) and kinds[-2:-1] == [cues.NUMBER] and _LABEL_ENDS.match(spot.low, spot.end):
        return str(kinds[-3]) if kinds[-3:-2] and kinds[-3] in _INHERITED else ""
    since = max(
        (i + 1 for i, kind in enumerate(kinds) if kind in (cues.PAUSE, cues.STOP) or words[i] == "."), default=0
    )
    clause, told = words[since:], kinds[since:]
    if clause[:1] and clause[0] in lists.CAST and told[1:2] == [cues.ASIDE] and len(clause) < 6:
        return "part-number"
    if _LONG_COUNT.match(spot.low, spot.digit) and "patent" in kinds and cues.SERIAL not in kinds and "." not in words:
        return "patent" if kinds[-1:] == [cues.NUMBER] else ""
    return ""


def _is_held(spot: Spot) -> bool:
    """'our club: S 226 330', 'record card: no. K/204/552'; 'long shuttle O 300 418' is a kind of machine."""
    kinds = [kind_of(word) for word in spot.lead.words]
    told = [word for word in spot.lead.words if kind_of(word) == spot.lead.kind]
    if spot.lead.kind in kinds and not {cues.STAMPED, cues.SERIAL}.isdisjoint(kinds[kinds.index(spot.lead.kind) + 1 :]):
        return True  # 'a casting number, and the stamped number is Y 514 290'
    if spot.lead.kind == "part-number":
        return _KIND_OF_MACHINE.search(spot.low, max(spot.begin - 30, 0), spot.begin) is not None
    if spot.lead.kind != "reference" or ":" not in spot.lead.words:
        return False
    colon = len(spot.lead.words) - 1 - spot.lead.words[::-1].index(":")
    return not lists.HOLDERS.isdisjoint({*told[-1:], *spot.lead.words[max(colon - 1, 0) : colon]})


def _by_rule(spot: Spot, table: Sequence[Row]) -> Piece | None:
    for because, rule in table:
        end = rule(spot)
        if end:
            return passed(spot, end, because)
    return None
