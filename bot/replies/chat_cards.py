"""What experts read in their chat beside the words of cards.py: buttons, what was understood, the digest, refusals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.cases import ASKED_BACK, OPEN, SETTLED, TAKEN, Card, Case
from bot.changes import ChangeCard
from bot.replies import cards, changes
from bot.replies.chat import Button
from bot.replies.styled import Styled, joined, plain, shortened, styled, units
from knowledge.expert_answers import ASK_BACK, NOT_OURS

TAKE, GIVE_BACK, ASK, SETTLE, NOT_FOR_US, NONE_FOR_US, NOT_SO, SHOW = "t", "g", "a", "s", "n", "y", "w", "c"
"""What the buttons under a card do."""
YES = "y"
"""What the button under an understood answer does: as it says, and nothing else."""
LABELS = {
    TAKE: "Take it",
    GIVE_BACK: "Give it back",
    ASK: "Ask the asker",
    SETTLE: "Settle",
    NOT_FOR_US: "Not for us",
    NONE_FOR_US: "Yes, none for us",
    NOT_SO: "It does not hold",
}
_BY_STATE = {
    OPEN: ((TAKE, ASK), (SETTLE, NOT_FOR_US)),
    TAKEN: ((GIVE_BACK, ASK), (SETTLE, NOT_FOR_US)),
    ASKED_BACK: ((SETTLE, NOT_FOR_US),),
    SETTLED: ((NOT_SO,),),
}
_SAYS_YES = {ASK_BACK: "Yes, ask that", NOT_OURS: "Yes, close it"}
STORE, PUT_IN_PLACE = "Yes, store it", "Yes, put it in its place"
_MOST_LINES, _MOST_SAID, _LONG = 12, 4, 400

HOW_TO_SETTLE = "Reply with what you know, in your own words. You see what I understood before anything is stored."
TAKE_BACK = (
    "Reply to this with the reason, and what is stored counts no more; whoever waited for it hears of it. If you "
    "know how it really is, reply to the card with that instead."
)
EXPERTS_ALONE = (
    "Only who belongs to the experts' chat can do that. Nothing was changed. If you know something about the machine, "
    "write it to the asker, or ask an expert to bring it in."
)
IN_THE_EXPERTS_CHAT = "Cases are settled in the experts' chat, as a reply to the card there. Nothing was changed."
WRITE_AS_YOURSELF = (
    "I cannot tell who wrote that: it was sent in the name of a chat or by way of another bot. What is stored has an "
    "author, so please write it as yourself. Nothing was changed."
)
IN_YOUR_OWN_WORDS = "That is passed on from somebody else. Please write it in your own words. Nothing was changed."
NO_WORDS = "I cannot read pictures. Please write what you know in words, as a reply to the card."
ANOTHER_DAY = (
    "I could not find out just now who belongs to the experts' chat, so nothing was changed. Please send that again in "
    "a minute."
)
NONE_OF_MINE = "This button is none of mine, or too old. Use the ones under the card."
PASSED_ON = "Thank you. I passed it on to the people who look at your question (case {case})."


def card(whole: Card, longest: int) -> Styled:
    """Return a card of at most `longest` UTF-16 units. What is too much goes first where it is missed least."""
    how = styled(HOW_TO_SETTLE, "italic") if whole.case.is_unsettled else Styled()
    for one in (whole, _smaller(whole, 2), _smaller(whole, 6)):
        text = joined([cards.card(one), how], "\n\n")
        if units(text.text) <= longest:
            return text
    return shortened(text, longest)


def _smaller(whole: Card, by: int) -> Card:
    """Return a card with less of everything: the first datings, the last words, the beginning of what was asked."""
    case, most = whole.case, _MOST_LINES // by
    reading = case.reading[:most] + ((f"and {len(case.reading) - most} more",) if len(case.reading) > most else ())
    said = tuple(replace(one, text=_cut(one.text, _LONG // by)) for one in whole.said[-_MOST_SAID:])
    reading = tuple(_cut(one, _LONG // by) for one in reading)
    small = replace(case, text=_cut(case.text, 2 * _LONG // by), reading=reading)
    found = tuple(_cut(one, _LONG // by) for one in whole.found[:most])
    return replace(whole, case=small, said=said, similar=whole.similar[:3], found=found)


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


def buttons(case: Case) -> list[list[Button]]:
    """Return the buttons under a card, as its state allows; where nobody waits, nobody can be asked."""
    rows = ([one for one in row if case.waiting or one != ASK] for row in _BY_STATE.get(case.state, ()))
    return [[Button(LABELS[one], one) for one in row] for row in rows]


def says_yes(kind: str, amends: bool) -> str:
    """Return the words of the one button under what was understood."""
    return _SAYS_YES.get(kind) or (PUT_IN_PLACE if amends else STORE)


def understood(text: str) -> Styled:
    """Return what was understood, with the way to put it right."""
    return joined([plain(text), styled("Not so? Write it again, as a reply to this.", "italic")], "\n\n")


def prompt(does: str, case: Case) -> Styled:
    """Return what a button says to be written, as a reply to the message with these words."""
    if does == ASK:
        return plain(f"Case {case.id}: reply to this with the question, and I put it to the asker as you write it.")
    if does == NOT_SO:
        return plain(f"Case {case.id}: {TAKE_BACK}")
    if does == NOT_FOR_US:
        waits = cards.people(case.waiting).capitalize()
        return plain(f"Close case {case.id} as none for this group? {waits}; whoever asked is told so.")
    return plain(f"Case {case.id}: {cards.HOW_TO_SETTLE}")


def told(notice: str, quoted: str) -> Styled:
    """Return what somebody who waits is told, with the beginning of what they had asked."""
    asked = styled(f"You asked: {quoted}", "italic") if quoted else Styled()
    return joined([plain(notice), asked], "\n\n")


def digest(
    new: Sequence[Case], remind: Sequence[Case], waiting: int, waiting_changes: Sequence[ChangeCard] = ()
) -> Styled:
    """Return the digest of a day: what came since the last one, what has waited long, and how much there is in all."""
    left = waiting - len(new) - len(remind)
    return joined(
        [_cases("New", new), _cases("Waiting for long", remind),
         plain(f"And {left} more that wait." if left > 0 else ""), _changes(waiting_changes)],
        "\n\n",
    )  # fmt: skip


def _changes(waiting: Sequence[ChangeCard]) -> Styled:
    if not waiting:
        return Styled()
    lines = [plain(f"• {changes.one_line(one)}") for one in waiting]
    how = plain(changes.SEE_IT_AGAIN.format(number=waiting[0].number))
    return joined([styled(changes.WAITING_LONG, "bold"), *lines, how], "\n")


def _cases(head: str, cases: Sequence[Case]) -> Styled:
    if not cases:
        return Styled()
    lines = [plain(f"• {cards.one_line(one)}, since {cards.day(one.opened)}") for one in cases]
    return joined([styled(head, "bold"), *lines], "\n")


def attempt(who: str, what: str) -> Styled:
    """Return what experts hear of somebody who tried what only they may. `who` is as the channel knows them."""
    return plain(f"Somebody who does not belong to this chat ({who}) {what}. Nothing was changed.")
