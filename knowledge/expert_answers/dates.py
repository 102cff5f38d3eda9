"""When a clause says that the machine was made, and other times it names: of a document, of a sale."""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta

from knowledge import edtf
from knowledge.edtf import DateSpan, EdtfError
from knowledge.expert_answers import time_words
from knowledge.expert_answers.calendar import calendar_dates
from knowledge.expert_answers.clauses import Clause, Placed
from knowledge.expert_answers.evidence_words import SURE_CUE
from knowledge.expert_answers.names import denies
from knowledge.expert_answers.plain import Phrases
from knowledge.expert_answers.stated import Stated
from knowledge.expert_answers.vocabulary import DENIED, SOLD, THOUGHT
from knowledge.hearing.words import Word
from knowledge.hearing.years import means, part_of_decade, time_at, wars

DATE, SALE = "date", "sale"
_NEAR = 48
"""Signs before a time in which the words that bound it stand."""
_LAST_YEAR = 1999
"""Later years are those of letters, photographs and books."""
_DASH = re.compile(r"\s*(?:~|±|\+/-)\s*\Z")


def dates_in(clause: Clause, before: Clause | None = None, after: Clause | None = None) -> list[Stated]:
    """Return the times that one clause states, in order; those that are said of a sale or a repair are of kind SALE.

    `before` and `after` are its neighbours in the sentence, which may hold no more than 'probably' or 'at the latest'.
    """
    cores = _joined(clause, _cores(clause))
    first = before.start if before is not None and time_words.HEDGES.is_all_of(before.words) else clause.start
    last = after.end if after is not None and any(one.is_all_of(after.words) for one in _BEHIND) else clause.end
    verbs = _verbs(clause) if cores else []
    if cores and THOUGHT.search(clause.words):
        return []
    if not cores:
        return list(_before_or_after_that(clause))
    found: list[Stated] = []
    for place, (start, end, text) in enumerate(cores):
        since = cores[place - 1][1] if place else first
        until = cores[place + 1][0] if place + 1 < len(cores) else last
        stated = _stated(clause, start, end, text, since, until)
        found.append(replace(stated, kind=SALE) if _is_of_a_sale(verbs, start) else stated)
    return found


def _before_or_after_that(clause: Clause) -> Iterator[Stated]:
    """Yield the time of 'so it's after that', said of the year named last before it."""
    years = _A_YEAR.findall(clause.low, max(0, clause.start - _NAMED_LATELY), clause.start)
    not_so = time_words.NOT.search(clause.words) is not None
    for phrases, bound, its_contrary in _OF_THAT:
        if years and phrases.ends(clause.words):
            said = (its_contrary if not_so else bound)(edtf.parse(years[-1]))
            yield Stated(DATE, (said,), clause.start, clause.end)


_A_YEAR = re.compile(r"(?<!\w)1[789]\d\d(?!\w)")
_NAMED_LATELY = 120
"""Signs. A year further back is not what 'that' means."""
_BEHIND = (time_words.AND_SO, time_words.OR_LATER, time_words.OR_EARLIER, time_words.PART)


def _joined(clause: Clause, cores: Sequence[tuple[int, int, str]]) -> list[tuple[int, int, str]]:
    """Make one span of 'tra il 1930 e il 1935', which has words inside that hearing does not pass over."""
    kept: list[tuple[int, int, str]] = []
    for start, end, text in cores:
        if kept and time_words.TO.fullmatch(clause.low, kept[-1][1], start):
            begin, _, first = kept[-1]
            lead = clause.low[clause.start : begin]
            if first.isdecimal() and text.isdecimal() and first < text and _is_between(lead):
                kept[-1] = (begin, end, f"{first}/{text}")
                continue
        kept.append((start, end, text))
    return kept


def _is_between(lead: str) -> bool:
    return time_words.BETWEEN.ends(lead) or time_words.BETWEEN.ends(_without_fillers(lead))


