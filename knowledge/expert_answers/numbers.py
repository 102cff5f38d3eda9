"""How an answer says the number is stamped."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.stated import Stated
from knowledge.expert_answers.vocabulary import AND_GIVEN, LIKENESS, MINE, NOT_GIVEN
from knowledge.tokens.nouns import Found, PassedOver, SerialToken

SERIAL = "serial"
_YEAR = re.compile(r"\A(?:q[1-4] |\w,? )?1[789]\d\d(?: i)?\Z", re.IGNORECASE)
"""Said by itself it is a year, whatever letter is spoken of beside it, and whoever says it: '1904 I think'."""
_TO = re.compile(r"\s*(?:-|–|to|bis|through|until|till|a|al|tot)\s*")
_AND = re.compile(r"\s*(?:and|und|et|en|y|e)\s*")
_BETWEEN = re.compile(r"(?<![^\W_])(?:between|zwischen|entre|tra|fra|tussen)\s+(?:the )?\Z")


def serials_in(clause: Clause, found: Found) -> list[tuple[Stated, SerialToken]]:
    """Return the numbers that one clause gives; the two ends of a block are none."""
    tokens = [token for token in found.tokens if clause.start <= token.start < clause.end]
    tokens += [_as_token(one) for one in found.passed_over if _is_stamped(one, clause)]
    tokens = [token for token in tokens if not _YEAR.search(token.text) and not _is_an_end(token, tokens, clause)]
    tokens = [_with_its_letter(_with_one_letter(token), clause) for token in tokens]
    tokens += _opening_number(clause) if not tokens else []
    return [(Stated(SERIAL, (token.serial,), token.start, token.end), token) for token in tokens]


_STAMPED = re.compile(
    r"(?<![^\W_])(?:stamped|reads|(?:number|serial)(?: number)? (?:is|reads)|eingeschlagen|frappe|grabado|punzonato|"
    r"ingeslagen)(?: as| is| with| ist)?[: ]+\Z"
)
_WHOLE = re.compile(r"[0-9]{5,8}")


def _is_stamped(one: PassedOver, clause: Clause) -> bool:
    """Tell '999999' in 'it is stamped 999999', which in a question could be anything, from an order number."""
    inside = clause.start <= one.start and one.end <= clause.end
    return inside and _WHOLE.fullmatch(one.text) is not None and bool(_STAMPED.search(clause.low[: one.start]))


def _as_token(one: PassedOver) -> SerialToken:
    return SerialToken(one.text, one.start, one.end, "", one.text, "", introduced=True)


def _with_one_letter(token: SerialToken) -> SerialToken:
    """Leave out the letter that was named beside a number which has it: 'the last letter is A, 118240A'."""
    is_doubled = token.prefix and token.prefix == token.suffix and "," in token.text
    return replace(token, prefix="") if is_doubled else token


_WITH_A_LETTER = re.compile(
    r"[ ,]*(?:with|plus|mit|avec|con|met) (?:an? |einem |un |una |een )?(?P<letter>[a-z])(?![^\W_])"
    r"(?P<behind> (?:behind|after|following|at the (?:back|end)|dahinter|hinten|derriere|detras|dietro|erachter))?"
)


def _with_its_letter(token: SerialToken, clause: Clause) -> SerialToken:
    """Put the letter of '1204144 with an S' before its number."""
    match = _WITH_A_LETTER.match(clause.low, token.end, clause.end)
    if match is None or token.prefix or token.suffix:
        return token
    letter = match["letter"].upper()
    return replace(token, suffix=letter) if match["behind"] else replace(token, prefix=letter)


_OPENING = re.compile(
    r"(?:(?P<called>(?:the )?(?:number|serial)(?: number)? (?:is|reads))|number|serial|no\.?|nr\.?|nummer|numero|#|"
    r"it is|it's|its|it says|it reads|that is|that's)? ?(?P<digits>\d{1,5})"
    r"(?=\W*\Z| (?:is|was|ist|est|es|e|stamped|on the)(?![^\W_]))"
)


def _opening_number(clause: Clause) -> list[SerialToken]:
    """Return the short number that an answer opens with, a time or a name following: '11: 1866', '83, about 1866'."""
    match = _OPENING.match(clause.low[: clause.end], clause.start)
    follows = clause.low[clause.end :].lstrip()[:1]
    is_first = not clause.low[: clause.start].strip()
    if match is None or not (is_first or match["called"]) or _YEAR.search(match["digits"]):
        return []
    is_told = match.start("digits") > match.start()
    if clause.end == match.end() and not (follows and follows in ":,=-–") and not is_told:
        return []
    return [SerialToken(match["digits"], *match.span("digits"), "", match["digits"], "", introduced=False)]


def is_given(clause: Clause, number: Stated, said: Sequence[Stated]) -> bool:
    """Tell whether a number is given as the one stamped, and not only spoken of: 'K204117 is running again'."""
    before, behind = clause.low[clause.start : number.start], clause.low[number.end : clause.end]
    if LIKENESS.ends(before) or MINE.ends(before) or _UP_TO.search(before) or _NO_NUMBER.match(behind):
        return False
    if len(said) > 1 or not _has_words(before + behind):
        return True
    ends = not _has_words(behind) or AND_GIVEN.begins(clause.low[: clause.end], number.end) is not None
    return ends and NOT_GIVEN.search(" ".join(before.split()[-_NEAREST:])) is None


_NEAREST = 3
"""Words before a number that tell whether it is only spoken of."""


def _has_words(text: str) -> bool:
    return any(sign.isalnum() for sign in text)


_UP_TO = re.compile(
    r"(?<![^\W_])(?:up to|down to|as far as|between \S+(?: \S+)? and|from|bis|ab|jusqu'a|hasta|fino a|tot)\s+\Z"
)
_NO_NUMBER = re.compile(
    r" (?:onwards|and on|and up|and above|upwards|below|above|lower|higher|later|earlier|before|after|more|less|away)"
    r"(?![^\W_])"
)
"""Behind a number: a block begins with it, or it counts something."""


def _is_an_end(token: SerialToken, tokens: Sequence[SerialToken], clause: Clause) -> bool:
    """Tell whether a number is one end of 'K200001 to K225000' or 'between K200001 and K225000'."""
    for other in tokens:
        first, last = sorted((token, other), key=lambda one: one.start)
        apart = (first.end, last.start)
        if first is not last and (
            _TO.fullmatch(clause.low, *apart)
            or (_AND.fullmatch(clause.low, *apart) and _BETWEEN.search(clause.low[clause.start : first.start]))
        ):
            return True
    return False
