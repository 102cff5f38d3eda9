"""An answer as chats want it: short in a group, whole in private, with buttons for what may come next.

Nothing here knows a channel; lengths and the shape of buttons are the channel's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bot.replies import words
from bot.replies.datings import Group, Row, datings
from bot.replies.styled import Styled, joined, plain, styled
from knowledge import wording
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import Candidate
from knowledge.cautions import Caution

NUMBERS_IN_A_GROUP = 2
PLACES_IN_A_GROUP = 2
DIGIT_DOUBTS = ("digits", "zero")
"""The questions back that a picture of the number line explains."""

HELP = (
    "I tell how old a sewing machine is by the number stamped on it.\n\n"
    "Type the number as it stands there, with its letters and every zero: a zero in front counts. Say the maker or the "
    "model if you know it. What you cannot read becomes a '?'. You can ask in any sentence: “K 0 204 117, how old is "
    "it?”\n\n"
    "When more than one dating is possible I ask back. Press a button, or type the answer. What the lists cannot "
    "settle is for people who know these machines: I say so."
)
HOW_TO_ASK_HERE = "In a group, reply to one of my messages, name me, or put the number behind {command}."
TYPE_THE_NUMBER = (
    "Put the number behind the command, as it is stamped on the machine, with its letters and every zero: “{command} "
    "K 0 204 117”."
)
PHOTO = (
    "I cannot read numbers off a picture, and a guess would be worse than none. Please type the number that is stamped "
    "on the machine, with its letters and every zero, as a reply to this message."
)
PHOTO_KEPT = "The picture is kept for people who know these machines."
_SAFETY = ("old-wiring",)
_FIRST = (
    "not-a-serial", "other-model", "lists-disagree", "unreadable-digit", "several-makers", "outside-registers",
    "letter-or-digit", "missing-prefix", "count-the-digits", "leading-zero", "several-registers", "inferred",
)  # fmt: skip
"""Which caution matters most, when there is room for one."""
_ASKED_ALREADY = {"digits": ("count-the-digits", "leading-zero"), "zero": ("leading-zero", "count-the-digits"),
                  "letter": ("missing-prefix",), "maker": ("several-makers",)}  # fmt: skip
"""Cautions that say no more than the question back does."""


@dataclass(frozen=True, slots=True)
class Button:
    """A button: its words, and what it does: `0`, `1`, ... choose an answer; the others are in BUTTONS."""

    label: str
    does: str


UNSURE, HOW, ALL, PICTURE, PRIVATE = "u", "h", "a", "p", "q"
BUTTONS = {
    UNSURE: "I don't know",
    HOW: "How I found this",
    ALL: "Every dating",
    PICTURE: "Picture of the number line",
    PRIVATE: "The whole answer, in private",
}


_NO_MORE = Styled()


def short(
    answer: Answer, knowledge: Knowledge, told: frozenset[str] = frozenset(), more: Styled = _NO_MORE
) -> Styled:
    """Return the answer for a group: best datings, where it was made, the caution that matters, the question back.

    `more` is said before the question: that people will look at it.
    """
    numbers = [_number(answer, place, knowledge) for place in range(min(len(answer.tokens), NUMBERS_IN_A_GROUP))]
    left = [token.serial for token in answer.tokens[NUMBERS_IN_A_GROUP:]]
    others = f"Ask me about {wording.listed(left, 'and')} one by one, or in private." if left else ""
    cautions = [plain(one.text) for one in _that_matter(answer, told)]
    return joined(
        [*numbers, plain(others), *_marks(answer, knowledge), _places(answer, knowledge, PLACES_IN_A_GROUP), *cautions,
         _sources(answer, knowledge), _person(answer), more, _question(answer)],
        "\n\n",
    )  # fmt: skip


def whole(
    answer: Answer, knowledge: Knowledge, told: frozenset[str] = frozenset(), more: Styled = _NO_MORE
) -> Styled:
    """Return everything worth saying: for a private chat. For `more` see `short`."""
    numbers = [_number(answer, place, knowledge) for place in range(len(answer.tokens))]
    cautions = [plain(f"• {one.text}") for one in answer.cautions if one.text not in told]
    shown = datings(answer, knowledge)
    many = sum(len(group.rows) for group in shown.groups) > 1
    return joined(
        [*numbers, *_marks(answer, knowledge), _places(answer, knowledge, 100),
         _section("Datings, likeliest first", _rows(shown.groups)) if many else Styled(),
         _section("Please check", cautions), _section("Compare with the machine", _fittings(answer, knowledge)),
         how(answer) if answer.tokens and not told else Styled(),
         _section("Sources", [plain(f"[{at}] {line}") for at, line in enumerate(shown.sources, 1)]),
         _person(answer), more, _question(answer)],
        "\n\n",
    )  # fmt: skip


def how(answer: Answer) -> Styled:
    """Return how the datings were found."""
    return _section("How I found this", [plain(f"• {line}") for line in answer.working])


def every(answer: Answer, knowledge: Knowledge) -> Styled:
    """Return every dating, with its source; it may be very long."""
    shown = datings(answer, knowledge, everything=True)
    sources = [plain(f"[{at}] {line}") for at, line in enumerate(shown.sources, 1)]
    return joined([_section("Every dating", _rows(shown.groups)), _section("Sources", sources)], "\n\n")


def places(answer: Answer, knowledge: Knowledge) -> Styled:
    """Return where the number is found."""
    return _places(answer, knowledge, 100) or plain(words.NO_PLACE)


def drawings(answer: Answer, knowledge: Knowledge) -> dict[str, str]:
    """Return the drawings of those places, each with the names of the machines it is of."""
    found: dict[str, list[str]] = {}
    for one in words.of_machines(answer, knowledge):
        if one.drawing:
            found.setdefault(one.drawing, []).append(words.place_words(one.maker, one.model, knowledge))
    return {drawing: wording.listed(list(dict.fromkeys(names)), "and") for drawing, names in found.items()}


def photo(answer: Answer, knowledge: Knowledge, kept: bool = True) -> Styled:
    """Return what to say to a picture without a number: what to look for and where, and the usual warnings."""
    safety = [plain(one.text) for one in answer.cautions if one.code in _SAFETY]
    named = [knowledge.models.get(id_) for id_ in answer.said.models]
    makers = [knowledge.makers.get(id_) for id_ in answer.said.makers]
    where = [f"{one.name}: {one.where}" for one in (*named, *makers) if one and one.where][:PLACES_IN_A_GROUP]
    looked = [plain(line) for line in where] or [plain(_WHERE_TO_LOOK)]
    return joined([plain(PHOTO), *looked, *safety, plain(PHOTO_KEPT if kept else "")], "\n\n")


_WHERE_TO_LOOK = (
    "On a cast-iron machine it is usually stamped into the bed, near the base of the pillar; on later ones underneath, "
    "on the motor plate or on the pillar (common practice, no source). Unplug an electric one before you tip it, and "
    "mind that the head is heavy. Raised figures are cast with the iron and are not the number."
)


def buttons(answer: Answer, can_draw: bool, without: frozenset[str] = frozenset()) -> list[list[Button]]:
    """Return the rows of buttons under an answer: the question back first, then what else can be shown."""
    choices = answer.ask_back.choices if answer.ask_back else ()
    rows = [[Button(choice, str(place))] for place, choice in enumerate(choices)]
    if sum(len(choice) for choice in choices) <= 30:
        rows = [[button for row in rows for button in row]] if rows else []
    if choices:
        rows.append([Button(BUTTONS[UNSURE], UNSURE)])
    further = [HOW] if answer.tokens else []
    further += [ALL] if len(answer.candidates) > 1 else []
    further += [PICTURE] if can_draw else []
    shown = [Button(BUTTONS[one], one) for one in further if one not in without]
    return [*rows, *(shown[at : at + 2] for at in range(0, len(shown), 2))]


def doubts_the_digits(answer: Answer) -> bool:
    """Whether the question back is one that the number line explains."""
    return answer.ask_back is not None and answer.ask_back.about in DIGIT_DOUBTS


def _number(answer: Answer, place: int, knowledge: Knowledge) -> Styled:
    token = answer.tokens[place]
    counted = words.counted_digits(token, answer.said)
    before, serial, after = counted.partition(token.serial)
    head = plain(before) + styled(serial, "bold") + plain(after)
    candidates = words.as_one(answer.of_token(place))
    if not candidates:
        return head + Styled("\n") + plain("No list known here has it, nor any number one slip away from it.")
    also = words.also_likely(candidates)
    lists = words.beside(candidates, knowledge)
    known_by = (plain(line) for line in (words.grounds(candidates[0], knowledge), lists))
    others = (_also(one, candidates[0], knowledge) for one in also)
    return joined([head, _best(candidates, token.serial, knowledge), *known_by, *others], "\n")


def _best(candidates: Sequence[Candidate], typed: str, knowledge: Knowledge) -> Styled:
    best = candidates[0]
    read = "" if best.serial == typed else f" {best.serial}, {wording.steps_in_words(best.steps)}:"
    return plain(f"{words.how_sure(candidates, knowledge)}:{read} ") + _dating(best, knowledge)


def _also(one: Candidate, best: Candidate, knowledge: Knowledge) -> Styled:
    read = "" if one.serial == best.serial else f" {one.serial}, {wording.steps_in_words(one.steps)}:"
    opening = words.OTHERWISE if words.says_otherwise(one, best) else f"Or{read}"
    return joined([plain(f"{opening} ") + _dating(one, knowledge), plain(words.grounds(one, knowledge))], ". ")


def _dating(one: Candidate, knowledge: Knowledge) -> Styled:
    made = ", ".join(part for part in (words.machine(one, knowledge), _works(one, knowledge)) if part)
    return plain(f"{made}, ") + styled(words.when(one), "bold") + plain(f" ({words.percent(one.likelihood)})")


def _works(one: Candidate, knowledge: Knowledge) -> str:
    works = knowledge.works.get(one.works)
    name = wording.works_name(one, knowledge)
    town = works.place.partition(" (")[0] if works else ""
    return name if not town or town.split(",")[0] in name else f"{name} in {town}"


def _marks(answer: Answer, knowledge: Knowledge) -> Iterator[Styled]:
    """Say what is known of numbers that are no serials, such as patents; or that there is no number at all."""
    is_marked = any(one.passed_over is not None for one in answer.candidates)
    if is_marked or not (answer.tokens or answer.places):
        without = replace(answer, tokens=())
        yield from (plain(line) for line in words.short_answer(without, knowledge))


def _places(answer: Answer, knowledge: Knowledge, most: int) -> Styled:
    found = words.of_machines(answer, knowledge)
    if len(found) > most:
        return plain(words.NO_PLACE.replace("The packs do not tell where the number is found on that machine. ", "")
                     + " It differs by maker: tell me whose name is on the machine.")  # fmt: skip
    lines = [plain(f"• {words.place_words(one.maker, one.model, knowledge)}: {one.text}") for one in found if one.text]
    return _section("Where the number is", lines)


def _that_matter(answer: Answer, told: frozenset[str]) -> Iterator[Caution]:
    new = [one for one in answer.cautions if one.text not in told]
    yield from (one for one in new if one.code in _SAFETY)
    asked = _ASKED_ALREADY.get(answer.ask_back.about, ()) if answer.ask_back else ()
    ranked = [one for code in _FIRST if code not in asked for one in new if one.code == code]
    yield from ranked[:1]
    yield from [one for one in new if one.code == "date-of-allocation"][:1]


def _sources(answer: Answer, knowledge: Knowledge) -> Styled:
    by_token = [words.as_one(answer.of_token(place)) for place in range(min(len(answer.tokens), NUMBERS_IN_A_GROUP))]
    likely = [one for share in by_token for at, one in enumerate(share[:3]) if not at or one.likelihood >= words.ALSO]
    beside = filter(None, (words.listed_beside(share) for share in by_token))
    shown = [one for one in (*likely, *beside) if one.register]  # what experts settled is told with the dating
    titles = list(dict.fromkeys(wording.source_title(one, knowledge) or words.NO_SOURCE for one in shown))
    if titles == [words.NO_SOURCE]:
        return styled(f"{words.NO_SOURCE.capitalize()}.", "italic")
    return styled(f"Source{'s' if len(titles) > 1 else ''}: {'; '.join(titles)}", "italic") if titles else Styled()


def _person(answer: Answer) -> Styled:
    why = words.for_people_who_know(answer)
    if not why or "photo-only" in answer.case:
        return Styled()
    return plain(
        f"The lists cannot settle this: {why}. A clear photo of the number, one of the whole machine and one of every "
        "badge and plate help people who know these machines."
    )


def _question(answer: Answer) -> Styled:
    return styled(answer.ask_back.text, "bold") if answer.ask_back else Styled()


def _section(title: str, lines: Sequence[Styled] | Iterator[Styled]) -> Styled:
    body = joined(lines, "\n")
    return styled(title, "bold") + Styled("\n") + body if body else Styled()


def _rows(groups: Sequence[Group]) -> Iterator[Styled]:
    for group in groups:
        if len(groups) > 1:
            yield styled(group.title, "bold")
        yield from (_row(row) for row in group.rows)
        rest = f"And {group.left_out:,} more, less likely. " if group.left_out else ""
        yield plain(f"{rest}None of these: {group.none_of_these}.")


def _row(row: Row) -> Styled:
    made = ", ".join(part for part in (row.model, row.works) if part)
    head = plain(f"{row.likelihood}  ") + styled(row.serial, "bold")
    return head + plain(f" {made}, {row.date}. {row.block}; {row.found} {row.source}".rstrip())


def _fittings(answer: Answer, knowledge: Knowledge) -> Iterator[Styled]:
    models = dict.fromkeys(one.model for one in answer.candidates if one.likelihood >= words.ALSO and one.model)
    for id_ in list(models)[:3]:
        model = knowledge.models.get(id_)
        fittings = words.parts_of(model) if model else ""
        if model and fittings:
            yield plain(f"• {model.name}: {fittings}")
