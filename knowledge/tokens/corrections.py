"""Numbers the asker takes back: 'sorry, it is K204171', 'K204171, not K204117', '*K204171'.

What takes a number back stands before it ('not'), behind it ('is wrong'), or before the number that is right
('sorry'). Where two numbers differ in a digit or two, which is how slips look, less needs to be said.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from knowledge.tokens import correction_words as words
from knowledge.tokens.fold import fold_word
from knowledge.tokens.nouns import SerialToken

_WINDOW: Final = 100  # characters looked at on either side of a number
_SIGNS: Final = r"[ ,.:;!/()\"'*\n<>~=-]"


def _any(phrases: str, separator: str = "|") -> str:
    folded = {re.escape(fold_word(phrase)).replace(r"\ ", " ") for phrase in phrases.split(separator)}
    return "(?:" + "|".join(sorted(folded, key=lambda phrase: (-len(phrase), phrase))) + ")"


def _words(phrases: str) -> str:
    return rf"(?:(?<![^\W_]){_any(phrases)}(?![^\W_]))"


_CORRECTING: Final = _words("|".join(words.CORRECTING.values()))
_AFTER_NOT: Final = frozenset(map(fold_word, words.AFTER_NOT.split()))
_FILLERS: Final = rf"(?:{_SIGNS}|{_words(words.FILLER)}){{0,16}}"
_CORRECTS: Final = re.compile(
    rf"(?:(?P<marker>{_CORRECTING})(?!\.[^\W\d_])|(?<=[,;:.!?(-]) ?(?:{_any(words.ACTUALLY)}|"
    rf"no(?=[ ,;!-] ?(?!nr|no)[^\W\d_]{{2}}|[,;!-]))){_FILLERS}\Z"
)
_SAYS_SO: Final = re.compile(_CORRECTING)
_UNLESS: Final = re.compile(rf"{_words(words.UNLESS)} (?:[^\W\d_]+ )?\Z")
_EITHER: Final = re.compile(rf"{_words(words.EITHER)}(?:{_SIGNS}|{_words(words.FILLER)}){{0,6}}\Z")
_ONLY_FILLERS: Final = re.compile(rf"(?:{_SIGNS}|{_words(words.FILLER)}){{3,12}}")
_EARLIER_AFTER: Final = re.compile(rf" {_any(words.EARLIER)}(?![^\W_])")
_NOT_FILLERS: Final = rf"(?: {_any(words.NOT_FILLER)}(?![^\W_]))*[ \"'(*]*\Z"
_NOT: Final = re.compile(rf"(?<![^\W_]){_any(words.NOT)}(?![^\W_]){_NOT_FILLERS}")
_OR_A_CRY: Final = frozenset("non nie ne nej".split())  # 'not', or 'no!'
_NOT_BEHIND: Final = re.compile(rf"[,;.!-] ?(?:y |e |and )?{_any(words.AFTER_ANY)}{_NOT_FILLERS}")
_AND_NOT: Final = re.compile(rf"[ ,]{_any(words.AND_NOT)}{_NOT_FILLERS}")
_WAS_ANOTHERS: Final = re.compile(
    rf"(?: {_any(words.EARLIER)})?[ ,.;:-]{{0,3}}(?:(?:that|it|this|which|but that|but it) )?(?:was|came) "
    rf"(?:on |off |from |of )?(?:the|my|its|a)(?: [^\W\d_]+(?:'s)?){{0,2}} {_any(words.LOCKS)}(?![^\W_])"
)
_FORGET_WHAT: Final = re.compile(
    r"(?:forget|ignore|disregard) (?:what|everything|the number) (?:i|we) [^\d.!?]{2,30}\Z"
)
_NOT_ALONE: Final = re.compile(rf"{_words(words.IGNORE)}{_NOT_FILLERS}")
_AT_FIRST: Final = re.compile(
    rf"(?<![^\W_])(?:(?:i|we|ich|je|ik|j'ai) )?(?:had )?{_any(words.EARLIER)} ?(?:(?:i|we|ich|j'ai|ik) )?(?:had )?"
    rf"{_any(words.WROTE)}(?: (?:it|was|as|that|number|the|of))*[ :,\"']*\Z|\((?:it )?(?:{_any(words.EARLIER)}|was|war|"
    rf"etait|era|byl|bylo) ?:? ?\Z"
)
_IN_CLAUSE: Final = re.compile(
    rf"(?<![^\W_])(?:(?P<wrote>{_any(words.WROTE)})|{_any(words.EARLIER)})(?![^\W_])(?: [^\W\d_]+){{0,5}}[ :,\"']*\Z"
)
_CONTRASTS: Final = re.compile(rf"{_words(words.CONTRAST)}{_FILLERS}\Z")
_IT_IS: Final = re.compile(rf"[ ,.;:)-]{{1,3}}{_any(words.IT_IS)} \"?")
_WROTE: Final = re.compile(
    rf"{_words(words.WROTE)}(?: (?:it|was|as|that|number|the|of|es|le|la|il|het|to))*[ :,\"']*\Z"
)
_IS_WRONG: Final = re.compile(
    rf"(?:[ ,(:!<-]|{_words(words.WRONG_FILLER)}){{0,10}}(?<![^\W_]){_any(words.WRONG)}(?![^\W_])|~~"
)
_RIGHT_AFTER: Final = re.compile(rf"[ ,(<-]*{_any(words.RIGHT_AFTER)}(?![^\W_])")
_FORGET: Final = re.compile(
    rf"[ ,.;:!()-]*(?:{_any(words.FORGET_FIRST)}[ ,]*){{0,2}}{_any(words.FORGET)}(?![^\W_])(?! [^ ]{{0,20}}\d)"
)
_CHANGE: Final = re.compile(rf"(?<![^\W_]){_any(words.CHANGE)}(?: [^\W\d_]+){{0,3}} ?\Z")
_INTO: Final = re.compile(rf" {_any(words.INTO)} \Z")
_STARRED: Final = re.compile(r"(?:\A|[\s(])\* ?\Z")
_STRONG: Final = re.compile(r"[ \"')]*!")
_WAS: Final = re.compile(rf"[ \"')]*{_any(words.WAS)}(?![^\W_])")
_SUBSTITUTED: Final = re.compile(r"(?<![^\W_])s/\Z")
_EXCLAIMED: Final = re.compile(r"[ ,]{0,2}[.!;\n-][ .!;\n-]{0,5}(?:[^\W\d_]+[ ,.!:-]{1,4})?")
_ASKED: Final = re.compile(r"[ \"')]*\?[ \"'(]*\Z")


def taken_back(low: str, places: Sequence[tuple[int, int]], tokens: Sequence[SerialToken]) -> set[int]:
    """Return which of the tokens the asker takes back; `places` are where they stand in the folded text `low`."""
    gone: set[int] = set()
    forgotten: set[int] = set()
    for index, (_, end) in enumerate(places):
        before = _before(low, places, index)
        forgotten_before = _NOT_ALONE.search(before) or (_FORGET_WHAT.search(before) and _WAS.match(low, end))
        if _FORGET.match(low, end) or forgotten_before:
            forgotten.add(index)
        starred = index > 0 and _STARRED.search(before) is not None and _is_like(index, index - 1, tokens)
        if not starred and _has_another(index, tokens) and _is_denied(low, before, end, index, tokens):
            gone.add(index)
        elif starred or (index and _corrects(low, places, tokens, gone, index)):
            gone.add(index - 1)
    return (gone if len(gone) < len(places) else gone - {len(places) - 1}) | forgotten


def _before(low: str, places: Sequence[tuple[int, int]], index: int) -> str:
    """Return the text before a number, back to the number before it."""
    start = places[index][0]
    floor = places[index - 1][1] if index else 0
    return low[max(floor, start - _WINDOW) : start]


def _is_denied(low: str, before: str, end: int, index: int, tokens: Sequence[SerialToken]) -> bool:
    """'not K204117', 'I first typed K204117', 'K204117 is wrong'."""
    if _WAS_ANOTHERS.match(low, end) or (index and _AND_NOT.search(before)):
        return True
    denied = _NOT.search(before)
    if denied and denied.group().split()[0] in _OR_A_CRY and index and _SAYS_SO.search(before, 0, denied.start()):
        denied = None  # 'K204117, euh non K204171'
    if denied or (index and _NOT_BEHIND.search(before)) or _IS_WRONG.match(low, end):
        return True
    at_first = _AT_FIRST.search(before) or (_WROTE.search(before) and _EARLIER_AFTER.match(low, end))
    if at_first and any(_is_like(index, other, tokens) for other in (index - 1, index + 1)):
        return True
    swapped = any(_is_swapped(index, other, tokens) for other in (index - 1, index + 1))
    return swapped and bool(_WAS.match(low, end) or (index and _WROTE.search(before) and not _CORRECTS.search(before)))


def _corrects(
    low: str, places: Sequence[tuple[int, int]], tokens: Sequence[SerialToken], gone: set[int], index: int
) -> bool:
    """Say whether a number stands instead of the one before it."""
    between, earlier, end = _before(low, places, index), _before(low, places, index - 1), places[index][1]
    if tokens[index - 1].serial == tokens[index].serial:
        return False
    if _replaces(earlier, between):
        return True
    alike = _is_like(index, index - 1, tokens)
    if _is_marked(between, after_not=index - 1 in gone or (alike and _WROTE.search(earlier) is not None)):
        return True
    if not alike:
        return False
    if _was_thought_before(earlier, between) or (_ASKED.match(between) and _STRONG.match(low, end)):
        return True
    if _EITHER.search(between):
        return False
    cried = _is_swapped(index, index - 1, tokens) and _EXCLAIMED.fullmatch(between)
    return bool(cried or _RIGHT_AFTER.match(low, end)) or _is_put_right(earlier, between)


def _replaces(earlier: str, between: str) -> bool:
    """'change K204117 to K204171', 's/K204117/K204171/'."""
    if _SUBSTITUTED.search(earlier):
        return between == "/"
    return bool(_CHANGE.search(earlier) and _INTO.fullmatch(between))


def _is_marked(between: str, *, after_not: bool) -> bool:
    """'sorry, it is K204171'; words such as 'but' count only after 'not' or 'I wrote'."""
    match = _CORRECTS.search(between)
    if match is None or _UNLESS.search(between, 0, match.start()):
        return False
    return after_not or (match["marker"] or "") not in _AFTER_NOT


def _is_put_right(earlier: str, between: str) -> bool:
    """Say whether a slip is spoken of between two numbers that are alike, or just before them."""
    if _is_spoken_of_as_a_slip(between):
        return True
    return _ONLY_FILLERS.fullmatch(between) is not None and _is_spoken_of_as_a_slip(earlier)


def _was_thought_before(earlier: str, between: str) -> bool:
    """'first I read K204117 but it is K204171', 'they had K204117. It is K204171'."""
    first = _IN_CLAUSE.search(earlier)
    if first is None:
        return False
    return bool(_CONTRASTS.search(between) or (first["wrote"] and _IT_IS.fullmatch(between)))


def _is_spoken_of_as_a_slip(between: str) -> bool:
    return any(
        match.group() not in _AFTER_NOT and not _UNLESS.search(between, 0, match.start())
        for match in _SAYS_SO.finditer(between)
    )


def _is_like(index: int, other: int, tokens: Sequence[SerialToken]) -> bool:
    """Say whether there is another such token, and differs by no more than a slip."""
    return 0 <= other < len(tokens) and _differ_by_a_slip(tokens[index].serial, tokens[other].serial)


def _is_swapped(index: int, other: int, tokens: Sequence[SerialToken]) -> bool:
    """Say whether there is another such token with two neighbours exchanged: a slip, never another reading."""
    if not 0 <= other < len(tokens) or len(tokens[index].serial) != len(tokens[other].serial):
        return False
    one, two = tokens[index].serial, tokens[other].serial
    differ = [place for place, (a, b) in enumerate(zip(one, two, strict=True)) if a != b]
    return (
        len(differ) == 2
        and differ[1] - differ[0] == 1
        and one[differ[0]] == two[differ[1]]
        and one[differ[1]] == two[differ[0]]
    )


def _has_another(index: int, tokens: Sequence[SerialToken]) -> bool:
    beside = [tokens[place] for place in (index - 1, index + 1) if 0 <= place < len(tokens)]
    return any(token.serial != tokens[index].serial for token in beside)


def _differ_by_a_slip(one: str, other: str) -> bool:
    """Say whether two numbers differ in at most two places, or by one digit too many."""
    if len(one) == len(other):
        return 0 < sum(a != b for a, b in zip(one, other, strict=True)) <= 2
    longer, shorter = sorted((one, other), key=len, reverse=True)
    return len(longer) - len(shorter) == 1 and any(
        longer[:place] + longer[place + 1 :] == shorter for place in range(len(longer))
    )
