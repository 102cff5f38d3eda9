"""Full-text search in what is known: makers, models, works, registers, sources, other marks and findings.

    found = search("three quarter size with a vibratig shuttle", knowledge)
    found.hits[0].title        'Model 9H'

What has more of the words comes first, then what has the rarer ones. Word endings are forgiven, and a word that is
nowhere is looked for among those that are written alike. The index lies in memory and is made again when the knowledge
changed. It is SQLite's FTS5, and rarity its bm25 (https://www.sqlite.org/fts5.html).
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from knowledge.base import Knowledge
from knowledge.names import fold
from knowledge.search_words import LONGEST_SAYING, SAYINGS
from knowledge.searchable import Hit, texts

MOST_HITS = 8
_MOST_WORDS = 30
_LONGEST = 60
"""Words of a query, and letters of a word, that are looked at: more does not make a search better."""
_NEAR = 0.72
"""How alike two words must be (0 to 1, by the share of letters in common) to count as one that was mistyped."""
_NEAR_SHORT, _SHORT = 0.8, 5
"""The same for words of fewer letters than this, which are like too many others."""
_HALF = 3
"""Letters that each half of a joined word must have."""
_ALIKE_MOST = 3
_ENOUGH = 0.6
"""A hit is shown when it has at least this share of the words that the best one has."""
_TITLE_WEIGHT = 3.0
_WORD = re.compile(r"[^\W_]+")
_IGNORED = frozenset(
    "a an and not or any are as at by can did do does for from had has have having i in is it its me model models "
    "my of on search find look show tell that the there these this to was what which who whose with without you "
    "machine machines sewing der die das den dem ein eine einen einer mit und oder von zu im am ist suche welche "
    "welches welcher modell le la les un une des du de avec et ou el los las una con y o il lo gli che een het "
    "met en of van".split()
)
"""Words that nearly every description has, so that they say nothing."""


@dataclass(frozen=True, slots=True)
class SearchResult:
    """What was found, best first. `taken` are words that were looked for under another spelling, `nowhere` the rest."""

    hits: tuple[Hit, ...] = ()
    taken: tuple[tuple[str, str], ...] = ()
    nowhere: tuple[str, ...] = ()
    matched: int = 0
    """How many words of the query the best hit has."""


def search(words: str, knowledge: Knowledge, most: int = MOST_HITS) -> SearchResult:
    """Return what fits some words, at most `most` hits. Never raises on any text."""
    return _index_of(knowledge).search(words, most)


class _Index:
    """All texts of one knowledge base, and the words in them."""

    def __init__(self, knowledge: Knowledge) -> None:
        self.knowledge = knowledge
        self._hits = list(texts(knowledge))
        self._rows = sqlite3.connect(":memory:", check_same_thread=False)
        self._rows.execute("CREATE VIRTUAL TABLE texts USING fts5(title, text, tokenize = 'porter unicode61')")
        self._rows.execute("CREATE VIRTUAL TABLE words USING fts5(word, tokenize = 'trigram')")
        self._rows.executemany(
            "INSERT INTO texts (rowid, title, text) VALUES (?, ?, ?)",
            ((place, _plain(hit.title), _plain(f"{hit.text} {hit.also}")) for place, hit in enumerate(self._hits)),
        )
        every = {word for hit in self._hits for word in _words(f"{hit.title} {hit.text} {hit.also}")}
        self._rows.executemany("INSERT INTO words (word) VALUES (?)", ((word,) for word in sorted(every - _IGNORED)))

    def search(self, text: str, most: int) -> SearchResult:
        asked = [word[:_LONGEST] for word in _words(text) if word not in _IGNORED]
        looked_for: dict[str, list[str]] = {}
        taken, nowhere = [], []
        for words in self._told(asked[:_MOST_WORDS]):
            typed, known = " ".join(words), self._known(words)
            if not known:
                nowhere.append(typed)
                continue
            looked_for |= {one[0]: one for one in known}
            if (read := " ".join(one[0] for one in known)) != typed:
                taken.append((typed, read))
        if not looked_for:
            return SearchResult((), (), tuple(nowhere))
        matched, places = self._ranked(looked_for)
        return SearchResult(tuple(self._hits[place] for place in places[:most]), tuple(taken), tuple(nowhere), matched)

    def _told(self, asked: Sequence[str]) -> Iterator[tuple[str, ...]]:
        """Yield the words one by one; several that are one saying ('bras libre'), or one word in parts, together."""
        place = 0
        while place < len(asked):
            lengths = range(min(LONGEST_SAYING, len(asked) - place), 1, -1)
            parts = (tuple(asked[place : place + length]) for length in lengths)
            words = next((some for some in parts if self._are_one(some)), (asked[place],))
            yield words
            place += len(words)

    def _are_one(self, words: tuple[str, ...]) -> bool:
        if all(map(self._has, words)):
            return False
        return words in SAYINGS or (len(words) == 2 and self._has("".join(words)))

    def _known(self, words: tuple[str, ...]) -> list[list[str]]:
        """Return the spellings to look for: for each word one list, none when nothing known is like it."""
        word = "".join(words)
        if len(words) == 1 and self._has(word):
            return [[word]]
        if words in SAYINGS and all(map(self._has, SAYINGS[words])):
            return [[one] for one in SAYINGS[words]]
        if self._has(word):  # 'zig zag'
            return [[word]]
        if two := self._halves(word):
            return [[one] for one in two]
        alike = self._alike(word)
        return [alike] if alike else []

    def _halves(self, word: str) -> tuple[str, ...]:
        """Return the two known words that a word is made of: 'handcrank'."""
        for place in range(_HALF, len(word) - _HALF + 1):
            two = word[:place], word[place:]
            if all(self._is_word(one) for one in two):
                return two
        return ()

    def _is_word(self, word: str) -> bool:
        found = self._rows.execute("SELECT 1 FROM texts WHERE texts MATCH ?", (f'"{word}"',))
        return found.fetchone() is not None

    def _ranked(self, looked_for: dict[str, list[str]]) -> tuple[int, list[int]]:
        """Return how many words the best text has, and the places of all that have about as many, best first."""
        holding = [self._holding(spellings) for spellings in looked_for.values()]
        score: dict[int, tuple[int, float]] = {}
        for places in holding:
            for place, rank in places.items():
                count, total = score.get(place, (0, 0.0))
                score[place] = (count + 1, total + rank)
        most = max((count for count, _ in score.values()), default=0)
        good = [place for place, (count, _) in score.items() if count >= most * _ENOUGH]
        return most, sorted(
            good, key=lambda place: (-score[place][0], not self._is_named(place, looked_for), score[place][1])
        )

    def _is_named(self, place: int, looked_for: dict[str, list[str]]) -> bool:
        """Whether a text is called by nothing but words that are looked for."""
        spelt = {word for spellings in looked_for.values() for word in spellings} | _IGNORED
        return spelt.issuperset(_words(self._hits[place].title))

    def _holding(self, spellings: Sequence[str]) -> dict[int, float]:
        """Return the places of the texts with a word in any of these spellings, each with its bm25: lower is better."""
        query = " OR ".join(map(_quoted, spellings))
        found = self._rows.execute(
            f"SELECT rowid, bm25(texts, {_TITLE_WEIGHT}, 1.0) AS score FROM texts WHERE texts MATCH ? "
            "ORDER BY score LIMIT 500",
            (query,),
        )
        return dict(found)

    def _has(self, word: str) -> bool:
        return self._rows.execute("SELECT 1 FROM texts WHERE texts MATCH ?", (_quoted(word),)).fetchone() is not None

    def _alike(self, word: str) -> list[str]:
        """Return the known words that are written most like one, those with the same letters in common first."""
        pieces = {word[at : at + 3] for at in range(len(word) - 2)}
        pieces |= {swapped[at : at + 3] for swapped in _swapped(word) for at in range(len(word) - 2)}
        if not pieces:
            return []
        query = " OR ".join(map(_quoted, sorted(pieces)))
        near = self._rows.execute("SELECT word FROM words WHERE words MATCH ? ORDER BY rank LIMIT 60", (query,))
        scored = [(SequenceMatcher(None, word, known).ratio(), known) for (known,) in near]
        near_enough = _NEAR_SHORT if len(word) < _SHORT else _NEAR
        good = sorted(((score, known) for score, known in scored if score >= near_enough), reverse=True)
        return [known for _, known in good[:_ALIKE_MOST]]


_kept: _Index | None = None


def _index_of(knowledge: Knowledge) -> _Index:
    """Return the index of this knowledge; the one made last is kept."""
    global _kept  # one index, for the knowledge that is in use
    if _kept is None or _kept.knowledge is not knowledge:
        _kept = _Index(knowledge)
    return _kept


def _quoted(word: str) -> str:
    """Return a word as FTS5 takes it, whatever is in it; it is also the beginning of longer words."""
    return f'"{word}"' + ("*" if len(word) > 3 else "")


def _swapped(word: str) -> Iterator[str]:
    """Yield a word with each two neighbours swapped: such slips leave no three letters in a short word as they were."""
    if len(word) <= 8:
        for at in range(len(word) - 1):
            yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]


def _words(text: str) -> list[str]:
    """Return the words of a text, each once, in order."""
    return list(dict.fromkeys(_WORD.findall(_plain(text))))


def _plain(text: str) -> str:
    return fold(text).replace("ß", "ss")
