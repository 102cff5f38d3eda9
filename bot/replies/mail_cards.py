"""What experts read in mail: the card of a case, what was understood of their answer, the digest, and reports."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.cases import Card, Case
from bot.changes import ChangeCard
from bot.replies import cards, changes
from bot.replies.mail_letters import Block, Letter, link, listed, picture, quoted, said

OPENING = "This mail is for the experts of the group."
CLOSING = "A program wrote this mail, and it keeps nothing of your answer that it has not shown to you."
"""The first and the last sentence of everything that experts get, by which a copy of it is known again."""
HOW_TO_SETTLE = (
    "Reply to this mail with what you know, in your own words, above the quote: Model 9, about 1911, by the shuttle; "
    "see ledger p. 40. I write back what I understood, and keep it only when you say yes to that."
)
HOW_TO_DO_ELSE = '"Ask whether there is a letter in front" goes to whoever asked. "Not for us" closes the case.'
YOURS_ALONE = (
    "Please leave the subject as it is. The address in it was made for you alone: an answer from another mailbox, or "
    "one that is passed on, does not count."
)
HOW_TO_AGREE = (
    "Reply to this mail with yes to agree: it is in force from then on. With no, and behind it why, you turn it down; "
    "whoever proposed it takes it back so."
)
OFFER_TITLE = "Your change of a list"
_WARNING = "Look at this:"
_MOST_TEXT = 3_000  # characters of a question that are shown
_MOST_HISTORY = 8


@dataclass(frozen=True, slots=True)
class Pictures:
    """How many pictures of the asker are attached, and how many there are that are not."""

    attached: int = 0
    elsewhere: int = 0


def card_letter(card: Card, group: str, pictures: Pictures, picture_words: str = "") -> Letter:
    """Return the card of a case as a letter."""
    case = card.case
    history = tuple(map(cards.event, card.history[-_MOST_HISTORY:])) if len(card.history) > 1 else ()
    blocks = (
        said(card.note, f"Why it is hard: {cards.why(case)}.", cards.what_to_do(case), cards.waits(case)),
        quoted("What was asked", case.text[:_MOST_TEXT]) if case.text else said("The asker sent no words."),
        said(_photos(pictures)),
        listed("What was read", case.reading),
        picture(picture_words),
        *(quoted(f"Said since. {cards.who_said(one).rstrip(':')}", one.text[:_MOST_TEXT]) for one in card.said),
        listed("Stored", card.found),
        listed("Open cases like it", tuple(map(cards.one_line, card.similar))),
        listed("What was done", history),
        said(HOW_TO_SETTLE, HOW_TO_DO_ELSE, YOURS_ALONE, title="How to answer"),
    )
    return Letter(OPENING, title(case), blocks, closing(group))


def read_letter(text: str, words: str, case: Case, group: str, yes: str, amends: bool = False) -> Letter:
    """Return what was understood of an answer as a letter. Nothing of it is kept before the expert says yes.

    `text` says what was understood, `words` is what the expert wrote; `yes` is where a press on yes leads, '' where
    nothing can be kept.
    """
    head, *facts = text.split("\n")
    keep = "Is that right? Then reply with yes, and I keep it. Nothing is kept before."
    if amends:
        keep += " The case was settled before: yours then takes the place of what is kept."
    blocks = (
        listed("", facts) if yes else said(text),
        said(keep if yes else ""),
        link("Yes, keep it", yes) if yes else said(),
        said("Not quite? Write it again in a reply to this mail, and I read it anew." if yes else ""),
        quoted("You wrote", words[:_MOST_TEXT]),
    )
    lead = head.rstrip(":") if yes else f"Your answer to case {case.id}"
    return Letter(OPENING, lead, blocks, closing(group))


def change_letter(card: ChangeCard, note: str, group: str, yes: str) -> Letter:
    """Return a change of a list that waits for an expert to agree, as a letter. `yes` is where a press on yes leads."""
    blocks = (
        said(note, changes.stands(card)),
        *_difference(card.difference),
        said(changes.why(card)),
        said(changes.who_may_agree(card, "mail"), HOW_TO_AGREE, YOURS_ALONE, title="How to answer"),
        link("Yes, I agree", yes),
    )
    return Letter(OPENING, changes.title(card), blocks, closing(group))


def change_told(card: ChangeCard) -> str:
    """Return what became of a change, for those who got it as a letter."""
    return "\n".join(filter(None, (changes.news(card), changes.why(card), card.difference)))


def offer_letter(difference: str, why: str, group: str, yes: str) -> Letter:
    """Return what an expert's words would change as a letter to them alone; nothing is proposed before their yes."""
    blocks = (
        *_difference(difference),
        said(f"Why: {why}" if why else ""),
        said("Is that right? Then reply with yes, and I put it before the other experts.", changes.NOTHING_BEFORE),
        link("Yes, propose it", yes),
        said("Not quite? Write it again in a reply to this mail, and I read it anew."),
    )
    return Letter(OPENING, OFFER_TITLE, blocks, closing(group))


