"""How cases are shown in the terminal: short lines that read well at 60 columns, and JSON."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from bot.cases import ASKED_BACK, CLOSED, OPEN, SETTLED, STATES, TAKEN, UNSETTLED, Card, Case
from bot.expert_desk import Opened
from bot.replies import cards
from bot.replies.cleaning import clean
from bot.replies.styled import Styled
from knowledge.errors import BedstampError
from knowledge.findings import Finding

_INDENT = " " * 7
_LISTED = re.compile(r"• |[0-9]+\) ")
_LONGEST_LINE_OF_TEXT = 160  # characters of a question in the list
_MAY = {
    OPEN: ("take", "settle", "ask", "not-for-us", "close"),
    TAKEN: ("settle", "ask", "give-back", "not-for-us", "close"),
    ASKED_BACK: ("settle", "not-for-us", "close"),
    SETTLED: ("settle", "take-back"),
    CLOSED: ("settle",),
}
_ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/gif": "gif", "image/webp": "webp", "image/tiff": "tif",
            "image/heic": "heic"}  # fmt: skip


def listed(
    found: Sequence[Case], counts: Mapping[str, int], states: Sequence[str], first: int, width: int,
    told: Mapping[int, Sequence[str]],
) -> Iterator[str]:
    """Yield a list of cases: how many there are in all, an entry of some lines for each, how to see the others.

    `told` says what was found, by the numbers of the cases.
    """
    yield from wrapped(_summary(counts), width)
    for one in found:
        yield ""
        yield from _entry(one, told.get(one.id, ()), width)
    total = sum(counts.get(state, 0) for state in states or UNSETTLED)
    left = total - (first - 1) - len(found)
    if found and left > 0:
        yield ""
        yield from wrapped(f"And {left:,} more: --from {first + len(found)} shows the next ones.", width)
    elif not found and total:
        yield ""
        yield from wrapped(f"There are {total:,} of these; --from {first} is behind the last one.", width)


def _summary(counts: Mapping[str, int]) -> str:
    told = [f"{counts[state]:,} {state}" for state in STATES if counts.get(state)]
    if not any(counts.get(state) for state in UNSETTLED):
        return f"Nothing waits for the experts{': ' if told else ''}{', '.join(told)}."
    return f"{', '.join(told)}."


def _entry(case: Case, told: Sequence[str], width: int) -> Iterator[str]:
    until = f" until {cards.moment(case.lease)}" if case.state == TAKEN and case.lease else ""
    by = f" by {case.expert}" if case.state == TAKEN else ""
    yield from wrapped(f"{case.id:>5}  {cards.what_about(case)}, {case.state}{by}{until}", width, "", _INDENT)
    asked = cards.asked_by(case)
    if case.is_unsettled:
        yield from wrapped(f"{asked}, since {cards.day(case.opened)}; {cards.why(case)}", width, _INDENT)
    else:
        yield from wrapped(f"{asked}; finished on {cards.day(case.changed)}", width, _INDENT)
    for line in told:
        yield from wrapped(f"Found: {line}", width, _INDENT)
    words = " ".join(case.text.split())
    if words:
        cut = words if len(words) <= _LONGEST_LINE_OF_TEXT else f"{words[: _LONGEST_LINE_OF_TEXT - 1]}…"
        yield from wrapped(f"“{cut}”", width, _INDENT)


def shown(
    card: Card, width: int, found: Sequence[Finding] = (), in_person: Sequence[str] = ()
) -> Iterator[str]:
    """Yield everything that experts see of a case, how it was settled, its history, and what can be done with it.

    `in_person` are the names of those who asked an expert, '' for one that was not told.
    """
    whole = cards.card(card)
    for piece, mark in _pieces(whole):
        yield from _lines(piece, width, mark)
    if in_person:
        names = ", ".join(name or "somebody whose name was not told" for name in in_person)
        yield from wrapped(f"Asked in person, so that one of you passes the answer on: {names}.", width, "", "  ")
    yield ""
    if found:
        yield "How it was settled"
        for finding in found:
            yield from wrapped(f"• {cards.how_settled(finding)}", width, "", "  ")
        yield ""
    yield "History"
    for one in card.history:
        yield from wrapped(f"• {cards.event(one)}", width, "", "  ")
    yield ""
    may = ", ".join(f"{name} {card.case.id}" for name in _may(card.case))
    yield from wrapped(f"What you can do: bedstamp cases {may}", width, "", "  ")


def _may(case: Case) -> Iterator[str]:
    """Yield what fits a case: nobody is asked or told where nobody waits, and only what was found is taken back."""
    for name in _MAY[case.state]:
        if case.waiting or name not in ("ask", "not-for-us"):
            yield name
    if case.is_unsettled and case.findings:
        yield "take-back"


def _pieces(whole: Styled) -> Iterator[tuple[str, str]]:
    """Yield the text in pieces, with the mark before each line of what people wrote: all of it, and nothing else."""
    at = 0
    quotes = [one for one in whole.spans if one.style == "blockquote"]
    for start, end, mark in (*((one.start, one.end, "  | ") for one in quotes), (len(whole.text), len(whole.text), "")):
        if before := whole.text[at:start]:
            yield before.removeprefix("\n").removesuffix("\n"), ""
        if start < end:
            yield whole.text[start:end], mark
        at = end


def _lines(text: str, width: int, mark: str) -> Iterator[str]:
    for line in text.split("\n"):
        behind = f"{mark}{' ' * len(numbered[0])}" if (numbered := _LISTED.match(line)) and not mark else mark
        yield from wrapped(line, width, mark, behind) or [mark.rstrip()]


def saved(card: Card, folder: Path) -> Iterator[str]:
    """Save the pictures of a case, and yield a line for each: where it is, or who has it. No file is replaced."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for number, one in enumerate(card.pictures, 1):
            path = folder / f"case{card.case.id}-{number}.{_ENDINGS.get(one.kind, 'bin')}"
            if not one.content:
                yield f"Picture {number} is kept by the channel it came through: {clean(one.channel)}."
            elif path.exists():
                yield f"{path} is there already, and was left as it is."
            else:
                path.write_bytes(one.content)
                yield f"Picture {number}: {path}"
    except OSError as fault:
        raise BedstampError(
            f"The pictures cannot be saved in {folder} ({fault.strerror}). Name another folder with --pictures."
        ) from fault
    if not card.pictures:
        yield "No picture came with it."


