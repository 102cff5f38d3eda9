"""What an expert goes by: a dated document, a ledger, a feature of the machine. Told in the expert's own words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from knowledge.expert_answers import evidence_words as words
from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.dates import DATE, SALE
from knowledge.expert_answers.plain import plain
from knowledge.expert_answers.stated import Stated
from knowledge.expert_answers.vocabulary import DENIES
from knowledge.findings import DATED_DOCUMENT, EVIDENCE, FEATURE, OPINION

_SHORT_GAP = 28
"""Signs. More than that between two pieces is something else."""
_CONNECTING = re.compile(r"[\s,;:()\-–—.&+]*(?:(?:and|also|und|et|y|e|en)\s+)?[\s(]*")


@dataclass(frozen=True, slots=True)
class Piece:
    """Where a clause tells evidence, of which kind, and the times in it that are no statement of the expert.

    `dated` are the days of a document, which date the machine when nothing else does; `others` are years of books.
    """

    start: int
    end: int
    kind: str
    dated: tuple[Stated, ...] = ()
    others: tuple[Stated, ...] = ()

    def is_its_own_time(self, one: Stated) -> bool:
        """Whether a time belongs to the evidence."""
        return one in self.dated or one in self.others


def piece_in(clause: Clause, said: Sequence[Stated], before: Piece | None = None) -> Piece | None:
    """Return the evidence that a clause tells; None where it tells none.

    `before` is the evidence of the clause before it, which this one may only give the day of: 'receipt: 4 June 1909'.
    """
    if before is not None and said and _is_its_day(clause, said, before):
        return Piece(
            clause.start, clause.end, before.kind, *((tuple(said), ()) if _has_days(before) else ((), tuple(said)))
        )
    nouns = {
        kind: [match for match in phrases.all(clause.low, clause.start, clause.end) if _counts(clause, match, said)]
        for kind, phrases in words.NOUNS.items()
    }
    kind = next((kind for kind in EVIDENCE if nouns.get(kind)), "")
    if not kind and (reason := _unnamed_reason(clause, said)):
        kind, nouns = reason.kind, {reason.kind: [reason.match]}
    if not kind:
        return None
    if kind == FEATURE and any(one.kind == "serial" for one in said) and not words.SURE_CUE.search(clause.words):
        return None  # the words tell of the number itself
    if words.MISTAKEN.search(clause.words) or speaks_against(clause):
        return None
    every = [match for matches in nouns.values() for match in matches]
    times = [one for one in said if one.kind in (DATE, SALE)]
    dated = tuple(times) if kind == DATED_DOCUMENT else ()
    others = tuple(one for one in times if one not in dated and _is_of_another(clause, one, kind))
    facts = [one for one in said if one not in dated and one not in others]
    start, end = _extent(clause, min(m.start() for m in every), max(m.end() for m in every), facts, dated)
    return Piece(start, end, kind, dated, others)


def speaks_against(clause: Clause) -> bool:
    """Tell whether a clause names a book or feature that says otherwise: 'unlike what the ledger says'."""
    found = words.AGAINST.begins(clause.low[: clause.end], clause.start)
    return found is not None and any(
        phrases.search(clause.low, found.end(), clause.end) for phrases in words.NOUNS.values()
    )


class _Reason(NamedTuple):
    match: re.Match[str]
    kind: str


def _unnamed_reason(clause: Clause, said: Sequence[Stated]) -> _Reason | None:
    """Return what the words say is a reason, by no noun that is known: 'going by the gizmo'."""
    for cue in words.GOES_BY.all(clause.low, clause.start, clause.end):
        reason = _REASON.match(clause.low, cue.end(), clause.end)
        if reason is None or words.NO_REASON.begins(clause.low[: clause.end], cue.end()):
            continue
        if not any(one.start < reason.end() and cue.end() <= one.start for one in said):
            return _Reason(reason, OPINION if words.ACCORDING_TO.begins(cue[0]) else FEATURE)
    told = words.GIVES_AWAY.search(clause.low, clause.start, clause.end)
    if told is None or told.start() == clause.start or DENIES.search(clause.words):
        return None
    return _Reason(told, FEATURE)


_REASON = re.compile(
    r"\s+(?:(?:the|its|der|dem|den|die|le|la|les|el|los|las|il|i|de|het) )?[^\W\d_][\w'-]*"
    r"(?: (?:of|de|du|del|della|der|des|von|van|di) (?:(?:the|la|el|le|de|den) )?[^\W\d_]+)?"
)


def belongs_to_evidence(clause: Clause, one: Stated) -> bool:
    """Tell whether a name is that of a book: 'register of the Ekarholm works', 'the Brackwater day book'."""
    if one.kind in (DATE, SALE):
        return False
    before, behind = clause.low[clause.start : one.start], clause.low[one.end : clause.end]
    return bool(words.NAMED_BEFORE.search(before) or words.NAMED_AFTER.match(behind))


def _has_days(piece: Piece) -> bool:
    """Tell whether the day of such evidence dates the machine: that of a receipt does, that of a book does not."""
    return piece.kind == DATED_DOCUMENT


def _is_its_day(clause: Clause, said: Sequence[Stated], before: Piece) -> bool:
    if any(one.kind not in (DATE, SALE) for one in said) or before.dated:
        return False
    sign, evidence = clause.low[before.end : clause.start].strip(), clause.low[before.start : before.end]
    if _has_days(before):
        is_a_day = sign == "," and all(one.end - one.start > len("1911") for one in said)
        return is_a_day or words.DATED.match(clause.words) is not None or sign in (":", "(", "-")
    is_of_a_book = words.BOOK_OF.search(evidence) or words.WRITTEN_BY.search(evidence)
    return bool(is_of_a_book) and sign in (",", "(") and clause.words.isdecimal()


def _counts(clause: Clause, noun: re.Match[str], said: Sequence[Stated]) -> bool:
    """Tell whether a noun is evidence: not in 'without a receipt', nor as part of a name."""
    before = clause.low[max(clause.start, noun.start() - 30) : noun.start()]
    if words.NO_EVIDENCE.ends(before) or words.NO_EVIDENCE.ends(_LAST_WORDS.sub("", before)):
        return False
    return not any(one.kind not in (DATE, SALE) and one.start <= noun.start() < one.end for one in said)


_LAST_WORDS = re.compile(r"(?:\s(?:an?|the|any|my|our|casting|der|die|das|den|le|la|el|il|de|het))+\s*\Z")


def _is_of_another(clause: Clause, one: Stated, kind: str) -> bool:
    """Tell 'see the 1935 catalogue' and 'the lever came in 1948' from 'the list gives 1935'."""
    if kind == FEATURE and words.CHANGED.search(clause.low[clause.start : one.start]):
        return True
    before, after = clause.low[clause.start : one.start], clause.low[one.end : clause.end]
    return bool(words.BEFORE_A_BOOK.search(before) and words.BOOK.match(after)) or bool(words.BOOK_OF.search(before))


def _extent(clause: Clause, first: int, last: int, facts: Sequence[Stated], dated: Sequence[Stated]) -> tuple[int, int]:
    """Return the words of a clause that are evidence: without 'it's a Model 6', before or behind them."""
    last = max([last, *(one.end for one in dated)])
    before = [one for one in facts if one.end <= first]
    behind = [one for one in facts if one.start >= last]
    start, end = _past_a_joiner(clause), clause.end
    begin = start
    if before:
        since = max(one.end for one in before)
        cue = next((m.start() for m in words.CUE.all(clause.low, since, first)), None)
        start = cue if cue is not None else since if first - since < _SHORT_GAP else start
    if behind and start == begin:
        result = words.RESULT.search(clause.low, last, min(one.start for one in behind))
        at_cue = words.CUE.begins(clause.low, start)
        end = result.start() if result else last if at_cue and at_cue.start() == start else end
    follows = words.FOLLOWS.search(clause.low, last, end)
    return _trimmed(clause.low, start, follows.start() if follows else end)


