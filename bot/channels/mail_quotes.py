"""What the sender wrote now, apart from what they quote, pass on, or sign with.

Lines are judged one after the other. Quotes may stand above, below or in between: lines without a mark that follow
marked ones count as written now. Where nothing would be left, everything is given back, so that nothing is lost.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from bot.channels.mail_quote_hints import hinted_cut
from bot.channels.mail_quote_words import HEAD_FIELDS, MOBILE, ORIGINAL, PASSED_ON, WROTE

LONGEST = 200_000  # characters
MOST_LINES = 20_000
_MARK = re.compile(r"[ \t]{0,3}(?:>|\|[ ]?>)")
_MARKS = re.compile(r"^[ \t]*(?:[>|][ \t]?)+")
_HAS_TIME = re.compile(r"\b(?:19|20)\d\d\b.*\d{1,2}[:.h]\d\d|\d{1,2}[:.h]\d\d.*\b(?:19|20)\d\d\b")
_BEGINS = re.compile(
    r"[ \t]*(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4}|on|am|le|el|il|op|w|dnia|den|dne|em|på|vào|mon|tue|wed|thu|fri|sat|sun)"
    r"\b[^\n]*\d[^\n]*[^\n.!?]$",
    re.IGNORECASE,
)  # as the first line of an attribution that is broken over several does
_RULE = re.compile(r"[ \t]*[_\-=*]{10,}[ \t]*$")
_SUBSTANCE = re.compile(r"\w")
_NEAR = 8  # lines that the head of a quoted mail may take


@dataclass(frozen=True, slots=True)
class Words:
    """`own` was written now; `forwarded` is passed on; `quoted` is everything, where nothing else is there."""

    own: str
    forwarded: str = ""
    quoted: str = ""


def words_of(text: str, passed_on: bool = False) -> Words:
    """Take a mail's text apart. Never raises; time grows with its length.

    `passed_on` tells that the subject calls it a forwarded mail: what a mail program puts below is then no quote.
    """
    lines = text[:LONGEST].replace("\r\n", "\n").replace("\r", "\n").split("\n")[:MOST_LINES]
    own, rest, is_forward = _split(lines)
    forwarded = ""
    if is_forward or (rest and (passed_on or not _says_something(own))):
        forwarded = _joined(_passed_on(rest))
    written = _joined(own)
    if _SUBSTANCE.search(written) or _SUBSTANCE.search(forwarded):
        return Words(written, forwarded)
    return Words("", "", _joined([_MARKS.sub("", line) for line in lines]))


def _split(lines: Sequence[str]) -> tuple[list[str], list[str], bool]:
    """Return the lines written now, the lines below a cut, and whether these were passed on rather than quoted.

    Where the lines at the cut are marked, it ends with them: what follows without a mark is written now.
    """
    own: list[str] = []
    below: list[str] = []
    at, signed, is_forward = 0, False, False
    while at < len(lines):
        line = lines[at]
        if (passed_on := PASSED_ON.match(line) is not None) or _is_cut(lines, at):
            end = _end_of_marked(lines, at)
            below += lines[at + passed_on : end]
            signed, is_forward, at = False, is_forward or passed_on, end - 1
        elif _MARK.match(line):
            signed = False
        elif length := attribution(lines, at):
            if not _any_marked(lines, at + length):
                return own, [*below, *lines[at + length :]], is_forward
            signed, at = False, at + length - 1
        elif line.rstrip() == "--":
            signed = True
        elif not signed and not MOBILE.match(line):
            own.append(line)
        at += 1
    cut = hinted_cut(lines) if len(own) == len(lines) else None
    return (own[:cut], list(lines[cut:]), False) if cut else (own, below, is_forward)


def _is_cut(lines: Sequence[str], at: int) -> bool:
    """Whether another mail begins here, by a line that says so or by its head."""
    line = lines[at]
    return bool(
        ORIGINAL.match(line) or is_head(lines, at) or (_RULE.match(line) and is_head(lines, _next(lines, at + 1)))
    )


def _end_of_marked(lines: Sequence[str], at: int) -> int:
    """Return where the mail ends that begins at `at`: with its last marked line, or with all when it has no marks."""
    if not _MARK.match(lines[at]):
        return len(lines)
    written = (place for place in range(at, len(lines)) if lines[place].strip() and not _MARK.match(lines[place]))
    return next(written, len(lines))


def attribution(lines: Sequence[str], at: int) -> int:
    """Return how many lines from `at` on say who wrote what is quoted below ('On Monday Orla wrote:'); 0 for none."""
    for length in (1, 2, 3):
        piece = lines[at : at + length]
        if len(piece) < length or not piece[0].strip() or not piece[-1].strip():
            return 0
        if any(_MARK.match(line) or len(line) > 300 for line in piece):
            return 0
        if piece[-1].rstrip().endswith((":", "：")):
            sentences = [" ".join(line.strip() for line in piece[start:]) for start in range(length)]
            is_one = [_is_attribution(sentence, lines, at + length) for sentence in sentences]
            return length if is_one[0] and (not any(is_one[1:]) or _BEGINS.match(piece[0])) else 0
    return 0


def _is_attribution(sentence: str, lines: Sequence[str], below: int) -> bool:
    told = ("@" in sentence and any(one.isdigit() for one in sentence)) or _HAS_TIME.search(sentence)
    named = WROTE.search(sentence)
    is_marked = _MARK.match(lines[_next(lines, below)]) if _next(lines, below) < len(lines) else None
    return bool(named and told) or bool(is_marked and (named or told))


def is_head(lines: Sequence[str], at: int) -> bool:
    """Whether the head of another mail begins at `at`: From, and two more of Sent, To and Subject close below."""
    if at >= len(lines) or not (first := HEAD_FIELDS.match(lines[at])) or first.lastgroup != "sender":
        return False
    kinds = {found.lastgroup for line in lines[at : at + _NEAR] if (found := HEAD_FIELDS.match(line))}
    return len(kinds) >= 3


def _passed_on(lines: Sequence[str]) -> list[str]:
    """Return what a passed-on mail says: its marks and its head taken off, and of the rest what its writer wrote."""
    filled = [line for line in lines if line.strip()]
    if filled and sum(bool(_MARK.match(line)) for line in filled) > 0.8 * len(filled):
        lines = [re.sub(r"^[ \t]*>[ \t]?", "", line) for line in lines]
    at = 0
    while at < len(lines) and (not lines[at].strip() or ORIGINAL.match(lines[at]) or _RULE.match(lines[at])):
        at += 1
    while at < len(lines) and (HEAD_FIELDS.match(lines[at]) or lines[at].startswith((" ", "\t"))):
        at += 1
    own, rest, _ = _split(lines[at:])
    return own if _says_something(own) or not rest else _passed_on(rest) if len(rest) < len(lines) else rest


def _any_marked(lines: Sequence[str], start: int) -> bool:
    return any(_MARK.match(line) for line in lines[start:])


def _next(lines: Sequence[str], at: int) -> int:
    """Return the place of the next line with something on it."""
    while at < len(lines) and not lines[at].strip():
        at += 1
    return at


def _says_something(lines: Sequence[str]) -> bool:
    return any(_SUBSTANCE.search(line) for line in lines)


def _joined(lines: Sequence[str]) -> str:
    return re.sub(r"\n{3,}", "\n\n", "\n".join(line.rstrip() for line in lines)).strip()
