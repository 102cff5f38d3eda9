"""From what was typed to prefix, digits and suffix.

A number may be typed in groups (`K 0 204 117`), with look-alike letters (`K2O4ll7`) and with marks for digits that
could not be read (`K20?1_7`). A chat's mark-up around it (`**K204117**`) and the question mark of the sentence are no
part of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from knowledge.names import Names
from knowledge.tokens.cues import NUMBER, SERIAL, kind_of
from knowledge.tokens.unreadable import speaks_of_wear

LOOK_ALIKES: Final = str.maketrans("OQDILZSGB|", "0001125681")
MOST_DIGITS: Final = 9  # in one number that is typed in groups
LONGEST: Final = 20  # digits of a number typed in one piece

_GROUP: Final = re.compile(r"[0-9?_*#OQDILZSGBoqdilzsgb|]{1,30}")
_SEPARATOR: Final = re.compile(
    r"\.(?=[0-9?_*#OIloi|])| ?[\-/] ?(?=[0-9?_*#OIloi|])| {1,3}(?=[0-9?_*#OIloi|])|"
    r",(?=[0-9?])"
)
_PREFIX: Final = re.compile(r"([A-Za-z]{1,5})([#?_*]*)\Z|()(\?{0,6})\Z")
_SPACED_PREFIX: Final = re.compile(
    r"(?<![^\W_])(?<![A-Za-z][./'&])([A-Za-z]{1,3})(?: {0,2}[.\-/:,;\n]? {0,3}|[)\]\"'] ?[\"']?| ?\.{2,4} ?)\Z"
)
_SUFFIX: Final = re.compile(r"([A-Za-z]{1,3})(?![^\W_])|(?=[A-Za-z]{4})")
_SPACED_SUFFIX: Final = re.compile(r"[ \-/.]([A-Z]{1,2})(?![^\W_]|['.]\w)")
NO_PREFIX: Final = frozenset(
    "a i is it no nr on in at of to or as an am my me we so by he if up do go us be was the for and not has are its "
    "but "
    "num ser der die das ist und von est une les des le la un de el es il lo di en y e o u d l s n het een op jo st "
    "to je na za do po mit im am zu da du om av er et og ar ha i w z v m p t c old new nos non now yes all one sn "
    "pn id reg ref tel mob fax vat lot uk us usa eu ok hi hey pls plz thx lol btw rd pat max min ca jan feb mar apr "
    "may jun jul aug sep oct nov dec mk typ gen vol fig dm rm sfr fr frs rs eur gbp usd chf sek nok dkk pln rub czk "
    "kr zl kc rs aka pp ps "
    "pm vb bj box app got get see try say two ten six met per via".split()
)
_MEASURED: Final = re.compile(r" ?(?:%|°|[Vv]olts?\b|[VAW]\b|[Hh]z\b|rpm\b|mm\b|cm\b|kg\b|lbs?\b|inch|,-|[€£$](?!\d))")


@dataclass(frozen=True, slots=True)
class Shape:
    """One way to read what stands at a place: `start` and `end` in the folded text, and the cleaned parts."""

    start: int
    end: int
    prefix: str
    digits: str
    suffix: str
    letters: tuple[int, ...] = ()
    groups: int = 1

    @property
    def serial(self) -> str:
        """The whole number, without separators."""
        return self.prefix + self.digits + self.suffix

    def known_to(self, names: Names) -> bool:
        """Say whether a register has numbers of this shape, or a date code matches."""
        shapes = names.shapes
        return (
            (self.prefix, len(self.digits), self.suffix) in shapes
            or (4 < len(self.digits) < 9 and (self.prefix, 0, self.suffix) in shapes)
            or matches_code(self.serial, names)
        )


def matches_code(serial: str, names: Names) -> bool:
    """Say whether a cleaned serial is one of the date codes."""
    return any(code.fullmatch(serial) for code in names.codes)


@dataclass(frozen=True, slots=True)
class _Group:
    start: int
    end: int
    typed: str
    separator: str


def shapes_at(plain: str, start: int, digit: int, names: Names, floor: int = 0) -> Iterator[Shape]:
    """Give the ways to read a number whose piece begins at `start` and whose first digit is at `digit`, longest first.

    Nothing before `floor` is looked at.
    """
    head = _head(plain, start, digit, floor, names)
    if head is None:
        return
    begin, prefix, body = head
    groups = _groups(plain, body, prefix, names)
    for count in _cuts(groups, bool(prefix), plain, names, prefix):
        yield from _finished(plain, begin, prefix, groups[:count], names)


def _head(plain: str, start: int, digit: int, floor: int, names: Names) -> tuple[int, str, int] | None:
    """Return where the number begins, its prefix, and where its digits begin."""
    match = _PREFIX.search(plain, start, digit)
    if match is None:
        return None
    letters, unread = match.group(1) or "", match.group(2) or match.group(4) or ""
    body = digit - len(unread)
    if letters and match.start() > start and plain[match.start() - 1].isalpha():
        return None
    if letters:
        if len(letters) > 4:
            return digit, "", digit
        return match.start(1), letters.upper(), body
    apart = letter_apart(plain, body, floor, names)
    if apart < body:
        return apart, _LETTERS.match(plain, apart).group().upper(), body  # type: ignore[union-attr]
    return body, "", body


_LETTERS: Final = re.compile(r"[A-Za-z]+")


def letter_apart(plain: str, start: int, floor: int, names: Names) -> int:
    """Return where a number begins whose prefix stands apart from it (`K 204117`); `start` when there is none."""
    spaced = _SPACED_PREFIX.search(plain, max(floor, start - 10), start)
    return spaced.start(1) if spaced and _is_prefix(plain, spaced, names) else start


def _is_prefix(plain: str, match: re.Match[str], names: Names) -> bool:
    letters = match.group(1)
    apart = plain[match.end(1) : match.end()]
    if ")" in apart and plain[max(match.start() - 1, 0) : match.start()] != "(" and letters.islower():
        return False  # 'b) 204117': an item of a list
    if not set(",;").isdisjoint(apart) and not (
        letters.isupper() and _OPENS.search(plain, max(match.start() - 8, 0), match.start())
    ):
        return False
    if len(letters) == 1:
        if letters.isupper():
            return (
                letters not in "AI" or _stands_alone(plain, match, names) or not _is_a_word_there(plain, match.start(1))
            )
        return letters not in NO_PREFIX or (_is_named(plain, match.start(1)) and _is_known(plain, match, names))
    upper = letters.upper()
    if letters.isupper() and any(prefix == upper for prefix, _, _ in names.shapes):
        return True
    if letters.islower() and len(letters) == 2 and match.start(1) < 4 and not plain[: match.start(1)].strip():
        return _is_known(plain, match, names)
    return len(letters) == 2 and letters.isupper() and letters.lower() not in NO_PREFIX and not kind_of(letters.lower())


_OPENS: Final = re.compile(
    r"(?:\A|\n|[:(\"] ?| (?:is|as|its|ist|es|est|jest|are|have|has|mine|says|reads|war|"
    r"was) )\Z"
)
"""Where a number may begin whose letter has a comma after it: 'mine is K, 204117'."""
_CAPITALS: Final = re.compile(r"[A-Z]{2} \Z")


def _is_a_word_there(plain: str, place: int) -> bool:
    """Say whether a capital A or I is a word: it opens a sentence, or stands among capitals ('MY MACHINE IS A ...')."""
    if _CAPITALS.search(plain, max(place - 12, 0), place):
        return True
    before = plain[max(place - 3, 0) : place].rstrip(" ")
    return not before or before[-1] in ".!?\n"


_WHOLE: Final = re.compile(r"[0-9?]{1,4}(?:[ .\-/][0-9?]{1,4}){1,3}(?![\w?]|[.,/-]\d)|[0-9?]{5,8}(?!\w|[.,/-]\d)")
_COUNTED: Final = re.compile(
    rf"{_MEASURED.pattern}| (?:kr|kronor|kroner|euros?|eur|pounds?|dollars?|usd|francs?|marks?|zl|rubles?|miles|"
    r"people|times)\b"
)
_NO_NOUN: Final = re.compile(r" ?(?:[^\w\s]|\Z|\n)| (?:and|or|is|was|has|from|und|oder|et|ou|och|eller|y|o|e|i|en)\b")
_YEAR_ON: Final = re.compile(r"(?<![^\W_])(?:year|age|date|old)(?![^\W_])[^\d\n]{0,12} (?:on|of|for|is|a) \Z")
_LAST_WORD: Final = re.compile(r"([^\W\d_]+)[.:]? \Z")


def known_whole(plain: str, prefix: str, digit: int, names: Names) -> int:
    """Return where the number ends whose digits, alone or in groups, begin at `digit`; 0 when its shape is unknown."""
    match = _WHOLE.match(plain, digit)
    size = sum(character.isalnum() or character == "?" for character in match.group()) if match else 0
    if match is None or (prefix.upper(), size, "") not in names.shapes or _COUNTED.match(plain, match.end()):
        return 0
    return match.end()


def _is_known(plain: str, match: re.Match[str], names: Names) -> bool:
    return known_whole(plain, match.group(1), match.end(), names) > 0


def _stands_alone(plain: str, match: re.Match[str], names: Names) -> bool:
    """Say whether a number of a known shape has no thing behind that it might count: 'A 118 207, ...', 'A-402119'."""
    end = known_whole(plain, match.group(1), match.end(), names)
    if _CAPITALS.search(plain, max(match.start(1) - 12, 0), match.start(1)):
        return False
    return end > 0 and ("-" in match.group() or _NO_NOUN.match(plain, end) is not None)


def _is_named(plain: str, place: int) -> bool:
    """Say whether a small letter is no word there, or one for a number stands just before: 'nummer y 118 402'."""
    if plain[place] in ("dlmpt" if place else "dilmpstvwz"):
        return True  # no word in the middle of a sentence, or none that opens one
    before = plain[max(place - 40, 0) : place].lower()
    word = _LAST_WORD.search(before)
    if word and kind_of(word.group(1)) in (NUMBER, SERIAL):
        return True
    return plain[place] != "a" and _YEAR_ON.search(before) is not None  # 'the year of a 118 402' has an article


def _groups(plain: str, body: int, prefix: str, names: Names) -> list[_Group]:
    groups: list[_Group] = []
    place, separator = body, ""
    whole = {digits for letters, digits, _ in names.shapes if letters == prefix}
    while sum(len(group.typed) for group in groups) <= MOST_DIGITS:
        match = _GROUP.match(plain, place)
        earlier = sum(len(group.typed) for group in groups)
        typed = _trimmed(plain, match.group(), place, earlier) if match else ""
        if typed.endswith("?") and len(typed) > 1 and typed[-2] != "?":
            typed = _asked(plain, typed, place, earlier, whole)
        is_whole = earlier in whole and not any("?" in group.typed for group in groups)
        if typed == "?" and separator == " " and is_whole and _ends_a_question(plain, place):
            break
        if not typed:
            break
        end = place + len(typed)
        groups.append(_Group(place, end, typed, separator))
        gap = _SEPARATOR.match(plain, end)
        if gap is None or (end < len(plain) and plain[end].isalnum()):
            break
        place, separator = gap.end(), gap.group().strip() or " "
    return groups


def _ends_a_question(plain: str, place: int) -> bool:
    """Say whether a question mark behind a space is one: '5272 ? It is a treadle.'"""
    if re.match(r"\?[ .-]?[\d?_*#]", plain[place : place + 3]):
        return False
    return not speaks_of_wear(plain, place - 80, place + 80)


_WORD_END: Final = re.compile(r"[a-z]*[sgzbqd][a-z]*\Z")  # small letters that look like no digit: '204117is'


def _trimmed(plain: str, typed: str, place: int, earlier: int) -> str:
    """Drop letters at the end of a group that are a word or a suffix, and marks that belong to the sentence.

    `earlier` is the number of digits in the groups before.
    """
    following = plain[place + len(typed) : place + len(typed) + 1]
    if following.isalpha():
        typed = typed.rstrip("OQDILZSGBoqdilzsgb|")
    else:
        typed = _WORD_END.sub("", typed.rstrip("|"))
    if not any(c.isdigit() for c in typed) and not set(typed) <= set("?_*#OIl"):
        return ""
    return _without_marks(plain, typed, place, earlier)


def _without_marks(plain: str, typed: str, place: int, earlier: int) -> str:
    bare = typed.rstrip("?*_")
    marks = typed[len(bare) :]
    if not marks or not bare:
        return typed
    if marks[-1] in "*_" and _opened_before(plain, place, marks[-1]):
        return typed[: len(typed) - len(marks) + len(marks.rstrip("*_"))]
    if set(marks) == {"?"} and earlier + len(bare) > 5 and len(marks) > 1:
        return bare
    return typed


def _opened_before(plain: str, place: int, mark: str) -> bool:
    """Say whether mark-up was opened before on the same line, and not closed."""
    line = plain[max(plain.rfind("\n", max(place - 300, 0), place) + 1, place - 300, 0) : place]
    return len(re.findall(rf"(?<![\w{mark}])[{mark}]{{1,3}}(?=\S)", line)) > len(
        re.findall(rf"(?<=\w)[{mark}]{{1,3}}(?!\w)", line)
    )


def _asked(plain: str, typed: str, place: int, earlier: int, whole: set[int]) -> str:
    """Drop a last question mark that ends a question and does not stand for a digit."""
    following = plain[place + len(typed) : place + len(typed) + 4]
    bare = typed[:-1]
    digits = earlier + len(bare)
    if digits in whole and re.match(r" [A-Z]{0,2} ?\d", following):
        return bare  # 'K204117? K204177?'
    if speaks_of_wear(plain, place - 80, place + 80):
        return typed
    if re.match(r"[\w?*_#]| \?\d", following) or (len(bare) < 5 and re.match(r"[ .\-/]\d", following)):
        return typed
    if not re.match(r" ?[,)]| -|-| [a-z]{2}", following) or digits in whole:
        return bare
    return typed if digits + 1 in whole or digits < 6 else bare


def _cuts(groups: list[_Group], prefixed: bool, plain: str, names: Names, prefix: str) -> list[int]:
    """Return how many groups may belong together, best first."""
    counts = [count for count in range(len(groups), 0, -1) if _belong(groups[:count], prefixed, plain)]
    known = [c for c in counts if (prefix, sum(len(g.typed) for g in groups[:c]), "") in names.shapes]
    return [*known, *(count for count in counts if count not in known)]


def _belong(groups: list[_Group], prefixed: bool, plain: str) -> bool:
    if len(groups) == 1:
        return True
    sizes = [len(group.typed) for group in groups]
    if sum(sizes) > MOST_DIGITS or _MEASURED.match(plain, groups[-1].end):
        return False
    unread = any("?" in group.typed for group in groups[:-1]) and any(map(str.isdigit, groups[-1].typed))
    most = 6 if unread else 4
    if any(size > most for size in sizes[:-1]) or (sizes[-1] > most and sum(sizes[:-1]) > 2):
        return False
    if not prefixed and any(len(g.typed) == 4 and "1800" <= g.typed <= "2030" for g in groups):
        return False
    if sizes[1:-1] and all(size == 3 for size in sizes[1:-1]) and sizes[0] == 3 and sizes[-1] != 3:
        return False
    return len({group.separator for group in groups[2:]}) < 2 or (prefixed and max(sizes) == 1)


def _finished(plain: str, begin: int, prefix: str, groups: list[_Group], names: Names) -> Iterator[Shape]:
    typed = "".join(group.typed for group in groups)
    end = groups[-1].end
    digits, letters = _as_digits(typed)
    suffix, suffix_end = _suffix(plain, end, prefix, len(digits), names)
    last = digits[:-1]
    if letters and letters[-1] == len(last) and (prefix, len(last), typed[-1].upper()) in names.shapes:
        yield Shape(begin, end, prefix, last, typed[-1].upper(), letters[:-1], len(groups))
    if suffix_end:
        yield Shape(begin, suffix_end, prefix, digits, suffix, letters, len(groups))
    if not (end < len(plain) and plain[end].isalnum()) or suffix_end is None:
        yield Shape(begin, end, prefix, digits, "", letters, len(groups))


def _as_digits(typed: str) -> tuple[str, tuple[int, ...]]:
    upper = typed.upper()
    letters = tuple(place for place, c in enumerate(upper) if c in "OQDILZSGB|")
    plain = upper.translate(LOOK_ALIKES).replace("_", "?").replace("*", "?").replace("#", "?")
    return plain, letters


def _suffix(plain: str, end: int, prefix: str, digits: int, names: Names) -> tuple[str, int | None]:
    attached = _SUFFIX.match(plain, end)
    if attached:
        letters = attached.group(1) or ""
        if letters.isupper() or len(letters) == 1:
            return letters.upper(), attached.end()
        return "", None
    spaced = _SPACED_SUFFIX.match(plain, end)
    if spaced is None:
        return "", 0
    letters = spaced.group(1)
    if (prefix, digits, letters) in names.shapes:
        return letters, spaced.end()
    if prefix or digits < 4 or len(letters) > 1:
        return "", 0
    if letters in "AI" and re.match(r",? [a-z']", plain[spaced.end() : spaced.end() + 3]):
        return "", 0  # 'A friend says'
    return letters, spaced.end()
