"""What the words before and after a number say about it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens import words as lists
from knowledge.tokens.cues import kind_of
from knowledge.tokens.fold import fold_word

_WORD: Final = re.compile(
    r"(?:(?<![^\W_])[^\W\d_]\.){2,6}"  # D.R.G.M.
    r"|[^\W\d_]+(?:['/&-][^\W\d_]+)*|\d+(?:st|nd|rd|th)?|\n|[^\w\s.]|\.(?=\s{1,9}[^\W\d_]{2})"
)
_LETTERS: Final = re.compile(r"[^\W\d_]+")
_BEFORE: Final = 110  # characters looked at before a number
_AFTER: Final = 60
_MOST_WORDS: Final = 18
_NEARBY: Final = 5  # words before a number that may name it, where nothing else is said
_MARKED: Final = frozenset({cues.NUMBER, cues.MARKED, cues.STAMPED})

Telling = tuple[str, bool]
"""A kind of cue, '' for none, and whether nothing but fillers stands between it and the number."""


@dataclass(frozen=True, slots=True)
class Lead:
    """What stands before a number.

    `kind` is a kind of cue or '' (nothing said); `near` says that only fillers stand between the cue and the number;
    `words` are the folded words before it, nearest last; `aside` says that the kind is only that of a place it was read
    at ('under a screw: ...').
    """

    kind: str
    near: bool
    words: tuple[str, ...]
    aside: bool = False


def words_in(low: str, start: int, end: int) -> list[str]:
    """Return words, digit groups (as '0') and telling punctuation of `low[start:end]`."""
    return ["0" if word.isdigit() else word for word in _WORD.findall(low, max(start, 0), max(end, 0))]


def lead(low: str, start: int) -> Lead:
    """Read the words before `start`, nearest first, until one of them tells."""
    words = words_in(low, start - _BEFORE, start)[-_MOST_WORDS:]
    reading = _Backwards(words)
    kind, near = reading.told()
    return Lead(kind, near, tuple(words), aside=bool(kind) and kind == reading.aside and not reading.weak[0])


class _Backwards:
    """Reads the words before a number from the nearest on, until one tells what the number is."""

    def __init__(self, words: list[str]) -> None:
        self.words = words
        self.place = len(words)
        self.strangers = 0  # words that say nothing known
        self.weak: Telling = ("", False)  # 'number', 'reads': a number, of what may be said further on
        self.aside = ""  # 'on the invoice': where it was read, or what it is
        self.blocked = False  # a stranger or a comma: what stands beyond no longer names the number
        self.paused = False
        self.belongs = False  # 'for', 'of' beside the number: 'needles for 204117'
        self.linked = False  # 'is', ':' between: 'the code of the gate is'

    def told(self) -> Telling:
        while self.place > 0:
            self.place -= 1
            telling = self._take(self.words[self.place])
            if telling is not None:
                return telling
        return self._undecided()

    def _undecided(self) -> Telling:
        return (self.aside, True) if self.aside and self.weak[0] in ("", cues.NUMBER) else self.weak

    def _take(self, word: str) -> Telling | None:
        kind = _kind_at(self.words, self.place)
        before = self.words[self.place - 1] if self.place else ""
        self.linked = self.linked or word in lists.LINKS or kind is cues.MARKED
        if kind is cues.SERIAL or (word == "code" and before in lists.CODE_OF_A_MACHINE):
            return cues.SERIAL, not (self.strangers or self.aside or self.paused)
        if self._is_makers_number(word):
            return cues.SERIAL, not (self.strangers or self.aside or self.paused)
        if (before, word) in lists.VEHICLE_PLATES:
            return "reference", True
        if kind is None or kind is cues.DIGITS:
            return self._take_stranger(kind)
        if kind is cues.STOP:
            return self._undecided()
        if kind is cues.PAUSE:
            self._take_pause(word)
        elif kind in _MARKED:
            self._take_weak(kind)
        elif kind is cues.FILLER or kind is cues.ASIDE:
            self.belongs = self.belongs or word in lists.BELONGING
        else:
            return self._take_other(word, kind)
        return None

    def _is_makers_number(self, word: str) -> bool:
        """'factory number', 'number of the machine': a word of making beside, or near, a word for number."""
        if word not in lists.MAKING and word not in lists.MACHINES:
            return False
        following = self.words[self.place + 1 : self.place + 2]
        if following and kind_of(following[0]) is cues.NUMBER and word in lists.MAKING:
            return True
        for earlier in self.words[max(self.place - 3, 0) : self.place][::-1]:
            if kind_of(earlier) is cues.NUMBER:
                return not self.weak[0]
            if kind_of(earlier) is not cues.FILLER:
                break
        return (
            bool(following) and kind_of(following[0]) is cues.NUMBER and word.endswith("s") and word in lists.MACHINES
        )

    def _take_stranger(self, kind: str | None) -> Telling | None:
        if kind is None and self.linked and (start := _aside_from(self.words, self.place)) < self.place:
            self.place = start  # 'the code of the gate is'
            return None
        if kind is cues.DIGITS and self.weak[1]:
            return self._undecided()  # a number of its own: 'serial 318842, my number is ...'
        self.strangers += 1
        self.blocked = True
        return None

    def _take_pause(self, word: str) -> None:
        nearby = self.words[max(self.place - 4, 0) : self.place]
        if word == ")" and "(" in nearby:
            self.place -= nearby[::-1].index("(") + 1
            return
        self.blocked = self.blocked or word != ")"
        self.paused = self.paused or word == ","

    def _take_weak(self, kind: str) -> None:
        if not self.weak[0] or (kind is cues.NUMBER and not self.blocked):
            self.weak = kind, not (self.strangers or self.blocked)

    def _is_of_machines(self) -> bool:
        """'25,000 machines of that batch: ...': what the batch is of, not its number."""
        return any(word in lists.MACHINES for word in self.words[max(self.place - 3, 0) : self.place - 1]) and any(
            word in lists.BELONGING for word in self.words[max(self.place - 2, 0) : self.place]
        )

    def _take_other(self, word: str, kind: str) -> Telling | None:
        if word in lists.CODES and self.strangers < 2 and not self.paused:
            return kind, True
        if self.blocked or (self.belongs and kind not in ("telephone", "price")) or self._is_of_machines():
            return None
        if kind_of(self.words[_aside_from(self.words, self.place)]) is not cues.ASIDE:
            return kind, True
        self.aside = self.aside or kind
        return None


def _kind_at(words: list[str], place: int) -> str | None:
    """Return the kind of a word; a full stop ends the sentence, but not after an abbreviation ('Pat. No. 17')."""
    if words[place] != ".":
        return kind_of(words[place])
    word = words[place - 1] if place else ""
    if len(word) > 2 and words[place + 1 : place + 2] and words[place + 1] in lists.OPENERS:
        return cues.STOP
    return cues.FILLER if len(word) < 4 or kind_of(word) not in (None, cues.FILLER) else cues.STOP


def _aside_from(words: list[str], place: int) -> int:
    """Return where an aside begins that ends with this word ('on the invoice', 'of the gate'), `place` if none does."""
    for start in range(place - 1, max(place - 3, -1), -1):
        kind = kind_of(words[start])
        if kind is cues.ASIDE or words[start] in lists.BELONGING:
            return start
        if kind is not cues.FILLER:
            break
    return place


def _speaks(words: tuple[str, ...], place: int) -> bool:
    """'14:02 - Ann: ...': who says it in a chat, at the start of a line or after the time."""
    return words[place] == ":" and place > 0 and words[max(place - 2, 0)] in ("-", "]", "\n", words[place - 1])


def _is_on_a_machine(words: tuple[str, ...], place: int) -> bool:
    """'on the plate', but not 'needle plate'."""
    return words[place] in lists.ON_A_MACHINE and (place == 0 or kind_of(words[place - 1]) != "part-number")


def names_another_thing(words: tuple[str, ...]) -> bool:
    """Say whether the words before a number name a thing the reading knows nothing of ('the account balance is')."""
    for place in range(len(words) - 1, max(len(words) - _NEARBY, 0) - 1, -1):
        kind = _kind_at(list(words), place)
        if (
            _speaks(words, place)
            or _is_on_a_machine(words, place)
            or kind
            in (
                cues.PAUSE,
                cues.STOP,
                cues.DIGITS,
                cues.STAMPED,
                cues.SERIAL,
            )
        ):
            return False
        if kind is cues.NUMBER and cues.is_unknown_compound(words[place]):
            return True
        if kind is None and words[place] not in lists.PLEASANTRIES:
            return len(words[place]) > 2 and words[place] not in lists.TELLING
    return False


def _past_a_place(words: list[str]) -> list[str]:
    """Leave out what says where ('on the arm is ...'), and the comma before 'that is only ...'."""
    if words and words[0] == "," and not lists.LINKS.isdisjoint(words[1:3]):
        words = words[1:]
    if words and kind_of(words[0]) is cues.ASIDE:
        place = next((place for place, word in enumerate(words[:5]) if word in lists.LINKS), 0)
        words = words[place:]
    return words


def follow(low: str, end: int) -> str:
    """Return the kind of cue that follows a number and names it ('... is my order number'), or ''."""
    words = _past_a_place(words_in(low, end, end + _AFTER)[:9])
    linked = bool(words) and words[0] in lists.LINKS
    if words[linked : linked + 1] and words[linked] in lists.CAST:
        return "part-number"
    for place, word in enumerate(words):
        kind = kind_of(word)
        linked = linked or word in lists.LINKS
        if kind is cues.FILLER or word in lists.LINKS or word in lists.THAT:
            continue
        if kind is cues.NUMBER:
            return kind if linked and word != "no" else ""  # 'at 81 is no joke'
        if cues.DIGITS in map(kind_of, words[place + 1 : place + 3]):
            return ""  # 'K204117 (Model 9)': the word has a number of its own
        named = linked or (place == 0 and _names_a_number(words))
        return kind if named and kind is not None and kind not in _NAMES_NOTHING else ""
    return ""


_NAMES_NOTHING: Final = frozenset({cues.ASIDE, cues.PAUSE, cues.STOP, cues.DIGITS, cues.MARKED, cues.STAMPED})


def _names_a_number(words: list[str]) -> bool:
    """'204117 order number', '204117 Seriennummer': the cue itself is a word for a number, or is followed by one."""
    following = words[1] if len(words) > 1 else ""
    return kind_of(following) is cues.NUMBER or words[0].endswith(("nummer", "number", "nr"))


def _pattern(words: Iterable[str], end: str) -> re.Pattern[str]:
    return re.compile(r"(?<![^\W_])(?:" + "|".join(sorted(map(re.escape, map(fold_word, words)))) + ")" + end)


def _all_words(*kinds: str) -> list[str]:
    return [word for kind in kinds for words in cues.WORDS[kind].values() for word in words.split()]


_ABOUT: Final = _pattern(
    [
        *(word for words in lists.MACHINE.values() for word in words.split(" ")),
        *(
            phrase
            for table in (lists.ASKS, lists.COMPARES)
            for phrases in table.values()
            for phrase in phrases.split("|")
        ),
        *_all_words(cues.STAMPED),
    ],
    "",
)
_AGE: Final = _pattern([phrase for phrases in lists.ASKS.values() for phrase in phrases.split("|")], "")
_MARK: Final = _pattern(_all_words(cues.SERIAL, cues.STAMPED), r"(?![^\W_])")
_LITTLE: Final = _MARKED | {cues.FILLER, cues.ASIDE}


def about_a_machine(low: str) -> bool:
    """Say whether a message speaks of a machine, or asks what a machine's number answers."""
    return _ABOUT.search(low) is not None


def asks_for_an_age(low: str) -> bool:
    """Say whether a message asks how old something is, or when it was made."""
    return _AGE.search(low) is not None


def speaks_of_a_mark(low: str) -> bool:
    """Say whether the message speaks of a serial number or of something stamped."""
    return _MARK.search(low) is not None


def says_nothing_else(low: str) -> bool:
    """Say whether a message is little more than its number: 'is it K204117? thanks'."""
    if len(low) > 120:
        return False
    words = _LETTERS.findall(low)
    return len(words) < 2 or all(
        len(word) < 3 or word in lists.PLEASANTRIES or kind_of(word) in _LITTLE for word in words
    )
