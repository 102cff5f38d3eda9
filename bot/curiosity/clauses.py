"""A message as clauses: what each says, and whether it asks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import islice

from bot.curiosity.terms import Meanings, Term, terms
from knowledge.hearing.named import named
from knowledge.hearing.words import Word, clauses, plain_words, sentences, words_with_names
from knowledge.names import Names
from knowledge.said import Said
from knowledge.tokens.nouns import Found

INTERROGATIVES = frozenset({"what", "how", "when", "who", "where"})
_ASKING = frozenset({"please", "anyone", "help", "wish", "unsure", "curious", "tell"})
"""Meanings that make a sentence ask without a question mark."""
_BEFORE_ASKING = frozenset(
    "plain roughly filler particle article greeting please thanks label anyone number name".split()
)
"""Meanings of words that may stand before the word that asks: 'and roughly how old', not 'I know how old'."""
_NO_OTHER_TOPIC = frozenset({"name", "have", "place", "family", "quality", "made", "greeting", "it"})
_AFTER_AND = INTERROGATIVES | {"wish", "subject"}
_AND = frozenset("and und et y e en och i и".split())


@dataclass(frozen=True)
class Clause:
    """A part of a sentence. `queried`: the question mark at the end belongs to it.
    `around` are the meanings of its sentence, `unknown_around` counts the words in it that are not known."""

    terms: tuple[Term, ...]
    queried: bool
    around: Meanings
    unknown_around: int

    @cached_property
    def means(self) -> Meanings:
        """Everything that its words mean."""
        return _meanings(self.terms)

    @cached_property
    def aloud(self) -> bool:
        """Whether it asks: by a question mark, by the order of its words, or by words of wishing and asking."""
        asks = self.queried or self._opens or self.inverted or self._is_direct
        return asks or bool(self.around & _ASKING)

    @cached_property
    def _opens(self) -> bool:
        for term in self.terms:
            if term.means & INTERROGATIVES:
                return True
            if "subject" in term.means or not term.means & _BEFORE_ASKING:
                return False
        return False

    @cached_property
    def inverted(self) -> bool:
        """Whether it begins with its verb, as questions do: 'is it a Model 6'."""
        spoken = [term for term in self.terms if not term.means & {"greeting", "article"}]
        return len(spoken) > 1 and "verb" in spoken[0].means

    @cached_property
    def _is_direct(self) -> bool:
        """'How old is it', not 'how old it is'."""
        asked = ("old", "quality", "kind") if self.means & {"what", "how"} else ()
        return any(self.follows(one, "verb", 0) for one in ("what", *asked))

    @cached_property
    def unknown(self) -> int:
        """How many of its words are not known."""
        return sum(not term.means for term in self.terms)

    @cached_property
    def topics(self) -> int:
        """How many of its words belong to other subjects: repair, parts, meetings."""
        return sum("topic" in term.means and not term.means & _NO_OTHER_TOPIC for term in self.terms)

    def follows(self, first: str, then: str, gap: int) -> bool:
        """Whether one meaning stands behind another, with at most `gap` terms between them."""
        places = [place for place, term in enumerate(self.terms) if first in term.means]
        return any(then in term.means for at in places for term in islice(self.terms, at + 1, at + 2 + gap))

    def only(self, meanings: frozenset[str]) -> bool:
        """Whether each word has one of these meanings."""
        return all(term.means & meanings for term in self.terms)


@dataclass(frozen=True)
class Message:
    """One message as it is weighed. `shown`: a picture comes with it; `to_member`: it goes to another member."""

    text: str
    found: Found
    said: Said
    clauses: tuple[Clause, ...] = ()
    shown: bool = False
    to_member: bool = False

    @cached_property
    def terms(self) -> tuple[Term, ...]:
        """All its words."""
        return tuple(term for clause in self.clauses for term in clause.terms)

    @cached_property
    def means(self) -> Meanings:
        """Everything that its words mean."""
        return _meanings(self.terms)

    @cached_property
    def unknown(self) -> int:
        """How many of its words are not known."""
        return sum(clause.unknown for clause in self.clauses)

    @cached_property
    def topics(self) -> int:
        """How many of its words belong to other subjects."""
        return sum(clause.topics for clause in self.clauses)

    @cached_property
    def introduced(self) -> bool:
        """Whether words call a number in it a serial number."""
        return any(token.introduced for token in self.found.tokens)

    @cached_property
    def picture_alone(self) -> bool:
        """Whether there is a picture to speak of, and no number."""
        return self.shown and not self.found.tokens


def listen(
    text: str, found: Found, said: Said, names: Names, *, shown: bool = False, to_member: bool = False
) -> Message:
    """Return a message as it is weighed. Never raises; time grows with its length."""
    known = named(words_with_names(text, found), names).words
    words = [word for word in plain_words(text, found) if word.text not in "()"]
    parts = tuple(part for sentence in sentences(words) for part in _clauses(sentence, known))
    return Message(text, found, said, parts, shown, to_member)


def _clauses(sentence: list[Word], names: frozenset[str]) -> Iterator[Clause]:
    asked = any(word.text in "?？" for word in sentence)
    pieces = [part for piece in clauses(sentence) for part in _parted(tuple(terms(piece, names))) if part]
    around = frozenset[str]().union(*map(_meanings, pieces))
    unknown = sum(not term.means for piece in pieces for term in piece)
    for at, piece in enumerate(pieces, 1):
        told = at < len(pieces) and bool(_meanings(piece) & {"verb", "have"}) and not _meanings(piece) & INTERROGATIVES
        yield Clause(piece, asked and not (told and "verb" not in piece[0].means), around, unknown)


def _parted(said: tuple[Term, ...]) -> Iterator[tuple[Term, ...]]:
    """Part a clause at 'and' before words that ask: 'is it worth restoring and how old is it'."""
    start = 0
    for at in range(1, len(said) - 1):
        if said[at].text in _AND and said[at + 1].means & _AFTER_AND:
            yield said[start:at]
            start = at + 1
    yield said[start:]


def starts_with_and(message: Message) -> bool:
    """Whether it goes on with something said before: 'And K204117?'."""
    return bool(message.terms) and message.terms[0].text in _AND


def _meanings(said: Iterable[Term]) -> Meanings:
    return frozenset[str]().union(*(term.means for term in said))