_JOINER = re.compile(r"(?:but|and|aber|und|mais|et|pero|y|ma|e|maar|en)\s+")


def _past_a_joiner(clause: Clause) -> int:
    joiner = _JOINER.match(clause.low, clause.start)
    return joiner.end() if joiner else clause.start


def _trimmed(low: str, start: int, end: int) -> tuple[int, int]:
    while start < end and not low[start].isalnum():
        start += 1
    return start, end


def kind_of(pieces: Sequence[Piece]) -> str:
    """Return the strongest kind among pieces, '' when there are none."""
    return next((kind for kind in EVIDENCE if any(piece.kind == kind for piece in pieces)), "")


def _belong_together(low: str, end: int, start: int, facts: Sequence[Stated]) -> bool:
    """Tell whether two pieces are joined by signs alone, or by a few words of the same sentence that state nothing."""
    if _CONNECTING.fullmatch(low, end, start):
        return True
    is_short = start - end < _SHORT_GAP and re.search(r"[.!?\n]\s", low[end:start]) is None
    return is_short and not any(end <= one.start < start for one in facts)


def _to_the_bracket(low: str, piece: Piece, facts: Sequence[Stated]) -> int:
    """Return where evidence ends: what stands in brackets is whole, where it states nothing else."""
    bracket = low.find(")", piece.end)
    if low[: piece.start].rstrip()[-1:] != "(" or bracket < 0:
        return piece.end
    return piece.end if any(piece.end <= one.start < bracket for one in facts) else bracket


def told(text: str, pieces: Sequence[Piece], facts: Sequence[Stated]) -> str:
    """Return pieces of evidence in the expert's words; what stands between two is kept where it only joins them."""
    low = plain(text)
    joined: list[list[int]] = []
    for piece in sorted(pieces, key=lambda piece: piece.start):
        if joined and _belong_together(low, joined[-1][1], piece.start, facts):
            joined[-1][1] = max(piece.end, joined[-1][1])
        else:
            joined.append([piece.start, _to_the_bracket(low, piece, facts)])
    return "; ".join(" ".join(text[start:end].split()).rstrip(" .,;:") for start, end in joined)