def added(opened: Opened) -> str:
    """Return what became of a question that an expert brought in."""
    case = opened.case
    if opened.joined:
        return f"It belongs to case {case.id}: {cards.what_about(case)}. {cards.asked_by(case).capitalize()}."
    return f"It is case {case.id} now: {cards.what_about(case)}; {cards.why(case)}."


def said_more(id_: int, is_new: bool) -> str:
    """Return whether words were added to a case."""
    if is_new:
        return f"It stands on case {id_} now."
    return f"Case {id_} says that already, or nobody asked it. Nothing was added."


def case_json(case: Case) -> dict[str, Any]:
    """Return a case as `--json` prints it; nothing in it names a person."""
    return {
        "id": case.id,
        "state": case.state,
        "reasons": list(case.reasons),
        "serials": list(case.serials),
        "makers": list(case.makers),
        "waiting": case.waiting,
        "opened": case.opened.isoformat(),
        "changed": case.changed.isoformat(),
        "until": case.until.isoformat(),
        "expert": case.expert or None,
        "lease": case.lease.isoformat() if case.lease else None,
        "text": case.text or None,
        "findings": list(case.findings),
    }


def card_json(card: Card, found: Sequence[Finding] = ()) -> dict[str, Any]:
    """Return a case with everything that is known of it; `found` is what was settled."""
    return {
        **case_json(card.case),
        "reading": list(card.case.reading),
        "found": list(card.found),
        "settled": [
            {
                "serial": one.serial or None,
                "evidence": one.evidence or None,
                "kind": one.kind,
                "note": one.note or None,
                "author": one.author,
                "at": one.settled.isoformat(),
            }
            for one in found
        ],
        "pictures": [{"channel": one.channel, "kind": one.kind, "size": len(one.content)} for one in card.pictures],
        "said": [{"kind": one.kind, "text": one.text, "at": one.at.isoformat()} for one in card.said],
        "similar": [one.id for one in card.similar],
        "history": [
            {"at": one.at.isoformat(), "who": one.who, "what": one.what, "more": one.more or None}
            for one in card.history
        ],
    }


def wrapped(text: str, width: int, first: str = "", others: str | None = None) -> list[str]:
    """Return a text in lines of at most `width` columns, safe on a screen, behind these indents."""
    behind = first if others is None else others
    return textwrap.wrap(
        clean(text), width, initial_indent=first, subsequent_indent=behind, break_on_hyphens=False
    )
