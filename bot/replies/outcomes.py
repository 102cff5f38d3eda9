"""What an expert is told of what came of their words: stored, put in the place of other words, taken back."""

from __future__ import annotations

from knowledge.findings import Finding

_WITHDRAWN = "It counts no more, and the case is open again."
_NOT_REACHED = "Who asked later and was answered from it is not told: I do not keep who that was."


def taken_back(people: int, by_hand: int = 0) -> str:
    """Return what an expert is told who took a finding back.

    `people` had waited for it and are told by the bot, `by_hand` by experts.
    """
    told = {0: "Nobody waited for it.", 1: "The one who waited for it is told."}
    words = "" if by_hand and not people else told.get(people, f"All {people} who waited for it are told.")
    return " ".join(filter(None, (_WITHDRAWN, words, pass_on(by_hand).strip(), _NOT_REACHED)))


def pass_on(people: int) -> str:
    """Return that some asked in person and can only be told by an expert, '' for nobody; with a space before it."""
    if not people:
        return ""
    return f" {'One' if people == 1 else people} asked in person: please pass it on."


def to_come(year: str) -> str:
    """Return that a year was left out because it is still to come."""
    return f"Not understood: {year} is still to come, so it is no date of a machine."


def stored(finding: Finding, found: str, what: str, people: int, before: str = "", by_hand: int = 0) -> str:
    """Return what an expert is told whose words were stored.

    `people` are told by the bot and `by_hand` by experts; `before` is what stood in the place of the words.
    """
    verb = "Stored" if what == "settled" else "Changed"
    told = {0: "Nobody waits for it", 1: "The one who asked is told"}.get(people, f"All {people} who asked are told")
    told = pass_on(by_hand).strip(" .") if by_hand and not people else f"{told}.{pass_on(by_hand)}".rstrip(".")
    facts = ": ".join(filter(None, (verb, finding.serial, found or finding.note.rstrip("."))))
    return f"{facts}. {told}.{f' It took the place of: {before}.' if before else ''}"
