"""Free text to serial tokens, and what was passed over and why.

>>> from knowledge.names import Names
>>> [token.serial for token in find("my gran's machine says K 0 204 117, how old is it?", Names()).tokens]
['K0204117']
"""

from __future__ import annotations

import re
from bisect import bisect
from typing import Final

from knowledge.names import Names
from knowledge.tokens.corrections import taken_back
from knowledge.tokens.fold import Folded, fold_text
from knowledge.tokens.introducers import may_introduce
from knowledge.tokens.named_letters import rewrite_named_letters
from knowledge.tokens.nouns import Found, PassedOver, SerialToken
from knowledge.tokens.pieces import Piece
from knowledge.tokens.scan import Walk
from knowledge.tokens.spoken import rewrite_spoken, says_digits
from knowledge.tokens.unreadable import rewrite_doubtful

__all__ = ["Found", "PassedOver", "SerialToken", "find"]

_APART: Final = str.maketrans(dict.fromkeys(".,;:!?()[]{}<>/\\|-–—_'\"“”„«»…*~`+=&", " "))
_NOTHING: Final = Found()
_ANY_DIGIT: Final = re.compile(r"[\d\u2460-\u2473\u24ea\u2776-\u2793]")


def find(text: str, names: Names) -> Found:
    """Return the serial tokens of a message, and the pieces passed over with their reasons.

    Takes any string and never raises; time grows with the length of the text.
    """
    words = text.lower().translate(_APART).split()
    written = _ANY_DIGIT.search(text) is not None
    spoken = says_digits(words, written=written)
    if not (written or spoken or may_introduce(words, names)):
        return _NOTHING
    folded = fold_text(text)
    folded = rewrite_spoken(folded) if spoken else folded
    folded = rewrite_named_letters(rewrite_doubtful(folded, names))
    return _found(text, folded, list(Walk(folded.plain, names).pieces()))


def _found(text: str, folded: Folded, pieces: list[Piece]) -> Found:
    if folded.starts is not None:
        pieces = _apart(folded, pieces)
    places = [piece for piece in pieces if piece.shape is not None]
    tokens = [_token(text, folded, piece) for piece in places]
    gone = taken_back(folded.plain.lower(), [(piece.start, piece.end) for piece in places], tokens)
    wrong = {tokens[i].serial: i for i in sorted(gone)}  # it was wrong wherever it was written before
    gone |= {i for i, token in enumerate(tokens) if i < wrong.get(token.serial, 0)}
    passed = [_passed(text, folded, piece) for piece in pieces if piece.shape is None]
    passed += [PassedOver(tokens[i].text, tokens[i].start, tokens[i].end, "taken-back") for i in gone]
    kept = [token for i, token in enumerate(tokens) if i not in gone]
    return Found(_each_once(kept), tuple(sorted(passed, key=lambda piece: piece.start)))


def _apart(folded: Folded, pieces: list[Piece]) -> list[Piece]:
    """Leave out pieces of one rewritten phrase that come from the same place of the text as given."""
    kept: list[Piece] = []
    taken = [(-1, 0)]
    for piece in sorted(pieces, key=lambda piece: piece.shape is None):
        start, end = folded.span(piece.start, piece.end)
        place = bisect(taken, (start, end))
        if taken[place - 1][1] <= start and (place == len(taken) or end <= taken[place][0]):
            taken.insert(place, (start, end))
            kept.append(piece)
    return sorted(kept, key=lambda piece: folded.span(piece.start, piece.end))


def _token(text: str, folded: Folded, piece: Piece) -> SerialToken:
    start, end = folded.span(piece.start, piece.end)
    shape = piece.shape
    assert shape is not None
    return SerialToken(
        text[start:end], start, end, shape.prefix, shape.digits, shape.suffix, piece.introduced, shape.letters
    )


def _passed(text: str, folded: Folded, piece: Piece) -> PassedOver:
    start, end = folded.span(piece.start, piece.end)
    register = piece.registers[0] if piece.registers else ""
    return PassedOver(text[start:end], start, end, piece.because, piece.number, register, piece.registers)


def _each_once(tokens: list[SerialToken]) -> tuple[SerialToken, ...]:
    """Keep one token for each number; a number written again without its letter is the same number."""
    kept: dict[tuple[str, str, str], SerialToken] = {}
    for token in sorted(tokens, key=lambda t: (not t.introduced, t.start)):
        kept.setdefault((token.prefix, token.digits, token.suffix), token)
    whole = {token.digits for token in kept.values() if token.prefix}
    return tuple(
        sorted(
            (t for t in kept.values() if t.prefix or t.suffix or t.digits not in whole), key=lambda token: token.start
        )
    )