def _cores(clause: Clause) -> list[tuple[int, int, str]]:
    """Return where bare times stand, and their EDTF text."""
    named = ((match, text) for phrases, text in time_words.NAMED_TIMES for match in _all(phrases, clause))
    found = [
        (*match.span(), text)
        for match, text in named
        if not _NOT_SO.search(clause.low, clause.start, match.start())
    ]
    found += calendar_dates(clause)
    placed = _loosened(clause.placed())
    words = [one.word for one in placed]
    place = 0
    while place < len(words):
        text, end = time_at(words, place)
        if text and end > place:
            found.append((placed[place].start, placed[end - 1].end, _decade(words, place, text)))
            place = end
        else:
            place += 1
    found += [(clause.start, clause.end, span.text) for span in wars(words)]
    apart = _apart(one for one in found if _is_possible(one[2]))
    marks = [one for one in placed if means(one.word, "mark")]
    apart = [one for one in apart if not _OF_AN_EVENT.search(clause.low, clause.start, one[0])]
    return sorted(one for one in apart if not any(_is_of_a_patent(clause, one, mark) for mark in marks))


_NOT_SO = re.compile(r"(?<![^\W_])(?:not|never|nicht|pas|no|non|niet) \Z")
_OF_AN_EVENT = re.compile(r"(?<![^\W_])(?:exhibition|meeting|auction|fair|talk|show) (?:of|from|in|at \w+ in) \Z")


def _is_of_a_patent(clause: Clause, time: tuple[int, int, str], mark: Placed) -> bool:
    """Tell 'patent of 1907' and 'the 1907 patent' from 'by its patent 1909' and '1909 because of the patent plate'."""
    if mark.start < time[0]:
        led = clause.low[clause.start : mark.start]
        between = clause.low[mark.end : time[0]]
        return _PUTS_IT.search(between) is None and (SURE_CUE.search(led) is None or _OF.match(between) is not None)
    return len(clause.low[time[1] : mark.start].split()) <= 1


_PUTS_IT = re.compile(
    r"(?<![^\W_])(?:(?:puts?|dates?|makes?|places?) (?:it|this)|so|therefore|hence|thus|also|donc|quindi|por tanto|dus|"
    r"es de|e del|est de)(?![^\W_])"
)
_OF = re.compile(r"\s*(?:date )?(?:of|from|dated|vom|von|aus|de|du|del|van|uit)\s")


def _decade(words: Sequence[Word], place: int, text: str) -> str:
    """Read 'années 1930' as ten years."""
    before = words[place - 1].text if place else ""
    return f"{text[:3]}X" if before in _TEN_YEARS and text.isdecimal() and text.endswith("0") else text


_TEN_YEARS = frozenset("annees anos anni jaren".split())


def _all(phrases: Phrases, clause: Clause) -> Iterator[re.Match[str]]:
    return phrases.all(clause.low, clause.start, clause.end)


def _is_possible(text: str) -> bool:
    span = edtf.parse(text)
    return span.earliest == date.min or span.earliest.year <= _LAST_YEAR


def _apart(found: Iterator[tuple[int, int, str]]) -> list[tuple[int, int, str]]:
    """Leave out times that lie inside others found before them."""
    kept: list[tuple[int, int, str]] = []
    for one in found:
        if not any(one[0] < end and start < one[1] for start, end, _ in kept):
            kept.append(one)
    return kept


def _loosened(placed: Sequence[Placed]) -> list[Placed]:
    """Part 'c1911' and 'ca1911' into two words."""
    words = [Placed(Word("", False), 0, 0), *placed]
    return [
        Placed(one.word._replace(glued=False), one.start, one.end)
        if before.word.text.isalpha() and means(before.word, "about")
        else one
        for before, one in zip(words, placed, strict=False)
    ]


