"""The words about changes of lists, the same in every channel: proposed, agreed to, turned down, taken back."""

from __future__ import annotations

from bot.changes import ChangeCard
from bot.replies.styled import Styled, joined, plain, styled
from knowledge.register_changes.nouns import IN_FORCE, TAKEN_BACK, TURNED_DOWN
from knowledge.register_changes.parting import MOST
from knowledge.register_changes.reading import HOW

_WAYS = {"telegram": "in the chat", "mail": "by mail", "terminal": "at the terminal"}
_BECAME = {IN_FORCE: "agreed by", TURNED_DOWN: "turned down by", TAKEN_BACK: "taken back by"}

NOTHING_BEFORE = "Nothing is changed before another expert agrees."
AGREED = "Agreed. Change {number} is in force now, for every answer from now on."
TURNED_DOWN_NOW = "Change {number} is turned down. Nothing was changed."
TAKEN_BACK_NOW = "Change {number} is taken back. Nothing was changed."
YOUR_OWN = "You proposed change {number} yourself. A register changes only when another expert agrees."
WHO = (
    "Change {number} was proposed by {proposer}, and it cannot be told that you are two people: {why}. Let an expert "
    "agree who writes in the same way, or whoever runs the bot say that you are two: "
    "bedstamp knowledge experts --different {one} {two}"
)
FORGOTTEN = (
    "Whoever proposed change {number} is not known any more, so it cannot be told that you are two people. Turn it "
    "down, and propose it anew."
)
PROPOSED_ALREADY = "That is change {number}, and it waits already for another expert to agree."
OFFER_GONE = "I do not have that any more. Write the change anew."
OFFER_USED = "You said so before: that is change {number}, {state}. To propose it once more, write it anew."

AGREE_LABEL, TURN_DOWN_LABEL = "I agree", "Turn it down, or take it back"
WAITING_LONG = "Changes of lists that wait for a second expert"
SEE_IT_AGAIN = "Write “change {number}” to me to see it again."
TOLD_BELOW = "Nothing was changed. I wrote below why."
USE_THE_BUTTONS = f"Use the buttons under the change to agree or to turn it down. For another change: {HOW}"
WRITE_A_NEW_ONE = (
    "What you proposed with this message stays as it is: take it back with its button, and write the other change as a "
    "message of its own. Nothing was changed."
)
IN_THE_EXPERTS_CHAT = "Lists are changed in the experts' chat alone, when two experts agree. Nothing was changed."
EXPERTS_ALONE = "Only who belongs to the experts' chat can change a list, and only two of them. Nothing was changed."
TOO_MANY = f"I read {MOST} changes of one message; {{left}} more are left. Send those in another one."


def way(channel: str) -> str:
    """Return how somebody writes: 'in the chat', 'by mail', 'at the terminal'."""
    return _WAYS.get(channel, f"by {channel}")


def may_be_one(one: str, other: str) -> str:
    """Return why experts of two channels may be one person."""
    return f"one writes {way(one)}, the other {way(other)}"


def title(card: ChangeCard) -> str:
    """Return what a change is called, and how it stands: 'Change 7 of a list, proposed'."""
    return f"Change {card.number} of a list, {card.change.state}"


def stands(card: ChangeCard) -> str:
    """Return who proposed it and what became of it: 'Proposed by expert 3 by mail, agreed by expert 5.'"""
    proposed = f"Proposed by {card.change.proposer}{f' {way(card.channel)}' if card.channel else ''}"
    became = f"{_BECAME[card.change.state]} {card.change.other}" if not card.waits else ""
    return f"{', '.join(filter(None, (proposed, became)))}."


def one_line(card: ChangeCard) -> str:
    """Return a change that waits on one line: "change 7, proposed by expert 3: in the list 'Ledger', K1 to K2"."""
    row = card.difference.partition("\n")[0].rstrip(":")
    return f"change {card.number}, proposed by {card.change.proposer}: {row[:1].lower()}{row[1:]}"


def why(card: ChangeCard) -> str:
    """Return the reasons that were told, '' for none."""
    told = [f"Why: {card.change.why}"] if card.change.why else []
    told += [f"Why not: {card.decided_why}"] if card.decided_why else []
    return "\n".join(told)


def who_may_agree(card: ChangeCard, channel: str) -> str:
    """Return who may agree to a change that waits, for the experts of a channel."""
    if card.channel in ("", channel):
        return f"{NOTHING_BEFORE} Whoever proposed it can take it back."
    return (
        f"{NOTHING_BEFORE} It was proposed {way(card.channel)}, so I cannot know that you are somebody else: your word "
        "counts when whoever runs the bot has said that you two are two people."
    )


def shown(card: ChangeCard, channel: str) -> Styled:
    """Return a change with all that experts of a channel need to decide it, or how it was decided."""
    end = who_may_agree(card, channel) if card.waits else _in_the_end(card)
    parts = (plain(card.difference), plain(stands(card)), plain(why(card)), styled(end, "italic"))
    return joined([styled(title(card), "bold"), *parts], "\n\n")


def news(card: ChangeCard) -> str:
    """Return in short what became of a change."""
    return f"Change {card.number} is {card.change.state}. {_in_the_end(card)} {stands(card)}"


def _in_the_end(card: ChangeCard) -> str:
    return "Every answer from now on follows it." if card.change.state == IN_FORCE else "Nothing was changed."
