"""How well a reader of messages finds serial numbers: precision, recall, and what it got wrong.

The scorer knows nothing of the reader. It is handed a function from a message to what was found in it, and
compares that with the labels beside this file. README.md says how a token is compared.
"""

import json
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

FOLDER = Path(__file__).parent

Span = tuple[int, int]
Shape = tuple[str, int, str]
Hit = tuple[str, str, str, int, int]
"""A token as found: prefix, digits, suffix, start, end."""
PassedOver = tuple[str, str]
"""A piece passed over: its text and the reason."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A labelled token. `spans` are all the places where it is written; one of them is enough."""

    text: str
    prefix: str
    digits: str
    suffix: str
    spans: tuple[Span, ...]
    joined: bool = False

    def is_met_by(self, hit: Hit) -> bool:
        """Same number, and a place that overlaps one of ours. A `joined` one may be split in any way."""
        prefix, digits, suffix, start, end = hit
        if self.joined:
            same = self.prefix + self.digits + self.suffix == prefix + digits + suffix
        else:
            same = (self.prefix, self.digits, self.suffix) == (prefix, digits, suffix)
        return same and any(start < last and first < end for first, last in self.spans)


@dataclass(frozen=True, slots=True)
class Message:
    """One labelled message, and what the knowledge base knows while it is read."""

    place: str
    text: str
    language: str
    tokens: tuple[Wanted, ...]
    passed_over: tuple[PassedOver, ...]
    why_hard: str
    shapes: frozenset[Shape]
    models: tuple[str, ...]
    makers: tuple[str, ...]
    ambiguous: bool


Find = Callable[[Message], tuple[Sequence[Hit], Sequence[PassedOver]]]


@dataclass(slots=True)
class Score:
    """Counts and lists over many messages. Rates lie between 0 and 1; 1 where there was nothing to find."""

    found: int = 0
    misses: list[tuple[Message, Wanted]] = field(default_factory=list)
    false_hits: list[tuple[Message, Hit]] = field(default_factory=list)
    reasons_right: int = 0
    other_reasons: list[tuple[Message, PassedOver, str]] = field(default_factory=list)
    not_mentioned: list[tuple[Message, PassedOver]] = field(default_factory=list)

    @property
    def precision(self) -> float:
        """The share of the tokens found that are serial numbers."""
        return _share(self.found, self.found + len(self.false_hits))

    @property
    def recall(self) -> float:
        """The share of the serial numbers that were found."""
        return _share(self.found, self.found + len(self.misses))

    @property
    def reason_accuracy(self) -> float:
        """The share of the pieces labelled as passed over that were passed over for the labelled reason."""
        wrong = len(self.other_reasons) + len(self.not_mentioned)
        return _share(self.reasons_right, self.reasons_right + wrong)

    def lines(self) -> Iterator[str]:
        """The score for people: three rates, then every fault with the place of its message."""
        yield f"precision {self.precision:.4f}  recall {self.recall:.4f}  reasons {self.reason_accuracy:.4f}"
        for message, wanted in self.misses:
            yield f"missed     {message.place}: {wanted.text!r} in {message.text!r}"
        for message, hit in self.false_hits:
            yield f"false hit  {message.place}: {'|'.join(hit[:3])} in {message.text!r}"
        for message, (text, because), got in self.other_reasons:
            yield f"reason     {message.place}: {text!r} is {because}, not {got}"
        for message, (text, because) in self.not_mentioned:
            yield f"unsaid     {message.place}: {text!r} is {because}"


def score(messages: Iterable[Message], find: Find) -> Score:
    """What `find` got right and wrong over all messages but the ambiguous ones."""
    total = Score()
    for message in messages:
        if not message.ambiguous:
            hits, passed_over = find(message)
            _score_tokens(total, message, hits)
            _score_reasons(total, message, passed_over)
    return total


def _score_tokens(total: Score, message: Message, hits: Sequence[Hit]) -> None:
    left = list(hits)
    for wanted in message.tokens:
        met = next((hit for hit in left if wanted.is_met_by(hit)), None)
        if met is None:
            total.misses.append((message, wanted))
        else:
            total.found += 1
            left.remove(met)
    total.false_hits += [(message, hit) for hit in left]


def _score_reasons(total: Score, message: Message, passed_over: Sequence[PassedOver]) -> None:
    for text, because in message.passed_over:
        given = [reason for found, reason in passed_over if _same_piece(found, text)]
        if because in given:
            total.reasons_right += 1
        elif given:
            total.other_reasons.append((message, (text, because), given[0]))
        else:
            total.not_mentioned.append((message, (text, because)))


def _same_piece(one: str, other: str) -> bool:
    """'120' and 'for 120 euro' are the same piece, '20' is another: one has all the figures of the other."""
    first, second = set(re.findall(r"\d+", one)), set(re.findall(r"\d+", other))
    return bool(first and second) and (first <= second or second <= first)


def _share(part: int, whole: int) -> float:
    return part / whole if whole else 1.0


def read(*files: Path) -> list[Message]:
    """The messages of these files of JSON lines; without any, the whole corpus beside this module."""
    chosen = files or sorted(FOLDER.glob("*.jsonl"))
    known = json.loads((FOLDER / "knowledge.json").read_text("utf-8"))
    return [message for file in chosen for message in _read_file(file, known)]


def _read_file(file: Path, known: dict[str, list[str]]) -> Iterator[Message]:
    with file.open(encoding="utf-8") as lines:
        for number, line in enumerate(lines, 1):
            # Each message sees the shared names and its own; its own shapes stand instead of the shared ones.
            row = json.loads(line)
            shapes = row.get("prefixes", known["prefixes"])
            yield Message(
                place=f"{file.name}:{number}",
                text=row["text"],
                language=row["language"],
                tokens=tuple(_wanted(token) for token in row["tokens"]),
                passed_over=tuple((piece["text"], piece["because"]) for piece in row["passed_over"]),
                why_hard=row["why_hard"],
                shapes=frozenset((prefix, count, suffix) for prefix, count, suffix in shapes),
                models=(*known["models"], *row.get("models", ())),
                makers=(*known["makers"], *row.get("makers", ())),
                ambiguous=row.get("ambiguous", False),
            )


def _wanted(token: dict[str, str | int | list[Span]]) -> Wanted:
    again = token.get("also", [])
    spans = [(token["start"], token["end"]), *(again if isinstance(again, list) else ())]
    return Wanted(
        text=str(token["text"]),
        prefix=str(token["prefix"]),
        digits=str(token["digits"]),
        suffix=str(token["suffix"]),
        spans=tuple((int(str(first)), int(str(last))) for first, last in spans),
        joined=token.get("compare") == "joined",
    )
