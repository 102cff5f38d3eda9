"""What the words before and after a number say about it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from knowledge.tokens import cues
from knowledge.tokens.cues import kind_of
from knowledge.tokens.fold import fold_word

_WORD: Final = re.compile(r"(?:(?<![^\W_])[^\W\d_]\.){2,6}|[^\W\d_]+(?:['/&-][^\W\d_]+)*|\d+|\n|[^\w\s.]|\.(?=\s+[^\W\d_]{2})")
_BEFORE: Final = 110  # characters looked at before a number
_AFTER: Final = 60
_MARKED: Final = frozenset({cues.NUMBER, cues.MARKED, cues.STAMPED})
_FOR: Final = frozenset(
    map(
        fold_word,
        "for of to in with on für von zu in mit pour para per por voor van bij dla do для от к för till av med for til af pro".split(),
    )
)
_CODE_OF: Final = frozenset({"serial", "date", "year", "machine", "factory", "bed", "letter", "datums", "date-code"})


@dataclass(frozen=True, slots=True)
class Lead:
    """What stands before a number.

    `kind` is a kind of cue or '' (nothing said); `near` says that only fillers stand between the cue and the number;
    `words` are the folded words before it, nearest last.
    """

    kind: str
    near: bool
    words: tuple[str, ...]


def words_in(low: str, start: int, end: int) -> list[str]:
    """Return words, digit groups (as '0') and telling punctuation of `low[start:end]`."""
    return ["0" if word[0].isdigit() else word for word in _WORD.findall(low, max(start, 0), max(end, 0))]


def lead(low: str, begin: int, start: int) -> Lead:
    """Read the words before `start`, not before `begin`, nearest first, until one of them tells."""
    words = words_in(low, max(begin, start - _BEFORE), start)[-18:]
    kind, near = _nearest(words)
    return Lead(kind, near, tuple(words))


def _nearest(words: list[str]) -> tuple[str, bool]:
    """Return the kind of the nearest telling cue, and whether only fillers stand between it and the number."""
    strangers, weak, aside = 0, ("", False), ""
    blocked = belongs = linked = paused = False
    place = len(words)
    while place > 0:
        place -= 1
        word = words[place]
        kind = _stop(words, place) if word == "." else kind_of(word)
        linked = linked or word in _LINKS or kind is cues.MARKED
        if kind is None and linked and (start := _aside_from(words, place)) < place:
            place = start  # 'the code of the gate is'
        elif kind is cues.DIGITS and weak[1]:
            break  # a number of its own: 'serial 318842, my number is ...'
        elif kind is None or kind is cues.DIGITS:
            strangers += 1
            blocked = True
        elif (words[place - 1] if place else "", word) in _PHRASES:
            return "reference", True
        elif kind is cues.SERIAL or (word == "code" and place and words[place - 1] in _CODE_OF):
            return cues.SERIAL, not (strangers or aside or paused)
        elif kind is cues.STOP:
            break
        elif word == ")" and "(" in words[max(place - 4, 0) : place]:
            place = max(index for index in range(place) if words[index] == "(")
        elif kind is cues.PAUSE:
            blocked = blocked or word != ")"
            paused = paused or word == ","
        elif kind in _MARKED:
            if not weak[0] or (kind is cues.NUMBER and not blocked):
                weak = kind, not (strangers or blocked)
        elif kind is cues.FILLER or kind is cues.ASIDE:
            belongs = belongs or word in _FOR
        elif (word in _CODES and strangers < 2 and not paused) or not (
            blocked or (belongs and kind not in ("telephone", "price"))
        ):
            if word in _CODES or kind_of(words[_aside_from(words, place)]) is not cues.ASIDE:
                return kind, True
            aside = aside or kind
    return (aside, True) if aside and weak[0] in ("", cues.NUMBER) else weak


_PHRASES: Final = frozenset({("licence", "plate"), ("license", "plate"), ("registration", "plate"), ("car", "plate")})
_CODES: Final = frozenset(fold_word(word) for word in "code codes código codice kod код kode kód passcode pin clave".split())


def _stop(words: list[str], place: int) -> str:
    """A full stop ends the sentence, but not after an abbreviation ('Pat. No. 17')."""
    word = words[place - 1] if place else ""
    return cues.FILLER if len(word) < 4 or kind_of(word) not in (None, cues.FILLER) else cues.STOP


def _aside_from(words: list[str], place: int) -> int:
    """Return where an aside begins that ends with this word ('on the invoice', 'of the gate'), `place` when it is none."""
    for start in range(place - 1, max(place - 3, -1), -1):
        kind = kind_of(words[start])
        if kind is cues.ASIDE or words[start] in _FOR:
            return start
        if kind is not cues.FILLER:
            break
    return place


def names_another_thing(words: tuple[str, ...]) -> bool:
    """Say whether the words before a number name a thing the reading knows nothing of ('the account balance is')."""
    for place in range(len(words) - 1, -1, -1):
        kind = _stop(list(words), place) if words[place] == "." else kind_of(words[place])
        if kind in (cues.PAUSE, cues.STOP):
            return False
        if kind is None and words[place] not in cues.PLEASANTRIES:
            return len(words[place]) > 2 and words[place] not in _TELLING
        if kind is cues.DIGITS or kind is cues.STAMPED or kind is cues.SERIAL:
            return False
    return False


_TELLING: Final = frozenset(
    fold_word(word)
    for word in (
        "got have found see saw think thought believe guess make out made wrote typed copied noted photographed answer result "
        "said says tells correct right real full whole complete digits finally again definitely probably likely gefunden "
        "glaube denke sehe gesehen erkenne lesen lese notiert abgeschrieben trouvé vois crois pense lu visto creo veo encontrado "
        "trovato vedo penso credo letto gevonden zie denk lees widzę znalazłem znalazłam myślę odczytałem вижу нашёл нашла думаю "
        "прочитал прочитала hittade ser tror läste black white red green first second third other older newer left right eldest "
        "not niet nicht pas nie не inte ikke sorry oops correction but sondern maar mais ma pero lecz utan men bed pillar base head arm starts starting begins beginning zero leading letter prefix end front digit "
    ).split()
)


def follow(low: str, end: int) -> str:
    """Return the kind of cue that follows a number and names it ('... is my order number'), or ''."""
    words = words_in(low, end, end + _AFTER)[:7]
    linked = False
    if words[:1] and (words[0] in _CAST or (words[0] in _LINKS and words[1:2] and words[1] in _CAST)):
        return "part-number"
    for place, word in enumerate(words):
        kind = kind_of(word)
        if word in _LINKS:
            linked = True
        elif kind is cues.FILLER:
            continue
        elif kind is cues.SERIAL:
            return kind if linked or (place == 0 and _names_a_number(words, place)) else ""
        elif kind in (None, cues.ASIDE, cues.PAUSE, cues.STOP, cues.DIGITS, *_MARKED):
            return cues.NUMBER if linked and kind is cues.NUMBER else ""
        else:
            return (kind or "") if linked or (place == 0 and _names_a_number(words, place)) else ""
    return ""


_CAST: Final = frozenset(fold_word(word) for word in "cast gegossen eingegossen fondu fuso fundido gegoten odlany отлит gjuten".split())
_LINKS: Final = frozenset(
    {"is", "was", "being", "=", "(", "-", "ist", "war", "est", "es", "e", "jest", "to", "ar", "var", "er", "it's", "je", ":", "lautet"}
)


def _names_a_number(words: list[str], place: int) -> bool:
    """'204117 order number', '204117 Seriennummer': the cue itself is a word for a number, or is followed by one."""
    following = words[place + 1] if place + 1 < len(words) else ""
    return kind_of(following) is cues.NUMBER or words[place].endswith(("nummer", "number", "nr"))



_ABOUT: Final = re.compile(
    r"\b(?:"
    + "|".join(
        sorted(
            {fold_word(word) for words in cues.MACHINE.values() for word in words.split(" ")}
            | {fold_word(word) for words in cues.WORDS[cues.STAMPED].values() for word in words.split()}
            | {fold_word(phrase) for phrases in cues.ASKS.values() for phrase in phrases.split("|")}
        )
    )
    + ")"
)


def says_nothing_else(low: str) -> bool:
    """Say whether a message is little more than its number: 'is it K204117? thanks'."""
    if len(low) > 120:
        return False
    words = _LETTERS_ONLY.findall(low)
    return len(words) < 2 or all(
        len(word) < 3 or word in cues.PLEASANTRIES or kind_of(word) in (cues.FILLER, cues.ASIDE, *_MARKED) for word in words
    )


_LETTERS_ONLY: Final = re.compile(r"[^\W\d_]+")


_MARK: Final = re.compile(
    r"(?<![^\W_])(?:"
    + "|".join(
        sorted({fold_word(w) for kind in (cues.SERIAL, cues.STAMPED) for ws in cues.WORDS[kind].values() for w in ws.split()})
    )
    + r")(?![^\W_])"
)


def speaks_of_a_mark(low: str) -> bool:
    """Say whether the message speaks of a serial number or of something stamped."""
    return _MARK.search(low) is not None


def about_a_machine(low: str) -> bool:
    """Say whether a message speaks of a machine, or asks what a machine's number answers."""
    return _ABOUT.search(low) is not None
