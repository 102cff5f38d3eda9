"""The words about cases, the same in every channel: to askers, to experts, and on the cards.

Whatever an asker or expert wrote is quoted as text. `card` and its parts are styled; a channel without styles takes
their `.text`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import datetime

from bot.cases import ASKED_BACK, CLOSED, OPEN, SETTLED, TAKEN, Card, Case, Event, Words
from bot.replies import words
from bot.replies.styled import Styled, joined, plain, styled
from bot.replies.understood import EVIDENCE_IN_WORDS, machine_and_evidence, not_understood
from knowledge import edtf, wording
from knowledge.expert_answers import ASK_BACK, NOT_OURS, Understood
from knowledge.findings import EVIDENCE, Finding

_NUMBERED = re.compile(r"[0-9]+\) ")
_LONGEST_QUESTION = 1_200  # characters of what was asked that a card shows
_EXAMPLE = "“Model 9, about 1911, by the shuttle; see ledger p. 40”"
HOW_TO_SETTLE = (
    f"To settle it, reply to this with what you know, in your own words: {_EXAMPLE}. You see what I understood before "
    "anything is stored."
)
ASKED_BACK_ALREADY = "The asker was asked back, and has not answered yet. Write what you know if you need no answer."
GIVEN_BACK = "It is open for the others again."
ASKED = "The asker is asked. You hear what they say."
ASKED_IN_PERSON = (
    "It is noted. Whoever asked did so in person, so please ask them yourself, and add what they say to the case with "
    "bedstamp cases add --case."
)
UNCLEAR = (
    "I could not tell what of that is meant, so nothing is stored. Write of one machine at a time, each with its "
    "number, and leave out what it is not."
)
ASKER_SAID = "The asker wrote more."
ASKER_SAYS_NOTHING = "The asker did not answer the question back. It is open for everybody, with what is known."
LEASE_RAN_OUT = "Nobody wrote anything for a day, so it is open for everybody again."
CLOSED_NOW = "It is closed, and whoever asked is told. You can still settle it later: then everybody is told."
NOT_OURS_NOW = "It is closed as not for us, and whoever asked is told."
STORED_ALREADY = "That is stored already, just so."
SOMEBODY_ELSES = "These are the words of another expert. Write what you know yourself."
WRITTEN_AGAIN = "You wrote again since. Say yes to what I understood last."
NOTHING_TO_STORE = (
    f"I found nothing in that to store or to ask. Write what you know of the machine, for example {_EXAMPLE}, "
    "or a question for the asker, ending in a question mark."
)
NUMBER_ALONE = (
    "I understood a number and nothing about the machine. Write also what it is or when it was made: the model, the "
    "date, the works, or who made it."
)
_SHOWN_STATE = {OPEN: "open", TAKEN: "taken", ASKED_BACK: "asked back", SETTLED: "settled",
                CLOSED: "closed without an answer"}  # fmt: skip
_SHOWN_EVENT = {"withdrawn": "taken back", "amended": "changed", "closed": "closed without an answer"}


# --- to askers


def will_look(by: datetime, *, others: bool = False, again: bool = False) -> str:
    """Return what an asker is told with the answer: that people will look, and by which day they hear at the latest."""
    first = "People of the group will look at it."
    if again:
        first = "People of the group are looking at it already."
    elif others:
        first = "Somebody else asked this too, and people of the group are looking at it."
    return f"{first} You hear from me by {day(by)} at the latest, even if nobody knows."


def question(asked: str, caution: str = "") -> str:
    """Return a question of an expert for the asker, with what they must be warned of before they look."""
    parts = ("Somebody of the group who looks at your question asks:", asked, caution, "Just reply to this.")
    return "\n\n".join(filter(None, parts))


def settled(
    case: Case, typed: str, finding: Finding, found: str, what: str, against: Sequence[str] = ()
) -> str:
    """Return what somebody who waits is told: what was found out, by what evidence, by whom and when.

    `against` are the sentences that lists and other findings say to the contrary.
    """
    about = typed or "your machine"
    first = f"People of the group looked at {about}"
    if what == "amended":
        first = f"What I told you about {about} was corrected by an expert of the group"
    stamped = ""
    if finding.serial and finding.serial != typed:
        stamped = f"The number is really stamped {finding.serial}."
    contrary = [f"But {one}." for one in against]
    rest = (stamped, _evidence(finding), _sentence(finding.note), _who_and_when(finding, case), *contrary)
    return "\n".join(filter(None, (f"{first}: {found}." if found else f"{first}.", *rest)))


def withdrawn(case: Case, by: datetime) -> str:
    """Return what is told when a finding counts no more."""
    return (
        f"What I told you about {what_about(case)} was taken back: an expert of the group found that it does not hold. "
        f"People look at it again, and you hear from me by {day(by)} at the latest (case {case.id})."
    )


def nobody_knew(case: Case) -> str:
    """Return what is told on the stated day."""
    return (
        f"I promised to write by today: so far nobody of the group knows more about {what_about(case)}. Your question "
        f"is kept (case {case.id}), and when somebody finds out, I tell you. A clear photo of the number and one of "
        "the whole machine help most."
    )


def closing(kind: str, case: Case) -> str:
    """Return what is told when experts close a case without an answer."""
    if kind == "not-ours":
        return (
            f"People of the group looked at {what_about(case)} and say that it is not a machine they know about, so "
            f"they cannot tell its age (case {case.id})."
        )
    return (
        f"People of the group looked at {what_about(case)}, and nobody can tell more. Your question is kept "
        f"(case {case.id}), and when somebody finds out, I tell you."
    )


# --- to experts


def taken(case: Case) -> str:
    """Return what an expert is told who took a case."""
    until = f" until {moment(case.lease)}" if case.lease else ""
    return f"Case {case.id} is yours{until}; then it is open for the others again."


def is_anothers(case: Case) -> str:
    """Return that another expert has the case, and for how long."""
    until = f" until {moment(case.lease)}" if case.lease else ""
    return f"Another expert has taken case {case.id}{until}. If you know the answer, write it: that is always welcome."


def not_yours(case: Case) -> str:
    """Return that somebody gives back what they had not taken."""
    return is_anothers(case) if case.expert else f"Case {case.id} is open for everybody already."


def became(card: Card) -> str:
    """Return what became of a case, for whoever does something with an old card of it."""
    case = card.case
    if case.state == SETTLED:
        found = "; ".join(card.found) or "settled"
        return f"Case {case.id} is settled already: {found}. If you know better, settle it again in your own words."
    if case.state == CLOSED:
        return f"Case {case.id} was closed without an answer. If you know one, settle it in your own words."
    return f"Case {case.id} is {case.state}."


def settled_before(card: Card, stored: Finding) -> str:
    """Return what the expert who came second is told."""
    found = "; ".join(card.found)
    return (
        f"Somebody was quicker: case {card.case.id} is settled by {stored.author}: {found}. {_evidence(stored)} Yours "
        "is not stored. If you know better, you can put it in the place of that."
    )


def proposal(
    understood: Understood, case: Case, typed: str, found: str, lacks: str, against: Sequence[str] = ()
) -> str:
    """Return what was understood of an expert's words, for them to see before anything is stored.

    `typed` is the number of the case that they are about, `against` what lists and other findings say to the contrary.
    """
    unclear = not_understood(understood)
    if lacks:
        return "\n".join([lacks, *unclear])
    if understood.kind == NOT_OURS:
        return "\n".join(["I understood: this is none for us. Whoever asked is told so.", *unclear])
    if understood.kind == ASK_BACK:
        return "\n".join(["I understood a question for the asker:", understood.question, *unclear])
    contrary = [f"But {one}." for one in against]
    return "\n".join([f"I understood, for case {case.id}:", *_facts(understood, typed, found), *contrary, *unclear])


def would_replace(stored: Finding, found: str, kind: str) -> str:
    """Return what is stored, for an expert whose words would take its place; `kind` is what theirs rest on."""
    told = f"Stored now: {found or 'nothing of the machine'}. {_how(stored)}"
    if stored.kind == kind or EVIDENCE.index(stored.kind) > EVIDENCE.index(kind):
        return told
    theirs, mine = EVIDENCE_IN_WORDS[stored.kind], EVIDENCE_IN_WORDS[kind]
    return f"{told} That rests on {theirs}, which weighs more than {mine}: put yours in its place only if it is wrong."


def same_number(other: Finding, found: str) -> str:
    """Return that a finding on the very number names another maker."""
    says = found or "another machine"
    return (
        f"But a finding on this very number, settled by {wording.settled_by(other)}, says {says}. Both hold only if "
        "there are two machines with it."
    )


def which_number(case: Case) -> str:
    """Return that a case of several numbers was answered without saying which."""
    return f"This case is about {wording.listed(case.serials, 'and')}. Write again, with the number that you mean."


def _facts(understood: Understood, typed: str, found: str) -> Iterator[str]:
    stamped = understood.serial or typed
    if understood.serial and typed and understood.serial != typed:
        yield f"Number: stamped {stamped} (it was typed {typed})"
    elif "?" in stamped:
        yield f"Number: none, for {stamped} was not read whole; write the whole number if you know it"
    else:
        yield f"Number: {stamped or 'none'}"
    yield from machine_and_evidence(understood, found)


def how_settled(finding: Finding) -> str:
    """Return by what evidence, by whom and when something was settled, for experts: '... Settled by expert 3, ...'."""
    number = f"{finding.serial}: " if finding.serial else ""
    return f"{number}{_how(finding)}"


def _how(finding: Finding) -> str:
    parts = (_evidence(finding), _sentence(finding.note), f"Settled by {finding.author}, {day(finding.settled)}.")
    return " ".join(filter(None, parts))


def _evidence(finding: Finding) -> str:
    kind = EVIDENCE_IN_WORDS.get(finding.kind, finding.kind)
    return f"Evidence: {finding.evidence} ({kind})." if finding.evidence else f"Evidence: {kind}; none else was told."


def _who_and_when(finding: Finding, case: Case) -> str:
    return f"Settled by {finding.role}, {day(finding.settled)} (case {case.id})."


def _sentence(text: str) -> str:
    text = text.strip()
    return text if not text or text[-1] in ".!?…" else f"{text}."


# --- cards


def card(card: Card) -> Styled:
    """Return a whole card: what was asked, what was read, why it is hard, cases like it, and who waits."""
    case = card.case
    return joined(
        [
            joined([title(case), plain(card.note)], "\n"), asked(case),
            plain(f"Why it is hard: {why(case)}." if case.is_unsettled else ""), plain(what_to_do(case)),
            _listed("What was read", case.reading),
            said_since(card),
            _listed("Stored", card.found), plain(pictures(card)),
            _listed("Open cases like it", [one_line(one) for one in card.similar]), plain(waits(case)),
        ],
        "\n\n",
    )  # fmt: skip


def said_since(card: Card) -> Styled:
    """Return what experts and askers said since, each one's words as a quotation: nothing in them is the card's own."""
    if not card.said:
        return Styled()
    lines = [joined([plain(who_said(one)), styled(one.text, "blockquote")], "\n") for one in card.said]
    return joined([styled("Said since", "bold"), *lines], "\n")


def who_said(one: Words) -> str:
    """Return who said something of a case: 'An expert asked:'."""
    if one.kind == "asked":
        return "An expert asked:"
    return "Another who asks the same:" if one.is_another else "The asker:"


def title(case: Case) -> Styled:
    """Return the first line of a card: 'Case 12: K0204117, open'."""
    return styled(f"Case {case.id}: {what_about(case)}, {_SHOWN_STATE[case.state]}{_until(case)}", "bold")


def asked(case: Case) -> Styled:
    """Return what was asked, quoted; that it is not kept any more when nobody is known who asked."""
    if not case.text:
        return plain("" if not case.waiting else "The asker sent no words.")
    text = case.text if len(case.text) <= _LONGEST_QUESTION else f"{case.text[: _LONGEST_QUESTION - 1]}…"
    return styled(text, "blockquote")


def pictures(card: Card) -> str:
    """Return how many pictures came with it, '' for none."""
    count = len(card.pictures)
    return "" if not count else f"{count} picture{'s' if count > 1 else ''} came with it."


def why(case: Case) -> str:
    """Return why it is hard, as half a sentence: 'no list known here has numbers of this form'."""
    if case.reasons == ("contradiction",) and not case.waiting:
        return "what was settled and what else is known of the number do not go together"
    return words.reasons_in_words(case.reasons).replace("what you say", "what the asker says").replace(
        "you asked", "the asker asked"
    )  # fmt: skip


def what_to_do(case: Case) -> str:
    """Return what ends a case of which nobody waits for an answer: a contradiction; '' for every other."""
    if not case.is_unsettled or case.reasons != ("contradiction",):
        return ""
    return (
        "If what was settled is wrong, settle it again, or take it back. If a list is wrong, propose a change of it, "
        "and close this case. If both are right, close it."
    )


def what_about(case: Case) -> str:
    """Return what a case is about in a few words: its numbers, or that it has none."""
    return wording.listed(case.serials, "and") if case.numbers else "a machine without a number"


def one_line(case: Case) -> str:
    """Return a case in one line: 'case 12: K0204117 (3 people wait)'."""
    return f"case {case.id}: {what_about(case)} ({people(case.waiting)})"


def people(count: int) -> str:
    """Return 'nobody waits', '1 person waits' or '3 people wait'."""
    if not count:
        return "nobody waits"
    return "1 person waits" if count == 1 else f"{count} people wait"


def asked_by(case: Case) -> str:
    """Return how many wait for a case, or asked it when it is finished: '2 people asked'."""
    if case.is_unsettled:
        return people(case.waiting)
    return {0: "nobody asked", 1: "1 person asked"}.get(case.waiting, f"{case.waiting} people asked")


def waits(case: Case) -> str:
    """Return who waits since when, and what they were promised; '' for a case that is finished."""
    if not case.is_unsettled:
        return ""
    promise = f"; they were told to hear by {day(case.until)}" if case.waiting else ""
    return f"{people(case.waiting).capitalize()}, since {day(case.opened)}{promise}."


def event(one: Event) -> str:
    """Return a change of a case in one line: '25 November 2026 10:14, expert 3: settled (...)'."""
    more = f" ({' '.join(one.more.split())})" if one.more else ""
    return f"{moment(one.at)}, {one.who}: {_SHOWN_EVENT.get(one.what, one.what)}{more}"


def _until(case: Case) -> str:
    if case.state == TAKEN and case.lease is not None:
        return f" by {case.expert} until {moment(case.lease)}"
    return ""


def _listed(head: str, lines: tuple[str, ...] | list[str]) -> Styled:
    if not lines:
        return Styled()
    marked = (line if _NUMBERED.match(line) else f"• {line}" for line in lines)
    return joined([styled(head, "bold"), *map(plain, marked)], "\n")


# --- days


def day(when: datetime) -> str:
    """Return a day by the clock of this computer: '9 December 2026'."""
    local = when.astimezone().date()
    return edtf.in_words(edtf.span(local, local))


def moment(when: datetime) -> str:
    """Return a day and a time by the clock of this computer: '9 December 2026 14:05'."""
    return f"{day(when)} {when.astimezone():%H:%M}"