def _stated(clause: Clause, start: int, end: int, text: str, since: int, until: int) -> Stated:
    before = clause.low[max(since, start - _NEAR) : start]
    after = clause.low[end:until]
    lead = _without_fillers(before)
    if "X" in text and time_words.FIRST_HALF.ends(lead):
        text = f"{text[:3]}0/{text[:3]}4"
    elif "X" in text and time_words.SECOND_HALF.ends(lead):
        text = f"{text[:3]}5/{text[:3]}9"
    elif "X" in text and (part := time_words.PART.begins(after)):
        text = part_of_decade([Word(part[0].strip(" ,("), False)], text)
    elif "X" in text:
        text = part_of_decade([one.word for one in clause.placed() if since <= one.start < start][-5:], text)
    bounded = _bounded(text, lead, after)
    denied = bounded == text and (denies(before) or denies(lead) or DENIED.begins(after) is not None)
    if bounded == text and _is_about(before, after):
        bounded = _about(text)
    return Stated(DATE, (bounded,), start, end, denied)


def _without_fillers(before: str) -> str:
    while shorter := time_words.FILLERS.without_last(before):
        if shorter == before:
            break
        if any(phrases.ends(before) for phrases, _ in _BOUNDS):
            break
        before = shorter
    return before


def _bounded(text: str, before: str, after: str) -> str:
    """Return the time with what is said of its bounds: 'not before 1910', '1890 at the latest'."""
    for phrases, bound in _BOUNDS:
        if phrases.ends(before) and "/" not in text:
            return bound(edtf.parse(text))
    for phrases, bound in ((time_words.OR_LATER, _from), (time_words.OR_EARLIER, _until)):
        if phrases.begins(after) and "/" not in text:
            return bound(edtf.parse(text))
    return f"{text}/.." if text.isdecimal() and _AND_ON.match(after) else text


_AND_ON = re.compile(r"\s*(?:\+|plus|on)(?=\W*\Z| (?:they|we|all)(?![^\W_]))")


def _from(span: DateSpan) -> str:
    return edtf.span(span.earliest, date.max).text


def _until(span: DateSpan) -> str:
    return edtf.span(date.min, span.latest).text


def _before(span: DateSpan) -> str:
    return edtf.span(date.min, span.earliest - timedelta(1)).text


_BOUNDS: tuple[tuple[Phrases, Callable[[DateSpan], str]], ...] = (
    (time_words.DENIED_BEFORE, _from),
    (time_words.DENIED_AFTER, _until),
    (time_words.NOT_BEFORE, _from),
    (time_words.NOT_AFTER, _until),
    (time_words.BEFORE, _before),
    (time_words.AFTER, _from),
)


_OF_THAT = (
    (time_words.BEFORE_THAT, _before, _from), (time_words.EARLIER, _before, _from),
    (time_words.AFTER_THAT, _from, _until), (time_words.LATER, _from, _until),
)  # fmt: skip


def _is_about(before: str, after: str) -> bool:
    hedged = time_words.HEDGES.search(_NO_HEDGES.sub(" ", before)) or _DASH.search(before)
    return bool(hedged or time_words.AND_SO.begins(after))


_NO_HEDGES = re.compile(
    r"(?<![^\W_])(?:handelt|geht|dreht|ging|handelte) (?:es )?(?:sich )?(?:hier |hierbei |dabei )?um(?![^\W_])|"
    r"um (?=eine?[nrm]? )|c'|"
    r"(?<![\w'])(?!(?:i|or|would|to|let's|can|could|we) )[^\W\d_]+ say (?!about|around)"
)
"""What only looks like one: 'es handelt sich um', "c'est", and 'the decals say'."""


def _about(text: str) -> str:
    """Return a time that is only about right; decades and spans say that themselves."""
    try:
        return text if "/" in text or "X" in text or text.endswith("~") else edtf.parse(f"{text}~").text
    except EdtfError:
        return text


def _verbs(clause: Clause) -> list[tuple[int, bool]]:
    """Return where 'made' and its like stand in a clause, and 'sold' and its like, for which the second is True."""
    made = [(one.start, False) for one in clause.placed() if means(one.word, "made")]
    return sorted([*made, *((match.start(), True) for match in SOLD.all(clause.low, clause.start, clause.end))])


def _is_of_a_sale(verbs: Sequence[tuple[int, bool]], start: int) -> bool:
    """Tell whether the verb nearest before a time, else the one behind it, is 'sold' and not 'made'."""
    place = bisect(verbs, (start, True))
    return bool(verbs) and verbs[max(0, place - 1)][1]