def _difference(text: str) -> tuple[Block, ...]:
    """Return a difference as blocks: the row, what changes in it, and what the checks warn of."""
    head, *rest = text.split("\n")
    warnings = [line for line in rest if line.startswith(_WARNING)]
    return listed(head, [line.strip() for line in rest if line not in warnings]), said(*warnings)


def told_letter(lead: str, text: str, group: str) -> Letter:
    """Return a short letter to an expert: what came of what they wrote."""
    return Letter(OPENING, lead, (said(*text.split("\n")),), closing(group))


def digest_letter(
    new: Sequence[Case],
    remind: Sequence[Case],
    waiting: int,
    longest: Case | None,
    group: str,
    waiting_changes: Sequence[ChangeCard] = (),
) -> Letter:
    """Return the digest of a day: what is new, and what has waited so long that experts are reminded."""
    lead = f"{waiting:,} {'case waits' if waiting == 1 else 'cases wait'} for an answer"
    if not waiting and waiting_changes:
        lead = changes.WAITING_LONG
    oldest = f"The oldest is case {longest.id}, from {cards.day(longest.opened)}." if longest else ""
    blocks = (
        said(oldest),
        listed("Waiting long", tuple(map(_line, remind))),
        listed("New", tuple(map(_line, new))),
        *_waiting_changes(waiting_changes),
        said(
            "Reply to the mail of a case to answer it. You can also reply to this one and begin with the number: "
            "case 12: Model 9, about 1911, by the shuttle.",
            YOURS_ALONE,
            title="How to answer",
        ),
    )
    return Letter(OPENING, lead, blocks, closing(group))


def _waiting_changes(waiting: Sequence[ChangeCard]) -> tuple[Block, ...]:
    if not waiting:
        return ()
    how = changes.SEE_IT_AGAIN.format(number=waiting[0].number)
    return listed(changes.WAITING_LONG, tuple(map(changes.one_line, waiting))), said(how)


def title(case: Case) -> str:
    """Return what a case is called, also in subjects."""
    return f"Case {case.id}: {cards.what_about(case)}"


def closing(group: str) -> tuple[str, ...]:
    """Return the last sentences of every mail to an expert."""
    return (CLOSING, f"You get this because you are an expert of {group}.")


def _line(case: Case) -> str:
    why = cards.why(case)
    return f"{title(case)}. {why[:1].upper()}{why[1:]}. {cards.waits(case)}"


def _photos(pictures: Pictures) -> str:
    told = []
    if pictures.attached:
        told.append("A photo is attached." if pictures.attached == 1 else f"{pictures.attached} photos are attached.")
    if pictures.elsewhere:
        many = "One photo" if pictures.elsewhere == 1 else f"{pictures.elsewhere} photos"
        told.append(f"{many} came with it that I cannot attach here.")
    return " ".join(told)
