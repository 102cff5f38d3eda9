"""The sentences of a reply, the same on a terminal, in mail and in chat."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from knowledge import edtf, wording
from knowledge.agreeing import agrees
from knowledge.answer import Answer
from knowledge.base import Knowledge
from knowledge.candidates import FINDING, INFERRED, Candidate
from knowledge.findings import OPINION
from knowledge.nouns import Model
from knowledge.places import Place
from knowledge.registers.register import cell_list
from knowledge.said import Said
from knowledge.tokens.nouns import SerialToken

ALSO = 0.10
"""Further datings at least this likely are named in the short answer."""
EVEN = 0.5
KNOWN = "The group knows this machine"
KNOWN_OTHERWISE = "Experts settled this number in more than one way. The likeliest"
DOUBTED = "Experts settled this number, but what else is known does not go with it"
OTHERWISE = "An expert says otherwise:"
OPINED = "An expert's opinion, not a record"
MOST_NUMBERS = 4
"""The most numbers of one message that get their own sentences."""

_SURE = ((0.97, "Almost certainly"), (0.75, "Most likely"), (0.50, "Probably"), (0.25, "Perhaps"))
_SHOWN_UNTIL = {"allocation": "allocated", "manufacture": "made"}
EARLIEST = ("grant", "registration")

NO_SOURCE = "the list names no source"
NO_PRICES = "What a machine is worth I do not tell: its state, its model and the place decide that, not the number."
NO_PLACE = (
    "The packs do not tell where the number is found on that machine. On a cast-iron one it is usually stamped into "
    "the bed, near the base of the pillar (common practice, no source). Unplug an electric one before you look."
)

_CASE = {
    "no-token": "there was no serial number in the question",
    "no-register": "no list known here has numbers of this form",
    "outside-registers": "the number lies outside the lists known here",
    "undecided": "several datings fit about equally well",
    "contradiction": "what you say of the machine and what the number says do not go together",
    "photo-only": "it takes eyes on a photo",
    "asked-for-a-person": "you asked for a person",
    "unreadable-mail": "the message could not be read",
}


def percent(likelihood: float) -> str:
    """Return a likelihood for people: never 0 and never 100, for neither is ever meant.

    >>> percent(0.934), percent(0.0004), percent(0.9999)
    ('93%', 'under 1%', 'over 99%')
    """
    if likelihood < 0.01:
        return "under 1%"
    return "over 99%" if likelihood > 0.99 else f"{likelihood:.0%}"


def how_sure(candidates: Sequence[Candidate], knowledge: Knowledge) -> str:
    """Return how sure the best dating is, as the beginning of a sentence about it."""
    best = candidates[0].likelihood
    settled = [one for one in candidates if one.kind == FINDING and one.steps == ("as-typed",)]
    if settled and settled[0] is candidates[0]:
        if best <= EVEN and len(settled) > 1:
            return KNOWN_OTHERWISE
        is_opinion = knowledge.findings.by_key[settled[0].rests_on[0]].kind == OPINION
        return OPINED if is_opinion else KNOWN if best > EVEN else DOUBTED
    for least, words in _SURE:
        if best >= least:
            return words
    if 1 - sum(one.likelihood for one in candidates) > EVEN:
        return "Most likely it is in no list known here. A long shot"
    return "Several datings are about as likely. One of them"


def short_answer(answer: Answer, knowledge: Knowledge) -> list[str]:
    """Return the answer in a sentence or two for each number; it always says how many digits were read."""
    said = [_of_number(answer, place, knowledge) for place in range(min(len(answer.tokens), MOST_NUMBERS))]
    if len(answer.tokens) > MOST_NUMBERS:
        rest = ", ".join(token.serial for token in answer.tokens[MOST_NUMBERS:])
        said.append(f"The other numbers are in the table below: {rest}.")
    said.extend(_of_mark(answer, place, knowledge) for place in _marks(answer))
    if not said and not answer.places:
        said.append(nothing_found(answer))
    if "value" in answer.said.asks:
        said.append(NO_PRICES)
    return said


def _marks(answer: Answer) -> list[int]:
    return sorted({one.passed_over for one in answer.candidates if one.passed_over is not None})


def _of_number(answer: Answer, place: int, knowledge: Knowledge) -> str:
    token, candidates = answer.tokens[place], as_one(answer.of_token(place))
    counted = counted_digits(token, answer.said)
    if not candidates:
        return f"{counted} No list known here has it, nor any number that is one slip away from it."
    best = candidates[0]
    sure = how_sure(candidates, knowledge)
    verb = "is" if sure.endswith(("shot", "them")) else "it is"
    read = "" if best.serial == token.serial else f" {verb} {best.serial}, {wording.steps_in_words(best.steps)}"
    first = f"{counted} {sure}{read}: {dating(best, knowledge)}."
    others = also_likely(candidates)
    lists = beside(candidates, knowledge)
    told = (first, grounds(best, knowledge), lists, *(_or_else(one, best, knowledge) for one in others))
    return " ".join(part for part in told if part)


def also_likely(candidates: Sequence[Candidate]) -> list[Candidate]:
    """Return what is named beside the best dating; what a list says of a settled number is told by `beside`."""
    listed = listed_beside(candidates)
    return [one for one in candidates[1:] if one.likelihood >= ALSO and one is not listed][:2]


def counted_digits(token: SerialToken, said: Said) -> str:
    """Return 'K0204117 has 7 digits, the first a zero.', and that the asker counts otherwise when they do."""
    zero = ", the first a zero" if token.digits.startswith("0") and len(token.digits) > 1 else ""
    unread = ", not all of them readable" if "?" in token.digits else ""
    typed = wording.digits_of(token.digit_count)
    if said.digit_count not in (None, token.digit_count):
        return f"You typed {typed} in {token.serial}{zero}{unread}, and say that {said.digit_count} are stamped."
    return f"{token.serial} has {typed}{zero}{unread}."


def _or_else(one: Candidate, best: Candidate, knowledge: Knowledge) -> str:
    read = "" if one.serial == best.serial else f" {one.serial}, {wording.steps_in_words(one.steps)}:"
    opening = OTHERWISE if says_otherwise(one, best) else "It could also be"
    also = f"{opening}{read} {dating(one, knowledge)} ({percent(one.likelihood)})."
    return f"{also} {grounds(one, knowledge)}".rstrip()


def says_otherwise(one: Candidate, best: Candidate) -> bool:
    """Tell whether a finding is on the very number of which a list or another finding is believed more."""
    return one.kind == FINDING and one.serial == best.serial


def grounds(one: Candidate, knowledge: Knowledge) -> str:
    """Return who settled a dating, when and by what, or what it is inferred from; '' for what a register tells."""
    if one.kind == FINDING:
        return ended(f"Settled by {wording.source_title(one, knowledge)}", one.note)
    return ended(f"No record: it lies {one.source}", one.note) if one.kind == INFERRED else ""


def ended(*sentences: str) -> str:
    """Return sentences that people wrote, each with a full stop at its end."""
    parts = (" ".join(sentence.split()) for sentence in sentences)
    return " ".join(part if part.endswith((".", "!", "?", "…")) else f"{part}." for part in parts if part)


def beside(candidates: Sequence[Candidate], knowledge: Knowledge) -> str:
    """Return what the lists say of a number that experts settled; '' where it is not settled, or in no list."""
    best, listed = candidates[0], listed_beside(candidates)
    if listed is None:
        return ""
    if listed.maker != best.maker and best.maker:
        return f"A list of another maker has this number too: {dating(listed, knowledge)}."
    agreeing = agrees(listed, best, knowledge.findings.by_key[best.rests_on[0]])
    share = f" ({percent(listed.likelihood)})" if listed.likelihood >= ALSO and not agreeing else ""
    return f"The list {'agrees' if agreeing else 'says otherwise'}: {dating(listed, knowledge)}{share}."


def listed_beside(candidates: Sequence[Candidate]) -> Candidate | None:
    """Return the likeliest dating of a list for the very number that experts settled; None where there is none."""
    if not candidates or candidates[0].kind != FINDING:
        return None
    return next((one for one in candidates if one.register and one.serial == candidates[0].serial), None)


def dating(one: Candidate, knowledge: Knowledge) -> str:
    """Return 'Ottrel & Vane Model 9, Hallowmere Works, allocated 2 March 1921'."""
    parts = (machine(one, knowledge), wording.works_name(one, knowledge), when(one))
    return ", ".join(part for part in parts if part)


def machine(one: Candidate, knowledge: Knowledge) -> str:
    """Return maker and model, the maker once: 'Ottrel & Vane Model 9'."""
    maker, model = wording.maker_name(one, knowledge), wording.model_name(one, knowledge)
    if not model:
        return "maker and model not told"
    return model if model.startswith(maker) else f"{maker} {model}".strip()


def as_one(candidates: Sequence[Candidate]) -> list[Candidate]:
    """Return the candidates with those of one block that differ in unreadable places alone taken together, best first.

    One taken together has `?` where its numbers differ, the sum of their likelihoods and no place in the block.
    """
    alike: dict[object, list[Candidate]] = {}
    for place, one in enumerate(candidates):
        filled = "unreadable" in one.steps and (one.first is not None or one.kind == INFERRED)
        block = (one.register, one.first, one.last, one.date, one.model, one.steps, one.reading.prefix, one.rests_on)
        alike.setdefault(block if filled else place, []).append(one)
    return sorted((_together(group) for group in alike.values()), key=lambda one: -one.likelihood)


def _together(group: Sequence[Candidate]) -> Candidate:
    if len(group) == 1:
        return group[0]
    places = zip(*(one.reading.digits for one in group), strict=True)
    digits = "".join(place[0] if len(set(place)) == 1 else "?" for place in places)
    likelihood = sum(one.likelihood for one in group)
    return group[0]._replace(reading=group[0].reading._replace(digits=digits), position=None, likelihood=likelihood)


def when(one: Candidate) -> str:
    """Return the date with what it is the date of; patents and designs give only the earliest one."""
    if not one.date:
        return "no date told"
    if one.object in EARLIEST:
        return not_before(one)
    words = edtf.in_words(one.span)
    if one.kind in (FINDING, INFERRED):
        return words if one.kind == FINDING else f"inferred {words}"
    verb = _SHOWN_UNTIL.get(one.object, "")
    return f"{verb} {_in(words)}".strip()


def not_before(one: Candidate) -> str:
    """Return 'not before 1913' for the start of a span."""
    start = one.span.earliest
    if start == date.min:
        return "date unknown"
    whole_year = (start.month, start.day) == (1, 1)
    return f"not before {start.year if whole_year else edtf.in_words(edtf.span(start, start))}"


def _in(words: str) -> str:
    """Put 'in' before a bare year or month."""
    is_year = len(words) == 4 and words.isdecimal()
    return f"in {words}" if is_year or words[:1].isupper() else words


def _of_mark(answer: Answer, place: int, knowledge: Knowledge) -> str:
    passed = answer.passed_over[place]
    found = [one for one in answer.candidates if one.passed_over == place]
    best = found[0]
    register = knowledge.registers[best.register]
    source = wording.source_title(best, knowledge)
    from_ = f"source: {source}" if source else NO_SOURCE
    dates = "; or ".join(dict.fromkeys(f"{_granted(one)}: {not_before(one)}" for one in found[:3]))
    title = register.title.partition(":")[0] or register.id
    return (
        f"{passed.text} is no serial number. As a number of {title} it was {dates}. "
        f"What carries it was made then or later, often years later ({from_})."
    )


def _granted(one: Candidate) -> str:
    verb = "granted" if one.object == "grant" else "registered"
    return f"{verb} {_in(edtf.in_words(one.span))}"


def nothing_found(answer: Answer) -> str:
    """Return what to say when the text has no serial number: what was passed over, and what to type."""
    passed = [f"{one.text} ({wording.PASSED_OVER[one.because]})" for one in answer.passed_over[:3]]
    seen = f" I passed over {wording.listed(passed, 'and')}." if passed else ""
    return (
        f"I found no serial number in that.{seen} Type the number as it is stamped on the machine, with its letters "
        "and every zero, and the maker or model if you know it."
    )


def parts_of(model: Model) -> str:
    """Return the fittings of a model in one line, to compare with the machine; '' when the pack tells none."""
    named = (
        ("shuttle", model.shuttle), ("bobbin", model.bobbin), ("needle", model.needle), ("bed", model.bed),
        ("drive", model.drive),
    )  # fmt: skip
    return "; ".join(f"{name}: {text}" for name, text in named if text)


def of_machines(answer: Answer, knowledge: Knowledge) -> list[Place]:
    """Return the places without those of patents and designs, unless these were named."""
    others = {one.maker for one in knowledge.registers.values() if not one.is_of_serials}
    serials = {one.maker for one in knowledge.registers.values() if one.is_of_serials}
    left_out = others - serials - set(answer.said.makers)
    return [place for place in answer.places if place.maker not in left_out]


def place_words(maker: str, model: str, knowledge: Knowledge) -> str:
    """Return whose number is found there: 'Ottrel & Vane' or 'Model 58'."""
    known = knowledge.models.get(model) or knowledge.makers.get(maker)
    return known.name if known and known.name else model or maker


def for_people_who_know(answer: Answer) -> str:
    """Return why a person should look at the question; '' when it is settled."""
    return reasons_in_words(answer.case)


def reasons_in_words(reasons: Sequence[str]) -> str:
    """Return the reasons for a case as half a sentence; '' for none."""
    return wording.listed([_CASE.get(reason, reason) for reason in reasons], "and")


def ask_a_person(answer: Answer, to_experts: str = "") -> str:
    """Return what can be done with a question that is not settled; '' when it is.

    `to_experts` tells how it is put to a group's experts, '' for a lone asker.
    """
    why = for_people_who_know(answer)
    if not why:
        return ""
    if to_experts:
        return f"This is one for people who know these machines: {why}. {to_experts}"
    return (
        f"This is one for people who know these machines: {why}. Ask in a collectors' group, and show a clear photo of "
        "the number, one of the whole machine, and one of every badge and plate."
    )


def source_of(one: Candidate, knowledge: Knowledge) -> str:
    """Return where a dating is known from, in words."""
    return grounds(one, knowledge) or source_line(one.source, knowledge)


def source_line(cell: str, knowledge: Knowledge) -> str:
    """Return the sources that a cell names in words, or that it names none."""
    return "; ".join(_one_source(id_, knowledge) for id_ in cell_list(cell)) or f"{NO_SOURCE.capitalize()}."


def _one_source(source: str, knowledge: Knowledge) -> str:
    known = knowledge.sources.get(source)
    if known is None:
        return source
    author = "" if known.author.casefold() in known.title.casefold() else known.author
    parts = [known.title, author, known.year.replace("/", " to "), known.locator]
    line = ", ".join(part for part in parts if part)
    return f"{line}. {known.reliability[:1].upper()}{known.reliability[1:]}" if known.reliability else line
